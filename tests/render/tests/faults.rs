//! Each faulty photo really has its fault, and its sound sister has not.

use scene_render::Rendered;
use scene_render::colour::{delta_e_00, lab_from_xyz, xyz_from_lab};
use scene_render::develop::{Picture, decode};
use scene_render::spec::fault::{Fault, render_faulty, render_sound, sound, spec_of};
use scene_render::spec::{Space, Tone};
use scene_render::truth::{Region, zone_pixels};
use scene_render::world::World;

const SIZE: [u32; 2] = [420, 280];

fn faulty(fault: Fault, seed: u64) -> Rendered {
    render_faulty(fault, seed, SIZE).unwrap()
}

fn linear(p: &Picture, x: i64, y: i64) -> [f64; 3] {
    // Both spaces of these photos have the same curve.
    p.rgb[y as usize * p.w + x as usize].map(|v| decode(Space::Srgb, f64::from(v)))
}

fn patch(outline: &[[f64; 2]]) -> Region {
    Region {
        id: String::new(),
        kind: String::new(),
        name: String::new(),
        outline: outline.to_vec(),
        cervical: [0.0, -1e9],
        incisal: [0.0, 1e9],
        visible_share: 1.0,
    }
}

/// Linear pixels of the card's steps.
fn card(r: &Rendered) -> Vec<Vec<[f64; 3]>> {
    let c = r.truth.scene.card.as_ref().unwrap();
    let mut outlines: Vec<&Vec<[f64; 2]>> = c.steps.iter().map(|s| &s.outline).collect();
    if outlines.is_empty() {
        outlines.push(&c.outline);
    }
    let pixels = |o: &Vec<[f64; 2]>| {
        zone_pixels(&patch(o), 1)
            .iter()
            .map(|&(x, y, _)| linear(&r.plain.picture, x, y))
            .collect()
    };
    outlines.into_iter().map(pixels).collect()
}

fn mean(list: &[[f64; 3]]) -> [f64; 3] {
    let n = list.len().max(1) as f64;
    list.iter()
        .fold([0.0; 3], |s, p| std::array::from_fn(|c| s[c] + p[c] / n))
}

fn teeth(r: &Rendered) -> impl Iterator<Item = &Region> {
    r.truth.scene.regions.iter().filter(|q| q.kind != "tab")
}

/// Share of a region's pixels with a channel at the top.
fn clipped(r: &Rendered, q: &Region) -> f64 {
    let pixels = zone_pixels(q, 1);
    let full = pixels
        .iter()
        .filter(|&&(x, y, _)| linear(&r.plain.picture, x, y).iter().any(|v| *v > 0.985))
        .count();
    full as f64 / pixels.len().max(1) as f64
}

/// Steepest steps of brightness (99.9th percentile) in the whole picture.
fn crispness(p: &Picture) -> f64 {
    let mut steps: Vec<f64> = (0..p.h as i64 - 1)
        .flat_map(|y| (0..p.w as i64 - 1).map(move |x| (x, y)))
        .map(|(x, y)| {
            let v = |x, y| f64::from(p.rgb[y as usize * p.w + x as usize][1]);
            (v(x + 1, y) - v(x, y)).hypot(v(x, y + 1) - v(x, y))
        })
        .collect();
    steps.sort_by(f64::total_cmp);
    steps[steps.len() * 999 / 1000]
}

