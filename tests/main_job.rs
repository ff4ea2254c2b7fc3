//! The main job on the two rendered photos of `fixtures/`: the demo, and one by another camera
//! with a wrong white balance.
//!
//! Their truth files were written by the renderer, which shares no code with the engine.

use std::collections::BTreeMap;
use tabside::colour::{Lab, delta_e_00};
use tabside::engine::{Engine, ReadOptions, Report};
use tabside::error::{CheckCode, Severity};
use tabside::reading::RungBasis;
use tabside::scene::{Card, Point, Rect, Region, RegionKind, Scene, Zone};
use tabside::stain::StainDirection;

#[derive(serde::Deserialize)]
struct TrueZone {
    lab: Lab,
}

#[derive(serde::Deserialize)]
struct Truth {
    scene: Scene,
    zones: BTreeMap<String, BTreeMap<String, TrueZone>>,
}

fn load(name: &str) -> (Vec<u8>, Truth) {
    let base = format!("{}/fixtures/{name}", env!("CARGO_MANIFEST_DIR"));
    let photo = std::fs::read(format!("{base}.jpg")).expect("the photo");
    let text = std::fs::read_to_string(format!("{base}.truth.json")).expect("the truth");
    (photo, serde_json::from_str(&text).expect("a truth file"))
}

fn read(name: &str) -> (Report, Truth) {
    let (photo, truth) = load(name);
    let mut engine = Engine::new().expect("an engine");
    let id = engine.open(&photo).expect("a photo").id;
    let report = engine
        .read(id, &truth.scene, &ReadOptions::default())
        .expect("a report");
    (report, truth)
}

fn zone_name(zone: Zone) -> &'static str {
    match zone {
        Zone::Cervical => "cervical",
        Zone::Middle => "middle",
        Zone::Incisal => "incisal",
        Zone::Whole => "whole",
    }
}

/// Every zone of every region within ΔE00 2.0 of the truth, by the card alone.
#[test]
fn every_zone_is_within_two_of_the_truth() {
    for name in ["demo/demo", "scenes/other"] {
        let (report, truth) = read(name);
        assert_eq!(report.readings.len(), truth.scene.regions.len(), "{name}");
        for reading in &report.readings {
            for zone in Zone::ALL {
                let got = reading.zones.get(zone).expect("a zone");
                let want = truth.zones[&reading.region][zone_name(zone)].lab;
                let off = delta_e_00(want, got.lab);
                assert!(off < 2.0, "{name} {} {zone:?}: {off:.2}", reading.region);
                assert!(
                    off < got.doubt,
                    "{name} {} {zone:?}: outside its doubt",
                    reading.region
                );
                assert!(got.pixels >= 200 && got.glare < 0.5);
            }
            assert!(reading.gradient.len() > 15 && reading.blotch.is_some());
        }
        assert!(
            !report.checks.iter().any(|c| c.severity == Severity::Retake),
            "{:?}",
            report.checks
        );
    }
}

/// The demo's restoration was rendered lighter and with less chroma than its neighbour; the
/// advice says so and never claims that stain lightens.
#[test]
fn the_demo_story_is_told() {
    let (report, truth) = read("demo/demo");
    let advice = report.advice.first().expect("advice");
    let true_lab = |region: &str, zone: &str| truth.zones[region][zone].lab;
    for zone in &advice.zones {
        let key = zone_name(zone.zone);
        let [own, wanted] = [&advice.restoration, &advice.target].map(|r| true_lab(r, key));
        assert_eq!(zone.delta_l > 0.0, own.l() > wanted.l(), "{key}");
    }
    let neck = advice.zones.first().expect("the neck");
    assert!(
        neck.directions.contains(&StainDirection::LowerValue),
        "{neck:?}"
    );
    assert!(
        neck.directions.contains(&StainDirection::AddChroma),
        "{neck:?}"
    );
    assert!(!advice.cautions.is_empty());
    for ladder in &report.ladders {
        assert!(ladder.tabs.iter().all(|t| t.basis == RungBasis::InPhoto));
        assert!(
            ladder
                .tabs
                .is_sorted_by(|a, b| a.delta_e_00 <= b.delta_e_00)
        );
    }
}

