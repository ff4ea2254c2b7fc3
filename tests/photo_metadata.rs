//! What a file says beside its pixels: orientation, colour space, capture facts; and what must
//! never be kept of it.

mod support;

use support::codes;
use support::exif::{Exif, Value, Writer, ratio, short, text};
use support::files::{Picture, riff_chunk};
use tabside::photo::{Photo, SpaceSource};

/// Columns of the six squares of the upright picture, 2 across and 3 down.
const SQUARES: [[u8; 3]; 6] = [
    [220, 40, 40],
    [40, 200, 60],
    [50, 60, 210],
    [230, 220, 60],
    [20, 20, 20],
    [240, 240, 240],
];
const SIDE: u32 = 16;

/// The stored picture whose upright view is the six squares, by the definition of EXIF 2.32 tag
/// 0x0112: for each orientation, which square lies where in the file (written down by hand).
fn stored(orientation: u16) -> Picture {
    let (across, places): (u32, [usize; 6]) = match orientation {
        1 => (2, [0, 1, 2, 3, 4, 5]),
        2 => (2, [1, 0, 3, 2, 5, 4]),
        3 => (2, [5, 4, 3, 2, 1, 0]),
        4 => (2, [4, 5, 2, 3, 0, 1]),
        5 => (3, [0, 2, 4, 1, 3, 5]),
        6 => (3, [1, 3, 5, 0, 2, 4]),
        7 => (3, [5, 3, 1, 4, 2, 0]),
        _ => (3, [4, 2, 0, 5, 3, 1]),
    };
    Picture::rgb8(across * SIDE, 6 / across * SIDE, |x, y| {
        SQUARES[places[(y / SIDE * across + x / SIDE) as usize]]
    })
}

#[test]
fn every_orientation_in_every_format() {
    for orientation in 1..=8 {
        for big_endian in [false, true] {
            let mut exif = Exif::oriented(orientation);
            exif.big_endian = big_endian;
            let plain = stored(orientation);
            let picture = plain.clone().exif(exif.block());
            for (name, file, tolerance) in [
                ("JPEG", picture.jpeg(), 4.0),
                ("PNG", picture.png(), 0.0),
                ("WebP", picture.webp(), 0.0),
                (
                    "TIFF",
                    plain.tiff(big_endian, vec![(274, short(orientation))]),
                    0.0,
                ),
            ] {
                let name = format!("{name}, orientation {orientation}");
                let photo = Photo::decode(&file).expect(&name);
                assert_eq!((photo.width_px(), photo.height_px()), (32, 48), "{name}");
                assert_eq!(u16::from(photo.info().facts.orientation), orientation);
                for (i, want) in SQUARES.iter().enumerate() {
                    let at = |k: u32| SIDE * k + SIDE / 2;
                    let sample = photo
                        .sample(at(i as u32 % 2), at(i as u32 / 2))
                        .expect("inside");
                    for (got, want) in sample.linear_rgb.iter().zip(want) {
                        let code = tabside::colour::TransferCurve::Srgb
                            .encoded_from_linear(f64::from(*got))
                            * 255.0;
                        assert!(
                            (code - f64::from(*want)).abs() <= tolerance + 0.01,
                            "{name}, square {i}: {code} should be {want}"
                        );
                    }
                }
            }
        }
    }
}

#[test]
fn orientations_that_are_none() {
    for orientation in [0, 9, 77, u16::MAX] {
        let file = stored(1).exif(Exif::oriented(orientation).block()).png();
        let photo = Photo::decode(&file).expect("it opens");
        assert_eq!(photo.info().facts.orientation, 1);
        assert_eq!(photo.width_px(), 32);
    }
    // That of the thumbnail (directory 1) is not the picture's.
    let mut exif = Exif::oriented(1);
    let w = Writer { big: false };
    exif.next = 8 + w.size(&exif.main);
    let mut block = exif.block();
    w.directory(&mut block, &[(0x0112, short(6))], 0);
    let photo = Photo::decode(&stored(1).exif(block).png()).expect("it opens");
    assert_eq!(photo.info().facts.orientation, 1);
}

