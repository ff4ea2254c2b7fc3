//! Back of the mouth, tongue and plain lips.

use super::body::{Kind, Place};
use super::ink;
use super::make::Maker;
use crate::noise::{fbm, value};
use crate::spec::SceneSpec;

const ORDER_LIP: i32 = 60;

impl Maker {
    /// Back of the mouth, tongue, lips.
    pub(super) fn mouth(&mut self, spec: &SceneSpec) {
        let t = &spec.tissue;
        let gum = t.gum;
        let deep = self.palette(ink::mucosa_palette([
            gum[0] - 12.0,
            gum[1] + 2.0,
            gum[2] - 1.0,
        ]));
        let seed = self.seed;
        let forward = spec.scenery.as_ref().map_or(0.0, |s| s.tongue_mm) as f32;
        self.add(
            "cavity",
            Kind::Cavity,
            1000,
            Place::new([0.0, 0.0], 0.0),
            [-70.0, -60.0, 70.0, 70.0],
            0.8,
            deep,
            |x, y| {
                [
                    -50.0,
                    -26.0 + 3.0 * value(x * 0.06, y * 0.06, seed).v - 0.01 * x * x + 0.8 * forward,
                ]
            },
        );
        let paler = if forward > 0.0 { 14.0 } else { 0.0 };
        let tongue = self.palette(ink::mucosa_palette([
            gum[0] - 2.0 + paler,
            gum[1] - 4.0,
            gum[2] - 4.0,
        ]));
        let low = t.opening_mm + 4.0 - 0.6 * f64::from(forward);
        self.add(
            "tongue",
            Kind::Tongue,
            900,
            Place::new([1.5, low], 0.0),
            [-22.0, -12.0, 22.0, 24.0],
            0.25,
            tongue,
            |x, y| {
                let wave = 0.8 * value(x * 0.12, 0.3, seed ^ 61).v;
                let r = (x / 19.0).powi(2) + ((y - 10.0 + wave) / 16.0).powi(2);
                let d = (r.sqrt() - 1.0) * 15.0;
                let dome = (1.0 - r).max(0.0).sqrt();
                [
                    d,
                    forward - 22.0 + 9.0 * dome - 0.9 * (-(x / 1.6).powi(2)).exp() * dome,
                ]
            },
        );
        let lips = self.palette(ink::mucosa_palette([
            gum[0] - 3.0,
            gum[1] - 1.0,
            gum[2] + 1.0,
        ]));
        for (edge, sign) in [(t.upper_lip_mm, -1.0_f32), (t.lower_lip_mm, 1.0)] {
            let Some(at) = edge else { continue };
            // Own +y points into the lip.
            let place = Place::new(
                [0.0, at],
                if sign > 0.0 {
                    0.0
                } else {
                    std::f64::consts::PI
                },
            );
            self.add(
                if sign > 0.0 { "lip-lower" } else { "lip-upper" },
                Kind::Lip,
                ORDER_LIP,
                place,
                [-46.0, -6.0, 46.0, 26.0],
                0.12,
                lips,
                |x, y| {
                    let curve = -0.0042 * x * x + 0.7 * fbm(x * 0.09, 1.0, 2, seed ^ 71).v;
                    let d = curve - y;
                    let depth = (-d).max(0.0);
                    let bulge = 3.4 * (1.0 - (-depth / 2.2).exp()) - 0.030 * depth * depth;
                    [
                        d,
                        if sign > 0.0 { -5.0 } else { -1.2 } - 0.009 * x * x
                            + bulge
                            + 0.30 * fbm(x * 0.22, y * 0.22, 2, seed ^ 72).v,
                    ]
                },
            );
        }
    }
}
