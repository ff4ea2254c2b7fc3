//! `pack`, `unpack` and `verify`: case files on the command line.

use super::{Failure, HELP, bytes, json, named, scene_from_json, text};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::time::{SystemTime, UNIX_EPOCH};
use tabside::case::{
    self, Case, KeptAs, KeptPhoto, KeptReading, OpenedCase, PhotoBytes, PhotoRole, lock,
};
use tabside::engine::Engine;
use tabside::engine::case::{Outcome, read_photo};
use tabside::photo::scrub::scrub;
use tabside::{Error, Result};

/// What `pack` was asked.
#[derive(Default)]
struct Packing {
    out: Option<PathBuf>,
    photos: Vec<Given>,
    guide: Option<PathBuf>,
    swatches: Option<PathBuf>,
    label: Option<String>,
    without_photos: bool,
    passphrase: Option<PathBuf>,
}

/// A photo with what was said after it.
struct Given {
    path: PathBuf,
    scene: Option<PathBuf>,
    polarised: Option<PathBuf>,
    target: Option<String>,
}

pub fn pack_command(parser: &mut lexopt::Parser) -> std::result::Result<String, Failure> {
    let Some(asked) = asked(parser)? else {
        return Ok(HELP.to_owned());
    };
    let out = asked
        .out
        .clone()
        .ok_or_else(|| Failure::Usage("OUT is missing.".to_owned()))?;
    if asked.photos.is_empty() {
        return Err(Failure::Usage("pack needs a PHOTO.".to_owned()));
    }
    let (mut case, photos) = gathered(&asked)?;
    read_all(&mut case, &photos)?;
    let given: Vec<PhotoBytes<'_>> = photos
        .iter()
        .map(|(id, bytes)| PhotoBytes { id, bytes })
        .collect();
    let written = case::write(&case, &given)?;
    let passphrase = asked.passphrase.as_deref().map(passphrase_in).transpose()?;
    let file = match passphrase {
        Some(passphrase) => lock::lock(&written.bytes, &passphrase)?,
        None => written.bytes,
    };
    write_new(&out, &file)?;
    let removed: BTreeMap<&str, &[String]> = written
        .case
        .photos
        .iter()
        .map(|p| (p.name.as_str(), p.removed.as_slice()))
        .collect();
    json(&serde_json::json!({ "bytes": file.len(), "removed": removed }))
}

fn asked(parser: &mut lexopt::Parser) -> std::result::Result<Option<Packing>, Failure> {
    use lexopt::prelude::*;
    let mut asked = Packing::default();
    let first = || Failure::Usage("give the PHOTO first, then what belongs to it.".to_owned());
    while let Some(argument) = parser.next()? {
        match argument {
            Long("help") | Short('h') => return Ok(None),
            Long("scene") => {
                asked.photos.last_mut().ok_or_else(first)?.scene = Some(parser.value()?.into());
            }
            Long("polarised") => {
                asked.photos.last_mut().ok_or_else(first)?.polarised = Some(parser.value()?.into());
            }
            Long("target") => {
                asked.photos.last_mut().ok_or_else(first)?.target = Some(parser.value()?.string()?);
            }
            Long("guide") => asked.guide = Some(parser.value()?.into()),
            Long("swatches") => asked.swatches = Some(parser.value()?.into()),
            Long("label") => asked.label = Some(parser.value()?.string()?),
            Long("passphrase-file") => asked.passphrase = Some(parser.value()?.into()),
            Long("without-photos") => asked.without_photos = true,
            Value(path) if asked.out.is_none() => asked.out = Some(path.into()),
            Value(path) => asked.photos.push(Given {
                path: path.into(),
                scene: None,
                polarised: None,
                target: None,
            }),
            other => return Err(other.unexpected().into()),
        }
    }
    Ok(Some(asked))
}

