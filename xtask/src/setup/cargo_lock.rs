//! What Cargo.lock and Cargo.toml say about versions.

use crate::fail::{AUTHOR, Failure, Result};
use crate::setup::version::Version;
use std::fs;
use std::path::Path;

/// The version of a package in the root Cargo.lock, so that a tool can match it.
pub fn locked_version(root: &Path, package: &str) -> Result<String> {
    let path = root.join("Cargo.lock");
    let text = fs::read_to_string(&path).map_err(|e| Failure::file("read", &path, &e))?;
    let versions = versions_of(&text, package);
    match versions.as_slice() {
        [one] => Ok((*one).to_owned()),
        [] => Err(Failure::new(
            format!("Cargo.lock names no package `{package}`."),
            AUTHOR,
            format!(
                "See that Cargo.toml still depends on `{package}` and run `cargo update --workspace`."
            ),
        )),
        several => Err(Failure::new(
            format!(
                "Cargo.lock names `{package}` in several versions: {}.",
                several.join(", ")
            ),
            AUTHOR,
            "Bring the dependencies to one version: its command-line tool can match only one.",
        )),
    }
}

fn versions_of<'a>(lock: &'a str, package: &str) -> Vec<&'a str> {
    lock.split("[[package]]")
        .skip(1)
        .filter(|entry| value(entry, "name") == Some(package))
        .filter_map(|entry| value(entry, "version"))
        .collect()
}

/// The oldest Rust that the workspace's Cargo.toml allows.
pub fn oldest_rust(root: &Path) -> Result<Version> {
    let path = root.join("Cargo.toml");
    let text = fs::read_to_string(&path).map_err(|e| Failure::file("read", &path, &e))?;
    value(&text, "rust-version")
        .and_then(Version::find)
        .ok_or_else(|| {
            Failure::new(
                "The root Cargo.toml has no readable `rust-version = \"…\"`.",
                AUTHOR,
                "Put it back under [workspace.package].",
            )
        })
}

/// The value of the first line `key = "value"`.
fn value<'a>(text: &'a str, key: &str) -> Option<&'a str> {
    text.lines().find_map(|line| {
        let rest = line
            .trim()
            .strip_prefix(key)?
            .trim_start()
            .strip_prefix('=')?;
        let (value, _) = rest.trim_start().strip_prefix('"')?.split_once('"')?;
        Some(value)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::TempDir;

    const LOCK: &str = r#"
version = 4

[[package]]
name = "wasm-bindgen-macro"
version = "9.9.9"

[[package]]
name = "wasm-bindgen"
version = "0.2.130"
source = "registry+…"
dependencies = [
 "wasm-bindgen-macro",
]

[[package]]
name = "twice"
version = "1.0.0"

[[package]]
name = "twice"
version = "2.0.0"
"#;

    #[test]
    fn the_version_is_that_of_the_very_package() {
        let dir = TempDir::new("cargo-lock");
        dir.file("Cargo.lock", LOCK);
        assert_eq!(
            locked_version(dir.path(), "wasm-bindgen").unwrap(),
            "0.2.130"
        );
        let twice = locked_version(dir.path(), "twice").unwrap_err().to_string();
        assert!(twice.contains("1.0.0, 2.0.0"), "{twice}");
        assert!(locked_version(dir.path(), "wasm").is_err());
    }

    #[test]
    fn without_a_lock_file_the_failure_names_it() {
        let dir = TempDir::new("cargo-no-lock");
        let text = locked_version(dir.path(), "wasm-bindgen")
            .unwrap_err()
            .to_string();
        assert!(text.contains("Cargo.lock"), "{text}");
    }

    #[test]
    fn the_oldest_rust_is_read() {
        let dir = TempDir::new("cargo-toml");
        dir.file(
            "Cargo.toml",
            "[workspace.package]\nrust-version = \"1.90\" # why\n",
        );
        assert_eq!(oldest_rust(dir.path()).unwrap(), Version(1, 90, 0));
        dir.file("Cargo.toml", "[package]\nrust-version.workspace = true\n");
        assert!(oldest_rust(dir.path()).is_err());
    }

    #[test]
    fn this_very_repository_can_be_read() {
        let root = crate::repo::root();
        assert!(oldest_rust(&root).is_ok());
        assert!(Version::find(&locked_version(&root, "wasm-bindgen").unwrap()).is_some());
    }
}
