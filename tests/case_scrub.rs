//! Photos are freed of position, serial numbers and names before they are written; what a reading
//! stands on stays, bit for bit.

mod support;

use proptest::prelude::*;
use support::exif::{Exif, Value, Writer, ratio, short, text};
use support::files::{Picture, chunk, riff_chunk, segment, with_chunk};
use tabside::engine::{Engine, ReadOptions, Report};
use tabside::photo::Photo;
use tabside::photo::scrub::{Scrubbed, scrub};
use tabside::scene::Scene;

/// What must not be found in a file any more. Each is long enough not to lie within its entry.
const SECRETS: [&str; 12] = [
    "SERIAL-7781236",
    "LENS-SER-99812",
    "UNIQUE-ID-00017",
    "OWNER-NAME-Q",
    "ARTIST-NAME-Q",
    "COPYRIGHT-NAME-Q",
    "COMPUTER-NAME-Q",
    "COMMENT-TEXT-Q",
    "DESCRIPTION-Q",
    "MAKERNOTE-SECRET",
    "PLACE-NAME-SECRET",
    "XP-AUTHOR-SECRET",
];

/// Metadata with facts that stay and secrets that go.
fn telling(big_endian: bool) -> Exif {
    let bytes = |t: &str| Value::Undefined(t.as_bytes().to_vec());
    let mut exif = Exif::oriented(6)
        .main(0x010E, text("DESCRIPTION-Q"))
        .main(0x010F, text("Invented Optics"))
        .main(0x0110, text("Model One"))
        .main(0x0131, text("firmware 1.2"))
        .main(0x0132, text("2026:05:17 10:32:05"))
        .main(0x013B, text("ARTIST-NAME-Q"))
        .main(0x013C, text("COMPUTER-NAME-Q"))
        .main(0x8298, text("COPYRIGHT-NAME-Q"))
        .main(0x9C9D, bytes("XP-AUTHOR-SECRET"))
        .exif(0x829A, ratio(1, 125))
        .exif(0x829D, ratio(22, 1))
        .exif(0x8827, short(200))
        .exif(0x9003, text("2026:05:17 10:32:05"))
        .exif(0x9209, short(1))
        .exif(0x927C, bytes("MAKERNOTE-SECRET"))
        .exif(0x9286, bytes("COMMENT-TEXT-Q"))
        .exif(0xA001, short(65_535))
        .exif(0xA403, short(1))
        .exif(0xA404, ratio(12, 10))
        .exif(0xA408, short(2))
        .exif(0xA420, text("UNIQUE-ID-00017"))
        .exif(0xA430, text("OWNER-NAME-Q"))
        .exif(0xA431, text("SERIAL-7781236"))
        .exif(0xA435, text("LENS-SER-99812"))
        .interoperability(1, text("R03"))
        .gps(2, Value::Rational(vec![[48, 1], [8, 1], [424_242, 10_000]]))
        .gps(27, bytes("PLACE-NAME-SECRET"));
    exif.big_endian = big_endian;
    exif
}

/// The entries of `telling` that a TIFF has in its first directory.
fn in_tiff() -> Vec<(u16, Value)> {
    let mut out = telling(false).main;
    out.push((
        0x02BC,
        Value::Undefined(b"<x:xmpmeta>OWNER-NAME-Q</x:xmpmeta>".to_vec()),
    ));
    out.push((0xC62F, text("SERIAL-7781236")));
    out
}

fn holds(bytes: &[u8], word: &[u8]) -> bool {
    bytes.windows(word.len()).any(|w| w == word)
}

/// 424242 ∕ 10000, either way round.
const SECONDS: [[u8; 8]; 2] = [
    [0x32, 0x79, 0x06, 0, 0x10, 0x27, 0, 0],
    [0, 0x06, 0x79, 0x32, 0, 0, 0x27, 0x10],
];