/// The colour space as EXIF states it (EXIF 2.32, tag 0xA001; DCF 2.0 for R03).
#[test]
fn space_by_exif() {
    let of = |exif: Exif| {
        let photo = Photo::decode(&Picture::scene().exif(exif.block()).jpeg()).expect("it opens");
        let space = photo.info().space.clone();
        (space.name, space.source, codes(&photo))
    };
    let adobe = ("Adobe RGB (1998)".to_owned(), SpaceSource::Exif, vec![]);
    let assumed = (
        "sRGB".to_owned(),
        SpaceSource::Assumed,
        vec!["space-assumed".to_owned()],
    );
    let space = |v| Exif::default().exif(0xA001, short(v));
    assert_eq!(of(space(1)), ("sRGB".to_owned(), SpaceSource::Exif, vec![]));
    assert_eq!(of(space(2)), adobe);
    assert_eq!(of(space(65_535).interoperability(1, text("R03"))), adobe);
    assert_eq!(of(space(65_535).interoperability(1, text("R98"))), assumed);
    assert_eq!(of(space(65_535)), assumed);
    assert_eq!(of(Exif::oriented(1)), assumed);

    // The numbers follow the name: a saturated green has more of it in Adobe RGB.
    let green = Picture::rgb8(16, 16, |_, _| [0, 200, 0]);
    let y = |exif: Exif| {
        let photo = Photo::decode(&green.clone().exif(exif.block()).png()).expect("it opens");
        let rgb = photo
            .sample(8, 8)
            .expect("inside")
            .linear_rgb
            .map(f64::from);
        photo.xyz_d65_from_linear_rgb().apply(rgb)
    };
    // Adobe RGB (1998): (200 / 255)^(563/256) · [0.1856, 0.6274, 0.0707].
    for (got, want) in y(space(2)).iter().zip([0.108_756, 0.367_645, 0.041_425]) {
        assert!((got - want).abs() < 2e-4, "{got} should be {want}");
    }
    assert!((y(space(1))[1] - 0.577_580 * 0.715_169).abs() < 2e-4);
}

#[test]
fn a_profile_goes_before_exif() {
    let p3 = moxcms::ColorProfile::new_display_p3()
        .encode()
        .expect("ICC");
    let exif = Exif::default().exif(0xA001, short(2)).block();
    let picture = Picture::scene().icc(p3).exif(exif.clone());
    for file in [picture.jpeg(), picture.png(), picture.webp()] {
        let photo = Photo::decode(&file).expect("it opens");
        assert_eq!(photo.info().space.source, SpaceSource::Icc);
        assert!(
            photo.info().space.name.contains("P3"),
            "{:?}",
            photo.info().space
        );
    }
    // One that will not do falls back to what EXIF says.
    let mut ink = support::icc::Profile::rgb(2, b"Lab ");
    ink.space = *b"CMYK";
    let picture = Picture::scene().icc(ink.bytes()).exif(exif);
    for file in [picture.jpeg(), picture.png(), picture.webp()] {
        let photo = Photo::decode(&file).expect("it opens");
        assert_eq!(photo.info().space.name, "Adobe RGB (1998)");
        assert_eq!(codes(&photo), ["profile-unusable"]);
    }
}

/// All the facts that are kept.
fn camera() -> Exif {
    Exif::default()
        .main(0x010F, text("Invented Optics"))
        .main(0x0110, text("Invented Optics Mark 3"))
        .main(0x0131, text("Darkroom 7.1"))
        .main(0x0132, text("2026:05:18 09:00:00"))
        .exif(0x829A, ratio(1, 125))
        .exif(0x829D, ratio(71, 10))
        .exif(0x8827, short(200))
        .exif(0x9003, text("2026:05:17 10:32:05"))
        .exif(0x9209, short(0x19))
        .exif(0xA403, short(1))
        .exif(0xA404, ratio(3, 2))
}

