//! Rules of the project that no compiler knows: which module may import which, where a browser
//! may be named, what is never read, how files open and how long they get.

mod imports;
mod rules;
mod source;

use crate::fail::{AUTHOR, Failure, Result};
use crate::{repo, size};
use rules::Length;
use std::ffi::OsStr;
use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};

/// Folders whose Rust files are looked at.
const RUST_DIRS: &[&str] = &["src", "xtask", "tests", "benches", "examples"];
/// Folders below which nothing is the project's own.
const NOT_OURS: &[&str] = &["target", "node_modules", "dist", "pkg"];

/// Something in a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Finding {
    line: usize,
    what: String,
}

impl Finding {
    /// A finding in a line, from 1.
    pub fn new(line: usize, what: impl Into<String>) -> Self {
        Self {
            line,
            what: what.into(),
        }
    }
}

/// What was found in a tree.
#[derive(Debug, Default)]
struct Report {
    files: usize,
    broken: Vec<String>,
    notes: Vec<String>,
}

/// Checks the repository; prints what is worth a thought, and gives a line for the summary.
pub fn run() -> Result<String> {
    let report = check(&repo::root())?;
    for note in &report.notes {
        println!("note: {note}");
    }
    if report.broken.is_empty() {
        return Ok(format!(
            "{} files, {} longer than most",
            report.files,
            report.notes.len()
        ));
    }
    let mut text = format!("{} rules of the project are broken:", report.broken.len());
    for broken in &report.broken {
        let _ = write!(text, "\n  {broken}");
    }
    Err(Failure::new(
        text,
        AUTHOR,
        "Mend each of them where it stands; the reasons are in xtask/src/tidy/.",
    ))
}

fn check(root: &Path) -> Result<Report> {
    let mut report = Report::default();
    for dir in RUST_DIRS {
        for path in files(&root.join(dir), &["rs"])? {
            check_rust(root, &path, &mut report)?;
        }
    }
    for path in files(&root.join("www"), &["ts", "tsx"])? {
        check_typescript(root, &path, &mut report)?;
    }
    Ok(report)
}

fn check_rust(root: &Path, path: &Path, report: &mut Report) -> Result<()> {
    let text = read(path)?;
    let name = size::name_below(root, path);
    let mut findings: Vec<Finding> = rules::opening_comment(&text).into_iter().collect();
    if let Ok(below_src) = path.strip_prefix(root.join("src")) {
        let tokens = source::tokens(&text);
        let first = below_src.iter().next().unwrap_or_default();
        let test_file = path.file_stem() == Some(OsStr::new("tests"));
        if !(first == "web" || first == "web.rs") {
            findings.extend(rules::browser_names(&tokens));
        }
        if !test_file {
            findings.extend(imports::check(below_src, &tokens));
            findings.extend(rules::panics(&tokens));
            findings.extend(rules::private_facts(&tokens));
        }
    }
    report.add(&name, findings, rules::length(&text, rules::RUST_LINES));
    Ok(())
}

fn check_typescript(root: &Path, path: &Path, report: &mut Report) -> Result<()> {
    let text = read(path)?;
    let page_src = root.join("www").join("src");
    let in_worker = path.starts_with(page_src.join("worker"));
    let findings = if path.starts_with(&page_src) && !in_worker {
        rules::generated_bindings(&text)
    } else {
        Vec::new()
    };
    let name = size::name_below(root, path);
    report.add(
        &name,
        findings,
        rules::length(&text, rules::TYPESCRIPT_LINES),
    );
    Ok(())
}

impl Report {
    fn add(&mut self, name: &str, findings: Vec<Finding>, length: Length) {
        self.files += 1;
        let at = |f: &Finding| format!("{name}:{}: {}", f.line, f.what);
        self.broken.extend(findings.iter().map(at));
        match length {
            Length::Fine => {}
            Length::Long(finding) => self.notes.push(at(&finding)),
            Length::TooLong(finding) => self.broken.push(at(&finding)),
        }
    }
}

