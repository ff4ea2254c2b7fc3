//! Case files that are damaged, changed, foreign, or locked.

use crate::refusals::case::{Case, Page, Wanted};
use crate::support::case::{small, small_file};
use crate::support::zip::{Entry, file_of, manifest, zip};
use serde_json::{Value, json};

const NAME: &str = "a.tabside";

fn one(id: &str, cause: &str, bytes: impl Into<Vec<u8>>, words: &'static str) -> Case {
    Case::new(
        format!("case-{id}"),
        "case file",
        cause,
        "verify a.tabside",
        Wanted::Refused(words),
    )
    .file(NAME, bytes)
    .page(Page::Drop(NAME))
}

fn text() -> Value {
    serde_json::to_value(small_file().case).expect("JSON")
}

/// The small case with its text changed, under a manifest that is true of it.
fn changed(change: impl FnOnce(&mut Value)) -> Vec<u8> {
    let mut case = text();
    change(&mut case);
    let (_, photo) = small();
    let case = serde_json::to_vec(&case).expect("JSON");
    file_of(&[("case.json", &case), ("photos/1.png", &photo)])
}

/// All that are refused.
pub fn cases() -> Vec<Case> {
    let mut out = containers();
    out.extend(parts());
    out.extend(contents());
    out
}

fn containers() -> Vec<Case> {
    let whole = small_file().bytes;
    let zeros = vec![0_u8; 15 << 20];
    let mut liar = Entry::deflated("case.json", &zeros);
    liar.unpacked = 1000;
    let mut huge = Entry::deflated("case.json", b"{}");
    huge.unpacked = u32::MAX;
    let each = |i: u32| Entry {
        unpacked: 500 << 20,
        packed: vec![0; 3 << 20],
        method: 8,
        ..Entry::stored(&format!("photos/{i}.jpg"), b"")
    };
    let all: Vec<Entry> = (0..4).map(each).collect();
    let many: Vec<Entry> = (0..600)
        .map(|i| Entry::stored(&format!("photos/{i}.jpg"), b""))
        .collect();
    let mut locked = Entry::stored("case.json", b"{}");
    locked.flags = 1;
    let twice = [
        Entry::stored("photos/a.jpg", b"1"),
        Entry::stored("photos/A.jpg", b"2"),
    ];
    vec![
        one(
            "empty",
            "a file of 0 bytes",
            b"",
            "The file is empty (0 bytes). Copy it again, or",
        ),
        one(
            "foreign",
            "a file of something else",
            *b"no zip",
            "This is not a case file",
        ),
        one(
            "cut",
            "a case that was cut off",
            &whole[..whole.len() * 2 / 3],
            "or it was cut off before its end",
        ),
        one(
            "bomb",
            "a part that unpacks to 200 times its size",
            zip(&[Entry::deflated("case.json", &zeros)]),
            "times its size",
        ),
        one(
            "liar",
            "a part that is larger than it says",
            zip(&[liar]),
            "does not unpack to what was packed",
        ),
        one(
            "huge",
            "a part of 4 GB",
            zip(&[huge]),
            "unpacks to 4294967295 bytes",
        ),
        one(
            "all-huge",
            "parts of 2 GB together",
            zip(&all),
            "unpack to more than",
        ),
        one("many", "600 parts", zip(&many), "that it has 600 parts"),
        one("twice", "one part twice", zip(&twice), "twice"),
        one(
            "packed",
            "a part that is encrypted by itself",
            zip(&[locked]),
            "packed or encrypted in a way",
        ),
        one(
            "strange",
            "a part with a path",
            zip(&[Entry::stored("../case.json", b"x")]),
            "which is no part of a case",
        ),
    ]
}

fn parts() -> Vec<Case> {
    let (_, photo) = small();
    let case = serde_json::to_vec(&text()).expect("JSON");
    let of = |case: &[u8], photo: &[u8], manifest: &[u8]| {
        zip(&[
            Entry::stored("case.json", case),
            Entry::stored("photos/1.png", photo),
            Entry::stored("manifest.json", manifest),
        ])
    };
    let true_of = manifest(&[("case.json", &case), ("photos/1.png", &photo)]);
    let mut another = photo.clone();
    *another.last_mut().expect("a byte") ^= 1;
    let deep = format!(
        "{{\"version\":1,\"x\":{}1{}}}",
        "[".repeat(60),
        "]".repeat(60)
    );
    vec![
        one(
            "no-manifest",
            "a case without its manifest",
            zip(&[Entry::stored("case.json", &case)]),
            "manifest.json is missing",
        ),
        one(
            "checksum",
            "a photo that was exchanged",
            of(&case, &another, &true_of),
            "its checksum in manifest.json is another",
        ),
        one(
            "manifest-json",
            "a manifest that is none",
            of(&case, &photo, b"{}"),
            "manifest.json in the case file could not be read",
        ),
        one(
            "no-text",
            "a case without its text",
            file_of(&[("photos/1.png", &photo)]),
            "case.json in the case file could not be read: it is missing",
        ),
        one(
            "no-photo",
            "a case that names a photo it has not",
            file_of(&[("case.json", &case)]),
            "The photo “photo one.png” is missing",
        ),
        one(
            "stray",
            "a photo that belongs to nothing",
            file_of(&[
                ("case.json", &case),
                ("photos/1.png", &photo),
                ("photos/9.png", &photo),
            ]),
            "belongs to no photo",
        ),
        one(
            "deep",
            "a text nested 60 deep",
            file_of(&[("case.json", deep.as_bytes())]),
            "nested deeper than 48",
        ),
        one(
            "text",
            "a text that breaks off",
            file_of(&[("case.json", &case[..case.len() / 2])]),
            "case.json in the case file could not be read",
        ),
        one(
            "newer-list",
            "a newer case that is a list",
            file_of(&[("case.json", b"[]")]),
            "does not say of which version",
        ),
    ]
}

