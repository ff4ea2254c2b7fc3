//! CGATS text (ANSI CGATS.17, ISO 28178) to a table of text: keywords, one data format, one set of
//! data. Numbers with a decimal point, words with spaces in quotes, # begins a comment.

use super::{FORM, MAX_COLUMNS, MAX_ROWS, Table, too_many_rows};
use crate::error::{Error, Result};

const BEGIN_FORMAT: &str = "BEGIN_DATA_FORMAT";
const END_FORMAT: &str = "END_DATA_FORMAT";
const BEGIN: &str = "BEGIN_DATA";
const END: &str = "END_DATA";

/// Keywords that say for which light, observer and white the colours stand.
const CONDITIONS: &[&str] = &[
    "WEIGHTING_FUNCTION",
    "COMPUTATIONAL_PARAMETER",
    "ILLUMINANT",
    "OBSERVER",
    "WHITE_POINT",
    "MEASUREMENT_CONDITION",
];

/// Whether a text is CGATS: it has the marks that no CSV has.
pub fn is_cgats(text: &str) -> bool {
    let has = |mark: &str| text.lines().any(|l| l.trim() == mark);
    text.starts_with("CGATS") || (has(BEGIN_FORMAT) && has(BEGIN))
}

/// Takes a CGATS file apart.
pub fn table(text: &str) -> Result<Table> {
    let mut out = Table::default();
    let (mut fields, mut sets) = (None, None);
    let mut lines = text.lines();
    // Keywords stand before the format and between format and data.
    let mut formatted = false;
    for line in lines.by_ref() {
        let mut words = Words::of(line);
        let Some(key) = words.next() else { continue };
        match key.as_str() {
            BEGIN => break,
            BEGIN_FORMAT => formatted = true,
            END_FORMAT => formatted = false,
            _ if formatted => {
                out.head.push(key);
                out.head.extend(words);
            }
            "NUMBER_OF_FIELDS" => fields = words.next().and_then(|w| w.parse::<usize>().ok()),
            "NUMBER_OF_SETS" => sets = words.next().and_then(|w| w.parse::<usize>().ok()),
            key => {
                let value: Vec<String> = words.take(20).collect();
                out.measured |= matches!(key, "MEASUREMENT_SOURCE" | "INSTRUMENTATION");
                if CONDITIONS.contains(&key) && out.conditions.len() < 50 {
                    out.conditions.push(format!("{key} {}", value.join(" ")));
                }
            }
        }
        if out.head.len() > MAX_COLUMNS {
            return Err(Error::too_large(
                format!("The table has more than {MAX_COLUMNS} columns."),
                FORM,
            ));
        }
    }
    if out.head.is_empty() {
        return Err(Error::damaged(
            "The CGATS file names no fields before its data.",
            "Export it once more.",
        ));
    }
    if fields.is_some_and(|n| n != out.head.len()) {
        return Err(Error::damaged(
            "The CGATS file says another number of fields than it names.",
            "Export it once more.",
        ));
    }
    let mut ended = false;
    let mut row: Vec<String> = Vec::new();
    for line in lines.by_ref() {
        let mut words = Words::of(line).peekable();
        if words.peek().map(String::as_str) == Some(END) {
            ended = true;
            break;
        }
        for word in words {
            row.push(word);
            if row.len() == out.head.len() {
                if out.rows.len() == MAX_ROWS {
                    return Err(too_many_rows());
                }
                out.rows
                    .push((out.rows.len() + 1, std::mem::take(&mut row)));
            }
        }
    }
    if !row.is_empty() || !ended || sets.is_some_and(|n| n != out.rows.len()) {
        return Err(Error::damaged(
            format!(
                "The CGATS file breaks off or is uneven in row {}.",
                out.rows.len() + usize::from(!row.is_empty())
            ),
            "Each row needs a value for every field; export it once more.",
        ));
    }
    out.more = lines.any(|l| l.trim() == BEGIN);
    Ok(out)
}

/// The words of a line: quoted ones whole, none behind a comment's sign.
struct Words<'a>(&'a str);

impl<'a> Words<'a> {
    const fn of(line: &'a str) -> Self {
        Self(line)
    }
}

impl Iterator for Words<'_> {
    type Item = String;

    fn next(&mut self) -> Option<String> {
        self.0 = self.0.trim_start();
        match self.0.chars().next()? {
            '#' => None,
            quote @ ('"' | '\'') => {
                let rest = self.0.get(1..).unwrap_or_default();
                let (word, rest) = rest.split_once(quote).unwrap_or((rest, ""));
                self.0 = rest;
                Some(word.to_owned())
            }
            _ => {
                let end = self.0.find(char::is_whitespace).unwrap_or(self.0.len());
                let (word, rest) = self.0.split_at(end);
                self.0 = rest;
                Some(word.to_owned())
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const SOUND: &str = "CGATS.17\nWEIGHTING_FUNCTION \"ILLUMINANT, D50\"\nNUMBER_OF_FIELDS 4\nBEGIN_DATA_FORMAT\n\
                         SAMPLE_ID LAB_L LAB_A LAB_B\nEND_DATA_FORMAT\nNUMBER_OF_SETS 2\nBEGIN_DATA\n\
                         \"A 1\"\t79.6 -1.33 13.05 # first\n\nA2 76.07 0.33\n16.73\nEND_DATA\n";

    #[test]
    fn a_sound_file() {
        let found = table(SOUND).expect("a table");
        assert_eq!(found.head, ["SAMPLE_ID", "LAB_L", "LAB_A", "LAB_B"]);
        assert_eq!(found.rows.len(), 2);
        assert_eq!(found.rows[0].1, ["A 1", "79.6", "-1.33", "13.05"]);
        assert_eq!(
            found.rows[1],
            (
                2,
                ["A2", "76.07", "0.33", "16.73"].map(str::to_owned).to_vec()
            )
        );
        assert_eq!(found.conditions, ["WEIGHTING_FUNCTION ILLUMINANT, D50"]);
        assert!(is_cgats(SOUND) && !is_cgats("name,L*,a*,b*\nBEGIN_DATA,1,2,3"));
    }

    #[test]
    fn broken_ones() {
        for (from, to) in [
            ("16.73", ""),
            ("END_DATA\n", ""),
            ("SETS 2", "SETS 3"),
            ("FIELDS 4", "FIELDS 5"),
            ("SAMPLE_ID LAB_L LAB_A LAB_B", ""),
        ] {
            let text = SOUND.replace(from, to);
            assert_eq!(
                table(&text).map_err(|e| e.kind()),
                Err("file-damaged"),
                "{from}"
            );
        }
        let many = SOUND
            .replace("A2 76.07", &"X 1 2 3\n".repeat(3000))
            .replace("SETS 2", "SETS 3001");
        assert_eq!(table(&many).map_err(|e| e.kind()), Err("too-large"));
    }
}
