//! Surface of hands, tools and papers. Inks: base, darker, paler, dark, grey, gum.

use super::Paint;
use crate::noise::{dimples, fbm, smooth, value};
use crate::world::body::Surface;

pub(super) fn prop(
    surface: Surface,
    half: [f32; 2],
    seed: u32,
    x: f32,
    y: f32,
    form: [f32; 4],
) -> Paint {
    match surface {
        Surface::Glove => glove(seed, x, y),
        Surface::Plastic => plastic(half, seed, x, y, form),
        Surface::Steel => metal(1.0, seed, x, y, form),
        Surface::DullMetal => dull(seed, x, y),
        Surface::Mirror => mirror(half, seed, x, y, form),
        Surface::Black => black(seed, x, y),
        Surface::Paper => paper(seed, x, y),
        Surface::Cotton => cotton(seed, x, y),
        Surface::Ceramic => ceramic(seed, x, y, form),
        Surface::Saliva => saliva(form),
    }
}

fn mix(base: f32, dark: f32, pale: f32) -> [f32; 6] {
    let sum = base + dark + pale;
    [base / sum, dark / sum, pale / sum, 0.0, 0.0, 0.0]
}

fn glove(seed: u32, x: f32, y: f32) -> Paint {
    let cloud = fbm(x * 0.2, y * 0.2, 3, seed ^ 1).v;
    let grip = value(x * 2.6, y * 2.6, seed ^ 2);
    let crease = fbm(x * 0.5 + 0.4 * y, y * 0.7 - 0.3 * x, 3, seed ^ 3);
    let stretched = smooth(0.1, 0.5, cloud);
    Paint {
        ink: mix(0.7, 0.2 - 0.2 * cloud, 0.12 + 0.25 * stretched),
        k: 1.0 + 0.05 * crease.v,
        slope: [
            0.10 * crease.dx + 0.012 * grip.dx,
            0.10 * crease.dy + 0.012 * grip.dy,
        ],
        gloss_slope: [0.03 * grip.dx, 0.03 * grip.dy],
        f0: 0.028,
        soft: 0.20,
        wrap: 0.25,
    }
}

fn plastic(half: [f32; 2], seed: u32, x: f32, y: f32, form: [f32; 4]) -> Paint {
    // Light runs along the edges of the band.
    let edge = smooth(0.45 * half[0], 0.0, -form[0]);
    let streak = value(x * 0.9 + 0.3 * y, y * 0.12, seed).v;
    let wave = value(x * 0.5, y * 0.4, seed ^ 1);
    Paint {
        ink: mix(
            0.5,
            (0.35 * (1.0 - edge) - 0.2 * streak).max(0.0),
            0.2 + 0.9 * edge + 0.3 * streak.max(0.0),
        ),
        k: 0.85 + 0.25 * edge + 0.15 * streak,
        slope: [0.03 * wave.dx, 0.03 * wave.dy],
        gloss_slope: [0.03 * wave.dx, 0.05 * wave.dy],
        f0: 0.14,
        soft: 0.07,
        wrap: 0.6,
    }
}

/// Polished metal: what it mirrors is drawn from its slopes and slow streaks.
pub(super) fn metal(gloss: f32, seed: u32, x: f32, y: f32, form: [f32; 4]) -> Paint {
    let (u, v) = (1.6 * form[2] + 0.05 * x, 1.6 * form[3] + 0.03 * y);
    let room = fbm(u + 7.0, v, 2, seed ^ 1).v;
    let streak = value(x * 0.3 + 2.0 * v, y * 2.2 + u, seed ^ 2).v;
    let bright = smooth(-0.35, 0.45, room + 0.25 * streak);
    let lip = smooth(0.5, 1.0, form[3].abs()) * 0.25;
    let fine = value(x * 4.0, y * 4.0, seed ^ 3);
    Paint {
        ink: [
            0.70 - 0.45 * (1.0 - bright),
            0.10,
            0.20 * bright,
            0.45 * (1.0 - bright) - lip,
            0.20 * (1.0 - bright),
            lip,
        ]
        .map(|v: f32| v.max(0.0)),
        k: 0.35 + 0.75 * bright,
        slope: [0.02 * fine.dx, 0.02 * fine.dy],
        gloss_slope: [0.02 * fine.dx, 0.04 * fine.dy],
        f0: 0.22 * gloss.min(1.5),
        soft: 0.11,
        wrap: 0.15,
    }
}

fn dull(seed: u32, x: f32, y: f32) -> Paint {
    let grain = fbm(x * 3.5, y * 3.5, 2, seed ^ 1);
    let smear = fbm(x * 0.12, y * 0.3, 3, seed ^ 2).v;
    let scratch = smooth(0.03, 0.0, fbm(x * 0.15, y * 1.4, 2, seed ^ 3).v.abs());
    Paint {
        ink: mix(0.8, 0.15 - 0.3 * smear.min(0.3), 0.10 + 0.2 * scratch),
        k: 1.0 + 0.06 * smear + 0.05 * grain.v,
        slope: [0.02 * grain.dx, 0.02 * grain.dy],
        gloss_slope: [0.03 * grain.dx, 0.03 * grain.dy],
        f0: 0.09,
        soft: 0.38,
        wrap: 0.0,
    }
}

