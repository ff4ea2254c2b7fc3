//! Teeth, gums and lips of `Variety::finding`.

use super::super::presets::{gradient, tooth};
use super::super::scenery::{Opening, Scenery};
use super::super::*;
use super::{Jaws, Plan};
use crate::rng::Rng;

pub(super) fn mouth(spec: &mut SceneSpec, seed: u64, plan: &Plan) {
    let lower = plan.jaws != Jaws::Upper;
    spec.teeth = teeth(&mut Rng::new(seed, 201), lower);
    unruly(&mut spec.teeth, &mut Rng::new(seed, 202));
    odd_ones(&mut spec.teeth, &mut Rng::new(seed, 203));
    spec.tissue = tissue(&mut Rng::new(seed, 204), plan);
    worn_or_long(spec, &mut Rng::new(seed, 205));
    let gum = spec.tissue.gum;
    let r = &mut Rng::new(seed, 206);
    let opening = plan.retracted.map(|wide| opening(r, plan, wide, gum));
    if opening.is_some() {
        (spec.tissue.upper_lip_mm, spec.tissue.lower_lip_mm) = (None, None);
    }
    let r = &mut Rng::new(seed, 208);
    let pigment = if r.chance(0.15) {
        r.range(0.2, 1.0)
    } else {
        0.0
    };
    let tongue_mm = if plan.jaws != Jaws::Biting && r.chance(0.35) {
        r.range(4.0, 12.0)
    } else {
        0.0
    };
    let stem_mm = if r.chance(0.15) { 26.0 } else { 58.0 };
    spec.scenery = Some(Scenery {
        opening,
        pigment,
        tongue_mm,
        view_yaw_deg: plan.yaw_deg,
        stem_mm,
        ..Scenery::default()
    });
}

/// Body colour of a mouth: natural, discoloured (grey, brown, yellow), bleached.
fn shade(r: &mut Rng) -> [f64; 3] {
    match r.unit() {
        u if u < 0.55 => [r.range(67.0, 81.0), r.range(-0.3, 3.2), r.range(11.0, 22.5)],
        u if u < 0.62 => [r.range(55.0, 66.0), r.range(-0.5, 1.5), r.range(6.0, 12.0)],
        u if u < 0.70 => [r.range(55.0, 66.0), r.range(3.0, 6.5), r.range(19.0, 27.0)],
        u if u < 0.78 => [r.range(60.0, 72.0), r.range(1.0, 4.0), r.range(23.0, 31.0)],
        u if u < 0.92 => [r.range(84.0, 88.0), r.range(-1.2, 0.3), r.range(3.0, 9.0)],
        _ => [r.range(62.0, 70.0), r.range(0.5, 4.0), r.range(14.0, 25.0)],
    }
}

fn teeth(r: &mut Rng, lower: bool) -> Vec<Tooth> {
    let body = shade(r);
    let milder = if body[0] > 83.0 { 0.5 } else { 1.0 };
    let neck = [r.range(-5.0, -2.0), r.range(0.8, 2.8), r.range(3.0, 6.0)].map(|v| v * milder);
    let edge = [
        r.range(-8.0, -3.0),
        r.range(-2.0, -0.6),
        r.range(-7.0, -3.0),
    ]
    .map(|v| v * milder);
    let (spots, crazing, clear) = (r.unit().powi(2), r.unit(), r.range(0.2, 1.0));
    let size = [1.0 + 0.05 * r.normal(), 1.0 + 0.06 * r.normal()];
    let mut out = Vec::new();
    for quadrant in 1..=if lower { 4u8 } else { 2 } {
        for place in 1..=6u8 {
            let deeper = [0.0, 0.5, 3.0, 1.6, 2.0, 2.6][usize::from(place) - 1] * milder;
            let own = [
                body[0] - deeper + 0.8 * r.normal(),
                body[1] + 0.2 * deeper + 0.2 * r.normal(),
                body[2] + deeper + 0.7 * r.normal(),
            ];
            let mut t = tooth(quadrant * 10 + place, gradient(own, neck, edge));
            t.measured = place == 1 && quadrant < 3;
            t.scale = [
                size[0] * (1.0 + 0.015 * r.normal()),
                size[1] * (1.0 + 0.03 * r.normal()),
            ];
            t.translucency = clear;
            t.spots = spots;
            t.crazing = crazing;
            t.blotch = r.unit() * 0.6;
            out.push(t);
        }
    }
    out
}

