//! Content that means harm: names that spreadsheets would run or that turn lines around, pages of
//! markup that call themselves pictures, parts of a case that are devices on some systems. Bad zip
//! files are in `case_bad.rs`, damaged pictures in `photo_damaged.rs`.

mod support;

use support::case::{small, small_file};
use support::files::Picture;
use support::zip::{Entry, file_of, zip};
use tabside::case::read;
use tabside::case::table::{Colours, cgats, guide_from};
use tabside::colour::Lab;
use tabside::photo::Photo;
use tabside::reading::{RegionReading, ZoneReading, ZoneReadings};
use tabside::scene::{Point, Region, RegionKind, Scene};

const SVG: &str =
    "<svg xmlns=\"http://www.w3.org/2000/svg\" onload=\"alert(1)\"><script>alert(1)</script></svg>";
const HTML: &str =
    "<!doctype html><title>x</title><script>alert(1)</script><img src=x onerror=alert(1)>";

/// A reading of one tab of this name.
fn table(name: &str) -> String {
    let zone = ZoneReading {
        lab: Lab([70.0, -1.0, 15.0]),
        chroma: 15.0,
        hue_deg: 94.0,
        doubt: 1.0,
        doubt_in_photo: 1.0,
        doubt_l_in_photo: 1.0,
        doubt_c_in_photo: 1.0,
        pixels: 1000,
        glare: 0.0,
        glare_value: 0.0,
        glare_measured: false,
        whiteness: 0.0,
        blotch: None,
        value_polarised: None,
    };
    let region = Region {
        id: "t1".to_owned(),
        kind: RegionKind::Tab,
        name: name.to_owned(),
        outline: [[0.0, 0.0], [9.0, 0.0], [9.0, 9.0]].map(Point).to_vec(),
        cervical: None,
        incisal: None,
        borders: None,
    };
    cgats(&Colours {
        photo: name.to_owned(),
        version: "0".to_owned(),
        created: Some(name.to_owned()),
        scene: Scene {
            regions: vec![region],
            ..Scene::default()
        },
        readings: vec![RegionReading {
            region: "t1".to_owned(),
            zones: ZoneReadings {
                cervical: None,
                middle: None,
                incisal: None,
                whole: Some(zone),
            },
            gradient: Vec::new(),
            blotch: None,
        }],
        checks: Vec::new(),
    })
    .expect("a table")
}

/// Cells as a spreadsheet parts them, out of their quotes.
fn cells(table: &str) -> Vec<String> {
    table
        .split(['\t', '\n'])
        .map(|cell| cell.trim_matches('"').to_owned())
        .collect()
}

#[test]
fn no_name_in_a_table_is_run_by_a_spreadsheet() {
    for name in [
        "=HYPERLINK(\"x\")",
        "+1+1",
        "-1-1",
        "@SUM(A1)",
        " =1",
        "\t=1",
        "\r\n=1",
        "\"=1",
        "\u{202e}=1",
        "\u{feff}=1",
        "\0=1",
        "＝1",
        "－1",
    ] {
        let text = table(name);
        for cell in cells(&text) {
            let number = cell.parse::<f64>().is_ok();
            assert!(
                number
                    || !cell
                        .trim_start()
                        .starts_with(['=', '+', '-', '@', '＝', '＋', '－', '＠']),
                "{name:?}: {cell:?} in {text}"
            );
        }
        // A number below zero stays one.
        assert!(text.contains("\t-1.0000\t"), "{text}");
    }
}

#[test]
fn no_name_in_a_table_turns_its_line_around_or_hides() {
    let name = "a\u{202e}b\u{2066}c\u{200b}d\u{feff}e\u{9b}f\u{1b}[2Jg\u{200d}h";
    let text = table(name);
    assert!(text.contains("\"abcdef[2Jg\u{200d}h whole\""), "{text}");
    // Whoever makes a guide of such a table by hand is told.
    for sign in ['\u{202e}', '\u{2067}', '\u{200b}', '<'] {
        let bad = format!("name,L*,a*,b*\nA{sign}1,70,1,15\nB1,60,1,15\n");
        let said = guide_from(bad.as_bytes(), "g")
            .expect_err("refused")
            .to_string();
        assert!(said.contains("belong to no name"), "{said}");
    }
}

