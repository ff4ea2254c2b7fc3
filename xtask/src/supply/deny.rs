//! cargo-deny over the workspace: licences, versions twice, sources; and advisories where a copy of
//! their database lies on this machine.

use crate::fail::{AUTHOR, Result};
use crate::{process, repo, setup};
use std::path::Path;
use std::process::Command;

/// Where cargo-deny keeps databases of advisories, below cargo's own folder.
const DATABASES: &[&str] = &["advisory-dbs", "advisory-db"];

/// Runs it, and says what it looked at.
pub fn check() -> Result<String> {
    let program = setup::cargo_deny()?;
    let remedy = "Read the first error above. Licences, versions that may be there twice and \
                  sources are listed in xtask/deny.toml, each with its reason.";
    process::run(
        &mut command(&program, &["licenses", "bans", "sources"]),
        AUTHOR,
        remedy,
    )?;
    if !has_advisories() {
        println!(
            "Advisories were NOT checked: no copy of their database is on this machine, and none is \
             fetched. To have one: `cargo deny fetch db` with the network."
        );
        return Ok("advisories not checked: no database here".to_owned());
    }
    process::run(
        &mut command(&program, &["advisories"]),
        AUTHOR,
        "Read the first advisory above, and bring the crate it names to a version without it.",
    )?;
    Ok("advisories checked against the copy on this machine".to_owned())
}

fn command(program: &Path, what: &[&str]) -> Command {
    let mut command = Command::new(program);
    command
        .current_dir(repo::root())
        .args(["--workspace", "--all-features", "--locked"])
        .args([
            "--config",
            "xtask/deny.toml",
            "check",
            "--hide-inclusion-graph",
        ])
        // An exception that nothing needs any longer has to go.
        .args(["--deny", "unmatched-skip"]);
    if what.contains(&"advisories") {
        command.arg("--disable-fetch");
    }
    command.args(what);
    command
}

fn has_advisories() -> bool {
    process::cargo_home(&|name| std::env::var_os(name)).is_some_and(|home| database_below(&home))
}

/// A database is a folder with crates' folders in it, below one of the two names.
fn database_below(home: &Path) -> bool {
    DATABASES.iter().any(|name| {
        std::fs::read_dir(home.join(name)).is_ok_and(|entries| {
            entries
                .filter_map(std::result::Result::ok)
                .any(|entry| entry.path().join("crates").is_dir())
        })
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::TempDir;

    #[test]
    fn a_database_is_told_from_an_empty_folder() {
        let dir = TempDir::new("advisories");
        assert!(!database_below(dir.path()));
        dir.file("advisory-dbs/db.lock", "");
        assert!(!database_below(dir.path()));
        dir.file("advisory-dbs/some-1234/crates/a/X.md", "");
        assert!(database_below(dir.path()));
    }

    #[test]
    fn nothing_is_fetched() {
        let shown = process::shown(&command(Path::new("cargo-deny"), &["advisories"]));
        assert!(shown.contains("--disable-fetch"), "{shown}");
    }
}
