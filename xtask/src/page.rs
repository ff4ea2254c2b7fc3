//! Builds the page: the core as WebAssembly into `www/pkg`, the part for files of cases, which the
//! page loads only when it is wanted, into `www/pkg/case`; then the page into `www/dist`.

use crate::fail::{AUTHOR, Failure, MAINTAINER, Result};
use crate::process::{cargo_home, npm, output, run};
use crate::setup::{Tools, WASM_TARGET, clone_lock};
use crate::{process, repo, stamp};
use std::ffi::OsString;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// The package's name.
const PACKAGE: &str = "tabside";

/// A module that the page loads, made of the one crate.
pub struct Module {
    /// Its name among the generated files.
    pub name: &'static str,
    /// Its folder below `www/pkg`; empty for that itself.
    folder: &'static str,
    /// The build profile in Cargo.toml.
    profile: &'static str,
    /// The features it is built with. The default ones are those of the command line.
    pub features: &'static [&'static str],
}

/// Reads photos; the first screen waits for it.
pub const CORE: Module = Module {
    name: "tabside",
    folder: "",
    profile: "page",
    features: &["--no-default-features"],
};

/// Files of cases and tables.
pub const CASE: Module = Module {
    name: "tabside_case",
    folder: "case",
    profile: "page-case",
    features: &["--no-default-features", "--features", "case"],
};

/// The core with what `www/bench/colour.mjs` measures of it; no part of the page.
const BENCH: Module = Module {
    name: "tabside",
    folder: "",
    profile: "page",
    features: &["--no-default-features", "--features", "bench"],
};

/// What rustc emits by default today, and SIMD: the optimiser has to be told, or it refuses.
/// A function that is called from one place stays one: browsers begin to run the quick code of a
/// function with its next call, so that a loop over rows is quick within the first photo when its
/// body is a function, and the code is smaller too.
const OPTIMISER_ARGS: &[&str] = &[
    "-O2",
    "--one-caller-inline-max-function-size=40",
    "--enable-bulk-memory",
    "--enable-bulk-memory-opt",
    "--enable-nontrapping-float-to-int",
    "--enable-sign-ext",
    "--enable-simd",
    "--enable-mutable-globals",
    "--enable-reference-types",
    "--enable-multivalue",
];

/// Both parts, one after the other.
pub fn build(tools: &Tools) -> Result<()> {
    build_core(tools)?;
    build_page()
}

/// Compiles both modules for the page and optimises them; nothing is optimised twice.
pub fn build_core(tools: &Tools) -> Result<()> {
    let _lock = clone_lock()?;
    let build = |module: &Module| {
        let pkg = repo::www().join("pkg").join(module.folder);
        build_module(tools, module, module.name, &pkg)
    };
    // Both at once: the last stage of each sees all crates together and has one processor only.
    std::thread::scope(|threads| {
        let case = threads.spawn(|| build(&CASE));
        let core = build(&CORE);
        let case = case
            .join()
            .unwrap_or_else(|panic| std::panic::resume_unwind(panic));
        core.and(case)
    })
}

/// Compiles what is measured by itself, just as the page's core is, into a folder of its own.
pub fn build_bench(tools: &Tools) -> Result<PathBuf> {
    let _lock = clone_lock()?;
    let pkg = repo::scratch().join("bench-core");
    build_module(tools, &BENCH, "bench", &pkg)?;
    Ok(pkg)
}

fn build_module(tools: &Tools, module: &Module, scratch: &str, pkg: &Path) -> Result<()> {
    let raw = raw_folder(scratch);
    fs::create_dir_all(&raw).map_err(|e| Failure::file("create", &raw, &e))?;
    run(
        &mut wasm_pack_command(tools, module, &raw)?,
        AUTHOR,
        "Read the first error above. It concerns the core compiled for the browser: `cargo \
         xtask test --fast` checks that too.",
    )?;
    optimise(module.name, &raw, pkg)
}

