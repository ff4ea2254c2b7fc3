//! What the camera receives from one place of the plane.
//!
//! Each body: diffuse light (Lambert with a wrap for translucent bodies, soft shadows, ambient
//! openness, light returned by the neighbourhood) through its inks, plus mirrored lamps on its
//! gloss. Bodies are laid over each other from the front by coverage. Diffuse radiance is in
//! units of a perfect white in the card plane.

use super::body::Body;
use super::build::World;
use super::ink::{INKS, LIGHTS};
use super::paint::{Paint, paint};
use crate::noise::smooth;

/// Light at one place.
#[derive(Debug, Clone, Copy, Default)]
pub struct Look {
    /// Camera raw numbers, white in the card plane = 1 in green.
    pub raw: [f32; 3],
    /// Height of what is seen.
    pub z: f32,
}

/// One body's surface at a place, lit.
pub struct Lit {
    /// Paint.
    pub paint: Paint,
    /// Irradiance by light, card plane = 1 in all.
    pub light: [f32; LIGHTS],
    /// Gloss per lamp and from the room, as radiance factors.
    pub gloss: [f32; LIGHTS],
    /// Height.
    pub z: f32,
}

/// Share of the ambient-like light that comes back from what stands around.
const RETURN: f32 = 0.42;

impl World {
    /// Lights the surface of a body at a world place.
    pub fn lit(&self, body: &Body, x: f32, y: f32, own: [f32; 2], form: [f32; 4]) -> Lit {
        let p = paint(body, own[0], own[1], form);
        let around = body.light.read(own[0], own[1]);
        let at = [x, y, form[1]];
        let normal = |extra: [f32; 2]| {
            let [gx, gy] = body.place.turn(
                form[2] + p.slope[0] + extra[0],
                form[3] + p.slope[1] + extra[1],
            );
            let n = 1.0 / (1.0 + gx * gx + gy * gy).sqrt();
            [-gx * n, -gy * n, n]
        };
        let n = normal([0.0; 2]);
        let gloss_n = normal(p.gloss_slope);
        let view = {
            let v = [
                self.centre_mm[0] - x,
                self.centre_mm[1] - y,
                self.eye_mm - form[1],
            ];
            let r = 1.0 / (v[0] * v[0] + v[1] * v[1] + v[2] * v[2]).sqrt();
            v.map(|c| c * r)
        };
        let facing = (gloss_n[0] * view[0] + gloss_n[1] * view[1] + gloss_n[2] * view[2]).max(0.02);
        let mirrored: [f32; 3] = std::array::from_fn(|i| 2.0 * facing * gloss_n[i] - view[i]);
        let fresnel = p.f0 + (1.0 - p.f0) * (1.0 - facing).powi(5);
        let open = around[0].max(0.0);
        let direct_open = open.sqrt().sqrt();

        let mut light = [0.0; LIGHTS];
        let mut gloss = [0.0; LIGHTS];
        let mut received = 0.0;
        let shade = self.shade(x, y);
        for (k, lamp) in self.lamps.iter().enumerate() {
            let (l, fall) = lamp.from(at);
            let cos = n[0] * l[0] + n[1] * l[1] + n[2] * l[2];
            // Wrapped so that a surface facing the camera gets what Lambert gives it.
            let wrapped = ((cos + p.wrap) * l[2] / (l[2] + p.wrap)).max(0.0);
            let clear = around[k + 1] * shade;
            light[k] = lamp.power * fall * wrapped * clear * direct_open;
            received += light[k];
            if p.f0 > 0.0 {
                let image = 0.72 * lamp.image(mirrored, l, p.soft)
                    + 0.28 * lamp.image(mirrored, l, p.soft * 3.5 + 0.08);
                gloss[k] = self.glare * fresnel * image * clear * fall;
            }
        }
        light[3] = self.ambient * open * (0.55 + 0.45 * n[2]) * shade;
        received += light[3];
        light[4] = RETURN * (1.0 - open) * received.min(1.2);
        if p.f0 > 0.0 {
            // The room mirrored: dim, brighter upward.
            gloss[3] = self.glare
                * fresnel
                * (0.06 + 0.9 * self.ambient)
                * (1.0 - 0.4 * mirrored[1])
                * open
                * shade;
        }
        Lit {
            paint: p,
            light,
            gloss,
            z: form[1],
        }
    }

    /// Share of the light that the shadows of outside things let through.
    fn shade(&self, x: f32, y: f32) -> f32 {
        let mut out = 1.0;
        for s in &self.shadows {
            let [u, v] = s.place.own(x, y);
            let d = (u.abs() - s.half[0]).max(v.abs() - s.half[1]);
            let inside = smooth(0.5 * s.soft, -0.5 * s.soft, d);
            out *= 1.0 + (s.passes - 1.0) * inside;
        }
        out
    }

    /// Camera numbers of a lit surface.
    fn raw(&self, body: &Body, s: &Lit) -> [f32; 3] {
        let ink = &self.inks[body.ink];
        let mut out = [0.0_f32; 3];
        for l in 0..LIGHTS {
            let e = s.light[l] * s.paint.k;
            if e != 0.0 {
                for b in 0..INKS {
                    let w = e * s.paint.ink[b];
                    for (o, r) in out.iter_mut().zip(&ink.raw[l][b]) {
                        *o += w * r;
                    }
                }
            }
            if s.gloss[l] != 0.0 {
                for (o, r) in out.iter_mut().zip(&self.white_raw[l]) {
                    *o += s.gloss[l] * r;
                }
            }
        }
        out
    }

    /// All bodies at a world place, those of `among` (front first) tried.
    #[inline]
    pub fn see(&self, among: &[u16], x: f32, y: f32) -> Look {
        let px = self.mm_per_px as f32;
        let mut left = 1.0_f32;
        let mut out = Look {
            raw: [0.0; 3],
            z: 0.0,
        };
        for &i in among {
            let body = &self.bodies[i as usize];
            let b = &body.bounds;
            if x < b[0] || y < b[1] || x > b[2] || y > b[3] {
                continue;
            }
            let own = body.place.own(x, y);
            let form = body.form.read(own[0], own[1]);
            let cover = (0.5 - form[0] / px).clamp(0.0, 1.0) * body.opacity;
            if cover <= 0.0 {
                continue;
            }
            let lit = self.lit(body, x, y, own, form);
            let raw = self.raw(body, &lit);
            let w = left * cover;
            for (o, r) in out.raw.iter_mut().zip(raw) {
                *o += w * r;
            }
            out.z += w * lit.z;
            left -= w;
            if left < 0.004 {
                break;
            }
        }
        out
    }

    /// XYZ under D65 of a body's diffuse reflectance at a place: (face on and evenly lit, as
    /// shaded by the geometry with the card plane's irradiance as 1).
    pub fn truth_at(&self, body: &Body, x: f32, y: f32) -> ([f64; 3], [f64; 3]) {
        let own = body.place.own(x, y);
        let form = body.form.read(own[0], own[1]);
        let lit = self.lit(body, x, y, own, form);
        let ink = &self.inks[body.ink];
        let direct: f32 = lit.light[..4].iter().sum();
        let (mut face, mut shaded) = ([0.0; 3], [0.0; 3]);
        for b in 0..INKS {
            let w = f64::from(lit.paint.ink[b] * lit.paint.k);
            for i in 0..3 {
                face[i] += w * f64::from(ink.xyz[b][i]);
                shaded[i] +=
                    w * f64::from(direct * ink.xyz[b][i] + lit.light[4] * ink.xyz_returned[b][i]);
            }
        }
        (face, shaded)
    }
}
