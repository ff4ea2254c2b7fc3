//! Pictures of a plan, of unevenness and of differences on the demo photo.

use tabside::colour::rgb_space::SRGB;
use tabside::colour::{Lab, delta_e_00};
use tabside::engine::{Engine, ReadOptions};
use tabside::photo::Preview;
use tabside::scene::{RegionKind, Scene, Zone};
use tabside::stain::{PlanLimits, PlanRequest, PlanZone, SwatchBook};

#[derive(serde::Deserialize)]
struct Truth {
    scene: Scene,
}

struct Job {
    engine: Engine,
    id: u32,
    scene: Scene,
    restoration: String,
    book: SwatchBook,
}

fn job() -> Job {
    let truth: Truth =
        serde_json::from_str(include_str!("../fixtures/demo/demo.truth.json")).unwrap();
    let mut engine = Engine::new().unwrap();
    let id = engine
        .open(include_bytes!("../fixtures/demo/demo.jpg"))
        .unwrap()
        .id;
    let restoration = truth
        .scene
        .regions
        .iter()
        .find(|r| r.kind == RegionKind::Restoration)
        .unwrap()
        .id
        .clone();
    Job {
        engine,
        id,
        scene: truth.scene,
        restoration,
        book: serde_json::from_str(include_str!("../fixtures/demo/demo.swatches.json")).unwrap(),
    }
}

/// Mean L*a*b* of the opaque pixels in a band of the picture's height, around its middle.
fn band(picture: &Preview, from: f64, to: f64) -> Lab {
    let linear = |code: u8| {
        let v = f64::from(code) / 255.0;
        if v <= 0.04045 {
            v / 12.92
        } else {
            libm::pow((v + 0.055) / 1.055, 2.4)
        }
    };
    let (width, height) = (picture.width as usize, f64::from(picture.height));
    let rows = (from * height) as usize..(to * height) as usize;
    let (mut sum, mut count) = ([0.0; 3], 0.0);
    for row in rows {
        for column in width * 2 / 5..width * 3 / 5 {
            let at = (row * width + column) * 4;
            if picture.rgba[at + 3] == 255 {
                for (s, code) in sum.iter_mut().zip(&picture.rgba[at..]) {
                    *s += linear(*code);
                }
                count += 1.0;
            }
        }
    }
    assert!(count > 50.0, "{count} pixels");
    Lab::from_xyz_d65(SRGB.xyz_d65_from_linear_rgb().apply(sum.map(|s| s / count)))
}

/// The picture changes by what the plan predicts, third by third, and glare stays.
#[test]
fn the_planned_picture_shows_the_plan() {
    let mut j = job();
    let report = j
        .engine
        .read(j.id, &j.scene, &ReadOptions::default())
        .unwrap();
    let reading = report
        .readings
        .iter()
        .find(|r| r.region == j.restoration)
        .unwrap();
    // Each third its own way, so that they cannot be mixed up.
    let zones = Zone::THIRDS
        .into_iter()
        .zip([5.5, 3.5, 2.2])
        .map(|(zone, way)| {
            let from = reading.zones.get(zone).unwrap().lab;
            let [l, a, b] = from.0;
            PlanZone {
                zone,
                from,
                to: Lab::new(l - way, a + way / 4.0, b + way),
                doubt: 0.0,
            }
        })
        .collect();
    let request = PlanRequest {
        zones,
        limits: PlanLimits::default(),
    };
    let plan = j.engine.plan(&j.book, &request).unwrap();
    let before = j
        .engine
        .straightened(j.id, &j.scene, &j.restoration, 300)
        .unwrap();
    let after = j
        .engine
        .planned_picture(j.id, &j.scene, &j.restoration, &j.book, &plan.zones, 300)
        .unwrap();
    assert_eq!((before.width, before.height), (after.width, after.height));
    for (place, zone) in [0.13, 0.47, 0.8].into_iter().zip(&plan.zones) {
        let (was, is) = (
            band(&before, place, place + 0.08),
            band(&after, place, place + 0.08),
        );
        let wanted =
            Lab([0, 1, 2].map(|i: usize| was.0[i] + zone.predicted.lab.0[i] - zone.from.0[i]));
        let off = delta_e_00(is, wanted);
        assert!(
            delta_e_00(was, is) > 1.5 && off < 1.0,
            "{:?}: {off} {was:?} {is:?} {wanted:?}",
            zone.zone
        );
    }
    // The patch in the photo's frame changes alike: darker than what is there.
    let mean = |p: &Preview| {
        let seen: Vec<f64> = p
            .rgba
            .chunks(4)
            .filter(|c| c[3] == 255)
            .map(|c| f64::from(c[2]))
            .collect();
        seen.iter().sum::<f64>() / seen.len() as f64
    };
    let mut bare = plan.zones.clone();
    for z in &mut bare {
        z.paint = tabside::stain::Paint::default();
        z.predicted.lab = z.from;
    }
    let [painted, unpainted] = [&plan.zones, &bare].map(|zones| {
        let patch = j
            .engine
            .planned_patch(j.id, &j.scene, &j.restoration, &j.book, zones, 60_000);
        mean(&patch.unwrap().picture)
    });
    assert!(painted < unpainted - 8.0, "{painted} {unpainted}");
    // A mirrored lamp is as bright as before, or nearly so.
    let brightest = |p: &Preview| p.rgba.chunks(4).filter(|c| c[3] == 255).map(|c| c[1]).max();
    assert!(brightest(&after) >= brightest(&before).map(|v| v.saturating_sub(12)));
}

