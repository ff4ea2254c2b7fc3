//! What is done to a finished picture: an earlier JPEG, another size, a filter of an editor.

use super::{Picture, blur};
use crate::spec::{Filter, Treatment};
use rayon::prelude::*;

/// Applies a treatment to encoded numbers; the result has `size_px`.
///
/// # Errors
/// When the JPEG codec refuses (its own words).
pub fn treat(
    picture: &Picture,
    t: &Treatment,
    size_px: [u32; 2],
    px_per_mm: f64,
) -> Result<Picture, String> {
    let mut out = match t.first_quality {
        Some(quality) => through_jpeg(picture, quality)?,
        None => picture.clone(),
    };
    let size = size_px.map(|v| v as usize);
    if [out.w, out.h] != size {
        out = resized(&out, size);
    }
    if let Some(f) = &t.filter {
        filter(&mut out, f, px_per_mm);
    }
    Ok(out)
}

/// Rounds to 8 bits, compresses and opens again.
fn through_jpeg(p: &Picture, quality: u8) -> Result<Picture, String> {
    let stored = crate::file::Stored {
        w: p.w as u32,
        h: p.h as u32,
        rgb: p
            .rgb
            .iter()
            .flatten()
            .map(|v| (v.clamp(0.0, 1.0) * 255.0 + 0.5) as u16)
            .collect(),
    };
    let bytes = crate::file::jpeg_bytes(&stored, quality)?;
    let image = image::load_from_memory(&bytes)
        .map_err(|e| e.to_string())?
        .to_rgb8();
    Ok(Picture {
        w: p.w,
        h: p.h,
        rgb: image
            .pixels()
            .map(|q| q.0.map(|v| f32::from(v) / 255.0))
            .collect(),
    })
}

/// Another size: cubic when enlarging (Catmull–Rom), tent-filtered when scaling down.
pub fn resized(p: &Picture, [w, h]: [usize; 2]) -> Picture {
    let across = stretched(p, w, true);
    stretched(&across, h, false)
}

fn stretched(p: &Picture, to: usize, across: bool) -> Picture {
    let from = if across { p.w } else { p.h };
    let ratio = from as f32 / to as f32;
    let wide = ratio.max(1.0);
    let weight = |d: f32| {
        if ratio > 1.0 {
            return (1.0 - d.abs()).max(0.0);
        }
        let d = d.abs();
        if d < 1.0 {
            1.5 * d * d * d - 2.5 * d * d + 1.0
        } else if d < 2.0 {
            -0.5 * d * d * d + 2.5 * d * d - 4.0 * d + 2.0
        } else {
            0.0
        }
    };
    let reach = if ratio > 1.0 { wide } else { 2.0 };
    let taps: Vec<(isize, Vec<f32>)> = (0..to)
        .map(|i| {
            let at = (i as f32 + 0.5) * ratio - 0.5;
            let first = (at - reach).ceil() as isize;
            let last = (at + reach).floor() as isize;
            let raw: Vec<f32> = (first..=last)
                .map(|k| weight((k as f32 - at) / wide))
                .collect();
            let sum: f32 = raw.iter().sum();
            (first, raw.iter().map(|v| v / sum).collect())
        })
        .collect();
    let (w, h) = if across { (to, p.h) } else { (p.w, to) };
    let mut rgb = vec![[0.0_f32; 3]; w * h];
    rgb.par_chunks_mut(w).enumerate().for_each(|(y, row)| {
        for (x, o) in row.iter_mut().enumerate() {
            let (first, weights) = &taps[if across { x } else { y }];
            for (k, m) in weights.iter().enumerate() {
                let at = (first + k as isize).clamp(0, from as isize - 1) as usize;
                let q = if across {
                    p.rgb[y * p.w + at]
                } else {
                    p.rgb[at * p.w + x]
                };
                for c in 0..3 {
                    o[c] += m * q[c];
                }
            }
        }
    });
    Picture { w, h, rgb }
}

/// Smoothing, saturation, curve: on 8-bit numbers, rounded after the curve as an editor does.
fn filter(p: &mut Picture, f: &Filter, px_per_mm: f64) {
    let sigma = (f.smooth_mm * px_per_mm) as f32;
    if sigma >= 0.2 {
        let mut soft = p.clone();
        blur::gaussian(&mut soft, sigma);
        p.rgb
            .par_iter_mut()
            .zip(soft.rgb.par_iter())
            .for_each(|(v, s)| {
                // Gentle differences go, edges stay.
                let d: f32 = (0..3).map(|c| (v[c] - s[c]).abs()).sum();
                let m = (-(d / 0.20).powi(2)).exp();
                *v = std::array::from_fn(|c| v[c] + m * (s[c] - v[c]));
            });
    }
    let k = f.saturation as f32;
    let curve: Vec<f32> = (0..=255)
        .map(|i| {
            let e = f64::from(i) / 255.0;
            let s = e + f.contrast * (std::f64::consts::TAU * (e - 0.5)).sin();
            let s = s + f.lift * (std::f64::consts::PI * s).sin();
            ((s.clamp(0.0, 1.0) * 255.0).round() / 255.0) as f32
        })
        .collect();
    p.rgb.par_iter_mut().for_each(|v| {
        let luma = 0.299 * v[0] + 0.587 * v[1] + 0.114 * v[2];
        *v = v.map(|c| {
            let c = if (k - 1.0).abs() < 1e-6 {
                c
            } else {
                luma + k * (c - luma)
            };
            curve[(c.clamp(0.0, 1.0) * 255.0 + 0.5) as usize]
        });
    });
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_ramp_keeps_its_place_when_resized() {
        let p = Picture {
            w: 60,
            h: 40,
            rgb: (0..2400)
                .map(|i| [(i % 60) as f32 / 60.0, (i / 60) as f32 / 40.0, 0.5])
                .collect(),
        };
        for (w, h) in [(120, 80), (97, 61), (30, 20), (25, 17)] {
            let q = resized(&p, [w, h]);
            for (x, y) in [(w / 2, h / 2), (w / 3, h / 4), (3 * w / 4, 2 * h / 3)] {
                let v = q.rgb[y * w + x];
                let want = [
                    ((x as f32 + 0.5) * 60.0 / w as f32 - 0.5) / 60.0,
                    ((y as f32 + 0.5) * 40.0 / h as f32 - 0.5) / 40.0,
                ];
                assert!(
                    (v[0] - want[0]).abs() < 1e-3 && (v[1] - want[1]).abs() < 1e-3,
                    "{w}×{h}: {v:?} {want:?}"
                );
            }
        }
    }
}
