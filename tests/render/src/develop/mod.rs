//! From the light on the sensor to the numbers in the file: lens, noise, saturation, white
//! balance, matrix, tone curve, sharpening.

pub mod blur;
mod tone;
mod treat;

use crate::camera::{gains_for, output_from_balanced, xyz_from_space};
use crate::rng::normals2;
use crate::spec::{SceneSpec, WhiteBalance};
use crate::spectrum::Spectrum;
use crate::world::ink::Viewer;
use rayon::prelude::*;

pub use tone::{decode, encode};
pub use treat::{resized, treat};

/// A picture in linear or encoded RGB.
#[derive(Debug, Clone)]
pub struct Picture {
    /// Width.
    pub w: usize,
    /// Height.
    pub h: usize,
    /// Row-major.
    pub rgb: Vec<[f32; 3]>,
}

/// Level of a perfect white in the card plane at exposure 0.
pub const WHITE_LEVEL: f32 = 0.90;

/// Gains relative to green.
pub fn gains(
    spec: &SceneSpec,
    viewer: &Viewer,
    shares: &[f64],
    ambient: f64,
    raw: &Picture,
) -> [f64; 3] {
    let mut total = Spectrum::flat(0.0);
    for (k, s) in shares.iter().enumerate() {
        total = Spectrum(std::array::from_fn(|i| {
            total.0[i] + s * viewer.lights[k].0[i]
        }));
    }
    total = Spectrum(std::array::from_fn(|i| {
        total.0[i] + ambient * viewer.lights[3].0[i]
    }));
    let right = gains_for(spec.camera, &total);
    match spec.white_balance {
        WhiteBalance::Right => right,
        WhiteBalance::Preset(light) => gains_for(spec.camera, &light.spectrum()),
        WhiteBalance::OffBy(k) => std::array::from_fn(|c| right[c] * k[c] / k[1]),
        WhiteBalance::GreyWorld(strength) => {
            let mut mean = [0.0; 3];
            for p in raw.rgb.iter().step_by(37) {
                for c in 0..3 {
                    mean[c] += f64::from(p[c].min(1.0));
                }
            }
            std::array::from_fn(|c| {
                let grey = mean[1] / mean[c].max(1e-9);
                right[c] * (grey / right[c]).powf(strength)
            })
        }
    }
}

/// Lens and sensor: in place, raw numbers 0–1.
pub fn expose(
    spec: &SceneSpec,
    raw: &mut Picture,
    depth: &[f32],
    exposure_ev: f64,
    filter: [f64; 3],
) {
    let o = &spec.optics;
    let (w, h) = (raw.w, raw.h);
    blur::defocus(raw, depth, o.focus_z_mm as f32, o.defocus_px_per_mm as f32);
    blur::gaussian(raw, o.blur_px as f32);
    if let Some(shake) = &o.shake {
        let px = shake.length_mm * f64::from(spec.width_px) / spec.frame.width_mm;
        blur::motion(raw, px as f32, shake.direction_deg.to_radians() as f32);
    }
    blur::bloom(raw);
    let scale = WHITE_LEVEL * exposure_ev.exp2() as f32;
    let gain = filter.map(|f| f as f32 * scale);
    let mut mean = [0.0_f64; 3];
    let step = 29;
    for p in raw.rgb.iter().step_by(step) {
        for c in 0..3 {
            mean[c] += f64::from(p[c]);
        }
    }
    let n = raw.rgb.len().div_ceil(step) as f64;
    let veil: [f32; 3] = std::array::from_fn(|c| (mean[c] / n * o.veil) as f32 * gain[c]);
    let (cx, cy) = (w as f32 / 2.0, h as f32 / 2.0);
    let far = 1.0 / (cx * cx + cy * cy);
    let well = o.full_well_electrons as f32;
    let read = o.read_noise_electrons as f32 / well;
    let seed = spec.seed as u32 ^ 0x6e6f_6973 ^ (exposure_ev.to_bits() >> 20) as u32;
    raw.rgb.par_chunks_mut(w).enumerate().for_each(|(y, row)| {
        for (x, p) in row.iter_mut().enumerate() {
            let r2 = ((x as f32 - cx).powi(2) + (y as f32 - cy).powi(2)) * far;
            let shade = 1.0 - o.vignetting as f32 * r2;
            let (n0, n1) = normals2(x as i32, y as i32, seed);
            let (n2, _) = normals2(x as i32, y as i32, seed ^ 0x55aa);
            for ((c, v), n) in p.iter_mut().enumerate().zip([n0, n1, n2]) {
                let signal = (*v * gain[c] * shade + veil[c]).max(0.0);
                *v = (signal + n * (signal / well + read * read).sqrt()).clamp(-0.01, 1.0);
            }
        }
    });
    let _ = h;
    // Interpolating the mosaic smears the noise over neighbours.
    blur::three(raw, 0.16);
}

/// Raw to encoded RGB, 0–1.
pub fn develop(spec: &SceneSpec, raw: &mut Picture, gains: [f64; 3]) {
    let low = gains.iter().copied().fold(f64::INFINITY, f64::min);
    let g = gains.map(|v| (v / low) as f32);
    let m = output_from_balanced(spec.camera, spec.output.space).map(|r| r.map(|v| v as f32));
    let y = xyz_from_space(spec.output.space)[1].map(|v| v as f32);
    let (space, tone) = (spec.output.space, spec.tone);
    raw.rgb.par_chunks_mut(raw.w).for_each(|row| {
        for p in row {
            // The first channel to fill up bounds all, so that blown light stays white.
            let b: [f32; 3] = std::array::from_fn(|c| (p[c] * g[c]).min(1.0));
            let rgb: [f32; 3] =
                std::array::from_fn(|c| m[c][0] * b[0] + m[c][1] * b[1] + m[c][2] * b[2]);
            *p = tone::finish(rgb, y, tone, space);
        }
    });
    if spec.optics.sharpening > 0.0 {
        blur::sharpen(raw, spec.optics.sharpening as f32);
    }
}
