//! The page's packages: pinned, from the registry alone, under a licence that is allowed, and
//! running nothing when they are installed.

use super::crates::{Package, Packages, keeper};
use super::json::Json;
use std::fs;
use std::path::Path;

/// Licences of what is shipped in the page.
const SHIPPED: &[&str] = &["0BSD", "BSD-3-Clause", "ISC", "MIT"];
/// Further licences of what only builds and tests it.
const TOOLS: &[&str] = &["Apache-2.0", "BSD-2-Clause", "MIT OR Apache-2.0", "MPL-2.0"];
/// Packages that may run a script when they are installed. None has to.
const MAY_RUN: &[&str] = &[];

/// What is wrong with the list of packages and its lock file, in words.
pub fn check(manifest: &Json, lock: &Json) -> Vec<String> {
    let mut wrong = Vec::new();
    for kind in ["dependencies", "devDependencies"] {
        let locked = lock
            .get("packages")
            .and_then(|p| p.get(""))
            .and_then(|root| root.get(kind));
        if manifest.get(kind) != locked {
            wrong.push(format!(
                "package.json and package-lock.json differ in `{kind}`"
            ));
        }
        for (name, version) in manifest.get(kind).map_or(&[][..], Json::entries) {
            if !version.text().is_some_and(exact) {
                wrong.push(format!("package.json names no exact version of {name}"));
            }
        }
    }
    for (name, entry) in installed(lock) {
        check_entry(name, entry, &mut wrong);
    }
    if installed(lock).next().is_none() {
        wrong.push("package-lock.json lists no packages".to_owned());
    }
    wrong
}

fn check_entry(name: &str, entry: &Json, wrong: &mut Vec<String>) {
    let text = |key| entry.get(key).and_then(Json::text);
    let flag = |key| entry.get(key).is_some_and(Json::is_true);
    if !text("integrity").is_some_and(|hash| hash.starts_with("sha512-")) {
        wrong.push(format!("{name} has no SHA-512 in package-lock.json"));
    }
    if !text("version").is_some_and(exact) {
        wrong.push(format!("{name} has no exact version"));
    }
    // Where the lock file names no place, it is the registry that npm is set up with.
    let from_registry = entry.get("resolved").is_none_or(|place| {
        place
            .text()
            .is_some_and(|p| p.starts_with("https://") && p.contains("/-/") && p.ends_with(".tgz"))
    });
    if flag("link") || !from_registry {
        wrong.push(format!("{name} does not come from a registry over https"));
    }
    let licence = text("license").unwrap_or("none stated");
    let only_builds = flag("dev") || flag("devOptional");
    if !(SHIPPED.contains(&licence) || only_builds && TOOLS.contains(&licence)) {
        let what = if only_builds { "a tool" } else { "shipped" };
        wrong.push(format!(
            "{name} ({what}): the licence `{licence}` is not allowed"
        ));
    }
    if flag("hasInstallScript") && !MAY_RUN.contains(&name) {
        wrong.push(format!("{name} runs a script when it is installed"));
    }
}

/// The packages of a lock file by their names.
fn installed(lock: &Json) -> impl Iterator<Item = (&str, &Json)> {
    lock.get("packages")
        .map_or(&[][..], Json::entries)
        .iter()
        .filter(|(path, _)| !path.is_empty())
        .map(|(path, entry)| (name_of(path), entry))
}

/// The last package in `node_modules/a/node_modules/@b/c`.
fn name_of(path: &str) -> &str {
    path.rsplit_once("node_modules/").map_or(path, |(_, n)| n)
}

/// `8.0.4` or `2.0.0-beta.2`, and nothing that leaves a choice.
fn exact(version: &str) -> bool {
    let (numbers, ending) = version
        .split_once('-')
        .map_or((version, None), |(n, e)| (n, Some(e)));
    let parts: Vec<&str> = numbers.split('.').collect();
    let number = |p: &&str| !p.is_empty() && p.bytes().all(|b| b.is_ascii_digit());
    parts.len() == 3
        && parts.iter().all(number)
        && ending.is_none_or(|e| {
            !e.is_empty()
                && e.bytes()
                    .all(|b| b.is_ascii_alphanumeric() || b == b'.' || b == b'-')
        })
}

/// What the page ships, or may: everything that is no tool.
pub fn shipped(lock: &Json, modules: &Path) -> Packages {
    let mut packages = Packages::new();
    for (name, entry) in installed(lock) {
        let text = |key| entry.get(key).and_then(Json::text).unwrap_or_default();
        if entry.get("dev").is_some_and(Json::is_true) {
            continue;
        }
        let package = Package {
            licence: text("license").to_owned(),
            keeper: keeper_of(modules, name),
            by: asked_by(lock, name),
            direct: lock
                .get("packages")
                .and_then(|p| p.get("")?.get("dependencies")?.get(name))
                .is_some(),
        };
        packages.insert((name.to_owned(), text("version").to_owned()), package);
    }
    packages
}

