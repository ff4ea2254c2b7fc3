//! Case files from strangers: each is refused in words, or opens as what it is; nothing panics, and
//! memory stays bounded.

mod support;

use proptest::prelude::*;
use std::sync::LazyLock;
use support::case::{small, small_file};
use support::files::Picture;
use support::zip::{Entry, file_of, manifest, zip};
use tabside::Error;
use tabside::case::{CaseNoteCode, KeptAs, OpenedCase, PhotoBytes, read, write};
use tabside::engine::case::{Outcome, ReasonCode, verify};

static SMALL: LazyLock<Vec<u8>> = LazyLock::new(|| small_file().bytes);

fn refused(bytes: &[u8], kind: &str, word: &str) -> Error {
    let error = read(bytes).expect_err(word);
    assert_eq!(error.kind(), kind, "{error}");
    assert!(error.to_string().contains(word), "{error}");
    error
}

/// The small case with its text changed, under a manifest that is true of it.
fn with_text(text: &str) -> tabside::Result<OpenedCase> {
    let (_, photo) = small();
    read(&file_of(&[
        ("case.json", text.as_bytes()),
        ("photos/1.png", &photo),
    ]))
}

fn small_text() -> String {
    serde_json::to_string(&small_file().case).expect("JSON")
}

#[test]
fn cut_off_anywhere() {
    let whole = &*SMALL;
    for hundredth in 0..100 {
        let cut = &whole[..whole.len() * hundredth / 100];
        assert_eq!(
            read(cut).expect_err("it is cut").kind(),
            "file-damaged",
            "{hundredth} %"
        );
    }
    // The end is there, a piece before it is not.
    for hundredth in 0..98 {
        let (from, to) = (
            whole.len() * hundredth / 100,
            whole.len() * (hundredth + 1) / 100,
        );
        let pieced = [&whole[..from], &whole[to..]].concat();
        assert!(read(&pieced).is_err(), "{hundredth} %");
    }
    refused(b"", "file-damaged", "empty");
    refused(b"no zip", "unsupported", "not a case file");
    refused(&Picture::scene().png(), "unsupported", "not a case file");
    refused(&zip(&[]), "unsupported", "not a case file");
    // Something hangs on behind.
    assert!(read(&[whole.as_slice(), b"more"].concat()).is_err());
}

/// A flipped bit is noticed wherever it says anything.
#[test]
fn every_bit_counts() {
    let sound = read(&SMALL).expect("it opens");
    let (mut opened, step) = (0, SMALL.len().div_ceil(3000).max(1));
    for at in (0..SMALL.len()).step_by(step) {
        let mut bytes = SMALL.clone();
        bytes[at] ^= 1 << (at % 8);
        match read(&bytes) {
            Ok(got) => {
                opened += 1;
                assert_eq!(got, sound, "byte {at}");
            }
            Err(error) => assert_ne!(error.kind(), "internal", "byte {at}: {error}"),
        }
    }
    // Times, versions and attributes that are not looked at, in the headers of three entries.
    assert!(opened < 150, "{opened}");
}

#[test]
fn parts_that_are_not_what_was_written() {
    let (_, photo) = small();
    let text = small_text();
    let (text, other) = (text.as_bytes(), text.replace("shelf 3", "shelf 4"));
    let true_of = manifest(&[("case.json", text), ("photos/1.png", &photo)]);
    let parts = |text: &[u8], photo: &[u8], manifest: &[u8]| {
        zip(&[
            Entry::deflated("case.json", text),
            Entry::stored("photos/1.png", photo),
            Entry::stored("manifest.json", manifest),
        ])
    };
    assert!(read(&parts(text, &photo, &true_of)).is_ok());
    refused(
        &parts(other.as_bytes(), &photo, &true_of),
        "file-damaged",
        "checksum",
    );
    let mut another = photo.clone();
    *another.last_mut().expect("a byte") ^= 1;
    refused(
        &parts(text, &another, &true_of),
        "file-damaged",
        "photos/1.png",
    );
    let short = manifest(&[("case.json", text)]);
    refused(&parts(text, &photo, &short), "file-damaged", "checksum");
    let long = manifest(&[
        ("case.json", text),
        ("photos/1.png", &photo),
        ("photos/2.png", b""),
    ]);
    refused(
        &parts(text, &photo, &long),
        "file-damaged",
        "photos/2.png is missing",
    );
    refused(&parts(text, &photo, b"{}"), "file-damaged", "manifest.json");
    refused(
        &zip(&[Entry::stored("case.json", text)]),
        "file-damaged",
        "manifest.json is missing",
    );
    let mut wrong_crc = Entry::stored("case.json", text);
    wrong_crc.crc ^= 1;
    refused(&zip(&[wrong_crc]), "file-damaged", "case.json");
    let stray = file_of(&[
        ("case.json", text),
        ("photos/1.png", &photo),
        ("photos/9.png", &photo),
    ]);
    refused(&stray, "file-damaged", "belongs to no photo");
    refused(
        &file_of(&[("case.json", text)]),
        "file-damaged",
        "is missing",
    );
}

