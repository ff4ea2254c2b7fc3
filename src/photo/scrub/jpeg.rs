//! A JPEG's segments (ITU-T T.81, annex B): of the application segments JFIF, EXIF, the colour
//! profile and the colour transform of APP14 stay; remarks and what follows the picture go.

use super::super::jpeg::{end_of_scan, marker};
use super::{Freed, Removed, exif_block, tags};

/// What happens to a segment.
enum Fate {
    Stays,
    IsFreed,
    Goes(&'static str),
}

/// Frees a JPEG file; `None` when it breaks off.
pub fn scrub(bytes: &[u8], removed: &mut Removed) -> Option<Freed> {
    let mut out = Vec::with_capacity(bytes.len());
    out.extend(bytes.get(..2)?);
    let (mut at, mut seen_exif) = (2, false);
    loop {
        let (marker, after) = marker(bytes, at)?;
        at = after - 2;
        if marker == 0xD9 {
            out.extend([0xFF, 0xD9]);
            if bytes.len() > at + 2 {
                removed.insert(tags::BEHIND);
            }
            return Some(Ok(out));
        }
        if matches!(marker, 0x01 | 0xD0..=0xD8) {
            out.extend([0xFF, marker]);
            at += 2;
            continue;
        }
        let length = usize::from(u16::from_be_bytes(*bytes.get(at + 2..)?.first_chunk()?));
        let end = at + 2 + length.max(2);
        let (segment, content) = (bytes.get(at..end)?, bytes.get(at + 4..end)?);
        match fate(marker, content, seen_exif) {
            Fate::Stays => out.extend(segment),
            Fate::IsFreed => {
                seen_exif = true;
                out.extend(bytes.get(at..at + 4)?);
                match exif_block(content, removed) {
                    Ok(block) => out.extend(block),
                    Err(entangled) => return Some(Err(entangled)),
                }
            }
            Fate::Goes(what) => {
                removed.insert(what);
            }
        }
        at = end;
        if marker == 0xDA {
            at = end_of_scan(bytes, end);
            out.extend(bytes.get(end..at)?);
        }
    }
}

fn fate(marker: u8, content: &[u8], seen_exif: bool) -> Fate {
    let starts = |mark: &[u8]| content.starts_with(mark);
    match marker {
        0xE0 if starts(b"JFIF\0") => Fate::Stays,
        0xE1 if starts(b"Exif\0\0") && !seen_exif => Fate::IsFreed,
        0xE1 if starts(b"http://ns.adobe.com/xap/1.0/\0")
            || starts(b"http://ns.adobe.com/xmp/") =>
        {
            Fate::Goes(tags::XMP)
        }
        0xE2 if starts(b"ICC_PROFILE\0") => Fate::Stays,
        0xEE if starts(b"Adobe") => Fate::Stays,
        0xFE => Fate::Goes(tags::REMARKS),
        0xE0..=0xEF => Fate::Goes(tags::OTHER),
        _ => Fate::Stays,
    }
}
