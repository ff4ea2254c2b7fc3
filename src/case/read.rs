//! Reading a case file: container, manifest, versions, form, sense; in this order.

use super::manifest::Manifest;
use super::migrate::{Age, bring_forward};
use super::note::{CaseNote, CaseNoteCode};
use super::types::{Case, KeptAs};
use super::zip::{self, Part};
use super::{check, json, newer};
use crate::error::{Error, Result};
use crate::photo::sniff::sniff;
use std::collections::BTreeMap;

/// A case that was opened.
#[derive(Debug, Clone, PartialEq)]
pub struct OpenedCase {
    /// The case.
    pub case: Case,
    /// The bytes of its photos by their ids; those that are not in the file are missing.
    pub photos: BTreeMap<String, Vec<u8>>,
    /// It was written by a newer program and must not be written by this one.
    pub read_only: bool,
    /// What is worth a word.
    pub notes: Vec<CaseNote>,
}

/// Opens a case file. An error leaves nothing half open.
pub fn read(bytes: &[u8]) -> Result<OpenedCase> {
    let parts = zip::read(bytes)?;
    Manifest::verify(&parts)?;
    let text = parts
        .iter()
        .find(|p| p.name == zip::CASE)
        .ok_or_else(|| json::unreadable(zip::CASE, "it is missing"))?;
    let mut value = json::parse(zip::CASE, &text.bytes)?;
    let mut notes = Vec::new();
    let age = bring_forward(&mut value)?;
    let mut case = match age {
        Age::Newer(version) => {
            notes.push(CaseNote::new(
                CaseNoteCode::NewerVersion,
                format!("This case was saved by a newer version of the program (case version {version}). It is open for looking; it cannot be changed and saved here."),
                "Update the program to work on it.",
            ));
            newer::understood(value, &mut notes)?
        }
        Age::Older(version) => {
            notes.push(CaseNote::new(
                CaseNoteCode::BroughtForward,
                format!("This case was saved in an older form (version {version}) and was brought forward."),
                "Nothing needs to be done; saving writes the newer form.",
            ));
            json::typed(zip::CASE, value)?
        }
        Age::Current => json::typed(zip::CASE, value)?,
    };
    check::check(&case)?;
    let read_only = matches!(age, Age::Newer(_));
    let photos = photos(&mut case, parts, read_only, &mut notes)?;
    Ok(OpenedCase {
        case,
        photos,
        read_only,
        notes,
    })
}

/// Hands each photo its bytes. A part that is no picture is left out: the rest of the case is worth
/// opening.
fn photos(
    case: &mut Case,
    parts: Vec<Part>,
    read_only: bool,
    notes: &mut Vec<CaseNote>,
) -> Result<BTreeMap<String, Vec<u8>>> {
    let mut parts: BTreeMap<String, Vec<u8>> =
        parts.into_iter().map(|p| (p.name, p.bytes)).collect();
    let mut out = BTreeMap::new();
    for photo in &mut case.photos {
        let Some(name) = photo.part.clone().filter(|_| photo.kept != KeptAs::Absent) else {
            photo.kept = KeptAs::Absent;
            continue;
        };
        let bytes = Some(&name)
            .filter(|n| zip::is_photo(n))
            .and_then(|n| parts.remove(n))
            .ok_or_else(|| {
                Error::damaged(
                    format!(
                        "The photo “{}” is missing in the case file.",
                        json::plain(&photo.name, 60)
                    ),
                    "Ask the sender to save and send the case once more.",
                )
            })?;
        match sniff(&bytes) {
            Ok(_) => {
                out.insert(photo.id.clone(), bytes);
            }
            Err(error) => {
                notes.push(CaseNote::new(
                    CaseNoteCode::PhotoNoPicture,
                    format!(
                        "The photo “{}” in the case was left out: {error}",
                        json::plain(&photo.name, 60)
                    ),
                    "Ask the sender for the photo itself.",
                ));
                (photo.kept, photo.part) = (KeptAs::Absent, None);
            }
        }
    }
    let stray = parts.keys().find(|n| zip::is_photo(n));
    match stray {
        // What a newer program keeps beside is not known here.
        Some(name) if !read_only => Err(Error::damaged(
            format!("The case file holds {name}, which belongs to no photo of the case."),
            "Ask the sender to save and send the case once more.",
        )),
        _ => Ok(out),
    }
}
