//! The command line as a person or a program calls it.

#[path = "support/cli.rs"]
mod cli;

use cli::{fixture, tabside};
use serde_json::Value;
use std::path::{Path, PathBuf};

fn report(arguments: &[&str]) -> Value {
    let out = tabside(arguments);
    assert!(
        out.status.success(),
        "{}",
        String::from_utf8_lossy(&out.stderr)
    );
    serde_json::from_slice(&out.stdout).expect("JSON")
}

fn scratch(name: &str, content: &[u8]) -> PathBuf {
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    std::fs::write(&path, content).expect("a scratch file");
    path
}

/// The report has every part that its schema names, and its scene can be fed back in.
#[test]
fn read_prints_a_report_and_takes_it_back() {
    let (photo, truth) = (fixture("demo/demo.jpg"), fixture("demo/demo.truth.json"));
    let first = report(&["read", &photo, "--scene", &truth]);
    for part in [
        "version", "photo", "checks", "scene", "readings", "ladders", "advice",
    ] {
        assert!(first.get(part).is_some(), "{part}");
    }
    let reading = &first["readings"][0];
    for zone in ["cervical", "middle", "incisal", "whole"] {
        let z = &reading["zones"][zone];
        assert_eq!(z["lab"].as_array().map(Vec::len), Some(3));
        for number in ["chroma", "hue_deg", "doubt", "pixels", "glare"] {
            assert!(z[number].is_number(), "{zone}.{number}");
        }
    }
    assert!(reading["gradient"][0]["at"].is_number() && reading["blotch"].is_number());
    let rung = &first["ladders"][0]["tabs"][0];
    for number in ["delta_e_00", "delta_l", "delta_c", "delta_h"] {
        assert!(rung[number].is_number(), "{number}");
    }

    let text = serde_json::to_vec(&first).expect("JSON");
    let whole = scratch("report.json", &text);
    let again = report(&["read", &photo, "--scene", &whole.to_string_lossy()]);
    assert_eq!(first, again);
    let scene = scratch(
        "scene.json",
        &serde_json::to_vec(&first["scene"]).expect("JSON"),
    );
    assert_eq!(
        report(&["read", &photo, "--scene", &scene.to_string_lossy()]),
        first
    );
}

#[test]
fn without_a_scene_it_says_what_is_missing() {
    let out = report(&["read", &fixture("demo/demo.jpg")]);
    assert_eq!(out["checks"][0]["code"], "card-missing");
    assert_eq!(out["readings"].as_array().map(Vec::len), Some(0));
    assert_eq!(out["photo"]["width"], 3600);
}

#[test]
fn a_measured_guide_fills_the_ladder() {
    let guide = br#"{"name":"Own tabs","source":"measured","tabs":[
        {"name":"A2","lab":[70,0,10]},
        {"name":"N1","lab":[75,1,17],"zones":{"cervical":[72,2,20],"middle":[75,1,17],"incisal":[74,0,13]}}]}"#;
    let guide = scratch("guide.json", guide);
    let (photo, truth) = (fixture("demo/demo.jpg"), fixture("demo/demo.truth.json"));
    let out = report(&[
        "read",
        &photo,
        "--scene",
        &truth,
        "--guide",
        &guide.to_string_lossy(),
    ]);
    let tabs = out["ladders"][0]["tabs"].as_array().expect("tabs");
    let of = |name: &str| tabs.iter().find(|t| t["name"] == name).expect("the tab");
    assert_eq!(of("N1")["basis"], "measured");
    assert_eq!(of("N1")["whole_tab"], false);
    // A2 stands in the photo: what is read there wins over the guide.
    assert_eq!(of("A2")["basis"], "in_photo");
}

/// A pair with itself lies on itself, and both value readings agree.
#[test]
fn a_pair_with_itself() {
    let (photo, truth) = (fixture("demo/demo.jpg"), fixture("demo/demo.truth.json"));
    let out = report(&["read", &photo, "--polarised", &photo, "--scene", &truth]);
    let m = &out["pair"]["transform"];
    for (row, want) in [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0]].iter().enumerate() {
        for (column, want) in want.iter().enumerate() {
            let got = m[row][column].as_f64().expect("a number");
            let tolerance = if column == 2 { 0.5 } else { 5e-4 };
            assert!((got - want).abs() < tolerance, "{m}");
        }
    }
    let z = &out["readings"][0]["zones"]["middle"];
    let apart = z["lab"][0].as_f64().expect("L*") - z["value_polarised"].as_f64().expect("L*");
    assert!(apart.abs() < 0.1, "{apart}");
}

