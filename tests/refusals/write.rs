//! The bad inputs as files, with an index of what each says: the browser test hands them to the page.

use crate::refusals::case::{Page, Wanted};
use crate::refusals::{CALLED, TOLD, photos};
use serde_json::{Value, json};
use std::path::Path;

/// Words without the name of the file that the command line puts before them.
pub fn unnamed(words: &str) -> &str {
    match words.split_once(": ") {
        Some((name, rest)) if name.contains('.') && !name.contains(' ') => rest,
        _ => words,
    }
}

/// Writes all of them.
pub fn write(into: &Path) {
    let mut cases = Vec::new();
    for told in TOLD.iter() {
        let (case, said) = (
            &told.case,
            told.said.as_ref().expect("it says what it should"),
        );
        let (kind, name, also) = match &case.page {
            Page::Not(_) => continue,
            Page::Drop(file) => ("drop", *file, json!(unnamed(&said.words))),
            Page::OwnWords(file, words) => ("drop", *file, json!(words)),
            Page::Unlock(file, typed, words) => {
                cases.push(json!({"id": case.id, "kind": "unlock", "file": file, "typed": typed, "says": words}));
                case.write(&into.join(&case.id));
                continue;
            }
            Page::Read => ("read", "", json!([said.words, said.remedy])),
            Page::ReadSays(words) => ("read", "", json!([words])),
            Page::Call(call, arguments) => {
                ("call", *call, json!([arguments, unnamed(&said.words)]))
            }
            Page::CallSays(call, arguments, words) => ("call", *call, json!([arguments, words])),
        };
        case.write(&into.join(&case.id));
        cases.push(match kind {
            "drop" => json!({"id": case.id, "kind": kind, "file": name, "says": also, "refused": matches!(case.wanted, Wanted::Refused(_))}),
            "read" => json!({"id": case.id, "kind": kind, "files": names(&case.files), "says": also}),
            _ => json!({"id": case.id, "kind": kind, "call": name, "arguments": also[0], "says": also[1], "refused": matches!(case.wanted, Wanted::Refused(_))}),
        });
    }
    for (call, said) in CALLED.iter() {
        let at = into.join(call.id);
        std::fs::create_dir_all(&at).expect("a folder");
        let mut open = Vec::new();
        // The worker for files of cases opens no photos.
        let photos = if call.call.starts_with("case:") {
            &[][..]
        } else {
            &call.open
        };
        for (i, bytes) in photos.iter().enumerate() {
            // Sixty-four of the same are one file.
            let name = if i > 0 && *bytes == call.open[0] {
                "1.png".to_owned()
            } else {
                format!("{}.png", i + 1)
            };
            std::fs::write(at.join(&name), bytes).expect("a file");
            open.push(name);
        }
        let says = if call.native {
            said.clone().expect("it says what it should")
        } else {
            call.words.to_owned()
        };
        cases.push(json!({"id": call.id, "kind": "call", "call": call.call, "arguments": call.arguments, "open": open, "says": says, "refused": true}));
    }
    std::fs::write(into.join("sound.png"), photos::sound()).expect("a file");
    let text = serde_json::to_string(&json!({ "cases": cases })).expect("JSON");
    std::fs::write(into.join("index.json"), text).expect("the index");
}

fn names(files: &[(String, crate::refusals::case::Content)]) -> Vec<Value> {
    files.iter().map(|(name, _)| json!(name)).collect()
}
