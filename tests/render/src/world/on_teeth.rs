//! What sits on crowns and belongs to them: brackets with their wire, fillings, saliva.

use super::arch::Stand;
use super::body::{Kind, Place, Surface};
use super::ink;
use super::make::Maker;
use crate::material::Family;
use crate::noise::{smooth, value};
use crate::rng::unit2;
use crate::spec::SceneSpec;
use crate::spec::scenery::{Braces, Filling};

/// Before the gum of the upper jaw; those of the lower jaw come [`LOWER`] later, before its gum.
const ORDER_SALIVA: i32 = 64;
const ORDER_WIRE: i32 = 66;
const ORDER_BRACKET: i32 = 67;
const LOWER: i32 = 61;
const ORDER_STRING: i32 = 112;

fn later(fdi: u8) -> i32 {
    if fdi < 30 { 0 } else { LOWER }
}

impl Maker {
    fn of_the_crown(&mut self, opacity: f32) {
        if let Some(b) = self.bodies.last_mut() {
            b.opacity = opacity;
            b.occludes = false;
        }
    }

    /// A filling: a patch with the crown's own surface.
    pub(super) fn filling(&mut self, f: &Filling, s: &Stand, order: i32) {
        let c = &s.tooth.colour;
        let moved = |lab: [f64; 3]| std::array::from_fn(|i| lab[i] + f.off[i]);
        let colour = crate::spec::Gradient {
            neck: moved(c.neck),
            body: moved(c.body),
            edge: moved(c.edge),
        };
        let inks = self.palette(ink::crown_palette(&colour, Family::Ceramic));
        let form = s.form.clone();
        let (z, yaw, seed) = (s.z as f32, s.yaw_slope as f32, form.seed ^ 0x51);
        let at = [
            f.at[0] as f32 * form.half_width,
            f.at[1] as f32 * form.length,
        ];
        let [a, b] = f.half_mm.map(|v| v as f32);
        let own = [
            f64::from(at[0] - a) - 0.8,
            f64::from(at[1] - b) - 0.8,
            f64::from(at[0] + a) + 0.8,
            f64::from(at[1] + b) + 0.8,
        ];
        self.add(
            &format!("filling-{}", f.fdi),
            Kind::Prop {
                surface: Surface::Ceramic,
                half: [a, b],
            },
            order,
            Place::new(s.origin, s.angle),
            own,
            0.06,
            inks,
            move |x, y| {
                let crown = form.distance(x, y);
                let (u, v) = ((x - at[0]) / a, (y - at[1]) / b);
                let r = u.hypot(v) + 0.10 * value(x * 0.9, y * 0.9, seed).v;
                let d = ((r - 1.0) * a.min(b)).max(crown);
                [d, z + yaw * x + form.height(x, y, crown)]
            },
        );
        self.of_the_crown(1.0);
    }

    /// Brackets in mid-crown and a wire through them.
    pub(super) fn braces(&mut self, b: &Braces, stands: &[Stand]) {
        for upper in [true, false] {
            if !upper && !b.lower {
                continue;
            }
            let mut knots: Vec<[f32; 3]> = Vec::new();
            for s in stands
                .iter()
                .filter(|s| (s.tooth.fdi < 30) == upper && !s.tooth.missing)
            {
                let y = 0.50 * s.form.length;
                let place = Place::new(s.origin, s.angle);
                let face = s.z as f32 + s.form.height(0.0, y, -2.0);
                let [wx, wy] = place.world(0.0, y);
                knots.push([wx, wy, face]);
                self.bracket(b, s, &place, y, face);
            }
            knots.sort_by(|p, q| p[0].total_cmp(&q[0]));
            self.wire(b, &knots, upper);
        }
    }

    fn bracket(&mut self, b: &Braces, s: &Stand, place: &Place, y0: f32, face: f32) {
        let inks = self.palette(ink::dyed_palette(if b.ceramic {
            [87.0, 0.0, 7.0]
        } else {
            [66.0, 0.0, 1.0]
        }));
        let squeeze = 1.0 / (1.0 + s.yaw_slope.powi(2)).sqrt() as f32;
        let (w, h) = (1.65 * squeeze, 1.55_f32);
        let yaw = s.yaw_slope as f32;
        let own = [-2.6, f64::from(y0) - 2.4, 2.6, f64::from(y0) + 2.4];
        self.add(
            &format!("bracket-{}", s.tooth.fdi),
            Kind::Prop {
                surface: if b.ceramic {
                    Surface::Ceramic
                } else {
                    Surface::Steel
                },
                half: [w, h],
            },
            ORDER_BRACKET + later(s.tooth.fdi),
            *place,
            own,
            0.05,
            inks,
            move |x, y| {
                let v = y - y0;
                let (p, q) = (x.abs() - w, v.abs() - h);
                let plate = p.max(q);
                // A notch between the wings above and below, a slot for the wire.
                let notch = (x.abs() - 0.34 * w).max(0.62 * h - v.abs());
                let d = plate.max(-notch);
                let slot = smooth(0.36, 0.22, v.abs());
                let rim = smooth(0.0, -0.35, d);
                [d, face + yaw * x + 0.5 + 1.0 * rim - 0.7 * slot]
            },
        );
        self.of_the_crown(1.0);
    }

