//! Smooth random textures with their slopes. Lengths are in units of one lattice cell.

use crate::rng::{hash2, unit2};

/// A value and its slope along x and y.
#[derive(Debug, Clone, Copy, Default)]
pub struct Slope {
    /// Value.
    pub v: f32,
    /// ∂v/∂x.
    pub dx: f32,
    /// ∂v/∂y.
    pub dy: f32,
}

/// Value noise, about −1..1, with exact slope.
#[inline]
pub fn value(x: f32, y: f32, seed: u32) -> Slope {
    let (fx, fy) = (x.floor(), y.floor());
    let (ix, iy) = (fx as i32, fy as i32);
    let (u, v) = (x - fx, y - fy);
    let s = |t: f32| t * t * t * (t * (t * 6.0 - 15.0) + 10.0);
    let d = |t: f32| 30.0 * t * t * (t * (t - 2.0) + 1.0);
    let at = |i: i32, j: i32| unit2(ix + i, iy + j, seed) * 2.0 - 1.0;
    let (a, b, c, e) = (at(0, 0), at(1, 0), at(0, 1), at(1, 1));
    let (su, sv) = (s(u), s(v));
    let k = a - b - c + e;
    Slope {
        v: a + (b - a) * su + (c - a) * sv + k * su * sv,
        dx: d(u) * ((b - a) + k * sv),
        dy: d(v) * ((c - a) + k * su),
    }
}

/// Octaves of value noise: each half as tall and twice as fine.
#[inline]
pub fn fbm(x: f32, y: f32, octaves: u32, seed: u32) -> Slope {
    let mut out = Slope::default();
    let (mut f, mut a) = (1.0_f32, 0.5_f32);
    for o in 0..octaves {
        // Turned by about 37° each time so that the lattice does not show.
        let (c, s) = TURN[(o & 3) as usize];
        let n = value(
            (x * c - y * s) * f,
            (x * s + y * c) * f,
            seed.wrapping_add(o * 101),
        );
        out.v += a * n.v;
        out.dx += a * f * (n.dx * c + n.dy * s);
        out.dy += a * f * (-n.dx * s + n.dy * c);
        f *= 2.03;
        a *= 0.5;
    }
    out
}

const TURN: [(f32, f32); 4] = [(1.0, 0.0), (0.8, 0.6), (0.28, 0.96), (-0.352, 0.936)];

/// Round dimples of varied depth and size: depth 0..1 and its slope.
#[inline]
pub fn dimples(x: f32, y: f32, seed: u32) -> Slope {
    let (ix, iy) = (x.floor() as i32, y.floor() as i32);
    let mut out = Slope::default();
    for j in -1..=1 {
        for i in -1..=1 {
            let (cx, cy) = (ix + i, iy + j);
            let h = hash2(cx, cy, seed);
            let byte = |k: u32| ((h >> k) & 0xff) as f32 / 255.0;
            let (dx, dy) = (x - (cx as f32 + byte(0)), y - (cy as f32 + byte(8)));
            let r = 0.28 + 0.30 * byte(16);
            let q = (dx * dx + dy * dy) / (r * r);
            if q < 1.0 {
                let w = byte(24) * (1.0 - q);
                let depth = w * (1.0 - q);
                out.v += depth;
                out.dx -= 4.0 * w * dx / (r * r);
                out.dy -= 4.0 * w * dy / (r * r);
            }
        }
    }
    out
}

/// 0 below `a`, 1 above `b`, smooth between.
#[inline]
pub fn smooth(a: f32, b: f32, x: f32) -> f32 {
    let t = ((x - a) / (b - a)).clamp(0.0, 1.0);
    t * t * (3.0 - 2.0 * t)
}