/// Red over blue, and all, of the light on the face of a tooth.
fn light_on(world: &World, fdi: u8) -> Option<(f64, f64)> {
    let id = format!("tooth-{fdi}");
    let body = world.bodies.iter().find(|b| b.id == id)?;
    let b = body.bounds;
    let (mut sum, mut n) = ([0.0; 3], 0.0);
    for j in 30..70 {
        for i in 30..70 {
            let (x, y) = (
                b[0] + (b[2] - b[0]) * i as f32 / 100.0,
                b[1] + (b[3] - b[1]) * j as f32 / 100.0,
            );
            let own = body.place.own(x, y);
            let form = body.form.read(own[0], own[1]);
            if form[0] < -0.5 {
                let lit = world.lit(body, x, y, own, form);
                for l in 0..4 {
                    for (s, white) in sum.iter_mut().zip(world.white_raw[l]) {
                        *s += f64::from(lit.light[l] * white);
                    }
                }
                n += 1.0;
            }
        }
    }
    let total = world.white_raw.iter().take(3).fold(0.0, |s, w| s + w[1]);
    assert!(total > 0.0);
    Some((sum[0] / sum[2], sum[1] / n))
}

#[test]
fn every_fault_renders_with_teeth_and_tabs() {
    for &fault in Fault::ALL {
        let r = faulty(fault, 3);
        assert!(r.plain.bytes.len() > 2_000, "{fault:?}");
        assert_eq!(
            r.truth.scene.card.is_none(),
            fault == Fault::CardMissing,
            "{fault:?}"
        );
        assert!(teeth(&r).count() >= 1, "{fault:?}");
        let tabs = r.truth.scene.regions.iter().filter(|q| q.kind == "tab");
        assert_eq!(tabs.count(), r.truth.spec.tabs.len(), "{fault:?}");
        let pair = matches!(fault, Fault::PairMisaligned | Fault::PairTimes);
        assert_eq!(r.polarised.is_some(), pair, "{fault:?}");
        assert_eq!(
            r.truth.misnamed.is_some(),
            fault == Fault::TabContradicts,
            "{fault:?}"
        );
    }
}

#[test]
fn sound_photos_are_neither_clipped_nor_dark() {
    for seed in 1..=6 {
        let r = render_sound(seed, SIZE, false).unwrap();
        for step in card(&r) {
            let m = mean(&step);
            let top = step.iter().flatten().filter(|v| **v > 0.985).count();
            assert!(m[1] > 0.009 && m.iter().all(|v| *v < 0.93), "{seed}: {m:?}");
            assert!(top * 50 <= step.len(), "{seed}: {top} of {}", step.len());
        }
        for q in &r.truth.scene.regions {
            let share = clipped(&r, q);
            assert!(share < 0.25, "{seed} {}: {share:.2} clipped", q.id);
        }
        let s = &r.truth.spec;
        assert!(s.tone == Tone::Tagged && s.output.profile && s.tabs.len() >= 2);
    }
}

#[test]
fn cards_are_clipped_dark_or_turned() {
    for seed in 1..=3 {
        let r = faulty(Fault::CardClipped, seed);
        let pixels = &card(&r)[0];
        let full = pixels.iter().filter(|p| p.iter().any(|v| *v > 0.985));
        assert!(full.count() * 10 > pixels.len() * 9, "{seed}");
        for q in teeth(&r) {
            assert!(clipped(&r, q) < 0.3, "{seed} {}", q.id);
        }

        let r = faulty(Fault::CardDark, seed);
        for m in card(&r).iter().map(|s| mean(s)) {
            assert!(m.iter().all(|v| *v < 0.009), "{seed}: {m:?}");
        }

        let r = faulty(Fault::CardTilted, seed);
        let turned = r.truth.spec.card.as_ref().unwrap();
        let mut flat = r.truth.spec.clone();
        flat.card.as_mut().unwrap().tilt_deg = [0.0, 0.0];
        let flat = scene_render::render(&flat).unwrap();
        let area = |r: &Rendered| {
            scene_render::truth::outline::area(r.truth.card_outline.as_ref().unwrap()).abs()
        };
        let want: f64 = turned
            .tilt_deg
            .iter()
            .map(|t| t.to_radians().cos())
            .product();
        let got = area(&r) / area(&flat);
        assert!((got / want - 1.0).abs() < 0.02, "{seed}: {got} {want}");
        let level = |r: &Rendered| mean(&card(r)[0])[1];
        let k = level(&r) / level(&flat);
        assert!((k - 1.0).abs() > 0.03, "{seed}: light {k} as flat");
    }
}

