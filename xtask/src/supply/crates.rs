//! Which crates are in the page and in the command line, from cargo's own tree.

use super::capture;
use crate::fail::Result;
use crate::page::{CASE, CORE, Module};
use crate::setup::WASM_TARGET;
use crate::{process, repo};
use std::collections::BTreeMap;

/// The systems that the command line is for.
const SYSTEMS: &[&str] = &[
    "x86_64-unknown-linux-gnu",
    "x86_64-pc-windows-msvc",
    "aarch64-apple-darwin",
];

/// A package that is shipped.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Package {
    /// Its licence as it states it, in SPDX's words.
    pub licence: String,
    /// Who keeps it: the owner of its repository.
    pub keeper: String,
    /// The packages that ask for it; the project's own is not among them.
    pub by: Vec<String>,
    /// Whether the project itself asks for it.
    pub direct: bool,
}

/// Packages by name and version.
pub type Packages = BTreeMap<(String, String), Package>;

/// What is in either module of the page.
pub fn of_page() -> Result<Packages> {
    let mut packages = of_module(&CORE)?;
    for (id, package) in of_module(&CASE)? {
        merge(&mut packages, id, package);
    }
    Ok(packages)
}

fn of_module(module: &Module) -> Result<Packages> {
    tree(&[&["--target", WASM_TARGET][..], module.features].concat())
}

/// What is in the command line, on any of its systems.
pub fn of_command_line() -> Result<Packages> {
    let targets: Vec<&str> = SYSTEMS.iter().flat_map(|s| ["--target", s]).collect();
    tree(&targets)
}

fn tree(args: &[&str]) -> Result<Packages> {
    let mut command = process::cargo();
    command
        .current_dir(repo::root())
        .args(["tree", "--locked", "--package", "tabside"])
        // What only builds, macros among it, is not shipped.
        .args(["--edges", "normal,no-proc-macro", "--no-dedupe"])
        .args(["--prefix", "depth", "--format", "|{p}|{l}|{r}"])
        .args(args);
    let text = capture(
        &mut command,
        "Run `cargo fetch` with the network, and the same command again.",
    )?;
    Ok(read_tree(&text))
}

/// Lines `2|png v0.18.1|MIT|https://…`, the number telling how deep.
fn read_tree(text: &str) -> Packages {
    let mut packages = Packages::new();
    let mut path: Vec<String> = Vec::new();
    for line in text.lines() {
        let mut parts = line.split('|');
        let (Some(Ok(depth)), Some(package), Some(licence), Some(repository)) = (
            parts.next().map(str::parse::<usize>),
            parts.next(),
            parts.next(),
            parts.next(),
        ) else {
            continue;
        };
        let mut words = package.split_whitespace();
        let (Some(name), Some(version)) = (words.next(), words.next()) else {
            continue;
        };
        let own = words.next().is_some_and(|word| word.starts_with('('));
        path.truncate(depth);
        let parent = path.last().cloned();
        path.push(name.to_owned());
        let Some(parent) = parent else { continue };
        let direct = depth == 1;
        let found = Package {
            licence: spdx(licence),
            keeper: if own {
                "this project".to_owned()
            } else {
                keeper(repository)
            },
            by: if direct { Vec::new() } else { vec![parent] },
            direct,
        };
        let version = version.trim_start_matches('v').to_owned();
        merge(&mut packages, (name.to_owned(), version), found);
    }
    packages
}

/// The same package met again: another way that leads to it.
pub fn merge(packages: &mut Packages, id: (String, String), found: Package) {
    let package = packages.entry(id).or_insert_with(|| found.clone());
    package.direct |= found.direct;
    package.by.extend(found.by);
    package.by.sort();
    package.by.dedup();
}

/// `MIT/Apache-2.0` is how manifests once wrote it.
fn spdx(licence: &str) -> String {
    licence.replace('/', " OR ")
}

/// The owner in a repository's address.
pub fn keeper(repository: &str) -> String {
    repository
        .split_once("://")
        .and_then(|(_, rest)| rest.split('/').nth(1))
        .filter(|owner| !owner.is_empty())
        .unwrap_or("not told")
        .to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    const TREE: &str = "\
0|tabside v0.1.0 (/here)|MIT|
1|png v0.18.1|MIT/Apache-2.0|https://host.example/image-rs/png
2|crc32fast v1.5.5 (/here/xtask)|MIT|
1|tiff v0.11.3|MIT|
2|weezl v0.1.12|MIT|https://host.example/image-rs/weezl/tree/x
1|weezl v0.1.12|MIT|https://host.example/image-rs/weezl/tree/x
2|png v0.18.1|MIT|
";

    #[test]
    fn a_tree_tells_who_brings_what() {
        let packages = read_tree(TREE);
        assert_eq!(packages.len(), 4, "{packages:?}");
        let get = |name: &str, version: &str| &packages[&(name.to_owned(), version.to_owned())];
        let png = get("png", "0.18.1");
        assert_eq!(png.licence, "MIT OR Apache-2.0");
        assert_eq!(png.keeper, "image-rs");
        assert!(png.direct);
        assert_eq!(png.by, ["weezl"]);
        assert_eq!(get("crc32fast", "1.5.5").keeper, "this project");
        assert_eq!(get("crc32fast", "1.5.5").by, ["png"]);
        assert_eq!(get("tiff", "0.11.3").keeper, "not told");
        let weezl = get("weezl", "0.1.12");
        assert!(weezl.direct);
        assert_eq!(weezl.by, ["tiff"]);
    }
}
