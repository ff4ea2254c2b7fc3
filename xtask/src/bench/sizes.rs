//! What has to travel before the page can be used: sizes after gzip.

use super::figure::Figure;
use crate::fail::{AUTHOR, Failure, Result};
use crate::page::CASE;
use crate::{repo, size};
use std::path::Path;
use std::process::Command;

const GROUP: &str = "Sizes after gzip";
/// In KB of 1000 and of 1024 bytes, as the checks of the build have them.
const CORE_KB: f64 = 300.0;
const FIRST_KB: f64 = 100.0;

/// The modules as the size check of the tests counts them, the page's code as its build does.
pub fn figures(page: &Path) -> Result<Vec<Figure>> {
    let files = size::files(page)?;
    let modules = |case: bool| {
        let of = |f: &&size::Sized| f.name.ends_with(".wasm") && f.name.contains(CASE.name) == case;
        files.iter().filter(of).map(|f| f.gzip).sum::<u64>() as f64 / 1000.0
    };
    let mut found = vec![
        Figure::new(
            GROUP,
            "core as WebAssembly (1 KB = 1000 bytes)",
            "KB",
            modules(false),
        )
        .at_most(CORE_KB),
        Figure::new(
            GROUP,
            "module for files of cases, fetched later",
            "KB",
            modules(true),
        ),
    ];
    let text = page_check(page)?;
    for (what, label, target) in [
        (
            "first screen and reading",
            "page code before the first screen and a reading (1 KB = 1024 bytes)",
            Some(FIRST_KB),
        ),
        (
            "the whole page in one language",
            "page code, every view, one language",
            None,
        ),
    ] {
        let kb = kilobytes_said(&text, what).ok_or_else(|| unread(what))?;
        let figure = Figure::new(GROUP, label, "KB", kb);
        found.push(match target {
            Some(most) => figure.at_most(most),
            None => figure,
        });
    }
    Ok(found)
}

/// What the page's own check says, whether or not its budget holds.
fn page_check(page: &Path) -> Result<String> {
    let out = Command::new("node")
        .arg(repo::www().join("scripts").join("check-size.mjs"))
        // An address: without the last stroke the folder itself would be left out.
        .env("TABSIDE_DIST", format!("{}/", page.display()))
        .output()
        .map_err(|e| {
            Failure::new(
                format!("`node` could not be started: {e}."),
                AUTHOR,
                "Put Node.js on PATH.",
            )
        })?;
    Ok(String::from_utf8_lossy(&out.stdout).into_owned())
}

/// `page code, WHAT: 103.7 KB gzip of …`
fn kilobytes_said(text: &str, what: &str) -> Option<f64> {
    let rest = text
        .lines()
        .find_map(|l| l.split_once(&format!("{what}: ")))?
        .1;
    rest.split_once(" KB")?.0.parse().ok()
}

fn unread(what: &str) -> Failure {
    Failure::new(
        format!("The page's size check does not say how large is: {what}."),
        AUTHOR,
        "See www/scripts/check-size.mjs, whose words are read here.",
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_size_check_s_words_are_understood() {
        let text = "page code, first screen and reading: 119.5 KB gzip of 120.0 KB\nother: 3 KB\n";
        assert_eq!(
            kilobytes_said(text, "first screen and reading"),
            Some(119.5)
        );
        assert_eq!(kilobytes_said(text, "the whole page"), None);
        let words =
            std::fs::read_to_string(repo::www().join("scripts").join("check-size.mjs")).unwrap();
        for what in [
            "first screen and reading",
            "the whole page in one language",
            "KB gzip of",
        ] {
            assert!(
                words.contains(what) || what == "KB gzip of" && words.contains(" gzip of"),
                "{what}"
            );
        }
    }
}
