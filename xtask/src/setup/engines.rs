//! The three browser engines that the page is tested in: Chromium, Firefox, and WebKitGTK on a
//! display in memory.
//!
//! On Linux all three are asked for. Elsewhere WebKitGTK does not exist; there the page is tested in
//! the engines that are found, and the summary says which are left out.

use crate::fail::{ADMIN, Failure, Result};
use crate::setup::apt::{self, Need, missing};
use crate::setup::browser::{self, Browser};
use crate::setup::outside;
use std::path::{Path, PathBuf};

/// The variable that names a Firefox to use, here and for the page's own tests.
pub const FIREFOX_VARIABLE: &str = "TABSIDE_FIREFOX";

const FIREFOX_NAMES: &[&str] = &[
    "firefox-esr",
    "firefox",
    "/Applications/Firefox.app/Contents/MacOS/firefox",
    r"C:\Program Files\Mozilla Firefox\firefox.exe",
];

/// What the page is tested in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Engines {
    /// Always there.
    pub chromium: Browser,
    /// The same Chromium without windows, where it is here.
    pub shell: Option<Browser>,
    /// Always there on Linux.
    pub firefox: Option<Browser>,
    /// Whether WebKitGTK's driver, its browser and a display in memory are here: on Linux always.
    pub webkit: bool,
}

impl Engines {
    /// Their names as the page's tests take them.
    pub fn names(&self) -> String {
        let firefox = self.firefox.is_some().then_some("firefox");
        let webkit = self.webkit.then_some("webkit");
        let names: Vec<_> = [Some("chromium"), firefox, webkit]
            .into_iter()
            .flatten()
            .collect();
        names.join(",")
    }

    /// What the page is tested end to end in: the whole Chromium is in the comparison of engines.
    pub fn end_to_end(&self) -> &Browser {
        self.shell.as_ref().unwrap_or(&self.chromium)
    }

    /// One line for people: which take part, and which do not.
    pub fn line(&self) -> String {
        let firefox = self
            .firefox
            .as_ref()
            .map_or("WITHOUT Firefox, which was not found", |b| &b.version);
        let webkit = if self.webkit {
            "WebKitGTK"
        } else {
            "WITHOUT WebKitGTK, which is on Linux only"
        };
        format!("{}, {firefox}, {webkit}", self.chromium.version)
    }
}

const ON_LINUX: &[Need] = &[
    Need {
        package: "firefox-esr",
        here: || std::env::var_os(FIREFOX_VARIABLE).is_some() || find_firefox().is_some(),
    },
    Need {
        package: "webkit2gtk-driver",
        here: || is_on_path("WebKitWebDriver") && has_mini_browser(Path::new("/usr/lib")),
    },
    Need {
        package: "xvfb",
        here: || is_on_path("Xvfb"),
    },
];

/// The engines; what is missing is installed first, in one go, where that needs nobody's leave.
pub fn ensure() -> Result<Engines> {
    let needs: &[Need] = if cfg!(target_os = "linux") {
        ON_LINUX
    } else {
        &[]
    };
    let mut packages = missing(needs);
    if browser::chosen(browser::VARIABLE)?.is_none() && browser::find().is_none() {
        packages.insert(0, browser::PACKAGE);
    }
    // In the one go, what other programs' checks need too; they say themselves when it is not here.
    packages.extend(outside::missing());
    if !packages.is_empty() && apt::may_use() {
        apt::install(&packages)?;
    }
    let chromium = browser::ensure()?;
    let packages = missing(needs);
    if !packages.is_empty() {
        return Err(not_here(&packages));
    }
    let firefox = match browser::chosen(FIREFOX_VARIABLE)? {
        Some(chosen) => Some(chosen),
        None => find_firefox(),
    };
    Ok(Engines {
        shell: shell(&chromium)?,
        chromium,
        firefox,
        webkit: cfg!(target_os = "linux"),
    })
}

/// Not where a Chromium was chosen: that is the one to be tested in.
fn shell(chromium: &Browser) -> Result<Option<Browser>> {
    if browser::chosen(browser::VARIABLE)?.is_some() {
        return Ok(None);
    }
    if browser::shell_of(chromium).is_none() && apt::may_use() {
        apt::install_if_offered(browser::SHELL_PACKAGE);
    }
    Ok(browser::shell_of(chromium))
}

