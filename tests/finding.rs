//! What is found in the two rendered photos of `fixtures/` without a touch, by a tap, and by a
//! swipe. Figures over many photos: `cargo xtask accuracy --finding`.

use std::collections::BTreeMap;
use tabside::engine::{Engine, ReadOptions};
use tabside::scene::find::{Found, FoundRegion};
use tabside::scene::{Point, Polygon, Region, RegionKind, Scene};

#[derive(serde::Deserialize)]
struct Truth {
    scene: Scene,
    crowns: Vec<Region>,
    card_outline: Option<Vec<Point>>,
}

const PHOTOS: [&str; 2] = ["demo/demo", "scenes/other"];

fn open(name: &str) -> (Engine, u32, Truth) {
    let base = format!("{}/fixtures/{name}", env!("CARGO_MANIFEST_DIR"));
    let photo = std::fs::read(format!("{base}.jpg")).expect("the photo");
    let text = std::fs::read_to_string(format!("{base}.truth.json")).expect("the truth");
    let truth = serde_json::from_str(&text).expect("a truth file");
    let mut engine = Engine::new().expect("an engine");
    let id = engine.open(&photo).expect("a photo").id;
    (engine, id, truth)
}

/// Intersection over union, on a lattice of 150 × 150 places.
fn overlap(a: &[Point], b: &[Point]) -> f64 {
    let polygon = |o: &[Point]| Polygon::new(o, "outline").expect("an outline");
    let (a, b) = (polygon(a), polygon(b));
    let ([x0, y0, x1, y1], [u0, v0, u1, v1]) = (a.bounds(), b.bounds());
    let (left, top) = (x0.min(u0), y0.min(v0));
    let (width, height) = (x1.max(u1) - left, y1.max(v1) - top);
    let (mut both, mut either) = (0, 0);
    for i in 0..150 {
        for j in 0..150 {
            let share = |k: i32| (f64::from(k) + 0.5) / 150.0;
            let p = Point::new(left + share(i) * width, top + share(j) * height);
            let (in_a, in_b) = (a.contains(p), b.contains(p));
            both += i32::from(in_a && in_b);
            either += i32::from(in_a || in_b);
        }
    }
    f64::from(both) / f64::from(either.max(1))
}

fn best<'a>(found: &'a Found, of: &Region) -> (f64, &'a FoundRegion) {
    found
        .regions
        .iter()
        .map(|r| (overlap(&r.outline, &of.outline), r))
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .expect("something was found")
}

fn turn_deg(a: [Point; 2], b: [Point; 2]) -> f64 {
    let direction = |[p, q]: [Point; 2]| libm::atan2(q.y() - p.y(), q.x() - p.x()).to_degrees();
    let d = direction(a) - direction(b);
    ((d + 180.0).rem_euclid(360.0) - 180.0).abs()
}

fn middle(region: &Region) -> Point {
    let (a, b) = (
        region.cervical.expect("an end"),
        region.incisal.expect("an end"),
    );
    Point::new(f64::midpoint(a.x(), b.x()), f64::midpoint(a.y(), b.y()))
}

