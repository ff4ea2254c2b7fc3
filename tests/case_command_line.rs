//! Case files on the command line: packed, unpacked, verified.

#[path = "support/cli.rs"]
mod cli;

use cli::{fixture, folder, tabside};
use serde_json::Value;
use std::process::Output;

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
fn encrypted_with_a_passphrase_from_a_file() {
    let dir = folder("case-locked");
    let at = |name: &str| dir.join(name).to_string_lossy().into_owned();
    std::fs::write(at("words.txt"), "four plain words here\nnot this line\n").expect("a file");
    std::fs::write(at("other.txt"), "four plain words there\n").expect("a file");
    std::fs::write(at("empty.txt"), "\n").expect("a file");
    let (photo, truth) = (fixture("demo/demo.jpg"), fixture("demo/demo.truth.json"));
    let (file, words) = (at("a.tabside"), at("words.txt"));
    let pack = [
        "pack",
        &file,
        &photo,
        "--scene",
        &truth,
        "--passphrase-file",
        &words,
    ];
    let packed = printed(&tabside(&pack), 0);
    let bytes = std::fs::read(&file).expect("the case");
    assert!(bytes.starts_with(b"TABSLOCK"));
    assert_eq!(packed["bytes"].as_u64(), Some(bytes.len() as u64));
    let verify = |words: &str| tabside(&["verify", &file, "--passphrase-file", words]);
    assert_eq!(printed(&verify(&words), 0)["outcome"], "same");
    for (out, said) in [
        (tabside(&["verify", &file]), "--passphrase-file"),
        (verify(&at("other.txt")), "another one"),
        (verify(&at("empty.txt")), "is empty"),
    ] {
        assert_eq!(out.status.code(), Some(1), "{said}");
        let text = String::from_utf8_lossy(&out.stderr).into_owned();
        assert!(text.contains(said), "{text}");
    }
    let out = at("out");
    printed(
        &tabside(&["unpack", &file, &out, "--passphrase-file", &words]),
        0,
    );
    assert!(dir.join("out/photos/1.jpg").is_file());
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
