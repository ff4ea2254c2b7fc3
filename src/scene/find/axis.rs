//! The long axis of a crown from its form: the direction it is most nearly mirrored about.

use crate::scene::grow::radial::direction;
use crate::scene::ring;
use std::sync::LazyLock;

/// A ring that encloses less has no axis.
const LEAST_AREA: f64 = 5e-7;
/// Directions tried over half a turn.
const TRIED: usize = 90;
/// Directions of the outline about its middle.
const AROUND: usize = 180;

/// How an outline lies.
#[derive(Debug, Clone, Copy)]
pub struct Lie {
    /// The middle of its area.
    pub middle: [f64; 2],
    /// Unit vector of the axis; which end is cervical is `taper`'s matter.
    pub unit: [f64; 2],
    /// Width towards the positive end minus width towards the negative one, over their mean:
    /// crowns and tabs are narrower at the neck.
    pub taper: f64,
    /// Length along the axis.
    pub length: f64,
    /// Width across it.
    pub width: f64,
}

/// How good each direction is as the axis of an outline.
pub struct Form<'a> {
    outline: &'a [[f64; 2]],
    middle: [f64; 2],
    /// Cost and unit vector of each direction that is tried.
    tried: Vec<(f64, [f64; 2])>,
}

impl<'a> Form<'a> {
    /// Tries the directions of an outline.
    pub fn of(outline: &'a [[f64; 2]]) -> Option<Self> {
        let (area, middle) = ring::area_and_centroid(outline);
        if area < LEAST_AREA {
            return None;
        }
        let radii = about(outline, middle, AROUND);
        let total: f64 = radii.iter().sum();
        // Twice round, so that no turn leaves it.
        let twice = radii.repeat(2);
        let cost = |k: usize| {
            // Half-steps of the fan, so that mirroring maps directions onto directions.
            let steps = k * AROUND / TRIED;
            let half = steps / 2;
            let onward = twice.iter().skip(half);
            let backward = twice.iter().take(steps - half + AROUND + 1).rev();
            let unlike: f64 = onward
                .zip(backward)
                .take(AROUND / 2)
                .map(|(a, b)| (a - b).abs())
                .sum();
            let (sin, cos) = turned(k, 2 * TRIED);
            let unit = [cos, sin];
            let (length, width) = extents(outline, middle, unit);
            let ratio = length / width.max(1e-9);
            let cost = UNLIKE * unlike / total.max(1e-9) - LONG * libm::log(ratio);
            (cost, unit)
        };
        Some(Self {
            outline,
            middle,
            tried: (0..TRIED).map(cost).collect(),
        })
    }

    /// The axis. `upright` is a direction that it is expected near, if any is known: across the
    /// row that the crown stands in.
    pub fn lie(&self, upright: Option<[f64; 2]>) -> Option<Lie> {
        let Self {
            outline, middle, ..
        } = *self;
        let mut best: Option<(f64, [f64; 2])> = None;
        for (cost, unit) in &self.tried {
            let off = upright.map_or(0.0, |up| unit[0] * up[1] - unit[1] * up[0]);
            let cost = cost + OFF * off * off;
            if best.is_none_or(|(c, _)| cost < c) {
                best = Some((cost, *unit));
            }
        }
        let (_, unit) = best?;
        let (length, width) = extents(outline, middle, unit);
        Some(Lie {
            middle,
            unit,
            taper: taper(outline, middle, unit),
            length,
            width: width.max(1e-9),
        })
    }
}

/// Weight of what is not mirrored.
const UNLIKE: f64 = 4.0;
/// Weight of being long rather than wide.
const LONG: f64 = 0.35;
/// Weight of leaning from where the row says.
const OFF: f64 = 1.2;

/// Sine and cosine of the directions about a middle, worked out once.
fn turned(i: usize, n: usize) -> (f64, f64) {
    static KNOWN: LazyLock<Vec<(f64, f64)>> =
        LazyLock::new(|| (0..AROUND).map(|i| direction(i, AROUND)).collect());
    let known = if n == AROUND { KNOWN.get(i) } else { None };
    known.copied().unwrap_or_else(|| direction(i, n))
}