/// The case without readings, and the photos freed of what is not written.
fn gathered(asked: &Packing) -> std::result::Result<(Case, BTreeMap<String, Vec<u8>>), Failure> {
    let now = now_utc();
    let mut case = Case {
        version: case::VERSION,
        label: asked.label.clone(),
        created: now.clone(),
        changed: now,
        ..Case::default()
    };
    if let Some(path) = &asked.guide {
        case.guide = Some(super::tables::guide_from(path)?);
    }
    if let Some(path) = &asked.swatches {
        case.swatches = Some(super::stains::parsed(
            path,
            "swatches",
            super::stains::SWATCHES_FORM,
        )?);
    }
    let mut photos = BTreeMap::new();
    let kept = if asked.without_photos {
        KeptAs::Absent
    } else {
        KeptAs::Original
    };
    let mut add = |path: &Path, role| -> Result<KeptPhoto> {
        let scrubbed = scrub(&bytes(path)?).map_err(|e| named(path, e))?;
        let id = (photos.len() + 1).to_string();
        photos.insert(id.clone(), scrubbed.bytes);
        let name = path
            .file_name()
            .unwrap_or_default()
            .to_string_lossy()
            .into_owned();
        Ok(KeptPhoto {
            id,
            name,
            role,
            kept,
            removed: scrubbed.removed,
            ..KeptPhoto::default()
        })
    };
    for given in &asked.photos {
        let mut photo = add(&given.path, PhotoRole::Plain)?;
        photo.target.clone_from(&given.target);
        if let Some(path) = &given.scene {
            photo.scene = scene_from_json(&text(path)?).map_err(|e| named(path, e))?;
        }
        let partner = match &given.polarised {
            Some(path) => Some(add(path, PhotoRole::CrossPolarisedPartner)?),
            None => None,
        };
        photo.partner = partner.as_ref().map(|p| p.id.clone());
        case.photos.push(photo);
        case.photos.extend(partner);
    }
    Ok((case, photos))
}

fn read_all(case: &mut Case, photos: &BTreeMap<String, Vec<u8>>) -> Result<()> {
    let mut engine = Engine::new()?;
    engine.set_guide(case.guide.clone())?;
    let before = case.clone();
    for photo in case
        .photos
        .iter_mut()
        .filter(|p| p.role == PhotoRole::Plain)
    {
        let report = read_photo(&mut engine, &before, photo, photos)
            .map_err(|e| named(Path::new(&photo.name), e))?;
        let report = serde_json::to_value(report).map_err(|e| Error::internal(e.to_string()))?;
        photo.reading = Some(KeptReading { report });
    }
    Ok(())
}

pub fn unpack_command(parser: &mut lexopt::Parser) -> std::result::Result<String, Failure> {
    let Some(asked) = to_open(parser, 2)? else {
        return Ok(HELP.to_owned());
    };
    let [file, folder] = <[PathBuf; 2]>::try_from(asked.paths)
        .map_err(|_| Failure::Usage("unpack needs FILE and DIR.".to_owned()))?;
    let opened = opened(&file, asked.passphrase.as_deref())?;
    let mut files: BTreeMap<String, Vec<u8>> = BTreeMap::new();
    files.insert("case.json".to_owned(), json(&opened.case)?.into_bytes());
    if let Some(guide) = &opened.case.guide {
        files.insert("guide.json".to_owned(), json(guide)?.into_bytes());
    }
    if let Some(book) = &opened.case.swatches {
        files.insert("swatches.json".to_owned(), json(book)?.into_bytes());
    }
    for (place, photo) in opened.case.photos.iter().enumerate() {
        // Names come from the parts, which are plain ones, never from what a sender called a photo.
        if let (Some(part), Some(bytes)) = (&photo.part, opened.photos.get(&photo.id)) {
            files.insert(part.clone(), bytes.clone());
        }
        if photo.role == PhotoRole::Plain {
            files.insert(
                format!("scenes/{}.json", place + 1),
                json(&photo.scene)?.into_bytes(),
            );
        }
    }
    let used = std::fs::read_dir(&folder).is_ok_and(|mut entries| entries.next().is_some());
    if used {
        return Err(Failure::Work(Error::input(
            format!("{} is not empty.", folder.display()),
            "Give a folder that is empty or does not exist yet.",
        )));
    }
    for (name, content) in &files {
        let path = folder.join(name);
        let parent = path.parent().unwrap_or(&folder);
        std::fs::create_dir_all(parent).map_err(|e| unwritable(parent, &e))?;
        write_new(&path, content)?;
    }
    let names: Vec<&String> = files.keys().collect();
    json(
        &serde_json::json!({ "files": names, "read_only": opened.read_only, "notes": opened.notes }),
    )
}

