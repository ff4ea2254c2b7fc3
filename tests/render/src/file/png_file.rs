//! PNG by the `png` crate, 8 or 16 bit, with iCCP and eXIf.

use super::Stored;
use std::borrow::Cow;

/// Bytes of a PNG.
pub fn encode(
    s: &Stored,
    bits: u8,
    icc: Option<&[u8]>,
    exif: Option<&[u8]>,
) -> Result<Vec<u8>, String> {
    let mut info = png::Info::with_size(s.w, s.h);
    info.color_type = png::ColorType::Rgb;
    info.bit_depth = if bits == 16 {
        png::BitDepth::Sixteen
    } else {
        png::BitDepth::Eight
    };
    info.icc_profile = icc.map(|b| Cow::Owned(b.to_vec()));
    info.exif_metadata = exif.map(|b| Cow::Owned(b.to_vec()));
    let data: Vec<u8> = if bits == 16 {
        s.rgb.iter().flat_map(|v| v.to_be_bytes()).collect()
    } else {
        s.rgb.iter().map(|v| (*v).min(255) as u8).collect()
    };
    let mut out = Vec::new();
    let encoder = png::Encoder::with_info(&mut out, info).map_err(|e| e.to_string())?;
    let mut writer = encoder.write_header().map_err(|e| e.to_string())?;
    writer.write_image_data(&data).map_err(|e| e.to_string())?;
    writer.finish().map_err(|e| e.to_string())?;
    Ok(out)
}
