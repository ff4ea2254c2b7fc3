//! Surface of tab holders and the grey card.

use super::Paint;
use crate::noise::{fbm, smooth, value};
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