/// Distance from the middle to the outline, by direction; the farthest crossing counts.
pub fn about(outline: &[[f64; 2]], middle: [f64; 2], count: usize) -> Vec<f64> {
    let fallback = (ring::area(outline) / std::f64::consts::PI).sqrt();
    let places: Vec<[f64; 2]> = outline
        .iter()
        .chain(outline.first())
        .map(|p| [p[0] - middle[0], p[1] - middle[1]])
        .collect();
    (0..count)
        .map(|i| {
            let (s, c) = turned(i, count);
            let mut far = 0.0_f64;
            let mut before: Option<([f64; 2], f64)> = None;
            for [bx, by] in &places {
                let v = bx * s - by * c;
                if let Some(([ax, ay], u)) = before
                    && (u < 0.0) != (v < 0.0)
                {
                    let t = u / (u - v);
                    far = far.max((ax + t * (bx - ax)) * c + (ay + t * (by - ay)) * s);
                }
                before = Some(([*bx, *by], v));
            }
            if far > 0.0 { far } else { fallback }
        })
        .collect()
}

fn extents(outline: &[[f64; 2]], middle: [f64; 2], unit: [f64; 2]) -> (f64, f64) {
    // Plain comparisons: quicker than `min` and `max`, which look for NaN.
    let less = |a: f64, b: f64| if b < a { b } else { a };
    let more = |a: f64, b: f64| if b > a { b } else { a };
    let [mut t0, mut t1, mut u0, mut u1] = [0.0_f64; 4];
    for p in outline {
        let (x, y) = (p[0] - middle[0], p[1] - middle[1]);
        let (t, u) = (x * unit[0] + y * unit[1], y * unit[0] - x * unit[1]);
        (t0, t1, u0, u1) = (less(t0, t), more(t1, t), less(u0, u), more(u1, u));
    }
    (t1 - t0, u1 - u0)
}

impl Lie {
    /// Length ÷ width.
    pub fn ratio(&self) -> f64 {
        self.length / self.width
    }
}

/// Where the line through the middle along `unit` leaves the outline, on both sides.
pub fn ends(outline: &[[f64; 2]], lie: &Lie) -> [[f64; 2]; 2] {
    let (mut low, mut high) = (0.0_f64, 0.0_f64);
    let [ux, uy] = lie.unit;
    for (a, b) in ring::sides(outline) {
        let (ax, ay) = (a[0] - lie.middle[0], a[1] - lie.middle[1]);
        let (bx, by) = (b[0] - lie.middle[0], b[1] - lie.middle[1]);
        let (u, v) = (ax * uy - ay * ux, bx * uy - by * ux);
        if (u < 0.0) != (v < 0.0) {
            let t = u / (u - v);
            let along = (ax + t * (bx - ax)) * ux + (ay + t * (by - ay)) * uy;
            low = low.min(along);
            high = high.max(along);
        }
    }
    [low, high].map(|t| [lie.middle[0] + t * ux, lie.middle[1] + t * uy])
}

fn taper(outline: &[[f64; 2]], middle: [f64; 2], unit: [f64; 2]) -> f64 {
    let [ux, uy] = unit;
    let (mut low, mut high) = (0.0_f64, 0.0_f64);
    for p in outline {
        let t = (p[0] - middle[0]) * ux + (p[1] - middle[1]) * uy;
        low = low.min(t);
        high = high.max(t);
    }
    let width_at = |t: f64| {
        let (mut least, mut most) = (f64::INFINITY, f64::NEG_INFINITY);
        for (a, b) in ring::sides(outline) {
            let ta = (a[0] - middle[0]) * ux + (a[1] - middle[1]) * uy - t;
            let tb = (b[0] - middle[0]) * ux + (b[1] - middle[1]) * uy - t;
            if (ta < 0.0) != (tb < 0.0) {
                let s = ta / (ta - tb);
                let across = |p: [f64; 2]| (p[1] - middle[1]) * ux - (p[0] - middle[0]) * uy;
                let u = across(a) + s * (across(b) - across(a));
                least = least.min(u);
                most = most.max(u);
            }
        }
        (most - least).max(0.0)
    };
    let mean = |shares: [f64; 3], end: f64| -> f64 {
        shares.iter().map(|s| width_at(s * end)).sum::<f64>() / 3.0
    };
    let shares = [0.55, 0.65, 0.75];
    let (plus, minus) = (mean(shares, high), mean(shares, low));
    2.0 * (plus - minus) / (plus + minus).max(1e-9)
}