fn freed(name: &str, bytes: &[u8]) -> Scrubbed {
    let out = scrub(bytes).expect(name);
    for secret in SECRETS {
        assert!(!holds(&out.bytes, secret.as_bytes()), "{name}: {secret}");
    }
    for seconds in SECONDS {
        assert!(!holds(&out.bytes, &seconds), "{name}: position");
    }
    // Once is enough.
    let again = scrub(&out.bytes).expect(name);
    assert_eq!(again.bytes, out.bytes, "{name}");
    assert!(again.removed.is_empty(), "{name}: {:?}", again.removed);
    out
}

/// Everything a photo says beside its pixels, and its pixels.
fn all_of(name: &str, bytes: &[u8]) -> (tabside::photo::PhotoInfo, Vec<[f32; 3]>, Vec<String>) {
    let photo = Photo::decode(bytes).expect(name);
    let (w, h) = (photo.width_px(), photo.height_px());
    let places = (0..h).flat_map(|y| (0..w).map(move |x| (x, y)));
    let pixels = places
        .map(|(x, y)| photo.sample(x, y).expect("inside").linear_rgb)
        .collect();
    let codes = support::codes(&photo);
    (photo.info().clone(), pixels, codes)
}

#[test]
fn facts_and_pixels_stay() {
    for big_endian in [false, true] {
        let picture = Picture::scene().exif(telling(big_endian).block());
        let xmp = [
            b"http://ns.adobe.com/xap/1.0/\0".as_slice(),
            b"<x:xmpmeta>SERIAL-7781236",
        ]
        .concat();
        let mut jpeg = picture.jpeg();
        let at = 2;
        jpeg.splice(at..at, segment(0xE1, &xmp));
        jpeg.splice(at..at, segment(0xED, b"Photoshop 3.0\0ARTIST-NAME-Q"));
        jpeg.splice(at..at, segment(0xFE, b"COMMENT-TEXT-Q"));
        jpeg.splice(at..at, segment(0xE2, b"MPF\0SERIAL-7781236"));
        jpeg.splice(at..at, segment(0xE4, b"SERIAL-7781236"));
        // A second picture behind the first, as phones put there.
        jpeg.extend(picture.jpeg());
        let mut png = with_chunk(&picture.png(), b"tEXt", b"Author\0ARTIST-NAME-Q");
        png = with_chunk(&png, b"iTXt", b"XML:com.adobe.xmp\0\0\0\0\0SERIAL-7781236");
        png = with_chunk(&png, b"zzZz", b"SERIAL-7781236");
        png.extend(b"OWNER-NAME-Q");
        let mut webp = picture.webp();
        webp.extend(riff_chunk(b"XMP ", b"SERIAL-7781236"));
        let size = (webp.len() as u32 - 8).to_le_bytes();
        webp.splice(4..8, size);
        webp.extend(b"OWNER-NAME-Q");
        let tiff = Picture::scene().tiff(big_endian, in_tiff());
        for (name, file, ending, what) in [
            (
                "JPEG",
                jpeg,
                ".jpg",
                &[
                    "position (GPS)",
                    "serial numbers and unique marks",
                    "maker's notes",
                    "XMP metadata",
                    "data behind the picture",
                ][..],
            ),
            (
                "PNG",
                png,
                ".png",
                &[
                    "position (GPS)",
                    "serial numbers and unique marks",
                    "maker's notes",
                    "XMP metadata",
                    "remarks and descriptions",
                ],
            ),
            (
                "WebP",
                webp,
                ".webp",
                &[
                    "position (GPS)",
                    "serial numbers and unique marks",
                    "maker's notes",
                    "XMP metadata",
                    "data behind the picture",
                ],
            ),
            (
                "TIFF",
                tiff,
                ".tif",
                &[
                    "serial numbers and unique marks",
                    "XMP metadata",
                    "names of people and computers",
                ],
            ),
        ] {
            for secret in ["SERIAL-7781236", "ARTIST-NAME-Q"] {
                assert!(
                    holds(&file, secret.as_bytes()),
                    "{name}: the test's own {secret}"
                );
            }
            let out = freed(name, &file);
            assert_eq!(out.ending, ending);
            for what in what {
                assert!(
                    out.removed.iter().any(|r| r == what),
                    "{name}: {what} in {:?}",
                    out.removed
                );
            }
            let (before, after) = (all_of(name, &file), all_of(name, &out.bytes));
            assert_eq!(before, after, "{name}");
            assert_eq!(after.0.facts.orientation, 6, "{name}");
            assert_eq!(
                after.0.facts.camera.as_deref(),
                Some("Invented Optics Model One"),
                "{name}"
            );
            if name != "TIFF" {
                assert_eq!(after.0.space.name, "Adobe RGB (1998)", "{name}");
                assert_eq!(after.0.facts.exposure_s, Some(1.0 / 125.0), "{name}");
            }
        }
    }
}

