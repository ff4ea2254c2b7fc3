//! Which module of the core may know which.
//!
//! ```text
//! bytes ─ photo ─ scene ─ light ─ reading ─ stain ─ case
//!             └────────── colour ──────────┘
//! ```
//!
//! An import points to the left in this flow, to `colour`, or to `error`. `engine` stands over
//! all of them, and `web` over `engine`. Code that is compiled only for tests is free.

use super::Finding;
use super::source::{Kind, Token};
use std::path::Path;

/// The flow, left to right.
const FLOW: &[&str] = &["photo", "scene", "light", "reading", "stain", "case"];
/// What every module may import.
const COMMON: &[&str] = &["colour", "error"];
/// What nothing in the flow may import.
const ABOVE: &[&str] = &["engine", "web"];
/// The root's own names: re-exports from `error`.
const ROOT_NAMES: &[&str] = &["Error", "Result"];

/// Whether a module may import another.
fn allowed(from: &str, to: &str) -> bool {
    let place = |name: &str| FLOW.iter().position(|m| *m == name);
    if from == to || COMMON.contains(&to) {
        return true;
    }
    match from {
        "web" => true,
        "engine" => to != "web",
        _ => match (place(from), place(to)) {
            (Some(from), Some(to)) => to < from,
            _ => false,
        },
    }
}

/// The path of the module that a file below `src/` holds: `photo/types.rs` → photo, types.
/// `None` for the root and for programs, which may import anything.
fn module_path(below_src: &Path) -> Option<Vec<String>> {
    let mut parts: Vec<String> = below_src
        .with_extension("")
        .iter()
        .map(|part| part.to_string_lossy().into_owned())
        .collect();
    if parts.last().is_some_and(|last| last == "mod") {
        parts.pop();
    }
    match parts.first().map(String::as_str) {
        None | Some("bin" | "lib" | "main") => None,
        _ => Some(parts),
    }
}

/// Every import in a file that points the wrong way.
pub fn check(below_src: &Path, tokens: &[Token]) -> Vec<Finding> {
    let Some(file_module) = module_path(below_src) else {
        return Vec::new();
    };
    let from = file_module.first().cloned().unwrap_or_default();
    if !FLOW.iter().chain(COMMON).chain(ABOVE).any(|m| *m == from) {
        return vec![Finding::new(
            1,
            format!(
                "the module `{from}` has no place in the flow of modules; put the code into the \
                 module that it belongs to, or give it a place in xtask/src/tidy/imports.rs"
            ),
        )];
    }
    targets(&file_module, tokens)
        .into_iter()
        .filter_map(|(to, line)| {
            let known = FLOW.iter().chain(COMMON).chain(ABOVE).any(|m| *m == to);
            if ROOT_NAMES.contains(&to.as_str()) || (known && allowed(&from, &to)) {
                return None;
            }
            Some(Finding::new(
                line,
                if known {
                    format!(
                        "`{from}` imports `{to}`, against the flow of modules; move what both \
                         need to the left, or hand the value in from `engine`"
                    )
                } else {
                    format!(
                        "`{to}` is imported from the root; import it from the module it lives in"
                    )
                },
            ))
        })
        .collect()
}

/// The names just below the root that a file's paths go through, each with its line.
fn targets(file_module: &[String], tokens: &[Token]) -> Vec<(String, usize)> {
    let mut found = Vec::new();
    // One entry per open brace: whether it is an inline module's.
    let mut braces: Vec<bool> = Vec::new();
    for (i, token) in tokens.iter().enumerate() {
        match &token.kind {
            Kind::Sign('{') => {
                let named = i.checked_sub(2).and_then(|at| tokens.get(at));
                braces.push(named.is_some_and(|t| t.is_name("mod")));
            }
            Kind::Sign('}') => {
                braces.pop();
            }
            Kind::Name(name) if !token.test && starts_path(tokens, i) => {
                let inline = braces.iter().filter(|is_module| **is_module).count();
                let depth = file_module.len() + inline;
                let after = match name.as_str() {
                    "crate" => Some(i + 1),
                    "super" => after_supers(tokens, i, depth),
                    _ => None,
                };
                if let Some(after) = after {
                    first_names(tokens, after, &mut found);
                }
            }
            _ => {}
        }
    }
    found
}

/// Whether the name at `i` begins a path rather than going on with one.
fn starts_path(tokens: &[Token], i: usize) -> bool {
    i.checked_sub(1)
        .and_then(|before| tokens.get(before))
        .is_none_or(|t| t.kind != Kind::PathSep)
}

