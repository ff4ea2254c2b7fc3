//! A file of tab colours – the program's own JSON, CSV or CGATS – to a shade guide, with remarks on
//! what had to be assumed or changed.

use super::columns::bare;
use super::entries::{Entry, entries};
use super::{FORM, MAX_BYTES, Table, cgats_read, csv_read, shown};
use crate::colour::adaptation::bradford;
use crate::colour::{Lab, Matrix3, WHITE_D50, WHITE_D65};
use crate::error::{Error, Result};
use crate::reading::{Guide, GuideSource, GuideTab, GuideZones};
use serde::Serialize;

/// A guide that was read.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ReadGuide {
    /// The guide, checked.
    pub guide: Guide,
    /// What was assumed or changed, in plain words.
    pub remarks: Vec<String>,
}

/// For which light the colours of a file stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Light {
    D65,
    D50,
    Unsaid,
}

/// Reads a guide from the bytes of a file; `name` is what the guide is called if the file does not say.
pub fn guide_from(bytes: &[u8], name: &str) -> Result<ReadGuide> {
    if bytes.len() > MAX_BYTES {
        return Err(Error::too_large(
            format!(
                "The table has {} bytes; at most {MAX_BYTES} are read.",
                bytes.len()
            ),
            "Keep the rows that are needed.",
        ));
    }
    let text = text_of(bytes)?;
    let text = text.strip_prefix('\u{feff}').unwrap_or(&text);
    if text.trim().is_empty() {
        return Err(Error::input("The table is empty.", FORM));
    }
    if text.trim_start().starts_with(['{', '[']) {
        return Ok(ReadGuide {
            guide: Guide::from_json(text)?,
            remarks: Vec::new(),
        });
    }
    let table = if cgats_read::is_cgats(text) {
        cgats_read::table(text)?
    } else {
        csv_read::table(text)?
    };
    from_table(&table, name)
}

/// UTF-8, or the one-byte letters of western Europe, which spreadsheets still write.
fn text_of(bytes: &[u8]) -> Result<String> {
    let text = String::from_utf8(bytes.to_vec())
        .unwrap_or_else(|_| bytes.iter().map(|b| char::from(*b)).collect());
    let odd = |c: char| c.is_control() && !matches!(c, '\t' | '\r' | '\n');
    if text.contains(odd) {
        return Err(Error::unsupported(
            "The file is no text table.",
            "Give CSV in UTF-8, CGATS text, or a guide that this program saved.",
        ));
    }
    Ok(text)
}

fn from_table(table: &Table, name: &str) -> Result<ReadGuide> {
    let light = light(table)?;
    let read = entries(table)?;
    let mut remarks = Vec::new();
    let mut say = |when: bool, what: &str| {
        if when {
            remarks.push(what.to_owned());
        }
    };
    say(
        light == Light::D50,
        "The colours stand for D50; they were adapted to D65 (Bradford).",
    );
    say(
        light == Light::Unsaid,
        "The table does not say for which light its colours stand; they are taken as D65.",
    );
    let source = read
        .source
        .or(table.measured.then_some(GuideSource::Measured));
    say(
        source.is_none(),
        "The table does not say whether its colours were measured on your own tabs; they are taken for \
         published averages. A column “source” that says measured changes that.",
    );
    say(read.others, "Rows of teeth and restorations were left out.");
    say(read.blank, "Rows without a colour were left out.");
    say(table.more, "Only the first table of the file was read.");
    say(
        read.tabs.iter().any(|t| matches!(t.colours, [.., None])),
        "Where only the thirds were given, the whole is the mean of their light.",
    );
    if let Some(doubt) = read.doubt.filter(|d| *d > 0.0) {
        remarks.push(format!(
            "The colours carry a doubt of up to ΔE00 {doubt:.1}; as colours of a guide they are taken for exact."
        ));
    }
    let to_d65 = (light == Light::D50).then(|| bradford(WHITE_D50, WHITE_D65));
    let tabs: Result<Vec<GuideTab>> = read
        .tabs
        .iter()
        .map(|t| tab_of(t, to_d65.as_ref()))
        .collect();
    let tabs = tabs?;
    if tabs.is_empty() {
        return Err(Error::input(
            "The table has no row with the colour of a tab.",
            FORM,
        ));
    }
    let guide = Guide {
        name: name.to_owned(),
        source: source.unwrap_or(GuideSource::Published),
        tabs,
        note: (!remarks.is_empty()).then(|| remarks.join(" ")),
    };
    guide.check()?;
    Ok(ReadGuide { guide, remarks })
}

