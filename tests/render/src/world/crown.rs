//! The form of a crown as functions of its own coordinates: y from the gum's zenith (0) to the
//! biting edge (length), x across, z toward the viewer, all in millimetres.
//!
//! Outline: two side profiles, a biting edge and a neck, joined with round corners. Face: convex
//! across (flat between the line angles, steep at the sides), convex along, with three lobes.
//! Usual widths and lengths are those of common dental anatomy (from memory).

use crate::noise::{smooth, value};

/// What decides a crown's form.
#[derive(Debug, Clone)]
pub struct CrownForm {
    /// Half of the greatest width.
    pub half_width: f32,
    /// Zenith to biting edge.
    pub length: f32,
    /// −1: the side toward the midline is at −x.
    pub mesial: f32,
    /// 1 central, 2 lateral, 3 canine, 4 and 5 premolars, 6 first molar; 0 a shade tab.
    pub kind: u8,
    /// Its own irregularities.
    pub seed: u32,
}

/// Width profile (share of the half width) at t = y/length.
type Profile = &'static [(f32, f32)];

const CENTRAL_M: Profile = &[
    (-0.3, 0.66),
    (0.0, 0.79),
    (0.15, 0.855),
    (0.4, 0.950),
    (0.58, 0.990),
    (0.75, 1.0),
    (0.9, 0.998),
    (1.1, 0.98),
];
const CENTRAL_D: Profile = &[
    (-0.3, 0.62),
    (0.0, 0.77),
    (0.15, 0.845),
    (0.35, 0.935),
    (0.52, 0.985),
    (0.68, 1.0),
    (0.83, 0.985),
    (1.1, 0.90),
];
const LATERAL_M: Profile = &[
    (-0.3, 0.60),
    (0.0, 0.76),
    (0.2, 0.86),
    (0.42, 0.955),
    (0.62, 0.995),
    (0.76, 1.0),
    (1.1, 0.92),
];
const LATERAL_D: Profile = &[
    (-0.3, 0.58),
    (0.0, 0.74),
    (0.2, 0.855),
    (0.4, 0.96),
    (0.57, 1.0),
    (0.76, 0.975),
    (1.1, 0.81),
];
const CANINE_M: Profile = &[
    (-0.3, 0.62),
    (0.0, 0.75),
    (0.2, 0.86),
    (0.42, 0.96),
    (0.6, 1.0),
    (0.8, 0.965),
    (1.1, 0.82),
];
const CANINE_D: Profile = &[
    (-0.3, 0.60),
    (0.0, 0.73),
    (0.2, 0.85),
    (0.38, 0.96),
    (0.53, 1.0),
    (0.75, 0.96),
    (1.1, 0.75),
];
const PREMOLAR: Profile = &[
    (-0.3, 0.62),
    (0.0, 0.74),
    (0.2, 0.85),
    (0.4, 0.95),
    (0.58, 1.0),
    (0.75, 0.965),
    (1.1, 0.80),
];
const TAB: Profile = &[
    (-0.3, 0.40),
    (-0.12, 0.52),
    (0.0, 0.64),
    (0.12, 0.76),
    (0.28, 0.865),
    (0.5, 0.95),
    (0.72, 1.0),
    (0.88, 0.995),
    (1.1, 0.94),
];

/// Usual width and length in millimetres by place in the quadrant (1–6), upper.
pub const UPPER_MM: [[f64; 2]; 6] = [
    [8.5, 10.4],
    [6.6, 9.0],
    [7.6, 10.0],
    [7.0, 8.5],
    [6.8, 7.7],
    [10.2, 7.3],
];
/// The same, lower.
pub const LOWER_MM: [[f64; 2]; 6] = [
    [5.3, 8.6],
    [5.8, 8.9],
    [6.8, 10.2],
    [7.0, 8.6],
    [7.1, 8.0],
    [11.0, 7.5],
];

fn along(profile: Profile, t: f32) -> (f32, f32) {
    let n = profile.len();
    let mut k = 0;
    while k + 2 < n && t > profile[k + 1].0 {
        k += 1;
    }
    // Cubic Hermite with secant slopes: smooth, and no overshoot worth a name.
    let slope = |i: usize| {
        let (a, b) = (profile[i.saturating_sub(1)], profile[(i + 1).min(n - 1)]);
        (b.1 - a.1) / (b.0 - a.0)
    };
    let (p, q) = (profile[k], profile[k + 1]);
    let h = q.0 - p.0;
    let u = ((t - p.0) / h).clamp(0.0, 1.0);
    let (m0, m1) = (slope(k) * h, slope(k + 1) * h);
    let (u2, u3) = (u * u, u * u * u);
    let v = (2.0 * u3 - 3.0 * u2 + 1.0) * p.1
        + (u3 - 2.0 * u2 + u) * m0
        + (3.0 * u2 - 2.0 * u3) * q.1
        + (u3 - u2) * m1;
    let d = ((6.0 * u2 - 6.0 * u) * (p.1 - q.1)
        + (3.0 * u2 - 4.0 * u + 1.0) * m0
        + (3.0 * u2 - 2.0 * u) * m1)
        / h;
    (v, d)
}

impl CrownForm {
    fn rand(&self, k: i32) -> f32 {
        crate::rng::unit2(k, 77, self.seed) * 2.0 - 1.0
    }

    fn profiles(&self) -> [Profile; 2] {
        match self.kind {
            0 => [TAB, TAB],
            1 => [CENTRAL_M, CENTRAL_D],
            2 => [LATERAL_M, LATERAL_D],
            3 => [CANINE_M, CANINE_D],
            _ => [PREMOLAR, PREMOLAR],
        }
    }

