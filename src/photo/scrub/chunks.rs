//! PNG's chunks (W3C PNG, third edition, 5.3) and WebP's (RFC 9649, 2.7): those that make the picture
//! and its colours stay, EXIF is freed, all others go.

use super::super::webp;
use super::{Freed, Removed, exif_block, tags};

/// Chunks of a PNG that stay: the picture, its animation, its colours and its resolution.
const PNG_STAYS: [&[u8; 4]; 19] = [
    b"IHDR", b"PLTE", b"IDAT", b"IEND", b"tRNS", b"cHRM", b"gAMA", b"iCCP", b"sBIT", b"sRGB",
    b"cICP", b"mDCV", b"cLLI", b"bKGD", b"hIST", b"pHYs", b"acTL", b"fcTL", b"fdAT",
];
/// Chunks of a WebP that stay.
const WEBP_STAYS: [&[u8; 4]; 7] = [
    b"VP8 ", b"VP8L", b"VP8X", b"ALPH", b"ANIM", b"ANMF", b"ICCP",
];
/// The flag of `VP8X` that promises XMP.
const XMP_FLAG: u8 = 0x04;

/// Frees a PNG file; `None` when it breaks off.
pub fn scrub_png(bytes: &[u8], removed: &mut Removed) -> Option<Freed> {
    let (head, mut rest) = bytes.split_at_checked(8)?;
    let mut out = Vec::with_capacity(bytes.len());
    out.extend(head);
    loop {
        let length = u32::from_be_bytes(*rest.first_chunk()?) as usize;
        let (chunk, after) = rest.split_at_checked(length.checked_add(12)?)?;
        let kind = chunk.get(4..8)?.first_chunk::<4>()?;
        let content = chunk.get(8..8 + length)?;
        if PNG_STAYS.contains(&kind) {
            out.extend(chunk);
        } else if kind == b"eXIf" && !is_sound(chunk) {
            // Decoders pass over it; with a right checksum they would not.
            removed.insert(tags::UNREADABLE);
        } else if kind == b"eXIf" {
            let block = match exif_block(content, removed) {
                Ok(block) => block,
                Err(entangled) => return Some(Err(entangled)),
            };
            let start = out.len();
            out.extend(chunk.get(..8)?);
            out.extend(block);
            let sum = crc32fast::hash(out.get(start + 4..)?);
            out.extend(sum.to_be_bytes());
        } else {
            removed.insert(match kind {
                b"tEXt" | b"zTXt" => tags::REMARKS,
                b"iTXt" if content.starts_with(b"XML:com.adobe.xmp\0") => tags::XMP,
                b"iTXt" => tags::REMARKS,
                _ => tags::OTHER,
            });
        }
        rest = after;
        if kind == b"IEND" {
            if !rest.is_empty() {
                removed.insert(tags::BEHIND);
            }
            return Some(Ok(out));
        }
    }
}

/// Whether a chunk's checksum is right.
fn is_sound(chunk: &[u8]) -> bool {
    let parts = chunk.get(4..).and_then(|c| c.split_last_chunk::<4>());
    let right = |(content, sum): (&[u8], &[u8; 4])| crc32fast::hash(content).to_be_bytes() == *sum;
    // In a search for crashes the decoder takes any sum for right.
    parts.is_some_and(right) || cfg!(fuzzing)
}

/// Frees a WebP file; `None` when it breaks off.
pub fn scrub_webp(bytes: &[u8], removed: &mut Removed) -> Option<Freed> {
    let whole = webp::riff(bytes)?;
    let mut rest = whole.get(12..)?;
    if bytes.len() > whole.len() {
        removed.insert(tags::BEHIND);
    }
    let mut out = Vec::with_capacity(whole.len());
    out.extend(bytes.get(..12)?);
    while !rest.is_empty() {
        let kind = *rest.first_chunk::<4>()?;
        let (content, chunk, after) = webp::chunk(rest)?;
        if &kind == b"VP8X" {
            let at = out.len() + 8;
            out.extend(chunk);
            *out.get_mut(at)? &= !XMP_FLAG;
        } else if WEBP_STAYS.contains(&&kind) {
            out.extend(chunk);
        } else if &kind == b"EXIF" {
            let block = match exif_block(content, removed) {
                Ok(block) => block,
                Err(entangled) => return Some(Err(entangled)),
            };
            out.extend(chunk.get(..8)?);
            out.extend(block);
            out.extend(chunk.get(8 + content.len()..)?);
        } else {
            removed.insert(if &kind == b"XMP " {
                tags::XMP
            } else {
                tags::OTHER
            });
        }
        rest = after;
    }
    let size = u32::try_from(out.len() - 8).ok()?.to_le_bytes();
    out.get_mut(4..8)?.copy_from_slice(&size);
    Some(Ok(out))
}
