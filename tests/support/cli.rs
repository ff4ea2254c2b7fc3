//! The command line as tests call it.

#![allow(
    dead_code,
    reason = "every test binary compiles this module and uses part of it"
)]

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

pub fn tabside(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_tabside"))
        .args(arguments)
        .output()
        .expect("the program runs")
}

pub fn fixture(name: &str) -> String {
    format!("{}/fixtures/{name}", env!("CARGO_MANIFEST_DIR"))
}

/// An empty folder.
pub fn folder(name: &str) -> PathBuf {
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    let _ = std::fs::remove_dir_all(&path);
    std::fs::create_dir_all(&path).expect("a folder");
    path
}
