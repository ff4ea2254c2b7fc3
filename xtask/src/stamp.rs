//! Stamps: a small file beside a result, telling what it was made from. A stamp that is missing
//! or different means that the result has to be made again.

use crate::fail::{Failure, Result};
use std::fs;
use std::path::Path;

/// A 64-bit FNV-1a hash as hexadecimal digits: finds changes, keeps no secrets.
/// Source: IETF draft-eastlake-fnv, offset basis and prime for 64 bits.
pub fn hash_hex(bytes: &[u8]) -> String {
    let hash = bytes.iter().fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| {
        (hash ^ u64::from(*byte)).wrapping_mul(0x0000_0100_0000_01b3)
    });
    format!("{hash:016x}")
}

/// Whether the stamp says exactly this.
pub fn matches(path: &Path, text: &str) -> bool {
    fs::read_to_string(path).is_ok_and(|found| found == text)
}

/// Writes the stamp; to be done last, when the result is whole.
pub fn write(path: &Path, text: &str) -> Result<()> {
    fs::write(path, text).map_err(|e| Failure::file("write", path, &e))
}

/// Takes the stamp away before its result is touched.
pub fn clear(path: &Path) {
    let _ = fs::remove_file(path);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hashes_are_those_of_the_published_test_vectors() {
        assert_eq!(hash_hex(b""), "cbf29ce484222325");
        assert_eq!(hash_hex(b"a"), "af63dc4c8601ec8c");
        assert_eq!(hash_hex(b"foobar"), "85944171f73967e8");
    }

    #[test]
    fn a_stamp_matches_only_its_own_text() {
        let dir = crate::testing::TempDir::new("stamp");
        let path = dir.path().join("stamp");
        assert!(!matches(&path, ""));
        write(&path, "one").unwrap();
        assert!(matches(&path, "one"));
        assert!(!matches(&path, "one "));
        clear(&path);
        assert!(!matches(&path, "one"));
    }
}