/// Files without anything to remove are not touched, whatever their kind.
#[test]
fn nothing_to_remove() {
    let p3 = moxcms::ColorProfile::new_display_p3()
        .encode()
        .expect("ICC");
    let plain = Picture::scene().icc(p3).exif(Exif::oriented(3).block());
    for (name, file) in [
        ("JPEG", plain.jpeg()),
        (
            "progressive",
            include_bytes!("support/progressive.jpg").to_vec(),
        ),
        ("PNG", plain.png()),
        ("WebP", plain.webp()),
        ("lossy WebP", include_bytes!("support/lossy.webp").to_vec()),
        ("TIFF", plain.tiff(false, vec![(274, short(3))])),
        ("big-endian TIFF", plain.tiff(true, vec![])),
        ("LZW TIFF", plain.tiff_lzw()),
    ] {
        let out = scrub(&file).expect(name);
        assert_eq!(out.removed, Vec::<String>::new(), "{name}");
        assert_eq!(all_of(name, &out.bytes), all_of(name, &file), "{name}");
        assert!(out.bytes == file, "{name}");
    }
}

/// The thumbnail goes with its directory, and what no entry points to goes too.
#[test]
fn what_lies_between() {
    let mut exif = Exif::oriented(6);
    let w = Writer { big: false };
    exif.next = 8 + w.size(&exif.main);
    let mut block = exif.block();
    w.directory(
        &mut block,
        &[(0x0112, short(1)), (0x013B, text("ARTIST-NAME-Q"))],
        0,
    );
    block.extend(b"MAKERNOTE-SECRET left over from an older version");
    let file = Picture::scene().exif(block).jpeg();
    let out = freed("JPEG", &file);
    assert_eq!(out.removed, ["thumbnail"]);
    assert_eq!(all_of("", &file), all_of("", &out.bytes));
}

/// Metadata that cannot be walked through is blanked; where that would turn the picture, it is said.
#[test]
fn damaged_metadata() {
    let junk = Picture::scene()
        .exif(b"no block OWNER-NAME-Q".to_vec())
        .jpeg();
    let out = freed("junk", &junk);
    assert_eq!(out.removed, ["damaged metadata"]);
    assert_eq!(all_of("junk", &out.bytes), all_of("junk", &junk));
    let mut block = telling(false)
        .main(0x011A, Value::Lie(5, 1, 900_000))
        .block();
    let file = Picture::scene().exif(block.clone()).jpeg();
    let error = scrub(&file).expect_err("its facts would be lost");
    assert_eq!(error.kind(), "unsupported", "{error}");
    block.truncate(40);
    let _ = scrub(&Picture::scene().exif(block).jpeg());
    // A TIFF whose pixels lie where a secret is said to be keeps its pixels.
    let tiff = Picture::scene().tiff(false, vec![(0x013B, Value::Lie(2, 64, 8))]);
    let out = scrub(&tiff).expect("it is freed");
    assert_eq!(all_of("", &tiff).1, all_of("", &out.bytes).1);
    // Its decoder reads beyond the strip, into what would go or be closed up; so it is refused.
    for lie in [(256, Value::Long(vec![52])), (273, Value::Long(vec![9]))] {
        let mut more = in_tiff();
        more.push(lie);
        let tiff = Picture::scene().tiff(false, more);
        assert_eq!(Photo::decode(&tiff).err(), None);
        let error = scrub(&tiff).expect_err("its pixels would change");
        assert_eq!(error.kind(), "unsupported", "{error}");
    }
}