/// Exit status 1 and a reason for work that cannot be done, 2 and the help for wrong usage.
#[test]
fn failures_say_why() {
    let photo = fixture("demo/demo.jpg");
    let bad_scene = scratch("bad_scene.json", b"{\"card\": 5}");
    let no_scene = scratch("no_scene.json", b"{\"hello\": 5}");
    let text = scratch("not_a_photo.jpg", b"hello");
    let (bad, none, text) = (
        bad_scene.to_string_lossy(),
        no_scene.to_string_lossy(),
        text.to_string_lossy(),
    );
    for (arguments, status, word) in [
        (vec![], 2, "a command is missing"),
        (vec!["paint"], 2, "no command"),
        (vec!["read"], 2, "PHOTO is missing"),
        (vec!["read", &photo, "--colour"], 2, "--colour"),
        (vec!["read", "/nowhere/photo.jpg"], 1, "could not be opened"),
        (vec!["read", &text], 1, "not a picture"),
        (
            vec!["read", &photo, "--scene", &bad],
            1,
            "scene could not be read",
        ),
        (
            vec!["read", &photo, "--scene", &none],
            1,
            "neither a card nor regions",
        ),
        (
            vec!["read", &photo, "--scene", &photo],
            1,
            "not a text file",
        ),
        (
            vec!["read", &photo, "--guide", &bad],
            1,
            "guide could not be read",
        ),
        (vec!["schema", "song"], 2, "song"),
    ] {
        let out = tabside(&arguments);
        let error = String::from_utf8_lossy(&out.stderr);
        assert_eq!(out.status.code(), Some(status), "{arguments:?}: {error}");
        assert!(error.contains(word), "{arguments:?}: {error}");
        assert!(out.stdout.is_empty());
    }
    let help = tabside(&["--help"]);
    assert!(help.status.success() && String::from_utf8_lossy(&help.stdout).contains("--polarised"));
    assert!(String::from_utf8_lossy(&tabside(&["--version"]).stdout).starts_with("tabside 0."));
}

#[test]
fn schemas_are_json() {
    for name in ["report", "scene", "guide"] {
        let out = report(&["schema", name]);
        assert!(out["$schema"].is_string(), "{name}");
    }
}

/// The readings of the two fixture photos, as kept beside them. The page's tests hold the page to
/// the same files, so command line and page give the same numbers. Decoders may differ in the
/// last bit between machines, hence 0.02. `TABSIDE_BLESS=1` writes the files again.
#[test]
fn readings_are_the_kept_ones() {
    for name in ["demo/demo", "scenes/other"] {
        let (photo, truth) = (
            fixture(&format!("{name}.jpg")),
            fixture(&format!("{name}.truth.json")),
        );
        let out = report(&["read", &photo, "--scene", &truth]);
        let mut now = serde_json::Map::new();
        for reading in out["readings"].as_array().expect("readings") {
            let mut zones = serde_json::Map::new();
            for (zone, z) in reading["zones"].as_object().expect("zones") {
                zones.insert(zone.clone(), z["lab"].clone());
            }
            now.insert(
                reading["region"].as_str().expect("an id").to_owned(),
                zones.into(),
            );
        }
        let path = fixture(&format!("{name}.readings.json"));
        if std::env::var_os("TABSIDE_BLESS").is_some() {
            let text = serde_json::to_string_pretty(&now).expect("JSON") + "\n";
            std::fs::write(&path, text).expect("the file is written");
        }
        let kept: Value = serde_json::from_slice(&std::fs::read(&path).expect("the kept readings"))
            .expect("JSON");
        assert_eq!(kept.as_object().map(serde_json::Map::len), Some(now.len()));
        for (region, zones) in &now {
            for (zone, lab) in zones.as_object().expect("zones") {
                for i in 0..3 {
                    let [a, b] =
                        [&lab[i], &kept[region][zone][i]].map(|v| v.as_f64().expect("a number"));
                    assert!((a - b).abs() < 0.02, "{name} {region} {zone}: {a} was {b}");
                }
            }
        }
    }
}

