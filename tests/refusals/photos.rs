//! Files that are no photo, or none that is read.

use crate::refusals::case::{Case, Page, Wanted};
use crate::support::exif::{Value, text};
use crate::support::files::{Picture, jpeg_of, png_header, segment, with_chunk};

const LOSSY: &[u8] = include_bytes!("../support/lossy.webp");
const NAME: &str = "photo.jpg";

fn one(id: &str, cause: &str, bytes: impl Into<Vec<u8>>, words: &'static str) -> Case {
    Case::new(
        format!("photo-{id}"),
        "photo",
        cause,
        "read photo.jpg",
        Wanted::Refused(words),
    )
    .file(NAME, bytes)
    .page(Page::Drop(NAME))
}

/// A picture that is read, and small.
pub fn sound() -> Vec<u8> {
    Picture::scene().png()
}

fn container(brand: &[u8; 4]) -> Vec<u8> {
    [b"\0\0\0\x18ftyp", brand.as_slice(), &[0; 12]].concat()
}

/// All of them.
pub fn cases() -> Vec<Case> {
    let mut out = other_kinds();
    out.extend(jpegs());
    out.extend(tiffs());
    out.extend(sizes());
    out.extend(packed());
    out
}

fn other_kinds() -> Vec<Case> {
    let scene = Picture::scene();
    let dng = scene.tiff(false, vec![(0xC612, Value::Undefined(vec![1, 4, 0, 0]))]);
    let mut out = vec![
        one("empty", "a file of 0 bytes", b"", "The file is empty"),
        one(
            "junk",
            "a text called .jpg",
            *b"Dear colleague, the photo is attached.",
            "not a picture",
        ),
        one("heic", "a phone's HEIC", container(b"heic"), "HEIC"),
        one("avif", "an AVIF", container(b"avif"), "AVIF"),
        one(
            "film",
            "a film",
            container(b"isom"),
            "a film or an unknown container",
        ),
        one(
            "raw-container",
            "a camera raw in a container",
            container(b"crx "),
            "camera raw",
        ),
        one(
            "raw-own",
            "a camera raw of its own kind",
            *b"FUJIFILMCCD-RAW 0201",
            "camera raw",
        ),
        one("raw-tiff", "a camera raw that is a TIFF", dng, "camera raw"),
        one("bigtiff", "a BigTIFF", *b"II+\0\x08\0\0\0", "BigTIFF"),
    ];
    let others: [(&str, &[u8], &'static str); 12] = [
        ("gif", b"GIF89a\x10\0\x10\0", "a GIF picture"),
        ("bmp", b"BM\0\0\0\0\0\0", "a BMP picture"),
        ("layers", b"8BPS\0\x01", "a layered image-editor document"),
        ("pdf", b"%PDF-1.7", "a PDF document"),
        ("jxl", b"\xFF\x0A\0\0", "a JPEG XL picture"),
        ("jxl-boxed", b"\0\0\0\x0CJXL \r\n", "a JPEG XL picture"),
        ("jp2", b"\0\0\0\x0CjP  \r\n", "a JPEG 2000 picture"),
        ("svg", b"<svg xmlns='x'/>", "an SVG drawing"),
        ("xml", b"<?xml version='1.0'?>", "an XML or SVG document"),
        ("web", b"<!DOCTYPE html>", "a web page"),
        ("html", b"<html><body>", "a web page"),
        ("zip", b"PK\x03\x04", "a zip archive"),
    ];
    for (id, bytes, words) in others {
        out.push(one(id, words, bytes, words));
    }
    let png = scene.png();
    out.push(one(
        "png-hdr",
        "a PNG with a high dynamic range",
        with_chunk(&png, b"cICP", &[9, 16, 0, 1]),
        "high-dynamic-range",
    ));
    out.push(one(
        "png-cut",
        "a PNG that was cut off",
        &png[..png.len() / 2],
        "The PNG file is damaged",
    ));
    out.push(one(
        "webp-cut",
        "a WebP that was cut off",
        &LOSSY[..LOSSY.len() / 2],
        "The WebP file ends before",
    ));
    out
}

fn jpegs() -> Vec<Case> {
    let whole = Picture::scene().jpeg();
    let no_frame = [
        &[0xFF, 0xD8][..],
        &segment(0xDA, &[1, 1, 0, 0, 63, 0]),
        &[0, 0xFF, 0xD9],
    ];
    vec![
        one(
            "jpeg-header",
            "a JPEG of three bytes",
            [0xFF, 0xD8, 0xFF],
            "its header breaks off",
        ),
        one(
            "jpeg-cut-header",
            "a JPEG cut in its header",
            &whole[..30],
            "its header breaks off",
        ),
        one(
            "jpeg-cut",
            "a JPEG cut in its picture",
            &whole[..whole.len() - 200],
            "it ends before the picture does",
        ),
        one(
            "jpeg-nothing",
            "a JPEG that ends at once",
            [0xFF, 0xD8, 0xFF, 0xD9],
            "it holds no picture",
        ),
        one(
            "jpeg-no-frame",
            "a JPEG without a size",
            no_frame.concat(),
            "it holds no picture",
        ),
        one(
            "jpeg-apart",
            "a JPEG whose channels stand apart",
            jpeg_of(0, 8, 3, 1, [32; 2]),
            "one after another",
        ),
        one(
            "jpeg-arithmetic",
            "an arithmetic JPEG",
            jpeg_of(9, 8, 3, 3, [32; 2]),
            "arithmetic",
        ),
        one(
            "jpeg-lossless",
            "a lossless JPEG",
            jpeg_of(3, 8, 3, 3, [32; 2]),
            "lossless",
        ),
        one(
            "jpeg-12-bits",
            "a JPEG of 12 bits",
            jpeg_of(1, 12, 3, 3, [32; 2]),
            "12 bits per channel",
        ),
        one(
            "jpeg-cmyk",
            "a JPEG of four inks",
            jpeg_of(0, 8, 4, 4, [32; 2]),
            "CMYK",
        ),
        one(
            "jpeg-2-channels",
            "a JPEG of two channels",
            jpeg_of(0, 8, 2, 2, [32; 2]),
            "2 colour channels",
        ),
    ]
}

fn tiffs() -> Vec<Case> {
    let scene = Picture::scene();
    let with = |more: Vec<(u16, Value)>| scene.tiff(false, more);
    let float = with(vec![
        (258, Value::Short(vec![32; 3])),
        (339, Value::Short(vec![3; 3])),
        (257, Value::Long(vec![16])),
        (278, Value::Long(vec![16])),
        (256, Value::Long(vec![16])),
    ]);
    let planes = with(vec![
        (284, Value::Short(vec![2])),
        (273, Value::Long(vec![8, 1544, 3080])),
        (279, Value::Long(vec![1536; 3])),
    ]);
    let inks = with(vec![
        (262, Value::Short(vec![5])),
        (277, Value::Short(vec![4])),
        (258, Value::Short(vec![8; 4])),
        (256, Value::Long(vec![36])),
    ]);
    let video = with(vec![(262, Value::Short(vec![6]))]);
    let packed = with(vec![(259, Value::Short(vec![50_000]))]);
    // A list of places beyond any picture's.
    let greedy = with(vec![
        (278, Value::Long(vec![1])),
        (273, Value::Lie(4, 40_000_000, 8)),
        (279, Value::Lie(4, 40_000_000, 8)),
    ]);
    let cut = scene.tiff_lzw();
    vec![
        one(
            "tiff-float",
            "a TIFF of floating-point numbers",
            float,
            "floating point",
        ),
        one(
            "tiff-planes",
            "a TIFF in planes",
            planes,
            "colour planes stored apart",
        ),
        one("tiff-cmyk", "a TIFF of four inks", inks, "CMYK"),
        one(
            "tiff-video",
            "a TIFF in the colours of video",
            video,
            "its kind of colours",
        ),
        one(
            "tiff-packed",
            "a TIFF packed in an unknown way",
            packed,
            "its compression or layout",
        ),
        one(
            "tiff-greedy",
            "a TIFF that asks for much memory",
            greedy,
            "The TIFF file asks for more memory",
        ),
        one(
            "tiff-cut",
            "a TIFF that was cut off",
            &cut[..cut.len() / 3],
            "The TIFF file is damaged",
        ),
    ]
}

fn sizes() -> Vec<Case> {
    let tiny = Picture::rgb8(8, 8, |x, y| [x as u8, y as u8, 0]);
    let commands = "a file on a disk is chosen in the browser's own window";
    vec![
        one(
            "giant",
            "a photo of 400 megapixels",
            png_header(20_000, 20_000),
            "400 megapixels",
        ),
        one("tiny", "a thumbnail", tiny.png(), "only 8 × 8 pixels"),
        Case::new(
            "photo-nowhere",
            "photo",
            "a name that is not there",
            "read nowhere.jpg",
            Wanted::Refused("nowhere.jpg could not be opened"),
        )
        .page(Page::Not(commands)),
        Case::new(
            "photo-vast",
            "photo",
            "a file of more than 1 GiB",
            "read photo.jpg",
            Wanted::Refused("at most 1073741824 are read"),
        )
        .noughts(NAME, (1 << 30) + 1)
        .page(Page::Not(
            "the page refuses from 400 MB on, by words of its own (page-too-large)",
        )),
    ]
}

/// What packing refuses that reading would not look at.
fn packed() -> Vec<Case> {
    let telling: Vec<(u16, Value)> = vec![
        (0x013B, text(&"OWNER-NAME-Q ".repeat(40))),
        (0xC62F, text("SERIAL-7781236")),
        (256, Value::Long(vec![52])),
    ];
    let pack = |id: &str, cause: &str, bytes: Vec<u8>, words| {
        Case::new(
            id,
            "photo to be packed",
            cause,
            "pack out.tabside photo.jpg",
            Wanted::Refused(words),
        )
        .file(NAME, bytes)
        .page(Page::Call(
            "case:scrub",
            serde_json::json!([{"$file": NAME}]),
        ))
    };
    let png = Picture::scene().png();
    vec![
        pack(
            "pack-cut",
            "a photo that was cut off",
            png[..png.len() / 2].to_vec(),
            "The PNG file is damaged, or it ends before",
        ),
        pack(
            "pack-entangled",
            "a photo whose metadata lie over its pixels",
            Picture::scene().tiff(false, telling),
            "cannot be removed from it for certain",
        ),
    ]
}
