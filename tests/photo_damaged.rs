//! Bad input: every file is refused in words, or read as what it is; nothing panics.

mod support;

use support::codes;
use support::exif::{Value, Writer};
use support::files::{Picture, jpeg_of, png_header, riff_chunk, segment, with_chunk};
use tabside::Error;
use tabside::photo::{Photo, SpaceSource};

/// Made with an image library from the same picture as [`Picture::scene`]: progressive, 4:4:4.
const PROGRESSIVE: &[u8] = include_bytes!("support/progressive.jpg");
/// The same, lossy WebP.
const LOSSY: &[u8] = include_bytes!("support/lossy.webp");

fn refused(file: &[u8]) -> Error {
    match Photo::decode(file) {
        Err(error) => error,
        Ok(photo) => panic!("it opened: {:?}", photo.info()),
    }
}

/// The kind of the error, a word of what was found and one of what to do.
fn says(name: &str, file: &[u8], kind: &str, what: &str, remedy: &str) {
    let error = refused(file);
    let text = error.to_string();
    assert_eq!(error.kind(), kind, "{name}: {text}");
    assert!(text.contains(what), "{name}: {text:?} lacks {what:?}");
    assert!(text.contains(remedy), "{name}: {text:?} lacks {remedy:?}");
}

#[test]
fn no_picture_at_all() {
    says("nothing", b"", "file-damaged", "empty", "Copy it again");
    for junk in [
        &b"Dear colleague, the photo is attached."[..],
        b"\0\0\0\0\0\0\0\0",
        b"\xFF",
        b"RI",
    ] {
        says(
            "junk",
            junk,
            "file-damaged",
            "not a picture",
            "Choose a JPEG",
        );
    }
}

#[test]
fn cut_off_anywhere() {
    let scene = Picture::scene();
    let icc = moxcms::ColorProfile::new_display_p3()
        .encode()
        .expect("ICC");
    let with_icc = scene.clone().icc(icc);
    let files = [
        ("JPEG", with_icc.jpeg()),
        ("progressive JPEG", PROGRESSIVE.to_vec()),
        ("PNG", with_icc.png()),
        ("TIFF", with_icc.tiff(false, vec![])),
        ("LZW TIFF", scene.tiff_lzw()),
        ("lossless WebP", with_icc.webp()),
        ("lossy WebP", LOSSY.to_vec()),
    ];
    for (name, file) in files {
        let whole = Photo::decode(&file).expect(name);
        assert_eq!((whole.width_px(), whole.height_px()), (48, 32), "{name}");
        for part in 0..20 {
            let cut = &file[..file.len() * part / 20];
            match Photo::decode(cut) {
                Err(error) => assert!(
                    matches!(error.kind(), "file-damaged" | "unsupported"),
                    "{name} at {} %: {error}",
                    part * 5
                ),
                // Only where the pixels are all there, and what is missing is said.
                Ok(photo) => {
                    assert_eq!(name, "TIFF", "it opened at {} %", part * 5);
                    assert!(codes(&photo).contains(&"profile-unusable".to_owned()));
                    for (x, y) in (0..32).flat_map(|y| (0..48).map(move |x| (x, y))) {
                        let peak = |p: &Photo| p.sample(x, y).map(|s| s.peak);
                        assert_eq!(peak(&photo), peak(&whole));
                    }
                }
            }
        }
        // The last byte too, where it belongs to the picture (not so a PNG's end mark).
        if name != "PNG" && !name.contains("TIFF") {
            assert_eq!(
                refused(&file[..file.len() - 1]).kind(),
                "file-damaged",
                "{name}"
            );
        }
    }
}

/// What follows after the length that a WebP says it has is not read, and does no harm.
#[test]
fn webp_ends_where_it_says() {
    Photo::decode(&[LOSSY, &[7; 30]].concat()).expect("with something behind it");
    let mut short = LOSSY.to_vec();
    short[4..8].copy_from_slice(&4_u32.to_le_bytes());
    assert_eq!(refused(&short).kind(), "file-damaged");
}

