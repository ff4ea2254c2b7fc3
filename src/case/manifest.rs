//! `manifest.json`: the length and SHA-256 of every other part, so that a part that was changed or
//! exchanged is noticed.

use super::zip::{MANIFEST, Part};
use super::{json, sha256_hex};
use crate::error::{Error, Result};
use serde::{Deserialize, Serialize};

/// What the parts must be.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Manifest {
    /// One per part but the manifest itself.
    parts: Vec<Listed>,
}

/// One part.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
struct Listed {
    /// Its name.
    name: String,
    /// Its length.
    bytes: u64,
    /// Its SHA-256, lower-case hexadecimal digits.
    sha256: String,
}

impl Manifest {
    /// Of no parts yet.
    pub const fn new() -> Self {
        Self { parts: Vec::new() }
    }

    /// Lists a part.
    pub fn add(&mut self, name: &str, bytes: &[u8], sha256: String) {
        self.parts.push(Listed {
            name: name.to_owned(),
            bytes: bytes.len() as u64,
            sha256,
        });
    }

    /// As it stands in the file.
    pub fn to_json(&self) -> Result<Vec<u8>> {
        serde_json::to_vec_pretty(self).map_err(|e| Error::internal(e.to_string()))
    }

    /// Checks the parts of a file against its manifest.
    pub fn verify(parts: &[Part]) -> Result<()> {
        let manifest = parts
            .iter()
            .find(|p| p.name == MANIFEST)
            .ok_or_else(|| missing(MANIFEST))?;
        let manifest: Self = json::typed(MANIFEST, json::parse(MANIFEST, &manifest.bytes)?)?;
        for listed in &manifest.parts {
            let part = parts
                .iter()
                .find(|p| p.name == listed.name)
                .ok_or_else(|| missing(&json::plain(&listed.name, 60)))?;
            if part.bytes.len() as u64 != listed.bytes || sha256_hex(&part.bytes) != listed.sha256 {
                return Err(changed(&part.name));
            }
        }
        for part in parts.iter().filter(|p| p.name != MANIFEST) {
            if manifest
                .parts
                .iter()
                .filter(|l| l.name == part.name)
                .count()
                != 1
            {
                return Err(changed(&part.name));
            }
        }
        Ok(())
    }
}

fn missing(name: &str) -> Error {
    Error::damaged(
        format!("{name} is missing in the case file."),
        "Ask the sender to save and send the case once more.",
    )
}

fn changed(name: &str) -> Error {
    Error::damaged(
        format!(
            "{name} in the case file is not what was written: its checksum in {MANIFEST} is another."
        ),
        "Do not rely on this file. Ask the sender to save and send the case once more.",
    )
}