    /// Half width on the side of `x` at height t, and its slope in y.
    fn half(&self, x: f32, t: f32) -> (f32, f32) {
        let [m, d] = self.profiles();
        let (v, s) = along(if x * self.mesial > 0.0 { m } else { d }, t);
        // Slow irregularity of the side.
        let side = if x < 0.0 { 3 } else { 4 };
        let wobble = 0.012 * self.rand(side) * (t * 5.0 + self.rand(side + 2) * 3.0).sin();
        (
            self.half_width * (v + wobble),
            s * self.half_width / self.length,
        )
    }

    /// −1 at the mesial side to 1 at the distal side.
    pub fn across(&self, x: f32, y: f32) -> f32 {
        let (h, _) = self.half(x, y / self.length);
        -(x / h) * self.mesial
    }

    /// y of the biting edge at x, and its slope.
    fn edge(&self, x: f32) -> (f32, f32) {
        let f = |x: f32| {
            let u = -(x / self.half_width) * self.mesial;
            let wave = 0.06 * value(x * 0.55 + 9.0, 3.0, self.seed).v
                + 0.025 * value(x * 1.7, 8.0, self.seed ^ 5).v;
            let fall = match self.kind {
                0 => 0.10 * u * u,
                1 => 0.10 * (u + 0.3).max(0.0).powi(2) * 1.6 + 0.05 * self.rand(9) * u,
                2 => 0.55 * (u + 0.15).max(0.0).powf(1.8) + 0.18 * (-u - 0.2).max(0.0).powi(2),
                3 => {
                    1.75 * (((u + 0.10).powi(2) + 0.012).sqrt() - 0.11)
                        * if u > -0.1 { 1.12 } else { 0.95 }
                }
                // Two cusps.
                6 => 1.15 * (((u.abs() - 0.42).powi(2) + 0.02).sqrt() - 0.14),
                _ => 1.25 * (((u).powi(2) + 0.02).sqrt() - 0.14),
            };
            self.length - fall + wave
        };
        (f(x), (f(x + 0.05) - f(x - 0.05)) / 0.1)
    }

    /// Signed distance to the outline, negative inside.
    pub fn distance(&self, x: f32, y: f32) -> f32 {
        let t = y / self.length;
        let (h, s) = self.half(x, t);
        let side = (x.abs() - h) / (1.0 + s * s).sqrt();
        let (e, es) = self.edge(x);
        let edge = (y - e) / (1.0 + es * es).sqrt();
        let mesial = x * self.mesial > 0.0;
        let r = match (self.kind, mesial) {
            (0, _) => 1.1,
            (1, true) => 0.75,
            (1, false) => 1.6,
            (2, true) => 1.2,
            (2, false) => 2.0,
            (3, _) => 1.2,
            _ => 1.5,
        } * self.half_width
            / 4.2;
        let low = round_join(side, edge, r);
        let neck_end = if self.kind == 0 { -0.06 } else { -0.27 };
        let neck = neck_end * self.length - y;
        round_join(low, neck, if self.kind == 0 { 1.6 } else { 1.8 })
    }

    /// Height of the face (0 at its middle, negative around).
    pub fn height(&self, x: f32, y: f32, distance: f32) -> f32 {
        let t = y / self.length;
        let u = self.across(x, y).clamp(-1.15, 1.15);
        let w = self.half_width;
        let tab = self.kind == 0;
        // Across: flat between the line angles, falling away outside; distal side rounder.
        let power = if u < 0.0 { 3.6 } else { 3.1 };
        let depth = if tab { 0.30 } else { 0.40 } * w;
        let mut z = -depth * u.abs().powf(power) - 0.035 * w * u * u;
        // Along: the neck leans back most, the edge a little.
        let lean = t - 0.52;
        z -= if lean < 0.0 { 2.6 } else { 1.55 } * lean * lean * self.length / 10.0;
        if self.kind == 6 {
            // A groove between two cusps.
            z -= 0.45 * (-(u / 0.13).powi(2)).exp() * smooth(0.25, 0.75, t);
        } else if self.kind >= 3 {
            // A middle ridge.
            z += 0.35 * (1.0 - (u * u * 2.2 + 0.02).sqrt()) * smooth(0.1, 0.8, t);
        }
        // Lobes: two shallow furrows from the middle down to the edge.
        let furrow = |at: f32, s: f32| (-((u - at) / s).powi(2)).exp();
        let deep = 0.5 + 0.5 * self.rand(11);
        let lobes = (0.05 + 0.07 * deep)
            * (furrow(-0.30 + 0.06 * self.rand(12), 0.17)
                + 0.9 * furrow(0.28 + 0.06 * self.rand(13), 0.19));
        z -= lobes * smooth(0.25, 0.72, t) * if tab { 0.75 } else { 1.0 };
        // Slow unevenness of a hand-sized face.
        let bump = value(x * 0.42 + 5.0, y * 0.33, self.seed ^ 21);
        let fine = value(x * 0.9, y * 0.8 + 2.0, self.seed ^ 22);
        z += if tab { 0.03 } else { 0.045 } * bump.v + if tab { 0.010 } else { 0.016 } * fine.v;
        // The edge itself is rounded over, the sides too.
        let rim = (0.55 + distance.min(0.25)).max(0.0) / 0.55;
        z - 0.30 * rim * rim * rim
    }
}

/// Intersection of two half planes with a round corner of radius r.
fn round_join(a: f32, b: f32, r: f32) -> f32 {
    let (u, v) = ((a + r).max(0.0), (b + r).max(0.0));
    a.max(b).min(-r) + (u * u + v * v).sqrt()
}
