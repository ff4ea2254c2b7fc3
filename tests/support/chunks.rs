//! Segments and chunks of picture files, written by hand where no encoder writes what a test needs.

/// A JPEG segment.
pub fn segment(marker: u8, content: &[u8]) -> Vec<u8> {
    let mut out = vec![0xFF, marker];
    out.extend((content.len() as u16 + 2).to_be_bytes());
    out.extend(content);
    out
}

/// A PNG chunk.
pub fn chunk(kind: &[u8; 4], content: &[u8]) -> Vec<u8> {
    let mut out = (content.len() as u32).to_be_bytes().to_vec();
    let checked = [kind.as_slice(), content].concat();
    out.extend(&checked);
    out.extend(crc_32(&checked).to_be_bytes());
    out
}

/// A PNG with a chunk put before its pixels.
pub fn with_chunk(png: &[u8], kind: &[u8; 4], content: &[u8]) -> Vec<u8> {
    // Signature 8, IHDR 25.
    let mut out = png.to_vec();
    out.splice(33..33, chunk(kind, content));
    out
}

/// A PNG of nothing but a header with the given size.
pub fn png_header(width: u32, height: u32) -> Vec<u8> {
    let mut header = width.to_be_bytes().to_vec();
    header.extend(height.to_be_bytes());
    header.extend([8, 2, 0, 0, 0]);
    let mut out = b"\x89PNG\r\n\x1a\n".to_vec();
    out.extend(chunk(b"IHDR", &header));
    out.extend(chunk(b"IDAT", &[0x78, 0x9C, 3, 0, 0, 0, 0, 1]));
    out.extend(chunk(b"IEND", &[]));
    out
}

/// A chunk of a RIFF file.
pub fn riff_chunk(kind: &[u8; 4], content: &[u8]) -> Vec<u8> {
    let mut out = kind.to_vec();
    out.extend((content.len() as u32).to_le_bytes());
    out.extend(content);
    out.resize(out.len().next_multiple_of(2), 0);
    out
}

/// CRC-32 (ISO 3309), as PNG uses it.
fn crc_32(bytes: &[u8]) -> u32 {
    !bytes.iter().fold(u32::MAX, |crc, byte| {
        (0..8).fold(crc ^ u32::from(*byte), |crc, _| {
            (crc >> 1) ^ if crc & 1 == 1 { 0xEDB8_8320 } else { 0 }
        })
    })
}

/// A JPEG with the given process, bits, channels, channels in its scan, width and height. Every
/// table has one code: a zero.
pub fn jpeg_of(process: u8, bits: u8, channels: u8, in_scan: u8, size: [u16; 2]) -> Vec<u8> {
    let mut frame = vec![bits];
    frame.extend(size[1].to_be_bytes());
    frame.extend(size[0].to_be_bytes());
    frame.push(channels);
    (1..=channels).for_each(|i| frame.extend([i, 0x11, 0]));
    let mut scan = vec![in_scan];
    (1..=in_scan).for_each(|i| scan.extend([i, 0]));
    scan.extend([0, 63, 0]);
    let mut out = vec![0xFF, 0xD8];
    out.extend(segment(0xDB, &[&[0][..], &[1; 64]].concat()));
    out.extend(segment(0xC0 | process, &frame));
    let code = |class: u8| segment(0xC4, &[&[class][..], &[1], &[0; 15], &[0]].concat());
    out.extend(code(0x00));
    out.extend(code(0x10));
    out.extend(segment(0xDA, &scan));
    out.extend([0; 4]);
    out.extend([0xFF, 0xD9]);
    out
}
