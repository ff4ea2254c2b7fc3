//! Reduced copies: one in linear light for finding, one in sRGB for the eye.

use super::Photo;
use super::types::{Preview, Sample};
use crate::colour::TransferCurve;
use crate::colour::rgb_space::SRGB;

/// A reduced copy in the photo's linear RGB.
#[derive(Debug, Clone, PartialEq)]
pub struct Reduced {
    /// Width in reduced pixels.
    pub width: u32,
    /// Height in reduced pixels.
    pub height: u32,
    /// Photo pixels per reduced pixel, across.
    pub scale_x: f64,
    /// Photo pixels per reduced pixel, down.
    pub scale_y: f64,
    /// Means over whole blocks of photo pixels, row by row.
    pub linear_rgb: Vec<[f32; 3]>,
}

impl Photo {
    /// A copy of at most `max_px` pixels (at least one block of the photo), averaged in linear
    /// light over square blocks; a rest at the right and lower edge is left out.
    pub fn reduced_linear(&self, max_px: usize) -> Reduced {
        let (width, height) = (self.width_px(), self.height_px());
        let all = f64::from(width) * f64::from(height);
        let mut block = (all / max_px.max(1) as f64).sqrt().ceil().max(1.0) as u32;
        block = block.min(width.min(height).max(1));
        let (columns, rows) = (width / block, height / block);
        let mut row = vec![Sample::default(); (columns * block) as usize];
        let mut linear_rgb = Vec::with_capacity(columns as usize * rows as usize);
        let mut sums = vec![[0.0_f32; 3]; columns as usize];
        let scale = 1.0 / (block as f32 * block as f32);
        for r in 0..rows {
            sums.fill([0.0; 3]);
            for y in r * block..(r + 1) * block {
                if self.read_row(0, y, &mut row).is_none() {
                    continue;
                }
                for (sum, samples) in sums.iter_mut().zip(row.chunks_exact(block as usize)) {
                    for s in samples {
                        for (total, v) in sum.iter_mut().zip(s.linear_rgb) {
                            *total += v;
                        }
                    }
                }
            }
            linear_rgb.extend(sums.iter().map(|s| s.map(|v| v * scale)));
        }
        Reduced {
            width: columns,
            height: rows,
            scale_x: f64::from(block),
            scale_y: f64::from(block),
            linear_rgb,
        }
    }

    /// A copy for the eye: at most `max_px` pixels, sRGB, opaque.
    pub fn preview(&self, max_px: usize) -> Preview {
        let reduced = self.reduced_linear(max_px);
        let from_xyz = SRGB.xyz_d65_from_linear_rgb().inverse();
        let own = self.xyz_d65_from_linear_rgb();
        let matrix = from_xyz
            .map_or(own, |m| m.times(&own))
            .0
            .map(|r| r.map(|v| v as f32));
        let encode = srgb_encoder();
        let mut rgba = Vec::with_capacity(reduced.linear_rgb.len() * 4);
        for [r, g, b] in &reduced.linear_rgb {
            rgba.extend(matrix.map(|[mr, mg, mb]| encode(mr * r + mg * g + mb * b)));
            rgba.push(u8::MAX);
        }
        Preview {
            width: reduced.width,
            height: reduced.height,
            rgba,
        }
    }
}

/// Linear 0–1 to the sRGB byte, by table; what lies outside is clamped.
pub fn srgb_encoder() -> impl Fn(f32) -> u8 {
    const STEPS: usize = 4096;
    let table: Vec<u8> = (0..=STEPS)
        .map(|i| {
            let encoded = TransferCurve::Srgb.encoded_from_linear(i as f64 / STEPS as f64);
            (encoded * 255.0).round().clamp(0.0, 255.0) as u8
        })
        .collect();
    move |linear: f32| {
        let index = (linear.clamp(0.0, 1.0) * STEPS as f32).round() as usize;
        table.get(index).copied().unwrap_or(u8::MAX)
    }
}
