//! Hands, tools and papers of the [`Scenery`](crate::spec::scenery::Scenery).

use super::body::{Kind, Place, Surface};
use super::ink;
use super::make::Maker;
use crate::noise::{fbm, smooth, value};
use crate::spec::scenery::{Layer, Prop, PropKind};

/// How much a steel band is bent in its plane, 1/mm.
const BOW: f32 = 0.008;

fn order(layer: Layer, index: usize) -> i32 {
    match layer {
        Layer::Front => index as i32 - 20,
        Layer::Held => 59,
        Layer::Inside => 65,
        // Upper teeth end before 100, the lower jaw begins at 130.
        Layer::Behind => 110,
    }
}

impl Maker {
    /// One thing.
    pub(super) fn prop(&mut self, p: &Prop, index: usize) {
        let inks = self.palette(ink::dyed_palette(p.colour));
        let seed = self.seed ^ (index as u32 * 977 + 5);
        let [w, h] = p.size_mm.map(|v| (v / 2.0) as f32);
        let z = p.z_mm as f32;
        let (surface, own) = match p.kind {
            PropKind::Finger => (Surface::Glove, [-w - 1.0, -w * 0.4 - 1.0, w + 1.0, 2.0 * h]),
            PropKind::Palm => (Surface::Glove, [-w - 2.0, -h - 2.0, w + 2.0, h + 2.0]),
            PropKind::Mirror => (Surface::Mirror, [-w - 1.0, -w - 1.0, w + 1.0, w + 60.0]),
            PropKind::SteelBand => (
                Surface::Steel,
                [-w - 1.0, -h - 1.0 - BOW * w * w, w + 1.0, h + 1.0],
            ),
            PropKind::Plate => (Surface::DullMetal, [-w - 1.0, -h - 1.0, w + 1.0, h + 1.0]),
            PropKind::BlackPlate => (Surface::Black, [-w - 1.0, -h - 1.0, w + 1.0, h + 1.0]),
            PropKind::Napkin => (Surface::Paper, [-w - 2.0, -h - 2.0, w + 2.0, h + 2.0]),
            PropKind::CottonRoll => (Surface::Cotton, [-w - 1.0, -h - 1.0, w + 1.0, h + 1.0]),
        };
        let kind = p.kind;
        self.add(
            &format!("prop-{index}"),
            Kind::Prop {
                surface,
                half: [w, h],
            },
            order(p.layer, index),
            Place::new(p.at_mm, p.turn_deg.to_radians()),
            own.map(f64::from),
            0.12,
            inks,
            move |x, y| form(kind, [w, h], z, seed, x, y),
        );
    }
}

/// Signed distance and height in own axes.
fn form(kind: PropKind, [w, h]: [f32; 2], z: f32, seed: u32, x: f32, y: f32) -> [f32; 2] {
    match kind {
        PropKind::Finger => finger(w, z, seed, x, y),
        PropKind::Palm => {
            let wave = 1.2 * fbm(x * 0.08, y * 0.08, 2, seed).v;
            let d = rounded(x, y, w, h, 0.45 * w.min(h)) + wave;
            let rim = (1.0 - (-d).max(0.0) / 6.0).max(0.0);
            let fold = 0.35 * fbm(x * 0.35, y * 0.16, 3, seed ^ 3).v;
            [d, z - 3.0 * rim * rim + 1.4 * wave + fold]
        }
        PropKind::Mirror => {
            let disc = x.hypot(y) - w;
            let handle = ((x - 0.10 * (y - w)).abs() - 1.3)
                .max(w * 0.9 - y)
                .max(y - w - 58.0);
            let d = disc.min(handle);
            let rim = smooth(-1.4, -0.6, disc) - smooth(-0.3, 0.2, disc);
            let round = if handle < disc {
                -0.4 * (x - 0.10 * (y - w)).powi(2)
            } else {
                0.0
            };
            [d, z + 0.08 * y + 0.5 * rim + round]
        }
        PropKind::SteelBand => {
            let bow = BOW * x * x;
            let v = y + bow;
            let d = rounded(x, v, w, h, 0.9 * h);
            let u = (v / h).clamp(-1.0, 1.0);
            [d, z + 1.1 * u * u - 0.02 * x * x * (w / 30.0).min(1.0)]
        }
        PropKind::Plate => {
            let d = rounded(x, y, w, h, 1.2);
            let rim = (0.5 + d.min(0.2)).max(0.0) / 0.5;
            [d, z - 0.25 * rim * rim]
        }
        PropKind::BlackPlate => {
            let d = rounded(x, y + 0.010 * x * x, w, h, 3.0);
            [d, z - 0.011 * x * x + 0.2 * value(x * 0.1, y * 0.1, seed).v]
        }
        PropKind::Napkin => {
            let tear = 0.06 * fbm(x * 0.9, y * 0.9, 2, seed).v;
            let fold = 0.5 * fbm(x * 0.05, y * 0.05, 2, seed ^ 1).v;
            [rounded(x, y, w, h, 0.3) + tear, z + 2.0 * fold]
        }
        PropKind::CottonRoll => {
            let fluff = 0.18 * fbm(x * 1.3, y * 1.3, 3, seed).v;
            let d = rounded(x, y, w, h, 0.6 * w.min(h)) + fluff;
            let u = (x.abs().min(w) / w).powi(2);
            let v = (y.abs().min(h) / h).powi(2);
            let flat = if w > h { v } else { u };
            [
                d,
                z + w.min(h) * 0.8 * (1.0 - flat).max(0.0).sqrt() + 2.0 * fluff,
            ]
        }
    }
}

/// A finger: tip near y = 0, running to +y; joints are a little thicker.
fn finger(w: f32, z: f32, seed: u32, x: f32, y: f32) -> [f32; 2] {
    let along = y / w;
    let width = w
        * (0.86
            + 0.14 * smooth(0.3, 1.8, along)
            + 0.05 * (-((along - 3.3) / 0.7).powi(2)).exp()
            + 0.10 * smooth(4.0, 9.0, along))
        + 0.15 * value(y * 0.25, 1.0, seed).v;
    let bend = 0.012 * (along - 1.0).max(0.0).powi(2) * w * value(0.5, 0.5, seed ^ 2).v;
    let u = x - bend;
    let tip = w * 0.95;
    let d = if y < tip {
        (u * tip / width).hypot(y - tip) - tip
    } else {
        u.abs() - width
    };
    let inside = (-d).max(0.0);
    // Round across, flat on the pad.
    let q = (1.0 - inside / width).clamp(0.0, 1.0);
    let round = (1.0 - q * q).max(0.0).sqrt();
    // Folds of the rubber: across at the joint, askew elsewhere.
    let joint = (-((along - 3.3) / 0.8).powi(2)).exp();
    let across = value(x * 0.06, y * 1.1, seed ^ 4).v * (0.10 + 0.35 * joint);
    let askew = 0.22 * fbm(x * 0.25 + y * 0.22, y * 0.3 - x * 0.15, 3, seed ^ 5).v;
    let edge = smooth(0.3, 2.0, inside);
    [d, z + 0.8 * w * (round - 1.0) + (across + askew) * edge]
}

/// A rectangle with round corners.
fn rounded(x: f32, y: f32, w: f32, h: f32, r: f32) -> f32 {
    let (a, b) = (x.abs() - w + r, y.abs() - h + r);
    a.max(b).min(0.0) + a.max(0.0).hypot(b.max(0.0)) - r
}
