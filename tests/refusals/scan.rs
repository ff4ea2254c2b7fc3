//! Finds every place in `src/` that makes an error, and every code of a check, so that none can be
//! added without a case.

use std::path::{Path, PathBuf};

/// A place that makes an error.
#[derive(Clone, Debug, PartialEq)]
pub struct Site {
    /// Its file below `src/`.
    pub file: String,
    /// Its line.
    pub line: usize,
    /// `damaged`, `unsupported`, `too_large`, `input` or `internal`.
    pub kind: String,
    /// It makes the error itself, and does not call a function of its file for it.
    pub direct: bool,
    /// The function that it stands in.
    pub function: String,
    /// Its sentence with `{}` for what is filled in; `None` when it passes on the words of others.
    pub what: Option<String>,
    /// What to do, when that stands there as text.
    pub remedy: Option<String>,
}

impl Site {
    /// What is written in lists of exceptions: the file and the sentence.
    pub fn is(&self, file: &str, function: &str, what: &str) -> bool {
        self.file == file
            && self.function == function
            && self.what.as_deref().unwrap_or("…").contains(what)
    }

    /// Letters of its own.
    fn length(&self) -> usize {
        let mut blank = false;
        let own = self
            .what
            .as_deref()
            .unwrap_or_default()
            .chars()
            .filter(|c| {
                blank = (blank || *c == '{') && *c != '}';
                !blank
            });
        own.count()
    }

    /// Whether these words can come from here.
    fn says(&self, words: &str) -> bool {
        let whole = format!(
            "{} {}",
            self.what.as_deref().unwrap_or_default(),
            self.remedy.as_deref().unwrap_or_default()
        );
        self.what.is_some() && fits(&whole, words)
    }
}

/// Where these words come from: of the places that can have said them those with the longest sentence.
pub fn origins<'a>(all: &'a [Site], words: &str) -> Vec<&'a Site> {
    let can: Vec<&Site> = all.iter().filter(|s| s.says(words)).collect();
    let most = can.iter().map(|s| s.length()).max();
    can.into_iter()
        .filter(|s| Some(s.length()) == most)
        .collect()
}

/// Functions that put a sentence together from a part that is given to them: file, name, the kind of
/// their errors, the argument with the part, the sentence around it (§ for what else is filled in).
const HELPERS: &[(&str, &str, &str, usize, &str)] = &[
    (
        "case/check.rs",
        "wrong",
        "damaged",
        0,
        "The case cannot be: {}.",
    ),
    (
        "case/check.rs",
        "short",
        "damaged",
        2,
        "The case cannot be: {} is longer than § characters.",
    ),
    (
        "case/check.rs",
        "few",
        "damaged",
        2,
        "The case cannot be: it has § {}, of § at most.",
    ),
    ("case/table/entries.rs", "fault", "input", 0, "{}"),
    (
        "case/table/columns.rs",
        "missing",
        "input",
        1,
        "The table has no column for {}; its columns are: §.",
    ),
    ("case/zip/read.rs", "too_large", "too_large", 0, "{}"),
    (
        "photo/jpeg.rs",
        "damaged",
        "damaged",
        0,
        "The JPEG file is damaged: {}.",
    ),
    (
        "photo/tiff.rs",
        "unsupported",
        "unsupported",
        0,
        "This kind of TIFF is not read ({}).",
    ),
    ("stain/plan/mod.rs", "wrong", "input", 0, "{}"),
    ("bin/tabside/compare.rs", "refuse", "input", 0, "{}"),
    (
        "bin/tabside/stains.rs",
        "parsed",
        "input",
        1,
        "the {} could not be read: §.",
    ),
    (
        "bin/tabside/compare.rs",
        "parsed",
        "input",
        1,
        "the {} could not be read: §.",
    ),
    (
        "bin/tabside/tables.rs",
        "parsed",
        "input",
        1,
        "the {} could not be read: §.",
    ),
    (
        "bin/tabside/case.rs",
        "parsed",
        "input",
        1,
        "the {} could not be read: §.",
    ),
];