#[test]
fn no_pictures() {
    for (bytes, kind) in [
        (&b""[..], "file-damaged"),
        (b"x", "file-damaged"),
        (b"\xFF\xD8\xFF", "file-damaged"),
        (b"\x89PNG\r\n\x1a\n", "file-damaged"),
        (b"RIFF\xFF\xFF\xFF\xFFWEBP", "file-damaged"),
        (b"GIF89a", "unsupported"),
        (b"II*\0\xFF\xFF\xFF\xFF", "unsupported"),
    ] {
        assert_eq!(
            scrub(bytes).expect_err("it is none").kind(),
            kind,
            "{bytes:?}"
        );
    }
}

/// The whole reading of the demo photo with telling metadata, before and after.
#[test]
fn the_reading_is_the_same_to_the_last_bit() {
    #[derive(serde::Deserialize)]
    struct Truth {
        scene: Scene,
    }
    let base = format!("{}/fixtures/demo/demo", env!("CARGO_MANIFEST_DIR"));
    let photo = std::fs::read(format!("{base}.jpg")).expect("the photo");
    let truth = std::fs::read_to_string(format!("{base}.truth.json")).expect("the truth");
    let truth: Truth = serde_json::from_str(&truth).expect("a truth file");
    let mut exif = telling(false);
    // Upright, so that the scene fits.
    exif.main.retain(|(tag, _)| *tag != 0x0112);
    let mut telling = vec![0xFF, 0xD8];
    telling.extend(segment(
        0xE1,
        &[b"Exif\0\0", exif.block().as_slice()].concat(),
    ));
    telling.extend(&photo[2..]);
    let read = |bytes: &[u8]| -> Report {
        let mut engine = Engine::new().expect("an engine");
        let id = engine.open(bytes).expect("a photo").id;
        engine
            .read(id, &truth.scene, &ReadOptions::default())
            .expect("a report")
    };
    let (before, after) = (read(&telling), read(&freed("demo", &telling).bytes));
    assert_eq!(before, after);
    assert!(after.readings.len() > 4);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1500, ..ProptestConfig::default() })]

    /// Bytes changed at random: freed or an error; and what is freed gives the pixels of before.
    #[test]
    fn no_panic(
        which in 0_usize..5,
        changes in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 1..8),
        near_head in any::<bool>(),
    ) {
        let picture = Picture::scene().exif(telling(false).block());
        let mut file = match which {
            0 => picture.jpeg(),
            1 => picture.png(),
            2 => picture.webp(),
            3 => Picture::scene().tiff(false, in_tiff()),
            _ => [chunk(b"IHDR", b"x"), picture.tiff_lzw()].concat().split_off(13),
        };
        for (at, value) in changes {
            let most = if near_head { file.len().min(900) } else { file.len() };
            let at = at.index(most);
            file[at] = value;
        }
        if let (Ok(out), Ok(before)) = (scrub(&file), Photo::decode(&file)) {
            let after = Photo::decode(&out.bytes);
            prop_assert!(after.is_ok(), "{:?}", after.err());
            let after = after.expect("it was looked at");
            let same = |x, y| before.sample(x, y).map(|s| s.linear_rgb) == after.sample(x, y).map(|s| s.linear_rgb);
            prop_assert!((0..before.height_px()).all(|y| (0..before.width_px()).all(|x| same(x, y))));
            prop_assert_eq!(&before.info().facts, &after.info().facts);
        }
    }
}
