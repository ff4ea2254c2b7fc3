//! Programs of others that files are checked with: Python's `jsonschema` and `cryptography`,
//! Info-ZIP, Poppler's `pdftotext`, LittleCMS's `transicc`.

use crate::fail::{ADMIN, Failure, Result};
use crate::process::output;
use crate::setup::apt::{self, Need};
use crate::setup::browser::on_path;
use std::process::Command;

const NEEDS: &[Need] = &[
    Need {
        package: "python3-jsonschema",
        here: || found().is_some(),
    },
    Need {
        package: "python3-cryptography",
        here: || found().is_some(),
    },
    Need {
        package: "unzip",
        here: || is_on_path("unzip"),
    },
    Need {
        package: "poppler-utils",
        here: || is_on_path("pdftotext"),
    },
    Need {
        package: "liblcms2-utils",
        here: || is_on_path("transicc"),
    },
];

/// The packages of what is not here.
pub fn missing() -> Vec<&'static str> {
    apt::missing(NEEDS)
}

/// Installs what is missing, where that needs nobody's leave. On Linux all of it has to be here; elsewhere
/// the names of what is not come back, and the checks are left out.
pub fn ensure() -> Result<Vec<&'static str>> {
    let mut packages = missing();
    if !packages.is_empty() && apt::may_use() {
        apt::install(&packages)?;
        packages = missing();
    }
    if packages.is_empty() || !cfg!(target_os = "linux") {
        return Ok(packages);
    }
    Err(Failure::new(
        format!(
            "Files are checked with programs of others, and what Debian has as {} was not found.",
            packages.join(", ")
        ),
        ADMIN,
        format!(
            "Install it (Debian, Ubuntu: `sudo apt-get install -y --no-install-recommends {}`; elsewhere \
             the packages with the same programs, and `pip install` for Python's modules), then run the \
             same command again.",
            packages.join(" ")
        ),
    ))
}

/// The Python that has both modules: the system's own, or another one on the path.
fn found() -> Option<&'static str> {
    let has = |program: &&str| {
        output(Command::new(program).args(["-c", "import jsonschema, cryptography"])).is_some()
    };
    ["/usr/bin/python3", "python3"].into_iter().find(has)
}

/// The Python to run scripts with, once all is here.
pub fn python() -> &'static str {
    found().unwrap_or("python3")
}

fn is_on_path(program: &str) -> bool {
    let path = std::env::var_os("PATH").unwrap_or_default();
    on_path(program, &path).is_some()
}
