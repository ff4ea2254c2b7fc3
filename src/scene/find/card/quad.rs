//! The straight-sided outline of a patch.

use crate::colour::order::sorted_by_key;
use crate::colour::root::hypot;
use crate::scene::grow::features::Features;
use crate::scene::ring;

/// The convex hull of pixels (given as indices in rows of `width`), at pixel edges.
pub fn hull(pixels: &[u32], width: usize) -> Vec<[f64; 2]> {
    // The first and last pixel of each row are enough.
    let last = pixels.iter().map(|i| *i as usize / width.max(1)).max();
    let mut rows: Vec<Option<(usize, usize)>> = vec![None; last.map_or(0, |l| l + 1)];
    for i in pixels {
        let (x, y) = (*i as usize % width.max(1), *i as usize / width.max(1));
        if let Some(row) = rows.get_mut(y) {
            *row = Some(row.map_or((x, x), |(a, b)| (a.min(x), b.max(x))));
        }
    }
    let corners: Vec<[f64; 2]> = rows
        .into_iter()
        .enumerate()
        .filter_map(|(y, row)| Some((y, row?)))
        .flat_map(|(y, (a, b))| {
            let (a, b, y) = (a as f64, b as f64, y as f64);
            [
                [a - 0.5, y - 0.5],
                [a - 0.5, y + 0.5],
                [b + 0.5, y - 0.5],
                [b + 0.5, y + 0.5],
            ]
        })
        .collect();
    ring::hull(&corners)
}

/// The convex polygon of at most `most` corners that loses or gains least area: sides of the
/// hull are dropped one by one, their neighbours prolonged to meet, the cheapest first.
pub fn few_sided(hull: &[[f64; 2]], most: usize) -> Vec<[f64; 2]> {
    let mut sides = hull.to_vec();
    let whole = ring::area(hull);
    // Corners that are hardly corners go first.
    loop {
        if sides.len() <= 3 {
            return sides;
        }
        let n = sides.len();
        let mut best: Option<(f64, usize, [f64; 2])> = None;
        for i in 0..n {
            let at = |k: usize| sides.get(k % n).copied().unwrap_or_default();
            let (a, b, c, d) = (at(i), at(i + 1), at(i + 2), at(i + 3));
            // Drop side b–c: prolong a–b and d–c until they meet.
            let Some(meet) = meeting(a, b, d, c) else {
                continue;
            };
            let gain = ring::area(&[b, meet, c]);
            if best.is_none_or(|(g, ..)| gain < g) {
                best = Some((gain, i, meet));
            }
        }
        let Some((gain, i, meet)) = best else {
            return sides;
        };
        // Four sides are enough unless the fifth holds much, as where the frame cuts a corner.
        if n <= most && gain > 0.035 * whole {
            return sides;
        }
        let (b, c) = ((i + 1) % n, (i + 2) % n);
        if let Some(slot) = sides.get_mut(b) {
            *slot = meet;
        }
        sides.remove(c);
    }
}

/// Where the ray from `a` through `b` meets the ray from `d` through `c`, beyond both.
fn meeting(a: [f64; 2], b: [f64; 2], d: [f64; 2], c: [f64; 2]) -> Option<[f64; 2]> {
    let (ux, uy) = (b[0] - a[0], b[1] - a[1]);
    let (vx, vy) = (c[0] - d[0], c[1] - d[1]);
    let cross = ux * vy - uy * vx;
    if cross.abs() < 1e-9 {
        return None;
    }
    let (wx, wy) = (d[0] - a[0], d[1] - a[1]);
    let t = (wx * vy - wy * vx) / cross;
    let s = (wx * uy - wy * ux) / cross;
    (t >= 1.0 - 1e-9 && s >= 1.0 - 1e-9).then(|| [a[0] + t * ux, a[1] + t * uy])
}

/// How well the sides of an outline are borders.
#[derive(Debug, Clone, Copy, Default)]
pub struct Sides {
    /// Share of the places along the sides with a border, the mean over the sides.
    pub support: f64,
    /// The same of the weakest side.
    pub weakest: f64,
    /// Mean distance of the borders from straight lines, in pixels.
    pub bent: f64,
    /// Mean height of the border, as a difference of features.
    pub step: f64,
    /// Share of the sides' length that lies on the frame of the photo.
    pub frame: f64,
}

