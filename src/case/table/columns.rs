//! Which column of a table is what, by its name, in any order and spelling: "L*", "LAB_L", "CIE L*
//! (D65)", "cervical L*".

use super::{FORM, Table, listed};
use crate::error::{Error, Result};
use crate::scene::Zone;

/// Where things stand in each row.
#[derive(Debug, Clone, PartialEq)]
pub struct Columns {
    /// The tab's name.
    pub name: usize,
    /// L*, a*, b* of a zone; of the zone that the row names for `None`.
    pub colours: Vec<(Option<Zone>, [usize; 3])>,
    /// Which zone the row is about.
    pub zone: Option<usize>,
    /// Whether the row is a tab, a tooth or a restoration.
    pub kind: Option<usize>,
    /// Whether its colour was measured or published.
    pub source: Option<usize>,
    /// The doubt of its colour, ΔE00.
    pub doubt: Option<usize>,
}

/// The names of the columns L*, a*, b*.
pub const AXES: [&str; 3] = ["L*", "a*", "b*"];

/// In order of preference.
const NAMES: &[&str] = &[
    "region",
    "name",
    "tab",
    "tabname",
    "shade",
    "shadename",
    "farbmuster",
    "muestra",
    "nombre",
    "samplename",
    "label",
    "sample",
    "sampleid",
    "id",
];
const ZONES: &[(&str, Zone)] = &[
    ("cervical", Zone::Cervical),
    ("zervikal", Zone::Cervical),
    ("middle", Zone::Middle),
    ("mitte", Zone::Middle),
    ("medio", Zone::Middle),
    ("incisal", Zone::Incisal),
    ("inzisal", Zone::Incisal),
    ("whole", Zone::Whole),
    ("ganz", Zone::Whole),
    ("entero", Zone::Whole),
];

/// Letters and digits alone, lower case.
pub fn bare(text: &str) -> String {
    text.chars()
        .take(100)
        .filter(|c| c.is_alphanumeric())
        .flat_map(char::to_lowercase)
        .collect()
}

/// The zone that a word means.
pub fn zone_of(word: &str) -> Option<Zone> {
    let word = bare(word);
    ZONES.iter().find(|(w, _)| *w == word).map(|(_, z)| *z)
}

/// Which colour of which zone a column holds.
fn colour_of(head: &str) -> Option<(Option<Zone>, usize)> {
    let mut word = bare(head);
    for noise in ["d65", "d50", "2deg", "10deg", "cie", "lab", "star", "value"] {
        word = word.replace(noise, "");
    }
    let zone = ZONES.iter().find(|(w, _)| word.contains(w));
    if let Some((w, _)) = zone {
        word = word.replacen(w, "", 1);
    }
    let axis = ["l", "a", "b"].iter().position(|a| *a == word)?;
    Some((zone.map(|(_, z)| *z), axis))
}

/// Finds the columns of a table.
pub fn columns(table: &Table) -> Result<Columns> {
    let heads: Vec<String> = table.head.iter().map(|h| bare(h)).collect();
    let first = |words: &[&str]| words.iter().find_map(|w| heads.iter().position(|h| h == w));
    let mut found: Vec<(Option<Zone>, [Option<usize>; 3])> = Vec::new();
    for (place, head) in table.head.iter().enumerate() {
        let Some((zone, axis)) = colour_of(head) else {
            continue;
        };
        if !found.iter().any(|(z, _)| *z == zone) {
            found.push((zone, [None; 3]));
        }
        let slot = found.iter_mut().find(|(z, _)| *z == zone);
        if let Some(place_of) = slot.and_then(|(_, axes)| axes.get_mut(axis)) {
            if place_of.is_some() {
                return Err(Error::input(
                    format!("The table has two columns for {}.", name_of(zone, axis)),
                    "Keep one of them.",
                ));
            }
            *place_of = Some(place);
        }
    }
    if found.is_empty() {
        return Err(no_colours(table, &heads));
    }
    let mut colours = Vec::new();
    for (zone, axes) in found {
        match axes {
            [Some(l), Some(a), Some(b)] => colours.push((zone, [l, a, b])),
            _ => {
                let axis = axes.iter().position(Option::is_none).unwrap_or(0);
                return Err(missing(table, &name_of(zone, axis)));
            }
        }
    }
    Ok(Columns {
        name: first(NAMES).ok_or_else(|| missing(table, "the name"))?,
        colours,
        zone: first(&["zone", "third", "drittel", "tercio", "zona"]),
        kind: first(&["kind", "regionkind"]),
        source: first(&["source", "quelle", "herkunft", "fuente", "origen"]),
        doubt: first(&["doubtde00", "doubt"]),
    })
}

