//! Tables on the command line: a report to CGATS, and guides from CSV and CGATS.

#[path = "support/cli.rs"]
mod cli;

use cli::{fixture, folder, tabside};
use serde_json::Value;
use std::process::Output;

fn text(out: &Output, status: i32) -> String {
    let said = String::from_utf8_lossy(&out.stderr);
    assert_eq!(out.status.code(), Some(status), "{said}");
    String::from_utf8_lossy(if status == 0 {
        &out.stdout
    } else {
        &out.stderr
    })
    .into_owned()
}

#[test]
fn a_report_becomes_cgats_and_that_a_guide_to_read_with() {
    let dir = folder("tables");
    let at = |name: &str| dir.join(name).to_string_lossy().into_owned();
    let keep = |name: &str, text: &str| std::fs::write(dir.join(name), text).expect("a file");
    let (photo, truth) = (fixture("demo/demo.jpg"), fixture("demo/demo.truth.json"));
    let report = text(&tabside(&["read", &photo, "--scene", &truth]), 0);
    keep("demo.json", &report);
    let cgats = text(&tabside(&["cgats", &at("demo.json")]), 0);
    assert!(
        cgats.starts_with("CGATS.17\n") && cgats.contains("DESCRIPTOR\t\"demo\""),
        "{cgats}"
    );
    keep("tabs.txt", &cgats);

    let out = tabside(&["guide", &at("tabs.txt")]);
    let guide: Value = serde_json::from_str(&text(&out, 0)).expect("JSON");
    assert_eq!(guide["name"], "tabs");
    assert_eq!(guide["tabs"].as_array().map(Vec::len), Some(5));
    assert!(
        String::from_utf8_lossy(&out.stderr)
            .contains("Rows of teeth and restorations were left out.")
    );

    // The three kinds of file are one guide to `read` and `pack`.
    keep("tabs.json", &text(&tabside(&["guide", &at("tabs.txt")]), 0));
    let rows = guide["tabs"].as_array().expect("tabs").iter().map(|t| {
        let lab = t["lab"].as_array().expect("a colour");
        format!(
            "{};{};{};{};gemessen\r\n",
            t["name"].as_str().unwrap_or(""),
            lab[0],
            lab[1],
            lab[2]
        )
        .replace('.', ",")
    });
    keep(
        "tabs.csv",
        &format!(
            "\u{feff}Farbmuster;L*;a*;b*;Quelle\r\n{}",
            rows.collect::<String>()
        ),
    );
    let with = |guide: &str| -> Value {
        let out = tabside(&["read", &photo, "--scene", &truth, "--guide", &at(guide)]);
        serde_json::from_str(&text(&out, 0)).expect("JSON")
    };
    let (from_cgats, from_json, from_csv) = (with("tabs.txt"), with("tabs.json"), with("tabs.csv"));
    assert_eq!(from_cgats, from_json);
    assert_eq!(from_csv["light"]["trust"], from_json["light"]["trust"]);
    assert_ne!(
        from_json["light"]["trust"],
        serde_json::from_str::<Value>(&report).expect("JSON")["light"]["trust"]
    );
    text(
        &tabside(&[
            "pack",
            &at("a.tabside"),
            &photo,
            "--scene",
            &truth,
            "--guide",
            &at("tabs.csv"),
        ]),
        0,
    );
    text(&tabside(&["verify", &at("a.tabside")]), 0);
}

#[test]
fn what_cannot_be_read_is_said_with_its_row() {
    let dir = folder("tables-bad");
    let at = |name: &str| dir.join(name).to_string_lossy().into_owned();
    for wrong in [&["cgats"][..], &["guide"], &["cgats", "a", "b"]] {
        assert_eq!(tabside(wrong).status.code(), Some(2), "{wrong:?}");
    }
    std::fs::write(
        dir.join("bad.csv"),
        "name,L*,a*,b*\nA1,79,1,13\nA2,79,1,much\n",
    )
    .expect("a file");
    let said = text(&tabside(&["guide", &at("bad.csv")]), 1);
    assert!(
        said.contains("bad.csv: Row 3: “much” is no number."),
        "{said}"
    );
    std::fs::write(dir.join("no.json"), "{}").expect("a file");
    assert!(text(&tabside(&["cgats", &at("no.json")]), 1).contains("the report could not be read"));
    let large = vec![b'a'; 9 << 20];
    std::fs::write(dir.join("large.csv"), large).expect("a file");
    assert!(
        text(&tabside(&["guide", &at("large.csv")]), 1).contains("larger than any shade guide")
    );
}