/// What is found can be given back as a scene, and is what the kept file says; the page's tests
/// compare with the same file.
#[test]
fn found_without_a_touch_and_read() {
    for name in ["demo/demo", "scenes/other"] {
        let photo = fixture(&format!("{name}.jpg"));
        let out = report(&["find", &photo]);
        let path = fixture(&format!("{name}.found.json"));
        if std::env::var_os("TABSIDE_BLESS").is_some() {
            let text = serde_json::to_string(&out["found"]).expect("JSON") + "\n";
            std::fs::write(&path, text).expect("the file is written");
        }
        let kept: Value =
            serde_json::from_slice(&std::fs::read(&path).expect("the kept file")).expect("JSON");
        let regions = |v: &Value| v["regions"].as_array().expect("regions").clone();
        let (now, kept_regions) = (regions(&out["found"]), regions(&kept));
        assert_eq!(now.len(), kept_regions.len(), "{name}");
        assert_eq!(out["found"]["target"], kept["target"]);
        assert_eq!(out["found"]["restoration"], kept["restoration"]);
        for (a, b) in now.iter().zip(&kept_regions) {
            assert_eq!(a["kind"], b["kind"]);
            for end in ["cervical", "incisal"] {
                for i in 0..2 {
                    let [p, q] = [&a[end][i], &b[end][i]].map(|v| v.as_f64().expect("a number"));
                    assert!((p - q).abs() < 0.5, "{name}: {p} was {q}");
                }
            }
        }
        let folder = std::env::temp_dir().join(format!("tabside-found-{}", std::process::id()));
        std::fs::create_dir_all(&folder).expect("a folder");
        let scene = folder.join("found.json");
        std::fs::write(&scene, out.to_string()).expect("the scene is written");
        let read = report(&["read", &photo, "--scene", &scene.to_string_lossy()]);
        let readings = read["readings"].as_array().expect("readings");
        assert_eq!(readings.len(), now.len());
        std::fs::remove_dir_all(&folder).expect("the folder goes again");
    }
}

/// The schemas that only the command line knows are those in the repository.
#[test]
fn printed_schemas_are_the_kept_ones() {
    for name in [
        "comparison",
        "swatches",
        "requests",
        "predictions",
        "request",
        "plan",
    ] {
        let now = tabside(&["schema", name]);
        assert!(now.status.success(), "{name}");
        let path = fixture(&format!("schema/{name}.schema.json"));
        if std::env::var_os("TABSIDE_BLESS").is_some() {
            std::fs::write(&path, &now.stdout).expect("the schema is written");
        }
        let kept = std::fs::read(&path).expect("a kept schema");
        assert!(
            kept == now.stdout,
            "{path} is out of date: run the tests once with TABSIDE_BLESS=1"
        );
    }
}

fn demo_book() -> Value {
    let text = std::fs::read(fixture("demo/demo.swatches.json")).expect("the demo's swatches");
    serde_json::from_slice(&text).expect("JSON")
}

#[test]
fn predict_answers_each_request() {
    let requests = scratch(
        "requests.json",
        br#"{"requests":[{"id":"one","base":[78,0,13],"mix":{"heath copper":1},"coats":1},
            {"id":"two","base":[78,0,13],"mix":{"heath copper":0.6,"rain slate":0.4},"coats":1.5}]}"#,
    );
    let made = report(&[
        "predict",
        &fixture("demo/demo.swatches.json"),
        &requests.to_string_lossy(),
    ]);
    let answers = made["predictions"].as_array().expect("answers");
    assert_eq!(answers.len(), 2);
    assert_eq!(answers[1]["id"], "two");
    let l = answers[0]["lab"][0].as_f64().expect("L*");
    assert!(l < 78.0 && l > 74.0);
    assert!(answers[0]["doubt"].as_f64().expect("a doubt") > 0.0);
    assert_eq!(made["book"]["demo"], true);
}

