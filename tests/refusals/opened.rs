//! Cases that open with a word about them, and numbers that are not the same; and cases that cannot be
//! written.

use crate::refusals::case::{Case, Page, Wanted};
use crate::refusals::doctored::{Shot, scene};
use crate::refusals::photos::sound;
use crate::support::zip::file_of;
use serde_json::{Value, json};
use std::sync::LazyLock;
use tabside::case::{self, KeptPhoto, KeptReading, PhotoBytes, VERSION};
use tabside::engine::{Engine, ReadOptions};
use tabside::scene::Scene;

const NAME: &str = "a.tabside";

/// The smaller demo photo with its reading, as a case: the text, and the photo as it stands in it.
static KEPT: LazyLock<(Value, Vec<u8>)> = LazyLock::new(|| {
    let photo = Shot::demo().jpeg();
    let scene: Scene = serde_json::from_value(scene()).expect("a scene");
    let mut engine = Engine::new().expect("a desk");
    let id = engine.open(&photo).expect("a photo").id;
    let report = engine
        .read(id, &scene, &ReadOptions::default())
        .expect("a report");
    let reading = KeptReading {
        report: serde_json::to_value(report).expect("JSON"),
    };
    let of = tabside::case::Case {
        version: VERSION,
        created: "2026-05-17T10:32:05Z".to_owned(),
        changed: "2026-05-17T10:32:05Z".to_owned(),
        photos: vec![KeptPhoto {
            id: "a".to_owned(),
            name: "one.jpg".to_owned(),
            scene,
            reading: Some(reading),
            ..KeptPhoto::default()
        }],
        ..tabside::case::Case::default()
    };
    let written = case::write(
        &of,
        &[PhotoBytes {
            id: "a",
            bytes: &photo,
        }],
    )
    .expect("a case");
    let mut opened = case::read(&written.bytes).expect("it opens");
    (
        serde_json::to_value(written.case).expect("JSON"),
        opened.photos.remove("a").expect("its photo"),
    )
});

/// The report of the smaller demo photo.
pub fn report() -> Value {
    KEPT.0["photos"][0]["reading"]["report"].clone()
}

fn changed(change: impl FnOnce(&mut Value), photo: Option<&[u8]>) -> Vec<u8> {
    let mut text = KEPT.0.clone();
    change(&mut text);
    let text = serde_json::to_vec(&text).expect("JSON");
    let name = KEPT.0["photos"][0]["part"]
        .as_str()
        .expect("its part")
        .to_owned();
    match text_has(&text, &name) {
        true => file_of(&[("case.json", &text), (&name, photo.unwrap_or(&KEPT.1))]),
        false => file_of(&[("case.json", &text)]),
    }
}

fn text_has(text: &[u8], name: &str) -> bool {
    String::from_utf8_lossy(text).contains(name)
}