#[test]
fn textured_cards_are_uneven() {
    let spread = |r: &Rendered| {
        let step = &card(r)[0];
        let m = mean(step)[1];
        (step.iter().map(|p| (p[1] / m - 1.0).powi(2)).sum::<f64>() / step.len() as f64).sqrt()
    };
    for seed in 3..=5 {
        let plain = spread(&render_sound(seed, SIZE, false).unwrap());
        let got = spread(&faulty(Fault::CardTextured, seed));
        println!("{seed}: {got:.3} against {plain:.3}");
        assert!(got > 0.10 && got > 1.5 * plain, "{seed}: {got} {plain}");
    }
}

#[test]
fn cards_that_are_not_neutral_claim_to_be() {
    for seed in 1..=4 {
        let made = spec_of(Fault::CardNotNeutral, seed, SIZE);
        let said = faulty(Fault::CardNotNeutral, seed);
        let is = scene_render::render(&made.spec).unwrap();
        let (said, is) = (said.truth.scene.card.unwrap(), is.truth.scene.card.unwrap());
        if seed == 4 {
            let (a, b) = (said.lab.unwrap(), is.lab.unwrap());
            assert!(
                a[1] == 0.0 && a[2] == 0.0 && b[1].hypot(b[2]) > 6.0,
                "{b:?}"
            );
            continue;
        }
        assert!(said.steps.len() >= 3);
        let white = scene_render::colour::white_d65();
        let pairs: Vec<_> = said
            .steps
            .iter()
            .zip(&is.steps)
            .map(|(a, b)| (xyz_from_lab(a.lab, white), xyz_from_lab(b.lab, white)))
            .collect();
        // What one gain per channel cannot explain.
        let gain: [f64; 3] = std::array::from_fn(|c| {
            let n = pairs.len() as f64;
            (pairs.iter().map(|(a, b)| (a[c] / b[c]).ln()).sum::<f64>() / n).exp()
        });
        let worst = pairs
            .iter()
            .map(|(a, b)| {
                let b = std::array::from_fn(|c| b[c] * gain[c]);
                delta_e_00(lab_from_xyz(*a, white), lab_from_xyz(b, white))
            })
            .fold(0.0, f64::max);
        println!("{seed}: {worst:.1}");
        assert!(worst > 3.0, "{seed}: {worst}");
        assert!(
            said.steps
                .iter()
                .all(|s| s.lab[1] == 0.0 && s.lab[2] == 0.0)
        );
    }
}

#[test]
fn teeth_are_clipped_dark_or_small() {
    for seed in 1..=3 {
        let r = faulty(Fault::ToothClipped, seed);
        let worst = teeth(&r).map(|q| clipped(&r, q)).fold(0.0, f64::max);
        assert!(worst > 0.4, "{seed}: {worst}");
        assert!(mean(&card(&r)[0]).iter().all(|v| *v < 0.9), "{seed}");

        let r = faulty(Fault::ToothDark, seed);
        let level = mean(&card(&r)[0])[1];
        assert!(level > 0.05, "{seed}: card {level}");
        for q in teeth(&r) {
            let zones = &r.truth.zones[&q.id];
            let l = zones["middle"].lab_shaded[0];
            assert!(l < 25.0, "{seed} {}: L* {l}", q.id);
        }
        for q in r.truth.scene.regions.iter().filter(|q| q.kind == "tab") {
            let l = r.truth.zones[&q.id]["incisal"].lab_shaded[0];
            assert!(l > 45.0, "{seed} {}: L* {l}", q.id);
        }

        let r = faulty(Fault::ToothSmall, seed);
        let few = teeth(&r)
            .map(|q| {
                let pixels = zone_pixels(q, 1);
                (0..3)
                    .map(|z| pixels.iter().filter(|p| p.2 == z).count())
                    .min()
                    .unwrap()
            })
            .min()
            .unwrap();
        assert!((10..200).contains(&few), "{seed}: {few}");
    }
}

