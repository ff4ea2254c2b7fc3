//! A look through a JPEG's markers before decoding: which process, how many components,
//! whether the file is whole, and its EXIF block and colour profile. Decoders fill a missing
//! end with grey; a reading must not.
//!
//! EXIF and profile are taken here, and not from `image`, because its calls for them bring a
//! second copy of the header parser into the page (8 KB of it, compressed).

use crate::colour::order::insertion_sort;
use crate::error::{Error, Result};

const AGAIN: &str = "Copy it again from the camera or ask the sender for the original file.";
const BASELINE: &str = "Save it as an ordinary 8-bit RGB JPEG and open that.";

/// Parts of a profile are numbered by a byte.
const MAX_ICC_PARTS: usize = 255;

/// What the markers hold beside the picture.
#[derive(Debug, Default, PartialEq, Eq)]
pub struct Metadata {
    /// The EXIF block, from its TIFF header on.
    pub exif: Option<Vec<u8>>,
    /// The ICC profile, put together from its parts.
    pub icc: Option<Vec<u8>>,
    /// The first quantisation table, which is that of the brightness, in zigzag order.
    pub table: Option<[u16; 64]>,
}

/// The first table of a DQT segment (ITU-T T.81, B.2.4.1) when it is number 0.
fn first_table(segment: &[u8]) -> Option<[u16; 64]> {
    let (kind, values) = segment.split_first()?;
    match kind {
        0x00 => Some(values.first_chunk::<64>()?.map(u16::from)),
        0x10 => {
            let mut out = [0; 64];
            let pairs = values.first_chunk::<128>()?.as_chunks::<2>().0;
            for (to, pair) in out.iter_mut().zip(pairs) {
                *to = u16::from_be_bytes(*pair);
            }
            Some(out)
        }
        _ => None,
    }
}

/// Checks a JPEG file and collects its metadata; the error says why it is not read.
pub fn check(bytes: &[u8]) -> Result<Metadata> {
    let (mut exif, mut table) = (None, None);
    let mut icc_parts: Vec<(u8, &[u8])> = Vec::new();
    let damaged = |what: &str| {
        Err(Error::damaged(
            format!("The JPEG file is damaged: {what}."),
            AGAIN,
        ))
    };
    let mut at = 2;
    let mut seen_frame = false;
    let mut progressive = false;
    let mut frame_components = 0;
    let mut seen_scan = false;
    loop {
        let Some((marker, after)) = marker(bytes, at) else {
            return damaged(if seen_scan {
                "it ends before the picture does"
            } else {
                "its header breaks off"
            });
        };
        at = after;
        match marker {
            0xD9 if seen_scan => {
                insertion_sort(&mut icc_parts, |a, b| a.0 < b.0);
                let icc: Vec<u8> = icc_parts
                    .iter()
                    .flat_map(|(_, part)| part.iter().copied())
                    .collect();
                return Ok(Metadata {
                    exif,
                    icc: (!icc.is_empty()).then_some(icc),
                    table,
                });
            }
            0xD9 => return damaged("it holds no picture"),
            0x01 | 0xD0..=0xD8 => continue,
            _ => {}
        }
        let Some((segment, next)) = segment(bytes, at) else {
            return damaged("its header breaks off");
        };
        if marker == 0xE1 && exif.is_none() {
            exif = segment.strip_prefix(b"Exif\0\0").map(<[u8]>::to_vec);
        }
        if marker == 0xDB && table.is_none() {
            table = first_table(segment);
        }
        if marker == 0xE2
            && icc_parts.len() < MAX_ICC_PARTS
            && let Some([number, _, part @ ..]) = segment.strip_prefix(b"ICC_PROFILE\0")
        {
            icc_parts.push((*number, part));
        }
        if matches!(marker, 0xC0..=0xCF) && !matches!(marker, 0xC4 | 0xC8 | 0xCC) {
            frame_components = check_frame(marker, segment)?;
            progressive = marker == 0xC2;
            seen_frame = true;
        }
        if marker == 0xDA && !progressive && segment.first().is_some_and(|n| *n < frame_components)
        {
            // The decoder takes such a file for an ordinary one and gives false colours.
            return Err(Error::unsupported(
                "This JPEG stores its colour channels one after another, which is not read.",
                BASELINE,
            ));
        }
        at = next;
        if marker == 0xDA {
            if !seen_frame {
                return damaged("it holds no picture");
            }
            seen_scan = true;
            at = end_of_scan(bytes, at);
        }
    }
}

