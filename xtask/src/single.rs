//! `cargo xtask dist --single`: the page as one HTML that opens by a double click, without a server.

use crate::fail::{Failure, MAINTAINER, Result};
use crate::{page, repo, setup, size};
use std::fs;
use std::path::{Path, PathBuf};

/// What the page's build calls it.
const NAME: &str = "tabside.html";

/// Where the page's build leaves it: `outDir` in www/vite.single.config.ts.
fn built() -> PathBuf {
    repo::root().join("target").join("single").join(NAME)
}

/// Sets up, builds, and leaves the file in the folder.
pub fn run(out: Option<PathBuf>) -> Result<()> {
    let out = out.unwrap_or_else(|| repo::root().join("dist-single"));
    let tools = setup::for_page()?;
    page::build_core(&tools)?;
    page::page_script(
        "single",
        "Read the first error above; it concerns the edition in one file (www/scripts/single_file.ts).",
    )?;
    let file = leave(&built(), &out)?;
    println!(
        "Opens by a double click, without a server: {}",
        file.display()
    );
    Ok(())
}

/// Copies the built file into the folder, after a look at it, and prints its size. Only a file of the
/// same name is replaced.
fn leave(built: &Path, out: &Path) -> Result<PathBuf> {
    let bytes = fs::read(built).map_err(|e| Failure::file("read", built, &e))?;
    check(&bytes)?;
    fs::create_dir_all(out).map_err(|e| Failure::file("create", out, &e))?;
    let file = out.join(NAME);
    fs::write(&file, &bytes).map_err(|e| Failure::file("write", &file, &e))?;
    println!(
        "\n{NAME}: {} KB, {} KB after gzip",
        size::kilobytes(bytes.len() as u64),
        size::kilobytes(size::gzip_len(&bytes))
    );
    Ok(file)
}

/// The policy that keeps the file from asking anybody for anything has to stand in it.
fn check(bytes: &[u8]) -> Result<()> {
    let text = String::from_utf8_lossy(bytes);
    let policy = "default-src 'none'; script-src 'sha256-";
    if text.contains(policy) && text.contains("connect-src 'none'") {
        return Ok(());
    }
    Err(Failure::new(
        format!("The built {NAME} has no policy that shuts the network out."),
        MAINTAINER,
        "See `inlined` in www/scripts/single_file.ts, and the policy in www/index.html that it replaces.",
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::TempDir;

    const GOOD: &str =
        "<meta content=\"default-src 'none'; script-src 'sha256-x'; connect-src 'none'\">";

    #[test]
    fn the_file_is_left_and_nothing_else_is_touched() {
        let dir = TempDir::new("single");
        let built = dir.file("built.html", GOOD);
        let other = dir.file("out/thesis.txt", "precious");
        dir.file("out/tabside.html", "an older one");
        let file = leave(&built, &dir.path().join("out")).unwrap();
        assert_eq!(fs::read_to_string(file).unwrap(), GOOD);
        assert_eq!(fs::read_to_string(other).unwrap(), "precious");
    }

    #[test]
    fn a_file_that_may_ask_for_something_is_refused() {
        let dir = TempDir::new("single-open");
        let built = dir.file(
            "built.html",
            GOOD.replace("connect-src 'none'", "connect-src 'self'"),
        );
        let text = leave(&built, &dir.path().join("out"))
            .unwrap_err()
            .to_string();
        assert!(text.contains("policy"), "{text}");
        assert!(!dir.path().join("out").join(NAME).exists());
    }
}
