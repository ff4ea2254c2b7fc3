//! The case file: what is written comes back to the last bit, readings are derived again and give the
//! same numbers, versions are told apart.

mod support;

use support::case::{partner, small, small_file};
use support::files::Picture;
use support::zip::file_of;
use tabside::case::{
    Case, CaseNoteCode, KeptAs, KeptPhoto, KeptReading, PhotoBytes, VERSION, read, write,
};
use tabside::colour::Lab;
use tabside::engine::Engine;
use tabside::engine::case::{Outcome, ReasonCode, read_photo, verify};
use tabside::scene::{Point, Scene};

/// A case with the demo photo and what is read of it.
fn demo() -> (Case, Vec<u8>) {
    #[derive(serde::Deserialize)]
    struct Truth {
        scene: Scene,
    }
    let base = format!("{}/fixtures/demo/demo", env!("CARGO_MANIFEST_DIR"));
    let photo = std::fs::read(format!("{base}.jpg")).expect("the photo");
    let text = std::fs::read_to_string(format!("{base}.truth.json")).expect("the truth");
    let truth: Truth = serde_json::from_str(&text).expect("a truth file");
    let text = std::fs::read_to_string(format!("{base}.swatches.json")).expect("the swatches");
    let mut case = Case {
        version: VERSION,
        created: "2026-05-17T10:32:05Z".to_owned(),
        changed: "2026-05-17T10:32:05Z".to_owned(),
        photos: vec![KeptPhoto {
            id: "1".to_owned(),
            name: "demo.jpg".to_owned(),
            scene: truth.scene,
            ..KeptPhoto::default()
        }],
        swatches: Some(serde_json::from_str(&text).expect("a book")),
        ..Case::default()
    };
    let mut engine = Engine::new().expect("an engine");
    let bytes = [("1".to_owned(), photo.clone())].into();
    let report = read_photo(&mut engine, &case, &case.photos[0], &bytes).expect("a report");
    let report = serde_json::to_value(report).expect("JSON");
    case.photos[0].reading = Some(KeptReading { report });
    (case, photo)
}

#[test]
fn what_is_written_comes_back_to_the_last_bit() {
    let (case, photo) = demo();
    let written = write(
        &case,
        &[PhotoBytes {
            id: "1",
            bytes: &photo,
        }],
    )
    .expect("a file");
    let opened = read(&written.bytes).expect("it opens");
    assert_eq!(opened.case, written.case);
    assert!(!opened.read_only && opened.notes.is_empty());
    // All but what writing itself states is as it was given.
    let mut same = opened.case.clone();
    same.program = String::new();
    (same.photos[0].part, same.photos[0].sha256) = (None, None);
    assert_eq!(same, case);
    // The demo holds nothing that is removed.
    assert_eq!(opened.photos["1"], photo);
    let again = write(
        &opened.case,
        &[PhotoBytes {
            id: "1",
            bytes: &opened.photos["1"],
        }],
    )
    .expect("a file");
    assert_eq!(again.bytes, written.bytes);
}

#[test]
fn the_same_numbers() {
    let (mut case, photo) = demo();
    let verified = |case: &Case| {
        let written = write(
            case,
            &[PhotoBytes {
                id: "1",
                bytes: &photo,
            }],
        )
        .expect("a file");
        verify(&read(&written.bytes).expect("it opens")).expect("it is verified")
    };
    let same = verified(&case);
    assert_eq!(same.outcome, Outcome::Same, "{same:?}");
    assert!(same.photos[0].reasons.is_empty() && same.photos[0].differences.is_empty());

    // Numbers as a page writes them: 1 for 1.0.
    let report = case.photos[0].reading.clone().expect("a reading").report;
    let text = serde_json::to_string(&report)
        .expect("JSON")
        .replace(".0,", ",")
        .replace(".0]", "]");
    case.photos[0].reading = Some(KeptReading {
        report: serde_json::from_str(&text).expect("JSON"),
    });
    assert_eq!(verified(&case).outcome, Outcome::Same);

    let with = |change: &dyn Fn(&mut serde_json::Value)| {
        let mut case = case.clone();
        let mut changed = report.clone();
        change(&mut changed);
        case.photos[0].reading = Some(KeptReading { report: changed });
        verified(&case).photos.remove(0)
    };
    // A number that was changed by hand.
    let forged = with(&|r| r["readings"][0]["zones"]["middle"]["lab"][0] = 71.5.into());
    assert_eq!(forged.outcome, Outcome::Different);
    assert_eq!(forged.reasons[0].code, ReasonCode::Unexplained);
    assert_eq!(forged.differences.len(), 1);
    let region = report["readings"][0]["region"].as_str().expect("an id");
    assert_eq!(
        forged.differences[0].place,
        format!("readings/{region}/zones/middle/lab/0")
    );
    assert!(forged.largest_delta_e_00.expect("a difference") > 0.1);
    // Another program's rounding, and sentences worded anew.
    let lightness = report["readings"][0]["zones"]["middle"]["lab"][0]
        .as_f64()
        .expect("L*");
    let rounded =
        with(&|r| r["readings"][0]["zones"]["middle"]["lab"][0] = (lightness + 1e-9).into());
    assert_eq!(rounded.outcome, Outcome::Rounded);
    let worded = with(&|r| r["checks"] = serde_json::json!([]));
    assert_eq!(worded.outcome, Outcome::Same);
    // A reading by another version.
    let older = with(&|r| {
        r["version"] = "0.0.9".into();
        r["readings"][0]["blotch"] = 9.0.into();
    });
    assert_eq!(
        (older.outcome, older.reasons[0].code),
        (Outcome::Different, ReasonCode::ProgramVersion)
    );
    // Nothing that can be compared.
    assert_eq!(
        with(&|r| *r = serde_json::json!("x")).outcome,
        Outcome::Different
    );
}

