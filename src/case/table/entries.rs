//! The rows of a table as colours of tabs: names, thirds and numbers checked, each fault with its row.

use super::columns::{AXES, Columns, bare, columns, zone_of};
use super::numbers::Numbers;
use super::{FORM, Table, is_hidden, shown};
use crate::colour::Lab;
use crate::error::{Error, Result};
use crate::reading::GuideSource;
use crate::scene::Zone;

const MAX_NAME: usize = 60;

/// The colours of one tab.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    /// Its name.
    pub name: String,
    /// Its colours by zone, cervical first, whole last.
    pub colours: [Option<Lab>; 4],
}

/// What the rows hold.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Entries {
    /// The tabs, in the order of their first rows.
    pub tabs: Vec<Entry>,
    /// What the rows say of where their colours come from.
    pub source: Option<GuideSource>,
    /// The largest doubt that a row states, ΔE00.
    pub doubt: Option<f64>,
    /// Teeth and restorations stood among the tabs.
    pub others: bool,
    /// Rows had no colour.
    pub blank: bool,
}

fn fault(what: String, remedy: &str) -> Error {
    Error::input(what, remedy)
}

/// Reads the rows.
pub fn entries(table: &Table) -> Result<Entries> {
    let columns = columns(table)?;
    let mut out = Entries::default();
    let mut numbers = Numbers::default();
    for (row, cells) in &table.rows {
        let cell = |at: usize| cells.get(at).map_or("", |c| c.trim());
        if columns
            .kind
            .is_some_and(|at| !matches!(bare(cell(at)).as_str(), "" | "tab"))
        {
            out.others = true;
            continue;
        }
        let found = colours_of(*row, &columns, &cell, &mut numbers)?;
        if found.is_empty() {
            out.blank = true;
            continue;
        }
        let name = name_of(*row, cell(columns.name))?;
        if let Some(at) = columns.source {
            let source = source_of(*row, cell(at))?;
            if source.is_some() && out.source.is_some() && source != out.source {
                return Err(fault(
                    format!("Row {row}: some colours are called measured, others published."),
                    "Make a table of each.",
                ));
            }
            out.source = source.or(out.source);
        }
        if let Some(doubt) = columns
            .doubt
            .map(|at| numbers.read(*row, cell(at)))
            .transpose()?
            .flatten()
        {
            out.doubt = Some(out.doubt.unwrap_or(0.0).max(doubt));
        }
        take(&mut out.tabs, *row, name, &found)?;
    }
    Ok(out)
}

/// The colours in a row by zone.
fn colours_of<'a>(
    row: usize,
    columns: &Columns,
    cell: &impl Fn(usize) -> &'a str,
    numbers: &mut Numbers,
) -> Result<Vec<(Zone, Lab)>> {
    let of_row = match columns.zone.map(cell).filter(|word| !word.is_empty()) {
        Some(word) => zone_of(word).ok_or_else(|| {
            fault(
                format!("Row {row}: “{}” is no third of a tab.", shown(word)),
                "A zone is cervical, middle, incisal or whole.",
            )
        })?,
        None => Zone::Whole,
    };
    let mut out = Vec::new();
    for (zone, places) in &columns.colours {
        let mut values = [None; 3];
        for (value, at) in values.iter_mut().zip(places) {
            *value = numbers.read(row, cell(*at))?;
        }
        match values {
            [Some(l), Some(a), Some(b)] => {
                let lab = [l, a, b];
                for ((value, axis), (least, most)) in
                    lab.iter()
                        .zip(AXES)
                        .zip([(0.0, 110.0), (-105.0, 105.0), (-105.0, 105.0)])
                {
                    if !(least..=most).contains(value) {
                        return Err(fault(
                            format!("Row {row}: {axis} {value} cannot be."),
                            "L* lies between 0 and 110, a* and b* between -105 and 105.",
                        ));
                    }
                }
                out.push((zone.unwrap_or(of_row), Lab(lab)));
            }
            [None, None, None] => {}
            _ => {
                let at = values.iter().position(Option::is_none).unwrap_or(0);
                return Err(fault(
                    format!("Row {row}: {} is missing.", AXES.get(at).unwrap_or(&"L*")),
                    "A colour needs all three of L*, a* and b*.",
                ));
            }
        }
    }
    Ok(out)
}

fn name_of(row: usize, cell: &str) -> Result<String> {
    // An exported table guards texts from spreadsheets by an apostrophe.
    let name = cell.strip_prefix('\'').unwrap_or(cell).trim();
    if name.is_empty() {
        return Err(fault(format!("Row {row} has no name."), FORM));
    }
    if name.chars().count() > MAX_NAME {
        return Err(fault(
            format!("Row {row}: the name is longer than {MAX_NAME} characters."),
            "Shorten it.",
        ));
    }
    if name.starts_with(['=', '+', '-', '@']) {
        return Err(fault(
            format!(
                "Row {row}: the name “{}” begins like a formula of a spreadsheet.",
                shown(name)
            ),
            "Write the tab's name itself.",
        ));
    }
    let odd = |c: char| {
        // Joiners and marks of direction belong to texts, but to no name of a tab.
        is_hidden(c) || matches!(c, '<' | '>' | '\u{200c}'..='\u{200f}')
    };
    if name.contains(odd) {
        return Err(fault(
            format!(
                "Row {row}: the name “{}” holds signs that belong to no name.",
                shown(name)
            ),
            "Write the tab's name itself.",
        ));
    }
    Ok(name.to_owned())
}

fn source_of(row: usize, cell: &str) -> Result<Option<GuideSource>> {
    match bare(cell).as_str() {
        "" => Ok(None),
        "measured" | "gemessen" | "medido" => Ok(Some(GuideSource::Measured)),
        "published" | "veröffentlicht" | "publicado" => Ok(Some(GuideSource::Published)),
        _ => Err(fault(
            format!("Row {row}: “{}” is no source.", shown(cell)),
            "A source is measured or published.",
        )),
    }
}

/// Puts the colours to their tab.
fn take(tabs: &mut Vec<Entry>, row: usize, name: String, found: &[(Zone, Lab)]) -> Result<()> {
    let at = tabs.iter().position(|t| t.name == name);
    let at = at.unwrap_or(tabs.len());
    if at == tabs.len() {
        tabs.push(Entry {
            name: name.clone(),
            colours: [None; 4],
        });
    }
    for (zone, lab) in found {
        let place = Zone::ALL.iter().position(|z| z == zone).unwrap_or(0);
        let slot = tabs.get_mut(at).and_then(|t| t.colours.get_mut(place));
        if let Some(slot) = slot
            && slot.replace(*lab).is_some()
        {
            return Err(fault(
                format!("Row {row} gives a colour of “{}” once more.", shown(&name)),
                "Each tab needs a name of its own, and one colour for each zone.",
            ));
        }
    }
    Ok(())
}
