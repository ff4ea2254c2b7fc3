//! What a rendered scene must hold to, whatever it shows.

use scene_render::check;
use scene_render::colour::{apply, delta_e_00};
use scene_render::develop::{Picture, WHITE_LEVEL, decode};
use scene_render::illuminant::Illuminant;
use scene_render::spec::{self, Light, LightShape, SceneSpec, Variety, WhiteBalance};
use scene_render::truth::{Region, Truth, zone_pixels};
use scene_render::world::World;
use scene_render::{polarised_from_plain, render};

fn small(mut spec: SceneSpec, width_px: u32) -> SceneSpec {
    spec.height_px = spec.height_px * width_px / spec.width_px;
    spec.width_px = width_px;
    spec
}

fn place(m: &[[f64; 3]; 2], p: [f64; 2]) -> [f64; 2] {
    m.map(|r| r[0] * p[0] + r[1] * p[1] + r[2])
}

#[test]
fn one_seed_gives_one_picture() {
    let spec = SceneSpec::random(
        7,
        &Variety {
            size_px: [480, 320],
            ..Variety::wild()
        },
    );
    let (a, b) = (render(&spec).unwrap(), render(&spec).unwrap());
    assert!(a.plain.bytes == b.plain.bytes);
    assert_eq!(
        serde_json::to_string(&a.truth).unwrap(),
        serde_json::to_string(&b.truth).unwrap()
    );
    let other = SceneSpec::random(
        8,
        &Variety {
            size_px: [480, 320],
            ..Variety::wild()
        },
    );
    assert!(render(&other).unwrap().plain.bytes != a.plain.bytes);
}

#[test]
fn the_card_is_what_it_says() {
    let mut spec = small(spec::demo(), 700);
    if let Some(card) = &mut spec.card {
        card.waviness = 0.0;
    }
    let truth = render(&spec).unwrap().truth;
    let lab = truth.scene.card.unwrap().lab.unwrap();
    // Y = 0.184 is L* 49.98; the paper's grain averages out.
    assert!(
        (lab[0] - 49.98).abs() < 0.15 && lab[1].abs() < 0.02 && lab[2].abs() < 0.02,
        "{lab:?}"
    );
}

#[test]
fn nothing_returns_more_light_than_it_gets() {
    for seed in 1..=4 {
        let spec = SceneSpec::random(
            seed,
            &Variety {
                size_px: [300, 200],
                ..Variety::wild()
            },
        );
        let world = World::build(&spec, None);
        for (k, seen) in world.inks.iter().enumerate() {
            for xyz in seen.xyz {
                assert!(xyz[1] > 0.0 && xyz[1] < 1.0, "palette {k}: {xyz:?}");
            }
        }
        for body in &world.bodies {
            for j in 0..40 {
                for i in 0..40 {
                    let b = body.bounds;
                    let (x, y) = (
                        b[0] + (b[2] - b[0]) * i as f32 / 39.0,
                        b[1] + (b[3] - b[1]) * j as f32 / 39.0,
                    );
                    let own = body.place.own(x, y);
                    let form = body.form.read(own[0], own[1]);
                    if form[0] > 0.0 {
                        continue;
                    }
                    let lit = world.lit(body, x, y, own, form);
                    let shares: f32 = lit.paint.ink.iter().sum();
                    assert!(
                        (shares - 1.0).abs() < 0.02 && lit.paint.ink.iter().all(|v| *v > -0.06),
                        "{}: inks {:?}",
                        body.id,
                        lit.paint.ink
                    );
                    let (face, _) = world.truth_at(body, x, y);
                    assert!(face[1] > 0.0 && face[1] < 1.0, "{}: Y {}", body.id, face[1]);
                    let direct: f32 = lit.light[..4].iter().sum();
                    assert!((0.0..2.2).contains(&direct), "{}: light {direct}", body.id);
                }
            }
        }
    }
}

/// One far light from the camera, no ambient, no reflections, a nearly ideal sensor.
fn plain_light() -> SceneSpec {
    let mut spec = small(spec::demo(), 900);
    spec.lights = vec![Light {
        illuminant: Illuminant::D65,
        azimuth_deg: 0.0,
        elevation_deg: 0.0,
        distance_mm: 4000.0,
        shape: LightShape::Panel([100.0, 100.0]),
        power: 1.0,
    }];
    spec.ambient = None;
    spec.glare = 0.0;
    spec.white_balance = WhiteBalance::Right;
    spec.optics.veil = 0.0;
    spec.optics.vignetting = 0.0;
    spec.optics.sharpening = 0.0;
    spec.optics.full_well_electrons = 1e7;
    spec.optics.read_noise_electrons = 0.1;
    if let Some(card) = &mut spec.card {
        card.waviness = 0.0;
        card.tilt_deg = [0.0, 0.0];
    }
    spec
}

fn mean_linear(picture: &Picture, region: &Region) -> [f64; 3] {
    let pixels = zone_pixels(region, 1);
    let n = pixels.len() as f64;
    pixels.iter().fold([0.0; 3], |s, &(x, y, _)| {
        let p = picture.rgb[y as usize * picture.w + x as usize];
        std::array::from_fn(|c| s[c] + decode(spec::Space::Srgb, f64::from(p[c])) / n)
    })
}

