//! What kind of file the bytes are, by their first bytes, before any decoder sees them.

use crate::error::{Error, Result};

/// A kind of file that is read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// JPEG.
    Jpeg,
    /// PNG.
    Png,
    /// TIFF.
    Tiff,
    /// WebP.
    WebP,
}

impl Kind {
    /// Its name as shown.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Jpeg => "JPEG",
            Self::Png => "PNG",
            Self::Tiff => "TIFF",
            Self::WebP => "WebP",
        }
    }
}

const SAVE_AS: &str = "Save it as JPEG, PNG, 16-bit TIFF or WebP and open that.";
const RAW_REMEDY: &str = "Develop it in the camera maker's or any other raw converter and export a 16-bit TIFF or a JPEG.";
const PHONE_REMEDY: &str =
    "Set the camera to its most compatible format, or share the picture as JPEG.";

/// The kind of a file.
pub fn sniff(bytes: &[u8]) -> Result<Kind> {
    let starts = |magic: &[u8]| bytes.starts_with(magic);
    let at = |offset: usize, magic: &[u8]| {
        bytes
            .get(offset..)
            .is_some_and(|rest| rest.starts_with(magic))
    };
    if bytes.is_empty() {
        return Err(Error::damaged(
            "The file is empty (0 bytes).",
            "Copy it again from the camera or ask the sender for it.",
        ));
    }
    if starts(&[0xFF, 0xD8, 0xFF]) {
        return Ok(Kind::Jpeg);
    }
    if starts(b"\x89PNG\r\n\x1a\n") {
        return Ok(Kind::Png);
    }
    if starts(b"RIFF") && at(8, b"WEBP") {
        return Ok(Kind::WebP);
    }
    if at(4, b"ftyp") {
        let brand = bytes.get(8..12).unwrap_or_default();
        return Err(match brand {
            b"heic" | b"heix" | b"hevc" | b"mif1" | b"msf1" | b"heim" | b"heis" => {
                Error::unsupported("This is a HEIC picture, which is not read.", PHONE_REMEDY)
            }
            b"avif" | b"avis" => {
                Error::unsupported("This is an AVIF picture, which is not read.", SAVE_AS)
            }
            b"crx " => Error::unsupported("This is a camera raw file.", RAW_REMEDY),
            _ => Error::unsupported(
                "This is a film or an unknown container, not a photo.",
                SAVE_AS,
            ),
        });
    }
    if starts(b"FUJIFILMCCD-RAW")
        || starts(b"IIRO")
        || starts(b"MMOR")
        || starts(b"IIRS")
        || starts(b"IIU\0")
    {
        return Err(Error::unsupported("This is a camera raw file.", RAW_REMEDY));
    }
    if starts(b"II*\0") || starts(b"MM\0*") {
        return sniff_tiff(bytes);
    }
    if starts(b"II+\0") || starts(b"MM\0+") {
        return Err(Error::unsupported(
            "This is a BigTIFF file, which is not read.",
            "Save it as an ordinary TIFF.",
        ));
    }
    for (magic, name) in [
        (&b"GIF8"[..], "a GIF picture"),
        (b"BM", "a BMP picture"),
        (b"8BPS", "a layered image-editor document"),
        (b"%PDF", "a PDF document"),
        (b"\xFF\x0A", "a JPEG XL picture"),
        (b"\0\0\0\x0CJXL ", "a JPEG XL picture"),
        (b"\0\0\0\x0CjP  ", "a JPEG 2000 picture"),
        (b"<svg", "an SVG drawing"),
        (b"<?xml", "an XML or SVG document"),
        (b"<!DOCTYPE", "a web page"),
        (b"<html", "a web page"),
        (b"PK\x03\x04", "a zip archive"),
    ] {
        if starts(magic) {
            return Err(Error::unsupported(
                format!("This is {name}, not a photo that is read here."),
                SAVE_AS,
            ));
        }
    }
    Err(Error::damaged(
        "The file is not a picture, or its beginning is damaged.",
        "Choose a JPEG, PNG, TIFF or WebP photo.",
    ))
}

/// TIFF, or a camera raw file that uses TIFF's container.
fn sniff_tiff(bytes: &[u8]) -> Result<Kind> {
    let raw = || Err(Error::unsupported("This is a camera raw file.", RAW_REMEDY));
    if bytes.get(8..10) == Some(b"CR") {
        return raw();
    }
    // Tags that only raw files have in their first directory: DNGVersion, CFA pattern,
    // and SubIFDs beside a maker's name with a thumbnail as the main picture.
    let little = bytes.starts_with(b"II");
    let u16_at = |o: usize| {
        let pair: [u8; 2] = bytes.get(o..o.checked_add(2)?)?.try_into().ok()?;
        Some(if little {
            u16::from_le_bytes(pair)
        } else {
            u16::from_be_bytes(pair)
        })
    };
    let u32_at = |o: usize| {
        let quad: [u8; 4] = bytes.get(o..o.checked_add(4)?)?.try_into().ok()?;
        Some(if little {
            u32::from_le_bytes(quad)
        } else {
            u32::from_be_bytes(quad)
        })
    };
    let Some(first) = u32_at(4).map(|o| o as usize) else {
        return Ok(Kind::Tiff);
    };
    let count = u16_at(first).unwrap_or(0);
    let (mut make, mut sub_directories, mut thumbnail) = (false, false, false);
    for i in 0..usize::from(count.min(512)) {
        let Some(entry) = first.checked_add(2 + 12 * i) else {
            break;
        };
        match u16_at(entry) {
            Some(0xC612 | 0x828E | 0x828D) => return raw(),
            Some(0x010F) => make = true,
            Some(0x014A) => sub_directories = true,
            Some(0x00FE) => thumbnail = u32_at(entry.saturating_add(8)) == Some(1),
            Some(0x0103) => {
                // Compressions that only raw files use.
                let value = u16_at(entry.saturating_add(8));
                if matches!(value, Some(34713 | 32767 | 32770 | 65535)) {
                    return raw();
                }
            }
            _ => {}
        }
    }
    if make && sub_directories && thumbnail {
        return raw();
    }
    Ok(Kind::Tiff)
}
