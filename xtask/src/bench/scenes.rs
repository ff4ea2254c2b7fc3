//! The pictures that are measured on: rendered once, kept, and laid where the page can fetch them.

use crate::fail::{AUTHOR, Failure, Result};
use crate::process::{cargo, run};
use crate::repo;
use std::ffi::{OsStr, OsString};
use std::fs;
use std::path::{Path, PathBuf};

/// The scene that everything is measured on, and the second photo of a case.
pub const SEED: &str = "1002";
pub const SECOND_SEED: &str = "1003";

/// Widths in pixels at 3:2.
pub const MP_12: &str = "4240";
pub const MP_48: &str = "8480";
/// 1, 3, 6, 12, 24, 48 and 100 megapixels; as in benches/growth.rs.
pub const GROWTH: [&str; 7] = ["1224", "2120", "3000", MP_12, "6000", MP_48, "12240"];

/// Where the photos are kept: `WIDTH/random-SEED.jpg`.
pub fn kept() -> PathBuf {
    repo::root().join("target").join("bench")
}

/// A photo of the scene, rendered unless it is there.
pub fn photo(seed: &str, width_px: &str) -> Result<PathBuf> {
    let folder = kept().join(width_px);
    let file = folder.join(format!("random-{seed}.jpg"));
    // Written last, so a photo with it is whole.
    let truth = file.with_extension("truth.json");
    if !(file.is_file() && truth.is_file()) {
        let words = [
            OsStr::new("random"),
            seed.as_ref(),
            folder.as_os_str(),
            width_px.as_ref(),
        ];
        render(&words)?;
    }
    Ok(file)
}

/// Readings of rendered scenes against the colours that they were rendered with.
pub fn accuracy(args: &[OsString]) -> Result<()> {
    println!("{}\n", crate::machine::description(None));
    program(
        "accuracy",
        args,
        "Read the first error above; it concerns the accuracy measurement.",
    )
}

/// Renders the demonstration photo, its swatch book and the test scene again. The page's build takes its copy of
/// the demonstration from there.
pub fn demo() -> Result<()> {
    for scene in [
        ["demo", "fixtures/demo"],
        ["other", "fixtures/scenes"],
        ["swatch-book", "fixtures/demo"],
    ] {
        render(&scene.map(OsStr::new))?;
    }
    Ok(())
}

/// The scene renderer with these words.
fn render(words: &[&OsStr]) -> Result<()> {
    program(
        "scene-render",
        words,
        "Read the first error above; it concerns the renderer in tests/render/.",
    )
}

/// A program of the workspace, as fast as it gets.
fn program(package: &str, words: &[impl AsRef<OsStr>], remedy: &str) -> Result<()> {
    run(
        cargo()
            .args(["run", "--release", "-p", package, "--"])
            .args(words)
            .current_dir(repo::root()),
        AUTHOR,
        remedy,
    )
}

/// A copy of the built page with photos beside it, under `bench/`: the page may fetch from its own place
/// only. What was there before goes.
pub fn site(page: &Path, photos: &[(&str, PathBuf)]) -> Result<PathBuf> {
    let site = repo::scratch().join("bench-site");
    match fs::remove_dir_all(&site) {
        Err(e) if e.kind() != std::io::ErrorKind::NotFound => {
            return Err(Failure::file("remove", &site, &e));
        }
        _ => {}
    }
    let mut copies: Vec<(PathBuf, PathBuf)> = Vec::new();
    for from in crate::size::paths(page)? {
        copies.push((site.join(crate::size::name_below(page, &from)), from));
    }
    for (name, from) in photos {
        copies.push((site.join("bench").join(name), from.clone()));
    }
    for (to, from) in copies {
        let folder = to.parent().unwrap_or(&site);
        fs::create_dir_all(folder).map_err(|e| Failure::file("create", folder, &e))?;
        fs::copy(&from, &to).map_err(|e| Failure::file("copy", &from, &e))?;
    }
    Ok(site)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::TempDir;

    #[test]
    fn the_site_is_the_page_with_the_photos_beside_it() {
        let dir = TempDir::new("bench-site");
        dir.file("page/assets/main-x.js", "worker");
        let photo = dir.file("p.jpg", "photo");
        let site = site(&dir.path().join("page"), &[("12.jpg", photo)]).unwrap();
        let text = |name: &str| fs::read_to_string(site.join(name)).unwrap();
        assert_eq!(text("assets/main-x.js"), "worker");
        assert_eq!(text("bench/12.jpg"), "photo");
    }
}
