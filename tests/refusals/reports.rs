//! Reports that cannot be compared or written as a table.

use crate::refusals::case::{Case, Page, Wanted};
use crate::refusals::photos::sound;
use serde_json::{Value, json};
use tabside::engine::{Engine, ReadOptions};
use tabside::scene::Scene;

/// A report of a small picture without a card.
fn report() -> Value {
    let mut engine = Engine::new().expect("a desk");
    let id = engine.open(&sound()).expect("a picture").id;
    let scene: Scene = serde_json::from_value(json!({"regions": [{"id": "t1", "kind": "tooth", "outline": [[2, 2], [30, 2], [30, 28], [2, 28]]}]})).expect("a scene");
    let report = engine
        .read(id, &scene, &ReadOptions::default())
        .expect("a report");
    serde_json::to_value(report).expect("JSON")
}

/// The reading of a region with the zones that are named, as a report has it.
fn with_zones(zones: &[&str]) -> Value {
    let mut report = crate::refusals::opened::report();
    let all = report["readings"][0]["zones"]
        .as_object()
        .expect("zones")
        .clone();
    let some: serde_json::Map<String, Value> = all
        .into_iter()
        .filter(|(zone, _)| zones.contains(&zone.as_str()))
        .collect();
    report["readings"][0]["zones"] = Value::Object(some);
    report
}

/// All of them.
pub fn cases() -> Vec<Case> {
    let bytes = |v: &Value| serde_json::to_vec(v).expect("JSON");
    let bare = report();
    let compare = |id: &str, cause: &str, arguments: &str, words| {
        Case::new(
            format!("compare-{id}"),
            "report",
            cause,
            arguments,
            Wanted::Refused(words),
        )
        .page(Page::Not("the page compares what is open, not reports"))
    };
    let (upper, lower) = (with_zones(&["cervical"]), with_zones(&["incisal"]));
    let region = upper["readings"][0]["region"]
        .as_str()
        .expect("an id")
        .to_owned();
    let cgats = |id: &str, cause: &str, report: Vec<u8>, words| {
        Case::new(
            format!("cgats-{id}"),
            "report",
            cause,
            "cgats report.json",
            Wanted::Refused(words),
        )
        .file("report.json", report)
    };
    let colours = |report: &Value| {
        let of = json!({"photo": "p", "version": "0", "scene": report["scene"], "readings": report["readings"], "checks": report["checks"]});
        Page::Call("case:cgats", json!([of.to_string()]))
    };
    let mut unspoken = bare.clone();
    unspoken["checks"] = json!([]);
    let not_read = compare(
        "not-read",
        "a region that was not read",
        "compare a.json t1 a.json t1",
        "“t1” was not read",
    );
    vec![
        compare(
            "json",
            "a report that is none",
            "compare a.json t1 a.json t1",
            "the report could not be read",
        )
        .file("a.json", *b"{}"),
        compare(
            "json-2",
            "a second report that is none",
            "compare a.json t1 b.json t1",
            "b.json: the report could not be read",
        )
        .file("a.json", bytes(&bare))
        .file("b.json", *b"{}"),
        compare(
            "no-region",
            "a region that is not in the report",
            "compare a.json t9 a.json t1",
            "has no region “t9”",
        )
        .file("a.json", bytes(&bare)),
        not_read.file("a.json", bytes(&bare)),
        compare(
            "no-zone",
            "two regions read in other thirds",
            &format!("compare a.json {region} b.json {region}"),
            "have no zone in common",
        )
        .file("a.json", bytes(&upper))
        .file("b.json", bytes(&lower)),
        cgats(
            "json",
            "a report that is none",
            b"{}".to_vec(),
            "the report could not be read",
        )
        .page(Page::Not("the page writes the reading that is open")),
        cgats(
            "retake",
            "a reading without a card",
            bytes(&bare),
            "No colours are written",
        )
        .page(colours(&bare)),
        cgats(
            "nothing",
            "a report without a reading",
            bytes(&unspoken),
            "There is no colour to write",
        )
        .page(colours(&unspoken)),
    ]
}