fn read(path: &Path) -> Result<String> {
    fs::read_to_string(path).map_err(|e| Failure::file("read", path, &e))
}

/// The project's own files with one of the extensions below a folder, which need not exist.
fn files(dir: &Path, extensions: &[&str]) -> Result<Vec<PathBuf>> {
    let mut found = Vec::new();
    let Ok(entries) = fs::read_dir(dir) else {
        return Ok(found);
    };
    for entry in entries {
        let path = entry.map_err(|e| Failure::file("read", dir, &e))?.path();
        let name = path.file_name().and_then(OsStr::to_str).unwrap_or_default();
        if path.is_dir() && !path.is_symlink() {
            if !NOT_OURS.contains(&name) && !name.starts_with('.') {
                found.extend(files(&path, extensions)?);
            }
        } else if path
            .extension()
            .and_then(OsStr::to_str)
            .is_some_and(|e| extensions.contains(&e))
        {
            found.push(path);
        }
    }
    found.sort();
    Ok(found)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::TempDir;

    #[test]
    fn this_repository_is_tidy() {
        if let Err(failure) = run() {
            panic!("\n{failure}");
        }
    }

    #[test]
    fn the_whole_tree_is_looked_at() {
        let report = check(&repo::root()).unwrap();
        assert!(report.files > 20, "only {} files were seen", report.files);
    }

    #[test]
    fn each_rule_is_applied_where_it_belongs() {
        let dir = TempDir::new("tidy");
        let broken = |dir: &TempDir| check(dir.path()).unwrap().broken;
        dir.file("src/lib.rs", "//! Root.\n");
        dir.file("src/photo/mod.rs", "//! Photo.\nuse crate::colour::Lab;\n");
        dir.file(
            "src/web/mod.rs",
            "//! Web.\nuse wasm_bindgen::X; use crate::engine::Y;\n",
        );
        dir.file("src/web.rs", "//! Web.\nuse js_sys::X;\n");
        dir.file(
            "src/photo/tests.rs",
            "//! Tests.\nfn f() { crate::engine::x().unwrap() }\n",
        );
        dir.file(
            "xtask/src/main.rs",
            "//! Commands.\nfn f() { x.unwrap() }\n",
        );
        dir.file("xtask/target/junk.rs", "junk");
        dir.file(
            "www/src/worker/entry.ts",
            "import init from '../../pkg/tabside.js'\n",
        );
        dir.file("www/node_modules/x/y.ts", "import '../pkg/z'\n");
        assert_eq!(broken(&dir), Vec::<String>::new());

        dir.file("src/photo/decode.rs", "//! Decode.\nuse crate::scene::X;\n");
        dir.file("src/scene/mod.rs", "//! Scene.\nuse web_sys::X;\n");
        dir.file(
            "src/reading/mod.rs",
            "//! Reading.\nfn f() { x.unwrap() }\n",
        );
        dir.file(
            "src/stain/mod.rs",
            "//! Stain.\nconst X: T = Tag::GPSInfo;\n",
        );
        dir.file("src/case/mod.rs", "use x;\n");
        dir.file("tests/long.rs", format!("//! Long.\n{}", "\n".repeat(600)));
        dir.file(
            "www/src/views/a.tsx",
            "\nimport { x } from '../../pkg/tabside.js'\n",
        );
        let found = broken(&dir);
        for start in [
            "src/photo/decode.rs:2: `photo` imports `scene`",
            "src/scene/mod.rs:2: `web_sys`",
            "src/reading/mod.rs:2: `unwrap`",
            "src/stain/mod.rs:2: `GPSInfo`",
            "src/case/mod.rs:1: does not open",
            "tests/long.rs:601: 601 lines",
            "www/src/views/a.tsx:2: the generated",
        ] {
            assert_eq!(
                found.iter().filter(|f| f.starts_with(start)).count(),
                1,
                "{start} in {found:#?}"
            );
        }
        assert_eq!(found.len(), 7, "{found:#?}");
    }
}