#[test]
fn dark_blurred_and_shaken_photos_are() {
    for seed in 1..=3 {
        let good = render_sound(seed, SIZE, false).unwrap();
        let level = mean(&card(&faulty(Fault::UnderExposed, seed))[0])[1];
        let gain = 0.184 / level;
        assert!(gain > 7.0 && level > 0.009, "{seed}: {gain} {level}");
        let sharp = crispness(&good.plain.picture);
        // At this size a pixel is 0.15 mm: blur of 0.13 mm and more is little, shake is plain.
        for (fault, most) in [(Fault::Blur, 0.80), (Fault::Shake, 0.80)] {
            let got = crispness(&faulty(fault, seed).plain.picture) / sharp;
            println!("{fault:?} {seed}: {got:.2}");
            assert!(got < most, "{fault:?} {seed}: {got}");
        }
    }
}

#[test]
fn light_falls_off_or_is_mixed_or_far_from_the_balance() {
    for seed in 1..=4 {
        let across = |fault: Option<Fault>| {
            let spec = match fault {
                Some(f) => spec_of(f, seed, SIZE).spec,
                None => sound(seed, SIZE, false),
            };
            let world = World::build(&spec, None);
            let (a, b) = (light_on(&world, 12).unwrap(), light_on(&world, 22).unwrap());
            let ratio = |x: f64, y: f64| (x / y).max(y / x);
            (ratio(a.0, b.0), ratio(a.1, b.1))
        };
        let (none, uneven, mixed) = (
            across(None),
            across(Some(Fault::LightUneven)),
            across(Some(Fault::LightMixed)),
        );
        println!("{seed}: sound {none:.2?} uneven {uneven:.2?} mixed {mixed:.2?}");
        assert!(uneven.1 > 1.25 && uneven.0 < 1.02, "{seed}: {uneven:?}");
        assert!(mixed.0 > 1.20, "{seed}: {mixed:?}");
        assert!(none.0 < 1.02, "{seed}: {none:?}");

        let r = faulty(Fault::CastStrong, seed);
        let m = mean(&card(&r)[0]);
        let cast =
            m.iter().copied().fold(0.0, f64::max) / m.iter().copied().fold(f64::INFINITY, f64::min);
        println!("{seed}: cast {cast:.2} {m:.3?}");
        assert!(cast > 3.0, "{seed}: {m:?}");
    }
}

fn has(bytes: &[u8], what: &[u8]) -> bool {
    bytes.windows(what.len()).any(|w| w == what)
}

#[test]
fn treatments_leave_their_marks() {
    for seed in 1..=2 {
        let good = render_sound(seed, SIZE, false).unwrap();
        let chroma = |r: &Rendered| {
            let p = &r.plain.picture;
            p.rgb
                .iter()
                .map(|v| f64::from((v[0] - v[2]).abs()))
                .sum::<f64>()
                / p.rgb.len() as f64
        };
        let r = faulty(Fault::Processed, seed);
        assert!(chroma(&r) > 1.05 * chroma(&good), "{seed}");
        let t = r.truth.spec.treatment.as_ref().unwrap();
        let told = t.words.software.is_some() || t.words.custom_rendered == 1;
        assert_eq!(told, seed % 2 == 1);
        if let Some(name) = &t.words.software {
            assert!(has(&r.plain.bytes, name.as_bytes()));
        }

        let r = faulty(Fault::DigitalZoom, seed);
        let zoom = r
            .truth
            .spec
            .treatment
            .as_ref()
            .unwrap()
            .words
            .digital_zoom
            .unwrap();
        // Tag 0xa404, rational, one value.
        assert!(has(&r.plain.bytes, &[0xa4, 0x04, 0, 5, 0, 0, 0, 1]));
        let got = crispness(&r.plain.picture) / crispness(&good.plain.picture);
        assert!(got < 0.9, "{seed}: zoom {zoom} crispness {got}");
        assert_eq!((r.plain.picture.w, r.plain.picture.h), (420, 280));

        let r = faulty(Fault::Recompressed, seed);
        assert!(!has(&r.plain.bytes, b"Exif\0") && !has(&r.plain.bytes, b"ICC_PROFILE"));
        assert!(r.truth.spec.output.quality <= 70);
    }
    let r = spec_of(Fault::Recompressed, 1, [2400, 1600]).spec;
    assert_eq!((r.width_px, r.height_px), (1600, 1067));
}

