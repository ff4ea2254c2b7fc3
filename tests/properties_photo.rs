//! What may be done to a photo and its scene together without another reading: turning, mirroring,
//! another size, other surroundings, another order of the tabs, another exposure or cast.
//!
//! Each property is tried on rendered photos of different light, cameras, mouths, tabs and cards, with the
//! default guide and with the tabs' own colours. What differs from "nothing changes" has its reason
//! beside the bound.

mod support;

#[path = "properties/pictured.rs"]
mod pictured;

use pictured::{Apart, Pictured, SIZE_PX, apart, read, rendered};
use proptest::prelude::*;
use std::collections::BTreeMap;
use std::sync::{LazyLock, Mutex};
use support::Dice;
use support::exif::Exif;
use tabside::engine::Report;
use tabside::reading::Guide;

/// A photo whose teeth are some 85 px wide.
const SMALL_PX: [u32; 2] = [1170, 780];

/// Photos that the properties choose from.
const PHOTOS: usize = 3;

/// ΔE00 (and change of a doubt) of a mirror image: of areas above 150 000 pixels every so many are read,
/// and those are others then. Seen: 6e-4.
const MIRRORED: f64 = 2e-3;
/// The same that another order of sums may make.
const ORDER: f64 = 1e-6;
/// Shares of a zone's own doubt; beside each what was seen.
const LAID: f64 = 1.0; // 0.56
const RESIZED: f64 = 0.5; // 0.21
const SMALL: f64 = 1.0; // 0.67
const FRAMED: f64 = 0.3; // 0.08
const DIMMED_8: f64 = 0.3; // 0.14
const DIMMED_16: f64 = 0.15; // 0.03

struct Known {
    picture: Pictured,
    /// Read with the default guide, and with the tabs' own colours.
    reports: [Report; 2],
}

static KNOWN: LazyLock<Vec<Known>> = LazyLock::new(|| {
    let seeds = 20_000..20_000 + PHOTOS as u64;
    seeds
        .map(|seed| {
            let picture = rendered(seed, SIZE_PX);
            let reports = [picture.read(None), picture.read(Some(&picture.own_tabs))];
            Known { picture, reports }
        })
        .collect()
});

/// A photo, its guide, and what is read of it.
fn any_photo() -> impl Strategy<Value = (usize, usize)> {
    (0..PHOTOS, 0..2_usize)
}

fn of(
    (photo, guide): (usize, usize),
) -> (&'static Pictured, Option<&'static Guide>, &'static Report) {
    let known = &KNOWN[photo];
    let own = (guide == 1).then_some(&known.picture.own_tabs);
    (&known.picture, own, &known.reports[guide])
}

/// The worst that was met of something, printed as it grows (`--nocapture`).
fn met(what: &str, value: f64) {
    static WORST: Mutex<BTreeMap<String, f64>> = Mutex::new(BTreeMap::new());
    let mut all = WORST.lock().expect("no panic while it is held");
    let worst = all.entry(what.to_owned()).or_insert(0.0);
    if value > *worst {
        *worst = value;
        println!("{what}: {value:.3e}");
    }
}

/// The codes of what is told of a photo, for a failure's sake.
fn told(report: &Report) -> Vec<String> {
    report
        .checks
        .iter()
        .map(|c| format!("{:?}", c.code))
        .collect()
}

fn met_apart(what: &str, found: Apart) {
    met(&format!("{what}, ΔE00"), found.delta_e_00);
    met(&format!("{what}, share of the doubt"), found.of_doubt);
    met(&format!("{what}, change of a doubt"), found.doubt);
}

fn few(cases: u32) -> ProptestConfig {
    ProptestConfig {
        cases,
        max_shrink_iters: 12,
        failure_persistence: None,
        ..ProptestConfig::default()
    }
}