/// Without tabs in the photo the ladder stands on published averages, and says so.
#[test]
fn published_averages_are_flagged() {
    let (photo, mut truth) = load("demo/demo");
    truth.scene.regions.retain(|r| r.kind != RegionKind::Tab);
    let mut engine = Engine::new().expect("an engine");
    let id = engine.open(&photo).expect("a photo").id;
    let report = engine
        .read(id, &truth.scene, &ReadOptions::default())
        .expect("a report");
    assert!(
        report
            .checks
            .iter()
            .any(|c| c.code == CheckCode::PublishedAverages)
    );
    let ladder = report.ladders.first().expect("a ladder");
    assert_eq!(ladder.tabs.len(), 16);
    assert!(
        ladder
            .tabs
            .iter()
            .all(|t| t.basis == RungBasis::Published && t.whole_tab)
    );
}

/// The same scene read twice, and after the card was moved away and back, gives the same bits.
#[test]
fn remembered_measurements_change_nothing() {
    let (photo, truth) = load("demo/demo");
    let mut engine = Engine::new().expect("an engine");
    let id = engine.open(&photo).expect("a photo").id;
    let options = ReadOptions::default();
    let first = engine.read(id, &truth.scene, &options).expect("a report");
    let mut other = truth.scene.clone();
    other.card = Some(Card {
        reflectance: Some(0.5),
        ..truth.scene.card.clone().expect("a card")
    });
    other.regions.rotate_left(2);
    let changed = engine.read(id, &other, &options).expect("a report");
    assert_ne!(changed.readings, first.readings);
    let again = engine.read(id, &truth.scene, &options).expect("a report");
    assert_eq!(again, first);
}

/// A tap on the card and a box around it find the same card; a tap on a tab finds the tab.
#[test]
fn taps_become_outlines() {
    let (photo, truth) = load("demo/demo");
    let mut engine = Engine::new().expect("an engine");
    let id = engine.open(&photo).expect("a photo").id;
    let card = truth.scene.card.clone().expect("a card");
    let bounds = |o: &[Point]| {
        tabside::scene::Polygon::new(o, "it")
            .expect("an outline")
            .bounds()
    };
    let [x0, y0, x1, y1] = bounds(&card.outline);
    let tolerance = 0.04 * (x1 - x0);
    let near = |got: [f64; 4], want: [f64; 4]| {
        got.iter().zip(want).all(|(g, w)| (g - w).abs() < tolerance)
    };

    let middle = Point::new((x0 + x1) / 2.0, (y0 + y1) / 2.0);
    let tapped = engine.outline_card(id, middle).expect("a card");
    assert!(
        near(bounds(&tapped), [x0, y0, x1, y1]),
        "{:?}",
        bounds(&tapped)
    );
    let area = Rect {
        x: x0 - 40.0,
        y: y0 - 40.0,
        width: (x1 - x0 + 80.0).min(3600.0 - x0),
        height: (y1 - y0 + 80.0).min(2400.0 - y0),
    };
    let boxed = engine.outline_card_in(id, area).expect("a card");
    assert!(
        near(bounds(&boxed), [x0, y0, x1, y1]),
        "{:?}",
        bounds(&boxed)
    );

    for region in truth
        .scene
        .regions
        .iter()
        .filter(|r| r.kind == RegionKind::Tab)
    {
        let (a, b) = (
            region.cervical.expect("an end"),
            region.incisal.expect("an end"),
        );
        let tap = Point::new((a.x() + b.x()) / 2.0, (a.y() + b.y()) / 2.0);
        let choices = engine.outline_choices(id, tap).expect("outlines");
        let found = choices.first().expect("a tab");
        assert!(
            near(bounds(&found.outline), bounds(&region.outline)),
            "{}",
            region.id
        );
        assert!(
            found.cervical.y() > found.incisal.y(),
            "a tab's neck is its lower end"
        );
    }
    assert!(engine.outline_card(id, Point::new(-5.0, 10.0)).is_err());
    assert!(engine.outline_card(id, Point::new(f64::NAN, 10.0)).is_err());
}