#[test]
fn patches_lie_on_the_region() {
    let mut j = job();
    let region = j
        .scene
        .regions
        .iter()
        .find(|r| r.id == j.restoration)
        .unwrap()
        .clone();
    let map = j
        .engine
        .evenness_map(j.id, &j.scene, &j.restoration, 40_000)
        .unwrap();
    let [left, top, wide, high] = map.place;
    for p in &region.outline {
        assert!(p.x() >= left - 1.0 && p.x() <= left + wide + 1.0);
        assert!(p.y() >= top - 1.0 && p.y() <= top + high + 1.0);
    }
    let pixels = map.picture.width as usize * map.picture.height as usize;
    assert!(pixels <= 41_000 && map.picture.rgba.len() == pixels * 4);
    // The map is grey and let the photo through somewhere.
    assert!(
        map.picture
            .rgba
            .chunks(4)
            .all(|c| c[0] == c[1] && c[1] == c[2])
    );
    assert!(map.picture.rgba.chunks(4).any(|c| c[3] > 0));
}

/// Every third that can be read says how uneven it is; the whole says what the region does.
#[test]
fn zones_have_their_own_unevenness() {
    let mut j = job();
    let report = j
        .engine
        .read(j.id, &j.scene, &ReadOptions::default())
        .unwrap();
    for reading in &report.readings {
        for zone in Zone::THIRDS {
            if let Some(z) = reading.zones.get(zone) {
                let blotch = z.blotch.unwrap();
                assert!(
                    (0.0..5.0).contains(&blotch),
                    "{} {zone:?} {blotch}",
                    reading.region
                );
            }
        }
        let whole = reading.zones.whole.as_ref().unwrap();
        assert_eq!(whole.blotch, reading.blotch);
    }
}

#[test]
fn pictures_say_what_is_missing() {
    let mut j = job();
    let no_card = Scene {
        card: None,
        ..j.scene.clone()
    };
    let said = |e: tabside::Error| e.to_string();
    assert!(
        said(
            j.engine
                .evenness_map(j.id, &no_card, &j.restoration, 1000)
                .unwrap_err()
        )
        .contains("card")
    );
    assert!(
        said(
            j.engine
                .evenness_map(j.id, &j.scene, "nobody", 1000)
                .unwrap_err()
        )
        .contains("region")
    );
    assert!(
        said(
            j.engine
                .planned_patch(j.id, &j.scene, &j.restoration, &j.book, &[], 1000)
                .unwrap_err()
        )
        .contains("third")
    );
}

