//! The per-user cache: tools that are compiled once and serve every clone.

use crate::fail::{Failure, Result, YOU};
use std::ffi::OsString;
use std::path::PathBuf;

/// The cache folder. `TABSIDE_CACHE` overrides the system's own place for caches.
pub fn dir() -> Result<PathBuf> {
    choose(std::env::consts::OS, &|name| std::env::var_os(name)).ok_or_else(|| {
        Failure::new(
            "The folder for the project's tools is not known: neither TABSIDE_CACHE nor a home \
             folder is set, or it is not an absolute path.",
            YOU,
            "Set TABSIDE_CACHE to the absolute path of a folder that you may write to; then run \
             the same command again.",
        )
    })
}

fn choose(os: &str, var: &dyn Fn(&str) -> Option<OsString>) -> Option<PathBuf> {
    let folder = |name: &str| var(name).filter(|v| !v.is_empty()).map(PathBuf::from);
    if let Some(chosen) = folder("TABSIDE_CACHE") {
        // A relative path would mean another folder from each place it is used.
        return std::path::absolute(chosen).ok();
    }
    let base = match os {
        "windows" => folder("LOCALAPPDATA"),
        "macos" => folder("HOME").map(|home| home.join("Library").join("Caches")),
        // The XDG base directory specification says that relative paths are to be ignored.
        _ => folder("XDG_CACHE_HOME")
            .filter(|dir| dir.is_absolute())
            .or_else(|| folder("HOME").map(|home| home.join(".cache"))),
    };
    base.filter(|dir| dir.is_absolute())
        .map(|dir| dir.join("tabside"))
}

#[cfg(all(test, unix))]
mod tests {
    use super::*;

    fn chosen(os: &str, vars: &[(&str, &str)]) -> Option<String> {
        choose(os, &|name| {
            vars.iter()
                .find(|(key, _)| *key == name)
                .map(|(_, value)| OsString::from(value))
        })
        .map(|dir| dir.to_string_lossy().into_owned())
    }

    #[test]
    fn every_system_has_its_place() {
        let home = ("HOME", "/h");
        assert_eq!(
            chosen("linux", &[home]).as_deref(),
            Some("/h/.cache/tabside")
        );
        assert_eq!(
            chosen("macos", &[home]).as_deref(),
            Some("/h/Library/Caches/tabside")
        );
        assert_eq!(
            chosen("linux", &[home, ("XDG_CACHE_HOME", "/x")]).as_deref(),
            Some("/x/tabside")
        );
        assert_eq!(
            chosen("linux", &[home, ("XDG_CACHE_HOME", "x")]).as_deref(),
            Some("/h/.cache/tabside")
        );
        assert_eq!(
            chosen("windows", &[("LOCALAPPDATA", "/local")]).as_deref(),
            Some("/local/tabside")
        );
        assert_eq!(
            chosen("linux", &[home, ("TABSIDE_CACHE", "/mine")]).as_deref(),
            Some("/mine")
        );
        assert_eq!(chosen("linux", &[]), None);
        assert_eq!(chosen("linux", &[("HOME", "")]), None);
    }
}
