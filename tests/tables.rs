//! Tables of colours: a reading to CGATS and back, guides from CSV and CGATS, and what is refused.

use proptest::prelude::*;
use tabside::case::table::{Colours, cgats, guide_from};
use tabside::colour::{Lab, WHITE_D50, WHITE_D65};
use tabside::engine::{Engine, ReadOptions};
use tabside::error::{CheckCode, LightCheck, Severity};
use tabside::reading::{Guide, GuideSource, RegionReading, ZoneReading, ZoneReadings};
use tabside::scene::{Point, Region, RegionKind, Scene};

fn zone(lab: [f64; 3], doubt: f64) -> Option<ZoneReading> {
    Some(ZoneReading {
        lab: Lab(lab),
        chroma: 0.0,
        hue_deg: 0.0,
        doubt,
        doubt_in_photo: doubt,
        doubt_l_in_photo: doubt,
        doubt_c_in_photo: doubt,
        pixels: 1000,
        glare: 0.0,
        glare_value: 0.0,
        glare_measured: false,
        whiteness: 0.0,
        blotch: None,
        value_polarised: None,
    })
}

fn region(id: &str, kind: RegionKind, name: &str) -> Region {
    Region {
        id: id.to_owned(),
        kind,
        name: name.to_owned(),
        outline: [[0.0, 0.0], [9.0, 0.0], [9.0, 9.0]]
            .map(|[x, y]| Point::new(x, y))
            .to_vec(),
        cervical: None,
        incisal: None,
        borders: None,
    }
}

fn colours(tabs: &[(String, [[f64; 3]; 4])]) -> Colours {
    let ids = (0..tabs.len()).map(|i| format!("tab-{i}"));
    Colours {
        photo: "a photo".to_owned(),
        version: "0.1.0".to_owned(),
        created: None,
        scene: Scene {
            regions: ids
                .clone()
                .zip(tabs)
                .map(|(id, (name, _))| region(&id, RegionKind::Tab, name))
                .collect(),
            ..Scene::default()
        },
        readings: ids
            .zip(tabs)
            .map(|(id, (_, [c, m, i, w]))| RegionReading {
                region: id,
                zones: ZoneReadings {
                    cervical: zone(*c, 0.5),
                    middle: zone(*m, 0.5),
                    incisal: zone(*i, 0.5),
                    whole: zone(*w, 0.5),
                },
                gradient: Vec::new(),
                blotch: None,
            })
            .collect(),
        checks: Vec::new(),
    }
}

fn close(got: Lab, want: [f64; 3], by: f64) {
    for (g, w) in got.0.iter().zip(want) {
        assert!((g - w).abs() <= by, "{got:?} should be {want:?}");
    }
}

fn guide(text: &str) -> tabside::Result<Guide> {
    guide_from(text.as_bytes(), "a guide").map(|r| r.guide)
}

fn refusal(text: &str) -> String {
    guide(text).map_or_else(|e| e.to_string(), |g| panic!("taken: {g:?}\n{text}"))
}

fn lab() -> impl Strategy<Value = [f64; 3]> {
    (0.0..=110.0, -100.0..=100.0, -100.0..=100.0).prop_map(|(l, a, b)| [l, a, b])
}

proptest! {
    /// Any reading comes back from its CGATS as it was, to the four decimals that are written.
    #[test]
    fn cgats_comes_back(tabs in prop::collection::vec(("[A-Za-zäß#;, .'0-9]{0,12}x", [lab(), lab(), lab(), lab()]), 1..12)) {
        // Names apart, trimmed, and none that begins with the spreadsheets' apostrophe.
        let tabs: Vec<_> = tabs.into_iter().enumerate().map(|(i, (n, l))| (format!("t{i} {n}"), l)).collect();
        let text = cgats(&colours(&tabs)).expect("a table");
        let back = guide(&text).expect("a guide");
        prop_assert_eq!(back.source, GuideSource::Measured);
        prop_assert_eq!(back.tabs.len(), tabs.len());
        for (tab, (name, [c, m, i, w])) in back.tabs.iter().zip(&tabs) {
            prop_assert_eq!(&tab.name, name);
            let zones = tab.zones.expect("thirds");
            for (got, want) in [(zones.cervical, c), (zones.middle, m), (zones.incisal, i), (Some(tab.lab), w)] {
                for (g, w) in got.expect("a colour").0.iter().zip(want) {
                    // Half of the last decimal.
                    prop_assert!((g - w).abs() <= 5.1e-5, "{} {}", g, w);
                }
            }
        }
    }

    /// Nothing that a file holds makes the reader fall over, and what is taken is a sound guide.
    #[test]
    fn no_file_breaks_it(text in prop_oneof![
        "(name|L\\*|a\\*|b\\*|zone|,|;|\t|\n|\r|\"|#|=|-|1|9\\.|,|A|é|NaN|BEGIN_DATA|END_DATA|BEGIN_DATA_FORMAT|CGATS| ){0,80}",
        "name[,;\t]L[,;\t]a[,;\t]b\n(([A-D][1-4]|\"|=)?[,;\t][0-9]{0,3}[.,]?[0-9]{0,3}[,;\t\n\"]){0,40}",
        "\\PC{0,200}",
    ]) {
        if let Ok(read) = guide_from(text.as_bytes(), "g") {
            prop_assert!(read.guide.check().is_ok());
        }
    }

    #[test]
    fn no_bytes_break_it(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        let _ = guide_from(&bytes, "g");
    }
}

