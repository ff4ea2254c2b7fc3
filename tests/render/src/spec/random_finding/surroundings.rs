//! Hands, tools and papers for `Variety::finding`.

use super::super::scenery::{Layer, Prop, PropKind, Rims};
use super::super::*;
use super::things::world;
use super::{Framing, Jaws, Plan, on_teeth};
use crate::rng::Rng;

/// Adds surroundings to a scene that has its mouth, tabs and card.
pub(super) fn add(spec: &mut SceneSpec, seed: u64, plan: &Plan) {
    let mut s = spec.scenery.take().unwrap_or_default();
    on_teeth::on_teeth(spec, &mut s, &mut Rng::new(seed, 230));
    let glove = glove(&mut Rng::new(seed, 231));
    let view = View {
        frame: &spec.frame,
        half: [
            spec.frame.width_mm / 2.0,
            spec.frame.width_mm * plan.aspect / 2.0,
        ],
    };
    let r = &mut Rng::new(seed, 232);
    if let Some(card) = spec.card.as_ref().filter(|_| r.chance(0.38)) {
        hold_card(card, &view, glove, r, &mut s.props);
    }
    if !spec.tabs.is_empty() && r.chance(0.38) {
        hold_tabs(&spec.tabs, glove, r, &mut s.props);
    }
    let r = &mut Rng::new(seed, 233);
    if let Some(o) = s.opening.clone() {
        if plan.retracted == Some(true) && r.chance(0.7) {
            s.rims = Some(Rims {
                width_mm: r.range(3.0, 7.5),
                opacity: r.pick(&[0.35, 0.55, 0.8, 1.0]),
                colour: r.pick(&[[72.0, -1.0, 2.0], [88.0, 0.0, 3.0], [68.0, -5.0, -9.0]]),
            });
        }
        if r.chance(0.16) {
            // A finger lifts the lip.
            let up = r.chance(0.7);
            let k = usize::from(!up);
            let x = o.half_width_mm * r.range(-0.6, 0.6);
            let edge = if up { -o.reach_mm[0] } else { o.reach_mm[1] };
            let y = o.centre_mm[1] + edge * 0.9 - edge.signum() * r.range(0.0, 3.0);
            let away = if up { 180.0 } else { 0.0 } + r.range(-40.0, 40.0);
            let z = 4.0 + f64::from(k as u8);
            let at = [o.centre_mm[0] + x, y];
            s.props.push(finger(at, away, z, glove, Layer::Held, r));
        }
    }
    tools(plan, &view, &mut s.props, &mut Rng::new(seed, 234));
    papers(
        spec,
        plan,
        &view,
        glove,
        &mut s.props,
        &mut Rng::new(seed, 235),
    );
    spec.scenery = Some(s);
}

/// The frame with half of its width and height.
struct View<'a> {
    frame: &'a Frame,
    half: [f64; 2],
}

fn glove(r: &mut Rng) -> [f64; 3] {
    let c = r.pick(&[
        [45.0, -8.0, -33.0],
        [52.0, -12.0, -28.0],
        [40.0, 18.0, -28.0],
        [60.0, -20.0, 6.0],
        [84.0, 0.5, 8.0],
        [86.0, 0.0, 2.0],
        [17.0, 0.0, -1.0],
        [66.0, -8.0, -17.0],
    ]);
    [
        c[0] + 3.0 * r.normal(),
        c[1] + 2.0 * r.normal(),
        c[2] + 2.0 * r.normal(),
    ]
}

fn finger(at: [f64; 2], turn: f64, z: f64, glove: [f64; 3], layer: Layer, r: &mut Rng) -> Prop {
    Prop {
        kind: PropKind::Finger,
        at_mm: at,
        size_mm: [r.range(12.5, 18.0), 95.0],
        turn_deg: turn,
        z_mm: z,
        colour: glove,
        layer,
    }
}

/// Turn of a finger that runs along a direction.
fn turn_of(d: [f64; 2]) -> f64 {
    (-d[0]).atan2(d[1]).to_degrees()
}