/// Moves each side to where the border is steepest nearby, as a line through what is found at
/// many places along it; sides on the frame stay.
pub fn to_borders(features: &Features, corners: &[[f64; 2]]) -> (Vec<[f64; 2]>, Sides) {
    let n = corners.len();
    let (w, h) = (features.width() as f64, features.height() as f64);
    let on_frame = |a: [f64; 2], b: [f64; 2]| {
        let near = |v: [f64; 2], k: usize, at: f64| v.get(k).is_some_and(|v| (v - at).abs() < 3.5);
        [(0, 0.0), (0, w - 1.0), (1, 0.0), (1, h - 1.0)]
            .iter()
            .any(|(k, at)| near(a, *k, *at) && near(b, *k, *at))
    };
    let next = |i: usize| corners.get((i + 1) % n).copied().unwrap_or_default();
    let mut sides = Sides {
        weakest: 1.0,
        ..Sides::default()
    };
    let (mut free, mut all) = (0.0, 0.0);
    let lines: Vec<[[f64; 2]; 2]> = corners
        .iter()
        .enumerate()
        .map(|(i, a)| {
            let b = next(i);
            let length = hypot(b[0] - a[0], b[1] - a[1]);
            all += length;
            if on_frame(*a, b) {
                sides.frame += length;
                return [*a, b];
            }
            let found = fitted(features, *a, b);
            free += length;
            sides.support += length * found.support;
            sides.bent += length * found.bent;
            sides.step += length * found.step;
            sides.weakest = sides.weakest.min(found.support);
            found.line.unwrap_or([*a, b])
        })
        .collect();
    let share = 1.0 / f64::max(free, 1.0);
    sides.support *= share;
    sides.bent *= share;
    sides.step *= share;
    sides.frame /= f64::max(all, 1.0);
    let moved = lines
        .iter()
        .enumerate()
        .map(|(i, line)| {
            let before = lines.get((i + n - 1) % n).copied().unwrap_or(*line);
            let old = corners.get(i).copied().unwrap_or_default();
            let [a, b] = before;
            let [c, d] = *line;
            let (ux, uy, vx, vy) = (b[0] - a[0], b[1] - a[1], d[0] - c[0], d[1] - c[1]);
            let cross = ux * vy - uy * vx;
            if cross.abs() < 1e-6 {
                return old;
            }
            let t = ((c[0] - a[0]) * vy - (c[1] - a[1]) * vx) / cross;
            let meet = [a[0] + t * ux, a[1] + t * uy];
            let moved = hypot(meet[0] - old[0], meet[1] - old[1]);
            let meet = if moved < 12.0 { meet } else { old };
            [meet[0].clamp(-0.5, w - 0.5), meet[1].clamp(-0.5, h - 0.5)]
        })
        .collect();
    (moved, sides)
}

/// What is found along one side.
struct Side {
    line: Option<[[f64; 2]; 2]>,
    support: f64,
    bent: f64,
    step: f64,
}

/// Border below this is none, as a squared difference of features.
const LEAST_STEP: f32 = 0.0009;

/// A line through the steepest places near a side.
fn fitted(features: &Features, a: [f64; 2], b: [f64; 2]) -> Side {
    let (dx, dy) = (b[0] - a[0], b[1] - a[1]);
    let length = hypot(dx, dy);
    let none = |support: f64, step: f64| Side {
        line: None,
        support,
        bent: 3.0,
        step,
    };
    if length < 8.0 {
        return none(0.5, 0.1);
    }
    let (ux, uy) = (dx / length, dy / length);
    let (nx, ny) = (-uy, ux);
    let mut found: Vec<(f64, f64)> = Vec::new();
    let mut height = 0.0;
    let count = (length / 3.0).clamp(8.0, 48.0) as usize;
    for i in 0..count {
        // The corners are rounded.
        let t = length * (0.1 + 0.8 * (i as f64 + 0.5) / count as f64);
        let base = [a[0] + t * ux, a[1] + t * uy];
        let look = |s: f64| features.at([base[0] + s * nx, base[1] + s * ny]);
        let seen: Vec<[f32; 3]> = (-12..=12).map(|k| look(f64::from(k) * 0.6)).collect();
        let mut best = (0.0_f32, 0.0);
        for (k, w) in seen.windows(5).enumerate() {
            let [p, _, _, _, q] = w else { continue };
            let step: f32 = p.iter().zip(q).map(|(p, q)| (p - q) * (p - q)).sum();
            let s = (k as f64 - 10.0) * 0.6;
            let near = 1.0 - 0.03 * (s.abs() as f32);
            if step * near > best.0 {
                best = (step * near, s);
            }
        }
        height += f64::from(best.0.sqrt()) / count as f64;
        if best.0 > LEAST_STEP {
            found.push((t, best.1));
        }
    }
    let support = found.len() as f64 / count as f64;
    if found.len() * 3 < count {
        return none(support, height);
    }
    // Twice: all, then without the third that lies farthest off.
    let Some(first) = straight(&found) else {
        return none(support, height);
    };
    let off = |line: (f64, f64), p: &(f64, f64)| (p.1 - line.0 - line.1 * p.0).abs();
    let mut found = sorted_by_key(found, |p| off(first, p));
    found.truncate((found.len() * 2).div_ceil(3).max(4));
    let Some(line) = straight(&found) else {
        return none(support, height);
    };
    let bent = found.iter().map(|p| off(line, p)).sum::<f64>() / found.len().max(1) as f64;
    let at = |t: f64| {
        let s = line.0 + line.1 * t;
        [a[0] + t * ux + s * nx, a[1] + t * uy + s * ny]
    };
    Side {
        line: Some([at(0.0), at(length)]),
        support,
        bent,
        step: height,
    }
}

/// Least squares: (offset, slope).
fn straight(points: &[(f64, f64)]) -> Option<(f64, f64)> {
    let n = points.len() as f64;
    if points.len() < 3 {
        return None;
    }
    let (mt, ms) = points
        .iter()
        .fold((0.0, 0.0), |(a, b), p| (a + p.0 / n, b + p.1 / n));
    let (tt, ts) = points.iter().fold((0.0, 0.0), |(a, b), p| {
        let d = p.0 - mt;
        (a + d * d, b + d * (p.1 - ms))
    });
    let slope = if tt > 1e-9 { ts / tt } else { 0.0 };
    Some((ms - slope * mt, slope))
}
