//! Every error and every check is made to happen: through the command line here, and in the page by
//! `www/e2e/refusals.e2e.ts`. What is found in `src/` has a case, or stands in a list with its reason.
//!
//! `TABSIDE_BLESS=1 cargo test --test refusals` writes `tests/refusals/TABLE.md` again;
//! `TABSIDE_REFUSALS_OUT=DIR cargo test --test refusals -- --ignored` writes the bad inputs as files.

#[path = "support/cli.rs"]
mod cli;
#[path = "refusals/mod.rs"]
mod refusals;
mod support;

use refusals::lists::{NO_CODE, UNREACHED, Why};
use refusals::page::{PAGE, PAGE_NOT_YET, entries};
use refusals::scan::{Site, codes, origins, sites};
use refusals::{CALLED, CODES, TOLD, found, refused};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

fn fail(what: &str, list: &[String]) {
    assert!(list.is_empty(), "{what}:\n  {}", list.join("\n  "));
}

#[test]
fn every_case_says_what_it_should() {
    let told = TOLD.iter().filter_map(|t| t.said.as_ref().err());
    let called = CALLED.iter().filter_map(|(_, said)| said.as_ref().err());
    fail(
        "not what was wanted",
        &told.chain(called).cloned().collect::<Vec<_>>(),
    );
    let mut ids: Vec<&str> = TOLD.iter().map(|t| t.case.id.as_str()).collect();
    ids.extend(CALLED.iter().map(|(c, _)| c.id));
    let all = ids.len();
    ids.sort_unstable();
    ids.dedup();
    assert_eq!(ids.len(), all, "two cases have one id");
}

/// A sentence that stands in several places needs as many cases.
#[test]
fn every_error_of_the_source_has_a_case() {
    let (all, said) = (sites(), refused());
    assert!(all.len() > 200, "the scan finds {} places", all.len());
    let listed = |s: &Site| UNREACHED.iter().any(|(f, n, w, _)| s.is(f, n, w));
    let mut missing = Vec::new();
    let mut same: BTreeMap<(String, String), Vec<&Site>> = BTreeMap::new();
    for site in &all {
        let key = (
            site.what.clone().unwrap_or_default(),
            site.remedy.clone().unwrap_or_default(),
        );
        if !listed(site) {
            same.entry(key).or_default().push(site);
        }
    }
    let from: Vec<Vec<&Site>> = said.iter().map(|(_, words)| origins(&all, words)).collect();
    for sites in same.values() {
        let cases = from
            .iter()
            .filter(|f| sites.iter().any(|s| f.contains(s)))
            .count();
        if cases < sites.len() {
            let places = sites
                .iter()
                .map(|s| format!("{}:{} ({})", s.file, s.line, s.function));
            missing.push(format!(
                "{} of {} cases: {:?} {:?} at {}",
                cases,
                sites.len(),
                sites[0].what,
                sites[0].remedy,
                places.collect::<Vec<_>>().join(", ")
            ));
        }
    }
    fail("no case reaches", &missing);
}

#[test]
fn what_is_listed_as_not_reached_is_there_and_is_not_reached() {
    let (all, said) = (sites(), refused());
    let mut wrong = Vec::new();
    for (file, function, words, why) in UNREACHED {
        let here: Vec<&Site> = all.iter().filter(|s| s.is(file, function, words)).collect();
        if here.is_empty() {
            wrong.push(format!("{file} {function} {words:?} is not there"));
        }
        let reached = said
            .iter()
            .find(|(_, w)| origins(&all, w).iter().any(|o| here.contains(o)));
        if let (Some((id, _)), false) = (reached, *why == Why::HandsOn) {
            wrong.push(format!("{file} {function} {words:?} is reached by {id}"));
        }
    }
    fail("the list is wrong", &wrong);
}

#[test]
fn every_code_has_a_case() {
    let found = found();
    let mut wrong = Vec::new();
    for (file, name, _, between) in CODES {
        for code in codes(file, name, between) {
            let reached = found.iter().any(|(c, ..)| *c == code);
            let listed = NO_CODE.iter().any(|(c, _)| *c == code);
            if reached == listed {
                wrong.push(format!(
                    "{name} {code}: {}",
                    if reached {
                        "listed, and reached"
                    } else {
                        "no case"
                    }
                ));
            }
        }
    }
    fail("codes", &wrong);
}

/// Every entry of the page's catalogue of errors has a browser test that holds its words (or the id of the
/// case that brings it about), or stands in the list of those that have none yet.
#[test]
fn every_error_of_the_page_has_a_test() {
    let entries = entries();
    assert!(
        entries.len() > 50,
        "the catalogue has {} entries",
        entries.len()
    );
    let e2e = Path::new(env!("CARGO_MANIFEST_DIR")).join("www/e2e");
    let ids: Vec<&str> = TOLD.iter().map(|t| t.case.id.as_str()).collect();
    let mut wrong = Vec::new();
    for entry in &entries {
        let tested = PAGE.iter().any(|p| p.0 == entry);
        if tested == PAGE_NOT_YET.iter().any(|p| p.0 == entry) {
            wrong.push(format!(
                "{entry}: {}",
                if tested {
                    "tested, and listed"
                } else {
                    "no test"
                }
            ));
        }
    }
    for (entry, _, file, text) in PAGE {
        let test = std::fs::read_to_string(e2e.join(file)).unwrap_or_default();
        if !ids.contains(text) && !test.contains(text) {
            wrong.push(format!("{entry}: {file} has no {text:?}"));
        }
    }
    let gone = PAGE
        .iter()
        .map(|p| p.0)
        .chain(PAGE_NOT_YET.iter().map(|p| p.0));
    wrong.extend(
        gone.filter(|e| !entries.iter().any(|n| n == e))
            .map(|e| format!("{e} is no entry")),
    );
    fail("the page", &wrong);
}

#[test]
fn the_table_is_current() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/refusals/TABLE.md");
    let now = refusals::table::text();
    if std::env::var_os("TABSIDE_BLESS").is_some() {
        std::fs::write(&path, &now).expect("the table is written");
    }
    let kept = std::fs::read_to_string(&path).unwrap_or_default();
    assert!(
        kept == now,
        "tests/refusals/TABLE.md is out of date: run the tests once with TABSIDE_BLESS=1, look at it and commit it"
    );
}

#[test]
#[ignore = "writes files for the browser test; TABSIDE_REFUSALS_OUT says where"]
fn write_the_bad_inputs() {
    let into =
        std::env::var_os("TABSIDE_REFUSALS_OUT").expect("TABSIDE_REFUSALS_OUT names a folder");
    refusals::write::write(&PathBuf::from(into));
}