/// A finger over the card's outer edge, often a second one beside or behind it.
fn hold_card(card: &Card, view: &View, glove: [f64; 3], r: &mut Rng, out: &mut Vec<Prop>) {
    let c = view.frame.centre_mm;
    let away = [
        (card.centre_mm[0] - c[0]) / view.half[0],
        (card.centre_mm[1] - c[1]) / view.half[1] + 0.15,
    ];
    let angle = away[1].atan2(away[0]) + 0.4 * r.normal();
    let d = [angle.cos(), angle.sin()];
    let (s, k) = card.turn_deg.to_radians().sin_cos();
    // Half extent of the card toward the finger.
    let (u, v) = (d[0] * k + d[1] * s, -d[0] * s + d[1] * k);
    let reach =
        (card.size_mm[0] / 2.0 / u.abs().max(1e-6)).min(card.size_mm[1] / 2.0 / v.abs().max(1e-6));
    let put = |overlap: f64, aside: f64| {
        [0, 1].map(|i| {
            let across = [-d[1], d[0]][i];
            card.centre_mm[i] + d[i] * (reach - overlap) + across * aside
        })
    };
    let z = card.z_mm + 5.0;
    let overlap = r.range(1.0, 4.5).min(reach);
    out.push(finger(
        put(overlap, 0.0),
        turn_of(d),
        z,
        glove,
        Layer::Front,
        r,
    ));
    if r.chance(0.6) {
        let aside = r.pick(&[-1.0, 1.0]) * r.range(11.0, 20.0);
        let layer = r.pick(&[Layer::Front, Layer::Held]);
        let turn = turn_of(d) + r.range(-25.0, 25.0);
        out.push(finger(
            put(r.range(-3.0, 2.0), aside),
            turn,
            z - 2.0,
            glove,
            layer,
            r,
        ));
    }
}

/// Fingers across the holders of the tabs.
fn hold_tabs(tabs: &[Tab], glove: [f64; 3], r: &mut Rng, out: &mut Vec<Prop>) {
    let Some(tab) = tabs.get(r.below(tabs.len())) else {
        return;
    };
    // The holder runs from the edge along this direction.
    let (s, c) = tab.turn_deg.to_radians().sin_cos();
    let along = [-s, c];
    let far = r.range(17.0, 27.0) * tab.scale;
    let at = [0, 1].map(|i| tab.edge_mm[i] + far * along[i]);
    let side = r.pick(&[-1.0, 1.0]);
    let lean = r.range(0.0, 1.2);
    let d = [side * c - along[0] * -lean, side * s - along[1] * -lean];
    let tip = [0, 1].map(|i| at[i] - d[i] * r.range(2.0, 6.0));
    out.push(finger(
        tip,
        turn_of(d),
        tab.z_mm + 5.0,
        glove,
        Layer::Front,
        r,
    ));
    if r.chance(0.5) {
        let tip = [0, 1].map(|i| tip[i] + along[i] * 14.0 + d[i] * r.range(-3.0, 6.0));
        let turn = turn_of(d) + r.range(-12.0, 12.0);
        let layer = r.pick(&[Layer::Front, Layer::Held]);
        out.push(finger(tip, turn, tab.z_mm + 3.0, glove, layer, r));
    }
}

fn tools(plan: &Plan, view: &View, out: &mut Vec<Prop>, r: &mut Rng) {
    let [hw, hh] = view.half;
    if matches!(plan.jaws, Jaws::Open | Jaws::Upper) && plan.opening_mm > 5.0 && r.chance(0.3) {
        let height = r.range(20.0, 34.0);
        out.push(Prop {
            kind: PropKind::BlackPlate,
            at_mm: [1.5 * r.normal(), height / 2.0 - r.range(5.0, 8.0)],
            size_mm: [r.range(46.0, 66.0), height],
            turn_deg: 3.0 * r.normal(),
            z_mm: -5.0,
            colour: [r.range(7.0, 20.0), 0.0, 0.0],
            layer: Layer::Behind,
        });
    }
    if r.chance(0.07) {
        let side = r.pick(&[-1.0, 1.0]);
        let p = [side * hw * r.range(0.75, 1.05), hh * r.range(-0.5, 1.0)];
        out.push(Prop {
            kind: PropKind::Mirror,
            at_mm: world(view.frame, p),
            size_mm: [r.range(18.0, 26.0), 1.0],
            turn_deg: side * r.range(-120.0, -20.0),
            z_mm: r.range(2.0, 5.0),
            colour: [78.0, 0.0, 3.0],
            layer: Layer::Held,
        });
    }
    if plan.framing != Framing::Close && r.chance(0.09) {
        let p = r.pick(&[[-0.95, 0.1], [0.95, 0.1], [0.2, -0.95], [-0.2, 0.98]]);
        let at = [p[0] * hw, p[1] * hh];
        out.push(Prop {
            kind: PropKind::SteelBand,
            at_mm: world(view.frame, at),
            size_mm: [r.range(34.0, 70.0), r.range(7.0, 13.0)],
            turn_deg: turn_of(p) + r.range(-15.0, 15.0),
            z_mm: 3.0,
            colour: [68.0, 0.0, 2.0],
            layer: Layer::Held,
        });
    }
}

