//! Case files on the command line: packed, unpacked, verified.

use serde_json::Value;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

fn tabside(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_tabside"))
        .args(arguments)
        .output()
        .expect("the program runs")
}

fn fixture(name: &str) -> String {
    format!("{}/fixtures/{name}", env!("CARGO_MANIFEST_DIR"))
}

/// An empty folder.
fn folder(name: &str) -> PathBuf {
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    let _ = std::fs::remove_dir_all(&path);
    std::fs::create_dir_all(&path).expect("a folder");
    path
}

fn printed(out: &Output, status: i32) -> Value {
    assert_eq!(
        out.status.code(),
        Some(status),
        "{}",
        String::from_utf8_lossy(&out.stderr)
    );
    serde_json::from_slice(&out.stdout).expect("JSON")
}

#[test]
fn packed_unpacked_verified() {
    let dir = folder("case");
    let at = |name: &str| dir.join(name).to_string_lossy().into_owned();
    let (photo, truth, swatches) = (
        fixture("demo/demo.jpg"),
        fixture("demo/demo.truth.json"),
        fixture("demo/demo.swatches.json"),
    );
    let (other, other_truth) = (
        fixture("scenes/other.jpg"),
        fixture("scenes/other.truth.json"),
    );
    let pack = [
        "pack",
        &at("a.tabside"),
        &photo,
        "--scene",
        &truth,
        &other,
        "--scene",
        &other_truth,
        "--swatches",
        &swatches,
        "--label",
        "shelf 3",
    ];
    let out = printed(&tabside(&pack), 0);
    assert!(out["removed"]["demo.jpg"].is_array());
    let verified = printed(&tabside(&["verify", &at("a.tabside")]), 0);
    assert_eq!(
        (
            verified["outcome"].as_str(),
            verified["photos"][1]["outcome"].as_str()
        ),
        (Some("same"), Some("same"))
    );

    // Never over a file that is there.
    let again = tabside(&pack);
    assert_eq!(again.status.code(), Some(1));
    assert!(String::from_utf8_lossy(&again.stderr).contains("could not be written"));

    printed(&tabside(&["unpack", &at("a.tabside"), &at("out")]), 0);
    assert_eq!(
        std::fs::read(at("out/photos/1.jpg")).expect("a photo"),
        std::fs::read(&photo).expect("a photo")
    );
    let case: Value =
        serde_json::from_slice(&std::fs::read(at("out/case.json")).expect("a case")).expect("JSON");
    assert_eq!(
        (case["version"].as_u64(), case["label"].as_str()),
        (Some(1), Some("shelf 3"))
    );
    // The unpacked scene gives the reading again.
    let read = printed(
        &tabside(&[
            "read",
            &at("out/photos/2.jpg"),
            "--scene",
            &at("out/scenes/2.json"),
        ]),
        0,
    );
    assert_eq!(
        read["readings"],
        case["photos"][1]["reading"]["report"]["readings"]
    );
    assert_eq!(
        tabside(&["unpack", &at("a.tabside"), &at("out")])
            .status
            .code(),
        Some(1)
    );

    let bare = [
        "pack",
        &at("b.tabside"),
        &photo,
        "--scene",
        &truth,
        "--without-photos",
    ];
    printed(&tabside(&bare), 0);
    let verified = printed(&tabside(&["verify", &at("b.tabside")]), 3);
    assert_eq!(verified["photos"][0]["reasons"][0]["code"], "photo-missing");
}

#[test]
fn wrong_usage_and_bad_files() {
    let dir = folder("case-bad");
    let at = |name: &str| dir.join(name).to_string_lossy().into_owned();
    for wrong in [
        &["pack"][..],
        &["pack", &at("x.tabside")],
        &["pack", &at("x.tabside"), "--scene", "y"],
        &["unpack", "x"],
        &["verify"],
    ] {
        assert_eq!(tabside(wrong).status.code(), Some(2), "{wrong:?}");
    }
    std::fs::write(at("no.tabside"), b"no case").expect("a file");
    for bad in [
        &["verify", &at("no.tabside")][..],
        &["unpack", &at("no.tabside"), &at("d")],
        &["verify", &at("none")],
        &["pack", &at("x.tabside"), &at("no.tabside")],
    ] {
        let out = tabside(bad);
        assert_eq!(out.status.code(), Some(1), "{bad:?}");
        assert!(!out.stderr.is_empty());
    }
    assert!(!dir.join("d").exists() && !dir.join("x.tabside").exists());
}
