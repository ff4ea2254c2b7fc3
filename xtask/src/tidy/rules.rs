//! Rules for single files: browser names, privacy, no panics, opening comments,
//! length.

use super::Finding;
use super::source::{Kind, Token, attribute, group_end};

/// Crates that mean a browser.
const BROWSER_CRATES: &[&str] = &[
    "wasm_bindgen",
    "web_sys",
    "js_sys",
    "serde_wasm_bindgen",
    "tsify",
    "console_error_panic_hook",
];

/// Parts of names of metadata that is never read.
const PRIVATE_FACTS: &[&str] = &[
    "gps",
    "serialnumber",
    "ownername",
    "uniqueid",
    "geolocation",
];

/// Lines above which a file needs splitting, and above which it should be thought about.
pub const RUST_LINES: (usize, usize) = (600, 300);
/// The same for the page's TypeScript.
pub const TYPESCRIPT_LINES: (usize, usize) = (600, 120);

/// Only `web` names the browser; elsewhere types may be described to TypeScript.
pub fn browser_names(tokens: &[Token]) -> Vec<Finding> {
    let mut findings = Vec::new();
    let mut at = 0;
    while let Some(token) = tokens.get(at) {
        if let Some(inside) = attribute(tokens, at)
            && describes_a_type(tokens.get(inside.clone()).unwrap_or_default())
        {
            at = inside.end;
            continue;
        }
        if let Some(name) = token.name().filter(|name| BROWSER_CRATES.contains(name)) {
            findings.push(Finding::new(
                token.line,
                format!("`{name}` is named outside `src/web`; the core knows no browser"),
            ));
        }
        at += 1;
    }
    findings
}

/// `cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))`, or `tsify(…)` in place of the
/// derive.
fn describes_a_type(words: &[Token]) -> bool {
    let only_for_wasm = matches!(
        words,
        [name, open, arch, equals, Token { kind: Kind::Text(target), .. }, comma, ..]
            if name.is_name("cfg_attr") && open.is_sign('(') && arch.is_name("target_arch")
                && equals.is_sign('=') && target == "wasm32" && comma.is_sign(',')
    );
    let rest = words.get(6..).unwrap_or_default();
    let derive = matches!(
        rest,
        [derive, open, tsify, sep, ty, close, end]
            if derive.is_name("derive") && open.is_sign('(') && tsify.is_name("tsify")
                && sep.kind == Kind::PathSep && ty.is_name("Tsify") && close.is_sign(')')
                && end.is_sign(')')
    );
    let options = matches!(rest, [tsify, open, ..] if tsify.is_name("tsify") && open.is_sign('('))
        && group_end(rest, 1) + 1 == rest.len();
    only_for_wasm && (derive || options)
}

/// Library code gives errors and does not end the program.
pub fn panics(tokens: &[Token]) -> Vec<Finding> {
    const METHODS: &[&str] = &["unwrap", "expect", "unwrap_err", "expect_err"];
    const MACROS: &[&str] = &["panic", "todo", "unimplemented", "unreachable"];
    tokens
        .windows(3)
        .filter_map(|three| {
            let [before, token, after] = three else {
                return None;
            };
            let name = token.name().filter(|_| !token.test)?;
            let method = METHODS.contains(&name) && before.is_sign('.') && after.is_sign('(');
            let macro_call = MACROS.contains(&name) && after.is_sign('!');
            (method || macro_call).then(|| {
                Finding::new(
                    token.line,
                    format!("`{name}` can end the program; give an error instead"),
                )
            })
        })
        .collect()
}

/// Position, serial numbers and names of people are never read.
pub fn private_facts(tokens: &[Token]) -> Vec<Finding> {
    tokens
        .iter()
        .filter(|token| !token.test)
        .filter_map(|token| {
            let name = token.name()?;
            let plain = name.replace('_', "").to_ascii_lowercase();
            PRIVATE_FACTS
                .iter()
                .any(|fact| plain.contains(fact))
                .then(|| {
                    Finding::new(
                        token.line,
                        format!("`{name}`: position, serial numbers and owners are never read"),
                    )
                })
        })
        .collect()
}

/// Every module says first what it is.
pub fn opening_comment(text: &str) -> Option<Finding> {
    let says = text.lines().next().is_some_and(|line| {
        line.strip_prefix("//!")
            .is_some_and(|rest| !rest.trim().is_empty())
    });
    (!says).then(|| {
        Finding::new(
            1,
            "does not open with `//!`: say what the module computes, its units, range and source",
        )
    })
}

/// How a file's length is judged.
#[derive(Debug, PartialEq, Eq)]
pub enum Length {
    /// Nothing to say.
    Fine,
    /// Worth a thought.
    Long(Finding),
    /// Has to be split.
    TooLong(Finding),
}

/// Judges a file's length against its hard and its soft limit.
pub fn length(text: &str, (hard, soft): (usize, usize)) -> Length {
    let lines = text.lines().count();
    if lines > hard {
        Length::TooLong(Finding::new(
            lines,
            format!("{lines} lines; split it by meaning (limit {hard})"),
        ))
    } else if lines > soft {
        Length::Long(Finding::new(
            lines,
            format!("{lines} lines; most stay below {soft}"),
        ))
    } else {
        Length::Fine
    }
}

