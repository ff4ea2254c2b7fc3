//! Where things are in this clone.

use std::path::{Path, PathBuf};

/// The root of the clone.
pub fn root() -> PathBuf {
    // Asked when it runs, so that clones sharing one target folder do not mix themselves up.
    let manifest = std::env::var_os("CARGO_MANIFEST_DIR")
        .map(PathBuf::from)
        .filter(|dir| dir.ends_with("xtask"))
        .unwrap_or_else(|| PathBuf::from(env!("CARGO_MANIFEST_DIR")));
    manifest
        .parent()
        .map_or(manifest.clone(), Path::to_path_buf)
}

/// The page's sources.
pub fn www() -> PathBuf {
    root().join("www")
}

/// The built page.
pub fn built_page() -> PathBuf {
    www().join("dist")
}

/// What these commands keep for themselves in the clone (under the git-ignored `target`).
pub fn scratch() -> PathBuf {
    root().join("target").join("xtask")
}

#[cfg(test)]
mod tests {
    #[test]
    fn the_root_holds_the_workspace() {
        assert!(super::root().join("xtask").join("Cargo.toml").is_file());
    }
}