#[test]
fn plan_prints_steps_however_zones_are_written() {
    let ask = |extra: Value| {
        let mut request = demo_book();
        for (key, value) in extra.as_object().expect("an object") {
            request[key] = value.clone();
        }
        let file = scratch("plan.json", &serde_json::to_vec(&request).expect("JSON"));
        report(&["plan", &file.to_string_lossy()])
    };
    let (from, to) = ([77.0, 0.0, 14.0], [73.0, 2.0, 19.0]);
    let list = ask(
        serde_json::json!({"zones": [{"zone": "middle", "from": from, "to": to}], "limits": {"coats_per_firing": 2}}),
    );
    let steps = list["plan"]["steps"].as_array().expect("steps");
    assert!(steps.iter().any(|s| s["kind"] == "paint"));
    let zone = &list["plan"]["zones"][0];
    assert!(
        zone["after_delta_e_00"].as_f64().expect("a number") < 0.5,
        "{zone}"
    );
    for other in [
        serde_json::json!({"zones": {"middle": {"from": from, "to": to}}, "limits": {"coats_per_firing": 2}}),
        serde_json::json!({"from": {"middle": from}, "to": {"middle": to}, "limits": {"coats_per_firing": 2}}),
    ] {
        assert_eq!(ask(other)["plan"]["zones"], list["plan"]["zones"]);
    }
}