fn not_here(packages: &[&str]) -> Failure {
    let list = packages.join(" ");
    Failure::new(
        format!(
            "The page is tested in three engines, and what Debian has as {} was not found.",
            packages.join(", ")
        ),
        ADMIN,
        format!(
            "Install it (Debian, Ubuntu: `sudo apt-get install -y --no-install-recommends {list}`; \
             elsewhere the packages with `firefox`, `WebKitWebDriver` with WebKitGTK's MiniBrowser, \
             and `Xvfb`), then run the same command again. {FIREFOX_VARIABLE} names a Firefox by its \
             whole path. `cargo xtask test --fast` does without."
        ),
    )
}

fn find_firefox() -> Option<Browser> {
    browser::first_that_starts(FIREFOX_NAMES)
}

fn is_on_path(program: &str) -> bool {
    let path = std::env::var_os("PATH").unwrap_or_default();
    browser::on_path(program, &path).is_some()
}

/// WebKitGTK's browser lies beside its library: lib/ARCHITECTURE/webkit2gtk-VERSION/MiniBrowser, or
/// without the architecture.
fn has_mini_browser(lib: &Path) -> bool {
    let mut all = folders(lib);
    all.extend(folders(lib).iter().flat_map(|dir| folders(dir)));
    all.iter().any(|dir| {
        let name = dir.file_name().unwrap_or_default().to_string_lossy();
        name.starts_with("webkit2gtk-") && dir.join("MiniBrowser").is_file()
    })
}

fn folders(dir: &Path) -> Vec<PathBuf> {
    std::fs::read_dir(dir)
        .into_iter()
        .flatten()
        .filter_map(std::result::Result::ok)
        .map(|entry| entry.path())
        .filter(|path| path.is_dir())
        .collect()
}

#[cfg(all(test, unix))]
mod tests {
    use super::*;
    use crate::testing::TempDir;

    fn browser(version: &str) -> Browser {
        Browser {
            program: "b".into(),
            version: version.to_owned(),
        }
    }

    #[test]
    fn what_is_missing_is_named_by_its_package_with_one_line_to_type() {
        let needs = [
            Need {
                package: "one",
                here: || false,
            },
            Need {
                package: "two",
                here: || true,
            },
            Need {
                package: "three",
                here: || false,
            },
        ];
        assert_eq!(missing(&needs), ["one", "three"]);
        let text = not_here(&missing(&needs)).to_string();
        assert!(text.contains("recommends one three`"), "{text}");
        assert!(text.contains("--fast"), "{text}");
    }

    #[test]
    fn engines_that_are_left_out_are_said() {
        let all = Engines {
            chromium: browser("Chromium 1.2"),
            shell: None,
            firefox: Some(browser("Mozilla Firefox 3.4")),
            webkit: true,
        };
        assert_eq!(all.names(), "chromium,firefox,webkit");
        assert_eq!(all.line(), "Chromium 1.2, Mozilla Firefox 3.4, WebKitGTK");
        assert_eq!(all.end_to_end(), &all.chromium);
        let one = Engines {
            firefox: None,
            webkit: false,
            ..all
        };
        assert_eq!(one.names(), "chromium");
        assert!(one.line().contains("WITHOUT Firefox"), "{}", one.line());
        assert!(one.line().contains("WITHOUT WebKitGTK"), "{}", one.line());
    }

    #[test]
    fn the_mini_browser_is_found_beside_its_library() {
        let dir = TempDir::new("webkit");
        assert!(!has_mini_browser(dir.path()));
        dir.file("some-arch/webkit2gtk-4.1/other", "");
        assert!(!has_mini_browser(dir.path()));
        dir.file("some-arch/webkit2gtk-4.1/MiniBrowser", "");
        assert!(has_mini_browser(dir.path()));
        let flat = TempDir::new("webkit-flat");
        flat.file("webkit2gtk-4.0/MiniBrowser", "");
        assert!(has_mini_browser(flat.path()));
    }
}
