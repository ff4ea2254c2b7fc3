//! From a dense curve to an outline with few corners, and its axis.

use crate::error::Result;
use crate::scene::axis::Axis;
use crate::scene::polygon::Polygon;
use crate::scene::types::{Point, RegionKind};

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
    let area = area_of(curve);
    let mut tolerance = 0.5;
    for _ in 0..40 {
        let simple = simplified(curve, tolerance);
        if simple.len() == 4 {
            let ratio = area_of(&simple) / area.max(1e-9);
            return (0.9..=1.1).contains(&ratio).then_some(simple);
        }
        if simple.len() < 4 {
            return None;
        }
        tolerance *= 1.15;
    }
    None
}

fn area_of(curve: &[[f64; 2]]) -> f64 {
    let next = curve.iter().cycle().skip(1);
    let twice: f64 = curve
        .iter()
        .zip(next)
        .map(|(a, b)| a[0] * b[1] - b[0] * a[1])
        .sum();
    twice.abs() / 2.0
}

/// Douglas–Peucker on a closed curve, opened at its two farthest points.
fn simplified(curve: &[[f64; 2]], tolerance: f64) -> Vec<[f64; 2]> {
    let Some(first) = curve.first() else {
        return Vec::new();
    };
    let farthest_from = |from: &[f64; 2]| {
        let d = |p: &[f64; 2]| libm::hypot(p[0] - from[0], p[1] - from[1]);
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
    let length = libm::hypot(dx, dy);
    if length < 1e-9 {
        return libm::hypot(p[0] - a[0], p[1] - a[1]);
    }
    ((p[0] - a[0]) * dy - (p[1] - a[1]) * dx).abs() / length
}

/// Extents nearer to each other than this ratio do not tell the axis by themselves.
const CLEARLY_LONGER: f64 = 1.35;

/// The axis of a fresh outline: its long extent, or, when it is nearly as wide as long, the
/// extent nearer to upright. The cervical end of a tooth is the one with the redder
/// surroundings (the gum); that of a tab is the lower one.
pub fn axis_of(
    outline: &[Point],
    kind: RegionKind,
    redness_at: impl Fn(Point) -> Option<f32>,
) -> Result<Axis> {
    let polygon = Polygon::new(outline, "The outline")?;
    let major = polygon.major_axis();
    let minor = [-major[1], major[0]];
    let length = |axis| {
        let [lo, hi] = polygon.extent_along(axis);
        hi - lo
    };
    let ambiguous = length(major) < CLEARLY_LONGER * length(minor);
    let unit = if ambiguous && minor[1].abs() > major[1].abs() {
        minor
    } else {
        major
    };
    let [lo, hi] = polygon.extent_along(unit);
    let c = polygon.centroid();
    let along = |t: f64| Point::new(c.x() + t * unit[0], c.y() + t * unit[1]);
    let (a, b) = (along(lo), along(hi));
    let (upper, lower) = if a.y() <= b.y() { (a, b) } else { (b, a) };
    let gum_below = || {
        // Just outside each end, over a third of the width.
        let reach = 0.08 * (hi - lo);
        let around = |end: Point, out: f64| {
            let across = [-unit[1], unit[0]];
            let width = length(across);
            let seen: Vec<f32> = (-3..=3)
                .filter_map(|k| {
                    let side = f64::from(k) / 18.0 * width;
                    redness_at(Point::new(
                        end.x() + out * unit[0] + side * across[0],
                        end.y() + out * unit[1] + side * across[1],
                    ))
                })
                .collect();
            (!seen.is_empty()).then(|| seen.iter().sum::<f32>() / seen.len() as f32)
        };
        let outward = if a.y() <= b.y() { 1.0 } else { -1.0 };
        match (
            around(upper, -reach * outward),
            around(lower, reach * outward),
        ) {
            (Some(up), Some(down)) => down > up + 0.06,
            _ => false,
        }
    };
    let cervical_is_lower = match kind {
        RegionKind::Tab => true,
        RegionKind::Tooth | RegionKind::Restoration => gum_below(),
    };
    Ok(if cervical_is_lower {
        Axis {
            cervical: lower,
            incisal: upper,
        }
    } else {
        Axis {
            cervical: upper,
            incisal: lower,
        }
    })
}