fn raw_folder(scratch: &str) -> PathBuf {
    repo::scratch().join("pkg").join(scratch)
}

/// A module as the compiler left it: with the names of its functions.
pub fn raw_module(module: &Module) -> PathBuf {
    raw_folder(module.name).join(format!("{}_bg.wasm", module.name))
}

fn wasm_pack_command(tools: &Tools, module: &Module, out: &Path) -> Result<Command> {
    let mut command = Command::new(&tools.wasm_pack);
    command
        .current_dir(repo::root())
        // Its own remarks concern publishing; cargo's output is shown either way.
        .args(["--log-level", "error"])
        .args([
            "build",
            "--profile",
            module.profile,
            "--target",
            "web",
            "--mode",
            "no-install",
        ])
        .args([
            "--no-opt",
            "--no-pack",
            "--out-name",
            module.name,
            "--out-dir",
        ])
        .arg(out)
        .arg(".")
        .arg("--")
        .args(module.features)
        .args(["--config", &remapped(&sources_of_crates())])
        .env("PATH", path_starting_with(tools.wasm_bindgen.parent())?);
    for_wasm(&mut command);
    Ok(command)
}

/// A setting of cargo's, added to the flags of .cargo/config.toml: where crates of others lie on this
/// machine stands in none of what is built, so that every machine builds the same.
fn remapped(folders: &[PathBuf]) -> String {
    let flags: Vec<String> = folders
        .iter()
        .map(|folder| format!("'--remap-path-prefix={}=crates'", folder.display()))
        .collect();
    format!("target.{WASM_TARGET}.rustflags = [{}]", flags.join(", "))
}

/// The folders that cargo unpacks crates into, one for each registry.
fn sources_of_crates() -> Vec<PathBuf> {
    let sources = cargo_home(&|name| std::env::var_os(name))
        .unwrap_or_default()
        .join("registry")
        .join("src");
    let mut folders: Vec<PathBuf> = fs::read_dir(sources)
        .map(|entries| entries.filter_map(|e| Some(e.ok()?.path())).collect())
        .unwrap_or_default();
    folders.sort();
    folders
}

/// The compiler flags for WebAssembly stand in .cargo/config.toml, and flags in the environment
/// would silently replace them all, SIMD included.
pub fn for_wasm(command: &mut Command) {
    command
        .env_remove("RUSTFLAGS")
        .env_remove("CARGO_ENCODED_RUSTFLAGS");
}

/// The clippy run over what a module gets.
pub fn clippy_command(module: &Module) -> Command {
    let mut command = process::cargo();
    command
        .current_dir(repo::root())
        .args(["clippy", "-p", PACKAGE, "--lib", "--target", WASM_TARGET])
        .args(module.features)
        .args(["--", "-D", "warnings"]);
    for_wasm(&mut command);
    command
}

fn path_starting_with(dir: Option<&Path>) -> Result<OsString> {
    let old = std::env::var_os("PATH").unwrap_or_default();
    let dirs = dir.map(Path::to_path_buf).into_iter();
    std::env::join_paths(dirs.chain(std::env::split_paths(&old))).map_err(|e| {
        Failure::new(
            format!("PATH cannot be extended: {e}."),
            crate::fail::YOU,
            "Set TABSIDE_CACHE to a folder whose path has no path separator in it.",
        )
    })
}

