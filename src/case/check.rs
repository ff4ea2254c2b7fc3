//! What a case must be beyond its form: bounded lists and texts, ids that are told apart, references
//! that lead somewhere, sound numbers.

use super::types::{Case, KeptPhoto, PhotoRole};
use crate::error::{Error, Result};
use crate::scene::{Point, Scene};

/// Photos of a case: with the two other parts they must fit into the container.
pub const MAX_PHOTOS: usize = 500;
const MAX_NAME: usize = 255;
const MAX_LABEL: usize = 500;
const MAX_TEXT: usize = 5000;
const MAX_NOTES: usize = 500;
const MAX_REGIONS: usize = 200;
const MAX_POINTS: usize = 5000;
/// No photo is larger, and no outline lies farther off.
const MAX_PX: f64 = 1e6;

fn wrong(what: String) -> Error {
    Error::damaged(
        format!("The case cannot be: {what}."),
        "Ask the sender to save and send the case once more.",
    )
}

fn short(text: &str, most: usize, what: &str) -> Result<()> {
    if text.chars().take(most + 1).count() > most {
        return Err(wrong(format!("{what} is longer than {most} characters")));
    }
    Ok(())
}

fn few(count: usize, most: usize, what: &str) -> Result<()> {
    if count > most {
        return Err(wrong(format!("it has {count} {what}, of {most} at most")));
    }
    Ok(())
}

/// Checks a case.
pub fn check(case: &Case) -> Result<()> {
    short(
        case.label.as_deref().unwrap_or_default(),
        MAX_LABEL,
        "its label",
    )?;
    short(&case.program, 40, "its program version")?;
    short(&case.created, 40, "its time")?;
    short(&case.changed, 40, "its time")?;
    few(case.photos.len(), MAX_PHOTOS, "photos")?;
    few(case.page.len(), 100, "entries of the page")?;
    for (place, photo) in case.photos.iter().enumerate() {
        let before = case.photos.iter().take(place);
        if before.clone().any(|p| p.id == photo.id) {
            return Err(wrong("two of its photos have one id".to_owned()));
        }
        if photo.part.is_some() && before.clone().any(|p| p.part == photo.part) {
            return Err(wrong(
                "two of its photos are one part of the file".to_owned(),
            ));
        }
        check_photo(photo)?;
        check_partner(case, photo)?;
    }
    if let Some(guide) = &case.guide {
        // Who opens the case did not make the guide: its own remedy is for others.
        guide
            .check()
            .map_err(|e| wrong(e.what().trim_end_matches('.').to_owned()))?;
    }
    Ok(())
}

fn check_partner(case: &Case, photo: &KeptPhoto) -> Result<()> {
    let Some(id) = &photo.partner else {
        return Ok(());
    };
    let partner = case.photos.iter().find(|p| p.id == *id);
    if photo.role == PhotoRole::CrossPolarisedPartner
        || partner.is_none_or(|p| p.role != PhotoRole::CrossPolarisedPartner)
    {
        return Err(wrong(
            "a photo names a partner that is no cross-polarised photo of the case".to_owned(),
        ));
    }
    Ok(())
}

fn check_photo(photo: &KeptPhoto) -> Result<()> {
    if photo.id.is_empty() {
        return Err(wrong("a photo has no id".to_owned()));
    }
    short(&photo.id, 100, "the id of a photo")?;
    short(&photo.name, MAX_NAME, "the name of a photo")?;
    few(photo.removed.len(), 100, "remarks on what was removed")?;
    for text in &photo.removed {
        short(text, MAX_NAME, "a remark on what was removed")?;
    }
    few(photo.notes.len(), MAX_NOTES, "notes on a photo")?;
    for note in &photo.notes {
        short(&note.id, 100, "the id of a note")?;
        short(&note.text, MAX_TEXT, "a note")?;
        points(&[note.at])?;
    }
    let proposal = photo.proposal.iter().flat_map(|p| &p.card_steps);
    few(proposal.clone().count(), MAX_REGIONS, "steps of a card")?;
    for outline in proposal {
        points(outline)?;
    }
    if photo.sha256.as_ref().is_some_and(|s| {
        s.len() != 64 || !s.bytes().all(|b| matches!(b, b'0'..=b'9' | b'a'..=b'f'))
    }) {
        return Err(wrong("the checksum of a photo is none".to_owned()));
    }
    check_scene(&photo.scene)
}

fn check_scene(scene: &Scene) -> Result<()> {
    few(scene.regions.len(), MAX_REGIONS, "regions on a photo")?;
    for region in &scene.regions {
        short(&region.id, 100, "the id of a region")?;
        short(&region.name, 200, "the name of a region")?;
        points(&region.outline)?;
        points(region.cervical.as_slice())?;
        points(region.incisal.as_slice())?;
    }
    for card in scene.card.iter().chain(&scene.second_card) {
        points(&card.outline)?;
        few(card.steps.len(), MAX_REGIONS, "steps of a card")?;
        for step in &card.steps {
            points(&step.outline)?;
        }
    }
    Ok(())
}

fn points(points: &[Point]) -> Result<()> {
    few(points.len(), MAX_POINTS, "points in one outline")?;
    let sound = |p: &Point| p.0.iter().all(|v| v.abs() <= MAX_PX);
    if points.iter().all(sound) {
        Ok(())
    } else {
        Err(wrong(format!(
            "a point lies farther than {MAX_PX} px from its photo"
        )))
    }
}