#[test]
fn facts() {
    for big_endian in [false, true] {
        let mut exif = camera();
        exif.big_endian = big_endian;
        let picture = Picture::scene().exif(exif.block());
        for (format, file) in [
            ("JPEG", picture.jpeg()),
            ("PNG", picture.png()),
            ("WebP", picture.webp()),
        ] {
            let photo = Photo::decode(&file).expect(format);
            let facts = &photo.info().facts;
            assert_eq!(facts.format, format);
            assert_eq!(facts.camera.as_deref(), Some("Invented Optics Mark 3"));
            assert_eq!(facts.exposure_s, Some(1.0 / 125.0));
            assert_eq!(facts.f_number, Some(7.1));
            assert_eq!(facts.iso, Some(200));
            assert_eq!(facts.flash_fired, Some(true));
            assert_eq!(facts.white_balance_auto, Some(false));
            assert_eq!(facts.digital_zoom, Some(1.5));
            assert_eq!(facts.taken.as_deref(), Some("2026-05-17 10:32:05"));
            assert_eq!(facts.software.as_deref(), Some("Darkroom 7.1"));
            assert!(
                codes(&photo).contains(&"processed".to_owned()),
                "the zoom is said"
            );
        }
    }
    let of = |exif: Exif| {
        let photo = Photo::decode(&Picture::scene().exif(exif.block()).png()).expect("it opens");
        photo.info().facts.clone()
    };
    let joined = of(Exif::default()
        .main(0x010F, text("Maker"))
        .main(0x0110, text("M1")));
    assert_eq!(joined.camera.as_deref(), Some("Maker M1"));
    assert_eq!(
        of(Exif::default().exif(0x9209, short(0x10))).flash_fired,
        Some(false)
    );
    let auto = of(Exif::default().exif(0xA403, short(0)));
    assert_eq!(auto.white_balance_auto, Some(true));
    let second_best = of(Exif::default().main(0x0132, text("2026:05:18 09:00:00")));
    assert_eq!(second_best.taken.as_deref(), Some("2026-05-18 09:00:00"));
    for no_date in [
        "0000:00:00 00:00:00",
        "    :  :     :  :  ",
        "yesterday",
        "2026:5:1 1:1:1",
    ] {
        assert_eq!(
            of(Exif::default().exif(0x9003, text(no_date))).taken,
            None,
            "{no_date}"
        );
    }
}

#[test]
fn texts_are_cleaned() {
    let of = |value: Value| {
        let exif = Exif::default().main(0x0131, value).block();
        let photo = Photo::decode(&Picture::scene().exif(exif).png()).expect("it opens");
        photo.info().facts.software.clone()
    };
    assert_eq!(
        of(text("  Dark\u{7}room\r\n\t2  ")).as_deref(),
        Some("Darkroom2")
    );
    let marks = "a\u{202E}b\u{2066}c\u{200F}d\u{FEFF}e\u{200B}f\u{61C}g\u{AD}h\u{2028}i";
    assert_eq!(of(text(marks)).as_deref(), Some("abcdefghi"));
    assert_eq!(
        of(Value::Ascii(b"caf\xE9\0".to_vec())).as_deref(),
        Some("caf")
    );
    assert_eq!(of(text(" \u{202E} ")), None);
    assert_eq!(of(text(&"x".repeat(5000))).map(|t| t.len()), Some(100));
    assert_eq!(of(text("<b>&amp;")).as_deref(), Some("<b>&amp;"));
}

/// Whatever EXIF claims, the photo opens, soon.
#[test]
fn absurd_exif() {
    let long = "x".repeat(10 << 20);
    let mut circle = camera();
    circle.next = 8;
    let many: Vec<(u16, Value)> = (0..4000)
        .map(|i| (0x8769, Value::Long(vec![10 + 12 * i])))
        .collect();
    let cases = [
        (
            "huge count",
            camera().main(0x9999, Value::Lie(3, u32::MAX, 8)).block(),
            true,
        ),
        (
            "bad offset",
            camera()
                .main(0x9999, Value::Lie(2, 50, u32::MAX - 3))
                .block(),
            true,
        ),
        (
            "offset of the EXIF directory",
            Exif::oriented(1)
                .main(0x8769, Value::Lie(4, 1, 90_000))
                .block(),
            true,
        ),
        ("circle", circle.block(), false),
        (
            "itself as child",
            Exif::oriented(3).main(0x8769, Value::Long(vec![8])).block(),
            true,
        ),
        (
            "unknown type",
            camera().main(0x9999, Value::Lie(99, 1, 1)).block(),
            false,
        ),
        (
            "text of 10 MB",
            Exif::oriented(1).main(0x0131, text(&long)).block(),
            true,
        ),
        (
            "3 MB of text endings",
            Exif::oriented(1)
                .main(0x0131, Value::Ascii(vec![0; 3 << 20]))
                .block(),
            false,
        ),
        (
            "thousands of children",
            Exif {
                main: many,
                ..Exif::default()
            }
            .block(),
            true,
        ),
        ("nothing", vec![], true),
        ("a letter", b"I".to_vec(), true),
        ("text", b"this is no EXIF block at all".to_vec(), true),
        ("cut off", camera().block()[..60].to_vec(), true),
    ];
    for (name, block, damaged) in cases {
        let before = std::time::Instant::now();
        let picture = Picture::scene().exif(block.clone());
        let mut files = vec![picture.png(), picture.webp()];
        if block.len() < 60_000 {
            files.push(picture.jpeg());
        }
        let made = before.elapsed();
        for file in files {
            let photo = Photo::decode(&file).expect(name);
            assert_eq!(photo.width_px(), 48, "{name}");
            if name == "itself as child" {
                assert_eq!(photo.info().facts.orientation, 3);
            }
            let said = codes(&photo).contains(&"metadata-damaged".to_owned());
            if damaged && !block.is_empty() {
                assert!(said, "{name}: the damage is said");
            }
        }
        let took = before.elapsed() - made;
        assert!(took.as_millis() < 1500, "{name} took {took:?}");
    }
}