#[test]
fn stain_failures_say_why() {
    let swatches = fixture("demo/demo.swatches.json");
    let bad = |name: &str, text: &str, words: &str, command: &str| {
        let file = scratch(name, text.as_bytes());
        let file = file.to_string_lossy();
        let out = match command {
            "plan" => tabside(&["plan", &file]),
            _ => tabside(&["predict", &swatches, &file]),
        };
        let said = String::from_utf8_lossy(&out.stderr).into_owned();
        assert_eq!(out.status.code(), Some(1), "{said}");
        assert!(said.contains(words), "{said}");
    };
    let request = |mix: &str, coats: &str, base: &str| {
        format!(r#"{{"requests":[{{"id":"r7","base":{base},"mix":{mix},"coats":{coats}}}]}}"#)
    };
    let lab = "[75,1,18]";
    bad(
        "r1.json",
        &request(r#"{"heath copper":0.6}"#, "1", lab),
        "r7",
        "predict",
    );
    bad(
        "r2.json",
        &request(r#"{"heath copper":1}"#, "-1", lab),
        "coats",
        "predict",
    );
    bad(
        "r3.json",
        &request(r#"{"moonshine":1}"#, "1", lab),
        "moonshine",
        "predict",
    );
    bad(
        "r4.json",
        &request(r#"{"heath copper":1}"#, "1", "[75,90,18]"),
        "no colour",
        "predict",
    );
    bad("r5.json", "{\"requests\":", "could not be read", "predict");
    bad("p1.json", r#"{"swatches":[],"zones":[]}"#, "swatch", "plan");
    bad("p2.json", r#"{"zones":[]}"#, "swatches", "plan");
}

/// Reads a fixture photo with its true scene and keeps the report in a file.
fn kept_report(photo: &str, as_name: &str) -> (Value, String) {
    let scene = fixture(&format!("{photo}.truth.json"));
    let made = report(&["read", &fixture(&format!("{photo}.jpg")), "--scene", &scene]);
    let file = scratch(as_name, &serde_json::to_vec(&made).expect("JSON"));
    (made, file.to_string_lossy().into_owned())
}

fn number(value: &Value) -> f64 {
    value.as_f64().expect("a number")
}

/// The id of the first region of a kind, and its reading.
fn first_of<'a>(report: &'a Value, kind: &str) -> (&'a str, &'a Value) {
    let regions = report["scene"]["regions"].as_array().expect("regions");
    let id = regions
        .iter()
        .find(|r| r["kind"] == kind)
        .and_then(|r| r["id"].as_str())
        .expect("one of that kind");
    let readings = report["readings"].as_array().expect("readings");
    let reading = readings.iter().find(|r| r["region"] == id);
    (id, &reading.expect("its reading")["zones"])
}

/// Two photos: B − A in sign and words, and the doubts of the colours themselves, added as
/// squares, with the sentence about the cards.
#[test]
fn compare_sets_two_photos_against_each_other() {
    let (demo, demo_file) = kept_report("demo/demo", "compare_demo.json");
    let (other, other_file) = kept_report("scenes/other", "compare_other.json");
    let ((a, zones_a), (b, zones_b)) = (first_of(&demo, "restoration"), first_of(&other, "tooth"));
    let out = report(&["compare", &demo_file, a, &other_file, b]);
    assert_eq!(
        (out["from"]["region"].as_str(), out["to"]["region"].as_str()),
        (Some(a), Some(b))
    );
    let zones = out["zones"].as_array().expect("zones");
    assert_eq!(zones.len(), 4);
    for z in zones {
        let zone = z["zone"].as_str().expect("a zone");
        let (from, to) = (&zones_a[zone], &zones_b[zone]);
        assert_eq!(
            (&z["from"]["lab"], &z["to"]["lab"]),
            (&from["lab"], &to["lab"])
        );
        let [doubt_a, doubt_b] = [from, to].map(|v| number(&v["doubt"]));
        let both = (doubt_a * doubt_a + doubt_b * doubt_b).sqrt();
        assert!((number(&z["doubt"]) - both).abs() < 1e-9);
        let lighter = number(&to["lab"][0]) - number(&from["lab"][0]);
        assert!(number(&z["delta_l"]) * lighter > 0.0);
        assert!(number(&z["delta_e_00"]) >= number(&z["delta_l"]).abs());
    }
    let note = out["note"].as_str().expect("a sentence");
    assert!(note.contains("its own card"), "{note}");
    // The other way round: the same size, the opposite sign.
    let back = report(&["compare", &other_file, b, &demo_file, a]);
    for part in ["delta_l", "delta_c"] {
        let sum = number(&zones[0][part]) + number(&back["zones"][0][part]);
        assert!(sum.abs() < 1e-9, "{part}");
    }
}

/// Within one photo the doubt is the smaller one, and says so; a report against itself shows the
/// differences that its advice has.
#[test]
fn compare_within_one_photo_agrees_with_its_advice() {
    let (demo, file) = kept_report("demo/demo", "compare_one.json");
    let advice = &demo["advice"][0];
    let (own, target) = (&advice["restoration"], &advice["target"]);
    let [own, target] = [own, target].map(|v| v.as_str().expect("an id"));
    let out = report(&["compare", &file, target, &file, own]);
    for (got, want) in out["zones"]
        .as_array()
        .expect("zones")
        .iter()
        .zip(advice["zones"].as_array().expect("zones"))
    {
        for part in ["delta_e_00", "delta_l", "delta_c", "delta_h", "doubt"] {
            let apart = number(&got[part]) - number(&want[part]);
            assert!(apart.abs() < 1e-9, "{part}");
        }
        assert_eq!(
            (&got["zone"], &got["verdict"]),
            (&want["zone"], &want["verdict"])
        );
    }
    assert!(
        out["note"]
            .as_str()
            .expect("a sentence")
            .contains("one photo")
    );
}

#[test]
fn compare_says_what_is_wrong() {
    let (demo, file) = kept_report("demo/demo", "compare_bad.json");
    let (id, _) = first_of(&demo, "tooth");
    let fails = |arguments: &[&str], code: i32, words: &str| {
        let out = tabside(arguments);
        let said = String::from_utf8_lossy(&out.stderr).into_owned();
        assert_eq!(out.status.code(), Some(code), "{said}");
        assert!(said.contains(words), "{said}");
    };
    fails(
        &["compare", &file, id],
        2,
        "REPORT_A REGION_A REPORT_B REGION_B",
    );
    fails(&["compare", &file, id, &file, "nobody"], 1, id);
    fails(
        &["compare", &file, id, "no such file", id],
        1,
        "no such file",
    );
    let empty = scratch("no_report.json", b"{}");
    fails(
        &["compare", &empty.to_string_lossy(), id, &file, id],
        1,
        "tabside read",
    );
    let bare = report(&["read", &fixture("demo/demo.jpg")]);
    let bare = scratch(
        "bare_report.json",
        &serde_json::to_vec(&bare).expect("JSON"),
    );
    fails(
        &["compare", &bare.to_string_lossy(), id, &file, id],
        1,
        "no region",
    );
}
