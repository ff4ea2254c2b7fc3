//! One refusal, or one check: how the bad input is made, through which doors it goes, what is said.

use crate::cli::folder;
use serde_json::Value;
use std::path::Path;
use std::process::Command;

/// What a file of a case holds.
#[derive(Clone)]
pub enum Content {
    /// These bytes.
    Bytes(Vec<u8>),
    /// So many noughts, which take no room on the disk.
    Noughts(u64),
}

/// What has to be said.
#[derive(Clone, Copy)]
pub enum Wanted {
    /// The program refuses, and its words hold these.
    Refused(&'static str),
    /// The program goes on; what it prints has a finding with this code.
    Finding(&'static str),
}

/// How the same comes about in the page.
#[derive(Clone)]
pub enum Page {
    /// The file of this name, dropped on the page; the message says the same.
    Drop(&'static str),
    /// The same, and the page's own words, since the page looks at such files before the engine does.
    OwnWords(&'static str, &'static str),
    /// The case file of this name; this passphrase is typed where the page asks for one.
    Unlock(&'static str, &'static str, &'static str),
    /// Photo and scene (and cross-polarised photo, and guide); the finding stands beside the reading.
    Read,
    /// A call of the page's engine with this text, where the page's own look at the file is passed by.
    Call(&'static str, Value),
    /// The same, with the words of the page's own door.
    CallSays(&'static str, Value, &'static str),
    /// As `Read`, where the page says it elsewhere and in its own words.
    ReadSays(&'static str),
    /// There is no such door in the page.
    Not(&'static str),
}

/// One case.
#[derive(Clone)]
pub struct Case {
    /// Stable.
    pub id: String,
    /// What is given: photo, scene, guide …
    pub door: &'static str,
    /// Why it cannot be used, in plain words.
    pub cause: String,
    /// The command line, with the names of the files.
    pub arguments: Vec<String>,
    /// The files by their names.
    pub files: Vec<(String, Content)>,
    /// What has to be said.
    pub wanted: Wanted,
    /// And in the page.
    pub page: Page,
}

/// What was said.
#[derive(Clone, Debug, PartialEq)]
pub struct Said {
    /// All of it: what happened and what to do.
    pub words: String,
    /// What to do, where it comes apart from the words.
    pub remedy: String,
}

impl Case {
    /// A file with words for it; the arguments are split at spaces.
    pub fn new(
        id: impl Into<String>,
        door: &'static str,
        cause: impl Into<String>,
        arguments: &str,
        wanted: Wanted,
    ) -> Self {
        Self {
            id: id.into(),
            door,
            cause: cause.into(),
            arguments: arguments.split(' ').map(str::to_owned).collect(),
            files: Vec::new(),
            wanted,
            page: Page::Not("the page has no such door"),
        }
    }

    /// With a file.
    pub fn file(mut self, name: &str, bytes: impl Into<Vec<u8>>) -> Self {
        self.files
            .push((name.to_owned(), Content::Bytes(bytes.into())));
        self
    }

    /// With a file of noughts.
    pub fn noughts(mut self, name: &str, size: u64) -> Self {
        self.files.push((name.to_owned(), Content::Noughts(size)));
        self
    }

    /// In the page.
    pub fn page(mut self, page: Page) -> Self {
        self.page = page;
        self
    }

    /// Writes the files into a folder.
    pub fn write(&self, into: &Path) {
        std::fs::create_dir_all(into).expect("a folder");
        for (name, content) in &self.files {
            let path = into.join(name);
            std::fs::create_dir_all(path.parent().expect("a folder")).expect("a folder");
            match content {
                Content::Bytes(bytes) => std::fs::write(&path, bytes).expect("a file"),
                Content::Noughts(size) => std::fs::File::create(&path)
                    .and_then(|file| file.set_len(*size))
                    .expect("a file"),
            }
        }
    }

    /// Runs the program on it; an error says what was said instead.
    pub fn run(&self) -> Result<Said, String> {
        let at = folder(&format!("refusals/{}", self.id));
        self.write(&at);
        let out = Command::new(env!("CARGO_BIN_EXE_tabside"))
            .args(&self.arguments)
            .current_dir(&at)
            .output()
            .expect("the program runs");
        let error = String::from_utf8_lossy(&out.stderr).into_owned();
        let _ = std::fs::remove_dir_all(&at);
        match self.wanted {
            Wanted::Refused(words) => {
                let said = error
                    .lines()
                    .next_back()
                    .and_then(|l| l.strip_prefix("tabside: "))
                    .unwrap_or_default();
                let sound =
                    out.status.code() == Some(1) && out.stdout.is_empty() && said.contains(words);
                if sound {
                    Ok(Said {
                        words: said.to_owned(),
                        remedy: String::new(),
                    })
                } else {
                    Err(format!(
                        "{}: {:?} was said with status {:?}, not {words:?}",
                        self.id,
                        cut(&error),
                        out.status.code()
                    ))
                }
            }
            Wanted::Finding(code) => {
                let printed: Value = serde_json::from_slice(&out.stdout)
                    .map_err(|e| format!("{}: {e}; {:?}", self.id, cut(&error)))?;
                let mut codes = Vec::new();
                let found = finding(&printed, code, &mut codes);
                found.ok_or_else(|| format!("{}: no {code} among {codes:?}", self.id))
            }
        }
    }
}

fn cut(text: &str) -> String {
    text.chars().take(300).collect()
}

/// The first thing with a code, wherever it stands.
fn finding(value: &Value, code: &str, codes: &mut Vec<String>) -> Option<Said> {
    match value {
        Value::Array(list) => list.iter().find_map(|v| finding(v, code, codes)),
        Value::Object(fields) => {
            let text = |key: &str| fields.get(key).and_then(Value::as_str);
            if let (Some(found), Some(words)) = (text("code"), text("text")) {
                if found == code {
                    let instead = fields.get("instead").and_then(Value::as_array);
                    let instead: Vec<&str> = instead
                        .into_iter()
                        .flatten()
                        .filter_map(Value::as_str)
                        .collect();
                    let remedy = text("remedy").map_or_else(|| instead.join(" "), str::to_owned);
                    return Some(Said {
                        words: words.to_owned(),
                        remedy,
                    });
                }
                codes.push(found.to_owned());
            }
            fields.values().find_map(|v| finding(v, code, codes))
        }
        _ => None,
    }
}
