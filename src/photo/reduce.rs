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

impl Reduced {
    /// A place of the reduced copy, in pixels, as a place of the photo.
    pub fn photo_from_reduced(&self, [x, y]: [f64; 2]) -> [f64; 2] {
        [
            (x + 0.5) * self.scale_x - 0.5,
            (y + 0.5) * self.scale_y - 0.5,
        ]
    }

    /// A place of the photo, in pixels, as a place of the reduced copy.
    pub fn reduced_from_photo(&self, [x, y]: [f64; 2]) -> [f64; 2] {
        [
            (x + 0.5) / self.scale_x - 0.5,
            (y + 0.5) / self.scale_y - 0.5,
        ]
    }
}

impl Photo {
    /// A copy of at most `max_px` pixels (at least one block of the photo), averaged in linear
    /// light over square blocks; of large blocks every second or third row, since three rows tell
    /// as much for finding; a rest at the right and lower edge is left out.
    pub fn reduced_linear(&self, max_px: usize) -> Reduced {
        let block = self.block_for(max_px);
        let (columns, rows) = (self.width_px() / block, self.height_px() / block);
        let mut row = vec![Sample::default(); (columns * block) as usize];
        let mut linear_rgb = Vec::with_capacity(columns as usize * rows as usize);
        let mut sums = vec![[0.0_f32; 3]; columns as usize];
        let stride = (block / 3).max(1);
        let used = block.div_ceil(stride);
        let scale = 1.0 / (block as f32 * used as f32);
        for r in 0..rows {
            sums.fill([0.0; 3]);
            for y in (r * block..(r + 1) * block).step_by(stride as usize) {
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

    /// A copy for the eye: at most `max_px` pixels, sRGB, opaque. Codes are averaged here, which
    /// is quick and good enough to look at; nothing is measured on it.
    pub fn preview(&self, max_px: usize) -> Preview {
        let block = self.block_for(max_px);
        let (columns, rows) = (self.width_px() / block, self.height_px() / block);
        let from_xyz = SRGB.xyz_d65_from_linear_rgb().inverse();
        let own = self.xyz_d65_from_linear_rgb();
        let matrix = from_xyz.map_or(own, |m| m.times(&own)).0;
        let matrix = matrix.map(|r| r.map(|v| v as f32));
        let as_it_is = self.pixels.bits() == 8 && self.is_srgb();
        let encode = srgb_encoder();
        let mut samples = vec![Sample::default(); columns as usize];
        let mut rgba = vec![u8::MAX; columns as usize * rows as usize * 4];
        let lines = rgba.chunks_exact_mut((columns as usize * 4).max(1));
        for (r, line) in (0..rows).zip(lines) {
            let codes = self.pixels.block_means(self.width_px(), r, block, columns);
            let (pixels, _) = line.as_chunks_mut::<4>();
            if as_it_is {
                for ([red, green, blue, _], codes) in pixels.iter_mut().zip(&codes) {
                    [*red, *green, *blue] = codes.map(|c| c as u8);
                }
                continue;
            }
            if self.fill_codes(&codes, &mut samples).is_none() {
                samples.fill(Sample::default());
            }
            for ([red, green, blue, _], sample) in pixels.iter_mut().zip(&samples) {
                let [r, g, b] = sample.linear_rgb;
                [*red, *green, *blue] = matrix.map(|[mr, mg, mb]| encode(mr * r + mg * g + mb * b));
            }
        }
        Preview {
            width: columns,
            height: rows,
            rgba,
        }
    }

    /// Whether codes can be shown as they are: primaries and curve are sRGB's to within what
    /// nobody sees.
    fn is_srgb(&self) -> bool {
        let near = |a: f64, b: f64| (a - b).abs() < 2e-3;
        let (own, srgb) = (
            self.xyz_d65_from_linear_rgb().0,
            SRGB.xyz_d65_from_linear_rgb().0,
        );
        let primaries = own
            .as_flattened()
            .iter()
            .zip(srgb.as_flattened())
            .all(|(a, b)| near(*a, *b));
        let super::ToLinear::Tables(tables) = &self.to_linear else {
            return false;
        };
        primaries
            && tables.iter().all(|table| {
                let last = table.len().saturating_sub(1).max(1) as f64;
                table.iter().enumerate().step_by(5).all(|(code, linear)| {
                    near(
                        f64::from(*linear),
                        TransferCurve::Srgb.linear_from_encoded(code as f64 / last),
                    )
                })
            })
    }

    /// Side of the square blocks that reduce the photo to at most `max_px` pixels.
    fn block_for(&self, max_px: usize) -> u32 {
        let (width, height) = (self.width_px(), self.height_px());
        let all = f64::from(width) * f64::from(height);
        let block = (all / max_px.max(1) as f64).sqrt().ceil().max(1.0) as u32;
        block.min(width.min(height).max(1))
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
        // Half up by hand: rounding to even or away from zero is a slow call in WebAssembly.
        let index = (linear.clamp(0.0, 1.0) * STEPS as f32 + 0.5) as usize;
        table.get(index).copied().unwrap_or(u8::MAX)
    }
}
