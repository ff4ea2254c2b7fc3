//! Bodies of the [`Scenery`]: what stands around and before mouth, card and tabs.

use super::arch::Stand;
use super::body::{Kind, Place, Surface};
use super::ink;
use super::make::Maker;
use crate::noise::{fbm, smooth, value};
use crate::spec::SceneSpec;
use crate::spec::scenery::{Opening, Rims, Scenery};

const ORDER_FACE: i32 = 62;
const ORDER_RIM: i32 = 61;
const ORDER_CHEEK: i32 = 950;

impl Maker {
    /// All bodies of the scenery.
    pub(super) fn scenery(&mut self, s: &Scenery, stands: &[Stand], spec: &SceneSpec) {
        if let Some(o) = &s.opening {
            self.face(o);
            self.cheeks(o);
            if let Some(rims) = &s.rims {
                self.rims(o, rims);
            }
        }
        for (i, p) in s.props.iter().enumerate() {
            self.prop(p, i);
        }
        if let Some(b) = &s.braces {
            self.braces(b, stands);
        }
        if s.saliva > 0.0 {
            self.saliva(s.saliva, stands, spec);
        }
    }

    /// Lips and skin: everything outside the opening.
    fn face(&mut self, o: &Opening) {
        let inks = self.palette(ink::face_palette(o.lip, o.skin));
        let seed = self.seed;
        let shape = Shape::new(o, seed);
        let a = shape.a;
        let [red_up, red_down] = o.red_mm.map(|v| v as f32);
        let [cx, cy] = o.centre_mm;
        self.add(
            "face",
            Kind::Face {
                red: [red_up, red_down],
                half_width: a,
            },
            ORDER_FACE,
            Place::new(o.centre_mm, 0.0),
            [-66.0 - cx, -58.0 - cy, 66.0 - cx, 62.0 - cy],
            0.16,
            inks,
            move |x, y| {
                // 0 at the upper lip, 1 at the lower one, blended at the corners.
                let low = smooth(-3.0, 3.0, y);
                let d = shape.beyond(x, y);
                let depth = (-d).max(0.0);
                let red = red_width([red_up, red_down], x / a, y);
                // The red is full, a groove bounds it, the skin falls away to the cheeks.
                let full = 3.6 * (1.0 - (-depth / 2.4).exp());
                let groove = -0.9 * (-((depth - red - 0.8) / 2.0).powi(2)).exp();
                let beyond = (depth - red).max(0.0);
                let philtrum = if y < 0.0 {
                    -0.7 * (-(x / 3.2).powi(2)).exp() * (beyond / 3.0).min(1.0)
                } else {
                    0.0
                };
                let bend = -0.8 - 1.8 * low - 0.0085 * x * x;
                [
                    d,
                    bend + full + groove + philtrum - 0.06 * beyond
                        + 0.35 * fbm(x * 0.18, y * 0.18, 2, seed ^ 72).v,
                ]
            },
        );
    }

    /// Bands of plastic along the lips at both sides.
    fn rims(&mut self, o: &Opening, rims: &Rims) {
        let inks = self.palette(ink::dyed_palette(rims.colour));
        let seed = self.seed;
        let shape = Shape::new(o, seed);
        let half = (rims.width_mm / 2.0) as f32;
        for side in [-1.0_f32, 1.0] {
            let from = 0.50 * shape.a;
            let kind = Kind::Prop {
                surface: Surface::Plastic,
                half: [half, half],
            };
            let (x0, x1) = (f64::from(from) - 2.0, f64::from(shape.a) + 14.0);
            let own = if side > 0.0 {
                [x0, -34.0, x1, 34.0]
            } else {
                [-x1, -34.0, -x0, 34.0]
            };
            self.add(
                if side > 0.0 { "rim-left" } else { "rim-right" },
                kind,
                ORDER_RIM,
                Place::new(o.centre_mm, 0.0),
                own,
                0.12,
                inks,
                move |x, y| {
                    let off = shape.beyond(x, y) + 0.45 * half;
                    // Round ends.
                    let end = ((side * x - from) / (2.0 * half)).clamp(0.0, 1.0);
                    let round = (end * (2.0 - end)).sqrt();
                    let d = (off.abs() - half * round).max(0.55 * (from - side * x));
                    // A channel: both edges stand up.
                    let u = (off / half).clamp(-1.0, 1.0);
                    [d, 2.6 - 0.0085 * x * x + 1.1 * u * u - 0.5 * u.powi(6)]
                },
            );
            if let Some(b) = self.bodies.last_mut() {
                b.opacity = rims.opacity as f32;
                b.occludes = rims.opacity >= 0.5;
            }
        }
    }

