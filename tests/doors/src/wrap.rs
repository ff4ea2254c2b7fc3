//! Sound files around a part that need not be.

#[path = "../../support/chunks.rs"]
#[allow(dead_code, reason = "the tests of photos use the others")]
mod chunks;
#[path = "../../support/zip.rs"]
#[allow(dead_code, reason = "the tests of cases use the others")]
mod zip;

use chunks::chunk;
pub use zip::file_of as case_of;

/// A PNG of one pixel with one chunk more.
pub fn png_with(kind: &[u8; 4], data: &[u8]) -> Vec<u8> {
    chunks::with_chunk(&png_of(1, 1, &[0, 200, 150, 100]), kind, data)
}

/// A PNG from its filtered rows of 8-bit RGB.
pub fn png_of(width: u32, height: u32, rows: &[u8]) -> Vec<u8> {
    let size = [width.to_be_bytes(), height.to_be_bytes()].concat();
    let packed = miniz_oxide::deflate::compress_to_vec_zlib(rows, 1);
    [
        b"\x89PNG\r\n\x1a\n".to_vec(),
        chunk(b"IHDR", &[&size[..], &[8, 2, 0, 0, 0]].concat()),
        chunk(b"IDAT", &packed),
        chunk(b"IEND", &[]),
    ]
    .concat()
}
