//! Capture facts from EXIF. Only the tags named here are ever looked at: positions, serial
//! numbers and names of people are not read into anything.

use super::types::Facts;
use exif::{Exif, In, Reader, Tag, Value};

/// Longest text kept.
const MAX_TEXT: usize = 100;
/// Largest EXIF block looked at.
pub const MAX_BLOCK: usize = 4 << 20;
/// Entries looked at, over all directories.
pub const MAX_ENTRIES: usize = 4096;
/// Bytes of a text that are handed to the parser.
const MAX_RAW_TEXT: u32 = 1000;

/// Minutes between taking and writing that a camera never needs.
const LATER_MIN: u64 = 10;

/// What EXIF says beside the facts.
#[derive(Debug, Default, PartialEq)]
pub struct ExifFindings {
    /// The facts.
    pub facts: Facts,
    /// Colour space tag: sRGB.
    pub says_srgb: bool,
    /// Colour space tags: Adobe RGB (1998), by value 2 or by interoperability R03.
    pub says_adobe_rgb: bool,
    /// What the camera says it did to tones and colours.
    pub treatments: Vec<&'static str>,
    /// What hints at a change without proving one.
    pub hints: Vec<&'static str>,
    /// Something could not be read.
    pub damaged: bool,
}

/// Reads an EXIF block (TIFF structure, or a whole TIFF file).
pub fn read(block: &[u8], whole_file: bool) -> ExifFindings {
    let block = block.strip_prefix(b"Exif\0\0").unwrap_or(block);
    let mut out = ExifFindings::default();
    if !whole_file && block.len() > MAX_BLOCK {
        out.damaged = true;
        return out;
    }
    let mut block = block.to_vec();
    if tame(&mut block).is_none() {
        out.damaged = true;
        return out;
    }
    let mut reader = Reader::new();
    reader.continue_on_error(true);
    let exif = match reader.read_raw(block) {
        Ok(exif) => exif,
        Err(exif::Error::PartialResult(partial)) => {
            let (exif, _) = partial.into_inner();
            out.damaged = true;
            exif
        }
        Err(_) => {
            out.damaged = true;
            return out;
        }
    };
    fill(&exif, &mut out);
    out
}

/// Takes out of a block what the parser would unfold without end: directories inside each other
/// by the thousand, and texts of megabytes, which it splits at every zero. Directories after the
/// first (thumbnails, further pages) are cut off; nothing of them is read here. `None` when there
/// are more entries than any camera writes.
fn tame(block: &mut [u8]) -> Option<()> {
    let little = block.starts_with(b"II");
    let u16_at = |b: &[u8], o: usize| {
        let pair = *b.get(o..)?.first_chunk::<2>()?;
        Some(if little {
            u16::from_le_bytes(pair)
        } else {
            u16::from_be_bytes(pair)
        })
    };
    let u32_at = |b: &[u8], o: usize| {
        let quad = *b.get(o..)?.first_chunk::<4>()?;
        Some(if little {
            u32::from_le_bytes(quad)
        } else {
            u32::from_be_bytes(quad)
        })
    };
    let mut left = MAX_ENTRIES;
    let main = u32_at(block, 4)?;
    let (mut directories, mut seen) = (vec![main], Vec::new());
    while let Some(at) = directories.pop() {
        if seen.contains(&at) {
            continue;
        }
        seen.push(at);
        let first = (at as usize).checked_add(2)?;
        // What lies outside is the parser's to find.
        let Some(count) = u16_at(block, at as usize).map(usize::from) else {
            continue;
        };
        left = left.checked_sub(count + 1)?;
        for entry in (0..count).map(|i| first.saturating_add(12 * i)) {
            let (Some(tag), Some(kind), Some(number), Some(value)) = (
                u16_at(block, entry),
                u16_at(block, entry.saturating_add(2)),
                u32_at(block, entry.saturating_add(4)),
                u32_at(block, entry.saturating_add(8)),
            ) else {
                break;
            };
            let is_pointer = matches!(tag, 0x8769 | 0x8825 | 0xA005);
            if is_pointer && (kind, number) == (4, 1) {
                directories.push(value);
            } else if is_pointer {
                block.get_mut(entry..)?.first_chunk_mut::<2>()?.fill(0);
            } else if kind == 2
                && number > MAX_RAW_TEXT
                && u64::from(value) + u64::from(number) <= block.len() as u64
            {
                *block.get_mut(entry + 4..)?.first_chunk_mut::<4>()? = if little {
                    MAX_RAW_TEXT.to_le_bytes()
                } else {
                    MAX_RAW_TEXT.to_be_bytes()
                };
            }
        }
        let next = first.saturating_add(12 * count);
        // Others have none, and some writers leave even the zeros away.
        if at == main
            && let Some(next) = block.get_mut(next..).and_then(<[u8]>::first_chunk_mut::<4>)
        {
            next.fill(0);
        }
    }
    Some(())
}