fn u24(value: u32) -> Vec<u8> {
    value.to_le_bytes()[..3].to_vec()
}

/// The head of an extended WebP with the picture of [`Picture::scene`].
fn extended(flags: u8) -> Vec<u8> {
    riff_chunk(b"VP8X", &[vec![flags, 0, 0, 0], u24(47), u24(31)].concat())
}

/// A part that says it is longer than the file is refused before memory is taken for it: the decoder
/// would ask for gigabytes, which a page cannot have.
#[test]
fn webp_parts_end_within_it() {
    let still = Picture::scene().webp();
    let file = |exif: &[u8]| {
        let mut body = b"WEBP".to_vec();
        body.extend(extended(8));
        body.extend(&still[12..]);
        body.extend(exif);
        riff_chunk(b"RIFF", &body)
    };
    let exif = |said: u32| [b"EXIF".as_slice(), &said.to_le_bytes(), &[0; 10]].concat();
    for said in [9, 10] {
        Photo::decode(&file(&exif(said))).expect("as long as it says, or filled up");
    }
    // What it says up front ends before the filling byte.
    Photo::decode(&file(&exif(9)[..17])).expect("its last byte left away");
    for said in [11, 1 << 20, 2_829_559_296, u32::MAX] {
        assert_eq!(refused(&file(&exif(said))).kind(), "file-damaged", "{said}");
    }
}

#[test]
fn other_kinds_of_files() {
    let ftyp = |brand: &[u8; 4]| [b"\0\0\0\x18ftyp", brand.as_slice(), &[0; 12]].concat();
    for (name, file, what, remedy) in [
        (
            "GIF",
            b"GIF89a\x10\0\x10\0".to_vec(),
            "GIF",
            "Save it as JPEG",
        ),
        ("BMP", b"BM\0\0\0\0\0\0".to_vec(), "BMP", "Save it as JPEG"),
        ("HEIC", ftyp(b"heic"), "HEIC", "as JPEG"),
        ("HEIF", ftyp(b"mif1"), "HEIC", "as JPEG"),
        ("AVIF", ftyp(b"avif"), "AVIF", "Save it as JPEG"),
        ("CR3", ftyp(b"crx "), "camera raw", "16-bit TIFF"),
        ("film", ftyp(b"isom"), "film", "Save it as JPEG"),
        (
            "BigTIFF",
            b"II+\0\x08\0\0\0".to_vec(),
            "BigTIFF",
            "ordinary TIFF",
        ),
        (
            "SVG",
            b"<svg xmlns='x'/>".to_vec(),
            "SVG",
            "Save it as JPEG",
        ),
        (
            "XML",
            b"<?xml version='1.0'?>".to_vec(),
            "SVG",
            "Save it as JPEG",
        ),
        ("PDF", b"%PDF-1.7".to_vec(), "PDF", "Save it as JPEG"),
        (
            "JPEG XL",
            b"\xFF\x0A\0\0".to_vec(),
            "JPEG XL",
            "Save it as JPEG",
        ),
        ("zip", b"PK\x03\x04".to_vec(), "zip", "Save it as JPEG"),
        (
            "RAF",
            b"FUJIFILMCCD-RAW 0201".to_vec(),
            "camera raw",
            "16-bit TIFF",
        ),
        (
            "CR2",
            b"II*\0\x10\0\0\0CR\x02\0".to_vec(),
            "camera raw",
            "16-bit TIFF",
        ),
    ] {
        says(name, &file, "unsupported", what, remedy);
    }
    // DNG: the tag DNGVersion. NEF-like: a maker, sub-directories, and a thumbnail in front.
    let scene = Picture::scene();
    let dng = scene.tiff(false, vec![(0xC612, Value::Undefined(vec![1, 4, 0, 0]))]);
    let nef = scene.tiff(
        true,
        vec![
            (0x00FE, Value::Long(vec![1])),
            (0x010F, Value::Ascii(b"Invented\0".to_vec())),
            (0x014A, Value::Long(vec![8, 8])),
        ],
    );
    for file in [dng, nef] {
        says("raw", &file, "unsupported", "camera raw", "16-bit TIFF");
    }
}