/// Takes the generated files from `raw` to `pkg`, the WebAssembly optimised.
fn optimise(name: &str, raw: &Path, pkg: &Path) -> Result<()> {
    let wasm_name = format!("{name}_bg.wasm");
    let wasm = raw.join(&wasm_name);
    let bytes = fs::read(&wasm).map_err(|e| Failure::file("read", &wasm, &e))?;
    let script = repo::www()
        .join("node_modules")
        .join("binaryen")
        .join("bin")
        .join("wasm-opt");
    let optimiser = output(Command::new("node").arg(&script).arg("--version")).ok_or_else(|| {
        Failure::new(
            "The optimiser for WebAssembly, wasm-opt of the npm package `binaryen`, does not start.",
            MAINTAINER,
            "See that `binaryen` is among the devDependencies of www/package.json; then remove \
             www/node_modules and run the same command again.",
        )
    })?;
    let made_from = format!(
        "{} {optimiser} {}",
        stamp::hash_hex(&bytes),
        OPTIMISER_ARGS.join(" ")
    );
    fs::create_dir_all(pkg).map_err(|e| Failure::file("create", pkg, &e))?;
    let stamp_path = pkg.join(".made-from");
    let target = pkg.join(&wasm_name);
    if !(target.is_file() && stamp::matches(&stamp_path, &made_from)) {
        stamp::clear(&stamp_path);
        let partial = pkg.join(".partial.wasm");
        run(
            Command::new("node")
                .arg(&script)
                .args(OPTIMISER_ARGS)
                .arg(&wasm)
                .arg("-o")
                .arg(&partial),
            MAINTAINER,
            "A feature that the optimiser is not told of is the usual cause: compare the list in \
             xtask/src/page.rs with what the compiler emits.",
        )?;
        fs::rename(&partial, &target)
            .map_err(|e| Failure::file("move into place", &partial, &e))?;
    }
    for entry in files_in(raw)? {
        if entry != wasm_name.as_str() {
            copy_if_different(&raw.join(&entry), &pkg.join(&entry))?;
        }
    }
    stamp::write(&stamp_path, &made_from)
}

/// The names of the generated files.
fn files_in(dir: &Path) -> Result<Vec<OsString>> {
    let entries = fs::read_dir(dir).map_err(|e| Failure::file("read", dir, &e))?;
    Ok(entries
        .filter_map(std::result::Result::ok)
        .filter(|entry| entry.path().is_file())
        .map(|entry| entry.file_name())
        .collect())
}

/// Unchanged files keep their time, so that watching tools stay quiet.
fn copy_if_different(from: &Path, to: &Path) -> Result<()> {
    let bytes = fs::read(from).map_err(|e| Failure::file("read", from, &e))?;
    if fs::read(to).is_ok_and(|old| old == bytes) {
        return Ok(());
    }
    fs::write(to, bytes).map_err(|e| Failure::file("write", to, &e))
}

/// Builds the page around the core that is in `www/pkg`.
pub fn build_page() -> Result<()> {
    let _lock = clone_lock()?;
    page_script(
        "build",
        "Read the first error above; it concerns the page in www/.",
    )
}

/// Runs a script of www/package.json.
pub fn page_script(name: &str, remedy: &str) -> Result<()> {
    let mut command = npm();
    command.arg("run").arg(name).current_dir(repo::www());
    run(&mut command, AUTHOR, remedy)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::TempDir;

    #[test]
    fn a_copy_is_made_only_when_it_differs() {
        let dir = TempDir::new("copy");
        let (from, to) = (dir.file("from", "new"), dir.file("to", "old"));
        copy_if_different(&from, &to).unwrap();
        assert_eq!(fs::read_to_string(&to).unwrap(), "new");
        let written = fs::metadata(&to).unwrap().modified().unwrap();
        copy_if_different(&from, &to).unwrap();
        assert_eq!(fs::metadata(&to).unwrap().modified().unwrap(), written);
    }

    #[test]
    fn folders_of_this_machine_are_named_by_another_word() {
        let setting = remapped(&["/home/x/src/a".into(), "/home/x/src/b".into()]);
        assert_eq!(
            setting,
            "target.wasm32-unknown-unknown.rustflags = \
             ['--remap-path-prefix=/home/x/src/a=crates', '--remap-path-prefix=/home/x/src/b=crates']"
        );
    }

    #[test]
    fn the_matching_bindgen_is_found_first() {
        let path = path_starting_with(Some(Path::new("first"))).unwrap();
        assert_eq!(std::env::split_paths(&path).next(), Some("first".into()));
    }
}