/// The marker at a place, which fill bytes may precede, and the place after it.
pub fn marker(bytes: &[u8], mut at: usize) -> Option<(u8, usize)> {
    while bytes.get(at) == Some(&0xFF) && bytes.get(at + 1) == Some(&0xFF) {
        at += 1;
    }
    (*bytes.get(at)? == 0xFF).then_some((*bytes.get(at + 1)?, at + 2))
}

/// What the segment of a marker holds, from the place after the marker on, and the place after it.
/// `None` when it breaks off.
pub fn segment(bytes: &[u8], at: usize) -> Option<(&[u8], usize)> {
    let length = usize::from(u16::from_be_bytes(*bytes.get(at..)?.first_chunk()?));
    Some((bytes.get(at + 2..at + length)?, at + length))
}

/// The next marker after entropy-coded data that is not a restart marker or a stuffed byte.
pub fn end_of_scan(bytes: &[u8], from: usize) -> usize {
    let mut at = from;
    while let Some(offset) = bytes.get(at..).and_then(next_mark) {
        at += offset;
        match bytes.get(at + 1) {
            Some(0x00 | 0xD0..=0xD7) => at += 2,
            Some(0xFF) => at += 1,
            _ => return at,
        }
    }
    bytes.len()
}

/// The place of the first byte of ones, which begins every mark. Eight bytes at a time: all of a
/// photo's file goes through here.
pub fn next_mark(bytes: &[u8]) -> Option<usize> {
    const ONES: u64 = 0x0101_0101_0101_0101;
    let chunks = bytes.as_chunks::<8>().0;
    // A byte of ones is a byte of noughts the other way round; those are found at once.
    let some = |chunk: &[u8; 8]| {
        let word = u64::from_ne_bytes(*chunk);
        (!word).wrapping_sub(ONES) & word & (ONES << 7) != 0
    };
    let first = 8 * chunks.iter().position(some).unwrap_or(chunks.len());
    let rest = bytes.get(first..)?;
    rest.iter().position(|b| *b == 0xFF).map(|at| first + at)
}

/// Refuses what the decoder does not read; gives the number of components.
fn check_frame(marker: u8, segment: &[u8]) -> Result<u8> {
    let (precision, components) = (segment.first().copied(), segment.get(5).copied());
    match marker {
        0xC9 | 0xCA | 0xCB | 0xCD..=0xCF => {
            return Err(Error::unsupported(
                "This JPEG uses arithmetic coding, which is not read.",
                BASELINE,
            ));
        }
        0xC3 | 0xC5..=0xC7 => {
            return Err(Error::unsupported(
                "This JPEG uses a lossless or hierarchical process, which is not read.",
                BASELINE,
            ));
        }
        _ => {}
    }
    if precision != Some(8) {
        return Err(Error::unsupported(
            format!(
                "This JPEG has {} bits per channel; 8 are read.",
                precision.unwrap_or(0)
            ),
            BASELINE,
        ));
    }
    match components {
        Some(n @ (1 | 3)) => Ok(n),
        Some(4) => Err(Error::unsupported(
            "This JPEG is made for print (CMYK), so its colours are inks, not light.",
            "Ask for the RGB original of the photo.",
        )),
        n => Err(Error::unsupported(
            format!("This JPEG has {} colour channels.", n.unwrap_or(0)),
            BASELINE,
        )),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn marks_are_found_where_they_are() {
        for length in 0..40 {
            for at in 0..length {
                let mut bytes = vec![0xFE_u8; length];
                bytes[at] = 0xFF;
                bytes[length - 1] = 0xFF;
                assert_eq!(next_mark(&bytes), Some(at), "{at} of {length}");
            }
            assert_eq!(next_mark(&vec![0x7F; length]), None);
        }
    }
}