#[test]
fn names_that_lead_elsewhere() {
    for name in [
        "../case.json",
        "/etc/passwd",
        "photos/../../x.jpg",
        "photos\\x.jpg",
        "C:\\x.jpg",
        "photos/x.exe",
        "photos/.jpg",
        "photos/a/b.jpg",
        "CASE.JSON",
        "index.html",
        "photos/x\0.jpg",
        "photos/\u{202e}gpj.jpg",
        "",
    ] {
        let error = refused(
            &zip(&[Entry::stored(name, b"x")]),
            "unsupported",
            "no part of a case",
        );
        assert!(!error.to_string().contains(['\0', '\u{202e}']), "{error:?}");
    }
    let mut broken = Entry::stored("x", b"x");
    broken.name = vec![0xFF, 0xFE, b'/'];
    refused(&zip(&[broken]), "unsupported", "no part of a case");
}

#[test]
fn too_many_or_twice() {
    let many: Vec<Entry> = (0..10_000)
        .map(|i| Entry::stored(&format!("photos/{i}.jpg"), b""))
        .collect();
    refused(&zip(&many), "too-large", "10000");
    let twice = [
        Entry::stored("case.json", b"{}"),
        Entry::stored("case.json", b"[]"),
    ];
    refused(&zip(&twice), "file-damaged", "twice");
    let alike = [
        Entry::stored("photos/a.jpg", b"1"),
        Entry::stored("photos/A.jpg", b"2"),
    ];
    refused(&zip(&alike), "file-damaged", "twice");
    // Entries that share their bytes.
    let mut over = Entry::stored("photos/b.jpg", b"1");
    over.offset = Some(0);
    assert!(read(&zip(&[Entry::stored("photos/a.jpg", b"1"), over])).is_err());
}

#[test]
fn bombs() {
    let zeros = vec![0_u8; 15 << 20];
    refused(
        &zip(&[Entry::deflated("case.json", &zeros)]),
        "too-large",
        "times its size",
    );
    // It says that it is small, and is not.
    for said in [0, 1, 1000, 60_000] {
        let mut liar = Entry::deflated("case.json", &zeros);
        liar.unpacked = said;
        refused(&zip(&[liar]), "file-damaged", "does not unpack");
    }
    let mut huge = Entry::deflated("case.json", b"{}");
    huge.unpacked = u32::MAX;
    refused(&zip(&[huge]), "too-large", "at most");
    // Each within bounds, all together beyond them: nothing is unpacked.
    let each = Entry {
        unpacked: 500 << 20,
        packed: vec![0; 3 << 20],
        method: 8,
        ..Entry::stored("", b"")
    };
    let all: Vec<Entry> = (0..4)
        .map(|i| Entry {
            name: format!("photos/{i}.jpg").into_bytes(),
            ..each.clone()
        })
        .collect();
    refused(&zip(&all), "too-large", "unpack to more than");
    let mut locked = Entry::stored("case.json", b"{}");
    locked.flags = 1;
    refused(&zip(&[locked]), "unsupported", "encrypted");
    let mut strange = Entry::stored("case.json", b"{}");
    strange.method = 12;
    refused(&zip(&[strange]), "unsupported", "not read");
}

#[test]
fn texts_that_are_no_case() {
    let text = small_text();
    assert!(with_text(&text).is_ok());
    for (from, to, word) in [
        ("\"plain\"", "\"infrared\"", "infrared"),
        ("\"original\"", "\"hologram\"", "hologram"),
        ("\"tooth\"", "\"bridge\"", "bridge"),
        ("3.25", "1e999", "out of range"),
        ("3.25", "NaN", "case.json"),
        ("3.25", "-Infinity", "case.json"),
        ("3.25", "\"3.25\"", "case.json"),
        ("3.25", "null", "case.json"),
        ("3.25", "1e300", "farther"),
        ("\"version\":1", "\"version\":0", "version"),
        ("\"version\":1", "\"version\":-1", "version"),
        ("\"version\":1", "\"version\":1.5", "version"),
        ("\"version\":1", "\"version\":\"1\"", "version"),
        ("\"id\":\"a\"", "\"id\":\"\"", "no id"),
        ("photos/1.png", "photos/../case.json", "missing"),
        ("photos/1.png", "case.json", "missing"),
    ] {
        assert!(text.contains(from), "{from}");
        let error = with_text(&text.replace(from, to)).expect_err(to);
        assert_eq!(error.kind(), "file-damaged", "{to}: {error}");
        assert!(error.to_string().contains(word), "{to}: {error}");
    }
    for bad in [
        "",
        "[]",
        "null",
        "1",
        "{}",
        "{\"version\":1}",
        "\u{feff}{}",
        "{\"version\":1,\"version\":1}",
    ] {
        assert!(with_text(bad).is_err(), "{bad}");
    }
    let deep = text.replace(
        "\"label\":\"11\"",
        &format!("\"label\":{}1{}", "[".repeat(60), "]".repeat(60)),
    );
    assert_eq!(with_text(&deep).expect_err("deep").kind(), "too-large");
    let many = text.replace(
        "\"label\":\"11\"",
        &format!("\"label\":[{}1]", "1,".repeat(4_000_001)),
    );
    let kind = with_text(&many).err().map(|e| e.kind());
    assert_eq!(kind, Some("too-large"));
}