fn contents() -> Vec<Case> {
    let of = |id: &str, cause: &str, change: &dyn Fn(&mut Value), words| {
        one(id, cause, changed(change), words)
    };
    let long = |n: usize| "x".repeat(n);
    let set = |at: &'static str, value: Value| {
        move |case: &mut Value| *case.pointer_mut(at).expect("its place") = value.clone()
    };
    let put = |at: &'static str, key: &'static str, value: Value| {
        move |case: &mut Value| case.pointer_mut(at).expect("its place")[key] = value.clone()
    };
    let photos = |n: usize| {
        move |case: &mut Value| {
            let one = json!({"id": "b", "name": "", "role": "plain", "kept": "absent"});
            let list = (0..n).map(|i| {
                let mut p = one.clone();
                p["id"] = json!(format!("b{i}"));
                p
            });
            case["photos"] = list.collect();
        }
    };
    let square = json!([[2, 2], [30, 2], [30, 28], [2, 28]]);
    let regions = |n: usize| {
        Value::Array(
            (0..n)
                .map(|i| json!({"id": format!("r{i}"), "kind": "tooth", "outline": square}))
                .collect(),
        )
    };
    let steps = |n: usize| json!({"steps": vec![json!({"outline": square, "lab": [50, 0, 0]}); n]});
    let line = |n: usize| Value::Array((0..n).map(|i| json!([i % 90, i % 70])).collect());
    let second = |also: Value| {
        move |case: &mut Value| {
            let mut photo = json!({"id": "b", "name": "b", "role": "plain", "kept": "absent"});
            for (k, v) in also.as_object().expect("fields") {
                photo[k] = v.clone();
            }
            case["photos"].as_array_mut().expect("photos").push(photo);
        }
    };
    vec![
        of(
            "version",
            "a case of version 0",
            &set("/version", json!(0)),
            "does not say of which version",
        ),
        of(
            "form",
            "a kind of region that is none",
            &set("/photos/0/scene/regions/0/kind", json!("bridge")),
            "case.json in the case file could not be read",
        ),
        of(
            "label",
            "a label of 501 letters",
            &set("/label", json!(long(501))),
            "its label is longer than 500",
        ),
        of(
            "program",
            "a program's version of 41 letters",
            &set("/program", json!(long(41))),
            "its program version is longer than",
        ),
        of(
            "created",
            "a time of 41 letters",
            &set("/created", json!(long(41))),
            "its time is longer than",
        ),
        of(
            "changed",
            "another time of 41 letters",
            &set("/changed", json!(long(41))),
            "its time is longer than",
        ),
        of("photos", "501 photos", &photos(501), "it has 501 photos"),
        of(
            "page",
            "101 entries of the page",
            &put(
                "",
                "page",
                json!(
                    (0..101)
                        .map(|i| (format!("k{i}"), json!(1)))
                        .collect::<serde_json::Map<_, _>>()
                ),
            ),
            "it has 101 entries of the page",
        ),
        of(
            "same-id",
            "two photos with one id",
            &second(json!({"id": "a"})),
            "two of its photos have one id",
        ),
        of(
            "same-part",
            "two photos that are one part",
            &second(json!({"part": "photos/1.png", "kept": "original"})),
            "are one part of the file",
        ),
        of(
            "partner",
            "a partner that is none",
            &put("/photos/0", "partner", json!("z")),
            "names a partner that is no",
        ),
        of(
            "guide",
            "a guide of no tabs",
            &put(
                "",
                "guide",
                json!({"name": "g", "source": "measured", "tabs": []}),
            ),
            "The case cannot be: The shade guide has 0 tabs",
        ),
        of(
            "id",
            "a photo without an id",
            &set("/photos/0/id", json!("")),
            "a photo has no id",
        ),
        of(
            "long-id",
            "an id of 101 letters",
            &set("/photos/0/id", json!(long(101))),
            "the id of a photo is longer",
        ),
        of(
            "name",
            "a name of 256 letters",
            &set("/photos/0/name", json!(long(256))),
            "the name of a photo is longer",
        ),
        of(
            "removed",
            "101 remarks",
            &put("/photos/0", "removed", json!(vec!["x"; 101])),
            "101 remarks on what was removed",
        ),
        of(
            "remark",
            "a remark of 256 letters",
            &put("/photos/0", "removed", json!([long(256)])),
            "a remark on what was removed is longer",
        ),
        of(
            "notes",
            "501 notes",
            &put(
                "/photos/0",
                "notes",
                json!(vec![json!({"id": "n", "at": [1, 1], "text": "x"}); 501]),
            ),
            "it has 501 notes on a photo",
        ),
        of(
            "note-id",
            "a note's id of 101 letters",
            &set("/photos/0/notes/0/id", json!(long(101))),
            "the id of a note is longer",
        ),
        of(
            "note",
            "a note of 5001 letters",
            &set("/photos/0/notes/0/text", json!(long(5001))),
            "a note is longer than 5000",
        ),
        of(
            "proposal",
            "201 steps in a proposal",
            &put(
                "/photos/0",
                "proposal",
                json!({"card_steps": vec![square.clone(); 201]}),
            ),
            "it has 201 steps of a card",
        ),
        of(
            "sha",
            "a checksum that is none",
            &put("/photos/0", "sha256", json!("no")),
            "the checksum of a photo is none",
        ),
        of(
            "regions",
            "201 regions",
            &set("/photos/0/scene/regions", regions(201)),
            "it has 201 regions on a photo",
        ),
        of(
            "region-id",
            "a region's id of 101 letters",
            &set("/photos/0/scene/regions/0/id", json!(long(101))),
            "the id of a region is longer",
        ),
        of(
            "region-name",
            "a region's name of 201 letters",
            &set("/photos/0/scene/regions/0/name", json!(long(201))),
            "the name of a region is longer",
        ),
        of(
            "card-steps",
            "a card of 201 steps",
            &put("/photos/0/scene", "card", steps(201)),
            "it has 201 steps of a card",
        ),
        of(
            "points",
            "an outline of 5001 points",
            &set("/photos/0/scene/regions/0/outline", line(5001)),
            "5001 points in one outline",
        ),
        of(
            "far",
            "a note two million pixels away",
            &set("/photos/0/notes/0/at", json!([2e6, 1])),
            "lies farther than",
        ),
    ]
}