/// The eight ways to lay a picture down, as EXIF numbers them: where the pixel at a place comes to lie,
/// and the new size.
fn laid(p: &Pictured, way: u8) -> Pictured {
    let [w, h] = [p.width, p.height];
    let (right, low) = (f64::from(w) - 1.0, f64::from(h) - 1.0);
    let (r, l) = (i64::from(w) - 1, i64::from(h) - 1);
    let point = move |[x, y]: [f64; 2]| match way {
        2 => [right - x, y],
        3 => [right - x, low - y],
        4 => [x, low - y],
        5 => [y, x],
        6 => [low - y, x],
        7 => [low - y, right - x],
        8 => [y, right - x],
        _ => [x, y],
    };
    let pixel = |x: i64, y: i64| match way {
        2 => p.at(r - x, y),
        3 => p.at(r - x, l - y),
        4 => p.at(x, l - y),
        5 => p.at(y, x),
        6 => p.at(y, l - x),
        7 => p.at(r - y, l - x),
        8 => p.at(r - y, x),
        _ => p.at(x, y),
    };
    p.other(if way >= 5 { [h, w] } else { [w, h] }, pixel, point)
}

proptest! {
    #![proptest_config(few(6))]

    /// 6 cases. A mirror image, left for right, reads the same.
    #[test]
    fn a_mirror_image_reads_the_same(photo in any_photo()) {
        let (p, guide, before) = of(photo);
        let found = apart(before, &laid(p, 2).read(guide));
        met_apart("mirrored", found);
        prop_assert!(found.delta_e_00 < MIRRORED && found.doubt < MIRRORED, "{found:?}");
    }

    /// 6 cases. Upside down or on its side as pixels, with its scene: the light is taken to come from
    /// somewhat above (`LightModel::before_tabs`), which is another side then, so that readings stay within
    /// the doubt and no closer. A file that says how it lies is turned upright first: the next property.
    #[test]
    fn a_photo_that_lies_moves_little(photo in any_photo(), way in 3..9_u8) {
        let (p, guide, before) = of(photo);
        let after = laid(p, way).read(guide);
        let found = apart(before, &after);
        met_apart("laid", found);
        prop_assert!(found.of_doubt < LAID, "{found:?} {:?} {:?}", told(before), told(&after));
    }

    /// 6 cases, each in all eight orientations. What EXIF turns is upright again before anything is
    /// read: the report is the same to the last bit, but for the orientation that it names.
    #[test]
    fn an_orientation_changes_nothing(photo in any_photo(), bits in prop::sample::select(vec![8_u8, 16])) {
        let (p, guide, _) = of(photo);
        let as_is = read(&with_orientation(p, 1, bits), &p.scene, guide);
        for way in 2..=8 {
            let mut turned = read(&with_orientation(p, way, bits), &p.scene, guide);
            prop_assert_eq!(turned.photo.facts.orientation, way);
            turned.photo.facts.orientation = 1;
            prop_assert_eq!(&turned, &as_is);
        }
    }
}

/// The upright photo as a PNG that is stored turned.
fn with_orientation(p: &Pictured, orientation: u8, bits: u8) -> Vec<u8> {
    // Stored so that turning it by the orientation brings it upright: the way back.
    let back = match orientation {
        6 => 8,
        8 => 6,
        other => other,
    };
    let block = Exif::oriented(orientation.into()).block();
    laid(p, back).picture(bits).exif(block).png()
}

/// Twice as large: each pixel four times, or what lies between its neighbours.
fn twice(p: &Pictured, smooth: bool) -> Pictured {
    let between = |x: i64, y: i64| {
        // Three quarters of the nearest, one quarter of the next, along and across.
        let side = |v: i64| if v % 2 == 0 { -1 } else { 1 };
        let mut sum = [0.0; 3];
        for (i, j, weight) in [(0, 0, 9.0), (1, 0, 3.0), (0, 1, 3.0), (1, 1, 1.0)] {
            let pixel = p.at(x / 2 + i * side(x), y / 2 + j * side(y));
            for (s, v) in sum.iter_mut().zip(pixel) {
                *s += v * weight / 16.0;
            }
        }
        sum
    };
    let pixel = |x: i64, y: i64| {
        if smooth {
            between(x, y)
        } else {
            p.at(x / 2, y / 2)
        }
    };
    let point = |[x, y]: [f64; 2]| [2.0 * x + 0.5, 2.0 * y + 0.5];
    p.other([2 * p.width, 2 * p.height], pixel, point)
}

