//! Sound files around a part that need not be.

use sha2::{Digest, Sha256};

fn chunk(out: &mut Vec<u8>, kind: [u8; 4], data: &[u8]) {
    out.extend((data.len() as u32).to_be_bytes());
    let from = out.len();
    out.extend(kind);
    out.extend(data);
    let sum = crc32fast::hash(out.get(from..).unwrap_or_default());
    out.extend(sum.to_be_bytes());
}

/// A PNG of one pixel with one chunk more.
pub fn png_with(kind: [u8; 4], data: &[u8]) -> Vec<u8> {
    png(1, 1, &[0, 200, 150, 100], Some((kind, data)))
}

/// A PNG from its filtered rows of 8-bit RGB.
pub fn png_of(width: u32, height: u32, rows: &[u8]) -> Vec<u8> {
    png(width, height, rows, None)
}

fn png(width: u32, height: u32, rows: &[u8], more: Option<([u8; 4], &[u8])>) -> Vec<u8> {
    let mut out = b"\x89PNG\r\n\x1a\n".to_vec();
    let size = [width.to_be_bytes(), height.to_be_bytes()].concat();
    chunk(&mut out, *b"IHDR", &[&size[..], &[8, 2, 0, 0, 0]].concat());
    if let Some((kind, data)) = more {
        chunk(&mut out, kind, data);
    }
    let packed = miniz_oxide::deflate::compress_to_vec_zlib(rows, 1);
    chunk(&mut out, *b"IDAT", &packed);
    chunk(&mut out, *b"IEND", &[]);
    out
}

/// A zip file of stored entries, with the sums that belong to them.
pub fn zip(entries: &[(&str, &[u8])]) -> Vec<u8> {
    let (mut out, mut central) = (Vec::new(), Vec::new());
    for (name, bytes) in entries {
        let at = out.len() as u32;
        let mut head = Vec::new();
        for v in [20_u16, 0, 0, 0, 33] {
            head.extend(v.to_le_bytes());
        }
        for v in [
            crc32fast::hash(bytes),
            bytes.len() as u32,
            bytes.len() as u32,
        ] {
            head.extend(v.to_le_bytes());
        }
        head.extend((name.len() as u16).to_le_bytes());
        head.extend([0; 2]);
        out.extend(b"PK\x03\x04");
        out.extend(&head);
        out.extend(name.as_bytes());
        out.extend(*bytes);
        central.extend(b"PK\x01\x02\x14\0");
        central.extend(&head);
        central.extend([0; 10]);
        central.extend(at.to_le_bytes());
        central.extend(name.as_bytes());
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

/// A case file whose manifest is true of its parts.
pub fn case_of(parts: &[(&str, &[u8])]) -> Vec<u8> {
    let listed: Vec<_> = parts
        .iter()
        .map(|(name, bytes)| {
            let sum: String = Sha256::digest(bytes)
                .iter()
                .map(|b| format!("{b:02x}"))
                .collect();
            serde_json::json!({"name": name, "bytes": bytes.len(), "sha256": sum})
        })
        .collect();
    let manifest = serde_json::json!({ "parts": listed });
    let text = manifest.to_string();
    let mut entries = vec![("manifest.json", text.as_bytes())];
    entries.extend(parts);
    zip(&entries)
}
