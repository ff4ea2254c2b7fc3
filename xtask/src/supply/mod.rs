//! `cargo xtask supply`: what the project is made of, by others. Licences, versions, sources and
//! pins are checked, and the table of what is shipped (`xtask/DEPENDENCIES.md`) is kept true.

mod crates;
mod deny;
mod json;
mod npm;
pub mod reproduce;
mod sha256;
mod sizes;
mod table;
mod unsafety;
mod wasm;
mod why;

use crate::fail::{AUTHOR, Failure, Result, YOU};
use crate::process::shown;
use crate::{repo, setup};
use crates::Packages;
use json::Json;
use sizes::Measured;
use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use table::{SIZES_ONLY, Sizes, Table};

/// Checks everything; gives a line for the summary.
pub fn run() -> Result<String> {
    let shipped = Shipped::find()?;
    let (mut wrong, members) = unsafety::check(&repo::root())?;
    wrong.extend(npm::check(&shipped.manifest, &shipped.lock));
    wrong.extend(shipped.without_reason());
    let path = file();
    let kept = fs::read_to_string(&path).map_err(|e| Failure::file("read", &path, &e))?;
    let wanted = shipped.text(&Measured::default());
    let differences =
        table::differences(&table::without_sizes(&kept), &table::without_sizes(&wanted));
    if !differences.is_empty() {
        wrong.push(format!(
            "xtask/DEPENDENCIES.md is out of date (`cargo xtask supply --write` writes it again): \n    {}",
            differences.join("\n    ")
        ));
    }
    if !wrong.is_empty() {
        let mut text = format!("{} things about packages of others are wrong:", wrong.len());
        for one in &wrong {
            let _ = write!(text, "\n  {one}");
        }
        return Err(Failure::new(
            text,
            AUTHOR,
            "Mend each of them where it stands; the rules are in xtask/src/supply/.",
        ));
    }
    let advisories = deny::check()?;
    Ok(format!(
        "{} crates and {} npm packages shipped, {members} own crates without unsafe code; {advisories}",
        shipped.page.len() + shipped.program.len(),
        shipped.npm.len(),
    ))
}

/// Writes the table, sizes and all.
pub fn write() -> Result<()> {
    let measured = sizes::measure()?;
    let text = Shipped::find()?.text(&measured);
    let path = file();
    fs::write(&path, text).map_err(|e| Failure::file("write", &path, &e))?;
    println!("Written: {}", path.display());
    Ok(())
}

fn file() -> PathBuf {
    repo::root().join("xtask").join("DEPENDENCIES.md")
}

/// Everything of others that is shipped.
struct Shipped {
    manifest: Json,
    lock: Json,
    /// Crates in the page.
    page: Packages,
    /// Crates in the command line and not in the page.
    program: Packages,
    npm: Packages,
}

impl Shipped {
    fn find() -> Result<Self> {
        setup::page_packages()?;
        let www = repo::www();
        let manifest = read_json(&www.join("package.json"))?;
        let lock = read_json(&www.join("package-lock.json"))?;
        let page = crates::of_page()?;
        let mut program = crates::of_command_line()?;
        program.retain(|id, _| !page.contains_key(id));
        let npm = npm::shipped(&lock, &www.join("node_modules"));
        Ok(Self {
            manifest,
            lock,
            page,
            program,
            npm,
        })
    }

    /// Packages without a reason, and reasons without a package.
    fn without_reason(&self) -> Vec<String> {
        let measured = Measured::default();
        let mut wrong: Vec<String> = self
            .tables(&measured)
            .iter()
            .flat_map(Table::without_reason)
            .collect();
        let all = [&self.page, &self.program, &self.npm];
        for (name, _) in why::CRATES.iter().chain(why::NPM) {
            let asked_for = all.iter().any(|packages| {
                packages
                    .iter()
                    .any(|((known, _), package)| known == name && package.direct)
            });
            if !asked_for {
                wrong.push(format!(
                    "xtask/src/supply/why.rs names {name}, which the project does not ask for"
                ));
            }
        }
        wrong
    }