/// The page's generated bindings are imported in `worker/` only; types may be imported anywhere.
pub fn generated_bindings(text: &str) -> Vec<Finding> {
    let lines: Vec<&str> = text.lines().map(str::trim_start).collect();
    let names_bindings = |line: &str| {
        !line.starts_with("//")
            && !line.starts_with('*')
            && ["/pkg/", "/pkg\"", "/pkg'"]
                .iter()
                .any(|name| line.contains(name))
    };
    let is_statement = |line: &&&str| line.starts_with("import") || line.starts_with("export");
    lines
        .iter()
        .enumerate()
        .filter(|(i, line)| {
            // A statement may have begun some lines above.
            let statement = lines.iter().take(i + 1).rev().find(is_statement);
            let types_only = statement
                .is_some_and(|s| s.starts_with("import type") || s.starts_with("export type"));
            names_bindings(line) && (!types_only || line.contains("import("))
        })
        .map(|(i, _)| {
            Finding::new(
                i + 1,
                "the generated bindings are named outside `worker/`; call the typed engine client",
            )
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::super::source::tokens;
    use super::*;

    #[test]
    fn the_browser_is_found_outside_web_by_any_name() {
        for text in [
            "use wasm_bindgen::prelude::*;",
            "fn f(x: js_sys::Uint8Array) {}",
            "#[wasm_bindgen::prelude::wasm_bindgen] fn f() {}",
            "#[derive(tsify::Tsify)] struct X;",
            "#[cfg_attr(target_arch = \"wasm32\", derive(wasm_bindgen::X))] struct X;",
            "#[cfg_attr(target_arch = \"wasm32\", derive(tsify::Tsify, js_sys::Y))] struct X;",
            "#[cfg_attr(feature = \"x\", derive(tsify::Tsify))] struct X;",
            "#[cfg_attr(target_arch = \"wasm32\", tsify(x), wasm_bindgen::y)] struct X;",
        ] {
            assert!(!browser_names(&tokens(text)).is_empty(), "{text}");
        }
    }

    #[test]
    fn types_may_be_described() {
        for text in [
            "#[cfg_attr(target_arch = \"wasm32\", derive(tsify::Tsify))] pub struct X;",
            "struct X { #[cfg_attr(target_arch = \"wasm32\", tsify(type = \"[number]\"))] y: u8 }",
            "// wasm_bindgen\nlet text = \"js_sys\";",
        ] {
            assert_eq!(browser_names(&tokens(text)), [], "{text}");
        }
    }

    #[test]
    fn ways_to_end_the_program_are_found() {
        let text = ";a.unwrap(); b.expect(\"x\"); panic!(); todo!(); unreachable!()";
        assert_eq!(panics(&tokens(text)).len(), 5);
        let fine = "a.unwrap_or(1); #[expect(dead_code)] fn f() {} fn expect() {}
                    #[test] #[cfg(test)] fn g() { a.unwrap() }";
        assert_eq!(panics(&tokens(fine)), []);
    }

    #[test]
    fn private_facts_are_found() {
        for text in [
            "Tag::GPSLatitude",
            "Tag::BodySerialNumber",
            "let gps_place = 1;",
            "owner_name",
        ] {
            assert_eq!(private_facts(&tokens(text)).len(), 1, "{text}");
        }
        let fine =
            "// GPS is never read\n\"gps\"; serial; owner; #[cfg(test)] const X: T = Tag::GPSInfo;";
        assert_eq!(private_facts(&tokens(fine)), []);
    }

    #[test]
    fn a_module_opens_by_saying_what_it_is() {
        assert_eq!(opening_comment("//! What it is.\n"), None);
        for text in ["", "use x;\n//! late", "// no", "//!\n//! late"] {
            assert!(opening_comment(text).is_some(), "{text:?}");
        }
    }

    #[test]
    fn long_files_are_noted_and_longer_ones_refused() {
        let lines = |n: usize| "x\n".repeat(n);
        assert_eq!(length(&lines(300), RUST_LINES), Length::Fine);
        assert!(matches!(length(&lines(301), RUST_LINES), Length::Long(_)));
        assert!(matches!(length(&lines(600), RUST_LINES), Length::Long(_)));
        assert!(matches!(
            length(&lines(601), RUST_LINES),
            Length::TooLong(_)
        ));
    }

    #[test]
    fn generated_bindings_stay_in_the_worker() {
        for text in [
            "import init from '../../pkg/tabside.js'",
            "import type { A } from './a'\nimport {\n  x,\n} from '../../pkg/tabside.js'",
            "import type { A } from './a'\nconst x = await import(\"../pkg/tabside.js\")",
        ] {
            assert_eq!(generated_bindings(text).len(), 1, "{text}");
        }
        let fine = "import type { Lab } from '../../pkg/tabside.js'\n// ../pkg/x\nconst pkg = 1
                    export type {\n  A,\n  B,\n} from '../../pkg/tabside.js';";
        assert_eq!(generated_bindings(fine), []);
    }
}
