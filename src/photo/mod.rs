//! A photo: bytes → upright pixels at their own bit depth, a way to linear light, capture facts.
//!
//! Orientation and colour profile are applied here, once. Knows nothing of teeth.

mod curve;
mod decode;
mod exif;
mod eye;
mod jpeg;
mod lut;
mod pixels;
mod png;
mod processed;
mod profile;
mod recompressed;
mod reduce;
#[cfg(feature = "case")]
pub mod scrub;
pub(crate) mod sniff;
mod tiff;
mod tiles;
pub mod types;
mod webp;

pub use eye::srgb_encoder;
pub use reduce::Reduced;
pub use types::{Facts, PhotoInfo, Preview, Sample, SpaceInfo, SpaceSource};

use crate::colour::Matrix3;
use crate::error::{LightCheck, Result};
use pixels::Pixels;
use profile::ToLinear;

/// A decoded photo. Colours are in its own linear RGB; [`Photo::xyz_d65_from_linear_rgb`] says
/// what that means.
pub struct Photo {
    info: PhotoInfo,
    pixels: Pixels,
    to_linear: ToLinear,
    xyz_d65_from_linear_rgb: Matrix3,
    checks: Vec<LightCheck>,
}

impl Photo {
    /// Decodes a JPEG, PNG, TIFF or WebP file.
    ///
    /// Errors: damaged, unsupported or too large files, each saying what to do.
    pub fn decode(bytes: &[u8]) -> Result<Self> {
        decode::decode(bytes)
    }

    /// Size, colour space and capture facts.
    pub const fn info(&self) -> &PhotoInfo {
        &self.info
    }

    /// Width upright.
    pub const fn width_px(&self) -> u32 {
        self.info.width
    }

    /// Height upright.
    pub const fn height_px(&self) -> u32 {
        self.info.height
    }

    /// Partial problems of the file.
    pub fn checks(&self) -> &[LightCheck] {
        &self.checks
    }

    /// The matrix from this photo's linear RGB to XYZ under D65.
    pub const fn xyz_d65_from_linear_rgb(&self) -> Matrix3 {
        self.xyz_d65_from_linear_rgb
    }

    /// Fills `out` with the samples of row `y` from `x0` on. `None` when any of them lies
    /// outside.
    pub fn read_row(&self, x0: u32, y: u32, out: &mut [Sample]) -> Option<()> {
        let (width, count) = (self.info.width as usize, out.len());
        let end = (x0 as usize).checked_add(count)?;
        if end > width || y >= self.info.height {
            return None;
        }
        let start = (y as usize).checked_mul(width)?.checked_add(x0 as usize)?;
        match &self.pixels {
            Pixels::Rgb8(p) => {
                let codes = p.get(3 * start..3 * (start + count))?;
                self.fill(
                    codes.as_chunks::<3>().0.iter().map(|c| c.map(u16::from)),
                    255,
                    out,
                )
            }
            Pixels::Rgb16(p) => {
                let codes = p.get(3 * start..3 * (start + count))?;
                self.fill(codes.as_chunks::<3>().0.iter().copied(), 65_535, out)
            }
            Pixels::Grey8(p) => {
                let codes = p.get(start..start + count)?;
                self.fill(codes.iter().map(|c| [u16::from(*c); 3]), 255, out)
            }
            Pixels::Grey16(p) => {
                let codes = p.get(start..start + count)?;
                self.fill(codes.iter().map(|c| [*c; 3]), 65_535, out)
            }
            Pixels::Tiled(tiles) => {
                let mut rest = out;
                tiles.visit(x0 as usize, y as usize, count, |codes| {
                    let codes = codes.as_chunks::<3>().0;
                    let (part, more) =
                        std::mem::take(&mut rest).split_at_mut_checked(codes.len())?;
                    rest = more;
                    self.fill(codes.iter().map(|c| c.map(u16::from)), 255, part)
                })
            }
        }
    }