fn name_of(zone: Option<Zone>, axis: usize) -> String {
    let axis = AXES.get(axis).unwrap_or(&"L*");
    let word = zone.and_then(|z| ZONES.iter().find(|(_, other)| *other == z));
    word.map_or_else(|| (*axis).to_owned(), |(word, _)| format!("{word} {axis}"))
}

fn missing(table: &Table, what: &str) -> Error {
    Error::input(
        format!(
            "The table has no column for {what}; its columns are: {}.",
            listed(&table.head)
        ),
        FORM,
    )
}

/// Without L*a*b*: other kinds of colour are called by their name.
fn no_colours(table: &Table, heads: &[String]) -> Error {
    let begins = |words: &[&str]| heads.iter().any(|h| words.iter().any(|w| h.starts_with(w)));
    let other = if begins(&["xyz"]) {
        "XYZ"
    } else if begins(&["spec", "nm", "spectral"]) {
        "spectra"
    } else if begins(&["rgb", "cmyk", "hsv", "hex"]) {
        "device colours"
    } else {
        return missing(table, "L*");
    };
    Error::unsupported(
        format!("The table holds {other}, no L*a*b*."),
        "Export the colours as L*a*b* for D65 and the 2° observer.",
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(head: &[&str]) -> Result<Columns> {
        columns(&Table {
            head: head.iter().map(|h| (*h).to_owned()).collect(),
            ..Table::default()
        })
    }

    #[test]
    fn any_order_and_spelling() {
        for (head, want) in [
            (&["name", "L*", "a*", "b*"][..], (0, [1, 2, 3])),
            (&["b", "A", " l ", "Shade"], (3, [2, 1, 0])),
            (
                &["SAMPLE_ID", "SAMPLE_NAME", "LAB_L", "LAB_A", "LAB_B"],
                (1, [2, 3, 4]),
            ),
            (
                &[
                    "Tab",
                    "CIE L* (D65)",
                    "CIE a* (D65)",
                    "CIE b* (D65)",
                    "C*",
                    "h",
                ],
                (0, [1, 2, 3]),
            ),
        ] {
            let found = of(head).map(|c| (c.name, c.colours));
            assert_eq!(found, Ok((want.0, vec![(None, want.1)])), "{head:?}");
        }
        let wide = of(&[
            "name",
            "cervical L*",
            "cervical a*",
            "cervical b*",
            "L_whole",
            "a_whole",
            "b_whole",
        ]);
        assert_eq!(
            wide.map(|c| c.colours),
            Ok(vec![
                (Some(Zone::Cervical), [1, 2, 3]),
                (Some(Zone::Whole), [4, 5, 6])
            ])
        );
    }

    #[test]
    fn what_is_missing_is_named() {
        for (head, word) in [
            (
                &["name", "L*", "a*"][..],
                "for b*; its columns are: name, L*, a*.",
            ),
            (&["L*", "a*", "b*"], "for the name;"),
            (&["name", "XYZ_X", "XYZ_Y", "XYZ_Z"], "holds XYZ, no L*a*b*"),
            (&["name", "SPECTRAL_NM400"], "holds spectra"),
            (&["name", "C*", "h"], "no column for L*"),
            (&["name", "L*", "L", "a", "b"], "two columns for L*"),
        ] {
            let said = of(head).map_err(|e| e.to_string());
            assert!(
                said.as_ref().is_err_and(|e| e.contains(word)),
                "{head:?}: {said:?}"
            );
        }
    }
}