#[test]
fn what_may_not_be_trusted_is_not_written() {
    let mut of = colours(&[
        ("A1".to_owned(), [[70.0, 1.0, 15.0]; 4]),
        ("A2".to_owned(), [[60.0, 1.0, 15.0]; 4]),
    ]);
    of.checks = vec![
        LightCheck::new(CheckCode::ToothDark, Severity::Retake, "Dark.", "Again.").about("tab-1"),
        LightCheck::new(CheckCode::LightUneven, Severity::Care, "Uneven.", "Look."),
    ];
    let text = cgats(&of).expect("a table");
    assert!(
        text.contains("NUMBER_OF_SETS\t4\n") && !text.contains("A2"),
        "{text}"
    );
    assert!(
        text.contains("# not to be trusted, left out: tab-1\n"),
        "{text}"
    );
    assert!(text.contains("# light check: light-uneven\n"), "{text}");
    of.checks = vec![LightCheck::new(
        CheckCode::Blur,
        Severity::Retake,
        "Blurred.",
        "Again.",
    )];
    let said = cgats(&of).map_err(|e| e.to_string());
    assert_eq!(
        said,
        Err("No colours are written: Blurred. Again.".to_owned())
    );
}

#[test]
fn names_cannot_break_the_lines() {
    let odd = "a \"b\"\nEND_DATA\r\tc";
    let text = cgats(&colours(&[(odd.to_owned(), [[70.0, 1.0, 15.0]; 4])])).expect("a table");
    assert_eq!(text.lines().filter(|l| l.trim() == "END_DATA").count(), 1);
    assert_eq!(
        guide(&text).expect("a guide").tabs[0].name,
        "a 'b'END_DATAc"
    );
}

#[derive(serde::Deserialize)]
struct Truth {
    scene: Scene,
}

#[test]
fn the_readings_of_the_demo_become_a_guide_of_its_tabs() {
    let truth: Truth =
        serde_json::from_str(include_str!("../fixtures/demo/demo.truth.json")).expect("a scene");
    let mut engine = Engine::new().expect("an engine");
    let id = engine
        .open(include_bytes!("../fixtures/demo/demo.jpg"))
        .expect("a photo")
        .id;
    let report = engine
        .read(id, &truth.scene, &ReadOptions::default())
        .expect("a report");
    let tabs = report
        .scene
        .regions
        .iter()
        .filter(|r| r.kind == RegionKind::Tab)
        .count();
    let text = cgats(&Colours {
        photo: "demo".to_owned(),
        version: report.version.clone(),
        created: None,
        scene: report.scene.clone(),
        readings: report.readings.clone(),
        checks: report.checks.clone(),
    })
    .expect("a table");
    let read = guide_from(text.as_bytes(), "demo").expect("a guide");
    assert!(tabs > 0 && read.guide.tabs.len() == tabs);
    assert!(
        read.remarks
            .iter()
            .any(|r| r == "Rows of teeth and restorations were left out.")
    );
    assert!(
        read.remarks
            .iter()
            .any(|r| r.starts_with("The colours carry a doubt"))
    );
}

#[test]
fn csv_of_all_kinds() {
    let plain = "name,L*,a*,b*\nA1,79.6,-1.33,13.05\nA2,76.07,0.33,16.73\n";
    let want = guide(plain).expect("a guide").tabs;
    for text in [
        "\u{feff}name;L*;a*;b*\r\nA1;79,6;-1,33;13,05\r\nA2;76,07;0,33;16,73\r\n",
        "b*\ta*\tL*\tshade\n13.05\t-1.33\t79.6\tA1\n16.73\t0.33\t76.07\tA2",
        "\"name\",\"L*\",\"a*\",\"b*\"\n\"A1\",\"79,6\",\"-1,33\",\"13,05\"\n\"A2\",\"76,07\",\"0,33\",\"16,73\"\n",
        "# a comment\n\nname,note,L*,a*,b*\nA1,\"x, y\",79.6,−1.33,13.05\n\nA2,,76.07,0.33,16.73,,\n",
    ] {
        assert_eq!(guide(text).map(|g| g.tabs), Ok(want.clone()), "{text}");
    }
    // As a spreadsheet on Windows still writes it: one byte per letter.
    let latin = b"Farbmuster;L*;a*;b*\r\nZ\xe4hne;79,6;1;2\r\n";
    assert_eq!(
        guide_from(latin, "g").map(|r| r.guide.tabs[0].name.clone()),
        Ok("Zähne".to_owned())
    );
}

