//! Surface of teeth, restorations and tabs.

use super::Paint;
use crate::noise::{fbm, smooth, value};
use crate::world::body::CrownLook;

pub(super) fn crown(look: &CrownLook, seed: u32, x: f32, y: f32, form: [f32; 4]) -> Paint {
    let f = &look.form;
    let t = y / f.length;
    let u = f.across(x, y);
    let side = u.abs();
    let inside = -form[0];
    let tab = f.kind == 0;
    let slow = fbm(x * 0.55 + 7.0, y * 0.45, 2, seed ^ 1).v;
    let streak = fbm(x * 1.5, y * 0.22 + 3.0, 2, seed ^ 2).v;

    let mut neck = 1.0
        - smooth(
            -0.05,
            0.52,
            t + 0.07 * slow + 0.03 * streak - 0.05 * side * side,
        );
    neck = neck.max(0.22 * smooth(0.70, 1.0, side));
    // Glassy edge: fingers of dentine reach into it; a thin opaque line bounds it.
    let fingers = 0.045 * (u * 7.5 + 1.3 * slow + (seed % 7) as f32).cos() + 0.05 * streak;
    let glass = smooth(0.62, 0.95, t + fingers + 0.03 * slow);
    let halo = smooth(0.34, 0.12, inside) * smooth(0.80, 0.92, t);
    let corner = smooth(0.66, 0.98, side) * smooth(0.40, 0.80, t);
    let mut edge =
        (glass * (0.45 + 0.55 * look.translucency)).max(0.55 * look.translucency * corner);
    let band = smooth(1.5, 0.5, inside) * smooth(0.84, 0.95, t);
    edge = (edge + 0.45 * look.translucency * band) * (1.0 - 0.75 * halo);
    edge = edge.clamp(0.0, 1.0);
    let warm = (0.5 + 0.5 * (u * 7.5 + 3.4 + 1.3 * slow + (seed % 7) as f32).cos())
        * smooth(0.55, 0.75, t)
        * smooth(0.93, 0.78, t)
        * 0.30
        * look.translucency;

    let mut white = 0.0;
    if look.spots > 0.0 {
        let cloud = fbm(x * 0.62, y * 0.95, 3, seed ^ 3).v;
        let fleck = fbm(x * 2.1, y * 2.9, 2, seed ^ 4).v;
        white = look.spots
            * (0.55 * smooth(0.20, 0.52, cloud)
                + 0.35 * smooth(0.34, 0.60, fleck) * smooth(0.2, 0.6, t));
    }
    white = (white + 0.22 * halo).min(0.8);
    let stain = if tab {
        0.0
    } else {
        0.10 * smooth(0.90, 1.0, side) + 0.05 * smooth(0.10, 0.0, t)
    };

    let mut shift = 0.0;
    if look.blotch > 0.0 {
        shift = look.blotch * fbm(x * 0.42 + 1.0, y * 0.40, 3, seed ^ 6).v;
    }
    neck = (neck + 0.35 * shift).clamp(0.0, 1.0);
    let rest = (1.0 - white - stain) * (1.0 - warm);
    let neck_share = neck * (1.0 - edge);
    let body_share = (1.0 - neck) * (1.0 - edge);
    let mut ink = [
        rest * neck_share,
        rest * body_share,
        rest * edge,
        white,
        (1.0 - white - stain) * warm,
        stain,
    ];

    let grain = fbm(x * 2.6, y * 1.9, 3, seed ^ 7).v;
    let mut k = 1.0 + 0.014 * grain + 0.012 * streak + 0.05 * shift;
    if look.crazing > 0.0 {
        for c in 0..4 {
            let h = |q: i32| crate::rng::unit2(c, q, seed ^ 41);
            if h(0) > look.crazing {
                continue;
            }
            let at = (h(1) * 1.5 - 0.75) * f.half_width;
            let line = at
                + (t - 0.5) * (h(2) - 0.5) * 1.8
                + 0.16 * value(y * 0.7, f32::from(c as u8) * 9.0, seed ^ 42).v;
            let near = (x - line) / 0.035;
            let lit = (-near * near).exp()
                * smooth(h(3) * 0.4, h(3) * 0.4 + 0.15, t)
                * smooth(1.02, 0.85, t);
            let strong = 0.12 + 0.18 * h(4);
            k += strong * 0.28 * lit;
            ink[3] += strong * lit * 0.5;
            let total: f32 = ink.iter().sum();
            ink = ink.map(|v| v / total);
            // One side of a crack lies in its shadow.
            k -= 0.022
                * smooth(0.0, 0.03, x - line)
                * smooth(0.55, 0.05, x - line)
                * smooth(h(3) * 0.4, h(3) * 0.4 + 0.2, t);
        }
    }

    let mut slope = [0.0; 2];
    let mut gloss_slope = [0.0; 2];
    if tab {
        let peel = value(x * 2.4, y * 2.4, seed ^ 9);
        gloss_slope = [0.022 * peel.dx, 0.022 * peel.dy];
        let fine = value(x * 8.0, y * 8.0, seed ^ 10);
        gloss_slope[0] += 0.006 * fine.dx;
        gloss_slope[1] += 0.006 * fine.dy;
    } else {
        let warp = fbm(x * 0.5, y * 0.9, 2, seed ^ 11);
        let ripple = (y * std::f32::consts::TAU / 0.27 + 5.0 * warp.v).cos();
        let broad = (y * std::f32::consts::TAU / 0.85 + 4.0 * warp.v + 1.0).cos();
        let amount = smooth(-0.1, 0.2, t)
            * smooth(1.0, 0.55, t)
            * (0.5 + 0.7 * value(x * 0.6, y * 0.5, seed ^ 12).v).max(0.0);
        let amount = amount * if look.ceramic { 0.45 } else { 1.0 };
        let broken = smooth(-0.35, 0.45, value(x * 1.3, y * 2.2, seed ^ 16).v);
        let pits = value(x * 3.6, y * 4.4, seed ^ 13);
        let fine = value(x * 9.0, y * 11.0, seed ^ 14);
        let dents = value(x * 1.15 + 3.0, y * 0.95, seed ^ 17);
        slope[1] += 0.022 * broad * amount + 0.024 * dents.dy;
        slope[0] += 0.024 * dents.dx;
        gloss_slope[1] += 0.036 * ripple * amount * broken + 0.030 * pits.dy + 0.011 * fine.dy;
        gloss_slope[0] += 0.024 * pits.dx + 0.010 * fine.dx;
        // Fine vertical lines.
        let lines = value(x * 2.1 + 0.8 * warp.v, y * 0.45, seed ^ 15);
        gloss_slope[0] += 0.014 * lines.dx;
        slope[0] += 0.008 * lines.dx;
    }
    Paint {
        ink,
        k,
        slope,
        gloss_slope,
        f0: look.gloss * if tab { 0.042 } else { 0.045 },
        // Dull is rough: the mirror images run wide.
        soft: if tab { 0.055 } else { 0.075 } * (2.0 - look.gloss).max(1.0),
        wrap: 0.35,
    }
}