/// What is found in them.
pub fn findings() -> Vec<Case> {
    let of = |code: &'static str, cause: &str, bytes: Vec<u8>| {
        Case::new(
            format!("opened-{code}"),
            "case file",
            cause,
            "verify a.tabside",
            Wanted::Finding(code),
        )
        .file(NAME, bytes)
        .page(Page::Drop(NAME))
    };
    let number = "/photos/0/reading/report/readings/0/zones/middle/lab/0";
    let other = |case: &mut Value| *case.pointer_mut(number).expect("a number") = json!(12.5);
    let moved = |list: &mut Value| {
        for p in list.as_array_mut().expect("points") {
            p[1] = json!(p[1].as_f64().expect("a number") + 9.0);
        }
    };
    let kept_as = |kept: &'static str| {
        move |case: &mut Value| {
            case["photos"][0]["kept"] = json!(kept);
            if kept == "absent" {
                case["photos"][0]
                    .as_object_mut()
                    .expect("a photo")
                    .remove("part");
            }
        }
    };
    let no_reading = |case: &mut Value| {
        drop(
            case["photos"][0]
                .as_object_mut()
                .expect("a photo")
                .remove("reading"),
        )
    };
    let newer = |case: &mut Value| {
        case["version"] = json!(2);
        case["hologram"] = json!({"depth": 3});
    };
    vec![
        of(
            "newer-version",
            "a case of a newer version",
            changed(newer, None),
        ),
        of(
            "part-not-understood",
            "a newer case with something unknown in it",
            changed(newer, None),
        ),
        of(
            "photo-no-picture",
            "a photo that is a text",
            changed(|_| (), Some(b"this is no picture")),
        ),
        of(
            "program-version",
            "numbers of an earlier version",
            changed(
                |case| {
                    other(case);
                    case["program"] = json!("0.0.9");
                    case["photos"][0]["reading"]["report"]["version"] = json!("0.0.9");
                },
                None,
            ),
        ),
        of(
            "region-edited",
            "an outline that was moved after the reading",
            changed(
                |case| moved(&mut case["photos"][0]["scene"]["regions"][0]["outline"]),
                None,
            ),
        ),
        of(
            "card-edited",
            "a card that was moved after the reading",
            changed(
                |case| moved(&mut case["photos"][0]["scene"]["card"]["outline"]),
                None,
            ),
        ),
        of(
            "unexplained",
            "a number that was changed",
            changed(other, None),
        ),
        of(
            "no-reading",
            "a case without readings",
            changed(no_reading, None),
        ),
        of(
            "photo-missing",
            "a case without its photo",
            changed(kept_as("absent"), None),
        ),
        of(
            "photo-reduced",
            "a reduced copy of the photo",
            changed(kept_as("reduced"), None),
        ),
        of(
            "cannot-read",
            "a photo that begins as one and is none",
            changed(|_| (), Some(b"\x89PNG\r\n\x1a\nnothing more")),
        ),
    ]
}

/// Cases that cannot be written, and places where nothing can be.
pub fn cases() -> Vec<Case> {
    let photo = "photo.png";
    let own = "the browser writes downloads";
    let pack = |id: &str, cause: &str, arguments: &str, words| {
        Case::new(
            id,
            "case to be written",
            cause,
            arguments,
            Wanted::Refused(words),
        )
        .file(photo, sound())
        .page(Page::Not(own))
    };
    let kept = crate::support::case::small_file().bytes;
    let label = "x".repeat(501);
    let (case, _) = crate::support::case::small();
    let mut long = serde_json::to_value(case).expect("JSON");
    long["label"] = json!(label);
    let write = |case: &Value| {
        Page::Call(
            "case:write",
            json!([case.to_string(), [{"id": "a", "file": {"$file": photo}}]]),
        )
    };
    let vast = format!(
        "{{\"swatches\":[{{\"stain\":\"a\",\"coats\":1,\"base\":[75,1,16],\"after\":[72,2,18],\"note\":\"{}\"}}]}}",
        "x".repeat(49 << 20)
    );
    vec![
        pack(
            "pack-label",
            "a label of 501 letters",
            &format!("pack out.tabside photo.png --label {label}"),
            "The case cannot be written: The case cannot be: its label",
        )
        .page(write(&long)),
        pack(
            "pack-vast",
            "49 MB of text",
            "pack out.tabside photo.png --swatches s.json",
            "bytes of text; at most 50331648 are written",
        )
        .file("s.json", vast.into_bytes())
        .page(Page::Not(
            "the page's own book and notes are bounded before",
        )),
        pack(
            "pack-over",
            "a file that is there already",
            "pack photo.png photo.png",
            "photo.png could not be written",
        ),
        Case::new(
            "unpack-full",
            "folder",
            "a folder that is not empty",
            "unpack a.tabside .",
            Wanted::Refused(". is not empty"),
        )
        .file(NAME, kept)
        .page(Page::Not(own)),
        pack(
            "pack-swatches",
            "a book without swatches",
            "pack out.tabside photo.png --swatches s.json",
            "the swatches could not be read",
        )
        .file("s.json", *b"{}")
        .page(Page::Not("the page keeps the book that it has")),
        narrow(),
    ]
}

/// A picture so long and narrow that nothing is left of its width where it is searched.
fn narrow() -> Case {
    let long = crate::support::files::Picture::rgb8(16, 300_000, |_, y| [(y % 251) as u8; 3]).png();
    Case::new(
        "find-narrow",
        "photo",
        "a picture of 16 × 300 000 pixels",
        "find photo.png",
        Wanted::Refused("too small to find anything in"),
    )
    .file("photo.png", long)
    .page(Page::Call("find", json!([{"$open": "photo.png"}])))
}
