//! A Chromium for the tests and measurements that need a real browser.

use crate::fail::{ADMIN, Failure, Result, YOU};
use crate::process::{output, run};
use crate::setup::version::Version;
use std::ffi::OsStr;
use std::path::{Path, PathBuf};
use std::process::Command;

/// The variable that names a browser to use, here and for the page's own test scripts.
pub const VARIABLE: &str = "TABSIDE_CHROMIUM";

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

/// The browser, installed first where that is possible without asking anybody.
pub fn ensure() -> Result<Browser> {
    if let Some(chosen) = std::env::var_os(VARIABLE).filter(|v| !v.is_empty()) {
        return try_program(Path::new(&chosen)).ok_or_else(|| {
            Failure::new(
                format!(
                    "{VARIABLE} is {}, which does not start as a browser.",
                    chosen.display()
                ),
                YOU,
                format!("Correct {VARIABLE}, or unset it to have a browser looked for."),
            )
        });
    }
    if let Some(browser) = find() {
        return Ok(browser);
    }
    let missing = || {
        Failure::new(
            "The browser tests need Chromium (or Chrome), and none was found.",
            ADMIN,
            format!(
                "Install it (Debian: `sudo apt-get install -y chromium`; Fedora: `sudo dnf install \
                 chromium`; macOS: `brew install --cask chromium`), or set {VARIABLE} to a browser's \
                 whole path; then run the same command again. `cargo xtask test --fast` does without."
            ),
        )
    };
    if !may_use_apt() {
        return Err(missing());
    }
    println!("Installing Chromium with apt-get (about half a minute) …");
    let remedy = "Connect to the network, let other installations finish, and run the same command \
                  again; or install Chromium by hand.";
    run(apt_get().arg("update"), ADMIN, remedy)?;
    run(
        apt_get().args(["install", "-y", "--no-install-recommends", "chromium"]),
        ADMIN,
        remedy,
    )?;
    // Ubuntu's package of that name may install without giving a browser that starts.
    find().ok_or_else(missing)
}

fn apt_get() -> Command {
    let mut command = Command::new("apt-get");
    command
        .args(["-o", "DPkg::Lock::Timeout=300"])
        .env("DEBIAN_FRONTEND", "noninteractive")
        .stdin(std::process::Stdio::null());
    command
}

fn may_use_apt() -> bool {
    cfg!(target_os = "linux")
        && output(Command::new("apt-get").arg("--version")).is_some()
        && output(Command::new("id").arg("-u")).as_deref() == Some("0")
}

/// A browser that is already here.
pub fn find() -> Option<Browser> {
    let path = std::env::var_os("PATH").unwrap_or_default();
    NAMES
        .iter()
        .filter_map(|name| on_path(name, &path))
        .find_map(|program| try_program(&program))
}

fn on_path(name: &str, path: &OsStr) -> Option<PathBuf> {
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
    fn programs_are_found_along_the_path_with_their_whole_path() {
        let dir = TempDir::new("browser-path");
        let file = dir.script("bin/chromium", "");
        let path = std::env::join_paths([dir.path().join("none"), dir.path().join("bin")]).unwrap();
        assert_eq!(on_path("chromium", &path), Some(file.clone()));
        assert_eq!(on_path("chrome", &path), None);
        assert_eq!(on_path(file.to_str().unwrap(), &path), Some(file));
    }
}