fn asked_by(lock: &Json, wanted: &str) -> Vec<String> {
    let mut by: Vec<String> = installed(lock)
        .filter(|(_, entry)| !entry.get("dev").is_some_and(Json::is_true))
        .filter(|(_, entry)| {
            ["dependencies", "peerDependencies"]
                .iter()
                .any(|kind| entry.get(kind).is_some_and(|d| d.get(wanted).is_some()))
        })
        .map(|(name, _)| name.to_owned())
        .collect();
    by.sort();
    by
}

fn keeper_of(modules: &Path, name: &str) -> String {
    let manifest = fs::read_to_string(modules.join(name).join("package.json"))
        .ok()
        .and_then(|text| Json::read(&text));
    let repository = manifest.as_ref().and_then(|m| m.get("repository"));
    let address = repository
        .and_then(|r| r.get("url").unwrap_or(r).text())
        .unwrap_or_default();
    match keeper(address) {
        // `owner/name` is how npm shortens an address.
        told if told == "not told" && !address.contains(':') && address.contains('/') => {
            address.split('/').next().unwrap_or_default().to_owned()
        }
        told => told,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::TempDir;

    const MANIFEST: &str =
        r#"{"dependencies": {"a": "1.2.3"}, "devDependencies": {"t": "2.0.0-beta.2"}}"#;

    fn lock(a: &str) -> String {
        format!(
            r#"{{"packages": {{
              "": {{"dependencies": {{"a": "1.2.3"}}, "devDependencies": {{"t": "2.0.0-beta.2"}}}},
              "node_modules/a": {{{a}}},
              "node_modules/a/node_modules/@s/b": {{"version": "0.1.0", "license": "ISC", "integrity": "sha512-x"}},
              "node_modules/t": {{"version": "2.0.0-beta.2", "license": "MPL-2.0", "integrity": "sha512-y", "dev": true}}
            }}}}"#
        )
    }

    const GOOD: &str = r#""version": "1.2.3", "license": "MIT", "integrity": "sha512-z", "dependencies": {"@s/b": "^0.1.0"}"#;

    fn wrong(manifest: &str, lock: &str) -> String {
        check(&Json::read(manifest).unwrap(), &Json::read(lock).unwrap()).join("; ")
    }

    #[test]
    fn each_rule_is_told_when_it_is_broken() {
        assert_eq!(wrong(MANIFEST, &lock(GOOD)), "");
        for (from, to, expected) in [
            ("sha512-z", "sha1-z", "a has no SHA-512"),
            ("MIT", "MPL-2.0", "a (shipped): the licence `MPL-2.0`"),
            ("MIT", "Apache-2.0", "a (shipped)"),
            ("\"license\": \"MIT\", ", "", "`none stated`"),
            ("\"1.2.3\"", "\"^1.2.3\"", "a has no exact version"),
            (
                "\"license\"",
                "\"hasInstallScript\": true, \"license\"",
                "runs a script",
            ),
            ("\"license\"", "\"link\": true, \"license\"", "registry"),
            (
                "\"license\"",
                "\"resolved\": \"git+ssh://x/-/a.tgz\", \"license\"",
                "registry",
            ),
            (
                "\"license\"",
                "\"resolved\": \"http://x/a/-/a.tgz\", \"license\"",
                "registry",
            ),
            (
                "\"license\"",
                "\"resolved\": \"file:../a\", \"license\"",
                "registry",
            ),
        ] {
            let text = wrong(MANIFEST, &lock(&GOOD.replace(from, to)));
            assert!(text.contains(expected), "{to}: {text}");
        }
        let good = GOOD.replace(
            "\"license\"",
            "\"resolved\": \"https://x/a/-/a-1.2.3.tgz\", \"license\"",
        );
        assert_eq!(wrong(MANIFEST, &lock(&good)), "");
    }

    #[test]
    fn a_range_or_another_list_is_told() {
        let range = MANIFEST.replace("1.2.3", "^1.2.3");
        let text = wrong(&range, &lock(GOOD));
        assert!(
            text.contains("differ") && text.contains("exact version of a"),
            "{text}"
        );
        assert!(wrong(MANIFEST, "{}").contains("lists no packages"));
        for bad in [
            "1.2",
            "*",
            "1.2.x",
            "1.2.3-",
            "~1.2.3",
            "latest",
            "",
            "1.2.3 || 2.0.0",
        ] {
            assert!(!exact(bad), "{bad}");
        }
    }

    #[test]
    fn what_is_shipped_is_what_is_no_tool() {
        let dir = TempDir::new("npm");
        dir.file(
            "a/package.json",
            r#"{"repository": {"url": "git+https://h/owner/a.git"}}"#,
        );
        dir.file("@s/b/package.json", r#"{"repository": "short/b"}"#);
        let packages = shipped(&Json::read(&lock(GOOD)).unwrap(), dir.path());
        let told: Vec<_> = packages
            .iter()
            .map(|((name, _), p)| (name.as_str(), p.keeper.as_str(), p.direct, p.by.join(",")))
            .collect();
        assert_eq!(
            told,
            [
                ("@s/b", "short", false, "a".to_owned()),
                ("a", "owner", true, String::new())
            ]
        );
    }
}