fn square(x: f64, y: f64, side: f64) -> Vec<Point> {
    [(0.0, 0.0), (side, 0.0), (side, side), (0.0, side)]
        .map(|(dx, dy)| Point::new(x + dx, y + dy))
        .to_vec()
}

fn region(id: &str, outline: Vec<Point>) -> Region {
    Region {
        id: id.to_owned(),
        kind: RegionKind::Tooth,
        name: String::new(),
        outline,
        cervical: None,
        incisal: None,
        borders: None,
    }
}

/// Bad scenes: an error or a check in words, never a number that cannot be trusted, and the
/// photo stays open.
#[test]
fn bad_scenes() {
    let (photo, truth) = load("demo/demo");
    let mut engine = Engine::new().expect("an engine");
    let id = engine.open(&photo).expect("a photo").id;
    let options = ReadOptions::default();
    let card = truth.scene.card.clone();
    let mut ask = |scene: &Scene| engine.read(id, scene, &options);

    let none = ask(&Scene {
        card: None,
        regions: truth.scene.regions.clone(),
        ..Scene::default()
    })
    .expect("a report");
    assert!(none.readings.is_empty() && none.ladders.is_empty());
    assert!(
        none.checks
            .iter()
            .any(|c| c.code == CheckCode::CardMissing && c.severity == Severity::Retake)
    );

    let outside = Card {
        outline: square(-900.0, -900.0, 300.0),
        ..Card::default()
    };
    let report = ask(&Scene {
        card: Some(outside),
        regions: truth.scene.regions.clone(),
        ..Scene::default()
    })
    .expect("a report");
    assert!(report.readings.is_empty());
    assert!(
        report
            .checks
            .iter()
            .any(|c| c.code == CheckCode::CardOutside && c.severity == Severity::Retake)
    );

    let tiny = Card {
        outline: square(3000.0, 1800.0, 9.0),
        ..Card::default()
    };
    let report = ask(&Scene {
        card: Some(tiny),
        regions: Vec::new(),
        ..Scene::default()
    })
    .expect("a report");
    assert!(report.checks.iter().any(|c| c.code == CheckCode::CardSmall));

    for bad in [
        square(10.0, 10.0, 0.0),
        square(10.0, 10.0, f64::INFINITY),
        Vec::new(),
    ] {
        let broken = ask(&Scene {
            card: card.clone(),
            regions: vec![region("a", bad)],
            ..Scene::default()
        });
        assert_eq!(broken.expect_err("it is refused").kind(), "input");
    }
    let twice = vec![
        region("a", square(100.0, 100.0, 50.0)),
        region("a", square(300.0, 100.0, 50.0)),
    ];
    assert!(
        ask(&Scene {
            card: card.clone(),
            regions: twice,
            ..Scene::default()
        })
        .is_err()
    );

    let away = ask(&Scene {
        card: card.clone(),
        regions: vec![region("a", square(9000.0, 100.0, 50.0))],
        ..Scene::default()
    })
    .expect("a report");
    assert!(
        away.checks
            .iter()
            .any(|c| c.code == CheckCode::RegionOutside && c.severity == Severity::Retake)
    );
    assert!(away.readings.iter().all(|r| r.zones.whole.is_none()));

    let small = ask(&Scene {
        card: card.clone(),
        regions: vec![region("a", square(1500.0, 600.0, 18.0))],
        ..Scene::default()
    })
    .expect("a report");
    assert!(small.checks.iter().any(|c| c.code == CheckCode::ToothSmall));
    assert!(small.readings.iter().all(|r| r.zones.cervical.is_none()));

    for lab in [[f64::NAN, 0.0, 0.0], [0.0, 0.0, 0.0], [50.0, 60.0, 0.0]] {
        let odd = Card {
            lab: Some(Lab(lab)),
            ..card.clone().expect("a card")
        };
        assert_eq!(
            ask(&Scene {
                card: Some(odd),
                regions: Vec::new(),
                ..Scene::default()
            })
            .expect_err("it is refused")
            .kind(),
            "input"
        );
    }
    // After all that the photo still reads.
    assert_eq!(
        ask(&truth.scene).expect("a report").readings.len(),
        truth.scene.regions.len()
    );
}