    /// Says which box of pixels will be read next, from and to (not included). A large JPEG makes
    /// them in one go then, which is cheaper than tile by tile; nothing else changes.
    pub fn announce(&self, x: std::ops::Range<u32>, y: std::ops::Range<u32>) {
        if let Pixels::Tiled(tiles) = &self.pixels {
            tiles.announce(
                x.start as usize..x.end as usize,
                y.start as usize..y.end as usize,
            );
        }
    }

    /// Codes at the photo's own depth, of which `full` is the largest, to samples.
    fn fill(
        &self,
        codes: impl Iterator<Item = [u16; 3]>,
        full: u16,
        out: &mut [Sample],
    ) -> Option<()> {
        let scale = 1.0 / f32::from(full);
        match &self.to_linear {
            ToLinear::Tables([red, green, blue]) => {
                for (sample, [r, g, b]) in out.iter_mut().zip(codes) {
                    let linear = |table: &[f32], code: u16| table.get(usize::from(code)).copied();
                    sample.linear_rgb = [linear(red, r)?, linear(green, g)?, linear(blue, b)?];
                    sample.peak = f32::from(r.max(g).max(b)) * scale;
                }
            }
            ToLinear::Lut {
                lut,
                linear_rgb_from_pcs,
            } => {
                for (sample, [r, g, b]) in out.iter_mut().zip(codes) {
                    sample.peak = f32::from(r.max(g).max(b)) * scale;
                    let encoded = [r, g, b].map(|c| f64::from(c) / f64::from(full));
                    let linear = linear_rgb_from_pcs.apply(lut.xyz_pcs(encoded));
                    sample.linear_rgb = linear.map(|v| v as f32);
                }
            }
        }
        Some(())
    }

    /// The same from fine codes of 8 bits ([`tiles::FINE`] steps each): between two codes, light
    /// is taken to be straight.
    fn fill_fine(&self, codes: &[[u16; 3]], out: &mut [Sample]) -> Option<()> {
        let full = 255 * tiles::FINE;
        let ToLinear::Tables(tables) = &self.to_linear else {
            return self.fill(codes.iter().copied(), full, out);
        };
        let linear = |table: &[f32], code: u16| {
            let at = usize::from(code / tiles::FINE);
            let share = f32::from(code % tiles::FINE) / f32::from(tiles::FINE);
            let low = table.get(at).copied()?;
            let high = table.get(at + 1).copied().unwrap_or(low);
            Some(low + share * (high - low))
        };
        let [red, green, blue] = tables;
        for (sample, [r, g, b]) in out.iter_mut().zip(codes) {
            sample.linear_rgb = [linear(red, *r)?, linear(green, *g)?, linear(blue, *b)?];
            sample.peak = f32::from(*r.max(g).max(b)) / f32::from(full);
        }
        Some(())
    }

    /// One sample; `None` outside.
    pub fn sample(&self, x: u32, y: u32) -> Option<Sample> {
        let mut one = [Sample::default()];
        self.read_row(x, y, &mut one)?;
        let [sample] = one;
        Some(sample)
    }

    /// How far apart two neighbouring codes are in linear light, near a linear level.
    pub fn code_step_linear(&self, linear: f64) -> f64 {
        let codes = if self.pixels.bits() == 8 {
            255.0
        } else {
            65_535.0
        };
        match &self.to_linear {
            ToLinear::Tables([_, green, _]) => {
                // Above the last code the last step stands, below the first the first.
                let above = green
                    .partition_point(|v| f64::from(*v) <= linear)
                    .clamp(1, green.len().saturating_sub(1).max(1));
                let at = |i: usize| green.get(i).copied().map(f64::from);
                at(above)
                    .zip(at(above - 1))
                    .map_or(1.0 / codes, |(a, b)| (a - b).abs())
            }
            // Near a power of 2.2; the exact curve of a LUT profile has no closed form.
            ToLinear::Lut { .. } => 2.2 * libm::pow(linear.clamp(1e-6, 1.0), 1.2 / 2.2) / codes,
        }
    }
}
