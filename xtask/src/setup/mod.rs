//! Everything that has to be there before anything can be built: checked, and installed where
//! that is possible. What is there already is left alone.

mod apt;
pub mod browser;
mod cache;
mod cargo_lock;
pub mod engines;
pub mod lock;
mod node;
pub mod outside;
mod rust;
mod tool;
mod version;

pub use engines::Engines;
pub use rust::WASM_TARGET;

use crate::fail::Result;
use crate::repo;
use lock::Lock;
use std::path::{Path, PathBuf};
use tool::Tool;

/// Builds the core for the page. wasm-bindgen's own version follows Cargo.lock.
const WASM_PACK_VERSION: &str = "0.15.1";

/// Checks licences, versions and sources of crates; for `cargo xtask supply`.
const CARGO_DENY_VERSION: &str = "0.20.2";

/// Builds the doors for libFuzzer; for `cargo xtask fuzz`.
const CARGO_FUZZ_VERSION: &str = "0.13.2";

/// Changes the code and sees whether a test fails; for `cargo xtask mutants`.
const CARGO_MUTANTS_VERSION: &str = "27.1.0";

/// The tools that build the page.
#[derive(Debug, Clone)]
pub struct Tools {
    /// The wasm-pack program.
    pub wasm_pack: PathBuf,
    /// The wasm-bindgen program of the version in Cargo.lock.
    pub wasm_bindgen: PathBuf,
}

/// `cargo xtask setup`: everything, the browsers for the tests included.
pub fn run() -> Result<()> {
    for_page()?;
    for_checks()?;
    println!("Browsers: {}", engines::ensure()?.line());
    outside::ensure()?;
    println!("Everything is set up.");
    Ok(())
}

/// What building the page needs.
pub fn for_page() -> Result<Tools> {
    let rust = rust::check()?;
    let node = node::check()?;
    let cache = cache::dir()?;
    {
        let _lock = Lock::take(&cache.join("setup.lock"), "its set-up")?;
        rust::ensure_wasm_target()?;
    }
    let tools = ensure_tools(&cache)?;
    {
        let _lock = clone_lock()?;
        node::ensure_packages()?;
    }
    println!(
        "Set up: Rust {rust}, Node.js {node}, wasm-pack and wasm-bindgen in {}.",
        cache.join("tools").display()
    );
    Ok(tools)
}

/// The page's packages alone.
pub fn page_packages() -> Result<()> {
    node::check()?;
    let _lock = clone_lock()?;
    node::ensure_packages()
}

/// The cargo-fuzz program.
pub fn cargo_fuzz() -> Result<PathBuf> {
    subcommand(
        "cargo-fuzz",
        CARGO_FUZZ_VERSION,
        "about 1 minute on two cores",
    )
}

/// The cargo-mutants program.
pub fn cargo_mutants() -> Result<PathBuf> {
    subcommand(
        "cargo-mutants",
        CARGO_MUTANTS_VERSION,
        "about 2 minutes on two cores",
    )
}

/// The cargo-deny program.
pub fn cargo_deny() -> Result<PathBuf> {
    subcommand(
        "cargo-deny",
        CARGO_DENY_VERSION,
        "6 to 11 minutes on two cores",
    )
}

/// A program of cargo's that has the name of its crate.
fn subcommand(
    name: &'static str,
    version: &'static str,
    estimate: &'static str,
) -> Result<PathBuf> {
    let tool = Tool {
        package: name,
        program: name,
        version: version.to_owned(),
        estimate,
    };
    let cargo = crate::process::cargo();
    tool.ensure(&cache::dir()?, Path::new(cargo.get_program()))
}

/// What formatting and lint checks need on top.
pub fn for_checks() -> Result<()> {
    rust::ensure_components()
}

/// Held while the folders that builds write to in this clone are being changed.
pub fn clone_lock() -> Result<Lock> {
    Lock::take(
        &repo::scratch().join("build.lock"),
        "what it builds in this clone",
    )
}

fn ensure_tools(cache: &Path) -> Result<Tools> {
    let wasm_pack = Tool {
        package: "wasm-pack",
        program: "wasm-pack",
        version: WASM_PACK_VERSION.to_owned(),
        estimate: "about 2 minutes on two cores",
    };
    let wasm_bindgen = Tool {
        package: "wasm-bindgen-cli",
        program: "wasm-bindgen",
        version: cargo_lock::locked_version(&repo::root(), "wasm-bindgen")?,
        estimate: "about 3½ minutes on two cores",
    };
    if [&wasm_pack, &wasm_bindgen]
        .iter()
        .all(|tool| tool.is_missing(cache))
    {
        println!(
            "First run for this user: two build tools are compiled now, 5 to 6 minutes on two \
             cores. Every later run, of every clone, finds them ready."
        );
    }
    let cargo = crate::process::cargo();
    let cargo = Path::new(cargo.get_program());
    Ok(Tools {
        wasm_pack: wasm_pack.ensure(cache, cargo)?,
        wasm_bindgen: wasm_bindgen.ensure(cache, cargo)?,
    })
}
