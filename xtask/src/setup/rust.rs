//! Rust itself: its version, the WebAssembly target, rustfmt and clippy.

use crate::fail::{Failure, Result, YOU};
use crate::process::{cargo, output, run};
use crate::repo;
use crate::setup::cargo_lock::oldest_rust;
use crate::setup::version::Version;
use std::path::Path;
use std::process::Command;

/// The target that the page's core is compiled for.
pub const WASM_TARGET: &str = "wasm32-unknown-unknown";

/// Checks the compiler's version, and gives it.
pub fn check() -> Result<Version> {
    let text = output(rustc().arg("--version")).unwrap_or_default();
    new_enough(&text, oldest_rust(&repo::root())?)
}

fn new_enough(printed: &str, oldest: Version) -> Result<Version> {
    match Version::find(printed) {
        Some(found) if found >= oldest => Ok(found),
        Some(found) => Err(Failure::new(
            format!("Rust {found} is too old: Tabside needs {oldest} or newer."),
            YOU,
            "Run `rustup update stable`, or install a newer Rust the way this one came.",
        )),
        None => Err(Failure::new(
            "The Rust compiler `rustc` does not start.",
            YOU,
            format!("Install Rust {oldest} or newer with rustup (https://rustup.rs)."),
        )),
    }
}

/// Adds the WebAssembly target when it is missing.
pub fn ensure_wasm_target() -> Result<()> {
    // Asked of the compiler, not of rustup: a Rust from elsewhere may have the target too.
    let has_target = || {
        output(rustc().args(["--print", "target-libdir", "--target", WASM_TARGET]))
            .is_some_and(|dir| Path::new(&dir).is_dir())
    };
    if has_target() {
        return Ok(());
    }
    let without_rustup = || {
        Failure::new(
            format!("This Rust has no standard library for {WASM_TARGET}."),
            YOU,
            format!(
                "Install Rust with rustup (https://rustup.rs), or add your distribution's package \
                 for {WASM_TARGET} (Debian: libstd-rust-dev-wasm32); then run the same command again."
            ),
        )
    };
    if output(Command::new("rustup").arg("--version")).is_none() {
        return Err(without_rustup());
    }
    run(
        Command::new("rustup").args(["target", "add", WASM_TARGET]),
        YOU,
        "Connect to the network and run the same command again.",
    )?;
    // A rustup that does not manage the compiler in use would have helped nothing.
    has_target().then_some(()).ok_or_else(without_rustup)
}

/// Adds rustfmt and clippy when they are missing.
pub fn ensure_components() -> Result<()> {
    for (subcommand, component) in [("fmt", "rustfmt"), ("clippy", "clippy")] {
        if output(cargo().args([subcommand, "--version"])).is_some() {
            continue;
        }
        if output(Command::new("rustup").arg("--version")).is_none() {
            return Err(Failure::new(
                format!("This Rust has no {component}."),
                YOU,
                format!(
                    "Install your distribution's package for {component}, or Rust with rustup (https://rustup.rs)."
                ),
            ));
        }
        run(
            Command::new("rustup").args(["component", "add", component]),
            YOU,
            "Connect to the network and run the same command again.",
        )?;
    }
    Ok(())
}

fn rustc() -> Command {
    Command::new(std::env::var_os("RUSTC").unwrap_or_else(|| "rustc".into()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_old_or_missing_compiler_is_told_apart() {
        let oldest = Version(1, 90, 0);
        assert!(new_enough("rustc 1.90.0 (abc)", oldest).is_ok());
        let old = new_enough("rustc 1.89.3 (abc)", oldest)
            .unwrap_err()
            .to_string();
        assert!(
            old.contains("1.89.3 is too old") && old.contains("rustup update"),
            "{old}"
        );
        let missing = new_enough("", oldest).unwrap_err().to_string();
        assert!(
            missing.contains("does not start") && missing.contains("1.90.0"),
            "{missing}"
        );
    }
}
