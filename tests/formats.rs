//! The published JSON Schemas match the Rust types, and the default guide is sound.
//!
//! `TABSIDE_BLESS=1 cargo test --test formats` writes the schemas again.

use std::path::PathBuf;
use tabside::colour::adaptation::{WHITE_C, WHITE_D65, bradford};
use tabside::colour::{Lab, delta_e_00};
use tabside::engine::Report;
use tabside::reading::{Guide, GuideSource};
use tabside::scene::Scene;
use tabside::scene::find::Found;

fn check_schema(name: &str, schema: &schemars::Schema) {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR"))
        .join(format!("fixtures/schema/{name}.schema.json"));
    let now = serde_json::to_string_pretty(schema).expect("a schema") + "\n";
    if std::env::var_os("TABSIDE_BLESS").is_some() {
        std::fs::create_dir_all(path.parent().expect("a folder")).expect("the folder");
        std::fs::write(&path, &now).expect("the schema is written");
    }
    let kept = std::fs::read_to_string(&path).unwrap_or_default();
    assert!(
        kept == now,
        "fixtures/schema/{name}.schema.json is out of date: run the tests once with TABSIDE_BLESS=1 and commit it"
    );
}

#[test]
fn schemas_are_current() {
    check_schema("report", &schemars::schema_for!(Report));
    check_schema("scene", &schemars::schema_for!(Scene));
    check_schema("guide", &schemars::schema_for!(Guide));
    check_schema("found", &schemars::schema_for!(Found));
    check_schema("case", &schemars::schema_for!(tabside::case::Case));
    check_schema(
        "verification",
        &schemars::schema_for!(tabside::engine::case::Verification),
    );
}

/// The default guide's D65 values are its source's illuminant-C rows by Bradford; two rows are
/// worked out here again.
#[test]
fn the_default_guide() {
    let guide = Guide::classical_sixteen().expect("a sound guide");
    assert_eq!(guide.tabs.len(), 16);
    assert_eq!(guide.source, GuideSource::Published);
    let m = bradford(WHITE_C, WHITE_D65);
    for (name, row) in [("A1", [79.57, -1.61, 13.05]), ("C4", [64.78, 1.59, 18.66])] {
        let want = Lab::from_xyz_d65(m.apply(Lab(row).to_xyz(WHITE_C)));
        let tab = guide.tabs.iter().find(|t| t.name == name).expect("the tab");
        assert!(delta_e_00(tab.lab, want) < 0.01, "{name}");
    }
}

/// The two lightest classical tabs are practically one colour in that table, and the steps
/// between others exceed what is accepted (both worked out with an independent script, under
/// illuminant C; D65 changes them little).
#[test]
fn steps_of_the_default_guide() {
    let guide = Guide::classical_sixteen().expect("a sound guide");
    let lab = |name: &str| {
        guide
            .tabs
            .iter()
            .find(|t| t.name == name)
            .map(|t| t.lab)
            .expect("the tab")
    };
    for (a, b, want) in [("B1", "A1", 0.70), ("A1", "A2", 3.90), ("A3", "C4", 8.20)] {
        let got = delta_e_00(lab(a), lab(b));
        assert!((got - want).abs() < 0.15, "{a}–{b}: {got}");
    }
}

#[test]
fn bad_guides_are_refused_in_words() {
    for (json, word) in [
        ("[]", "could not be read"),
        (r#"{"name":"x","source":"measured","tabs":[]}"#, "0 tabs"),
        (
            r#"{"name":"x","source":"guessed","tabs":[{"name":"1","lab":[70,0,10]}]}"#,
            "guessed",
        ),
        (
            r#"{"name":"x","source":"measured","tabs":[{"name":"","lab":[70,0,10]}]}"#,
            "no usable name",
        ),
        (
            r#"{"name":"x","source":"measured","tabs":[{"name":"1","lab":[700,0,10]}]}"#,
            "cannot be",
        ),
        (
            r#"{"name":"x","source":"measured","tabs":[{"name":"1","lab":[70,0,10]},{"name":"1","lab":[71,0,10]}]}"#,
            "twice",
        ),
    ] {
        let error = Guide::from_json(json)
            .expect_err("it is refused")
            .to_string();
        assert!(error.contains(word), "{error}");
    }
}