    fn tables<'a>(&'a self, measured: &'a Measured) -> [Table<'a>; 3] {
        [
            Table {
                title: "Crates in the page",
                words: "In `tabside_bg.wasm` (core) or `tabside_case_bg.wasm` (files of cases); most are in \
                        the command line too.",
                packages: &self.page,
                why: why::CRATES,
                sizes: vec![
                    ("core KB", &measured.core),
                    ("case KB", &measured.case),
                    ("command line KB", &measured.program),
                ],
            },
            Table {
                title: "Crates in the command line alone",
                words: "On Linux, Windows or macOS.",
                packages: &self.program,
                why: why::CRATES,
                sizes: vec![("command line KB", &measured.program)],
            },
            Table {
                title: "Packages of npm in the page",
                words: "What the page's scripts may hold. A dash: nothing of it is left in the built page.",
                packages: &self.npm,
                why: why::NPM,
                sizes: vec![("scripts KB", &measured.scripts)],
            },
        ]
    }

    fn text(&self, measured: &Measured) -> String {
        let tables = self.tables(measured);
        let mut text = INTRODUCTION.to_owned();
        for (what, sizes) in [
            ("core", &measured.core),
            ("files of cases", &measured.case),
            ("command line", &measured.program),
            ("scripts", &measured.scripts),
        ]
        .into_iter()
        .filter(|(_, sizes)| !sizes.is_empty())
        {
            let _ = writeln!(text, "{SIZES_ONLY}{}", self.together(what, sizes));
        }
        text.push('\n');
        for table in &tables {
            text.push_str(&table.markdown());
        }
        text.truncate(text.trim_end().len());
        text.push('\n');
        text
    }

    /// `core 1234.5 KB of code; of it no package of others: tabside 800.0 KB, …`
    fn together(&self, what: &str, sizes: &Sizes) -> String {
        let mut all = self.page.clone();
        for packages in [&self.program, &self.npm] {
            all.extend(packages.iter().map(|(id, p)| (id.clone(), p.clone())));
        }
        let rest: Vec<String> = table::rest(sizes, &all)
            .iter()
            .filter(|(_, bytes)| *bytes >= 1000)
            .map(|(name, bytes)| format!("{name} {}", table::kilobytes(Some(*bytes))))
            .collect();
        format!(
            "{what}, {} KB of code, of which {}.",
            table::kilobytes(Some(sizes.values().sum())),
            rest.join(", ")
        )
    }
}

const INTRODUCTION: &str = "\
# What is shipped of others

Written by `cargo xtask supply --write`; `cargo xtask supply`, a step of `cargo xtask test`, fails when
packages, versions, licences or reasons differ from this. Sizes are not compared.

Everything that is in the page or in the command line, brought along or asked for; not what builds and
tests them (macros, compilers, test tools). \"Kept by\" is the owner of the repository that the package
names. \"For x\" means that x brings it.

1 KB is 1000 bytes, uncompressed. Crates: bytes of functions, before the optimiser of the page's build;
a function counts for the first crate that its name names, Rust's own library aside, and code that was
inlined counts where it lies – so a size is a share of the code and not what would go with the crate.
Two versions of one crate have one name and show their sum. Scripts: bytes after shortening, by the
build's own maps.

";

fn read_json(path: &Path) -> Result<Json> {
    let text = fs::read_to_string(path).map_err(|e| Failure::file("read", path, &e))?;
    Json::read(&text).ok_or_else(|| {
        Failure::new(
            format!("{} is not JSON.", path.display()),
            AUTHOR,
            "Put the file back as npm wrote it.",
        )
    })
}

/// What a program prints; what it complains about passes through.
fn capture(command: &mut Command, remedy: &str) -> Result<String> {
    let output = command
        .stdin(Stdio::null())
        .stderr(Stdio::inherit())
        .output()
        .map_err(|e| {
            Failure::new(
                format!("`{}` could not be started: {e}.", shown(command)),
                YOU,
                "Install the program, or put its folder on PATH; then run the same command again.",
            )
        })?;
    if output.status.success() {
        return Ok(String::from_utf8_lossy(&output.stdout).into_owned());
    }
    Err(Failure::new(
        format!("`{}` failed ({}).", shown(command), output.status),
        YOU,
        remedy,
    ))
}
