//! Reduced copies for the eye: sRGB, 8 bits. Nothing is measured on them.

use super::Photo;
use super::pixels::Pixels;
use super::reduce::block_for;
use super::tiles::FINE;
use super::types::{Preview, Sample};
use crate::colour::TransferCurve;
use crate::colour::rgb_space::SRGB;

/// Rows of the photo that a strip of a preview is made of.
const STRIP_PX: u32 = 256;

impl Photo {
    /// A copy for the eye that is there at once: of a large JPEG from its reduced picture, of
    /// others the same as [`Photo::preview`].
    pub fn glimpse(&self, max_px: usize) -> Preview {
        let Pixels::Tiled(tiles) = &self.pixels else {
            return self.preview(max_px);
        };
        let small = tiles.small().0;
        let (width, height) = (small.width as u32, small.height as u32);
        let rgb = Pixels::Rgb8(small.codes.iter().map(|c| (c / FINE) as u8).collect());
        let block = block_for((width, height), max_px);
        let columns = width / block;
        let means = rgb.block_means(width, 0..height / block, block, columns);
        self.eye().picture(columns, &means)
    }

    /// A copy for the eye: at most `max_px` pixels, sRGB, opaque. Codes are averaged here, which
    /// is quick and good enough to look at; nothing is measured on it.
    pub fn preview(&self, max_px: usize) -> Preview {
        if let Pixels::Tiled(tiles) = &self.pixels
            && tiles.small().0.count() >= max_px
        {
            return self.glimpse(max_px);
        }
        let eye = self.eye();
        let mut whole = Preview {
            width: 0,
            height: 0,
            rgba: Vec::new(),
        };
        for strip in 0.. {
            let Some((columns, means)) = self.strip(max_px, strip) else {
                break;
            };
            let part = eye.picture(columns, &means);
            whole.width = part.width;
            whole.height += part.height;
            whole.rgba.extend_from_slice(&part.rgba);
        }
        whole
    }

    /// One of the strips that the preview consists of, from above, so that others need not wait
    /// for all of it; `None` after the last.
    pub fn preview_strip(&self, max_px: usize, strip: u32) -> Option<Preview> {
        let (columns, means) = self.strip(max_px, strip)?;
        Some(self.eye().picture(columns, &means))
    }

    /// Its columns and codes.
    fn strip(&self, max_px: usize, strip: u32) -> Option<(u32, Vec<[u16; 3]>)> {
        let (width, height) = (self.width_px(), self.height_px());
        let block = block_for((width, height), max_px);
        let (columns, rows) = (width / block, height / block);
        let of_strip = (STRIP_PX / block).max(1);
        let from = strip.checked_mul(of_strip)?;
        let part = from..(from + of_strip).min(rows);
        let means = || self.pixels.block_means(width, part.clone(), block, columns);
        (from < rows).then(|| (columns, means()))
    }

    fn eye(&self) -> Eye<'_, impl Fn(f32) -> u8> {
        let from_xyz = SRGB.xyz_d65_from_linear_rgb().inverse();
        let own = self.xyz_d65_from_linear_rgb();
        let matrix = from_xyz.map_or(own, |m| m.times(&own)).0;
        Eye {
            photo: self,
            encode: srgb_encoder(),
            as_it_is: self.pixels.bits() == 8 && self.is_srgb(),
            matrix: matrix.map(|r| r.map(|v| v as f32)),
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
        let super::profile::ToLinear::Tables(tables) = &self.to_linear else {
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
}

/// From a photo's codes to sRGB.
struct Eye<'a, E> {
    encode: E,
    photo: &'a Photo,
    /// The codes are sRGB's own.
    as_it_is: bool,
    matrix: [[f32; 3]; 3],
}

impl<E: Fn(f32) -> u8> Eye<'_, E> {
    /// A picture of so many columns.
    fn picture(&self, columns: u32, codes: &[[u16; 3]]) -> Preview {
        let mut rgba = vec![u8::MAX; 4 * codes.len()];
        let wide = (columns as usize).max(1);
        for (line, codes) in rgba.chunks_mut(4 * wide).zip(codes.chunks(wide)) {
            self.line(codes, line);
        }
        Preview {
            width: columns,
            height: (codes.len() / wide) as u32,
            rgba,
        }
    }

    /// One line of pixels; alpha stays.
    fn line(&self, codes: &[[u16; 3]], rgba: &mut [u8]) {
        let pixels = rgba.as_chunks_mut::<4>().0.iter_mut();
        if self.as_it_is {
            for ([red, green, blue, _], codes) in pixels.zip(codes) {
                [*red, *green, *blue] = codes.map(|c| c as u8);
            }
            return;
        }
        let mut samples = vec![Sample::default(); codes.len()];
        let full = if self.photo.pixels.bits() == 8 {
            255
        } else {
            65_535
        };
        if self
            .photo
            .fill(codes.iter().copied(), full, &mut samples)
            .is_none()
        {
            samples.fill(Sample::default());
        }
        for ([red, green, blue, _], sample) in pixels.zip(&samples) {
            let [r, g, b] = sample.linear_rgb;
            [*red, *green, *blue] = self
                .matrix
                .map(|[mr, mg, mb]| (self.encode)(mr * r + mg * g + mb * b));
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
        // Half up by hand: rounding to even or away from zero is a slow call in WebAssembly.
        let index = (linear.clamp(0.0, 1.0) * STEPS as f32 + 0.5) as usize;
        table.get(index).copied().unwrap_or(u8::MAX)
    }
}
