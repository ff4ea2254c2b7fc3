//! Encrypted case files: what was locked opens, anything else is told apart.

use std::path::PathBuf;
use tabside::case::lock::{is_locked, lock, unlock};
use tabside::case::read;

const PASSPHRASE: &str = "vier schlichte Wörter hier";

fn fixture(name: &str) -> PathBuf {
    [env!("CARGO_MANIFEST_DIR"), "fixtures", "case", name]
        .iter()
        .collect()
}

fn kept(name: &str) -> Vec<u8> {
    std::fs::read(fixture(name)).expect("a kept file")
}

fn said(file: &[u8], passphrase: &str) -> String {
    unlock(file, passphrase)
        .expect_err("not to be opened")
        .to_string()
}

#[test]
fn what_was_locked_comes_back() {
    let case = kept("version-1.tabside");
    let locked = lock(&case, PASSPHRASE).unwrap();
    assert!(is_locked(&locked) && !is_locked(&case));
    assert_eq!(unlock(&locked, PASSPHRASE).unwrap(), case);
    // Letters that are composed of two: another keyboard, the same passphrase.
    let other_keyboard = PASSPHRASE.replace('ö', "o\u{308}");
    assert_eq!(unlock(&locked, &other_keyboard).unwrap(), case);
    // Salt and nonce are drawn anew each time.
    let again = lock(&case, PASSPHRASE).unwrap();
    assert_ne!(locked[16..44], again[16..44]);
    assert_ne!(locked[60..], again[60..]);
}

/// `locked_by_page.tabside` was made by the page's code (`TABSIDE_BLESS=1 npx vitest run locked` in
/// www), `locked.tabside` by this program's.
#[test]
fn the_page_and_this_program_open_each_others_files() {
    if std::env::var_os("TABSIDE_BLESS").is_some() {
        let file = lock(&kept("version-1.tabside"), PASSPHRASE).unwrap();
        std::fs::write(fixture("locked.tabside"), file).unwrap();
    }
    for name in ["locked.tabside", "locked_by_page.tabside"] {
        let opened = unlock(&kept(name), PASSPHRASE).expect(name);
        assert_eq!(opened, kept("version-1.tabside"), "{name}");
        assert!(read(&opened).is_ok());
    }
}

#[test]
fn another_passphrase_and_a_changed_file_are_told_apart() {
    let locked = kept("locked.tabside");
    assert!(said(&locked, "vier schlichte Worte hier").contains("passphrase is another one"));
    // Any change at all: of what was encrypted and of its tag, of salt and nonce, of what is plain.
    for (at, expected) in [
        (60, "changed or damaged after"),
        (locked.len() / 2, "changed or damaged after"),
        (locked.len() - 1, "changed or damaged after"),
        (33, "changed or damaged after"),
        (11, "changed or damaged after"),
        (20, "passphrase is another one"),
        (50, "passphrase is another one"),
        (15, "passphrase is another one"),
        (12, "its beginning is damaged"),
        (8, "this version does not know"),
        (9, "this version does not know"),
        (0, "no encrypted case"),
    ] {
        let mut changed = locked.clone();
        changed[at] ^= 1;
        let text = said(&changed, PASSPHRASE);
        assert!(text.contains(expected), "{at}: {text}");
    }
}

#[test]
fn a_file_that_ends_early_is_refused() {
    let locked = kept("locked.tabside");
    for length in (0..60).chain([60, 75, 76, locked.len() - 1]) {
        let text = said(&locked[..length], PASSPHRASE);
        let expected = if length < 60 {
            "its beginning is damaged"
        } else {
            "changed or damaged after"
        };
        assert!(text.contains(expected), "{length}: {text}");
    }
}

#[test]
fn a_stranger_cannot_keep_the_device_busy() {
    let mut locked = kept("locked.tabside");
    locked[12..16].copy_from_slice(&u32::MAX.to_be_bytes());
    assert!(said(&locked, PASSPHRASE).contains("its beginning is damaged"));
}