/// +1 for the quadrants on the right of the picture.
fn side(t: &Tooth) -> f64 {
    if matches!(t.fdi / 10, 2 | 3) {
        1.0
    } else {
        -1.0
    }
}

/// Crowding, rotations, gaps between the middle teeth, missing teeth.
fn unruly(teeth: &mut [Tooth], r: &mut Rng) {
    let amount = match r.unit() {
        u if u < 0.55 => 0.8,
        u if u < 0.8 => 1.8,
        _ => 3.0,
    };
    for t in teeth.iter_mut() {
        t.turn_deg = 1.2 * amount * r.normal();
        t.rotation_deg = 3.5 * amount * r.normal();
        t.shift_mm = [
            0.10 * amount * r.normal(),
            0.14 * amount * r.normal(),
            0.25 * amount * r.normal(),
        ];
    }
    if r.chance(0.15) {
        for _ in 0..1 + r.below(2) {
            let at = r.below(teeth.len());
            if let Some(t) = teeth.get_mut(at) {
                t.rotation_deg = r.pick(&[-1.0, 1.0]) * r.range(20.0, 38.0);
                t.scale[0] *= t.rotation_deg.to_radians().cos();
            }
        }
    }
    if r.chance(0.15) {
        let half = r.range(0.3, 1.6);
        for t in teeth.iter_mut() {
            t.shift_mm[0] += side(t) * half;
        }
    }
    if r.chance(0.1) {
        // Gaps everywhere.
        for t in teeth.iter_mut() {
            t.shift_mm[0] += side(t) * f64::from(t.fdi % 10) * 0.7;
        }
    }
    if r.chance(0.18) {
        for _ in 0..1 + r.below(2) {
            let at = r.below(teeth.len());
            if let Some(t) = teeth.get_mut(at) {
                (t.missing, t.measured) = (true, false);
            }
        }
    }
}

/// A dark dead tooth, a restoration that does not match.
fn odd_ones(teeth: &mut [Tooth], r: &mut Rng) {
    if r.chance(0.13) {
        let fdi = r.pick(&[11u8, 21, 12, 22]);
        let body = [r.range(46.0, 60.0), r.range(1.5, 5.0), r.range(9.0, 19.0)];
        if let Some(t) = teeth.iter_mut().find(|t| t.fdi == fdi) {
            t.colour = gradient(body, [-4.0, 1.0, 2.0], [-3.0, -0.5, -2.0]);
            t.translucency = 0.2;
        }
    }
    if r.chance(0.35) {
        let fdi = r.pick(&[11u8, 21, 12, 22, 13, 23, 14, 41, 31]);
        let far = if r.chance(0.5) { 1.0 } else { 2.2 };
        let off = [
            3.0 * far * r.normal(),
            0.8 * r.normal(),
            2.5 * far * r.normal(),
        ];
        let milder = r.range(0.2, 1.0);
        if let Some(t) = teeth.iter_mut().find(|t| t.fdi == fdi) {
            let b = t.colour.body;
            t.restoration = true;
            t.measured = !t.missing;
            (t.spots, t.crazing) = (0.0, 0.0);
            t.blotch = r.pick(&[0.1, 0.3, 1.0]);
            t.colour = gradient(
                [
                    (b[0] + off[0]).clamp(52.0, 89.0),
                    b[1] + off[1],
                    (b[2] + off[2]).clamp(3.0, 32.0),
                ],
                [-3.5, 1.6, 4.0].map(|v| v * milder),
                [-5.0, -1.2, -4.5].map(|v| v * milder),
            );
        }
    }
}