/// The position after `super::super` when that reaches the root, `depth` levels up.
fn after_supers(tokens: &[Token], at: usize, depth: usize) -> Option<usize> {
    let mut end = at + 1;
    let mut ups = 1;
    while tokens.get(end).is_some_and(|t| t.kind == Kind::PathSep)
        && tokens.get(end + 1).is_some_and(|t| t.is_name("super"))
    {
        end += 2;
        ups += 1;
    }
    (ups == depth).then_some(end)
}

/// The first names behind the `::` at `at`: one, or one for each entry of a `{…}` list.
fn first_names(tokens: &[Token], at: usize, found: &mut Vec<(String, usize)>) {
    if tokens.get(at).is_none_or(|t| t.kind != Kind::PathSep) {
        return;
    }
    let Some(first) = tokens.get(at + 1) else {
        return;
    };
    match &first.kind {
        Kind::Name(name) => found.push((name.clone(), first.line)),
        Kind::Sign('*') => found.push(("*".to_owned(), first.line)),
        Kind::Sign('{') => {
            let mut depth = 0;
            let mut expects_name = false;
            for token in tokens.iter().skip(at + 1) {
                match &token.kind {
                    Kind::Sign('{') => depth += 1,
                    Kind::Sign('}') => depth -= 1,
                    Kind::Name(name) if depth == 1 && expects_name => {
                        found.push((name.clone(), token.line));
                    }
                    _ => {}
                }
                if depth == 0 {
                    return;
                }
                expects_name = depth == 1 && matches!(token.kind, Kind::Sign('{' | ','));
            }
        }
        _ => {}
    }
}

#[cfg(test)]
mod tests {
    use super::super::source::tokens;
    use super::*;

    fn findings(file: &str, text: &str) -> Vec<Finding> {
        check(Path::new(file), &tokens(text))
    }

    #[test]
    fn the_flow_goes_one_way() {
        for (from, to) in [
            ("case", "photo"),
            ("reading", "light"),
            ("photo", "colour"),
            ("error", "colour"),
            ("colour", "error"),
            ("engine", "case"),
            ("web", "engine"),
            ("stain", "stain"),
        ] {
            assert!(allowed(from, to), "{from} → {to}");
        }
        for (from, to) in [
            ("photo", "scene"),
            ("light", "reading"),
            ("colour", "photo"),
            ("error", "engine"),
            ("case", "engine"),
            ("engine", "web"),
            ("stain", "case"),
        ] {
            assert!(!allowed(from, to), "{from} → {to}");
        }
    }

    #[test]
    fn imports_to_the_left_pass() {
        let text = "use crate::colour::{Lab, lab::x}; use crate::{photo::{Photo, reading}, error};
                    use crate::Result; use super::sibling; fn f() { crate::scene::g() }
                    mod inner { use super::super::sibling; }";
        assert_eq!(findings("light/fit.rs", text), []);
    }

    #[test]
    fn every_spelling_of_an_import_to_the_right_is_found() {
        for text in [
            "use crate::stain::X;",
            "use crate::{colour::Lab, stain::X};",
            "use crate::{colour::{Lab, lab}, stain};",
            "fn f() -> crate::stain::X {}",
            "use super::super::stain::X;",
            "use super::super::{stain::X, colour};",
            "mod inner { use super::super::super::stain::X; }",
            "pub(crate) use crate::stain::X;",
            "use ::std::x; use crate :: stain;",
        ] {
            let found = findings("light/fit.rs", text);
            assert_eq!(found.len(), 1, "{text}: {found:?}");
            assert!(
                found[0].what.contains("`light` imports `stain`"),
                "{found:?}"
            );
        }
        assert_eq!(findings("light/mod.rs", "use super::stain::X;").len(), 1);
        assert_eq!(findings("light.rs", "\nuse super::stain::X;")[0].line, 2);
    }

    #[test]
    fn names_that_only_look_alike_pass() {
        let text = "use super::stain::X; // within light
                    struct stain; fn f(x: other::crate_::stain) { stain::y(\"crate::stain\") }
                    #[cfg(test)] mod tests { use crate::stain::X; }";
        assert_eq!(findings("light/deep/fit.rs", text), []);
    }

    #[test]
    fn what_cannot_be_judged_is_refused() {
        assert_eq!(findings("light/fit.rs", "use crate::*;").len(), 1);
        assert_eq!(findings("light/fit.rs", "use crate::helper;").len(), 1);
        assert!(findings("util.rs", "")[0].what.contains("no place"));
    }

    #[test]
    fn the_root_and_the_programs_are_free() {
        let text = "use crate::stain::X; pub use case::Y;";
        assert_eq!(findings("lib.rs", text), []);
        assert_eq!(findings("bin/tabside.rs", text), []);
    }
}
