//! Encoding: JPEG, PNG, TIFF with ICC profile and EXIF, stored in the asked orientation.

mod exif;
mod icc;
mod jpeg;
mod png_file;
mod tiff_file;

use crate::develop::Picture;
use crate::spec::{Format, SceneSpec};

pub use exif::block as exif_block;
pub use icc::profile as icc_profile;

/// Pixels ready to be stored.
pub struct Stored {
    /// Width as stored.
    pub w: u32,
    /// Height as stored.
    pub h: u32,
    /// RGB interleaved, 16-bit scale 0–65535 when `bits` is 16, else 0–255.
    pub rgb: Vec<u16>,
}

/// The file's bytes.
///
/// # Errors
/// When an encoder refuses (its own words).
pub fn encode(spec: &SceneSpec, picture: &Picture) -> Result<Vec<u8>, String> {
    let stored = store(spec, picture);
    let o = &spec.output;
    let icc = o.profile.then(|| icc_profile(o.space));
    let exif = o.exif.then(|| exif_block(spec, stored.w, stored.h));
    match o.format {
        Format::Jpeg => jpeg::encode(
            &stored,
            o.quality,
            o.chroma_half,
            icc.as_deref(),
            exif.as_deref(),
        ),
        Format::Png => png_file::encode(&stored, o.bits, icc.as_deref(), exif.as_deref()),
        Format::Tiff => tiff_file::encode(&stored, spec, icc.as_deref()),
    }
}

/// A plain JPEG without a word of anything, colour at half resolution.
///
/// # Errors
/// When the encoder refuses (its own words).
pub fn jpeg_bytes(stored: &Stored, quality: u8) -> Result<Vec<u8>, String> {
    jpeg::encode(stored, quality, true, None, None)
}

/// Rounds to the file's depth and turns the upright picture into the stored one.
fn store(spec: &SceneSpec, p: &Picture) -> Stored {
    let top = if spec.output.bits == 16 && spec.output.format != Format::Jpeg {
        65535.0_f32
    } else {
        255.0
    };
    let (w, h) = (p.w, p.h);
    let turned = spec.output.orientation >= 5;
    let (sw, sh) = if turned { (h, w) } else { (w, h) };
    let mut rgb = vec![0u16; w * h * 3];
    for sy in 0..sh {
        for sx in 0..sw {
            // EXIF orientation: which upright pixel lies at a stored one.
            let (x, y) = match spec.output.orientation {
                2 => (w - 1 - sx, sy),
                3 => (w - 1 - sx, h - 1 - sy),
                4 => (sx, h - 1 - sy),
                5 => (sy, sx),
                6 => (w - 1 - sy, sx),
                7 => (w - 1 - sy, h - 1 - sx),
                8 => (sy, h - 1 - sx),
                _ => (sx, sy),
            };
            let px = p.rgb[y * w + x];
            for c in 0..3 {
                rgb[(sy * sw + sx) * 3 + c] = (px[c].clamp(0.0, 1.0) * top + 0.5) as u16;
            }
        }
    }
    Stored {
        w: sw as u32,
        h: sh as u32,
        rgb,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_orientation_is_undone_by_a_reader() {
        // The reader's rule, written the other way round (EXIF 2.32, tag 0x0112): where the
        // stored row 0 and column 0 belong in the upright picture.
        let (w, h) = (3usize, 2usize);
        let p = Picture {
            w,
            h,
            rgb: (0..6).map(|i| [i as f32 / 255.0, 0.0, 0.0]).collect(),
        };
        for orientation in 1..=8u8 {
            let mut spec = crate::spec::demo();
            spec.output.orientation = orientation;
            let s = store(&spec, &p);
            let at = |sx: usize, sy: usize| s.rgb[(sy * s.w as usize + sx) * 3] as usize;
            let (lw, lh) = (s.w as usize - 1, s.h as usize - 1);
            // Upright top left = value 0, top right = 2, bottom left = 3.
            let (tl, tr) = match orientation {
                1 => ((0, 0), (lw, 0)),
                2 => ((lw, 0), (0, 0)),
                3 => ((lw, lh), (0, lh)),
                4 => ((0, lh), (lw, lh)),
                5 => ((0, 0), (0, lh)),
                6 => ((0, lh), (0, 0)),
                7 => ((lw, lh), (lw, 0)),
                _ => ((lw, 0), (lw, lh)),
            };
            assert_eq!(
                (at(tl.0, tl.1), at(tr.0, tr.1)),
                (0, 2),
                "orientation {orientation}"
            );
        }
    }
}