#[test]
fn markup_that_calls_itself_a_picture_is_refused_in_words() {
    let jpeg = &[0xFF_u8, 0xD8, 0xFF, 0xE0][..];
    let png = &b"\x89PNG\r\n\x1a\n"[..];
    for (name, file) in [
        ("svg", SVG.as_bytes().to_vec()),
        (
            "svg after a declaration",
            format!("<?xml version=\"1.0\"?>\n{SVG}").into_bytes(),
        ),
        ("html", HTML.as_bytes().to_vec()),
        (
            "html after a mark",
            format!("\u{feff}  {HTML}").into_bytes(),
        ),
        ("html that begins as JPEG", [jpeg, HTML.as_bytes()].concat()),
        ("svg that begins as PNG", [png, SVG.as_bytes()].concat()),
        (
            "html that begins as GIF",
            [b"GIF89a/*", HTML.as_bytes()].concat(),
        ),
        (
            "html that begins as TIFF",
            [b"II*\0", HTML.as_bytes()].concat(),
        ),
        (
            "svg that begins as WebP",
            [b"RIFF\xff\0\0\0WEBPVP8 ", SVG.as_bytes()].concat(),
        ),
        ("pdf", b"%PDF-1.7\n<script>alert(1)</script>".to_vec()),
    ] {
        match Photo::decode(&file) {
            Ok(photo) => panic!("{name} opened: {:?}", photo.info()),
            Err(error) => {
                let said = error.to_string();
                assert!(
                    ["unsupported", "file-damaged"].contains(&error.kind()),
                    "{name}: {said}"
                );
                assert!(
                    !said.contains(['<', '>']) && !said.contains("alert"),
                    "{name}: {said}"
                );
                assert!(
                    said.ends_with('.') && said.matches(". ").count() >= 1,
                    "{name}: {said}"
                );
            }
        }
    }
}

/// Every sample, row by row.
fn pixels(photo: &Photo) -> Vec<String> {
    let (width, height) = (photo.info().width, photo.info().height);
    (0..height)
        .flat_map(|y| (0..width).map(move |x| (x, y)))
        .map(|(x, y)| format!("{:?}", photo.sample(x, y)))
        .collect()
}

#[test]
fn a_picture_with_markup_at_its_end_is_its_pixels() {
    for (name, clean) in [
        ("jpeg", Picture::scene().jpeg()),
        ("png", Picture::scene().png()),
        ("webp", Picture::scene().webp()),
    ] {
        let plain = Photo::decode(&clean).expect(name);
        let tailed = Photo::decode(&[clean.as_slice(), HTML.as_bytes()].concat()).expect(name);
        assert_eq!(pixels(&plain), pixels(&tailed), "{name}");
        let facts = format!("{:?} {:?}", tailed.info(), tailed.checks());
        assert!(
            !facts.contains("script") && !facts.contains("alert"),
            "{name}: {facts}"
        );
    }
}

#[test]
fn a_part_that_is_a_device_somewhere_is_no_part_of_a_case() {
    for name in [
        "photos/con.jpg",
        "photos/NUL.png",
        "photos/aux.tif",
        "photos/COM1.jpg",
        "photos/lpt9.jpg",
        "photos/a.jpg.",
        "photos/a.jpg ",
        "photos/..jpg",
        "photos/~a.jpg",
        "photos/a.jpg:b",
        "photos//a.jpg",
        "./case.json",
    ] {
        let error = read(&zip(&[Entry::stored(name, b"x")])).expect_err(name);
        assert!(
            error.to_string().contains("no part of a case"),
            "{name}: {error}"
        );
    }
}

/// Half of a pair is no letter: JSON can hold it, a text cannot.
#[test]
fn half_a_letter_is_refused_in_words() {
    let (_, photo) = small();
    let text = serde_json::to_string(&small_file().case).expect("JSON");
    for half in ["\\ud800", "\\udfff", "\\udc00\\ud800"] {
        let changed = text.replace("a dark line", half);
        assert_ne!(changed, text);
        let file = file_of(&[("case.json", changed.as_bytes()), ("photos/1.png", &photo)]);
        let error = read(&file).expect_err(half);
        assert_eq!(error.kind(), "file-damaged", "{error}");
    }
    let whole = text.replace("a dark line", "\\ud83e\\uddb7");
    let file = file_of(&[("case.json", whole.as_bytes()), ("photos/1.png", &photo)]);
    let opened = read(&file).expect("a whole letter");
    assert_eq!(opened.case.photos[0].notes[0].text, "🦷");
}