fn tissue(r: &mut Rng, plan: &Plan) -> Tissue {
    let mut inflammation = r.unit().powi(2);
    let gum = match r.unit() {
        u if u < 0.35 => [
            r.range(46.0, 58.0),
            r.range(19.0, 27.0),
            r.range(11.0, 17.0),
        ],
        u if u < 0.55 => [r.range(58.0, 68.0), r.range(14.0, 21.0), r.range(9.0, 15.0)],
        u if u < 0.70 => {
            inflammation = r.range(0.7, 1.0);
            [
                r.range(41.0, 50.0),
                r.range(27.0, 35.0),
                r.range(14.0, 20.0),
            ]
        }
        u if u < 0.80 => [r.range(43.0, 54.0), r.range(17.0, 24.0), r.range(3.0, 8.0)],
        _ => [r.range(30.0, 58.0), r.range(9.0, 17.0), r.range(6.0, 13.0)],
    };
    let recession_mm = if r.chance(0.2) {
        r.range(1.2, 2.3)
    } else {
        r.range(-0.4, 1.0)
    };
    let lips = plan.framing != super::Framing::Close;
    Tissue {
        gum,
        recession_mm,
        papilla: if recession_mm > 1.1 {
            r.range(0.5, 0.9)
        } else {
            r.range(0.75, 1.06)
        },
        stipple: r.unit(),
        inflammation,
        upper_lip_mm: (lips && r.chance(0.3)).then(|| r.range(-17.0, -9.0)),
        lower_lip_mm: (lips && r.chance(0.5)).then(|| plan.opening_mm + r.range(4.0, 12.0)),
        opening_mm: plan.opening_mm,
        arch_per_mm: r.range(0.011, 0.021),
    }
}

/// Teeth worn short, or long from recession.
fn worn_or_long(spec: &mut SceneSpec, r: &mut Rng) {
    if r.chance(0.15) {
        let left = r.range(0.58, 0.8);
        for t in spec.teeth.iter_mut().filter(|t| t.fdi % 10 <= 3) {
            let lost = 8.8 * (1.0 - left);
            t.scale[1] *= left;
            // The edges are what is lost: half of it is made up by eruption.
            t.shift_mm[1] += if t.fdi < 30 { -0.5 } else { 0.5 } * lost;
            t.translucency *= 0.4;
        }
    } else if spec.tissue.recession_mm > 1.1 {
        for t in &mut spec.teeth {
            t.scale[1] *= 1.14;
        }
    }
}

fn opening(r: &mut Rng, plan: &Plan, retracted: bool, gum: [f64; 3]) -> Opening {
    let low = match plan.jaws {
        Jaws::Upper => r.range(5.0, 14.0),
        _ => plan.opening_mm + r.range(2.0, 7.0),
    };
    let (top, bottom) = if retracted {
        (
            r.range(-21.0, -13.0),
            match plan.jaws {
                Jaws::Upper => r.range(12.0, 22.0),
                _ => plan.opening_mm + r.range(9.0, 15.0),
            },
        )
    } else {
        (r.range(-12.0, -5.0), low.max(3.0))
    };
    let middle = top + (bottom - top) * r.range(0.42, 0.55);
    let skin = match r.unit() {
        u if u < 0.45 => [r.range(62.0, 72.0), r.range(9.0, 14.0), r.range(13.0, 19.0)],
        u if u < 0.75 => [
            r.range(48.0, 62.0),
            r.range(10.0, 15.0),
            r.range(16.0, 22.0),
        ],
        _ => [r.range(30.0, 46.0), r.range(8.0, 14.0), r.range(10.0, 18.0)],
    };
    let turn = plan.yaw_deg.to_radians();
    let lip = [
        (skin[0] - r.range(6.0, 14.0)).max(30.0),
        skin[1] + r.range(6.0, 14.0),
        gum[2].min(skin[2]),
    ];
    Opening {
        centre_mm: [1.0 * r.normal() + 9.0 * turn.sin(), middle],
        half_width_mm: (0.3 + 0.7 * turn.cos())
            * if retracted {
                r.range(31.0, 42.0)
            } else {
                r.range(25.0, 32.0)
            },
        reach_mm: [middle - top, bottom - middle],
        power: if retracted {
            r.range(2.3, 3.4)
        } else {
            r.range(1.5, 1.9)
        },
        red_mm: [r.range(4.5, 8.5), r.range(6.0, 11.0)],
        lip,
        skin,
    }
}
