//! From a dense curve to an outline with few corners.

use crate::colour::root::hypot;
use crate::scene::ring;

/// Corners of a crown's outline at most: few enough to drag, enough for its shape.
const MOST_CORNERS: usize = 28;

/// Few corners for a dense closed curve. `quadrilateral` tries four first.
pub fn corners(curve: &[[f64; 2]], quadrilateral: bool) -> Vec<[f64; 2]> {
    if quadrilateral && let Some(four) = four_corners(curve) {
        return four;
    }
    let mut tolerance = 0.35;
    for _ in 0..24 {
        let simple = simplified(curve, tolerance);
        if simple.len() <= MOST_CORNERS {
            return simple;
        }
        tolerance *= 1.2;
    }
    curve.to_vec()
}

/// Four corners when they cover the curve's area well.
fn four_corners(curve: &[[f64; 2]]) -> Option<Vec<[f64; 2]>> {
    let area = ring::area(curve);
    let mut tolerance = 0.5;
    for _ in 0..40 {
        let simple = simplified(curve, tolerance);
        if simple.len() == 4 {
            let ratio = ring::area(&simple) / area.max(1e-9);
            return (0.9..=1.1).contains(&ratio).then_some(simple);
        }
        if simple.len() < 4 {
            return None;
        }
        tolerance *= 1.15;
    }
    None
}

/// Douglas–Peucker on a closed curve, opened at its two farthest points.
fn simplified(curve: &[[f64; 2]], tolerance: f64) -> Vec<[f64; 2]> {
    let Some(first) = curve.first() else {
        return Vec::new();
    };
    let farthest_from = |from: &[f64; 2]| {
        let d = |p: &[f64; 2]| hypot(p[0] - from[0], p[1] - from[1]);
        (0..curve.len())
            .max_by(|a, b| {
                let at = |i: &usize| curve.get(*i).map_or(0.0, d);
                at(a).total_cmp(&at(b))
            })
            .unwrap_or(0)
    };
    let a = farthest_from(first);
    let b = curve.get(a).map_or(0, farthest_from);
    let mut turned: Vec<[f64; 2]> = curve.to_vec();
    turned.rotate_left(a);
    let split = (b + curve.len() - a) % curve.len();
    turned.extend(turned.first().copied());
    let mut keep = vec![false; turned.len()];
    for end in [0, split, turned.len() - 1] {
        if let Some(k) = keep.get_mut(end) {
            *k = true;
        }
    }
    let mut stack = vec![(0, split), (split, turned.len() - 1)];
    while let Some((from, to)) = stack.pop() {
        let (Some(p), Some(q)) = (turned.get(from), turned.get(to)) else {
            continue;
        };
        let worst = (from + 1..to)
            .filter_map(|i| Some((i, distance_to_line(turned.get(i)?, p, q))))
            .max_by(|x, y| x.1.total_cmp(&y.1));
        if let Some((i, d)) = worst
            && d > tolerance
        {
            if let Some(k) = keep.get_mut(i) {
                *k = true;
            }
            stack.push((from, i));
            stack.push((i, to));
        }
    }
    turned.pop();
    turned
        .into_iter()
        .zip(keep)
        .filter(|(_, k)| *k)
        .map(|(p, _)| p)
        .collect()
}

fn distance_to_line(p: &[f64; 2], a: &[f64; 2], b: &[f64; 2]) -> f64 {
    let (dx, dy) = (b[0] - a[0], b[1] - a[1]);
    let length = hypot(dx, dy);
    if length < 1e-9 {
        return hypot(p[0] - a[0], p[1] - a[1]);
    }
    ((p[0] - a[0]) * dy - (p[1] - a[1]) * dx).abs() / length
}
