//! Reading the container. All sizes are looked at before anything is unpacked, and unpacking stops
//! at the size that was said.

use super::{
    CENTRAL, DEFLATED, END, LOCAL, MAX_BYTES, MAX_ENTRIES, MAX_RATIO, PHOTOS, Part, SMALL_BYTES,
    STORED, is_known, most_bytes,
};
use crate::error::{Error, Result};
use miniz_oxide::inflate::decompress_to_vec_with_limit;
use std::ops::Range;

const AGAIN: &str = "Copy it again, or ask the sender to save and send the case once more.";
const MADE_HERE: &str =
    "Open only case files that this program wrote; ask the sender for the case as it was saved.";

/// An entry of the directory.
struct Entry {
    name: String,
    method: u16,
    crc: u32,
    packed: u64,
    unpacked: u64,
    offset: usize,
}

/// All parts of a container, in their order, unpacked and checked.
pub fn read(bytes: &[u8]) -> Result<Vec<Part>> {
    if bytes.len() as u64 > MAX_BYTES {
        return Err(too_large(format!(
            "The case file has {} bytes; at most {MAX_BYTES} are read.",
            bytes.len()
        )));
    }
    if !bytes.starts_with(LOCAL) {
        return Err(if bytes.is_empty() {
            Error::damaged("The file is empty (0 bytes).", AGAIN)
        } else {
            Error::unsupported(
                "This is not a case file, or its beginning is damaged.",
                "Choose a .tabside file; photos are opened as photos.",
            )
        });
    }
    let (entries, directory) = directory(bytes)?;
    let ranges = ranges(bytes, &entries, directory)?;
    let mut out = Vec::with_capacity(entries.len());
    for (entry, range) in entries.into_iter().zip(ranges) {
        let packed = bytes.get(range).ok_or_else(broken)?;
        let bytes = unpack(&entry, packed)?;
        if !entry.name.ends_with('/') {
            out.push(Part {
                name: entry.name,
                bytes,
            });
        }
    }
    Ok(out)
}

fn broken() -> Error {
    Error::damaged(
        "The case file is damaged, or it was cut off before its end.",
        AGAIN,
    )
}

fn too_large(what: String) -> Error {
    Error::too_large(what, MADE_HERE)
}

fn damaged_part(name: &str) -> Error {
    Error::damaged(
        format!("The case file is damaged: {name} does not unpack to what was packed."),
        AGAIN,
    )
}

fn u16_at(bytes: &[u8], at: usize) -> Option<u16> {
    Some(u16::from_le_bytes(*bytes.get(at..)?.first_chunk()?))
}

fn u32_at(bytes: &[u8], at: usize) -> Option<u32> {
    Some(u32::from_le_bytes(*bytes.get(at..)?.first_chunk()?))
}

/// Where the end record stands: at the very end, or before a remark that reaches to it.
fn end_record(bytes: &[u8]) -> Option<usize> {
    const LENGTH: usize = 22;
    let last = bytes.len().checked_sub(LENGTH)?;
    (last.saturating_sub(usize::from(u16::MAX))..=last)
        .rev()
        .find(|at| {
            bytes.get(*at..).is_some_and(|rest| rest.starts_with(END))
                && u16_at(bytes, at + 20)
                    .is_some_and(|remark| at + LENGTH + usize::from(remark) == bytes.len())
        })
}

/// The entries, and where the directory begins.
fn directory(bytes: &[u8]) -> Result<(Vec<Entry>, usize)> {
    let end = end_record(bytes).ok_or_else(broken)?;
    let word = |at: usize| u16_at(bytes, end + at).ok_or_else(broken);
    let (disk, first_disk, here, count) = (word(4)?, word(6)?, word(8)?, word(10)?);
    if disk != 0 || first_disk != 0 || here != count {
        return Err(broken());
    }
    let count = usize::from(count);
    if count > MAX_ENTRIES {
        return Err(too_large(format!(
            "The case file says that it has {count} parts or more; at most {MAX_ENTRIES} are read."
        )));
    }
    let size = u32_at(bytes, end + 12).ok_or_else(broken)? as usize;
    let start = u32_at(bytes, end + 16).ok_or_else(broken)? as usize;
    if start.checked_add(size) != Some(end) {
        return Err(broken());
    }
    let (mut at, mut total) = (start, 0_u64);
    let mut entries: Vec<Entry> = Vec::with_capacity(count);
    for _ in 0..count {
        let (entry, next) = entry(bytes, at, end)?;
        total = total.saturating_add(entry.unpacked);
        if total > MAX_BYTES {
            return Err(too_large(format!(
                "The parts of the case file unpack to more than {MAX_BYTES} bytes."
            )));
        }
        // Also names that a file system takes for the same.
        if entries
            .iter()
            .any(|e| e.name.eq_ignore_ascii_case(&entry.name))
        {
            return Err(Error::damaged(
                format!("The case file holds {} twice.", entry.name),
                MADE_HERE,
            ));
        }
        entries.push(entry);
        at = next;
    }
    if at == end {
        Ok((entries, start))
    } else {
        Err(broken())
    }
}