#[test]
fn kinds_of_jpeg_that_are_not_read() {
    let size = [32, 32];
    for (name, process, bits, channels, what, remedy) in [
        ("CMYK", 0, 8, 4, "CMYK", "RGB original"),
        ("12 bits", 1, 12, 3, "12 bits", "8-bit RGB"),
        ("arithmetic", 9, 8, 3, "arithmetic", "8-bit RGB"),
        (
            "arithmetic progressive",
            10,
            8,
            3,
            "arithmetic",
            "8-bit RGB",
        ),
        ("lossless", 3, 8, 3, "lossless", "8-bit RGB"),
        ("hierarchical", 5, 8, 3, "hierarchical", "8-bit RGB"),
        ("two channels", 0, 8, 2, "2 colour channels", "8-bit RGB"),
    ] {
        let file = jpeg_of(process, bits, channels, channels, size);
        says(name, &file, "unsupported", what, remedy);
    }
    // The same frame with an ordinary process opens: the helper makes sound files.
    assert!(Photo::decode(&jpeg_of(0, 8, 3, 3, [16, 16])).is_ok());
}

#[test]
fn kinds_of_tiff_that_are_not_read() {
    let scene = Picture::scene();
    for (name, tags, what, remedy) in [
        (
            "32-bit float",
            vec![
                (258, Value::Short(vec![32; 3])),
                (339, Value::Short(vec![3; 3])),
                (257, Value::Long(vec![16])),
                (278, Value::Long(vec![16])),
                (256, Value::Long(vec![16])),
            ],
            "floating point",
            "8 or 16 bits",
        ),
        (
            "planes",
            vec![
                (284, Value::Short(vec![2])),
                (273, Value::Long(vec![8, 1544, 3080])),
                (279, Value::Long(vec![1536; 3])),
            ],
            "planes",
            "ordinary RGB TIFF",
        ),
        (
            "CMYK",
            vec![
                (262, Value::Short(vec![5])),
                (277, Value::Short(vec![4])),
                (258, Value::Short(vec![8; 4])),
                (256, Value::Long(vec![36])),
            ],
            "CMYK",
            "RGB original",
        ),
        (
            "Zstandard",
            vec![(259, Value::Short(vec![50_000]))],
            "compression",
            "uncompressed or LZW",
        ),
    ] {
        says(name, &scene.tiff(false, tags), "unsupported", what, remedy);
    }
}

/// Sizes are refused from the header, before anything is allocated for the pixels.
#[test]
fn sizes_beyond_the_limits() {
    let giant = [256, 257, 278].map(|tag| (tag, Value::Long(vec![20_000])));
    for (name, file) in [
        ("PNG", png_header(20_000, 20_000)),
        ("JPEG", jpeg_of(0, 8, 3, 3, [20_000, 20_000])),
        ("TIFF", Picture::scene().tiff(false, giant.to_vec())),
    ] {
        let before = std::time::Instant::now();
        says(
            name,
            &file,
            "too-large",
            "400 megapixels",
            "smaller version",
        );
        assert!(before.elapsed().as_millis() < 500, "{name}");
    }
    for (name, file) in [
        ("PNG", png_header(u32::MAX / 2, u32::MAX / 2)),
        ("PNG", png_header(0, 20)),
        ("JPEG", jpeg_of(0, 8, 3, 3, [0, 20])),
        ("JPEG", jpeg_of(0, 8, 3, 3, [20, 0])),
    ] {
        let kind = refused(&file).kind();
        assert!(
            matches!(kind, "too-large" | "file-damaged" | "unsupported"),
            "{name}: {kind}"
        );
    }
    let tiny = Picture::rgb8(8, 8, |x, y| [x as u8, y as u8, 0]);
    for file in [
        tiny.png(),
        tiny.jpeg(),
        tiny.webp(),
        tiny.tiff(false, vec![]),
    ] {
        says("8×8", &file, "unsupported", "8 × 8", "original photo");
    }
}

