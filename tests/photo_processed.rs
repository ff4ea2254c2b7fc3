//! What a file says of its own treatment and compression, and how that is told.

mod support;

use support::exif::{Exif, ratio, short, text};
use support::files::{Picture, segment};
use tabside::error::{CheckCode, Severity};
use tabside::photo::Photo;

/// Severity and text of the check of a kind.
fn found(file: &[u8], code: CheckCode) -> Option<(Severity, String)> {
    let photo = Photo::decode(file).expect("it opens");
    let mut of_code = photo.checks().iter().filter(|c| c.code == code);
    let first = of_code.next().map(|c| (c.severity, c.text.clone()));
    assert_eq!(of_code.next(), None, "one check of a kind");
    first
}

fn processed(exif: Exif) -> Option<(Severity, String)> {
    let files = [
        Picture::scene().exif(exif.block()).jpeg(),
        Picture::scene().exif(exif.block()).png(),
        Picture::scene().exif(exif.block()).webp(),
    ];
    let [a, b, c] = files.map(|f| found(&f, CheckCode::Processed));
    assert_eq!((&a, &a), (&b, &c), "the format does not matter");
    a
}

/// A camera that did nothing special and says so.
fn camera() -> Exif {
    Exif::default()
        .main(0x010F, text("Invented Optics"))
        .main(0x0132, text("2026:05:17 10:32:07"))
        .exif(0x829A, ratio(1, 125))
        .exif(0x9003, text("2026:05:17 10:32:05"))
        .exif(0xA403, short(0))
}

#[test]
fn an_ordinary_camera_is_quiet() {
    assert_eq!(processed(Exif::default()), None);
    assert_eq!(processed(camera()), None);
    let all_zero = [0xA401, 0xA406, 0xA408, 0xA409, 0xA40A]
        .into_iter()
        .fold(camera(), |e, tag| e.exif(tag, short(0)));
    assert_eq!(processed(all_zero), None);
    assert_eq!(processed(camera().exif(0xA404, ratio(1, 1))), None);
    assert_eq!(processed(camera().exif(0xA404, ratio(102, 100))), None);
}

#[test]
fn treatments_ask_for_care() {
    for (exif, word) in [
        (camera().exif(0xA401, short(1)), "HDR"),
        (camera().exif(0xA401, short(7)), "HDR"),
        (camera().exif(0xA406, short(2)), "portrait"),
        (camera().exif(0xA406, short(3)), "night"),
        (camera().exif(0xA408, short(2)), "contrast"),
        (camera().exif(0xA409, short(1)), "saturation"),
        (camera().exif(0xA404, ratio(3, 2)), "zoom of 1.5"),
    ] {
        let (severity, text) = processed(exif).expect(word);
        assert_eq!(severity, Severity::Care, "{word}");
        assert!(text.contains(word), "{text}");
    }
    // Several in one check.
    let (_, text) = processed(
        camera()
            .exif(0xA401, short(3))
            .exif(0xA404, ratio(2, 1))
            .exif(0xA409, short(2)),
    )
    .expect("processed");
    assert!(
        ["HDR", "saturation", "zoom of 2.0"]
            .iter()
            .all(|w| text.contains(w)),
        "{text}"
    );
}

#[test]
fn hints_are_notes() {
    let later = |date: &str| {
        processed(
            Exif::default()
                .main(0x0132, text(date))
                .exif(0x9003, text("2026:05:31 23:55:00")),
        )
        .map(|(severity, _)| severity)
    };
    assert_eq!(later("2026:05:31 23:59:00"), None);
    assert_eq!(later("2026:06:01 00:02:00"), None);
    assert_eq!(later("2026:05:31 10:00:00"), None);
    assert_eq!(later("2026:06:01 00:20:00"), Some(Severity::Note));
    assert_eq!(later("2027:01:01 00:00:00"), Some(Severity::Note));
    assert_eq!(later("9999:12:31 23:59:59"), Some(Severity::Note));
    let sharpened = processed(camera().exif(0xA40A, short(2)));
    assert_eq!(sharpened.map(|(s, _)| s), Some(Severity::Note));
}

/// Even noise, so that no other sign is in the pixels.
fn noise(width: u32, height: u32) -> Picture {
    let mut dice = support::Dice(5);
    let codes: Vec<u8> = (0..width * height)
        .map(|_| 90 + (dice.next() % 80) as u8)
        .collect();
    Picture::rgb8(width, height, |x, y| [codes[(y * width + x) as usize]; 3])
}

fn jpeg(picture: &Picture, quality: u8, exif: Option<Vec<u8>>) -> Vec<u8> {
    let codes: Vec<u8> = picture.codes.iter().map(|c| *c as u8).collect();
    let mut out = Vec::new();
    image::codecs::jpeg::JpegEncoder::new_with_quality(&mut out, quality)
        .encode(
            &codes,
            picture.width,
            picture.height,
            image::ExtendedColorType::Rgb8,
        )
        .expect("a JPEG");
    if let Some(block) = exif {
        let head = segment(0xE1, &[b"Exif\0\0", block.as_slice()].concat());
        out.splice(2..2, head);
    }
    out
}

#[test]
fn compression_counts_with_what_the_camera_says() {
    let of = |picture: &Picture, quality, exif| {
        found(&jpeg(picture, quality, exif), CheckCode::Recompressed).map(|(s, _)| s)
    };
    let (small, large) = (noise(640, 480), noise(2100, 400));
    let exif = || Some(camera().block());
    for quality in 60..=100 {
        assert_eq!(of(&small, quality, exif()), None, "quality {quality}");
    }
    for quality in 85..=100 {
        assert_eq!(of(&small, quality, None), None, "quality {quality}");
    }
    assert_eq!(of(&small, 50, exif()), Some(Severity::Note));
    assert_eq!(of(&small, 80, None), Some(Severity::Care));
    assert_eq!(of(&large, 80, None), None);
    assert_eq!(of(&large, 72, None), Some(Severity::Care));
    assert_eq!(of(&small, 20, None), Some(Severity::Care));
}

#[test]
fn the_shape_of_a_screen_is_a_note() {
    let of =
        |width, height| found(&noise(width, height).png(), CheckCode::Recompressed).map(|(s, _)| s);
    assert_eq!(of(1280, 720), Some(Severity::Note));
    assert_eq!(of(720, 1560), Some(Severity::Note));
    assert_eq!(of(1200, 800), None);
    assert_eq!(of(1024, 768), None);
    let own = noise(1280, 720).exif(camera().block()).png();
    assert_eq!(found(&own, CheckCode::Recompressed), None);
}