#[test]
fn why_numbers_differ() {
    let (case, photo) = demo();
    let verified = |case: &Case| {
        let written = write(
            case,
            &[PhotoBytes {
                id: "1",
                bytes: &photo,
            }],
        )
        .expect("a file");
        verify(&read(&written.bytes).expect("it opens"))
            .expect("it is verified")
            .photos
            .remove(0)
    };
    let mut moved = case.clone();
    let region = &mut moved.photos[0].scene.regions[0];
    let id = region.id.clone();
    for point in &mut region.outline {
        *point = Point::new(point.x() + 9.0, point.y());
    }
    let got = verified(&moved);
    assert_eq!(got.outcome, Outcome::Different);
    assert_eq!(got.reasons.len(), 1, "{:?}", got.reasons);
    assert_eq!(got.reasons[0].code, ReasonCode::RegionEdited);
    assert!(got.reasons[0].text.contains(&id));

    let mut card = case.clone();
    card.photos[0].scene.card.as_mut().expect("a card").lab = Some(Lab::new(60.0, 0.0, 0.0));
    assert_eq!(verified(&card).reasons[0].code, ReasonCode::CardEdited);

    let mut fewer = case.clone();
    fewer.photos[0].scene.regions.pop();
    assert!(verified(&fewer).reasons[0].text.contains("removed"));

    let mut absent = case.clone();
    absent.photos[0].kept = KeptAs::Absent;
    let got = verified(&absent);
    assert_eq!(
        (got.outcome, got.reasons[0].code),
        (Outcome::NotCompared, ReasonCode::PhotoMissing)
    );

    let mut reduced = case.clone();
    reduced.photos[0].kept = KeptAs::Reduced;
    assert_eq!(verified(&reduced).reasons[0].code, ReasonCode::PhotoReduced);

    let mut unread = case;
    unread.photos[0].reading = None;
    assert_eq!(verified(&unread).reasons[0].code, ReasonCode::NoReading);
}

#[test]
fn a_case_without_photos_keeps_their_checksums() {
    let (mut case, photo) = small();
    case.photos[0].kept = KeptAs::Absent;
    let bytes = [PhotoBytes {
        id: "a",
        bytes: &photo,
    }];
    let written = write(&case, &bytes).expect("a file");
    let opened = read(&written.bytes).expect("it opens");
    assert!(
        opened.photos.is_empty() && written.bytes.len() < 2500,
        "{}",
        written.bytes.len()
    );
    assert_eq!(
        opened.case.photos[0].sha256,
        small_file().case.photos[0].sha256
    );
    // Without the bytes it stays as it was.
    let again = write(&opened.case, &[]).expect("a file");
    assert_eq!(again.bytes, written.bytes);
    case.photos[0].kept = KeptAs::Original;
    assert!(write(&case, &[]).is_err());
}

#[test]
fn pairs() {
    let (mut case, photo) = small();
    case.photos.push(partner("b"));
    case.photos[0].partner = Some("b".to_owned());
    let bytes = [
        PhotoBytes {
            id: "a",
            bytes: &photo,
        },
        PhotoBytes {
            id: "b",
            bytes: &photo,
        },
    ];
    let opened = read(&write(&case, &bytes).expect("a file").bytes).expect("it opens");
    assert_eq!(opened.photos.len(), 2);
    for partner in ["a", "c"] {
        case.photos[0].partner = Some(partner.to_owned());
        assert!(write(&case, &bytes).is_err(), "{partner}");
    }
}