#[test]
fn fractions_without_a_denominator() {
    let exif = Exif::default()
        .exif(0x829A, ratio(1, 0))
        .exif(0x829D, ratio(0, 0))
        .exif(0x8827, short(0))
        .exif(0xA404, ratio(u32::MAX, 0))
        .block();
    let photo = Photo::decode(&Picture::scene().exif(exif).png()).expect("it opens");
    let facts = &photo.info().facts;
    assert_eq!((facts.exposure_s, facts.f_number), (None, None));
    assert_eq!((facts.iso, facts.digital_zoom), (None, None));
}

/// A directory of pointers (0x8769), each to the place of another pointer, where the tag itself
/// reads as "34 665 entries follow": a file of 100 KB that unfolds to tens of millions of them.
#[test]
fn exif_that_would_fill_memory() {
    const ENTRIES: u32 = 8000;
    let mut block = b"II*\0\x08\0\0\0".to_vec();
    block.extend((ENTRIES as u16).to_le_bytes());
    for i in 0..ENTRIES {
        block.extend([0x69, 0x87, 4, 0, 1, 0, 0, 0]);
        block.extend((10 + 12 * i).to_le_bytes());
    }
    block.extend([0; 4]);
    let file = Picture::scene().exif(block).png();
    let before = std::time::Instant::now();
    let photo = Photo::decode(&file).expect("it opens");
    let took = before.elapsed();
    assert!(codes(&photo).contains(&"metadata-damaged".to_owned()));
    assert!(took.as_millis() < 50, "{took:?}");
}

/// Positions, serial numbers and names of people are in the file, and nowhere in what is said.
#[test]
fn private_facts_are_not_kept() {
    let secret = "PLANTED";
    let planted = |n: u32| text(&format!("{secret}{n}"));
    let degrees = || Value::Rational(vec![[48, 1], [12, 1], [777_777, 1000]]);
    let exif = camera()
        .main(0x013B, planted(1)) // Artist
        .main(0x8298, planted(2)) // Copyright
        .main(0x010E, planted(3)) // ImageDescription
        .exif(0xA430, planted(4)) // CameraOwnerName
        .exif(0xA431, planted(5)) // BodySerialNumber
        .exif(0xA435, planted(6)) // LensSerialNumber
        .exif(0xA420, planted(7)) // ImageUniqueID
        .exif(0x927C, Value::Undefined(format!("{secret}8").into_bytes())) // MakerNote
        .exif(
            0x9286,
            Value::Undefined(format!("ASCII\0\0\0{secret}9").into_bytes()),
        ) // UserComment
        .gps(0x0001, text("N"))
        .gps(0x0002, degrees())
        .gps(0x001B, Value::Undefined(format!("{secret}10").into_bytes()))
        .gps(0x001D, text("2026:05:17"));
    let picture = Picture::scene().exif(exif.block());
    let mut webp = picture.webp();
    webp.extend(riff_chunk(b"XMP ", format!("{secret}11").as_bytes()));
    let length = webp.len() as u32 - 8;
    webp[4..8].copy_from_slice(&length.to_le_bytes());
    for file in [picture.jpeg(), picture.png(), webp] {
        let text_of_file = String::from_utf8_lossy(&file);
        assert!(text_of_file.contains(secret), "the values are planted");
        let photo = Photo::decode(&file).expect("it opens");
        let info = photo.info();
        assert_eq!(info.facts.iso, Some(200), "EXIF is read");
        let json = serde_json::to_string(info).expect("JSON");
        let checks = serde_json::to_string(photo.checks()).expect("JSON");
        for said in [format!("{info:?}"), json, checks] {
            for private in [secret, "777", "48", "serial", "owner", "artist"] {
                // 48 is also the width; only the degrees would stand beside the seconds.
                let width = private == "48" && said.contains("48");
                assert!(width || !said.contains(private), "{private} in {said}");
            }
        }
    }
}
