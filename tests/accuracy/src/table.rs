//! Medians and shares of lists of numbers, and tables of words.

use std::fmt;

/// The value below which the share `share` (0–1) of the numbers lies; NaN for none.
pub fn percentile(values: &[f64], share: f64) -> f64 {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    let last = sorted.len().saturating_sub(1);
    sorted
        .get((last as f64 * share).round() as usize)
        .copied()
        .unwrap_or(f64::NAN)
}

/// The median; NaN for none.
pub fn median(values: &[f64]) -> f64 {
    percentile(values, 0.5)
}

/// The share of `true`, in percent; NaN for none.
pub fn percent(values: &[bool]) -> f64 {
    let hits = values.iter().filter(|v| **v).count();
    100.0 * hits as f64 / values.len() as f64
}

/// A Markdown table.
pub struct Table {
    rows: Vec<Vec<String>>,
}

impl Table {
    /// With its heading.
    pub fn new(heading: &[&str]) -> Self {
        Self {
            rows: vec![heading.iter().map(|h| (*h).to_owned()).collect()],
        }
    }

    /// Adds a row.
    pub fn row(&mut self, cells: Vec<String>) {
        self.rows.push(cells);
    }
}

impl fmt::Display for Table {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (i, row) in self.rows.iter().enumerate() {
            writeln!(f, "| {} |", row.join(" | "))?;
            if i == 0 {
                writeln!(f, "|{}", "---|".repeat(row.len()))?;
            }
        }
        Ok(())
    }
}