    fn wire(&mut self, b: &Braces, knots: &[[f32; 3]], upper: bool) {
        let (Some(first), Some(last)) = (knots.first(), knots.last()) else {
            return;
        };
        let inks = self.palette(ink::dyed_palette([70.0, 0.2, 2.0]));
        let radius = (b.wire_mm / 2.0) as f32;
        let span = |f: fn(f32, f32) -> f32, start: f32| knots.iter().map(|k| k[1]).fold(start, f);
        let own = [
            first[0] - 1.5,
            span(f32::min, f32::INFINITY) - 1.5,
            last[0] + 1.5,
            span(f32::max, f32::NEG_INFINITY) + 1.5,
        ];
        let knots = knots.to_vec();
        self.add(
            if upper { "wire-upper" } else { "wire-lower" },
            Kind::Prop {
                surface: Surface::Steel,
                half: [radius, radius],
            },
            ORDER_WIRE + if upper { 0 } else { LOWER },
            Place::new([0.0, 0.0], 0.0),
            own.map(f64::from),
            0.05,
            inks,
            move |x, y| {
                let mut best = [f32::INFINITY, 0.0];
                for p in knots.windows(2) {
                    let (dx, dy) = (p[1][0] - p[0][0], p[1][1] - p[0][1]);
                    let t =
                        ((x - p[0][0]) * dx + (y - p[0][1]) * dy) / (dx * dx + dy * dy).max(1e-6);
                    let t = t.clamp(0.0, 1.0);
                    let d = (x - p[0][0] - t * dx).hypot(y - p[0][1] - t * dy);
                    if d < best[0] {
                        best = [d, p[0][2] + t * (p[1][2] - p[0][2])];
                    }
                }
                let q = (best[0] / radius).min(1.0);
                [
                    best[0] - radius,
                    best[1] + 1.1 + radius * (1.0 - q * q).sqrt(),
                ]
            },
        );
        self.of_the_crown(1.0);
    }

    /// Bubbles along the gum lines and strings between the jaws.
    pub(super) fn saliva(&mut self, amount: f64, stands: &[Stand], spec: &SceneSpec) {
        let inks = self.palette(ink::dyed_palette([80.0, 2.0, 4.0]));
        let seed = self.seed ^ 0x5a11;
        let shown: Vec<&Stand> = stands.iter().filter(|s| !s.tooth.missing).collect();
        for (k, s) in shown.iter().enumerate() {
            let rand = |q: i32| unit2(k as i32, q, seed);
            if f64::from(rand(0)) > amount {
                continue;
            }
            let place = Place::new(s.origin, s.angle);
            // A heap of bubbles at one side of the neck.
            let side = if rand(1) < 0.5 { -1.0 } else { 1.0 };
            let at = [
                side * s.form.half_width * (0.3 + 0.6 * rand(2)),
                s.form.length * (0.02 + 0.25 * rand(3)),
            ];
            let count = 3 + (rand(4) * 8.0) as i32;
            let face = s.z as f32 + s.yaw_slope as f32 * at[0] - 0.2;
            let bubbles: Vec<[f32; 3]> = (0..count)
                .map(|q| {
                    let r = |o: i32| unit2(k as i32 * 31 + q, o, seed ^ 7);
                    [
                        at[0] + 1.3 * (r(0) - 0.5) * 2.0,
                        at[1] + 0.8 * (r(1) - 0.5) * 2.0,
                        0.14 + 0.42 * r(2) * r(2),
                    ]
                })
                .collect();
            self.add(
                &format!("saliva-{}", s.tooth.fdi),
                drop_kind(),
                ORDER_SALIVA + later(s.tooth.fdi),
                place,
                [
                    f64::from(at[0]) - 2.2,
                    f64::from(at[1]) - 1.7,
                    f64::from(at[0]) + 2.2,
                    f64::from(at[1]) + 1.7,
                ],
                0.04,
                inks,
                move |x, y| {
                    let mut best = [f32::INFINITY, 0.0];
                    for b in &bubbles {
                        let r = (x - b[0]).hypot(y - b[1]);
                        if r - b[2] < best[0] {
                            let q = (r / b[2]).min(1.0);
                            best = [r - b[2], b[2] * (1.0 - q * q).sqrt()];
                        }
                    }
                    [best[0], face + 0.7 + best[1]]
                },
            );
            self.of_the_crown(0.30);
        }
        let gap = spec.tissue.opening_mm;
        if (1.0..8.0).contains(&gap) && shown.iter().any(|s| s.tooth.fdi > 30) {
            let count = (amount * 3.0).round() as i32;
            for k in 0..count {
                let x0 = (unit2(k, 90, seed) - 0.5) * 26.0;
                let bend = unit2(k, 91, seed) - 0.5;
                self.add(
                    &format!("string-{k}"),
                    drop_kind(),
                    ORDER_STRING,
                    Place::new([f64::from(x0), 0.0], 0.0),
                    [-2.0, -2.5, 2.0, gap + 2.5],
                    0.05,
                    inks,
                    move |x, y| {
                        let t = (y / gap as f32).clamp(0.0, 1.0);
                        let width = 0.10 + 0.35 * (2.0 * t - 1.0).powi(4);
                        let at = 1.5 * bend * (t - 0.5);
                        let ends = (-1.0 - y).max(y - gap as f32 - 1.0);
                        [((x - at).abs() - width).max(ends), -0.5]
                    },
                );
                self.of_the_crown(0.35);
            }
        }
    }
}

fn drop_kind() -> Kind {
    Kind::Prop {
        surface: Surface::Saliva,
        half: [1.0, 1.0],
    }
}