#[test]
fn the_chain_from_light_to_number_is_exact_on_the_card() {
    let spec = plain_light();
    let r = render(&spec).unwrap();
    let card = r.truth.scene.card.as_ref().unwrap();
    let patch = Region {
        id: String::new(),
        kind: String::new(),
        name: String::new(),
        outline: card.outline.clone(),
        cervical: [0.0, -1e9],
        incisal: [0.0, 1e9],
        visible_share: 1.0,
    };
    let rgb = mean_linear(&r.plain.picture, &patch);
    // The picture's exposure follows the sensor's scale: gains count from the smallest.
    let level = rgb[1];
    for v in rgb {
        assert!((v / level - 1.0).abs() < 0.004, "grey stays grey: {rgb:?}");
    }
    let want = 0.184 * f64::from(WHITE_LEVEL);
    assert!((level / want - 1.0).abs() < 0.02, "{level} {want}");
}

#[test]
fn the_shaded_truth_is_what_an_ideal_photo_shows() {
    // Only the camera's colour error is left, and it hardly touches lightness.
    let spec = plain_light();
    let r = render(&spec).unwrap();
    let misses = check::by_card(
        &spec,
        &r.truth.scene,
        &r.truth.zones,
        &r.plain.picture,
        10.0,
    );
    assert!(misses.len() >= 24);
    for m in misses {
        let shaded = r.truth.zones[&m.region][m.zone].lab_shaded;
        assert!(
            (m.read[0] - shaded[0]).abs() < 0.5,
            "{} {}: L* {} against {}",
            m.region,
            m.zone,
            m.read[0],
            shaded[0]
        );
        assert!(
            m.from_shaded < 1.5,
            "{} {}: {}",
            m.region,
            m.zone,
            m.from_shaded
        );
    }
}

#[test]
fn the_pair_matrix_maps_the_plain_photo_onto_the_polarised_one() {
    let mut spec = SceneSpec::random(
        3,
        &Variety {
            size_px: [900, 600],
            pair: true,
            ..Variety::accuracy()
        },
    );
    if let Some(p) = &mut spec.pair {
        p.card_shift_mm = [0.0, 0.0];
        p.shift_px = [9.0, -6.0];
    }
    let r = render(&spec).unwrap();
    let pair = r.truth.pair.as_ref().unwrap();
    let m = pair.polarised_from_plain;
    assert_eq!(m, polarised_from_plain(&spec, spec.pair.as_ref().unwrap()));
    // A similarity: turned, enlarged, shifted about the middle.
    let asked = spec.pair.as_ref().unwrap();
    assert!((m[0][0] - m[1][1]).abs() < 1e-12 && (m[0][1] + m[1][0]).abs() < 1e-12);
    assert!((m[0][0].hypot(m[1][0]) - asked.scale).abs() < 1e-12);
    let middle = place(&m, [449.5, 299.5]);
    assert!(
        (middle[0] - 458.5).abs() < 1e-9 && (middle[1] - 293.5).abs() < 1e-9,
        "{middle:?}"
    );
    assert!(!pair.scene.regions.is_empty());
    for there in &pair.scene.regions {
        let Some(here) = r.truth.scene.regions.iter().find(|q| q.id == there.id) else {
            continue;
        };
        let cut = |q: &Region| {
            q.outline
                .iter()
                .any(|p| p[0] < 3.0 || p[1] < 3.0 || p[0] > 896.0 || p[1] > 596.0)
        };
        if cut(here) || cut(there) {
            continue;
        }
        for (a, b) in [
            (here.cervical, there.cervical),
            (here.incisal, there.incisal),
        ] {
            let q = place(&m, a);
            assert!(
                (q[0] - b[0]).hypot(q[1] - b[1]) < 1.5,
                "{}: {q:?} {b:?}",
                there.id
            );
        }
        for zone in ["cervical", "middle", "incisal"] {
            let (a, b) = (
                r.truth.zones[&here.id][zone].lab,
                pair.zones[&there.id][zone].lab,
            );
            assert!(delta_e_00(a, b) < 0.3, "{} {zone}: {a:?} {b:?}", here.id);
        }
    }
    // Pixels too: the polarised photo of a place is the plain one without its highlights.
    let polarised = &r.polarised.as_ref().unwrap().picture;
    let bright = |p: &Picture| p.rgb.iter().filter(|v| v[1] > 0.97).count();
    assert!(
        bright(polarised) * 10 < bright(&r.plain.picture).max(50),
        "{} {}",
        bright(polarised),
        bright(&r.plain.picture)
    );
}

