//! Tables of colours as text, for other programs and from them: CGATS.17 written from a reading;
//! CSV and CGATS read as a shade guide.
//!
//! Colours are L*a*b* under D65, 2° observer. What a file says to be D50 is adapted (Bradford);
//! anything else is refused in words. Sizes are bounded before anything is taken apart.

mod cgats_read;
mod cgats_write;
mod columns;
mod csv_read;
mod entries;
mod guide;
mod numbers;

pub use cgats_write::{Colours, cgats};
pub use guide::{ReadGuide, guide_from};

use crate::error::Error;

/// No table of a guide is larger.
const MAX_BYTES: usize = 4 << 20;
/// 500 tabs in four zones.
const MAX_ROWS: usize = 2000;
const MAX_COLUMNS: usize = 200;

/// A table taken apart into text.
#[derive(Debug, Clone, Default, PartialEq)]
struct Table {
    /// The names of its columns.
    head: Vec<String>,
    /// Its rows, each with the number that a person would give it.
    rows: Vec<(usize, Vec<String>)>,
    /// What the file says of the light and the observer of its colours, in its own words.
    conditions: Vec<String>,
    /// It says itself that its colours were measured.
    measured: bool,
    /// Something in it was not read.
    more: bool,
}

const FORM: &str = "A table has one row per tab and the columns name, L*, a* and b*.";

fn too_many_rows() -> Error {
    Error::too_large(
        format!("The table has more than {MAX_ROWS} rows."),
        "A guide has at most 500 tabs with four colours each; keep the rows that are needed.",
    )
}

/// Text of a file as it may be shown: on one line, not too long.
fn shown(text: &str) -> String {
    super::json::plain(text.trim(), 40)
}

/// Names of columns as they may be shown.
fn listed(head: &[String]) -> String {
    let all: Vec<String> = head.iter().take(12).map(|h| shown(h)).collect();
    all.join(", ")
}

/// Signs that turn around what stands beside them, or that nobody sees. Joiners are none: scripts need
/// them.
fn is_hidden(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{200b}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{feff}')
}