/// Every place, in the order of the files.
pub fn sites() -> Vec<Site> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut files = Vec::new();
    rust_files(&root, &mut files);
    files.sort();
    let texts: Vec<(String, String)> = files
        .iter()
        .map(|f| {
            let name = f.strip_prefix(&root).expect("below src");
            let name = name.to_string_lossy().replace('\\', "/");
            (name, std::fs::read_to_string(f).expect("a source file"))
        })
        .collect();
    let all: String = texts.iter().map(|(_, t)| t.as_str()).collect();
    let mut out = Vec::new();
    for (name, text) in &texts {
        let text = without_tests(text);
        for kind in ["damaged", "unsupported", "too_large", "input", "internal"] {
            let call = format!("Error::{kind}(");
            for at in places(text, &call) {
                out.extend(site(name, text, &all, kind, at, call.len(), 0, "{}"));
            }
        }
        for (_, helper, kind, place, around) in HELPERS.iter().filter(|h| h.0 == name) {
            let call = format!("{helper}(");
            for at in places(text, &call) {
                let before = text.get(..at).unwrap_or_default();
                let own = before.ends_with("Error::") || before.ends_with("fn ");
                let longer =
                    before.ends_with(|c: char| c.is_alphanumeric() || c == '_' || c == ':');
                if !own && !longer {
                    out.extend(site(name, text, &all, kind, at, call.len(), *place, around));
                }
            }
        }
    }
    out
}

/// The stable words of an enumeration, as they are printed.
pub fn codes(file: &str, name: &str, between: char) -> Vec<String> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("src").join(file);
    let text = std::fs::read_to_string(path).expect("a source file");
    let (_, rest) = text
        .split_once(&format!("pub enum {name} {{"))
        .expect("the enumeration");
    let (body, _) = rest.split_once("\n}").expect("its end");
    let names = body.lines().map(str::trim).filter(|l| l.ends_with(','));
    names
        .map(|l| {
            let mut out = String::new();
            for c in l.trim_end_matches(',').chars() {
                if c.is_uppercase() && !out.is_empty() {
                    out.push(between);
                }
                out.extend(c.to_lowercase());
            }
            out
        })
        .collect()
}

fn rust_files(at: &Path, out: &mut Vec<PathBuf>) {
    for entry in std::fs::read_dir(at).expect("a folder") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            rust_files(&path, out);
        } else if path.extension().is_some_and(|e| e == "rs") {
            out.push(path);
        }
    }
}

fn without_tests(text: &str) -> &str {
    text.split("#[cfg(test)]").next().unwrap_or_default()
}

/// Where a text stands outside of remarks.
fn places(text: &str, what: &str) -> Vec<usize> {
    let found = text.match_indices(what).map(|(at, _)| at);
    found
        .filter(|at| {
            let line = text[..*at].rsplit('\n').next().unwrap_or_default();
            !line.trim_start().starts_with("//")
        })
        .collect()
}

#[expect(clippy::too_many_arguments, reason = "one call of a small parser")]
fn site(
    file: &str,
    text: &str,
    all: &str,
    kind: &str,
    at: usize,
    length: usize,
    place: usize,
    around: &str,
) -> Vec<Site> {
    let given = arguments(&text[at + length..]);
    let first = given.get(place).map(String::as_str).unwrap_or_default();
    let base = Site {
        file: file.to_owned(),
        line: text[..at].matches('\n').count() + 1,
        kind: kind.to_owned(),
        direct: text[at..].starts_with("Error::"),
        function: text[..at]
            .rsplit("fn ")
            .next()
            .and_then(|f| f.split(|c: char| !c.is_alphanumeric() && c != '_').next())
            .unwrap_or_default()
            .to_owned(),
        what: None,
        remedy: given.get(place + 1).and_then(|r| remedy(r, text, all)),
    };
    let found = literals(first);
    if found.is_empty() || found.iter().all(|l| l == "{what}" || l == "{name}: {what}") {
        // A part that is no text here leaves the sentence around it.
        let what = (around != "{}").then(|| around.replace('§', "{}"));
        return vec![Site { what, ..base }];
    }
    // A choice between texts is a place for each; what is put into a text by a call is not.
    let found: Vec<String> = if first.trim_start().starts_with("format!") {
        found.into_iter().take(1).collect()
    } else {
        found
    };
    found
        .into_iter()
        .map(|what| Site {
            what: Some(around.replacen("{}", &what, 1).replace('§', "{}")),
            ..base.clone()
        })
        .collect()
}