/// What a map shows on the middle of each third of a region, cervical first: mean and root mean
/// square of its ΔE00, and the share of it that is lighter.
fn shown(map: &tabside::engine::Patch, region: &tabside::scene::Region) -> [[f64; 3]; 3] {
    let (a, b) = (region.cervical.unwrap(), region.incisal.unwrap());
    let [dx, dy] = [b.x() - a.x(), b.y() - a.y()];
    let [first, second] = region.borders.unwrap_or([1.0 / 3.0, 2.0 / 3.0]);
    let [left, top, wide, high] = map.place;
    let (width, height) = (map.picture.width as usize, map.picture.height as usize);
    let full = map.full_delta_e_00.unwrap();
    let mut sums = [[0.0; 4]; 3];
    for (i, pixel) in map.picture.rgba.chunks(4).enumerate() {
        let x = left + ((i % width) as f64 + 0.5) / width as f64 * wide - a.x();
        let y = top + ((i / width) as f64 + 0.5) / height as f64 * high - a.y();
        let squared = dx * dx + dy * dy;
        let (along, across) = ((x * dx + y * dy) / squared, (x * dy - y * dx) / squared);
        if across.abs() > 0.25 || !(0.04..0.96).contains(&along) {
            continue;
        }
        let third = usize::from(along >= first) + usize::from(along >= second);
        let size = f64::from(pixel[3]) / 200.0 * full;
        let lighter = f64::from(u8::from(pixel[0] == 255));
        for (s, v) in sums[third]
            .iter_mut()
            .zip([size, size * size, lighter, 1.0])
        {
            *s += v;
        }
    }
    sums.map(|[size, square, lighter, n]| {
        assert!(n > 300.0, "{n} pixels");
        [size / n, (square / n).sqrt(), lighter / n]
    })
}

fn difference_map(j: &mut Job, region: &str, target: &str) -> [[f64; 3]; 3] {
    let map = j
        .engine
        .difference_map(j.id, &j.scene, region, target, 60_000);
    let region = j.scene.regions.iter().find(|r| r.id == region).unwrap();
    shown(&map.unwrap(), region)
}

/// In each third the map shows, on average, what the advice says: the middle of the region alone is
/// looked at here, and a mean of sizes is a little above the size of the mean where the difference
/// changes within the third. It shows which of the two is lighter, too. Beyond ΔE00 5 parts of the map
/// are full.
#[test]
fn the_difference_map_shows_what_advice_says() {
    let mut j = job();
    let restoration = j.restoration.clone();
    let others: Vec<String> = j.scene.regions.iter().map(|r| r.id.clone()).collect();
    let (mut lighter, mut darker) = (0, 0);
    for target in others.iter().filter(|id| **id != restoration) {
        let options = ReadOptions {
            target: Some(target.clone()),
        };
        let report = j.engine.read(j.id, &j.scene, &options).unwrap();
        let advice = report.advice.iter().find(|a| a.target == *target).unwrap();
        let map = difference_map(&mut j, &restoration, target);
        for (zone, [mean, rms, light]) in advice.zones.iter().zip(map) {
            println!(
                "{target} {:?} ΔE00 {:.2}, map {mean:.2} (rms {rms:.2}); ΔL {:.2}, lighter {light:.2}",
                zone.zone, zone.delta_e_00, zone.delta_l
            );
            let above = mean - zone.delta_e_00;
            assert!(
                zone.delta_e_00 > 5.0 || (-0.45..0.45).contains(&above),
                "{target} {:?}: {above}",
                zone.zone
            );
            if zone.delta_l.abs() > 1.5 {
                let up = zone.delta_l > 0.0;
                *(if up { &mut lighter } else { &mut darker }) += 1;
                let share = if up { light } else { 1.0 - light };
                assert!(share > 0.8, "{target} {:?}: {share}", zone.zone);
            }
        }
    }
    assert!(lighter > 0 && darker > 0, "{lighter} {darker}");
}

/// Against itself only a region's unevenness is left: what its reading says of each third.
#[test]
fn against_itself_a_region_shows_its_unevenness() {
    let mut j = job();
    let options = ReadOptions::default();
    let report = j.engine.read(j.id, &j.scene, &options).unwrap();
    for reading in &report.readings {
        let id = &reading.region;
        for (zone, [_, rms, _]) in Zone::THIRDS.into_iter().zip(difference_map(&mut j, id, id)) {
            let blotch = reading.zones.get(zone).unwrap().blotch.unwrap();
            println!("{id} {zone:?}: map {rms:.2}, unevenness {blotch:.2}");
            assert!(
                (rms - blotch).abs() < 0.35,
                "{id} {zone:?}: {rms}, {blotch}"
            );
        }
    }
}

#[test]
fn a_difference_map_says_what_is_missing() {
    let mut j = job();
    let restoration = j.restoration.clone();
    let mut refused = |scene: &Scene, target: &str| {
        let made = j
            .engine
            .difference_map(j.id, scene, &restoration, target, 1000);
        made.unwrap_err().to_string()
    };
    let no_card = Scene {
        card: None,
        ..j.scene.clone()
    };
    assert!(refused(&no_card, &restoration).contains("card"));
    assert!(refused(&j.scene.clone(), "nobody").contains("region"));
}