#[test]
fn thirds_by_row_or_by_column() {
    let rows = "name,zone,L*,a*,b*,source\nA1,cervical,70,1,18,measured\nA1,middle,72,0,15,measured\nA1,whole,72,0.2,15,measured\n";
    let columns = "name,source,cervical L*,cervical a*,cervical b*,middle L*,middle a*,middle b*,L*,a*,b*\nA1,measured,70,1,18,72,0,15,72,0.2,15\n";
    let read = guide(rows).expect("a guide");
    assert_eq!(read.source, GuideSource::Measured);
    let zones = read.tabs[0].zones.expect("thirds");
    assert_eq!(
        (zones.cervical, zones.middle, zones.incisal),
        (
            Some(Lab::new(70.0, 1.0, 18.0)),
            Some(Lab::new(72.0, 0.0, 15.0)),
            None
        )
    );
    assert_eq!(guide(columns).map(|g| g.tabs), Ok(read.tabs));
    let thirds = guide_from(
        b"name,zone,L*,a*,b*\nA1,cervical,70,1,18\nA1,middle,72,0,15\nA1,incisal,74,-1,12\n",
        "g",
    )
    .expect("a guide");
    // The mean of light lies above that of L*, a little.
    let l = thirds.guide.tabs[0].lab.l();
    assert!(l > 72.0 && l < 72.1, "{l}");
    assert!(
        thirds
            .remarks
            .iter()
            .any(|r| r.starts_with("Where only the thirds were given"))
    );
    assert!(
        refusal("name,zone,L*,a*,b*\nA1,cervical,70,1,18\n")
            .starts_with("The tab “A1” has neither")
    );
}

#[test]
fn d50_is_adapted_and_said() {
    let text = |light: &str| {
        format!(
            "CGATS.17\n{light}\nBEGIN_DATA_FORMAT\nSAMPLE_ID LAB_L LAB_A LAB_B\nEND_DATA_FORMAT\nBEGIN_DATA\nA1 75 1 18\nEND_DATA\n"
        )
    };
    let read = guide_from(
        text("WEIGHTING_FUNCTION \"ILLUMINANT, D50\"").as_bytes(),
        "g",
    )
    .expect("a guide");
    assert!(read.remarks[0].starts_with("The colours stand for D50; they were adapted"));
    assert!(read.guide.note.is_some_and(|n| n.contains("Bradford")));
    // Calculated with the colour-science library for Python (CIE whites to five digits, Bradford).
    close(read.guide.tabs[0].lab, D50_AS_D65, 0.005);
    // The white itself stays white.
    assert_ne!(WHITE_D50, WHITE_D65);
    let white = guide(&text("ILLUMINANT \"D50\"").replace("75 1 18", "100 0 0")).expect("a guide");
    close(white.tabs[0].lab, [100.0, 0.0, 0.0], 1e-9);
    let same = guide_from(
        text("WEIGHTING_FUNCTION \"ILLUMINANT, D65\"").as_bytes(),
        "g",
    )
    .expect("a guide");
    assert_eq!(same.guide.tabs[0].lab, Lab::new(75.0, 1.0, 18.0));
    assert!(
        !same.remarks.iter().any(|r| r.contains("D65")),
        "{:?}",
        same.remarks
    );
    let unsaid = guide_from(text("").as_bytes(), "g").expect("a guide");
    assert!(unsaid.remarks[0].contains("does not say for which light"));
    assert!(
        refusal(&text("WEIGHTING_FUNCTION \"ILLUMINANT, C\""))
            .starts_with("The colours stand for the light “C”.")
    );
    assert!(
        refusal(&text(
            "WEIGHTING_FUNCTION \"ILLUMINANT, D65\"\nWEIGHTING_FUNCTION \"OBSERVER, 10 degree\""
        ))
        .starts_with("The colours stand for the 10° observer.")
    );
    assert!(
        refusal(&text("").replace("LAB_L LAB_A LAB_B", "XYZ_X XYZ_Y XYZ_Z"))
            .starts_with("The table holds XYZ, no L*a*b*.")
    );
    // In CSV the names of the columns, or a column, may say it.
    let csv = guide("name,L* (D50),a* (D50),b* (D50)\nA1,75,1,18\n").expect("a guide");
    close(csv.tabs[0].lab, D50_AS_D65, 0.005);
    let csv = guide("name,illuminant,L*,a*,b*\nA1,D50,75,1,18\n").expect("a guide");
    close(csv.tabs[0].lab, D50_AS_D65, 0.005);
    assert!(
        refusal("name,illuminant,L*,a*,b*\nA1,D50,75,1,18\nA2,D65,75,1,18\n")
            .contains("both D50 and D65")
    );
}

