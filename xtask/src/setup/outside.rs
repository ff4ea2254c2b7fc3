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
        here: || has_module("jsonschema"),
    },
    Need {
        package: "python3-cryptography",
        here: || has_module("cryptography"),
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

/// Installs what is missing, where that needs nobody's leave.
pub fn ensure() -> Result<()> {
    let mut packages = missing();
    if !packages.is_empty() && apt::may_use() {
        apt::install(&packages)?;
        packages = missing();
    }
    if packages.is_empty() {
        return Ok(());
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

/// The Python that has the modules: the system's own before another one on the path.
pub fn python() -> &'static str {
    let own = "/usr/bin/python3";
    let has = |program| imports(program, "jsonschema, cryptography");
    if cfg!(target_os = "linux") && has(own) {
        own
    } else {
        "python3"
    }
}

fn imports(program: &str, modules: &str) -> bool {
    output(Command::new(program).args(["-c", &format!("import {modules}")])).is_some()
}

fn has_module(module: &str) -> bool {
    imports("/usr/bin/python3", module) || imports("python3", module)
}

fn is_on_path(program: &str) -> bool {
    let path = std::env::var_os("PATH").unwrap_or_default();
    on_path(program, &path).is_some()
}
