//! Tabs, cards and shadows on them for `Variety::finding`.

use super::super::random::tabs as row_of;
use super::super::*;
use super::{Framing, Jaws, Plan};
use crate::rng::Rng;

/// World place of a place in the frame (millimetres from its middle, right and down).
pub(super) fn world(frame: &Frame, p: [f64; 2]) -> [f64; 2] {
    let (s, c) = (-frame.roll_deg).to_radians().sin_cos();
    [
        frame.centre_mm[0] + c * p[0] - s * p[1],
        frame.centre_mm[1] + s * p[0] + c * p[1],
    ]
}

pub(super) fn tabs(spec: &SceneSpec, seed: u64, plan: &Plan) -> Vec<Tab> {
    let r = &mut Rng::new(seed, 210);
    if r.chance(0.25) {
        return Vec::new();
    }
    let scale = r.range(0.92, 1.1);
    let spacing = scale
        * if r.chance(0.4) {
            r.range(7.75, 8.1)
        } else {
            r.range(8.4, 11.5)
        };
    let most = match plan.framing {
        Framing::Close => 3,
        Framing::Usual => 6,
        Framing::Whole => 8,
    };
    let count = 1 + r.below(most);
    let mut list = row_of(&mut Rng::new(seed, 211), count, spacing, &spec.frame, 0.6);
    let both = r.chance(0.3);
    for t in &mut list {
        t.scale = scale;
        t.gloss = if both { 1.0 } else { r.range(0.8, 1.6) };
        // Before lips and teeth, however they bulge.
        t.z_mm += r.range(1.0, 3.0);
        for lab in [&mut t.colour.neck, &mut t.colour.body, &mut t.colour.edge] {
            lab[0] = lab[0].min(87.0);
        }
    }
    let lower_seen = plan.jaws != Jaws::Upper;
    let mode = match r.unit() {
        u if plan.jaws == Jaws::Lower && u < 0.6 => Mode::FromAbove,
        u if u < 0.52 => Mode::Below,
        u if u < 0.66 => Mode::Before,
        u if u < 0.78 && lower_seen => Mode::FromAbove,
        u if u < 0.87 => Mode::TwoRows,
        _ => Mode::Loose,
    };
    arrange(&mut list, mode, spec, plan, r);
    list
}

/// How tabs are held.
#[derive(Clone, Copy)]
enum Mode {
    /// Edge to edge under the upper teeth.
    Below,
    /// Overlapping the teeth.
    Before,
    /// Edge down against the lower teeth.
    FromAbove,
    /// A second row under the first.
    TwoRows,
    /// Lying anywhere.
    Loose,
}

fn arrange(list: &mut [Tab], mode: Mode, spec: &SceneSpec, plan: &Plan, r: &mut Rng) {
    let frame = &spec.frame;
    let level = if plan.jaws == Jaws::Lower {
        plan.opening_mm - 12.0
    } else {
        0.0
    };
    match mode {
        Mode::Below => list.iter_mut().for_each(|t| t.edge_mm[1] += level),
        Mode::Before => {
            let up = r.range(1.5, 6.0);
            list.iter_mut().for_each(|t| {
                t.edge_mm[1] += level - up;
                t.z_mm += 1.0;
            });
        }
        Mode::FromAbove => {
            let y = plan.opening_mm + r.range(-2.5, 0.5);
            list.iter_mut().for_each(|t| {
                t.edge_mm[1] = y + (t.edge_mm[1] - 0.7) * 0.6;
                t.turn_deg += 180.0;
            });
        }
        Mode::TwoRows => {
            let down = r.range(9.0, 14.0);
            let half = list.len().div_ceil(2);
            let back = half as f64 * 8.5 + r.range(-4.0, 4.0);
            for (i, t) in list.iter_mut().enumerate() {
                t.edge_mm[1] += level;
                if i >= half {
                    t.edge_mm[0] -= back;
                    t.edge_mm[1] += down;
                    t.z_mm += 1.5;
                }
            }
        }
        Mode::Loose => {
            let (hw, hh) = (frame.width_mm / 2.0, frame.width_mm * plan.aspect / 2.0);
            let alone = list.len().min(2);
            for (i, t) in list.iter_mut().enumerate() {
                t.edge_mm[1] += level;
                if i < alone {
                    let y = r.pick(&[-1.0, -1.0, 1.0]) * hh * r.range(0.3, 0.8);
                    t.edge_mm = world(frame, [hw * r.range(-0.8, 0.8), y]);
                    t.turn_deg = r.range(0.0, 360.0);
                    t.z_mm += 1.5;
                }
            }
        }
    }
}