const D50_AS_D65: [f64; 3] = [74.8323, -0.5047, 17.8674];

/// Each bad file gives words with its row.
#[test]
fn bad_files() {
    let head = "name,L*,a*,b*\nA1,79.6,-1.33,13.05\n";
    for (rows, want) in [
        ("A2,NaN,1,2\n", "Row 3: “NaN” is no number."),
        ("A2,70,inf,2\n", "Row 3: “inf” is no number."),
        ("A2,70,1,1e999\n", "Row 3: “1e999” is no number."),
        ("A2,=1+1,1,2\n", "Row 3: “=1+1” is no number."),
        ("A1,70,1,2\n", "Row 3 gives a colour of “A1” once more."),
        ("A2,170,1,2\n", "Row 3: L* 170 cannot be."),
        ("A2,-1,1,2\n", "Row 3: L* -1 cannot be."),
        ("A2,70,1,200\n", "Row 3: b* 200 cannot be."),
        ("A2,70,,2\n", "Row 3: a* is missing."),
        ("A2,70,1\n", "Row 3: b* is missing."),
        (",70,1,2\n", "Row 3 has no name."),
        ("\n\nA2,70,1,2,5\n", "Row 5 has more cells"),
        (
            "\"=HYPERLINK(\"\"http://x\"\")\",70,1,2\n",
            "Row 3: the name “=HYPERLINK",
        ),
        (
            "'=cmd,70,1,2\n",
            "Row 3: the name “=cmd” begins like a formula",
        ),
        (
            "@SUM,70,1,2\n",
            "Row 3: the name “@SUM” begins like a formula",
        ),
        (
            "<script>alert(1)</script>,70,1,2\n",
            "Row 3: the name “<script>alert(1)</script>” holds signs",
        ),
        ("A\u{202e}2,70,1,2\n", "Row 3: the name"),
        ("\"A\n2\",70,1,2\n", "Row 3: the name"),
        (
            "A2,\"70,5\",1,2\n",
            "Row 3: some numbers have a decimal point",
        ),
    ] {
        let said = refusal(&format!("{head}{rows}"));
        assert!(said.starts_with(want), "{rows:?}: {said}");
    }
    let long = format!("{head}{},70,1,2\n", "x".repeat(61));
    assert!(refusal(&long).starts_with("Row 3: the name is longer than 60 characters."));
    for (text, want) in [
        ("", "The table is empty."),
        (" \r\n", "The table is empty."),
        (
            "name,L*,a*,b*\n",
            "The table has no row with the colour of a tab.",
        ),
        ("name,L*,a*\nA1,1,2\n", "The table has no column for b*;"),
        ("{\"tabs\":1}", "The shade guide could not be read:"),
        (
            "name,zone,L*,a*,b*\nA1,top,1,2,3\n",
            "Row 2: “top” is no third of a tab.",
        ),
        (
            "name,source,L*,a*,b*\nA1,guessed,1,2,3\n",
            "Row 2: “guessed” is no source.",
        ),
        (
            "name,source,L*,a*,b*\nA1,measured,1,2,3\nA2,published,1,2,3\n",
            "Row 3: some colours are called measured",
        ),
    ] {
        let said = refusal(text);
        assert!(said.starts_with(want), "{text:?}: {said}");
    }
    let many = format!(
        "{head}{}",
        (0..10_000)
            .map(|i| format!("T{i},70,1,2\n"))
            .collect::<String>()
    );
    assert!(refusal(&many).starts_with("The table has more than 2000 rows."));
    let tabs = format!(
        "{head}{}",
        (0..501)
            .map(|i| format!("T{i},70,1,2\n"))
            .collect::<String>()
    );
    assert!(refusal(&tabs).starts_with("The shade guide has 502 tabs;"));
    for binary in [
        &b"PK\x03\x04\x14\x00"[..],
        b"\x89PNG\r\n\x1a\n\0\0",
        b"\xff\xfen\0a\0m\0e\0",
    ] {
        let said = guide_from(binary, "g").map_err(|e| (e.kind(), e.to_string()));
        assert!(said.is_err_and(
            |(kind, e)| kind == "unsupported" && e.starts_with("The file is no text table.")
        ));
    }
    assert_eq!(
        guide_from(&vec![b'a'; 5 << 20], "g").map_err(|e| e.kind()),
        Err("too-large")
    );
}
