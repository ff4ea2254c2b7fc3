//! The lights: where they stand, how strong they are, what their mirror image looks like.
//!
//! Shares of power are scaled so that the card plane at the origin, facing the camera, receives
//! 1 from all lamps and the ambient together.

use crate::spec::{LightShape, SceneSpec};

/// Most lamps.
pub const MAX_LAMPS: usize = 3;

/// A lamp.
#[derive(Debug, Clone)]
pub struct Lamp {
    /// Place in millimetres.
    pub at: [f32; 3],
    /// Distance from the origin.
    pub distance: f32,
    /// Direction from the origin.
    pub toward: [f32; 3],
    /// Irradiance at the origin on a plane facing the lamp.
    pub power: f32,
    /// Half size or radii.
    pub shape: LightShape,
    /// Half of its angular size, for soft shadows.
    pub spread: f32,
}

/// Lamps and ambient share.
pub fn lamps(spec: &SceneSpec) -> (Vec<Lamp>, f32) {
    let ambient = spec
        .ambient
        .as_ref()
        .map_or(0.0, |a| a.share.clamp(0.0, 0.95));
    let total: f64 = spec.lights.iter().take(MAX_LAMPS).map(|l| l.power).sum();
    let out = spec
        .lights
        .iter()
        .take(MAX_LAMPS)
        .map(|l| {
            let (az, el) = (l.azimuth_deg.to_radians(), l.elevation_deg.to_radians());
            let toward = [az.sin() * el.cos(), -el.sin(), az.cos() * el.cos()];
            let power = (1.0 - ambient) * l.power / total.max(1e-9) / toward[2].max(0.1);
            let half = match l.shape {
                LightShape::Panel([a, b]) => (a + b) / 2.0,
                LightShape::Ring([_, r]) => r,
            };
            Lamp {
                at: toward.map(|v| (v * l.distance_mm) as f32),
                distance: l.distance_mm as f32,
                toward: toward.map(|v| v as f32),
                power: power as f32,
                shape: l.shape,
                spread: (half / l.distance_mm) as f32,
            }
        })
        .collect();
    (out, ambient as f32)
}

impl Lamp {
    /// Unit direction from a place to the lamp, and the falloff against the origin.
    #[inline]
    pub fn from(&self, p: [f32; 3]) -> ([f32; 3], f32) {
        let d = [self.at[0] - p[0], self.at[1] - p[1], self.at[2] - p[2]];
        let q = d[0] * d[0] + d[1] * d[1] + d[2] * d[2];
        let r = q.sqrt();
        (
            [d[0] / r, d[1] / r, d[2] / r],
            self.distance * self.distance / q,
        )
    }

    /// Mirror image: brightness (as a radiance factor per unit of surface reflectance) seen along
    /// the mirrored ray `m`, softened by `soft` radians.
    #[inline]
    pub fn image(&self, m: [f32; 3], toward: [f32; 3], soft: f32) -> f32 {
        let c = m[0] * toward[0] + m[1] * toward[1] + m[2] * toward[2];
        if c < 0.15 {
            return 0.0;
        }
        match self.shape {
            LightShape::Panel([a, b]) => {
                let (a, b) = (a as f32 / self.distance, b as f32 / self.distance);
                // Tangents: level, and upright to it.
                let n = (toward[0] * toward[0] + toward[2] * toward[2])
                    .sqrt()
                    .max(1e-6);
                let t1 = [toward[2] / n, 0.0, -toward[0] / n];
                let t2 = [-toward[0] * toward[1] / n, n, -toward[1] * toward[2] / n];
                let x = (m[0] * t1[0] + m[2] * t1[2]) / c;
                let y = (m[0] * t2[0] + m[1] * t2[1] + m[2] * t2[2]) / c;
                std::f32::consts::PI / (4.0 * a * b)
                    * band(x, a, soft)
                    * band(y, b, soft)
                    * self.power
            }
            LightShape::Ring([r0, r1]) => {
                let (r0, r1) = (r0 as f32 / self.distance, r1 as f32 / self.distance);
                let r = (1.0 - c * c).max(0.0).sqrt() / c;
                let inside = step((r1 - r) / soft) - step((r0 - r) / soft);
                inside.max(0.0) / (r1 * r1 - r0 * r0) * self.power
            }
        }
    }
}

/// Share of a Gaussian of σ `s` at x that lies within ±a.
#[inline]
fn band(x: f32, a: f32, s: f32) -> f32 {
    step((x + a) / s) - step((x - a) / s)
}

/// Normal distribution function, by the logistic-cubic approximation (error < 2e-4).
#[inline]
fn step(x: f32) -> f32 {
    let x = x.clamp(-6.0, 6.0);
    1.0 / (1.0 + (-1.5976 * x - 0.070_565 * x * x * x).exp())
}
