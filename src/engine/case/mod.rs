//! The case through the engine: readings of an opened case derived again from its photos and scenes,
//! and compared with those that are kept in it.

mod compare;
mod types;

pub use types::{Difference, Outcome, PhotoVerification, Reason, ReasonCode, Verification};

use super::Engine;
use super::types::{ReadOptions, Report};
use crate::case::{Case, KeptAs, KeptPhoto, OpenedCase, PhotoRole};
use crate::error::{Error, Result};
use compare::Compared;
use serde_json::Value;
use std::collections::BTreeMap;

/// Derives the readings of a case again. What is open elsewhere is not touched: this has a desk of
/// its own, with one photo (or pair) on it at a time.
pub fn verify(opened: &OpenedCase) -> Result<Verification> {
    let case = &opened.case;
    let mut engine = Engine::new()?;
    let mut unsound = None;
    if let Err(error) = engine.set_guide(case.guide.clone()) {
        unsound = Some(Reason::new(ReasonCode::CannotRead, error.to_string()));
    }
    let photos: Vec<PhotoVerification> = case
        .photos
        .iter()
        .filter(|p| p.role == PhotoRole::Plain)
        .map(|photo| match &unsound {
            Some(reason) => unchecked(photo, vec![reason.clone()]),
            None => compare_photo(case, photo, || {
                let report = read_photo(&mut engine, case, photo, &opened.photos)?;
                serde_json::to_value(report).map_err(|e| Error::internal(e.to_string()))
            }),
        })
        .collect();
    Ok(Verification {
        outcome: photos
            .iter()
            .map(|p| p.outcome)
            .max()
            .unwrap_or(Outcome::NotCompared),
        program: env!("CARGO_PKG_VERSION").to_owned(),
        written_by: case.program.clone(),
        photos,
        notes: opened.notes.clone(),
    })
}

/// Reads one photo of a case as it stands in it: with its partner and its target, under the guide in
/// use.
pub fn read_photo(
    engine: &mut Engine,
    case: &Case,
    photo: &KeptPhoto,
    bytes: &BTreeMap<String, Vec<u8>>,
) -> Result<Report> {
    let of = |id: &String| bytes.get(id);
    let plain = of(&photo.id).ok_or_else(|| missing(&photo.name))?;
    let partner = match &photo.partner {
        Some(id) => {
            let name = case
                .photos
                .iter()
                .find(|p| p.id == *id)
                .map_or("", |p| p.name.as_str());
            Some(of(id).ok_or_else(|| missing(name))?)
        }
        None => None,
    };
    let id = engine.open(plain)?.id;
    let read = (|| {
        let Some(partner) = partner else {
            return engine.read(id, &photo.scene, &options(photo));
        };
        let partner = engine.open(partner)?.id;
        let read = engine
            .set_pair(id, Some(partner))
            .and_then(|()| engine.read(id, &photo.scene, &options(photo)));
        engine.close(partner);
        read
    })();
    engine.close(id);
    read
}

fn options(photo: &KeptPhoto) -> ReadOptions {
    ReadOptions {
        target: photo.target.clone(),
    }
}

fn missing(name: &str) -> Error {
    Error::input(
        format!("The photo “{name}” is not in the case file."),
        "Ask the sender for the case with its photos.",
    )
}

fn unchecked(photo: &KeptPhoto, reasons: Vec<Reason>) -> PhotoVerification {
    PhotoVerification {
        photo: photo.id.clone(),
        name: photo.name.clone(),
        outcome: Outcome::NotCompared,
        largest_delta_e_00: None,
        reasons,
        differences: Vec::new(),
        further: 0,
    }
}

/// Compares the kept numbers of a photo of the case with those that `fresh` gives: a report as plain
/// data. It is asked only when there is something to compare.
pub fn compare_photo(
    case: &Case,
    photo: &KeptPhoto,
    fresh: impl FnOnce() -> Result<Value>,
) -> PhotoVerification {
    let because = |code, text: &str| unchecked(photo, vec![Reason::new(code, text)]);
    let Some(kept) = &photo.reading else {
        return because(ReasonCode::NoReading, "No reading of this photo was kept.");
    };
    let partner = photo.partner.as_ref();
    let is = |kind| {
        let of_partner = case.photos.iter().find(|p| Some(&p.id) == partner);
        photo.kept == kind || of_partner.is_some_and(|p| p.kept == kind)
    };
    if is(KeptAs::Absent) {
        return because(
            ReasonCode::PhotoMissing,
            "The photo, or its cross-polarised partner, is not in the case file.",
        );
    }
    if is(KeptAs::Reduced) {
        return because(
            ReasonCode::PhotoReduced,
            "Only a reduced copy of the photo is in the case file; other numbers come from it.",
        );
    }
    match fresh() {
        Ok(report) => compared(case, photo, &kept.report, &report),
        Err(error) => because(ReasonCode::CannotRead, &error.to_string()),
    }
}

fn compared(case: &Case, photo: &KeptPhoto, kept: &Value, now: &Value) -> PhotoVerification {
    let mut out = unchecked(photo, Vec::new());
    let found = Compared::of(kept, now);
    out.largest_delta_e_00 = found.largest_delta_e_00;
    out.further = found.further;
    out.outcome = found.outcome();
    if out.outcome != Outcome::Same {
        out.reasons = compare::reasons(case, kept, now, out.outcome);
    }
    out.differences = found.differences;
    out
}
