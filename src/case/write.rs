//! Writing a case file. Photos are freed of position, serial numbers and names first; what cannot be
//! read back just as it was is not written.

use super::manifest::Manifest;
use super::newer::refuse_to_write;
use super::types::{Case, KeptAs, VERSION};
use super::zip::{self, Writer};
use super::{check, json, sha256_hex};
use crate::error::{Error, Result};
use crate::photo::scrub::{Scrubbed, scrub};

/// The bytes of a photo of the case.
#[derive(Debug, Clone, Copy)]
pub struct PhotoBytes<'a> {
    /// The photo's id in the case.
    pub id: &'a str,
    /// Its file, as the camera wrote it.
    pub bytes: &'a [u8],
}

/// A case file that was made.
#[derive(Debug, Clone, PartialEq)]
pub struct Written {
    /// The file.
    pub bytes: Vec<u8>,
    /// The case as it stands in it: with parts, checksums and what was removed of each photo.
    pub case: Case,
}

/// Makes a case file. The bytes of a photo that is to be [`KeptAs::Absent`] may be given, so that its
/// checksum is known, or not.
pub fn write(case: &Case, photos: &[PhotoBytes<'_>]) -> Result<Written> {
    if case.version > VERSION {
        return Err(refuse_to_write(case.version));
    }
    let mut case = case.clone();
    case.version = VERSION;
    env!("CARGO_PKG_VERSION").clone_into(&mut case.program);
    let (mut zip, mut manifest) = (Writer::default(), Manifest::new());
    // Checked before the photos, which take time.
    encoded(&case)?;
    let mut scrubbed: Vec<(String, Vec<u8>, String)> = Vec::new();
    for (place, photo) in case.photos.iter_mut().enumerate() {
        photo.part = None;
        let Some(given) = photos.iter().find(|p| p.id == photo.id) else {
            if photo.kept == KeptAs::Absent {
                continue;
            }
            return Err(Error::internal(format!(
                "the bytes of “{}” are to be kept and were not given.",
                json::plain(&photo.name, 60)
            )));
        };
        let Scrubbed {
            bytes,
            removed,
            ending,
        } = scrub(given.bytes)?;
        let hash = sha256_hex(&bytes);
        photo.sha256 = Some(hash.clone());
        if !removed.is_empty() {
            photo.removed = removed;
        }
        if photo.kept != KeptAs::Absent {
            let name = format!("{}{}{ending}", zip::PHOTOS, place + 1);
            photo.part = Some(name.clone());
            scrubbed.push((name, bytes, hash));
        }
    }
    let text = encoded(&case)?;
    manifest.add(zip::CASE, &text, sha256_hex(&text));
    for (name, bytes, hash) in &scrubbed {
        manifest.add(name, bytes, hash.clone());
    }
    zip.deflate(zip::CASE, &text)?;
    zip.deflate(zip::MANIFEST, &manifest.to_json()?)?;
    for (name, bytes, _) in &scrubbed {
        zip.store(name, bytes)?;
    }
    Ok(Written {
        bytes: zip.finish()?,
        case,
    })
}

/// The text of a case. JSON has no NaN and no infinity, and the bounds of reading hold here too: what
/// would not come back as it is gives an error instead of a file.
fn encoded(case: &Case) -> Result<Vec<u8>> {
    check::check(case).map_err(unwritable)?;
    let text = serde_json::to_vec(case).map_err(|e| Error::internal(e.to_string()))?;
    if text.len() as u64 > zip::MAX_TEXT_BYTES {
        return Err(Error::too_large(
            format!(
                "The case has {} bytes of text; at most {} are written.",
                text.len(),
                zip::MAX_TEXT_BYTES
            ),
            "Make two cases of it.",
        ));
    }
    let again: Case = json::parse(zip::CASE, &text)
        .and_then(|value| json::typed(zip::CASE, value))
        .map_err(unwritable)?;
    if again == *case {
        Ok(text)
    } else {
        Err(unwritable(Error::internal(
            "it holds a number that is none.",
        )))
    }
}

fn unwritable(error: Error) -> Error {
    match error {
        Error::FileDamaged { what, .. }
        | Error::TooLarge { what, .. }
        | Error::Internal { what } => Error::input(
            format!("The case cannot be written: {what}"),
            "Correct or remove what is named, then save again.",
        ),
        other => other,
    }
}