/// Half as large: each pixel the mean light of four.
fn half(p: &Pictured) -> Pictured {
    let mean = |x: i64, y: i64| {
        let mut sum = [0.0; 3];
        for (i, j) in [(0, 0), (1, 0), (0, 1), (1, 1)] {
            for (s, v) in sum.iter_mut().zip(p.at(2 * x + i, 2 * y + j)) {
                *s += v / 4.0;
            }
        }
        sum
    };
    let point = |[x, y]: [f64; 2]| [(x - 0.5) / 2.0, (y - 0.5) / 2.0];
    p.other([p.width / 2, p.height / 2], mean, point)
}

proptest! {
    #![proptest_config(few(4))]

    /// 4 cases. Photos so small that a tooth is some 85 px wide, and half as large once more.
    #[test]
    fn a_small_photo_reads_the_same_half_as_large(seed in 20_100..20_200_u64) {
        let p = rendered(seed, SMALL_PX);
        let (before, after) = (p.read(Some(&p.own_tabs)), half(&p).read(Some(&p.own_tabs)));
        let found = apart(&before, &after);
        met_apart("small, half", found);
        prop_assert!(found.of_doubt < SMALL, "{found:?} {:?} {:?}", told(&before), told(&after));
    }
}

proptest! {
    #![proptest_config(few(9))]

    /// 9 cases. Twice and half as large.
    #[test]
    fn another_size_reads_the_same(photo in any_photo(), size in 0..3_u8) {
        let (p, guide, before) = of(photo);
        let other = match size {
            0 => twice(p, false),
            1 => twice(p, true),
            _ => half(p),
        };
        let after = other.read(guide);
        let found = apart(before, &after);
        met_apart(["twice, nearest", "twice, between", "half"][usize::from(size)], found);
        prop_assert!(found.of_doubt < RESIZED, "{found:?} {:?} {:?}", told(before), told(&after));
    }

    /// 9 cases. More around it (grey, black or what is at the edge) or less, as far as the scene goes. The
    /// middle of the photo is where a lens darkens least, and it moves: within the doubt.
    #[test]
    fn other_surroundings_read_the_same(
        photo in any_photo(),
        more in [0..60_i64, 0..60_i64, 0..60_i64, 0..60_i64],
        filling in 0..3_u8,
        crop in any::<bool>(),
    ) {
        let (p, guide, before) = of(photo);
        // Left, top, right, low: how much is added, or taken away.
        let [left, top, right, low] = if crop { room(p).map(|v| -v) } else { more };
        let size = [i64::from(p.width) + left + right, i64::from(p.height) + top + low];
        let inside = |x: i64, y: i64| x >= 0 && y >= 0 && x < i64::from(p.width) && y < i64::from(p.height);
        let pixel = |x: i64, y: i64| match filling {
            _ if inside(x - left, y - top) => p.at(x - left, y - top),
            0 => [0.2; 3],
            1 => [0.0; 3],
            _ => p.at(x - left, y - top),
        };
        let other = p.other(size.map(|v| v as u32), pixel, |[x, y]| [x + left as f64, y + top as f64]);
        let found = apart(before, &other.read(guide));
        met_apart(if crop { "cropped" } else { "padded" }, found);
        prop_assert!(found.of_doubt < FRAMED, "{found:?}");
    }
}

