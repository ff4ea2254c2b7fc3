//! Zip files written field by field, so that each can be wrong on purpose, and case files whose
//! manifest is true of their parts.

use sha2::{Digest, Sha256};

/// One entry of a zip file.
#[derive(Clone)]
pub struct Entry {
    pub name: Vec<u8>,
    /// 0 stored, 8 deflated.
    pub method: u16,
    pub flags: u16,
    pub packed: Vec<u8>,
    pub crc: u32,
    pub unpacked: u32,
    /// Said instead of where it is.
    pub offset: Option<u32>,
}

impl Entry {
    /// A stored entry.
    pub fn stored(name: &str, bytes: &[u8]) -> Self {
        Self {
            name: name.as_bytes().to_vec(),
            method: 0,
            flags: 0,
            packed: bytes.to_vec(),
            crc: crc32fast::hash(bytes),
            unpacked: bytes.len() as u32,
            offset: None,
        }
    }

    /// A deflated entry.
    pub fn deflated(name: &str, bytes: &[u8]) -> Self {
        Self {
            method: 8,
            packed: miniz_oxide::deflate::compress_to_vec(bytes, 9),
            ..Self::stored(name, bytes)
        }
    }

    fn head(&self) -> Vec<u8> {
        let mut out = Vec::new();
        for v in [20, self.flags, self.method, 0, 33] {
            out.extend(v.to_le_bytes());
        }
        for v in [self.crc, self.packed.len() as u32, self.unpacked] {
            out.extend(v.to_le_bytes());
        }
        out.extend((self.name.len() as u16).to_le_bytes());
        out.extend([0; 2]);
        out
    }
}

/// A zip file of entries.
pub fn zip(entries: &[Entry]) -> Vec<u8> {
    let (mut out, mut central) = (Vec::new(), Vec::new());
    for entry in entries {
        let at = out.len() as u32;
        out.extend(b"PK\x03\x04");
        out.extend(entry.head());
        out.extend(&entry.name);
        out.extend(&entry.packed);
        central.extend(b"PK\x01\x02\x14\0");
        central.extend(entry.head());
        central.extend([0; 10]);
        central.extend(entry.offset.unwrap_or(at).to_le_bytes());
        central.extend(&entry.name);
    }
    let (at, size) = (out.len() as u32, central.len() as u32);
    out.extend(central);
    out.extend(b"PK\x05\x06\0\0\0\0");
    for _ in 0..2 {
        out.extend((entries.len() as u16).to_le_bytes());
    }
    out.extend(size.to_le_bytes());
    out.extend(at.to_le_bytes());
    out.extend([0; 2]);
    out
}

/// The manifest of parts.
pub fn manifest(parts: &[(&str, &[u8])]) -> Vec<u8> {
    let list: Vec<serde_json::Value> = parts
        .iter()
        .map(|(name, bytes)| {
            let hash: String = Sha256::digest(bytes)
                .iter()
                .map(|b| format!("{b:02x}"))
                .collect();
            serde_json::json!({"name": name, "bytes": bytes.len(), "sha256": hash})
        })
        .collect();
    serde_json::to_vec(&serde_json::json!({ "parts": list })).expect("JSON")
}

/// A case file of these parts, with a manifest that is true of them.
pub fn file_of(parts: &[(&str, &[u8])]) -> Vec<u8> {
    let mut entries: Vec<Entry> = parts
        .iter()
        .map(|(name, bytes)| Entry::stored(name, bytes))
        .collect();
    entries.push(Entry::stored("manifest.json", &manifest(parts)));
    zip(&entries)
}