/// Text, or the name of one.
fn remedy(argument: &str, text: &str, all: &str) -> Option<String> {
    if let Some(found) = literals(argument).into_iter().next() {
        return Some(found);
    }
    let name = argument.trim().trim_start_matches('&');
    if name.is_empty() || !name.chars().all(|c| c.is_alphanumeric() || c == '_') {
        return None;
    }
    // The file's own first.
    let own = [format!("const {name}: &str ="), format!("let {name} =")];
    for (scope, begins) in [(text, own.as_slice()), (all, &own[..1])] {
        for begin in begins {
            if let Some((_, rest)) = scope.split_once(begin) {
                let (value, _) = rest.split_once(";\n").unwrap_or((rest, ""));
                return literals(value).into_iter().next();
            }
        }
    }
    None
}

/// The arguments of a call, as they are written.
fn arguments(text: &str) -> Vec<String> {
    let (mut out, mut depth, mut quoted, mut escaped) = (vec![String::new()], 0, false, false);
    for c in text.chars() {
        if quoted {
            (quoted, escaped) = match (c, escaped) {
                (_, true) => (true, false),
                ('\\', false) => (true, true),
                ('"', false) => (false, false),
                _ => (true, false),
            };
        } else {
            match c {
                '"' => quoted = true,
                '(' | '[' | '{' => depth += 1,
                ')' | ']' | '}' if depth == 0 => break,
                ')' | ']' | '}' => depth -= 1,
                ',' if depth == 0 => {
                    out.push(String::new());
                    continue;
                }
                _ => {}
            }
        }
        out.last_mut().expect("one").push(c);
    }
    out
}

/// What stands between quotes, lines put together.
fn literals(text: &str) -> Vec<String> {
    let (mut out, mut chars) = (Vec::new(), text.chars().peekable());
    while let Some(c) = chars.next() {
        if c != '"' {
            continue;
        }
        let mut found = String::new();
        while let Some(c) = chars.next() {
            match c {
                '"' => break,
                '\\' => match chars.next() {
                    Some('\n') => while chars.next_if(|c| c.is_whitespace()).is_some() {},
                    Some(other) => found.push(other),
                    None => break,
                },
                _ => found.push(c),
            }
        }
        out.push(found);
    }
    out
}

/// Whether a sentence with blanks can have become these words.
pub fn fits(sentence: &str, words: &str) -> bool {
    let (mut parts, mut part, mut blank) = (Vec::new(), String::new(), false);
    let mut chars = sentence.chars().peekable();
    while let Some(c) = chars.next() {
        match (c, blank) {
            // Doubled braces stand for themselves.
            ('{' | '}', false) if chars.peek() == Some(&c) => {
                chars.next();
                part.push(c);
            }
            ('{', false) => {
                parts.push(std::mem::take(&mut part));
                blank = true;
            }
            ('}', true) => blank = false,
            (_, true) => {}
            _ => part.push(c),
        }
    }
    parts.push(part);
    let mut rest = words;
    parts.iter().all(|p| match rest.split_once(p.trim_end()) {
        Some((_, after)) => {
            rest = after;
            true
        }
        None => false,
    })
}