/// Text stays text, wherever it stands.
#[test]
fn script_is_text() {
    const SCRIPT: &str = "<script>alert(1)</script><img src=x onerror=alert(1)>\u{202e}&amp;${x}";
    let (mut case, photo) = small();
    case.label = Some(SCRIPT.to_owned());
    case.photos[0].name = format!("../../{SCRIPT}.html");
    case.photos[0].notes[0].text = SCRIPT.to_owned();
    case.photos[0].scene.regions[0].name = SCRIPT.to_owned();
    case.page.insert(SCRIPT.to_owned(), SCRIPT.into());
    let written = write(
        &case,
        &[PhotoBytes {
            id: "a",
            bytes: &photo,
        }],
    )
    .expect("a file");
    let opened = read(&written.bytes).expect("it opens");
    assert_eq!(opened.case, written.case);
    assert_eq!(opened.case.photos[0].part.as_deref(), Some("photos/1.png"));
}

#[test]
fn photos_that_are_none() {
    let text = small_text();
    for (bytes, word) in [
        (&b"<html><script>alert(1)</script>"[..], "web page"),
        (b"GIF89a", "GIF"),
        (b"", "empty"),
        (b"nothing", "not a picture"),
    ] {
        let opened = read(&file_of(&[
            ("case.json", text.as_bytes()),
            ("photos/1.png", bytes),
        ]))
        .expect("the rest of the case opens");
        assert_eq!(opened.notes[0].code, CaseNoteCode::PhotoNoPicture);
        assert!(opened.notes[0].text.contains(word), "{:?}", opened.notes);
        assert!(opened.photos.is_empty());
        assert_eq!(opened.case.photos[0].kept, KeptAs::Absent);
    }
    // It begins as a picture does: that it is none comes out when it is read.
    let mut case = small_file().case;
    case.photos[0].reading = Some(tabside::case::KeptReading::default());
    let text = serde_json::to_string(&case).expect("JSON");
    let bytes = &b"\x89PNG\r\n\x1a\nnothing more"[..];
    let opened = read(&file_of(&[
        ("case.json", text.as_bytes()),
        ("photos/1.png", bytes),
    ]))
    .expect("it opens");
    let verified = verify(&opened).expect("it is verified");
    assert_eq!(verified.outcome, Outcome::NotCompared);
    assert_eq!(verified.photos[0].reasons[0].code, ReasonCode::CannotRead);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 3000, ..ProptestConfig::default() })]

    /// Bytes changed at random in a sound file, cut and doubled.
    #[test]
    fn no_panic_on_changed_files(
        changes in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 0..6),
        cut in any::<prop::sample::Index>(),
        from in any::<prop::sample::Index>(),
    ) {
        let mut bytes = SMALL.clone();
        for (at, value) in changes {
            let at = at.index(bytes.len());
            bytes[at] = value;
        }
        let _ = read(&bytes);
        let (cut, from) = (cut.index(bytes.len()), from.index(bytes.len()));
        let pieced = [&bytes[..cut], &bytes[from..]].concat();
        let _ = read(&pieced);
    }

    /// Text changed at random under a true manifest: what opens can be verified and written.
    #[test]
    fn no_panic_on_changed_text(
        changes in prop::collection::vec((any::<prop::sample::Index>(), "[0-9a-z\\[\\]{}\",:.eE+-]{0,3}"), 1..4),
    ) {
        let mut text = small_text();
        for (at, value) in changes {
            let at = at.index(text.len());
            if text.is_char_boundary(at) && text.is_char_boundary(at + 1) {
                text.replace_range(at..=at, &value);
            }
        }
        if let Ok(opened) = with_text(&text) {
            prop_assert!(verify(&opened).is_ok());
            let photos: Vec<PhotoBytes<'_>> =
                opened.photos.iter().map(|(id, bytes)| PhotoBytes { id, bytes }).collect();
            if !opened.read_only {
                let again = write(&opened.case, &photos);
                prop_assert!(again.is_ok(), "{again:?}");
            }
        }
    }

    /// Anything at all.
    #[test]
    fn no_panic_on_anything(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        let _ = read(&bytes);
        let _ = read(&[b"PK\x03\x04".as_slice(), &bytes, b"PK\x05\x06", &bytes].concat());
    }
}
