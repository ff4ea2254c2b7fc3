//! `cgats` and `guide`: tables of colours for other programs and from them.

use super::stains::{Paths, parsed, paths};
use super::{Failure, HELP, bytes, json, named};
use std::path::{Path, PathBuf};
use tabside::Result;
use tabside::case::table::{self, Colours};
use tabside::engine::Report;
use tabside::reading::Guide;

/// The largest table is 4 MiB; more is refused without being read.
const MAX_TABLE_BYTES: u64 = 8 << 20;

/// Prints a report's colours as CGATS.
pub fn cgats_command(parser: &mut lexopt::Parser) -> std::result::Result<String, Failure> {
    let Some(path) = one(parser, "cgats needs a REPORT.")? else {
        return Ok(HELP.to_owned());
    };
    let report: Report = parsed(
        &path,
        "report",
        "Give a report that `tabside read` printed.",
    )?;
    let of = Colours {
        photo: stem(&path),
        version: report.version,
        created: Some(super::case::now_utc()),
        scene: report.scene,
        readings: report.readings,
        checks: report.checks,
    };
    let text = table::cgats(&of).map_err(|e| named(&path, e))?;
    Ok(text.trim_end().to_owned())
}

/// Prints the guide that a table gives, as JSON.
pub fn guide_command(parser: &mut lexopt::Parser) -> std::result::Result<String, Failure> {
    match one(parser, "guide needs a FILE.")? {
        Some(path) => json(&guide_from(&path)?),
        None => Ok(HELP.to_owned()),
    }
}

/// A guide from JSON, CSV or CGATS; remarks go to standard error.
pub fn guide_from(path: &Path) -> Result<Guide> {
    if std::fs::metadata(path).is_ok_and(|m| m.len() > MAX_TABLE_BYTES) {
        return Err(named(
            path,
            tabside::Error::too_large(
                "it is larger than any shade guide.",
                "Give a guide as JSON, CSV or CGATS.",
            ),
        ));
    }
    let read = table::guide_from(&bytes(path)?, &stem(path)).map_err(|e| named(path, e))?;
    for remark in &read.remarks {
        eprintln!("tabside: {}: {remark}", path.display());
    }
    Ok(read.guide)
}

fn one(
    parser: &mut lexopt::Parser,
    without: &str,
) -> std::result::Result<Option<PathBuf>, Failure> {
    match paths(parser, 1)? {
        Paths::Help => Ok(None),
        Paths::These(paths) => paths
            .into_iter()
            .next()
            .map(Some)
            .ok_or_else(|| Failure::Usage(without.to_owned())),
    }
}

/// The name of a file without its folder and its ending.
fn stem(path: &Path) -> String {
    path.file_stem()
        .unwrap_or_default()
        .to_string_lossy()
        .into_owned()
}
