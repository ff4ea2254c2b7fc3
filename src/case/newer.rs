//! A case of a version that this program does not know: what is understood of it is taken, the rest
//! is left out and named. Such a case is for reading only, since writing it would lose the rest.

use super::json;
use super::note::{CaseNote, CaseNoteCode};
use super::types::{Case, KeptPhoto};
use crate::error::{Error, Result};
use serde::de::DeserializeOwned;
use serde_json::{Map, Value};

/// Notes made about one file.
const MAX_NOTES: usize = 50;

/// What is understood of a case.
pub fn understood(case: Value, notes: &mut Vec<CaseNote>) -> Result<Case> {
    let Value::Object(mut case) = case else {
        return Err(json::unreadable("case.json", "it is no object"));
    };
    let photos = match case.remove("photos") {
        Some(Value::Array(photos)) => photos,
        _ => Vec::new(),
    };
    let mut take = Taking {
        from: &mut case,
        what: "The case",
        notes,
    };
    let mut out = Case {
        version: take.field("version").unwrap_or_default(),
        program: take.field("program").unwrap_or_default(),
        label: take.field("label"),
        created: take.field("created").unwrap_or_default(),
        changed: take.field("changed").unwrap_or_default(),
        photos: Vec::new(),
        shown: take.field("shown"),
        guide: take.field("guide"),
        swatches: take.field("swatches"),
        work: take.field("work"),
        page: take.field("page").unwrap_or_default(),
    };
    take.unknown();
    for (place, photo) in photos.into_iter().enumerate() {
        let what = format!("Photo {}", place + 1);
        match photo {
            Value::Object(photo) => out.photos.extend(photo_of(photo, &what, notes)),
            _ => left_out(&what, "its description", notes),
        }
    }
    Ok(out)
}

/// A photo without id, role or bytes that are understood is none.
fn photo_of(
    mut photo: Map<String, Value>,
    what: &str,
    notes: &mut Vec<CaseNote>,
) -> Option<KeptPhoto> {
    let mut take = Taking {
        from: &mut photo,
        what,
        notes,
    };
    let out = KeptPhoto {
        id: take.field("id")?,
        role: take.field("role")?,
        kept: take.field("kept")?,
        name: take.field("name").unwrap_or_default(),
        partner: take.field("partner"),
        part: take.field("part"),
        sha256: take.field("sha256"),
        removed: take.field("removed").unwrap_or_default(),
        scene: take.field("scene").unwrap_or_default(),
        target: take.field("target"),
        proposal: take.field("proposal"),
        notes: take.field("notes").unwrap_or_default(),
        reading: take.field("reading"),
    };
    take.unknown();
    Some(out)
}

/// Fields taken out of an object, one by one.
struct Taking<'a> {
    from: &'a mut Map<String, Value>,
    what: &'a str,
    notes: &'a mut Vec<CaseNote>,
}

impl Taking<'_> {
    fn field<T: DeserializeOwned>(&mut self, name: &str) -> Option<T> {
        let value = self.from.remove(name).filter(|v| !v.is_null())?;
        let out = serde_json::from_value(value).ok();
        if out.is_none() {
            left_out(self.what, &format!("its “{name}”"), self.notes);
        }
        out
    }

    /// What was not taken is not known.
    fn unknown(&mut self) {
        for name in self.from.keys() {
            let part = format!("its “{}”", json::plain(name, 40));
            left_out(self.what, &part, self.notes);
        }
    }
}

fn left_out(what: &str, part: &str, notes: &mut Vec<CaseNote>) {
    if notes.len() < MAX_NOTES {
        notes.push(CaseNote::new(
            CaseNoteCode::PartNotUnderstood,
            format!(
                "{what} has something that this version does not understand: {part} is left out."
            ),
            "Open the case with the newest version of the program to see it.",
        ));
    }
}

/// Refuses to write a case that was opened for reading only.
pub fn refuse_to_write(version: u32) -> Error {
    Error::unsupported(
        format!(
            "This case is of version {version}, of which this program understands only a part; writing it would lose the rest."
        ),
        "Update the program, then save the case.",
    )
}