/// Every measured region and the card, with kind, axis and direction, before any touch; and
/// nothing where nothing is.
#[test]
fn everything_is_found_on_opening() {
    for name in PHOTOS {
        let (mut engine, id, truth) = open(name);
        let found = engine.find(id).expect("a search");
        for region in &truth.scene.regions {
            let (share, got) = best(&found, region);
            assert!(share > 0.9, "{name} {}: {share}", region.id);
            assert_eq!(
                got.kind == RegionKind::Tab,
                region.kind == RegionKind::Tab,
                "{name} {}",
                region.id
            );
            let own = [
                region.cervical.expect("an end"),
                region.incisal.expect("an end"),
            ];
            let off = turn_deg([got.cervical, got.incisal], own);
            assert!(off < 5.0, "{name} {}: axis off by {off}°", region.id);
        }
        for got in &found.regions {
            let share = truth
                .crowns
                .iter()
                .map(|c| overlap(&got.outline, &c.outline))
                .fold(0.0, f64::max);
            assert!(share > 0.4, "{name}: an outline on nothing, {share}");
        }
        let card = found.card.expect("a card");
        let whole = truth.card_outline.expect("a true card");
        let share = overlap(&card.whole, &whole);
        assert!(share > 0.93, "{name}: card {share}");
        let target = &found.regions[found.target.expect("a proposed target")];
        assert_eq!(target.kind, RegionKind::Tooth);
        // In both photos one crown differs from its twin, and plainly.
        let proposed = &found.regions[found.restoration.expect("a proposed restoration")];
        let true_ones = truth.scene.regions.iter();
        let crown = true_ones
            .clone()
            .find(|r| r.kind == RegionKind::Restoration);
        let share = overlap(&proposed.outline, &crown.expect("a restoration").outline);
        assert!(share > 0.9, "{name}: another one is proposed");
        for (i, a) in found.regions.iter().enumerate() {
            for b in &found.regions[..i] {
                let shared = overlap(&a.outline, &b.outline);
                assert!(shared < 0.1, "{name}: two outlines of one thing, {shared}");
            }
        }
    }
}

/// What was found is a scene as it is: it can be read, and the reading of a tooth is near the
/// one on true outlines.
#[test]
fn what_is_found_can_be_read() {
    let (mut engine, id, truth) = open("demo/demo");
    let found = engine.find(id).expect("a search");
    let mut scene = found.as_scene();
    // What is printed on the card nobody can see.
    let known = truth.scene.card.clone().expect("a true card");
    let card = scene.card.as_mut().expect("a card");
    (card.lab, card.reflectance) = (known.lab, known.reflectance);
    let options = ReadOptions::default();
    let got = engine.read(id, &scene, &options).expect("a report");
    let want = engine.read(id, &truth.scene, &options).expect("a report");
    let mut compared = 0;
    for reading in &want.readings {
        let region = truth.scene.regions.iter().find(|r| r.id == reading.region);
        let region = region.expect("its region");
        let (_, mine) = best(&found, region);
        let at = found
            .regions
            .iter()
            .position(|r| r == mine)
            .expect("its place");
        let own = got
            .readings
            .iter()
            .find(|r| r.region == scene.regions[at].id);
        let (Some(a), Some(b)) = (
            own.and_then(|r| r.zones.get(tabside::scene::Zone::Whole)),
            reading.zones.get(tabside::scene::Zone::Whole),
        ) else {
            panic!("no reading of {}", region.id);
        };
        let off = tabside::colour::delta_e_00(a.lab, b.lab);
        assert!(off < 0.8, "{}: ΔE00 {off}", region.id);
        compared += 1;
    }
    assert!(compared >= 5);
}

/// The first outline offered for a tap is right; the others differ from it; the same tap gives
/// the same outlines.
#[test]
fn one_tap_and_the_next_best() {
    for name in PHOTOS {
        let (mut engine, id, truth) = open(name);
        for region in &truth.scene.regions {
            let offered = engine
                .outline_choices(id, middle(region))
                .expect("outlines");
            let share = overlap(&offered[0].outline, &region.outline);
            assert!(share > 0.9, "{name} {}: {share}", region.id);
            for (i, a) in offered.iter().enumerate() {
                for b in &offered[..i] {
                    let alike = overlap(&a.outline, &b.outline);
                    assert!(alike < 0.93, "{name} {}: offered twice, {alike}", region.id);
                }
            }
            let again = engine
                .outline_choices(id, middle(region))
                .expect("outlines");
            assert_eq!(offered, again);
        }
        assert!(engine.outline_choices(id, Point::new(-3.0, 5.0)).is_err());
        assert!(
            engine
                .outline_choices(id, Point::new(f64::NAN, 5.0))
                .is_err()
        );
    }
}