/// Files that a passphrase opens, or does not.
pub fn locked() -> Vec<Case> {
    let file = std::fs::read(crate::cli::fixture("case/locked.tabside")).expect("the kept file");
    let changed = |at: usize, to: u8| {
        let mut out = file.clone();
        out[at] = to;
        out
    };
    let mut damaged = file.clone();
    *damaged.last_mut().expect("a byte") ^= 1;
    let right = "vier schlichte Wörter hier";
    let of = |id: &str,
              cause: &str,
              file: Vec<u8>,
              said: &'static str,
              typed: &'static str,
              page: &'static str| {
        Case::new(
            format!("locked-{id}"),
            "locked case",
            cause,
            "verify a.tabside --passphrase-file words.txt",
            Wanted::Refused(said),
        )
        .file(NAME, file)
        .file("words.txt", format!("{typed}\n").into_bytes())
        .page(Page::Unlock(NAME, typed, page))
    };
    vec![
        of(
            "cut",
            "a locked case of 20 bytes",
            file[..20].to_vec(),
            "This is no encrypted case",
            right,
            "This is no encrypted case, or its beginning is damaged.",
        ),
        of(
            "newer",
            "a locked case of another version",
            changed(8, 9),
            "encrypted in a way that this version does not know",
            right,
            "encrypted in a way that this version does not know",
        ),
        of(
            "other-words",
            "another passphrase",
            file.clone(),
            "The passphrase is another one",
            "other words altogether",
            "The passphrase is wrong, or the beginning of the file is damaged.",
        ),
        of(
            "tampered",
            "one byte changed at the end",
            damaged,
            "changed or damaged after it was saved",
            right,
            "changed or damaged after it was saved",
        ),
        Case::new(
            "locked-silent",
            "locked case",
            "no passphrase given",
            "verify a.tabside",
            Wanted::Refused("a.tabside is encrypted"),
        )
        .file(NAME, file.clone())
        .page(Page::Not("the page asks for the passphrase")),
        Case::new(
            "locked-empty",
            "locked case",
            "an empty line for a passphrase",
            "verify a.tabside --passphrase-file words.txt",
            Wanted::Refused("The first line of words.txt is empty"),
        )
        .file(NAME, file.clone())
        .file("words.txt", *b"\n")
        .page(Page::Not(
            "the page keeps its button grey until something is typed",
        )),
    ]
}