/// What follows the end mark (a second picture, a film, padding) is none of our business.
#[test]
fn jpeg_with_something_behind_it() {
    let first = Picture::scene().jpeg();
    let want = Photo::decode(&first).expect("it opens").sample(20, 20);
    let second = Picture::rgb8(64, 64, |_, _| [255, 0, 0]).jpeg();
    for behind in [second, vec![0; 1000], vec![0xFF; 5], b"film".to_vec()] {
        let photo = Photo::decode(&[first.clone(), behind].concat()).expect("it opens");
        assert_eq!((photo.width_px(), photo.height_px()), (48, 32));
        assert_eq!(photo.sample(20, 20), want);
    }
    // A thumbnail inside a segment has its own end mark.
    let mut with_thumbnail = first.clone();
    let thumbnail = Picture::rgb8(16, 16, |_, _| [0; 3]).jpeg();
    with_thumbnail.splice(2..2, segment(0xE1, &thumbnail));
    let photo = Photo::decode(&with_thumbnail).expect("it opens");
    assert_eq!(photo.sample(20, 20), want);
}

#[test]
fn first_of_several() {
    // APNG: a control chunk for animation and one for the frame that is the picture itself.
    let png = Picture::scene().png();
    let mut frame = vec![0, 0, 0, 0];
    frame.extend(48_u32.to_be_bytes());
    frame.extend(32_u32.to_be_bytes());
    frame.extend([0; 14]);
    let apng = with_chunk(&png, b"fcTL", &frame);
    let apng = with_chunk(&apng, b"acTL", &[0, 0, 0, 1, 0, 0, 0, 0]);
    // Animated WebP: the picture of a still one as its only frame.
    let still = Picture::scene().webp();
    let mut frame = [u24(0), u24(0), u24(47), u24(31), u24(100), vec![2]].concat();
    frame.extend(&still[12..]);
    let mut body = b"WEBP".to_vec();
    body.extend(extended(2));
    body.extend(riff_chunk(b"ANIM", &[0; 6]));
    body.extend(riff_chunk(b"ANMF", &frame));
    let webp = riff_chunk(b"RIFF", &body);
    let want = Photo::decode(&png).expect("it opens").sample(30, 10);
    for (name, file) in [("APNG", apng), ("animated WebP", webp)] {
        let photo = Photo::decode(&file).expect(name);
        assert_eq!((photo.width_px(), photo.height_px()), (48, 32), "{name}");
        assert_eq!(photo.sample(30, 10), want, "{name}");
        assert!(
            codes(&photo).contains(&"first-of-several".to_owned()),
            "{name}"
        );
    }
    // Two directories.
    let mut tiff = Picture::scene().tiff(false, vec![]);
    let at = u32::from_le_bytes(tiff[4..8].try_into().expect("four")) as usize;
    let entries = usize::from(u16::from_le_bytes([tiff[at], tiff[at + 1]]));
    let next = at + 2 + 12 * entries;
    let end = tiff.len() as u32;
    tiff[next..next + 4].copy_from_slice(&end.to_le_bytes());
    Writer { big: false }.directory(&mut tiff, &[(256, Value::Long(vec![16]))], 0);
    let photo = Photo::decode(&tiff).expect("it opens");
    assert!(codes(&photo).contains(&"first-of-several".to_owned()));
    assert_eq!(photo.sample(30, 10), want);
}

/// 16-bit codes come through exactly: the curve of the sRGB standard at every one of them.
#[test]
fn sixteen_bits_exactly() {
    use tabside::colour::TransferCurve;
    let codes: Vec<u16> = (0..3 * 64 * 20_u32).map(|i| (i * 17 + 3) as u16).collect();
    let picture = Picture::from_codes(16, 3, &codes);
    for (name, file) in [
        ("PNG", picture.png()),
        ("TIFF", picture.tiff(false, vec![])),
        ("big-endian TIFF", picture.tiff(true, vec![])),
    ] {
        let photo = Photo::decode(&file).expect(name);
        assert_eq!(photo.info().space.bits, 16, "{name}");
        for (i, code) in codes.as_chunks::<3>().0.iter().enumerate() {
            let sample = photo.sample(i as u32 % 64, i as u32 / 64).expect("inside");
            let want = code
                .map(|c| TransferCurve::Srgb.linear_from_encoded(f64::from(c) / 65_535.0) as f32);
            assert_eq!(sample.linear_rgb, want, "{name}: pixel {i}");
        }
    }
}

