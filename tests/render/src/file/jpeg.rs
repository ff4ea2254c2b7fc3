//! JPEG by the `jpeg-encoder` crate.

use super::Stored;
use jpeg_encoder::{ColorType, Encoder, SamplingFactor};

/// Bytes of a JPEG.
pub fn encode(
    s: &Stored,
    quality: u8,
    chroma_half: bool,
    icc: Option<&[u8]>,
    exif: Option<&[u8]>,
) -> Result<Vec<u8>, String> {
    let (w, h) = (
        u16::try_from(s.w).map_err(|e| e.to_string())?,
        u16::try_from(s.h).map_err(|e| e.to_string())?,
    );
    let rgb: Vec<u8> = s.rgb.iter().map(|v| (*v).min(255) as u8).collect();
    let mut out = Vec::new();
    let mut e = Encoder::new(&mut out, quality);
    e.set_sampling_factor(if chroma_half {
        SamplingFactor::F_2_2
    } else {
        SamplingFactor::F_1_1
    });
    // Optimised tables would make this encoder write one scan per component; cameras write one
    // interleaved scan, and not every decoder takes the other.
    e.set_optimized_huffman_tables(false);
    if let Some(block) = exif {
        e.add_app_segment(1, [b"Exif\0\0".as_slice(), block].concat())
            .map_err(|e| e.to_string())?;
    }
    if let Some(icc) = icc {
        e.add_icc_profile(icc).map_err(|e| e.to_string())?;
    }
    e.encode(&rgb, w, h, ColorType::Rgb)
        .map_err(|e| e.to_string())?;
    Ok(out)
}
