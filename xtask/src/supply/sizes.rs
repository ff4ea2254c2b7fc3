//! Sizes for the table, measured on what was built.

use super::capture;
use super::table::Sizes;
use super::wasm;
use crate::fail::{AUTHOR, Failure, Result, YOU};
use crate::page::{CASE, CORE, Module};
use crate::{process, repo, setup};
use std::fs;
use std::process::Command;

/// Bytes per crate in the two modules and the command line, and per package of npm in the scripts.
#[derive(Debug, Default)]
pub struct Measured {
    /// The core.
    pub core: Sizes,
    /// The module for files of cases.
    pub case: Sizes,
    /// The command line.
    pub program: Sizes,
    /// The page's scripts.
    pub scripts: Sizes,
}

/// Builds everything and measures it.
pub fn measure() -> Result<Measured> {
    let tools = setup::for_page()?;
    crate::page::build_core(&tools)?;
    Ok(Measured {
        core: module(&CORE)?,
        case: module(&CASE)?,
        program: program()?,
        scripts: scripts()?,
    })
}

/// What the compiler left, which still has its names.
fn module(module: &Module) -> Result<Sizes> {
    let path = crate::page::raw_module(module);
    let bytes = fs::read(&path).map_err(|e| Failure::file("read", &path, &e))?;
    wasm::shares(&bytes).ok_or_else(|| {
        Failure::new(
            format!("{} has no names of functions.", path.display()),
            AUTHOR,
            "See that no profile in Cargo.toml strips symbols of the page's modules.",
        )
    })
}

/// The command line on this system, by its symbols.
fn program() -> Result<Sizes> {
    process::run(
        process::cargo().current_dir(repo::root()).args([
            "build",
            "--locked",
            "--release",
            "--bin",
            "tabside",
        ]),
        AUTHOR,
        "Read the first error above.",
    )?;
    let target = std::env::var_os("CARGO_TARGET_DIR")
        .map_or_else(|| repo::root().join("target"), Into::into);
    let program = target
        .join("release")
        .join(format!("tabside{}", std::env::consts::EXE_SUFFIX));
    let listed = process::output(
        Command::new("nm")
            .args(["--print-size", "--demangle", "--defined-only", "--radix=d"])
            .arg(program),
    );
    listed
        .as_deref()
        .map(by_symbols)
        .filter(|sizes| !sizes.is_empty())
        .ok_or_else(|| {
            Failure::new(
                "`nm` names no function of the command line, so what each crate adds to it is not known.",
                YOU,
                "Install `nm` (Debian: the package binutils); and see that no profile in Cargo.toml strips \
                 the symbols of `release`.",
            )
        })
}

/// Lines `address size kind name`, of which code counts.
fn by_symbols(text: &str) -> Sizes {
    let mut sizes = Sizes::new();
    for line in text.lines() {
        let mut words = line.splitn(4, ' ').skip(1);
        if let (Some(Ok(bytes)), Some("t" | "T" | "w" | "W"), Some(name)) = (
            words.next().map(str::parse::<u64>),
            words.next(),
            words.next(),
        ) {
            *sizes.entry(wasm::crate_of(name)).or_default() += bytes;
        }
    }
    sizes
}

/// Lines `bytes package`, from a build of the page's scripts with their maps.
fn scripts() -> Result<Sizes> {
    let mut command = Command::new("node");
    command.arg("scripts/shares.mjs").current_dir(repo::www());
    let text = capture(&mut command, "It is www/scripts/shares.mjs.")?;
    Ok(by_lines(&text))
}

fn by_lines(text: &str) -> Sizes {
    text.lines()
        .filter_map(|line| {
            let (bytes, name) = line.split_once(' ')?;
            Some((name.to_owned(), bytes.parse().ok()?))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn code_counts_and_data_does_not() {
        let sizes = by_symbols(
            "0000 00000100 t image::decode\n0100 00000020 T <image::A as core::fmt::Debug>::fmt\n\
             0200 00000900 r image::TABLE\n0300 t no_size\n",
        );
        assert_eq!(sizes, Sizes::from([("image".to_owned(), 120)]));
    }

    #[test]
    fn lines_of_the_script_are_read() {
        let sizes = by_lines("12 preact\n7 @preact/signals\nwords\n");
        assert_eq!(
            sizes,
            Sizes::from([("preact".to_owned(), 12), ("@preact/signals".to_owned(), 7)])
        );
    }
}
