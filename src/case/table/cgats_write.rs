//! A reading as CGATS text (ANSI CGATS.17, ISO 28178): one set per region and zone, L*a*b* under D65,
//! 2° observer, and the doubt (ΔE00, about 95 %) as a declared field of our own.
//!
//! The format has no way to put a quote into a quoted word: quotes in names become apostrophes. Names
//! are UTF-8.

use super::is_hidden;
use crate::error::{Error, LightCheck, Result, Severity};
use crate::reading::RegionReading;
use crate::scene::{Region, RegionKind, Scene, Zone};
use serde::Deserialize;
use std::fmt::Write as _;

/// What is written.
#[derive(Debug, Clone, Deserialize)]
pub struct Colours {
    /// What the photo is called.
    pub photo: String,
    /// The program version that made the numbers.
    pub version: String,
    /// When the file is written, ISO 8601.
    #[serde(default)]
    pub created: Option<String>,
    /// The scene, for names and kinds.
    pub scene: Scene,
    /// The readings.
    pub readings: Vec<RegionReading>,
    /// The light checks. What may not be trusted is not written.
    pub checks: Vec<LightCheck>,
}

/// Fields that the standard does not know, and what they hold.
const OWN_FIELDS: [&str; 4] = ["REGION", "REGION_KIND", "ZONE", "DOUBT_DE00"];

/// Writes a reading as CGATS.
pub fn cgats(of: &Colours) -> Result<String> {
    let forbids = |region: Option<&str>| {
        let severe =
            |c: &&LightCheck| c.severity == Severity::Retake && c.region.as_deref() == region;
        of.checks.iter().find(severe)
    };
    if let Some(check) = forbids(None) {
        return Err(Error::input(
            format!("No colours are written: {}", check.text),
            check.remedy.clone(),
        ));
    }
    let mut comments = Vec::new();
    for check in &of.checks {
        let region = check
            .region
            .as_deref()
            .map_or_else(String::new, |r| format!(" {}", word(r)));
        comments.push(format!("# light check: {}{region}", code(check)?));
    }
    let mut sets = Vec::new();
    for reading in &of.readings {
        if forbids(Some(&reading.region)).is_some() {
            comments.push(format!(
                "# not to be trusted, left out: {}",
                word(&reading.region)
            ));
            continue;
        }
        if let Some(region) = of.scene.regions.iter().find(|r| r.id == reading.region) {
            rows(&mut sets, region, reading);
        }
    }
    if sets.is_empty() {
        return Err(Error::input(
            "There is no colour to write.",
            "The light checks say why; take the photo again.",
        ));
    }
    head(of, &comments, &sets).map_err(|e| Error::internal(e.to_string()))
}

fn head(
    of: &Colours,
    comments: &[String],
    sets: &[String],
) -> std::result::Result<String, std::fmt::Error> {
    let mut out = String::new();
    writeln!(out, "CGATS.17\n")?;
    writeln!(out, "ORIGINATOR\t\"Tabside {}\"", word(&of.version))?;
    writeln!(out, "DESCRIPTOR\t\"{}\"", word(&of.photo))?;
    if let Some(created) = &of.created {
        writeln!(out, "CREATED\t\"{}\"", word(created))?;
    }
    writeln!(
        out,
        "MEASUREMENT_SOURCE\t\"Read from a photo with a grey card\""
    )?;
    writeln!(out, "WEIGHTING_FUNCTION\t\"ILLUMINANT, D65\"")?;
    writeln!(out, "WEIGHTING_FUNCTION\t\"OBSERVER, 2 degree\"")?;
    writeln!(
        out,
        "COMPUTATIONAL_PARAMETER\t\"WHITE_POINT, 95.047 100 108.883\""
    )?;
    writeln!(
        out,
        "# DOUBT_DE00: the plus or minus on the colour in CIEDE2000, about 95 %"
    )?;
    for line in comments {
        writeln!(out, "{line}")?;
    }
    for field in OWN_FIELDS {
        writeln!(out, "KEYWORD\t\"{field}\"")?;
    }
    writeln!(out, "\nNUMBER_OF_FIELDS\t9\nBEGIN_DATA_FORMAT")?;
    writeln!(
        out,
        "SAMPLE_ID\tSAMPLE_NAME\tREGION\tREGION_KIND\tZONE\tLAB_L\tLAB_A\tLAB_B\tDOUBT_DE00"
    )?;
    writeln!(
        out,
        "END_DATA_FORMAT\n\nNUMBER_OF_SETS\t{}\nBEGIN_DATA",
        sets.len()
    )?;
    for (i, set) in sets.iter().enumerate() {
        writeln!(out, "{}\t{set}", i + 1)?;
    }
    writeln!(out, "END_DATA")?;
    Ok(out)
}

fn rows(sets: &mut Vec<String>, region: &Region, reading: &RegionReading) {
    let name = word(if region.name.trim().is_empty() {
        &region.id
    } else {
        &region.name
    });
    let kind = match region.kind {
        RegionKind::Tooth => "tooth",
        RegionKind::Restoration => "restoration",
        RegionKind::Tab => "tab",
    };
    for zone in Zone::ALL {
        let Some(z) = reading.zones.get(zone) else {
            continue;
        };
        let of = match zone {
            Zone::Cervical => "cervical",
            Zone::Middle => "middle",
            Zone::Incisal => "incisal",
            Zone::Whole => "whole",
        };
        sets.push(format!(
            "\"{name} {of}\"\t\"{name}\"\t{kind}\t{of}\t{:.4}\t{:.4}\t{:.4}\t{:.2}",
            z.lab.l(),
            z.lab.a(),
            z.lab.b(),
            z.doubt
        ));
    }
}

/// The stable word of a check.
fn code(check: &LightCheck) -> Result<String> {
    serde_json::to_value(check.code)
        .ok()
        .and_then(|v| v.as_str().map(str::to_owned))
        .ok_or_else(|| Error::internal("a light check has no word."))
}

/// Text within quotes, on one line. What begins like a formula of a spreadsheet gets an apostrophe
/// before it: quotes do not keep one from being run.
fn word(text: &str) -> String {
    let text: String = text
        .chars()
        .filter(|c| !is_hidden(*c))
        .map(|c| if c == '"' { '\'' } else { c })
        .take(200)
        .collect();
    if text
        .trim_start()
        .starts_with(['=', '+', '-', '@', '＝', '＋', '－', '＠'])
    {
        format!("'{text}")
    } else {
        text
    }
}