/// What may be cut off on each side: a few pixels are left around all outlines.
fn room(p: &Pictured) -> [i64; 4] {
    const LEFT_AROUND: f64 = 6.0;
    let mut bounds = [
        f64::INFINITY,
        f64::INFINITY,
        f64::NEG_INFINITY,
        f64::NEG_INFINITY,
    ];
    let cards = p.scene.card.iter();
    let steps = cards
        .clone()
        .flat_map(|c| c.steps.iter().map(|s| &s.outline));
    let outlines = cards.map(|c| &c.outline).chain(steps);
    for at in outlines
        .chain(p.scene.regions.iter().map(|r| &r.outline))
        .flatten()
    {
        bounds = [
            bounds[0].min(at.x()),
            bounds[1].min(at.y()),
            bounds[2].max(at.x()),
            bounds[3].max(at.y()),
        ];
    }
    let [x0, y0, x1, y1] = bounds;
    [x0, y0, f64::from(p.width) - x1, f64::from(p.height) - y1]
        .map(|v| (v - LEFT_AROUND).max(0.0) as i64)
}

proptest! {
    #![proptest_config(few(24))]

    /// 24 cases. Outlines and the guide's tabs in another order: the same ladders, rung by rung, and the
    /// same readings, but for the last digits of sums.
    #[test]
    fn another_order_gives_the_same_ladders(photo in any_photo(), seed in any::<u64>()) {
        let (p, guide, before) = of(photo);
        let mut dice = Dice(seed);
        let mut other = p.clone();
        shuffle(&mut other.scene.regions, &mut dice);
        let default = Guide::classical_sixteen().expect("the guide");
        let mut shuffled = guide.unwrap_or(&default).clone();
        shuffle(&mut shuffled.tabs, &mut dice);
        // Also as a chosen guide, in its own order: it then fills in tabs that the photo has not.
        let chosen = p.read(Some(guide.unwrap_or(&default)));
        let after = other.read(Some(&shuffled));
        let found = apart(before, &after);
        met_apart("in another order", found);
        prop_assert!(found.delta_e_00 < ORDER && found.doubt < ORDER, "{found:?}");
        prop_assert!(!after.ladders.is_empty());
        prop_assert_eq!(after.ladders.len(), chosen.ladders.len());
        for ladder in &chosen.ladders {
            let same = after.ladders.iter().find(|l| (&l.region, l.zone) == (&ladder.region, ladder.zone));
            let same = same.expect("the same ladder");
            prop_assert_eq!(&same.note, &ladder.note);
            prop_assert_eq!(same.tabs.len(), ladder.tabs.len());
            for (a, b) in ladder.tabs.iter().zip(&same.tabs) {
                prop_assert_eq!(
                    (&a.name, a.basis, a.verdict, &a.words, a.whole_tab, a.alike),
                    (&b.name, b.basis, b.verdict, &b.words, b.whole_tab, b.alike)
                );
                prop_assert!((a.delta_e_00 - b.delta_e_00).abs() < ORDER, "{a:?} {b:?}");
            }
        }
    }

    /// 24 cases. Another exposure and a cast, in linear light and without clipping, that the card sees as
    /// well: the balance takes them out, but for what rounding to a file's codes leaves.
    #[test]
    fn exposure_and_cast_change_nothing(
        photo in any_photo(),
        gain in 0.45..1.0_f32,
        cast in [0.7..1.0_f32, 0.7..1.0_f32, 0.7..1.0_f32],
        eight in any::<bool>(),
    ) {
        let (p, guide, before) = of(photo);
        let size = [p.width, p.height];
        let dimmed = p.other(size, |x, y| {
            let [r, g, b] = p.at(x, y);
            [r * gain * cast[0], g * gain * cast[1], b * gain * cast[2]]
        }, |at| at);
        let bits = if eight { 8 } else { 16 };
        let after = read(&dimmed.picture(bits).png(), &p.scene, guide);
        let found = apart(before, &after);
        met_apart(if eight { "dimmed, 8 bits" } else { "dimmed, 16 bits" }, found);
        prop_assert!(found.of_doubt < if eight { DIMMED_8 } else { DIMMED_16 }, "{found:?}");
    }
}

fn shuffle<T>(list: &mut [T], dice: &mut Dice) {
    for i in (1..list.len()).rev() {
        list.swap(i, dice.next() as usize % (i + 1));
    }
}
