//! Sound input for every door, to begin a search from. All of it is made here or by the project.

#![allow(dead_code, reason = "each test uses a part")]

#[path = "../../../support/mod.rs"]
mod support;

use support::case::small_file;
use support::exif::{Exif, Value, ratio, short, text};
use support::files::Picture;
use support::icc::{self, Profile};

/// The seeds of a door.
pub fn of(door: &str) -> Vec<Vec<u8>> {
    match door {
        "photo" | "scrub" => photos(),
        "exif" => vec![full_exif().block(), Exif::oriented(8).block()],
        "icc" => profiles(),
        "scene" => vec![scene(), br#"{"regions": []}"#.to_vec()],
        "guide" => vec![guide()],
        "swatches" => vec![SWATCHES.into()],
        "plan" => vec![PLAN.into(), QUESTIONS.into()],
        "report" => vec![include_bytes!("../../../../fixtures/demo/demo.readings.json").to_vec()],
        "csv" => CSV.iter().map(|t| t.as_bytes().to_vec()).collect(),
        "cgats" => vec![CGATS.into()],
        "case" => vec![
            small_file().bytes,
            include_bytes!("../../../../fixtures/case/version-1.tabside").to_vec(),
        ],
        "case_text" => vec![serde_json::to_vec(&small_file().case).expect("JSON")],
        "envelope" => vec![
            include_bytes!("../../../../fixtures/case/locked.tabside").to_vec(),
            include_bytes!("../../../../fixtures/case/locked_by_page.tabside").to_vec(),
        ],
        _ => Vec::new(),
    }
}

fn full_exif() -> Exif {
    Exif::oriented(6)
        .main(0x010F, text("Invented Optics"))
        .exif(0x829A, ratio(1, 125))
        .exif(0xA001, short(65_535))
        .interoperability(1, text("R03"))
        .gps(2, Value::Rational(vec![[48, 1]; 3]))
}

fn profiles() -> Vec<Vec<u8>> {
    let p3 = moxcms::ColorProfile::new_display_p3();
    vec![
        p3.encode().expect("ICC"),
        Profile::rgb(4, b"Lab ")
            .tag(b"A2B0", icc::every_stage().bytes())
            .bytes(),
        icc::with_matrix_and_curves(Profile::rgb(2, b"XYZ ")).bytes(),
    ]
}

/// Every kind of file, with and without metadata, and JPEG of each sampling.
fn photos() -> Vec<Vec<u8>> {
    let plain = Picture::scene();
    let full = plain.clone().exif(full_exif().block());
    let mut out = vec![
        plain.jpeg(),
        full.jpeg(),
        plain.png(),
        full.png(),
        full.tiff(false, vec![(274, short(6))]),
        plain.tiff(true, vec![]),
        plain.tiff_lzw(),
        full.webp(),
        include_bytes!("../../../support/progressive.jpg").to_vec(),
        include_bytes!("../../../support/lossy.webp").to_vec(),
    ];
    let codes: Vec<u8> = (0..48 * 40 * 3).map(|i| (i * 7 % 251) as u8).collect();
    for (factor, restart) in [
        (jpeg_encoder::SamplingFactor::R_4_4_4, 0),
        (jpeg_encoder::SamplingFactor::R_4_2_0, 2),
        (jpeg_encoder::SamplingFactor::R_4_2_2, 1),
    ] {
        let mut bytes = Vec::new();
        let mut encoder = jpeg_encoder::Encoder::new(&mut bytes, 60);
        encoder.set_sampling_factor(factor);
        if restart > 0 {
            encoder.set_restart_interval(restart);
        }
        encoder
            .encode(&codes, 48, 40, jpeg_encoder::ColorType::Rgb)
            .expect("JPEG");
        out.push(bytes);
    }
    out
}

fn scene() -> Vec<u8> {
    let region = |id: &str, kind: &str, x: u32| {
        serde_json::json!({
            "id": id, "kind": kind, "name": "A1",
            "outline": [[x, 8], [x + 20, 8], [x + 20, 56], [x, 56]],
            "cervical": [x + 10, 8], "incisal": [x + 10, 56],
        })
    };
    let (tooth, tab) = (region("t", "tooth", 40), region("s", "tab", 68));
    serde_json::json!({
        "card": {"outline": [[2, 2], [28, 2], [28, 60], [2, 60]]},
        "regions": [tooth, tab],
    })
    .to_string()
    .into()
}

fn guide() -> Vec<u8> {
    serde_json::to_vec(&tabside::reading::Guide::classical_sixteen().expect("a guide"))
        .expect("JSON")
}

const SWATCHES: &str = r#"{"name": "b", "stains": [{"name": "one"}], "swatches": [
{"stain": "one", "coats": 1, "base": [78, 0, 14], "after": [75, 2, 18]},
{"stain": "one", "coats": 2, "base": [78, 0, 14], "after": [72.5, 3.6, 21.5]}]}"#;

const PLAN: &str = r#"{"zones": [{"zone": "middle", "from": [78, 0, 14], "to": [74, 2, 18], "doubt": 1}],
"limits": {"coats_per_firing": 3, "firings": 2, "stains_per_mix": 2, "stains": ["one"]}}"#;

const QUESTIONS: &str = r#"{"requests": [{"id": "q", "base": [78, 0, 14], "mix": {"one": 0.6, "other": 0.4}, "coats": 1.5}]}"#;

const CSV: &[&str] = &[
    "tab,zone,L,a,b\nx1,middle,75.5,1.2,18.4\nx2,middle,72,0.5,20\n",
    "Name;L*;a*;b*\n\"x;1\";75,5;1,2;18,4\n",
];

const CGATS: &str = "NUMBER_OF_FIELDS 4\nBEGIN_DATA_FORMAT\nSAMPLE_ID LAB_L LAB_A LAB_B\nEND_DATA_FORMAT\n\
NUMBER_OF_SETS 2\nBEGIN_DATA\nx1 75.5 1.2 18.4\nx2 72 0.5 20\nEND_DATA\n";