pub fn verify_command(parser: &mut lexopt::Parser) -> std::result::Result<String, Failure> {
    let Some(asked) = to_open(parser, 1)? else {
        return Ok(HELP.to_owned());
    };
    let [file] = <[PathBuf; 1]>::try_from(asked.paths)
        .map_err(|_| Failure::Usage("verify needs a FILE.".to_owned()))?;
    let opened = opened(&file, asked.passphrase.as_deref())?;
    let verification = tabside::engine::case::verify(&opened)?;
    let text = json(&verification)?;
    match verification.outcome {
        Outcome::Same | Outcome::Rounded => Ok(text),
        Outcome::NotCompared | Outcome::Different => Err(Failure::Differs(text)),
    }
}

/// A case that is to be opened, and where its passphrase stands.
struct ToOpen {
    paths: Vec<PathBuf>,
    passphrase: Option<PathBuf>,
}

/// Nothing when help was asked for.
fn to_open(
    parser: &mut lexopt::Parser,
    most: usize,
) -> std::result::Result<Option<ToOpen>, Failure> {
    use lexopt::prelude::*;
    let mut asked = ToOpen {
        paths: Vec::new(),
        passphrase: None,
    };
    while let Some(argument) = parser.next()? {
        match argument {
            Long("help") | Short('h') => return Ok(None),
            Long("passphrase-file") => asked.passphrase = Some(parser.value()?.into()),
            Value(path) if asked.paths.len() < most => asked.paths.push(path.into()),
            other => return Err(other.unexpected().into()),
        }
    }
    Ok(Some(asked))
}

fn opened(path: &Path, passphrase: Option<&Path>) -> Result<OpenedCase> {
    let mut file = bytes(path)?;
    if lock::is_locked(&file) {
        let from = passphrase.ok_or_else(|| {
            Error::input(
                format!("{} is encrypted.", path.display()),
                "Give the file that holds its passphrase with --passphrase-file.",
            )
        })?;
        file = lock::unlock(&file, &passphrase_in(from)?).map_err(|e| named(path, e))?;
    }
    case::read(&file).map_err(|e| named(path, e))
}

/// The first line of a file: what stands on a command line others can see.
fn passphrase_in(path: &Path) -> Result<String> {
    let found = text(path)?.lines().next().unwrap_or_default().to_owned();
    if found.is_empty() {
        return Err(Error::input(
            format!("The first line of {} is empty.", path.display()),
            "Write the passphrase there.",
        ));
    }
    Ok(found)
}

fn unwritable(path: &Path, error: &std::io::Error) -> Error {
    Error::input(
        format!("{} could not be written: {error}.", path.display()),
        "Give another place, or remove what is there first.",
    )
}

/// Never writes over a file.
fn write_new(path: &Path, content: &[u8]) -> Result<()> {
    use std::io::Write;
    let written = std::fs::File::create_new(path).and_then(|mut file| file.write_all(content));
    written.map_err(|e| unwritable(path, &e))
}

/// The time now, ISO 8601 in UTC.
pub fn now_utc() -> String {
    let seconds = SystemTime::now()
        .duration_since(UNIX_EPOCH)
        .map_or(0, |d| d.as_secs());
    let (mut day, time) = (seconds / 86_400, seconds % 86_400);
    let leap = |y: u64| y.is_multiple_of(4) && (!y.is_multiple_of(100) || y.is_multiple_of(400));
    let mut year = 1970;
    while day >= 365 + u64::from(leap(year)) {
        day -= 365 + u64::from(leap(year));
        year += 1;
    }
    let february = 28 + u64::from(leap(year));
    let mut month = 1;
    for length in [31, february, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] {
        if day < length {
            break;
        }
        day -= length;
        month += 1;
    }
    let (hour, minute, second) = (time / 3600, time / 60 % 60, time % 60);
    format!(
        "{year:04}-{month:02}-{:02}T{hour:02}:{minute:02}:{second:02}Z",
        day + 1
    )
}