/// Nothing is written that would not be read.
#[test]
fn what_cannot_come_back_is_not_written() {
    let (case, photo) = small();
    let refused = |change: &dyn Fn(&mut Case)| {
        let mut case = case.clone();
        change(&mut case);
        let error = write(
            &case,
            &[PhotoBytes {
                id: "a",
                bytes: &photo,
            }],
        )
        .expect_err("it is refused");
        assert_eq!(error.kind(), "input", "{error}");
    };
    refused(&|c| c.photos[0].notes[0].at = Point::new(f64::NAN, 0.0));
    refused(&|c| c.photos[0].notes[0].at = Point::new(f64::INFINITY, 0.0));
    refused(&|c| c.photos[0].scene.regions[0].borders = Some([f64::NAN, 0.5]));
    refused(&|c| c.photos[0].scene.regions[0].outline[0] = Point::new(1e9, 0.0));
    refused(&|c| c.photos[0].id = String::new());
    refused(&|c| c.label = Some("x".repeat(501)));
    refused(&|c| c.photos.push(c.photos[0].clone()));
    refused(&|c| {
        let mut deep = serde_json::json!(1);
        for _ in 0..45 {
            deep = serde_json::json!([deep]);
        }
        // The case itself adds three.
        deep = serde_json::json!([[[[deep]]]]);
        c.page.insert("x".to_owned(), deep);
    })
}

#[test]
fn newer_versions_open_for_what_is_understood() {
    let case = serde_json::json!({
        "version": 7, "program": "9.0.0", "created": "2030-01-01T00:00:00Z", "changed": {"when": 1}, "label": "x",
        "photos": [
            {"id": "a", "name": "one", "role": "plain", "kept": "original", "part": "photos/1.png",
             "scene": {"regions": [{"id": "r", "kind": "bridge", "outline": []}]}, "holograms": [1]},
            {"id": "b", "role": "infrared", "kept": "original"},
            "c"
        ],
        "work": {"kept": true},
        "holograms": {"deep": [1, 2, 3]}
    });
    let text = serde_json::to_vec(&case).expect("JSON");
    let photo = Picture::scene().png();
    let opened =
        read(&file_of(&[("case.json", &text), ("photos/1.png", &photo)])).expect("it opens");
    assert!(opened.read_only);
    assert_eq!(opened.case.label.as_deref(), Some("x"));
    assert_eq!(opened.case.work, Some(serde_json::json!({"kept": true})));
    assert_eq!(opened.photos["a"], photo);
    assert_eq!(opened.case.photos.len(), 1);
    assert_eq!(opened.case.photos[0].scene, Scene::default());
    let codes: Vec<CaseNoteCode> = opened.notes.iter().map(|n| n.code).collect();
    assert_eq!(codes[0], CaseNoteCode::NewerVersion);
    assert_eq!(
        codes[1..],
        [CaseNoteCode::PartNotUnderstood; 6],
        "{:?}",
        opened.notes
    );
    let named = |part: &str| {
        opened
            .notes
            .iter()
            .filter(|n| n.text.contains(part))
            .count()
    };
    assert_eq!(named("its “holograms” is left out"), 2);
    let error = write(
        &opened.case,
        &[PhotoBytes {
            id: "a",
            bytes: &photo,
        }],
    )
    .expect_err("it would lose the rest");
    assert_eq!(error.kind(), "unsupported");
}

/// A file of this very version, kept: it must open for as long as there is this program.
#[test]
fn the_kept_file_of_version_1() {
    let path = format!(
        "{}/fixtures/case/version-1.tabside",
        env!("CARGO_MANIFEST_DIR")
    );
    if std::env::var_os("TABSIDE_BLESS").is_some() && !std::path::Path::new(&path).exists() {
        std::fs::create_dir_all(format!("{}/fixtures/case", env!("CARGO_MANIFEST_DIR")))
            .expect("a folder");
        std::fs::write(&path, small_file().bytes).expect("it is written");
    }
    let opened = read(&std::fs::read(&path).expect("the kept file")).expect("it opens");
    let (case, photo) = small();
    assert_eq!(opened.case.label, case.label);
    assert_eq!(opened.case.photos[0].scene, case.photos[0].scene);
    assert_eq!(opened.case.photos[0].notes, case.photos[0].notes);
    assert_eq!(opened.case.work, case.work);
    assert_eq!(opened.photos["a"], photo);
    assert!(!opened.read_only);
}

/// As the page saved it, photos left out: what it kept of them is there, and its work with it.
#[test]
fn the_kept_file_of_the_page() {
    let path = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/fixtures/case/version-1-by-page.tabside"
    );
    let opened = read(&std::fs::read(path).expect("the kept file")).expect("it opens");
    assert_eq!(opened.case.label.as_deref(), Some("Kept"));
    assert_eq!(opened.case.photos.len(), 2);
    assert!(opened.photos.is_empty());
    assert!(opened.case.photos.iter().all(|p| p.reading.is_some()));
    assert!(opened.case.work.is_some() && opened.case.swatches.is_some());
    assert!(!opened.read_only);
}