#[test]
fn zoomed_pictures_still_fit_their_truth() {
    for fault in [Fault::DigitalZoom, Fault::Recompressed] {
        let r = faulty(fault, 2);
        let good = render_sound(2, SIZE, false).unwrap();
        for (a, b) in card(&r).iter().zip(card(&good)) {
            let (a, b) = (mean(a)[1], mean(&b)[1]);
            assert!((a / b - 1.0).abs() < 0.03, "{fault:?}: {a} {b}");
        }
    }
}

#[test]
fn surfaces_and_names_and_pairs_disagree() {
    // Mirrored light on the tabs against that on the teeth.
    let shine = |r: &Rendered, kind: &str| {
        let (mut high, mut n) = (0.0, 0.0);
        for q in r
            .truth
            .scene
            .regions
            .iter()
            .filter(|q| (q.kind == "tab") == (kind == "tab"))
        {
            let mut y: Vec<f64> = zone_pixels(q, 1)
                .iter()
                .map(|&(x, y, _)| linear(&r.plain.picture, x, y)[1])
                .collect();
            y.sort_by(f64::total_cmp);
            high += y[y.len() * 97 / 100] / y[y.len() / 2];
            n += 1.0;
        }
        high / n
    };
    let (dry, good) = (
        faulty(Fault::SurfaceUnlike, 2),
        render_sound(2, SIZE, false).unwrap(),
    );
    let (tab, tooth) = (shine(&dry, "tab"), shine(&dry, "tooth"));
    let was = (shine(&good, "tab"), shine(&good, "tooth"));
    println!(
        "tabs {tab:.2} (sound {:.2}), teeth {tooth:.2} (sound {:.2})",
        was.0, was.1
    );
    assert!(tab < was.0 && tooth > was.1);
    let away = spec_of(Fault::SurfaceUnlike, 1, SIZE).spec;
    assert!(away.tabs.iter().all(|t| t.z_mm.abs() >= 8.0));

    for seed in 1..=3 {
        let t = faulty(Fault::TabContradicts, seed).truth;
        let id = t.misnamed.as_ref().unwrap();
        let region = t.scene.regions.iter().find(|q| q.id == *id).unwrap();
        assert!(t.scene.regions.iter().filter(|q| q.kind == "tab").count() >= 4);
        assert_ne!(format!("tab-{}", region.name), *id);
        for q in t.scene.regions.iter().filter(|q| q.kind == "tab") {
            let d = delta_e_00(t.guide[&q.name]["middle"], t.zones[&q.id]["middle"].lab);
            assert_eq!(d > 2.5, q.id == *id, "{}: {d}", q.id);
        }
    }

    let r = faulty(Fault::PairMisaligned, 1);
    let own = render_sound(1, SIZE, true).unwrap();
    assert!(r.plain.bytes == own.plain.bytes && r.truth.pair.is_none());
    assert!(r.polarised.unwrap().bytes != own.polarised.unwrap().bytes);
    let late = spec_of(Fault::PairTimes, 1, SIZE).spec;
    let minutes = |d: &str| {
        let t: Vec<u32> = d[11..].split(':').map(|v| v.parse().unwrap()).collect();
        t[0] * 60 + t[1]
    };
    let gap = minutes(late.pair.unwrap().date.as_ref().unwrap()) - minutes(&late.output.date);
    assert!((15..=120).contains(&gap), "{gap}");
}
