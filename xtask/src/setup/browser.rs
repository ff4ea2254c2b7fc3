//! A Chromium for the tests and measurements that need a real browser.

use crate::fail::{ADMIN, Failure, Result, YOU};
use crate::process::output;
use crate::setup::apt;
use crate::setup::version::Version;
use std::ffi::OsStr;
use std::path::{Path, PathBuf};
use std::process::Command;

/// The variable that names a browser to use, here and for the page's own test scripts.
pub const VARIABLE: &str = "TABSIDE_CHROMIUM";

/// Debian's package.
pub const PACKAGE: &str = "chromium";

/// Debian's package of the same engine without windows of its own, which drawing costs.
pub const SHELL_PACKAGE: &str = "chromium-headless-shell";

const NAMES: &[&str] = &[
    "chromium",
    "chromium-browser",
    "google-chrome",
    "google-chrome-stable",
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
    r"C:\Program Files\Google\Chrome\Application\chrome.exe",
    r"C:\Program Files (x86)\Google\Chrome\Application\chrome.exe",
];

/// A browser that starts.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Browser {
    /// The program, with its whole path.
    pub program: PathBuf,
    /// What it says of itself.
    pub version: String,
}

/// Chromium, installed first where that is possible without asking anybody.
pub fn ensure() -> Result<Browser> {
    if let Some(browser) = chosen(VARIABLE)? {
        return Ok(browser);
    }
    if let Some(browser) = find() {
        return Ok(browser);
    }
    if apt::may_use() {
        apt::install(&[PACKAGE])?;
    }
    // Ubuntu's package of that name may install without giving a browser that starts.
    find().ok_or_else(missing)
}

fn missing() -> Failure {
    Failure::new(
        "The browser tests need Chromium (or Chrome), and none was found.",
        ADMIN,
        format!(
            "Install it (Debian: `sudo apt-get install -y chromium`; Fedora: `sudo dnf install \
             chromium`; macOS: `brew install --cask chromium`), or set {VARIABLE} to a browser's \
             whole path; then run the same command again. `cargo xtask test --fast` does without."
        ),
    )
}

/// The browser that an environment variable names, where it does.
pub fn chosen(variable: &str) -> Result<Option<Browser>> {
    let Some(path) = std::env::var_os(variable).filter(|v| !v.is_empty()) else {
        return Ok(None);
    };
    try_program(Path::new(&path)).map(Some).ok_or_else(|| {
        Failure::new(
            format!(
                "{variable} is {}, which does not start as a browser.",
                path.display()
            ),
            YOU,
            format!("Correct {variable}, or unset it to have a browser looked for."),
        )
    })
}

/// A Chromium that is already here.
pub fn find() -> Option<Browser> {
    first_that_starts(NAMES)
}

/// The same Chromium without windows, where it is here in the very same version.
pub fn shell_of(whole: &Browser) -> Option<Browser> {
    same_version(first_that_starts(&[SHELL_PACKAGE])?, whole)
}

fn same_version(shell: Browser, whole: &Browser) -> Option<Browser> {
    (number(&shell)? == number(whole)?).then_some(shell)
}

/// All four parts of what a browser calls its version.
fn number(browser: &Browser) -> Option<&str> {
    browser
        .version
        .split_whitespace()
        .find(|word| word.starts_with(|c: char| c.is_ascii_digit()))
}

/// The first of these programs that is here and starts as a browser.
pub fn first_that_starts(names: &[&str]) -> Option<Browser> {
    let path = std::env::var_os("PATH").unwrap_or_default();
    names
        .iter()
        .filter_map(|name| on_path(name, &path))
        .find_map(|program| try_program(&program))
}

/// A program with its whole path, by its name.
pub fn on_path(name: &str, path: &OsStr) -> Option<PathBuf> {
    // An absolute name replaces the folder it is joined to.
    std::env::split_paths(path)
        .map(|dir| dir.join(name))
        .find(|file| file.is_absolute() && file.is_file())
}

fn try_program(program: &Path) -> Option<Browser> {
    // Chrome on Windows opens a window instead of printing its version.
    if cfg!(windows) {
        return program.is_file().then(|| Browser {
            program: program.to_path_buf(),
            version: "version not printed on Windows".to_owned(),
        });
    }
    let text = output(Command::new(program).arg("--version"))?;
    Version::find(&text)?;
    Some(Browser {
        program: program.to_path_buf(),
        version: text,
    })
}

#[cfg(all(test, unix))]
mod tests {
    use super::*;
    use crate::testing::TempDir;

    #[test]
    fn only_a_program_that_prints_a_version_is_a_browser() {
        let dir = TempDir::new("browser");
        let good = dir.script("good", "echo Chromium 156.0.1.2; echo noise >&2");
        let found = try_program(&good).unwrap();
        assert_eq!(found.version, "Chromium 156.0.1.2");
        let stub = dir.script("stub", "echo please install the snap >&2; exit 1");
        assert_eq!(try_program(&stub), None);
        assert_eq!(try_program(&dir.path().join("none")), None);
    }

    #[test]
    fn a_shell_of_another_version_is_not_the_same_browser() {
        let of = |version: &str| Browser {
            program: "b".into(),
            version: version.to_owned(),
        };
        let whole = of("Chromium 156.0.1.2 built on Debian");
        assert!(same_version(of("Chromium 156.0.1.2"), &whole).is_some());
        assert!(same_version(of("Chromium 156.0.1.3"), &whole).is_none());
        assert!(same_version(of("Chromium 155.0.1.2"), &whole).is_none());
    }

    #[test]
    fn programs_are_found_along_the_path_with_their_whole_path() {
        let dir = TempDir::new("browser-path");
        let file = dir.script("bin/chromium", "");
        let path = std::env::join_paths([dir.path().join("none"), dir.path().join("bin")]).unwrap();
        assert_eq!(on_path("chromium", &path), Some(file.clone()));
        assert_eq!(on_path("chrome", &path), None);
        assert_eq!(on_path(file.to_str().unwrap(), &path), Some(file));
    }
}
