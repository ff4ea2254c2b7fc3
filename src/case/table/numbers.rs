//! Numbers as people and programs write them: with a decimal point or a decimal comma, never both in
//! one table.

use super::shown;
use crate::error::{Error, Result};

/// Reads the numbers of one table.
#[derive(Debug, Default)]
pub struct Numbers {
    /// The decimal sign that was seen.
    sign: Option<char>,
}

impl Numbers {
    /// The number in a cell of a row; nothing for an empty one.
    pub fn read(&mut self, row: usize, cell: &str) -> Result<Option<f64>> {
        let cell = cell.trim();
        if cell.is_empty() {
            return Ok(None);
        }
        let no_number = || {
            Error::input(
                format!("Row {row}: “{}” is no number.", shown(cell)),
                "Write numbers like 79.6 or 79,6.",
            )
        };
        // Longer than any number that means something.
        if cell.len() > 40 {
            return Err(no_number());
        }
        let text = cell.replace('\u{2212}', "-");
        let signs = text.chars().filter(|c| matches!(c, '.' | ',')).count();
        let plain = |c: char| c.is_ascii_digit() || matches!(c, '.' | ',' | '-' | '+' | 'e' | 'E');
        if signs > 1 || !text.chars().all(plain) {
            return Err(no_number());
        }
        if let Some(sign) = text.chars().find(|c| matches!(c, '.' | ',')) {
            if self.sign.is_some_and(|seen| seen != sign) {
                return Err(Error::input(
                    format!(
                        "Row {row}: some numbers have a decimal point, others a decimal comma."
                    ),
                    "Write all of them in one way.",
                ));
            }
            self.sign = Some(sign);
        }
        text.replace(',', ".")
            .parse()
            .ok()
            .filter(|v: &f64| v.is_finite())
            .map(Some)
            .ok_or_else(no_number)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn one(cell: &str) -> Option<f64> {
        Numbers::default().read(2, cell).ok().flatten()
    }

    #[test]
    fn both_decimal_signs() {
        for (cell, want) in [
            ("79.6", 79.6),
            ("79,6", 79.6),
            (" -1.33 ", -1.33),
            ("−1,33", -1.33),
            ("+2", 2.0),
            ("1e1", 10.0),
            (".5", 0.5),
        ] {
            assert_eq!(one(cell), Some(want), "{cell}");
        }
        assert_eq!(Numbers::default().read(2, "  "), Ok(None));
    }

    #[test]
    fn what_is_no_number_is_named_with_its_row() {
        for bad in [
            "NaN",
            "nan",
            "inf",
            "-Infinity",
            "1e999",
            "=1+1",
            "1.234,5",
            "1,2,3",
            "0x10",
            "79.6 %",
            "--1",
            "1e",
            "<b>",
            "٣",
        ] {
            let said = Numbers::default().read(7, bad).map_err(|e| e.to_string());
            assert!(
                said.as_ref().is_err_and(|e| e.starts_with("Row 7: “")),
                "{bad}: {said:?}"
            );
        }
        assert!(Numbers::default().read(2, &"9".repeat(5000)).is_err());
    }

    #[test]
    fn one_sign_per_table() {
        let mut numbers = Numbers::default();
        assert_eq!(numbers.read(2, "79.6"), Ok(Some(79.6)));
        assert_eq!(numbers.read(2, "80"), Ok(Some(80.0)));
        let said = numbers.read(3, "79,6").map_err(|e| e.to_string());
        assert!(said.is_err_and(|e| e.starts_with("Row 3: some numbers")));
    }
}
