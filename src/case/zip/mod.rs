//! The container: the part of the zip format that a case file needs (PKWARE APPNOTE 6.3.10, sections
//! 4.3 and 4.4): one disk, no encryption, no 64-bit sizes, stored or deflated.
//!
//! Written and read here, and not by a general library, because reading must refuse what such a
//! library takes quietly – entries of one name, entries that lie over each other, more entries than
//! a case can have – and because the page must not grow by one. Deflate itself is `miniz_oxide`.

mod read;
mod write;

pub use read::read;
pub use write::Writer;

/// Entries a case file may have.
pub const MAX_ENTRIES: usize = 512;
/// Bytes of a case file, and of all its parts unpacked.
pub const MAX_BYTES: u64 = 1 << 30;
/// Bytes of a part that is text.
pub const MAX_TEXT_BYTES: u64 = 48 << 20;
/// Bytes of one photo.
pub const MAX_PHOTO_BYTES: u64 = 512 << 20;
/// How many times larger a part may get by unpacking; JSON of readings gets 5 to 20 times larger.
pub const MAX_RATIO: u64 = 200;
/// A part that is smaller may have any ratio.
pub const SMALL_BYTES: u64 = 64 << 10;

/// The description of the case.
pub const CASE: &str = "case.json";
/// Lengths and checksums of the parts.
pub const MANIFEST: &str = "manifest.json";
/// The folder of photos.
pub const PHOTOS: &str = "photos/";
/// The ends that photo names have.
pub const PHOTO_ENDS: [&str; 4] = [".jpg", ".png", ".tif", ".webp"];

const LOCAL: &[u8; 4] = b"PK\x03\x04";
const CENTRAL: &[u8; 4] = b"PK\x01\x02";
const END: &[u8; 4] = b"PK\x05\x06";
const STORED: u16 = 0;
const DEFLATED: u16 = 8;

/// One part of the container, unpacked.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Part {
    /// Its name.
    pub name: String,
    /// Its bytes.
    pub bytes: Vec<u8>,
}

/// Whether a part of this name can be in a case file. There is nothing in such a name that a file
/// system could take for a path beyond `photos/`.
pub fn is_known(name: &str) -> bool {
    name == CASE || name == MANIFEST || is_photo(name)
}

/// `photos/` and a plain file name that ends as photos do.
pub fn is_photo(name: &str) -> bool {
    let Some(file) = name.strip_prefix(PHOTOS) else {
        return false;
    };
    let plain = |b: u8| b.is_ascii_alphanumeric() || matches!(b, b'.' | b'_' | b'-');
    let stem = PHOTO_ENDS.iter().find_map(|end| file.strip_suffix(end));
    file.len() <= 100
        && file.bytes().all(plain)
        && stem.is_some_and(|s| s.bytes().any(|b| b.is_ascii_alphanumeric()))
        && !file.starts_with(['.', '-'])
        && !file.contains("..")
        && !is_device(file)
}

/// What stands for a device on some systems, whatever follows its first dot: unpacked there, it
/// would not become a file.
fn is_device(file: &str) -> bool {
    let stem = file.split('.').next().unwrap_or_default();
    let numbered = |name: &str| {
        stem.len() == 4
            && stem
                .get(..3)
                .is_some_and(|start| start.eq_ignore_ascii_case(name))
            && stem.ends_with(|c: char| c.is_ascii_digit())
    };
    ["con", "prn", "aux", "nul"]
        .iter()
        .any(|name| stem.eq_ignore_ascii_case(name))
        || numbered("com")
        || numbered("lpt")
}

/// The largest a part of this name may be.
pub fn most_bytes(name: &str) -> u64 {
    if is_photo(name) {
        MAX_PHOTO_BYTES
    } else {
        MAX_TEXT_BYTES
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names() {
        for good in [
            "case.json",
            "manifest.json",
            "photos/1.jpg",
            "photos/a-b_c.2.webp",
        ] {
            assert!(is_known(good), "{good}");
        }
        for bad in [
            "",
            "photos/",
            "photos/.jpg",
            "photos/..jpg",
            "photos/../case.jpg",
            "photos/a/b.jpg",
            "photos/a\\b.jpg",
            "photos/C:x.jpg",
            "photos/-rf.jpg",
            "photos/x.html",
            "photos/x.jpg.svg",
            "photos/x\0.jpg",
            "photos/ü.jpg",
            "/case.json",
            "../case.json",
            "Case.json",
            "other.json",
        ] {
            assert!(!is_known(bad), "{bad}");
        }
    }
}
