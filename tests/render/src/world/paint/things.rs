//! Surface of tab holders and the grey card.

use super::Paint;
use crate::noise::{fbm, smooth, value};
use crate::rng::unit2;
use crate::spec::CardFace;
use crate::world::letters;

pub(super) fn stem(
    steel: bool,
    label: Option<&str>,
    length: f32,
    seed: u32,
    x: f32,
    y: f32,
) -> Paint {
    let brushed =
        value(x * 0.35, y * 14.0, seed).v * 0.5 + value(x * 0.8, y * 31.0, seed ^ 1).v * 0.5;
    let scratch = value(x * 5.0 + y, y * 0.3, seed ^ 2);
    let mut ink = [1.0, 0.0, 0.0, 0.0, 0.0, 0.0];
    if let Some(text) = label {
        // The name reads upright when the tab points up: own y runs toward the edge.
        let at = letters::distance(
            text,
            if text.len() > 2 { 1.5 } else { 2.1 },
            -x,
            -(y + length * 0.56),
        ) - 0.16;
        let print = smooth(0.05, -0.05, at) * (0.85 + 0.3 * brushed);
        ink = [
            1.0 - print.clamp(0.0, 1.0),
            0.0,
            print.clamp(0.0, 1.0),
            0.0,
            0.0,
            0.0,
        ];
    }
    if steel {
        Paint {
            ink,
            k: 0.62 * (1.0 + 0.05 * brushed),
            slope: [0.0, 0.01 * brushed],
            gloss_slope: [0.012 * scratch.dx, 0.045 * brushed],
            f0: 0.16,
            soft: 0.30,
            wrap: 0.0,
        }
    } else {
        let grain = value(x * 7.0, y * 7.0, seed ^ 3);
        Paint {
            ink,
            k: 1.0 + 0.04 * grain.v,
            slope: [0.02 * grain.dx, 0.02 * grain.dy],
            gloss_slope: [0.0; 2],
            f0: 0.02,
            soft: 0.25,
            wrap: 0.1,
        }
    }
}

pub(super) fn card(half_width: f32, steps: usize, seed: u32, x: f32, y: f32) -> Paint {
    let n = steps.clamp(1, 6);
    let along = (x + half_width) / (2.0 * half_width) * n as f32;
    let step = (along.floor().max(0.0) as usize).min(n - 1);
    let mut ink = [0.0; 6];
    ink[step] = 1.0;
    let fibre = fbm(x * 3.2, y * 3.2, 4, seed);
    let flow = fbm(x * 0.4, y * 0.4, 2, seed ^ 1).v;
    let speck = smooth(0.70, 0.85, value(x * 5.0, y * 5.0, seed ^ 2).v);
    Paint {
        ink,
        k: 1.0 + 0.040 * fibre.v + 0.004 * flow - 0.03 * speck,
        slope: [0.012 * fibre.dx, 0.012 * fibre.dy],
        gloss_slope: [0.0; 2],
        f0: 0.0,
        soft: 0.5,
        wrap: 0.0,
    }
}

/// What was done to a card's paper.
pub(super) fn face(face: CardFace, paper: Paint, seed: u32, x: f32, y: f32) -> Paint {
    match face {
        CardFace::Smooth => paper,
        CardFace::Crumpled => {
            let (a, b) = (facet(x, y, 3.4, seed ^ 31), facet(x, y, 1.5, seed ^ 41));
            Paint {
                slope: std::array::from_fn(|i| paper.slope[i] + 1.1 * a[i] + 0.5 * b[i]),
                ..paper
            }
        }
        CardFace::Printed => {
            // Lines of a text-like print, a dark block and a frame.
            let row = (y * 0.55).fract().abs();
            let word = value(x * 1.1 + (y * 0.55).floor() * 7.0, 3.0, seed ^ 51).v;
            let line =
                smooth(0.30, 0.36, row) * smooth(0.72, 0.66, row) * smooth(-0.25, -0.15, word);
            let block = smooth(1.6, 1.4, (x - 1.5).abs()) * smooth(2.2, 2.0, (y + 1.0).abs());
            Paint {
                k: paper.k * (1.0 - 0.75 * line.max(block)),
                ..paper
            }
        }
    }
}

/// Slope of the flat facet of crumpled paper at a place: cells around scattered points.
fn facet(x: f32, y: f32, size: f32, seed: u32) -> [f32; 2] {
    let (u, v) = (x / size, y / size);
    let (i, j) = (u.floor() as i32, v.floor() as i32);
    let at = |a: i32, b: i32, k: u32| unit2(a, b, seed.wrapping_add(k));
    let mut best = (f32::INFINITY, [0.0; 2]);
    for (a, b) in (-1..=1).flat_map(|b| (-1..=1).map(move |a| (i + a, j + b))) {
        let d = (a as f32 + at(a, b, 0) - u).hypot(b as f32 + at(a, b, 1) - v);
        if d < best.0 {
            best = (d, [at(a, b, 2) * 2.0 - 1.0, at(a, b, 3) * 2.0 - 1.0]);
        }
    }
    best.1
}
