//! `cargo xtask dist`: the page as a folder that any static host can serve, from any path.

use crate::fail::{AUTHOR, Failure, Result, YOU};
use crate::{page, repo, setup, size};
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// Names what a folder was filled with, so that the next time just that is removed.
const LIST: &str = "FILES.txt";

/// Sets up, builds, and fills the folder.
pub fn run(out: Option<PathBuf>) -> Result<()> {
    let out = out.unwrap_or_else(|| repo::root().join("dist"));
    check_replaceable(&out)?;
    let tools = setup::for_page()?;
    page::build(&tools)?;
    let built = repo::built_page();
    check_relative(&built)?;
    let core = size::check_core(&built)?;
    fill(&built, &out)?;
    println!("\n{}", size::table(&size::files(&out)?));
    println!("{core}");
    println!(
        "Ready to be served by any static host, from any path: {}",
        out.display()
    );
    Ok(())
}

/// A folder is filled when it is new, empty, or was filled by this command before.
fn check_replaceable(out: &Path) -> Result<()> {
    let occupied = fs::read_dir(out).is_ok_and(|mut entries| entries.next().is_some());
    if out.is_file() || (occupied && !out.join(LIST).is_file()) {
        return Err(Failure::new(
            format!(
                "{} holds something that this command did not put there.",
                out.display()
            ),
            YOU,
            "Choose a new or an empty folder with `--out DIR`.",
        ));
    }
    Ok(())
}

fn fill(built: &Path, out: &Path) -> Result<()> {
    check_replaceable(out)?;
    let names: BTreeSet<String> = size::paths(built)?
        .iter()
        .map(|path| size::name_below(built, path))
        .collect();
    for old in listed(out).difference(&names) {
        // Removed by hand already is just as well.
        let _ = fs::remove_file(out.join(old));
    }
    for name in &names {
        let (from, to) = (built.join(name), out.join(name));
        if let Some(dir) = to.parent() {
            fs::create_dir_all(dir).map_err(|e| Failure::file("create", dir, &e))?;
        }
        fs::copy(&from, &to).map_err(|e| Failure::file("write", &to, &e))?;
    }
    let list: String = names.iter().map(|name| format!("{name}\n")).collect();
    let path = out.join(LIST);
    fs::write(&path, list).map_err(|e| Failure::file("write", &path, &e))
}

/// What an earlier run put there: plain names below the folder only, whatever the list says.
fn listed(out: &Path) -> BTreeSet<String> {
    fs::read_to_string(out.join(LIST))
        .unwrap_or_default()
        .lines()
        .filter(|line| {
            let path = Path::new(line);
            !line.is_empty()
                && path
                    .components()
                    .all(|part| matches!(part, std::path::Component::Normal(_)))
        })
        .map(str::to_owned)
        .collect()
}

/// An address that starts with a slash would leave the sub-path that the page is served from.
fn check_relative(built: &Path) -> Result<()> {
    for path in size::paths(built)? {
        let name = size::name_below(built, &path);
        if !matches!(
            path.extension().and_then(|e| e.to_str()),
            Some("html" | "css" | "webmanifest")
        ) {
            continue;
        }
        let text = fs::read_to_string(&path).map_err(|e| Failure::file("read", &path, &e))?;
        if let Some(address) = absolute_address(&text) {
            return Err(Failure::new(
                format!("The built {name} names `{address}`, which works only at a host's root."),
                AUTHOR,
                "Make the address relative (`./…`), and keep `base: './'` in the page's Vite settings.",
            ));
        }
    }
    Ok(())
}

/// The first address in markup, style or manifest that starts with a single slash.
fn absolute_address(text: &str) -> Option<&str> {
    const BEFORE: &[&str] = &[
        "src=\"",
        "href=\"",
        "src='",
        "href='",
        "url(\"",
        "url('",
        "url(",
        "\"src\":\"",
        "\"src\": \"",
        "\"start_url\":\"",
        "\"start_url\": \"",
        "\"scope\":\"",
        "\"scope\": \"",
    ];
    BEFORE.iter().find_map(|before| {
        text.match_indices(before).find_map(|(at, _)| {
            let address = text.get(at + before.len()..)?;
            let end = address
                .find(['"', '\'', ')', ' ', '>'])
                .unwrap_or(address.len());
            let address = address.get(..end)?;
            address.starts_with('/').then_some(address)
        })
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::TempDir;

    #[test]
    fn addresses_that_leave_a_sub_path_are_found() {
        for bad in [
            r#"<script src="/assets/a.js">"#,
            "<link rel=icon href='/i.svg'>",
            "body{background:url(/a.png)}",
            r#"{"start_url": "/"}"#,
        ] {
            assert!(absolute_address(bad).is_some(), "{bad}");
        }
        for good in [
            r#"<script src="./assets/a.js">"#,
            r#"<a href="https://example.org/">"#,
            "body{background:url(data:image/png;base64,AA)}",
            r#"{"start_url": "./"}"#,
        ] {
            assert_eq!(absolute_address(good), None, "{good}");
        }
    }

    #[test]
    fn a_page_with_an_absolute_address_is_refused() {
        let dir = TempDir::new("relative");
        dir.file("index.html", r#"<script src="./a.js">"#);
        assert!(check_relative(dir.path()).is_ok());
        dir.file("sub/style.css", "a{background:url(/b.png)}");
        let text = check_relative(dir.path()).unwrap_err().to_string();
        assert!(
            text.contains("sub/style.css") && text.contains("/b.png"),
            "{text}"
        );
    }

    #[test]
    fn filling_again_removes_only_what_was_put_there() {
        let dir = TempDir::new("dist");
        let (built, out) = (dir.path().join("built"), dir.path().join("out"));
        dir.file("built/index.html", "1");
        dir.file("built/assets/old.js", "1");
        fill(&built, &out).unwrap();
        fs::remove_file(built.join("assets/old.js")).unwrap();
        dir.file("built/assets/new.js", "2");
        dir.file("out/CNAME", "put there by hand");
        fill(&built, &out).unwrap();
        assert!(!out.join("assets/old.js").exists());
        assert!(out.join("assets/new.js").exists());
        assert!(out.join("CNAME").exists());
    }

    #[test]
    fn a_folder_of_somebody_else_is_left_alone() {
        let dir = TempDir::new("dist-other");
        dir.file("built/index.html", "1");
        let precious = dir.file("out/thesis.txt", "precious");
        let text = fill(&dir.path().join("built"), &dir.path().join("out"))
            .unwrap_err()
            .to_string();
        assert!(text.contains("--out"), "{text}");
        assert_eq!(fs::read_to_string(precious).unwrap(), "precious");
    }

    #[test]
    fn a_list_cannot_reach_outside() {
        let dir = TempDir::new("dist-list");
        dir.file("built/index.html", "1");
        let outside = dir.file("outside.txt", "stays");
        dir.file(
            "out/FILES.txt",
            format!("../outside.txt\n{}\n", outside.display()),
        );
        fill(&dir.path().join("built"), &dir.path().join("out")).unwrap();
        assert!(outside.exists());
    }
}