/// Flat things that look like cards and are none.
fn papers(
    spec: &SceneSpec,
    plan: &Plan,
    view: &View,
    glove: [f64; 3],
    out: &mut Vec<Prop>,
    r: &mut Rng,
) {
    let [hw, hh] = view.half;
    let mut corner = |out: &mut Vec<Prop>, kind: PropKind, colour: [f64; 3], size: f64| {
        let p = [
            r.pick(&[-1.0, 1.0]) * hw * r.range(0.7, 1.05),
            hh * r.pick(&[-1.0, 1.0, 1.0, 1.0]) * r.range(0.85, 1.1),
        ];
        let layer = r.pick(&[Layer::Held, Layer::Held, Layer::Front]);
        out.push(Prop {
            kind,
            at_mm: world(view.frame, p),
            size_mm: [size * r.range(0.8, 1.3), size],
            turn_deg: r.range(0.0, 180.0),
            z_mm: r.range(1.0, 4.0),
            colour,
            layer,
        });
    };
    let dice = &mut Rng::new(spec.seed, 236);
    if dice.chance(0.12) {
        let colour = dice.pick(&[[88.0, -0.5, 0.0], [90.0, 0.0, 2.0], [80.0, -6.0, -12.0]]);
        corner(out, PropKind::Napkin, colour, hw * dice.range(0.4, 0.8));
    }
    if dice.chance(0.07) {
        corner(out, PropKind::Palm, glove, hw * dice.range(0.5, 0.9));
    }
    if dice.chance(0.07) {
        let colour = [dice.range(45.0, 68.0), 0.0, dice.range(-1.0, 3.0)];
        corner(out, PropKind::Plate, colour, hw * dice.range(0.25, 0.5));
    }
    // A holder across the row of tabs.
    if let Some(t) = spec.tabs.first().filter(|_| dice.chance(0.12)) {
        let middle = spec.tabs.iter().map(|t| t.edge_mm[0]).sum::<f64>() / spec.tabs.len() as f64;
        let down = dice.range(20.0, 28.0) * t.turn_deg.to_radians().cos().signum();
        out.push(Prop {
            kind: PropKind::Plate,
            at_mm: [middle, t.edge_mm[1] + down],
            size_mm: [9.5 * spec.tabs.len() as f64 + 8.0, dice.range(6.0, 11.0)],
            turn_deg: 2.0 * dice.normal(),
            z_mm: t.z_mm,
            colour: [dice.range(40.0, 66.0), 0.0, 1.0],
            layer: dice.pick(&[Layer::Front, Layer::Held]),
        });
    }
    if plan.framing != Framing::Close && dice.chance(0.09) {
        let up = dice.chance(0.6) || plan.jaws == Jaws::Upper;
        out.push(Prop {
            kind: PropKind::CottonRoll,
            at_mm: [
                dice.range(-16.0, 16.0),
                if up {
                    dice.range(-19.0, -15.0)
                } else {
                    plan.opening_mm + dice.range(14.0, 17.0)
                },
            ],
            size_mm: [dice.range(24.0, 38.0), dice.range(7.0, 10.0)],
            turn_deg: dice.range(-12.0, 12.0),
            z_mm: -2.0,
            colour: [89.0, 0.0, 3.0],
            layer: Layer::Inside,
        });
    }
}