pub(super) fn card(spec: &mut SceneSpec, seed: u64, plan: &Plan) -> Option<Card> {
    let r = &mut Rng::new(seed, 212);
    if r.chance(0.25) {
        return None;
    }
    let width = spec.frame.width_mm;
    let share = match r.unit() {
        u if u < 0.25 => r.range(0.10, 0.16),
        u if u < 0.8 => r.range(0.16, 0.30),
        _ => r.range(0.30, 0.48),
    };
    let steps_y = match r.unit() {
        u if u < 0.46 => vec![r.range(0.16, 0.32)],
        u if u < 0.55 => vec![r.range(0.72, 0.82)],
        u if u < 0.62 => vec![r.range(0.05, 0.08)],
        _ => steps(r),
    };
    let long = (share * width).clamp(5.0, 34.0);
    let size = if steps_y.len() > 1 {
        let long = (long * 1.25).max(2.2 * steps_y.len() as f64);
        [long, long * r.range(0.25, 0.6)]
    } else {
        [long, long * r.range(0.6, 1.4)]
    };
    let turn_deg = match r.unit() {
        u if u < 0.5 => r.range(-8.0, 8.0),
        u if u < 0.75 => r.range(-45.0, 45.0),
        _ => r.range(0.0, 360.0),
    };
    let steep = if r.chance(0.2) { 12.0 } else { 3.5 };
    let centre_mm = card_place(spec, r, plan, size, turn_deg);
    let behind = !spec.tabs.is_empty() && r.chance(0.15);
    if let Some(s) = &mut spec.scenery {
        s.card_behind = behind;
    }
    Some(Card {
        centre_mm,
        size_mm: size,
        turn_deg,
        tilt_deg: [
            (steep * r.normal()).clamp(-28.0, 28.0),
            (steep * r.normal()).clamp(-28.0, 28.0),
        ],
        z_mm: if behind {
            r.range(-1.0, 0.5)
        } else {
            r.range(1.0, 4.0)
        },
        steps_y,
        waviness: r.range(0.004, 0.02),
        tints_ab: if r.chance(0.15) {
            vec![[1.5 * r.normal(), 2.0 * r.normal()]]
        } else {
            Vec::new()
        },
        face: CardFace::Smooth,
    })
}

/// Three to six steps, in order or shuffled.
fn steps(r: &mut Rng) -> Vec<f64> {
    let n = 3 + r.below(4);
    let (high, low) = (r.range(0.6, 0.85), r.range(0.035, 0.09));
    let mut out: Vec<f64> = (0..n)
        .map(|i| high * (low / high).powf(i as f64 / (n as f64 - 1.0)))
        .collect();
    match r.below(3) {
        0 => out.reverse(),
        1 => {
            for i in (1..n).rev() {
                out.swap(i, r.below(i + 1));
            }
        }
        _ => {}
    }
    out
}

/// Below, above or beside the teeth; sometimes partly out of the frame.
fn card_place(spec: &SceneSpec, r: &mut Rng, plan: &Plan, size: [f64; 2], turn: f64) -> [f64; 2] {
    let f = &spec.frame;
    let (hw, hh) = (f.width_mm / 2.0, f.width_mm * plan.aspect / 2.0);
    // Half extents of the turned card as the frame sees it.
    let (s, c) = (turn + f.roll_deg).to_radians().sin_cos();
    let ex = (size[0] * c.abs() + size[1] * s.abs()) / 2.0;
    let ey = (size[0] * s.abs() + size[1] * c.abs()) / 2.0;
    let mean = spec.tabs.iter().map(|t| t.edge_mm[0]).sum::<f64>() / spec.tabs.len().max(1) as f64
        - f.centre_mm[0];
    let free = if mean > 0.0 { -1.0 } else { 1.0 };
    let side = if r.chance(0.75) { free } else { -free };
    let inset = r.range(0.0, 0.12);
    let (mut x, mut y) = match r.unit() {
        // Below.
        u if u < 0.45 => (side * hw * r.range(0.1, 1.0), hh * (1.0 - inset) - ey),
        // Above.
        u if u < 0.68 => (hw * r.range(-1.0, 1.0), -hh * (1.0 - inset) + ey),
        // Beside.
        _ => (side * (hw * (1.0 - inset) - ex), hh * r.range(-0.7, 1.0)),
    };
    x = x.clamp(-(hw - ex).max(0.0), (hw - ex).max(0.0));
    y = y.clamp(-(hh - ey).max(0.0), (hh - ey).max(0.0));
    if r.chance(0.3) {
        let out = 2.0 * r.range(0.10, 0.45);
        if r.chance(0.5) {
            x = x.signum() * (hw + (out - 1.0) * ex);
        } else {
            y = y.signum() * (hh + (out - 1.0) * ey);
        }
    }
    world(f, [x, y])
}

/// A shadow over a part of the card, or over anything.
pub(super) fn shadow(spec: &mut SceneSpec, seed: u64) {
    let r = &mut Rng::new(seed, 213);
    if let (Some(card), true) = (&spec.card, r.chance(0.18)) {
        let [w, h] = card.size_mm;
        let (s, c) = card.turn_deg.to_radians().sin_cos();
        let off = r.pick(&[-1.0, 1.0]) * w * r.range(0.35, 0.65);
        spec.shadows.push(Shadow {
            centre_mm: [card.centre_mm[0] + c * off, card.centre_mm[1] + s * off],
            half_mm: [0.5 * w, 2.0 * h],
            turn_deg: card.turn_deg + r.range(-30.0, 30.0),
            soft_mm: r.range(0.3, 4.0),
            passes: r.range(0.35, 0.7),
        });
    }
    if r.chance(0.15) {
        let f = &spec.frame;
        let k = f.width_mm / 2.0;
        spec.shadows.push(Shadow {
            centre_mm: world(f, [k * r.range(-1.0, 1.0), k * r.range(-0.7, 0.7)]),
            half_mm: [k * r.range(0.15, 0.8), k * r.range(0.15, 0.8)],
            turn_deg: r.range(0.0, 180.0),
            soft_mm: r.range(1.0, 12.0),
            passes: r.range(0.35, 0.85),
        });
    }
}