/// A blurred picture of gum, teeth and dark within a bright rim; the handle is steel.
fn mirror(half: [f32; 2], seed: u32, x: f32, y: f32, form: [f32; 4]) -> Paint {
    let r = x.hypot(y) - half[0];
    if r > -1.1 {
        return metal(1.0, seed, x, y, form);
    }
    let warp = value(x * 0.12, y * 0.12, seed ^ 1).v;
    let row = (y * 0.16 + warp + (seed % 5) as f32 * 0.4).sin();
    let tooth = smooth(0.1, 0.7, row) * (0.6 + 0.4 * (x * 0.85 + 2.0 * warp).cos());
    let gum = smooth(0.1, -0.7, row);
    let dark = (1.0 - tooth - gum).max(0.0);
    Paint {
        ink: [0.0, 0.0, tooth, dark, 0.0, gum],
        k: 0.50,
        f0: 0.03,
        soft: 0.05,
        wrap: 0.6,
        ..Paint::default()
    }
}

fn black(seed: u32, x: f32, y: f32) -> Paint {
    let grain = fbm(x * 2.0, y * 2.0, 3, seed ^ 1);
    let dust = smooth(0.62, 0.75, value(x * 2.2, y * 2.2, seed ^ 2).v);
    let wet = smooth(0.1, 0.4, fbm(x * 0.2, y * 0.2, 2, seed ^ 3).v);
    Paint {
        ink: mix(0.9, 0.1, 0.25 * dust),
        k: 1.0 + 0.15 * grain.v,
        slope: [0.02 * grain.dx, 0.02 * grain.dy],
        gloss_slope: [0.06 * grain.dx, 0.06 * grain.dy],
        f0: 0.012 + 0.015 * wet,
        soft: 0.35 - 0.15 * wet,
        wrap: 0.0,
    }
}

fn paper(seed: u32, x: f32, y: f32) -> Paint {
    // Small bosses on a lattice, fibres between.
    let (i, j) = ((x / 1.5).round(), (y / 1.5).round());
    let (u, v) = (x - 1.5 * i, y - 1.5 * j);
    let boss = (-(u * u + v * v) / 0.14).exp();
    let fibre = fbm(x * 2.4, y * 2.4, 4, seed ^ 1);
    let fold = fbm(x * 0.1, y * 0.1, 2, seed ^ 2);
    Paint {
        ink: mix(0.85, 0.12, 0.08),
        k: 1.0 + 0.05 * fibre.v - 0.05 * boss,
        slope: [
            0.5 * u * boss + 0.03 * fibre.dx + 0.3 * fold.dx,
            0.5 * v * boss + 0.03 * fibre.dy + 0.3 * fold.dy,
        ],
        gloss_slope: [0.0; 2],
        f0: 0.0,
        soft: 0.5,
        wrap: 0.3,
    }
}

fn cotton(seed: u32, x: f32, y: f32) -> Paint {
    let strand = fbm(x * 0.7, y * 3.0, 3, seed ^ 1);
    let pits = dimples(x * 0.9, y * 0.9, seed ^ 2);
    Paint {
        ink: mix(0.8, 0.15, 0.1),
        k: 1.0 + 0.07 * strand.v - 0.10 * pits.v,
        slope: [
            0.10 * strand.dx - 0.05 * pits.dx,
            0.07 * strand.dy - 0.05 * pits.dy,
        ],
        gloss_slope: [0.0; 2],
        f0: 0.0,
        soft: 0.5,
        wrap: 0.5,
    }
}

fn ceramic(seed: u32, x: f32, y: f32, form: [f32; 4]) -> Paint {
    let cloud = fbm(x * 0.8, y * 0.8, 2, seed ^ 1);
    let fine = value(x * 5.0, y * 5.0, seed ^ 2);
    // A thin line where it meets the tooth.
    let margin = smooth(-0.16, -0.02, form[0]);
    Paint {
        ink: mix(0.25, 0.70, 0.05),
        k: 1.0 + 0.02 * cloud.v - 0.06 * margin,
        slope: [0.03 * cloud.dx, 0.03 * cloud.dy],
        gloss_slope: [0.015 * fine.dx, 0.015 * fine.dy],
        f0: 0.045,
        soft: 0.10,
        wrap: 0.35,
    }
}

fn saliva(form: [f32; 4]) -> Paint {
    let rim = smooth(-0.12, 0.0, form[0]);
    Paint {
        ink: mix(0.6, 0.2, 0.2 + rim),
        k: 0.9 + 0.3 * rim,
        f0: 0.12,
        soft: 0.06,
        wrap: 0.6,
        ..Paint::default()
    }
}
