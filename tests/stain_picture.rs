//! Pictures of a plan and of unevenness on the demo photo.

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