#[test]
fn transparency_is_left_out_and_said() {
    for bits in [8, 16] {
        for channels in [2, 4] {
            let full = if bits == 8 { 255 } else { u16::MAX };
            let codes: Vec<u16> = (0..64 * 16 * u32::from(channels))
                .map(|i| {
                    let alpha = (i + 1) % u32::from(channels) == 0;
                    if alpha { full / 3 } else { full / 2 }
                })
                .collect();
            let picture = Picture::from_codes(bits, channels, &codes);
            for file in [picture.png(), picture.tiff(false, vec![])] {
                let photo = match Photo::decode(&file) {
                    // Grey with alpha as TIFF is refused in words.
                    Err(error) if channels == 2 => {
                        assert_eq!(error.kind(), "unsupported");
                        continue;
                    }
                    opened => opened.expect("it opens"),
                };
                let checks = support::codes(&photo);
                assert!(checks.contains(&"transparency-ignored".to_owned()));
                let peak = photo.sample(5, 5).expect("inside").peak;
                assert!((peak - 0.5).abs() < 0.01, "{bits} {channels}: {peak}");
            }
        }
    }
}

/// RGB with a fourth channel of no stated meaning (a mask), and grey stored with 0 for white.
#[test]
fn odd_but_sound_tiffs() {
    let codes: Vec<u16> = (0..64 * 16 * 4_u32).map(|i| (i * 7 % 256) as u16).collect();
    let masked = Picture::from_codes(8, 4, &codes).tiff(false, vec![(338, Value::Short(vec![0]))]);
    let photo = Photo::decode(&masked).expect("it opens");
    for (i, code) in codes.as_chunks::<4>().0.iter().enumerate() {
        let sample = photo.sample(i as u32 % 64, i as u32 / 64).expect("inside");
        let [r, g, b, _] = *code;
        let want = f32::from(r.max(g).max(b)) / 255.0;
        assert!((sample.peak - want).abs() < 1e-6, "pixel {i}");
    }
    let codes: Vec<u16> = (0..64 * 16_u32).map(|i| (i % 256) as u16).collect();
    let negative =
        Picture::from_codes(8, 1, &codes).tiff(false, vec![(262, Value::Short(vec![0]))]);
    let photo = Photo::decode(&negative).expect("it opens");
    let linear = |x, y| photo.sample(x, y).expect("inside").linear_rgb;
    assert_eq!((linear(0, 0), linear(63, 3)), ([1.0; 3], [0.0; 3]));
}

/// Marks of PNG itself (W3C PNG, third edition, 11.3.2) name the space; a profile goes first.
#[test]
fn png_marks_of_colour() {
    let png = with_chunk(&Picture::scene().png(), b"sRGB", &[0]);
    let photo = Photo::decode(&png).expect("it opens");
    assert_eq!(photo.info().space.source, SpaceSource::Format);
    assert_eq!(photo.info().space.name, "sRGB");
    assert!(codes(&photo).is_empty(), "{:?}", photo.checks());
    let png = with_chunk(&Picture::scene().png(), b"cICP", &[12, 13, 0, 1]);
    let photo = Photo::decode(&png).expect("it opens");
    assert_eq!(photo.info().space.name, "Display P3");
    let icc = moxcms::ColorProfile::new_adobe_rgb().encode().expect("ICC");
    let png = with_chunk(&Picture::scene().icc(icc).png(), b"sRGB", &[0]);
    let photo = Photo::decode(&png).expect("it opens");
    assert_eq!(photo.info().space.source, SpaceSource::Icc);
}