    /// Insides of the cheeks at both ends of the arch.
    fn cheeks(&mut self, o: &Opening) {
        let inks = self.palette(ink::mucosa_palette([
            o.lip[0] - 4.0,
            o.lip[1] + 2.0,
            o.lip[2],
        ]));
        let seed = self.seed;
        for side in [-1.0_f64, 1.0] {
            // Own +x points outward.
            let angle = if side > 0.0 {
                0.0
            } else {
                std::f64::consts::PI
            };
            let x0 = 0.62 * o.half_width_mm;
            self.add(
                if side > 0.0 {
                    "cheek-left"
                } else {
                    "cheek-right"
                },
                Kind::Lip,
                ORDER_CHEEK,
                Place::new([o.centre_mm[0] + side * x0, o.centre_mm[1]], angle),
                [-6.0, -40.0, 40.0, 40.0],
                0.3,
                inks,
                move |x, y| {
                    let edge = 1.5 * value(y * 0.08, 2.0, seed ^ 81).v + 0.004 * y * y;
                    let depth = (x - edge).max(0.0);
                    [
                        edge - x,
                        -23.0
                            + 13.0 * (1.0 - (-depth / 9.0).exp())
                            + 0.8 * fbm(x * 0.12, y * 0.12, 2, seed ^ 82).v,
                    ]
                },
            );
        }
    }
}

/// Width of the red of the lips at a place in the opening's axes (`u` = x ÷ half width): none is
/// left beyond the corners.
pub(in crate::world) fn red_width(red: [f32; 2], u: f32, y: f32) -> f32 {
    let low = smooth(-3.0, 3.0, y);
    let full = red[0] + (red[1] - red[0]) * low;
    full * (1.0 - 0.75 * smooth(0.25, 1.12, u.abs()))
}

/// The opening's outline.
#[derive(Clone, Copy)]
struct Shape {
    a: f32,
    n: f32,
    up: f32,
    down: f32,
    seed: u32,
}

impl Shape {
    fn new(o: &Opening, seed: u32) -> Self {
        let [up, down] = o.reach_mm.map(|v| v.max(0.5) as f32);
        Self {
            a: o.half_width_mm as f32,
            n: o.power as f32,
            up,
            down,
            seed,
        }
    }

    /// Distance to the outline, positive within the opening.
    fn beyond(&self, x: f32, y: f32) -> f32 {
        let low = smooth(-3.0, 3.0, y);
        let wave = 0.7 * fbm(x * 0.09, 1.0 + 2.0 * low, 2, self.seed ^ 71).v;
        let reach = if y < 0.0 { self.up } else { self.down };
        let b = reach + wave * (y.abs() / 3.0).min(1.0);
        let at = |x: f32, y: f32| {
            ((x.abs() / self.a).powf(self.n) + (y.abs() / b).powf(self.n)).powf(1.0 / self.n)
        };
        let h = 0.05;
        let slope = ((at(x + h, y) - at(x - h, y)) / (2.0 * h))
            .hypot((at(x, y + h) - at(x, y - h)) / (2.0 * h));
        ((1.0 - at(x, y)) / slope.max(0.012)).clamp(-60.0, 60.0)
    }
}