/// One entry of the directory, and where the next one stands.
fn entry(bytes: &[u8], at: usize, end: usize) -> Result<(Entry, usize)> {
    let head = bytes
        .get(at..end)
        .filter(|h| h.starts_with(CENTRAL))
        .ok_or_else(broken)?;
    let word = |at| u16_at(head, at).ok_or_else(broken);
    let long = |at| u32_at(head, at).ok_or_else(broken);
    let (flags, method) = (word(8)?, word(10)?);
    let (name_length, extra, remark) = (word(28)?, word(30)?, word(32)?);
    let name_end = 46 + usize::from(name_length);
    let name = head.get(46..name_end).ok_or_else(broken)?;
    let name = match std::str::from_utf8(name) {
        Ok(name) if is_known(name) || name == PHOTOS => name.to_owned(),
        _ => return Err(strange(name)),
    };
    // Encrypted, patched, strongly encrypted, masked.
    if flags & 0x2061 != 0 || !matches!(method, STORED | DEFLATED) {
        return Err(Error::unsupported(
            format!("{name} in the case file is packed or encrypted in a way that is not read."),
            MADE_HERE,
        ));
    }
    let entry = Entry {
        method,
        crc: long(16)?,
        packed: u64::from(long(20)?),
        unpacked: u64::from(long(24)?),
        offset: long(42)? as usize,
        name,
    };
    check_size(&entry)?;
    let next = at + name_end + usize::from(extra) + usize::from(remark);
    if next > end {
        Err(broken())
    } else {
        Ok((entry, next))
    }
}

fn strange(name: &[u8]) -> Error {
    let shown: String = String::from_utf8_lossy(name)
        .chars()
        .take(60)
        .flat_map(char::escape_default)
        .collect();
    Error::unsupported(
        format!("The case file holds “{shown}”, which is no part of a case."),
        MADE_HERE,
    )
}

fn check_size(entry: &Entry) -> Result<()> {
    let most = if entry.name == PHOTOS {
        0
    } else {
        most_bytes(&entry.name)
    };
    if entry.unpacked > most {
        return Err(too_large(format!(
            "{} in the case file unpacks to {} bytes; at most {most} are read.",
            entry.name, entry.unpacked
        )));
    }
    if entry.unpacked > SMALL_BYTES && entry.unpacked / MAX_RATIO > entry.packed {
        return Err(too_large(format!(
            "{} in the case file unpacks to more than {MAX_RATIO} times its size, as no part of a case does.",
            entry.name
        )));
    }
    if entry.method == STORED && entry.packed != entry.unpacked {
        return Err(broken());
    }
    Ok(())
}

/// Where the packed bytes of each entry lie: before the directory, none over another.
fn ranges(bytes: &[u8], entries: &[Entry], directory: usize) -> Result<Vec<Range<usize>>> {
    let mut out: Vec<Range<usize>> = Vec::with_capacity(entries.len());
    let mut taken: Vec<Range<usize>> = Vec::with_capacity(entries.len());
    for entry in entries {
        let head = bytes
            .get(entry.offset..directory)
            .filter(|h| h.starts_with(LOCAL))
            .ok_or_else(broken)?;
        let word = |at| u16_at(head, at).ok_or_else(broken);
        let (method, name_length, extra) =
            (word(8)?, usize::from(word(26)?), usize::from(word(28)?));
        if method != entry.method || head.get(30..30 + name_length) != Some(entry.name.as_bytes()) {
            return Err(broken());
        }
        let start = entry.offset + 30 + name_length + extra;
        let end = usize::try_from(entry.packed)
            .ok()
            .and_then(|n| start.checked_add(n))
            .filter(|end| *end <= directory)
            .ok_or_else(broken)?;
        if taken.iter().any(|t| entry.offset < t.end && t.start < end) {
            return Err(broken());
        }
        taken.push(entry.offset..end);
        out.push(start..end);
    }
    Ok(out)
}

fn unpack(entry: &Entry, packed: &[u8]) -> Result<Vec<u8>> {
    let size = usize::try_from(entry.unpacked).map_err(|_| broken())?;
    let bytes = if entry.method == STORED {
        packed.to_vec()
    } else {
        decompress_to_vec_with_limit(packed, size).map_err(|_| damaged_part(&entry.name))?
    };
    if bytes.len() != size || crc32fast::hash(&bytes) != entry.crc {
        return Err(damaged_part(&entry.name));
    }
    Ok(bytes)
}
