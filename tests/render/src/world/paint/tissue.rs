//! Surface of gum, lip and tongue.

use super::Paint;
use crate::noise::{dimples, fbm, smooth, value};

pub(super) fn gum(
    field: [f32; 4],
    stipple: f32,
    [inflammation, pigment]: [f32; 2],
    seed: u32,
    x: f32,
    y: f32,
    form: [f32; 4],
) -> Paint {
    let depth = -form[0];
    let [_, up, papilla, _] = field;
    let border =
        5.2 + 1.0 * value(x * 0.25, 2.0, seed ^ 1).v + 0.35 * value(x * 1.3, 6.0, seed ^ 2).v;
    let firm = 1.0 - smooth(border - 0.7, border + 0.9, up);
    let cloud = fbm(x * 0.35, y * 0.4, 4, seed ^ 3).v;
    let mottle = fbm(x * 1.4, y * 1.4, 3, seed ^ 4).v;
    let margin = (-depth / 0.45).exp();
    let free = smooth(1.6, 0.7, depth);

    let mut red = 0.10
        + 0.25 * (0.35 + 0.65 * inflammation) * margin
        + 0.25 * inflammation * free
        + 0.14 * papilla
        + 0.42 * (1.0 - firm);
    red += 0.16 * cloud + 0.10 * mottle;
    let mut pale = firm * (0.30 - 0.34 * cloud - 0.15 * mottle) * (1.0 - 0.6 * free);
    // Blanched ridges over the roots' bulges.
    pale += 0.12 * smooth(0.55, 0.1, field[0]) * firm * (1.0 - free);
    // Vessels: thin winding lines, more of them in the loose mucosa.
    let warp = fbm(x * 0.5, y * 0.5, 2, seed ^ 5);
    let net = |f: f32, s: u32, width: f32| {
        let v = fbm(
            x * f + 1.3 * warp.v,
            y * f * 0.55 + 1.1 * warp.v,
            2,
            seed ^ s,
        )
        .v
        .abs();
        smooth(width, 0.0, v)
    };
    let vessel = (0.55 * net(0.55, 6, 0.020) + 0.35 * net(1.1, 7, 0.028))
        * (0.10 + 0.90 * (1.0 - firm))
        * (0.6 + 0.6 * cloud).clamp(0.0, 1.0);
    red = red.clamp(0.0, 0.9);
    pale = pale.clamp(0.0, 0.6);
    let vessel = vessel.clamp(0.0, 0.6);
    let left = (1.0 - red - pale).max(0.0);
    let sum = (left + red + pale) / (1.0 - vessel);
    let mut ink = [left / sum, pale / sum, red / sum, vessel, 0.0, 0.0];
    if pigment > 0.0 {
        // Patches with ragged borders, mostly on the firm gum.
        let patch = fbm(x * 0.16 + 2.0, y * 0.22, 3, seed ^ 14).v + 0.25 * mottle;
        let brown = 0.75 * smooth(0.45 - 0.7 * pigment, 0.60 - 0.5 * pigment, patch);
        let brown = brown * (0.35 + 0.65 * firm) * (1.0 - 0.5 * free);
        ink = ink.map(|v| v * (1.0 - brown));
        ink[4] = brown;
    }

    let pits = dimples(x * 0.95 + 0.4 * mottle, y * 0.95, seed ^ 9);
    let small = fbm(x * 2.3 + 4.0, y * 2.0, 2, seed ^ 10);
    let strength = stipple
        * (0.25 + 0.75 * firm)
        * (1.0 - 0.8 * free)
        * smooth(0.6, 1.8, depth)
        * (0.75 + 0.6 * cloud).clamp(0.25, 1.0);
    let soft = fbm(x * 0.8, y * 0.8, 2, seed ^ 11);
    let fine = value(x * 6.5, y * 6.5, seed ^ 12);
    let slope = [
        strength * (-0.040 * pits.dx + 0.055 * small.dx) + 0.055 * soft.dx,
        strength * (-0.040 * pits.dy + 0.055 * small.dy) + 0.055 * soft.dy,
    ];
    let beads = fbm(x * 3.4, y * 3.1, 2, seed ^ 13);
    let bead = 0.075 * strength;
    let gloss_slope = [
        0.020 * fine.dx + bead * beads.dx,
        0.020 * fine.dy + bead * beads.dy,
    ];
    let k = 1.0 + 0.05 * mottle - strength * (0.05 * pits.v - 0.06 * small.v);
    Paint {
        ink,
        k,
        slope,
        gloss_slope,
        f0: 0.026,
        soft: 0.10,
        wrap: 0.45,
    }
}

pub(super) fn lip(seed: u32, x: f32, y: f32, form: [f32; 4]) -> Paint {
    let folds = value(
        x * 0.45 + 0.6 * value(y * 0.4, 1.0, seed).v,
        y * 0.10,
        seed ^ 1,
    );
    let fine = fbm(x * 2.2, y * 0.6, 2, seed ^ 2);
    let wet = smooth(7.0, 1.5, -form[0]);
    let cloud = fbm(x * 0.3, y * 0.3, 3, seed ^ 3);
    let vein = smooth(0.05, 0.0, fbm(x * 0.5, y * 0.3, 2, seed ^ 4).v.abs());
    Paint {
        ink: [
            0.50 - 0.1 * cloud.v,
            0.10 + 0.04 * folds.v,
            0.30 - 0.04 * folds.v + 0.1 * cloud.v,
            0.10 * vein,
            0.10 - 0.10 * vein,
            0.0,
        ],
        k: 1.0 + 0.04 * folds.v + 0.02 * fine.v,
        slope: [
            0.05 * folds.dx + 0.012 * fine.dx + 0.06 * cloud.dx,
            0.03 * fine.dy + 0.05 * cloud.dy,
        ],
        gloss_slope: [0.0; 2],
        f0: 0.006 + 0.020 * wet,
        soft: 0.14 - 0.04 * wet,
        wrap: 0.4,
    }
}

pub(super) fn tongue(seed: u32, x: f32, y: f32) -> Paint {
    let buds = dimples(x * 1.6, y * 1.6, seed ^ 1);
    let cloud = fbm(x * 0.25, y * 0.25, 3, seed ^ 2);
    Paint {
        ink: [
            0.55,
            0.25 + 0.2 * cloud.v,
            0.20 - 0.2 * cloud.v,
            0.0,
            0.0,
            0.0,
        ],
        k: 0.55 + 0.05 * buds.v,
        slope: [0.10 * buds.dx, 0.10 * buds.dy],
        f0: 0.02,
        soft: 0.15,
        wrap: 0.4,
        ..Paint::default()
    }
}