fn tab_of(entry: &Entry, to_d65: Option<&Matrix3>) -> Result<GuideTab> {
    let adapted = |lab: Lab| match to_d65 {
        Some(matrix) => Lab::from_xyz_d65(matrix.apply(lab.to_xyz(WHITE_D50))),
        None => lab,
    };
    let [cervical, middle, incisal, whole] = entry.colours.map(|c| c.map(adapted));
    let lab = match (whole, cervical, middle, incisal) {
        (Some(whole), ..) => whole,
        (None, Some(c), Some(m), Some(i)) => mean(&[c, m, i]),
        _ => {
            return Err(Error::input(
                format!(
                    "The tab “{}” has neither the colour of the whole nor those of all three thirds.",
                    shown(&entry.name)
                ),
                "Add a row, or columns, for the whole tab.",
            ));
        }
    };
    let zones = GuideZones {
        cervical,
        middle,
        incisal,
    };
    Ok(GuideTab {
        name: entry.name.clone(),
        lab,
        zones: (zones != GuideZones::default()).then_some(zones),
    })
}

/// The colour of the mean light.
fn mean(labs: &[Lab; 3]) -> Lab {
    let mut sum = [0.0; 3];
    for lab in labs {
        for (s, v) in sum.iter_mut().zip(lab.to_xyz_d65()) {
            *s += v / 3.0;
        }
    }
    Lab::from_xyz_d65(sum)
}

/// What a file says of light and observer: in CGATS by keywords, in CSV by the names of its columns.
fn light(table: &Table) -> Result<Light> {
    let of_rows = table
        .head
        .iter()
        .position(|h| matches!(bare(h).as_str(), "illuminant" | "lichtart" | "iluminante"));
    let of_rows = of_rows.into_iter().flat_map(|at| {
        let cells = table
            .rows
            .iter()
            .filter_map(move |(_, cells)| cells.get(at));
        cells
            .filter(|c| !c.is_empty())
            .map(|c| format!("ILLUMINANT {c}"))
    });
    let said = table.conditions.iter().cloned().chain(of_rows);
    // The name of a column says only what it says: D65, D50, 10°.
    let heads = table
        .head
        .iter()
        .map(|h| h.to_lowercase().replace("illuminant", ""));
    let mut out = Light::Unsaid;
    for text in said.chain(heads) {
        let upper = text.to_uppercase();
        let words: Vec<&str> = upper
            .split(|c: char| !c.is_alphanumeric())
            .filter(|w| !w.is_empty())
            .collect();
        let has = |word: &str| words.contains(&word);
        let angle = upper.contains("OBSERVER") || upper.contains("DEG");
        if has("10DEG") || has("1964") || upper.contains("10°") || (angle && has("10")) {
            return Err(Error::unsupported(
                "The colours stand for the 10° observer.",
                "Export them for D65 and the 2° observer.",
            ));
        }
        let found = if has("D65") {
            Light::D65
        } else if has("D50") {
            Light::D50
        } else if upper.contains("ILLUMINANT") && !upper.contains("OBSERVER") {
            let other = words.last().copied().unwrap_or_default();
            return Err(Error::unsupported(
                format!("The colours stand for the light “{}”.", shown(other)),
                "Export them for D65 and the 2° observer.",
            ));
        } else {
            continue;
        };
        if out != Light::Unsaid && out != found {
            return Err(Error::input(
                "The file says both D50 and D65.",
                "Export the colours for D65 alone.",
            ));
        }
        out = found;
    }
    Ok(out)
}