/// A photo in which everything is clipped: a reason, no numbers.
#[test]
fn all_clipped() {
    let mut png = Vec::new();
    let white = vec![255_u8; 400 * 300 * 3];
    image::ImageEncoder::write_image(
        image::codecs::png::PngEncoder::new(&mut png),
        &white,
        400,
        300,
        image::ExtendedColorType::Rgb8,
    )
    .expect("a PNG");
    let mut engine = Engine::new().expect("an engine");
    let id = engine.open(&png).expect("a photo").id;
    let scene = Scene {
        card: Some(Card {
            outline: square(10.0, 10.0, 100.0),
            ..Card::default()
        }),
        regions: vec![region("a", square(200.0, 50.0, 150.0))],
        ..Scene::default()
    };
    let report = engine
        .read(id, &scene, &ReadOptions::default())
        .expect("a report");
    assert!(report.readings.is_empty());
    assert!(
        report
            .checks
            .iter()
            .any(|c| c.code == CheckCode::CardClipped && c.severity == Severity::Retake)
    );
}

/// A bad file leaves what is open open.
#[test]
fn a_bad_file_leaves_the_rest() {
    let (photo, truth) = load("demo/demo");
    let mut engine = Engine::new().expect("an engine");
    let id = engine.open(&photo).expect("a photo").id;
    for bad in [&b""[..], b"hello", &photo[..photo.len() / 2]] {
        assert!(engine.open(bad).is_err());
    }
    assert!(
        engine
            .read(id, &truth.scene, &ReadOptions::default())
            .is_ok()
    );
    engine.close(id);
    assert_eq!(
        engine
            .read(id, &truth.scene, &ReadOptions::default())
            .expect_err("it is closed")
            .kind(),
        "input"
    );
}

/// A straightened region stands upright: its cervical end on top, opaque inside, balanced.
#[test]
fn straightened_regions() {
    let (photo, truth) = load("demo/demo");
    let mut engine = Engine::new().expect("an engine");
    let id = engine.open(&photo).expect("a photo").id;
    let tab = truth
        .scene
        .regions
        .iter()
        .find(|r| r.kind == RegionKind::Tab)
        .expect("a tab");
    let picture = engine
        .straightened(id, &truth.scene, &tab.id, 200)
        .expect("a picture");
    assert_eq!(picture.height, 200);
    assert_eq!(
        picture.rgba.len(),
        (picture.width * picture.height * 4) as usize
    );
    let at = |x: u32, y: u32| {
        let i = ((y * picture.width + x) * 4) as usize;
        [
            picture.rgba[i],
            picture.rgba[i + 1],
            picture.rgba[i + 2],
            picture.rgba[i + 3],
        ]
    };
    assert_eq!(at(picture.width / 2, 100)[3], 255);
    assert_eq!(at(0, 0)[3], 0);
    // The neck has less blue than the edge: more chroma on top.
    let [top, low] = [at(picture.width / 2, 25), at(picture.width / 2, 165)];
    let yellow = |p: [u8; 4]| i32::from(p[0]) - i32::from(p[2]);
    assert!(yellow(top) > yellow(low), "{top:?} {low:?}");
    assert!(
        engine
            .straightened(id, &truth.scene, "nobody", 200)
            .is_err()
    );
    assert!(
        engine
            .straightened(id, &truth.scene, &tab.id, 1_000_000)
            .is_err()
    );
}
