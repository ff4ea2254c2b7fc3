//! From what was found to what is proposed: order, target, restoration, in photo pixels.

use super::arrange::Crown;
use super::card::CardGuess;
use super::types::{Found, FoundCard, FoundRegion};
use crate::colour::order::{insertion_sort, sorted_by_key};
use crate::photo::Reduced;
use crate::scene::grow::outline::corners;
use crate::scene::types::{Point, RegionKind};

/// Of several steps the one whose light is nearest to this share of the lightest one's is read:
/// about mid-grey, when the lightest is paper white.
const MIDDLE_SHARE: f64 = 0.24;
/// The proposals.
pub fn found(crowns: &[Crown], card: Option<&CardGuess>, reduced: &Reduced) -> Found {
    // Rows one after another, each from left to right.
    let width = f64::from(reduced.width);
    let ordered = sorted_by_key(crowns.iter().collect(), |c: &&Crown| {
        let row = f64::from(u8::from(points_up(c))) + 2.0 * f64::from(u8::from(c.is_tab));
        2.0 * width * row + middle(c)[0]
    });
    let (target, restoration) = roles(&ordered, reduced);
    Found {
        card: card.map(|c| card_of(c, reduced)),
        regions: ordered.iter().map(|c| region_of(c, reduced)).collect(),
        target,
        restoration,
    }
}

/// A crown in photo pixels.
pub fn region_of(crown: &Crown, reduced: &Reduced) -> FoundRegion {
    FoundRegion {
        kind: if crown.is_tab {
            RegionKind::Tab
        } else {
            RegionKind::Tooth
        },
        outline: all_in_photo(&corners(&crown.outline, false), reduced),
        cervical: in_photo(crown.cervical, reduced),
        incisal: in_photo(crown.incisal, reduced),
        sure: f64::from(crown.sure),
    }
}

fn card_of(card: &CardGuess, reduced: &Reduced) -> FoundCard {
    let photo = |o: &[[f64; 2]]| all_in_photo(o, reduced);
    let whole = photo(&card.outline);
    let steps: Vec<Vec<Point>> = card.steps.iter().map(|(_, o)| photo(o)).collect();
    // Lightness is about the cube root of light.
    let light = |l: f32| f64::from(l * l * l);
    let lightest = card.steps.first().map_or(1.0, |(l, _)| light(*l));
    let off = |l: f32| libm::log(light(l).max(1e-6) / (MIDDLE_SHARE * lightest)).abs();
    let middle = (0..steps.len()).min_by(|a, b| {
        let at = |i: &usize| card.steps.get(*i).map_or(f64::INFINITY, |(l, _)| off(*l));
        at(a).total_cmp(&at(b))
    });
    FoundCard {
        outline: middle
            .and_then(|i| steps.get(i).cloned())
            .unwrap_or_else(|| whole.clone()),
        whole,
        steps,
        sure: card.sure,
    }
}

/// The tooth to compare with and the likely restoration, as places in `ordered`.
///
/// A mouth is nearly its own mirror image: the two middle teeth of the row are the widest
/// neighbours, and every tooth has a twin on the other side. The twins that differ most in
/// colour, if they stand out among the pairs, are tooth and restoration; which of them is the
/// restoration is told by which one is less like its own neighbours. That is a guess and is
/// offered as one.
fn roles(ordered: &[&Crown], reduced: &Reduced) -> (Option<usize>, Option<usize>) {
    let Some(row) = main_row(ordered, reduced) else {
        return (None, None);
    };
    let at = |k: usize| row.get(k).and_then(|i| ordered.get(*i)).copied();
    let Some(left) = middle_pair(&row, ordered, reduced) else {
        return (row.first().copied(), None);
    };
    let mut pairs: Vec<(f64, usize, usize)> = (0..=left.min(2))
        .filter_map(|k| {
            let (a, b) = (left - k, left + 1 + k);
            let difference = unlike(at(a)?, at(b)?);
            // A cropped or doubtful one is no restoration to compare.
            let whole = |c: &Crown| c.sure > LEAST_SURE && !on_frame(c, reduced);
            if !whole(at(a)?) || !whole(at(b)?) {
                return None;
            }
            Some((difference, a, b))
        })
        .collect();
    insertion_sort(&mut pairs, |p, q| p.0 > q.0);
    let place = |k: usize| row.get(k).copied();
    let [(most, a, b), (next, ..), ..] = pairs.as_slice() else {
        return (place(left), None);
    };
    if *most <= LEAST_UNLIKE || *most <= STANDS_OUT * next {
        return (place(left), None);
    }
    // How unlike its neighbours on the row one is, its twin left out.
    let off = |k: usize, twin: usize| -> f64 {
        let near = [k.checked_sub(1), Some(k + 1)].into_iter().flatten();
        let beside: Vec<f64> = near
            .filter(|n| *n != twin)
            .filter_map(|n| Some(unlike(at(k)?, at(n)?)))
            .collect();
        beside.iter().sum::<f64>() / beside.len().max(1) as f64
    };
    if off(*a, *b) > off(*b, *a) {
        (place(*b), place(*a))
    } else {
        (place(*a), place(*b))
    }
}