fn fill(exif: &Exif, out: &mut ExifFindings) {
    let uint = |tag| {
        exif.get_field(tag, In::PRIMARY)
            .and_then(|f| f.value.get_uint(0))
    };
    let positive = |v: f64| (v.is_finite() && v > 0.0).then_some(v);
    let ratio = |tag| match exif.get_field(tag, In::PRIMARY).map(|f| &f.value) {
        Some(Value::Rational(v)) => v.first().and_then(|r| positive(r.to_f64())),
        _ => None,
    };
    let text = |tag| match exif.get_field(tag, In::PRIMARY).map(|f| &f.value) {
        Some(Value::Ascii(v)) => v
            .first()
            .and_then(|bytes| clean(&String::from_utf8_lossy(bytes))),
        _ => None,
    };
    let facts = &mut out.facts;
    facts.camera = match (text(Tag::Make), text(Tag::Model)) {
        (Some(make), Some(model)) if model.starts_with(&make) => Some(model),
        (Some(make), Some(model)) => clean(&format!("{make} {model}")),
        (make, model) => make.or(model),
    };
    facts.exposure_s = ratio(Tag::ExposureTime).filter(|v| *v < 1e5);
    facts.f_number = ratio(Tag::FNumber).filter(|v| *v < 1e4);
    facts.iso = uint(Tag::PhotographicSensitivity).filter(|v| *v > 0);
    facts.flash_fired = uint(Tag::Flash).map(|v| v & 1 == 1);
    facts.white_balance_auto = match uint(Tag::WhiteBalance) {
        Some(0) => Some(true),
        Some(1) => Some(false),
        _ => None,
    };
    facts.digital_zoom = ratio(Tag::DigitalZoomRatio).filter(|v| *v > 1.0 && *v < 1e3);
    let dated = |tag| text(tag).and_then(|t| date(&t));
    let [original, digitized, changed] =
        [Tag::DateTimeOriginal, Tag::DateTimeDigitized, Tag::DateTime].map(dated);
    facts.taken = original.or(digitized).or(changed).map(shown);
    facts.software = text(Tag::Software);
    facts.orientation = uint(Tag::Orientation)
        .and_then(|v| u8::try_from(v).ok())
        .filter(|v| (1..=8).contains(v))
        .unwrap_or(1);
    // EXIF 2.32: 0 is the ordinary one of each; phones give CustomRendered values of their own
    // for pictures put together from several.
    for (tag, what) in [
        (
            Tag::CustomRendered,
            "a special treatment (HDR, portrait, filter or the like)",
        ),
        (
            Tag::SceneCaptureType,
            "a scene mode (portrait, night, landscape)",
        ),
        (Tag::Contrast, "changed contrast"),
        (Tag::Saturation, "changed saturation"),
    ] {
        if uint(tag).is_some_and(|v| v != 0) {
            out.treatments.push(what);
        }
    }
    if uint(Tag::Sharpness).is_some_and(|v| v != 0) {
        out.hints.push("the camera sharpened or softened it");
    }
    if original
        .zip(changed)
        .is_some_and(|(a, b)| minutes(b) > minutes(a) + LATER_MIN)
    {
        out.hints.push("it was written again after it was taken");
    }
    let interoperability = text(Tag::InteroperabilityIndex);
    match uint(Tag::ColorSpace) {
        Some(1) => out.says_srgb = true,
        Some(2) => out.says_adobe_rgb = true,
        _ if interoperability.as_deref() == Some("R03") => out.says_adobe_rgb = true,
        _ => {}
    }
}

/// Year, month, day, hour, minute, second.
type Date = [u32; 6];

/// As shown: "2026-05-17 10:32:05".
fn shown([year, month, day, hour, minute, second]: Date) -> String {
    format!("{year:04}-{month:02}-{day:02} {hour:02}:{minute:02}:{second:02}")
}

/// Minutes since some day, months taken as 31 days: right within one month.
fn minutes(date: Date) -> u64 {
    let [year, month, day, hour, minute, _] = date.map(u64::from);
    (((year * 12 + month) * 31 + day) * 24 + hour) * 60 + minute
}

/// "2026:05:17 10:32:05"; `None` for anything that is no date.
fn date(text: &str) -> Option<Date> {
    let (day, time) = text.split_once(' ')?;
    let numbers = |t: &str, sizes: [usize; 3]| {
        let mut parts = t.split(':');
        let mut out = [0_u32; 3];
        for (n, size) in out.iter_mut().zip(sizes) {
            let digits = parts.next().filter(|p| p.len() == size)?;
            *n = digits
                .bytes()
                .all(|b| b.is_ascii_digit())
                .then(|| digits.parse().ok())??;
        }
        parts.next().is_none().then_some(out)
    };
    let ([year, month, day], [hour, minute, second]) =
        (numbers(day, [4, 2, 2])?, numbers(time, [2, 2, 2])?);
    let real = year > 0
        && (1..=12).contains(&month)
        && (1..=31).contains(&day)
        && hour < 24
        && minute < 60
        && second <= 60;
    real.then_some([year, month, day, hour, minute, second])
}

/// A text fit to be shown: no control or direction marks, trimmed, not too long.
pub fn clean(text: &str) -> Option<String> {
    let hidden = |c: char| {
        c.is_control()
            || matches!(c, '\u{AD}' | '\u{61C}' | '\u{200B}'..='\u{200F}' | '\u{2028}'..='\u{202E}' | '\u{2060}'..='\u{206F}' | '\u{FEFF}' | '\u{FFFD}')
    };
    let shown: String = text
        .chars()
        .filter(|c| !hidden(*c))
        .take(4 * MAX_TEXT)
        .collect();
    let shown: String = shown.trim().chars().take(MAX_TEXT).collect();
    (!shown.is_empty()).then_some(shown)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_real_dates() {
        assert_eq!(
            date("2026:05:17 10:32:05").map(shown).as_deref(),
            Some("2026-05-17 10:32:05")
        );
        for bad in [
            "",
            "2026:05:17",
            "0000:00:00 00:00:00",
            "2026:13:01 10:00:00",
            "2026:01:32 10:00:00",
            "2026:01:01 24:00:00",
            "2026:01:01 10:00:00:00",
            "2026:01:+1 10:00:00",
            "    :  :     :  :  ",
        ] {
            assert_eq!(date(bad), None, "{bad:?}");
        }
    }
}