/// A swipe along the axis cuts a tooth into two halves that keep its direction.
#[test]
fn a_swipe_cuts_and_the_pieces_have_axes() {
    let (mut engine, id, truth) = open("demo/demo");
    let tooth = truth
        .scene
        .regions
        .iter()
        .find(|r| r.kind != RegionKind::Tab);
    let tooth = tooth.expect("a tooth");
    let (a, b) = (
        tooth.cervical.expect("an end"),
        tooth.incisal.expect("an end"),
    );
    let beyond = |t: f64| Point::new(a.x() + t * (b.x() - a.x()), a.y() + t * (b.y() - a.y()));
    let pieces = engine
        .cut_outline(id, &tooth.outline, &[beyond(-0.2), beyond(1.2)])
        .expect("pieces");
    assert_eq!(pieces.len(), 2);
    let area = |o: &[Point]| Polygon::new(o, "piece").expect("an outline").area_px();
    let sum: f64 = pieces.iter().map(|p| area(&p.outline)).sum();
    assert!((sum / area(&tooth.outline) - 1.0).abs() < 0.01);
    for piece in &pieces {
        assert!(turn_deg([piece.cervical, piece.incisal], [a, b]) < 25.0);
    }
    let beside = Point::new(a.x() + 5000.0, a.y());
    let none = engine.cut_outline(id, &tooth.outline, &[beside, beside]);
    assert_eq!(none.expect("no pieces"), []);
}

/// The borders of the thirds can be shifted: what the zones cover changes, and nonsense is
/// refused in words.
#[test]
fn borders_can_be_shifted() {
    let (mut engine, id, truth) = open("demo/demo");
    let with = |borders: Option<[f64; 2]>| {
        let mut scene = truth.scene.clone();
        for r in &mut scene.regions {
            r.borders = borders;
        }
        scene
    };
    let mut read = |borders| engine.read(id, &with(borders), &ReadOptions::default());
    let even = read(None).expect("a report");
    assert_eq!(
        even.readings,
        read(Some([1.0 / 3.0, 2.0 / 3.0]))
            .expect("a report")
            .readings
    );
    let shifted = read(Some([0.2, 0.5])).expect("a report");
    let cells = |report: &tabside::engine::Report| -> BTreeMap<String, [u32; 3]> {
        let of = |r: &tabside::reading::RegionReading| {
            tabside::scene::Zone::THIRDS.map(|z| r.zones.get(z).map_or(0, |z| z.pixels))
        };
        report
            .readings
            .iter()
            .map(|r| (r.region.clone(), of(r)))
            .collect()
    };
    for (region, [cervical, middle, incisal]) in cells(&shifted) {
        let [c, m, i] = cells(&even)[&region];
        assert!(cervical < c && incisal > i, "{region}");
        let all = f64::from(c + m + i);
        assert!((f64::from(cervical + middle + incisal) / all - 1.0).abs() < 0.05);
    }
    for bad in [
        [0.7, 0.3],
        [0.05, 0.5],
        [0.5, 0.55],
        [0.4, 0.99],
        [f64::NAN, 0.5],
    ] {
        let error = read(Some(bad)).expect_err("nonsense");
        assert_eq!(error.kind(), "input", "{bad:?}");
    }
}

/// A picture of nothing: nothing is found, and that is no error.
#[test]
fn nothing_is_found_in_a_picture_of_nothing() {
    for level in [0_u8, 120, 255] {
        let mut bytes = std::io::Cursor::new(Vec::new());
        image::RgbImage::from_pixel(640, 480, image::Rgb([level; 3]))
            .write_to(&mut bytes, image::ImageFormat::Png)
            .expect("a picture");
        let mut engine = Engine::new().expect("an engine");
        let id = engine.open(bytes.get_ref()).expect("a photo").id;
        assert_eq!(engine.find(id).expect("a search"), Found::default());
    }
}
