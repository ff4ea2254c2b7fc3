//! `cargo xtask reproduce`: the page built twice, from two clean checkouts in folders of different
//! names, with different folders of cargo, time zones and languages. Every file has to be the same.

use super::sha256;
use crate::fail::{AUTHOR, Failure, Result, YOU};
use crate::{process, repo, size};
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// Files by name, with their hashes.
type Hashes = BTreeMap<String, String>;

/// Where one of the builds takes place, and in which surroundings.
struct Place {
    folder: &'static str,
    target: &'static str,
    /// Cargo's folder; `None` for the user's own.
    cargo_home: Option<&'static str>,
    zone: &'static str,
    language: &'static str,
}

const PLACES: [Place; 2] = [
    Place {
        folder: "one",
        target: "target",
        cargo_home: None,
        zone: "UTC",
        language: "C",
    },
    Place {
        folder: "another, with a longer name",
        target: "built",
        cargo_home: Some("crates of its own"),
        zone: "Pacific/Chatham",
        language: "C.UTF-8",
    },
];

/// Builds twice and compares.
pub fn run() -> Result<()> {
    let base = std::env::temp_dir().join(format!("tabside-reproduce-{}", std::process::id()));
    fs::create_dir_all(&base).map_err(|e| Failure::file("create", &base, &e))?;
    let built = PLACES
        .iter()
        .map(|place| build(place, &base.join(place.folder)))
        .collect::<Result<Vec<Hashes>>>();
    let compared = built.and_then(|both| match both.as_slice() {
        [one, other] => compare(one, other),
        _ => Ok(String::new()),
    });
    if compared.is_err() {
        println!("Left for a look: {}", base.display());
    } else {
        // Temporary either way.
        let _ = fs::remove_dir_all(&base);
    }
    compared.map(|text| println!("\n{text}"))
}

fn build(place: &Place, folder: &Path) -> Result<Hashes> {
    process::run(
        Command::new("git")
            .args(["clone", "--quiet", "--no-hardlinks"])
            .arg(repo::root())
            .arg(folder),
        YOU,
        "See that git is installed, that this is a clone, and that the disk has 4 GB free.",
    )?;
    let dist = folder.join("the-page");
    let mut command = process::cargo();
    command
        .current_dir(folder)
        .args(["xtask", "dist", "--out"])
        .arg(&dist)
        .env("CARGO_TARGET_DIR", folder.join(place.target))
        .env("TZ", place.zone)
        .env("LC_ALL", place.language)
        // This program's own; the one that is built there asks for its own.
        .env_remove("CARGO_MANIFEST_DIR");
    if let Some(home) = place.cargo_home {
        let home = folder.join(home);
        fs::create_dir_all(&home).map_err(|e| Failure::file("create", &home, &e))?;
        copy_settings(&home)?;
        command.env("CARGO_HOME", &home);
    }
    process::run(
        &mut command,
        AUTHOR,
        "Read the first error above. What is not committed is not in the checkouts.",
    )?;
    hashes(&dist)
}

/// Where crates come from may be set up for the user.
fn copy_settings(home: &Path) -> Result<()> {
    let own = process::cargo_home(&|name| std::env::var_os(name)).unwrap_or_default();
    let from: PathBuf = own.join("config.toml");
    if from.is_file() {
        let to = home.join("config.toml");
        fs::copy(&from, &to).map_err(|e| Failure::file("write", &to, &e))?;
    }
    Ok(())
}

fn hashes(folder: &Path) -> Result<Hashes> {
    size::paths(folder)?
        .iter()
        .map(|path| {
            let bytes = fs::read(path).map_err(|e| Failure::file("read", path, &e))?;
            Ok((size::name_below(folder, path), sha256::hex(&bytes)))
        })
        .collect()
}

/// Every file with its hash; a failure names those that differ.
fn compare(one: &Hashes, other: &Hashes) -> Result<String> {
    let all: BTreeSet<&String> = one.keys().chain(other.keys()).collect();
    let different: Vec<&str> = all
        .iter()
        .filter(|name| one.get(**name) != other.get(**name))
        .map(|name| name.as_str())
        .collect();
    if one.is_empty() || !different.is_empty() {
        return Err(Failure::new(
            format!(
                "Two builds of one commit differ in {} of {} files: {}.",
                different.len(),
                all.len(),
                different.join(", ")
            ),
            AUTHOR,
            "Compare the two files: a path, a time or the order of a listing got into them.",
        ));
    }
    let lines: String = one
        .iter()
        .map(|(name, hash)| format!("{hash}  {name}\n"))
        .collect();
    Ok(format!(
        "{lines}\n{} files, all equal in both builds. SHA-256 of the lines above: {}",
        one.len(),
        sha256::hex(lines.as_bytes())
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::TempDir;

    #[test]
    fn equal_builds_are_listed_and_different_ones_named() {
        let dir = TempDir::new("reproduce");
        dir.file("one/a/x.js", "abc");
        dir.file("one/y.css", "1");
        let one = hashes(&dir.path().join("one")).unwrap();
        let text = compare(&one, &one).unwrap();
        assert!(
            text.contains("ba7816bf") && text.contains("  a/x.js\n"),
            "{text}"
        );
        assert!(text.contains("2 files, all equal"), "{text}");
        dir.file("two/a/x.js", "abd");
        dir.file("two/z.css", "1");
        let two = hashes(&dir.path().join("two")).unwrap();
        let text = compare(&one, &two).unwrap_err().to_string();
        assert!(
            text.contains("3 of 3 files: a/x.js, y.css, z.css"),
            "{text}"
        );
        assert!(compare(&Hashes::new(), &Hashes::new()).is_err());
    }
}