/// Less sure crowns are not proposed.
const LEAST_SURE: f32 = 0.6;

fn on_frame(c: &Crown, reduced: &Reduced) -> bool {
    let last = [reduced.width, reduced.height].map(|v| f64::from(v) - 2.5);
    c.outline
        .iter()
        .any(|p| p.iter().zip(last).any(|(v, l)| *v < 1.5 || *v > l))
}

/// Twins less different than this are alike to a camera.
const LEAST_UNLIKE: f64 = 0.015;
/// How much more the twins must differ than the next pair.
const STANDS_OUT: f64 = 2.1;

/// The row of teeth that the photo is about, from left to right: the one with more area near the
/// middle.
fn main_row(ordered: &[&Crown], reduced: &Reduced) -> Option<Vec<usize>> {
    let rows = [false, true].map(|lower| -> Vec<usize> {
        (0..ordered.len())
            .filter(|i| {
                ordered
                    .get(*i)
                    .is_some_and(|c| !c.is_tab && points_up(c) == lower)
            })
            .collect()
    });
    let weight = |row: &Vec<usize>| -> f64 {
        row.iter()
            .filter_map(|i| ordered.get(*i))
            .map(|c| c.radius * c.radius * (1.2 - off_middle(c, reduced)))
            .sum()
    };
    rows.into_iter()
        .filter(|r| !r.is_empty())
        .max_by(|a, b| weight(a).total_cmp(&weight(b)))
}

/// Distance from the middle of the photo, in half diagonals.
fn off_middle(c: &Crown, reduced: &Reduced) -> f64 {
    let (x, y) = (
        f64::from(reduced.width) / 2.0,
        f64::from(reduced.height) / 2.0,
    );
    let m = middle(c);
    libm::hypot(m[0] - x, m[1] - y) / libm::hypot(x, y).max(1.0)
}

/// The place in the row of the left one of the two middle teeth: large neighbours of one size,
/// near the middle of the photo.
fn middle_pair(row: &[usize], ordered: &[&Crown], reduced: &Reduced) -> Option<usize> {
    let merit = |k: usize| -> Option<f64> {
        let a = ordered.get(*row.get(k)?)?;
        let b = ordered.get(*row.get(k + 1)?)?;
        let small = a.radius.min(b.radius);
        let (p, q) = (middle(a), middle(b));
        let apart = libm::hypot(p[0] - q[0], p[1] - q[1]);
        // A gap between them: one is missing, or was not found.
        let gap = (apart / (a.radius + b.radius) - 1.2).max(0.0);
        let off = f64::midpoint(off_middle(a, reduced), off_middle(b, reduced));
        Some(libm::log(small.max(1.0)) - 0.5 * off - gap)
    };
    (0..row.len().saturating_sub(1))
        .filter_map(|k| Some((merit(k)?, k)))
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, k)| k)
}

fn unlike(a: &Crown, b: &Crown) -> f64 {
    let squares = a
        .colour
        .iter()
        .zip(b.colour)
        .map(|(p, q)| (p - q) * (p - q));
    f64::from(squares.sum::<f32>()).sqrt()
}

/// Cervical end below: a lower tooth, or a tab held from below.
fn points_up(c: &Crown) -> bool {
    c.cervical[1] > c.incisal[1]
}

fn middle(c: &Crown) -> [f64; 2] {
    [
        (c.cervical[0] + c.incisal[0]) / 2.0,
        (c.cervical[1] + c.incisal[1]) / 2.0,
    ]
}

/// An outline of the reduced copy in the photo.
pub fn all_in_photo(outline: &[[f64; 2]], reduced: &Reduced) -> Vec<Point> {
    outline.iter().map(|p| in_photo(*p, reduced)).collect()
}

/// A place of the reduced copy in the photo; what sticks out over the frame ends there.
fn in_photo(place: [f64; 2], reduced: &Reduced) -> Point {
    let [x, y] = reduced.photo_from_reduced(place);
    let last = |count: u32, scale: f64| f64::from(count) * scale - 0.5;
    Point::new(
        x.clamp(-0.5, last(reduced.width, reduced.scale_x)),
        y.clamp(-0.5, last(reduced.height, reduced.scale_y)),
    )
}
