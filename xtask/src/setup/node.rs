//! Node.js, npm, and the page's packages.

use crate::fail::{ADMIN, Failure, Result, YOU};
use crate::process::{npm, output, run};
use crate::setup::version::Version;
use crate::{repo, stamp};
use std::fs;
use std::process::Command;

/// What the page's build tools ask for: ^20.19 || >= 22.12.
const OLDEST: Version = Version(20, 19, 0);
const OLDEST_22: Version = Version(22, 12, 0);

/// Checks Node.js and npm, and gives Node's version.
pub fn check() -> Result<Version> {
    let printed = output(Command::new("node").arg("--version")).unwrap_or_default();
    let node = new_enough(&printed)?;
    if output(npm().arg("--version")).is_none() {
        return Err(Failure::new(
            format!("Node.js {node} is here, but npm does not start."),
            ADMIN,
            "Install npm (Debian: `apt-get install npm`; elsewhere it comes with Node.js).",
        ));
    }
    Ok(node)
}

fn new_enough(printed: &str) -> Result<Version> {
    let how = "Install the current long-term version of Node.js (https://nodejs.org), with npm; \
               then run the same command again.";
    match Version::find(printed) {
        Some(v) if v >= OLDEST_22 || (v >= OLDEST && v.0 == OLDEST.0) => Ok(v),
        Some(v) => Err(Failure::new(
            format!(
                "Node.js {v} does not do: the page's build needs {OLDEST} or a newer 20, or {OLDEST_22} and up."
            ),
            ADMIN,
            how,
        )),
        None => Err(Failure::new("Node.js (`node`) does not start.", ADMIN, how)),
    }
}

/// Installs the page's packages when the lock file differs from the one they came from.
pub fn ensure_packages() -> Result<()> {
    let www = repo::www();
    let path = www.join("package-lock.json");
    let lock = fs::read(&path).map_err(|e| Failure::file("read", &path, &e))?;
    let modules = www.join("node_modules");
    // Inside the folder, so that whatever replaces the folder also takes the stamp away.
    let stamp_path = modules.join(".tabside-stamp");
    let text = stamp::hash_hex(&lock);
    if stamp::matches(&stamp_path, &text) {
        return Ok(());
    }
    stamp::clear(&stamp_path);
    println!("Installing the page's packages …");
    run(
        npm()
            .args(["ci", "--no-audit", "--no-fund"])
            .current_dir(&www),
        YOU,
        "Connect to the network and run the same command again. When package.json was edited, \
         run `npm install` in www/ first, which brings package-lock.json in line.",
    )?;
    fs::create_dir_all(&modules).map_err(|e| Failure::file("create", &modules, &e))?;
    stamp::write(&stamp_path, &text)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn versions_that_the_build_tools_refuse_are_refused_here() {
        for good in ["v20.19.0", "v20.20.2", "v22.12.0", "v24.1.0"] {
            assert!(new_enough(good).is_ok(), "{good}");
        }
        for bad in ["v18.20.0", "v20.18.9", "v21.7.3", "v22.11.0"] {
            let text = new_enough(bad).unwrap_err().to_string();
            assert!(
                text.contains(&bad[1..]) && text.contains("nodejs.org"),
                "{text}"
            );
        }
        assert!(
            new_enough("")
                .unwrap_err()
                .to_string()
                .contains("does not start")
        );
    }
}
