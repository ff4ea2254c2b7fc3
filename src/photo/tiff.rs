//! TIFF through the `tiff` crate, the one that `image` uses: 8 or 16 bits, grey, or RGB with or
//! without alpha, strips or tiles, uncompressed, LZW, deflate or PackBits.
//!
//! It is used directly because `image`'s own switch for TIFF brings a second copy of a JPEG
//! decoder into the page; JPEG inside TIFF is not read.

use super::pixels::{Pixels, has_transparency};
use crate::error::{Error, Result};
use std::io::Cursor;
use tiff::decoder::{Decoder, DecodingResult, Limits};
use tiff::tags::Tag;
use tiff::{ColorType, TiffError};

/// What a TIFF file holds.
pub struct Tiff {
    /// As stored.
    pub pixels: Pixels,
    /// As stored.
    pub width: u32,
    /// As stored.
    pub height: u32,
    /// The embedded profile.
    pub icc: Option<Vec<u8>>,
    /// More pictures follow the first.
    pub several: bool,
    /// An alpha channel that was left out is not opaque everywhere.
    pub transparent: bool,
}

/// Decodes the first picture; `check_size` is asked before anything is allocated for it.
pub fn decode(
    bytes: &[u8],
    max_bytes: usize,
    check_size: impl Fn(u32, u32, u64) -> Result<()>,
) -> Result<Tiff> {
    let mut limits = Limits::default();
    limits.decoding_buffer_size = max_bytes;
    limits.intermediate_buffer_size = max_bytes;
    limits.ifd_value_size = 16 << 20;
    let mut decoder = Decoder::new(Cursor::new(bytes))
        .map_err(|e| explain(&e))?
        .with_limits(limits);
    let (width, height) = decoder.dimensions().map_err(|e| explain(&e))?;
    let color = decoder.colortype().map_err(|e| explain(&e))?;
    let (channels, bits) = match color {
        ColorType::Gray(bits) => (1, bits),
        ColorType::GrayA(bits) => (2, bits),
        ColorType::RGB(bits) => (3, bits),
        ColorType::RGBA(bits) => (4, bits),
        ColorType::CMYK(_) | ColorType::CMYKA(_) => {
            return Err(Error::unsupported(
                "This TIFF is made for print (CMYK), so its colours are inks, not light.",
                "Ask for the RGB original of the photo.",
            ));
        }
        _ => return Err(unsupported("its kind of colours")),
    };
    check_size(
        width,
        height,
        u64::from(width) * u64::from(height) * channels * u64::from(bits).div_ceil(8),
    )?;
    let planar = decoder
        .find_tag_unsigned::<u16>(Tag::PlanarConfiguration)
        .ok()
        .flatten();
    if planar == Some(2) && channels > 1 {
        return Err(unsupported("colour planes stored apart"));
    }
    // One that is there and cannot be read is an empty one: it will not do, and that is said.
    let icc = match decoder.find_tag(Tag::IccProfile) {
        Ok(value) => value.map(|v| v.into_u8_vec().unwrap_or_default()),
        Err(_) => Some(Vec::new()),
    };
    let result = decoder.read_image().map_err(|e| explain(&e))?;
    let count = channels as usize;
    let (pixels, transparent) = match (result, bits) {
        (DecodingResult::U8(v), 8) => {
            let transparent = has_transparency(&v, count, u8::MAX);
            (Pixels::from_u8(v, count), transparent)
        }
        (DecodingResult::U16(v), 16) => {
            let transparent = has_transparency(&v, count, u16::MAX);
            (Pixels::from_u16(v, count), transparent)
        }
        _ => (None, false),
    };
    Ok(Tiff {
        pixels: pixels
            .ok_or_else(|| unsupported(&format!("{bits} bits per channel or floating point")))?,
        width,
        height,
        icc,
        several: decoder.more_images(),
        transparent,
    })
}

fn unsupported(what: &str) -> Error {
    Error::unsupported(
        format!("This kind of TIFF is not read ({what})."),
        "Save it as an ordinary RGB TIFF with 8 or 16 bits per channel, uncompressed or LZW.",
    )
}

fn explain(error: &TiffError) -> Error {
    match error {
        TiffError::UnsupportedError(_) => unsupported("its compression or layout"),
        TiffError::LimitsExceeded => Error::too_large(
            "The TIFF file asks for more memory than a photo needs.",
            "Open a smaller version of it.",
        ),
        _ => Error::damaged(
            "The TIFF file is damaged, or it ends before the picture does.",
            "Copy it again from the camera or ask the sender for the original file.",
        ),
    }
}