#[test]
fn outlines_are_proper_and_axes_lie_on_them() {
    for seed in 1..=6 {
        let spec = SceneSpec::random(
            seed,
            &Variety {
                size_px: [750, 500],
                ..Variety::wild()
            },
        );
        let truth = render(&spec).unwrap().truth;
        for region in &truth.crowns {
            assert!(region.outline.len() >= 8, "{}", region.id);
            for p in &region.outline {
                assert!(
                    p[0] >= -0.6 && p[1] >= -0.6 && p[0] <= 749.6 && p[1] <= 499.6,
                    "{} {p:?}",
                    region.id
                );
            }
            for end in [region.cervical, region.incisal] {
                let d = scene_render::truth::outline::to_outline(&region.outline, end);
                assert!(d < 3.0, "{}: axis end {d} px from the outline", region.id);
            }
            // The pixels of the outline's zones belong to the body: their truth is its colour.
            assert!(
                truth.zones[&region.id].contains_key("whole"),
                "{}",
                region.id
            );
        }
    }
}

#[test]
fn files_carry_profile_and_orientation_and_decode_to_the_picture() {
    use image::{DynamicImage, ImageDecoder, ImageReader};
    use std::io::Cursor;
    for (format, orientation) in [
        (spec::Format::Jpeg, 6u8),
        (spec::Format::Png, 3),
        (spec::Format::Tiff, 8),
    ] {
        let mut s = small(spec::demo(), 420);
        s.output.format = format;
        s.output.orientation = orientation;
        s.output.space = spec::Space::DisplayP3;
        s.output.bits = 16;
        let r = render(&s).unwrap();
        let mut decoder = ImageReader::new(Cursor::new(&r.plain.bytes))
            .with_guessed_format()
            .unwrap()
            .into_decoder()
            .unwrap();
        let icc = decoder.icc_profile().unwrap();
        assert_eq!(
            icc.as_deref(),
            Some(scene_render::file::icc_profile(s.output.space).as_slice()),
            "{format:?}"
        );
        let turn = decoder.orientation().unwrap();
        let mut image = DynamicImage::from_decoder(decoder).unwrap();
        image.apply_orientation(turn);
        let image = image.to_rgb16();
        assert_eq!((image.width(), image.height()), (420, 280), "{format:?}");
        let mut worst = 0.0_f64;
        let mut sum = 0.0;
        for (p, q) in image.pixels().zip(&r.plain.picture.rgb) {
            for (a, b) in p.0.iter().zip(q) {
                let d = (f64::from(*a) / 65535.0 - f64::from(b.clamp(0.0, 1.0))).abs();
                worst = worst.max(d);
                sum += d / (3.0 * 420.0 * 280.0);
            }
        }
        if format == spec::Format::Jpeg {
            assert!(sum < 0.02, "{format:?} {sum}");
        } else {
            assert!(worst < 1e-4, "{format:?} {worst}");
        }
    }
}

/// Reads a delivered photo from disk by the card alone.
fn fixture(dir: &str, name: &str) {
    let base = std::path::Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../../fixtures")
        .join(dir);
    let truth: Truth =
        serde_json::from_slice(&std::fs::read(base.join(format!("{name}.truth.json"))).unwrap())
            .unwrap();
    let image = image::open(base.join(format!("{name}.jpg")))
        .unwrap()
        .to_rgb8();
    let (w, h) = (image.width() as usize, image.height() as usize);
    assert_eq!(
        (w, h),
        (truth.spec.width_px as usize, truth.spec.height_px as usize)
    );
    let picture = Picture {
        w,
        h,
        rgb: image
            .pixels()
            .map(|p| p.0.map(|v| f32::from(v) / 255.0))
            .collect(),
    };
    let misses = check::by_card(
        &truth.spec,
        &truth.scene,
        &truth.zones,
        &picture,
        check::GLARE,
    );
    assert!(misses.len() >= 24, "{} zones", misses.len());
    for m in misses {
        assert!(
            m.from_lab < 2.0,
            "{name}: {} {} ΔE00 {:.2}",
            m.region,
            m.zone,
            m.from_lab
        );
    }
}

#[test]
fn the_delivered_demo_can_be_read_by_its_card() {
    fixture("demo", "demo");
}

#[test]
fn the_delivered_other_photo_can_be_read_by_its_card() {
    fixture("scenes", "other");
}

#[test]
fn random_scenes_err_as_real_photos_do() {
    let mut all = Vec::new();
    for seed in 1..=6 {
        let spec = SceneSpec::random(
            seed,
            &Variety {
                size_px: [750, 500],
                ..Variety::accuracy()
            },
        );
        let r = render(&spec).unwrap();
        all.extend(
            check::by_card(
                &spec,
                &r.truth.scene,
                &r.truth.zones,
                &r.plain.picture,
                check::GLARE,
            )
            .iter()
            .map(|m| m.from_lab),
        );
    }
    let (median, high) = check::spread(&mut all);
    assert!(
        (0.4..2.0).contains(&median) && high < 6.0,
        "{median} {high}"
    );
}

#[test]
fn the_white_of_each_space_is_d65() {
    for space in [
        spec::Space::Srgb,
        spec::Space::DisplayP3,
        spec::Space::AdobeRgb,
    ] {
        let white = apply(&scene_render::camera::xyz_from_space(space), [1.0; 3]);
        assert!(
            (white[0] - 0.9505).abs() < 1e-4
                && (white[1] - 1.0).abs() < 1e-12
                && (white[2] - 1.0891).abs() < 1e-4,
            "{white:?}"
        );
    }
}
