//! The case: photos, scenes, readings, swatches and work in one file that another person can open
//! and get the same numbers from. Knows nothing of a browser.
//!
//! A case file (`.tabside`) is a zip with `case.json` ([`Case`]), `manifest.json` (lengths and
//! SHA-256 of all other parts) and `photos/`. Reading trusts nothing in it: sizes are bounded before
//! anything is unpacked, every part is checked against the manifest, and what is carried without
//! being understood stays plain data. `engine` derives the readings again.

mod check;
mod json;
#[cfg(feature = "lock")]
pub mod lock;
mod manifest;
mod migrate;
mod newer;
mod note;
mod read;
pub mod table;
pub mod types;
mod write;
mod zip;

pub use note::{CaseNote, CaseNoteCode};
pub use read::{OpenedCase, read};
pub use types::{Case, KeptAs, KeptPhoto, KeptReading, PhotoNote, PhotoRole, Proposal, VERSION};
pub use write::{PhotoBytes, Written, write};

use sha2::{Digest, Sha256};

/// SHA-256 in lower-case hexadecimal digits.
fn sha256_hex(bytes: &[u8]) -> String {
    use std::fmt::Write as _;
    let mut out = String::with_capacity(64);
    for byte in Sha256::digest(bytes) {
        let _ = write!(out, "{byte:02x}");
    }
    out
}
