//! Frees a photo's file of what nobody else needs to know: position, serial numbers, names of people,
//! remarks, makers' notes, thumbnails, and what hangs on behind the picture. The compressed pixels,
//! the colour profile and the facts that a reading uses stay as they are, byte for byte.
//!
//! What is not known to be harmless goes: only named tags, segments and chunks stay.

mod chunks;
mod jpeg;
mod tags;
mod tiff;

use super::decode::{MAX_DECODED_BYTES, check_size, damaged};
use super::exif::{self, ExifFindings};
use super::pixels::Pixels;
use super::sniff::{Kind, sniff};
use crate::error::{Error, Result};
use std::collections::BTreeSet;

/// A photo's file, freed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Scrubbed {
    /// The file.
    pub bytes: Vec<u8>,
    /// What was removed, in plain words, each once; empty when there was nothing.
    pub removed: Vec<String>,
    /// How the names of such files end: ".jpg", ".png", ".tif" or ".webp".
    pub ending: &'static str,
}

/// What was removed.
type Removed = BTreeSet<&'static str>;

const SAVE_ANEW: &str = "Open the photo in an editor, save it anew without metadata, and use that file; or leave it out.";

/// Frees a photo's file. That its pixels can be decoded is not said by this: only those of TIFF are,
/// to see that they stayed.
pub fn scrub(bytes: &[u8]) -> Result<Scrubbed> {
    let mut removed = Removed::new();
    let kind = sniff(bytes)?;
    let out = match kind {
        Kind::Jpeg => jpeg::scrub(bytes, &mut removed),
        Kind::Png => chunks::scrub_png(bytes, &mut removed),
        Kind::WebP => chunks::scrub_webp(bytes, &mut removed),
        Kind::Tiff => Some(whole_tiff(bytes, &mut removed)?),
    };
    let bytes = match out {
        Some(Ok(out)) => out,
        Some(Err(Entangled)) => return Err(entangled()),
        None => return Err(damaged(kind)),
    };
    Ok(Scrubbed {
        bytes,
        removed: removed.into_iter().map(str::to_owned).collect(),
        ending: match kind {
            Kind::Jpeg => ".jpg",
            Kind::Png => ".png",
            Kind::Tiff => ".tif",
            Kind::WebP => ".webp",
        },
    })
}

/// What a reading needs cannot be told from what has to go.
struct Entangled;

type Freed = std::result::Result<Vec<u8>, Entangled>;

fn entangled() -> Error {
    Error::unsupported(
        "The photo's metadata is damaged, so that position and serial numbers cannot be removed from it for certain.",
        SAVE_ANEW,
    )
}

/// TIFF decoders read beyond what a file says its pixels are, so that only decoding tells whether all
/// of them stayed.
fn whole_tiff(bytes: &[u8], removed: &mut Removed) -> Result<Freed> {
    let before = exif::read(bytes, true);
    let mut out = bytes.to_vec();
    tiff::scrub(&mut out, true, removed).ok_or_else(entangled)?;
    if out == bytes {
        return Ok(Ok(out));
    }
    let stayed = same(&before, &exif::read(&out, true))
        && pixel_sum(bytes)? == pixel_sum(&out).map_err(|_| entangled())?;
    Ok(if stayed { Ok(out) } else { Err(Entangled) })
}

/// Size and a checksum of the pixels of a TIFF file; one picture is in memory at a time.
fn pixel_sum(bytes: &[u8]) -> Result<(u32, u32, u32)> {
    let decoded = super::tiff::decode(bytes, MAX_DECODED_BYTES as usize, check_size)?;
    let mut sum = crc32fast::Hasher::new();
    let mut wide = |codes: &[u16]| {
        for part in codes.chunks(4096) {
            let part: Vec<u8> = part.iter().flat_map(|c| c.to_le_bytes()).collect();
            sum.update(&part);
        }
    };
    match &decoded.pixels {
        Pixels::Rgb16(codes) | Pixels::Grey16(codes) => wide(codes),
        Pixels::Rgb8(codes) | Pixels::Grey8(codes) => sum.update(codes),
        // Only a JPEG is.
        Pixels::Tiled(_) => {}
    }
    Ok((decoded.width, decoded.height, sum.finalize()))
}

/// An EXIF block, freed, of the same length. One that cannot be walked through is blanked, unless
/// facts would be lost by it.
fn exif_block(block: &[u8], removed: &mut Removed) -> Freed {
    let head = if block.starts_with(b"Exif\0\0") { 6 } else { 0 };
    let before = exif::read(block, false);
    let mut out = block.to_vec();
    let inner = out.get_mut(head..).unwrap_or_default();
    let walked = inner.len() <= exif::MAX_BLOCK && tiff::scrub(inner, false, removed).is_some();
    if !walked && inner.iter().any(|b| *b != 0) {
        inner.fill(0);
        removed.insert(tags::UNREADABLE);
    }
    if same(&before, &exif::read(&out, false)) {
        Ok(out)
    } else {
        Err(Entangled)
    }
}

/// The same but for damage, which may have been in what went.
fn same(before: &ExifFindings, after: &ExifFindings) -> bool {
    before.facts == after.facts
        && (before.says_srgb, before.says_adobe_rgb) == (after.says_srgb, after.says_adobe_rgb)
        && before.treatments == after.treatments
        && before.hints == after.hints
}
