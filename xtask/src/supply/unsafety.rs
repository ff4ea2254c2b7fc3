//! That no crate of the workspace may hold `unsafe` code.

use crate::fail::{Failure, Result};
use std::fs;
use std::path::Path;

/// The crates of the workspace that do not take on the workspace's rule, in words; and how many
/// there are.
pub fn check(root: &Path) -> Result<(Vec<String>, usize)> {
    let read = |path: &Path| fs::read_to_string(path).map_err(|e| Failure::file("read", path, &e));
    let text = read(&root.join("Cargo.toml"))?;
    let mut wrong = Vec::new();
    if line_in(&text, "workspace.lints.rust", "unsafe_code") != Some("\"forbid\"") {
        wrong.push("Cargo.toml does not forbid unsafe code in [workspace.lints.rust]".to_owned());
    }
    let members = members(&text);
    if members.is_empty() {
        wrong.push("Cargo.toml lists no members of the workspace".to_owned());
    }
    for member in &members {
        let manifest = read(&root.join(member).join("Cargo.toml"))?;
        if line_in(&manifest, "lints", "workspace") != Some("true") {
            wrong.push(format!(
                "{member}/Cargo.toml does not take on the workspace's rules ([lints] workspace = true)"
            ));
        }
    }
    Ok((wrong, members.len()))
}

fn members(text: &str) -> Vec<String> {
    line_in(text, "workspace", "members")
        .unwrap_or_default()
        .split('"')
        .skip(1)
        .step_by(2)
        .map(str::to_owned)
        .collect()
}

/// The value of `key = value` in a section, as it stands.
fn line_in<'a>(text: &'a str, section: &str, key: &str) -> Option<&'a str> {
    let opening = format!("[{section}]");
    text.lines()
        .skip_while(|line| line.trim() != opening)
        .skip(1)
        .take_while(|line| !line.starts_with('['))
        .find_map(|line| {
            let (name, value) = line.split_once('=')?;
            (name.trim() == key).then(|| value.trim())
        })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::TempDir;

    const ROOT: &str = "[workspace]\nmembers = [\".\", \"b\"]\n\n[workspace.lints.rust]\nunsafe_code = \"forbid\"\n\n[lints]\nworkspace = true\n";

    #[test]
    fn a_crate_that_stays_outside_of_the_rule_is_named() {
        let dir = TempDir::new("unsafety");
        dir.file("Cargo.toml", ROOT);
        dir.file(
            "b/Cargo.toml",
            "[package]\nname = \"b\"\n[lints]\nworkspace = true\n",
        );
        assert_eq!(check(dir.path()).unwrap(), (Vec::new(), 2));
        dir.file("b/Cargo.toml", "[package]\nname = \"b\"\n");
        let (wrong, _) = check(dir.path()).unwrap();
        assert!(wrong.len() == 1 && wrong[0].starts_with("b/"), "{wrong:?}");
        dir.file("Cargo.toml", ROOT.replace("forbid", "deny"));
        assert_eq!(check(dir.path()).unwrap().0.len(), 2);
    }
}
