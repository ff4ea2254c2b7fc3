//! CSV to a table of text: comma, semicolon or tab between the cells, quoted or not, lines that begin
//! with # left out.

use super::{FORM, MAX_COLUMNS, MAX_ROWS, Table, too_many_rows};
use crate::error::{Error, Result};
use csv::{ByteRecord, ReaderBuilder};

/// Takes a CSV apart.
pub fn table(text: &str) -> Result<Table> {
    let (text, said) = match text.split_once('\n') {
        // What some spreadsheets write first.
        Some((first, rest)) if first.trim_end().len() == 5 && first.starts_with("sep=") => {
            (rest, first.as_bytes().get(4).copied())
        }
        _ => (text, None),
    };
    let mut reader = ReaderBuilder::new()
        .delimiter(said.unwrap_or_else(|| delimiter(text)))
        .comment(Some(b'#'))
        .has_headers(false)
        .flexible(true)
        .from_reader(text.as_bytes());
    let mut out = Table::default();
    let mut rows = RowNumbers::new(text, 1 + usize::from(said.is_some()));
    let mut record = ByteRecord::new();
    loop {
        let at = usize::try_from(reader.position().byte()).unwrap_or(usize::MAX);
        if !reader.read_byte_record(&mut record).map_err(broken)? {
            return Ok(out);
        }
        let row = rows.at(at);
        let cells = record
            .iter()
            .map(|c| String::from_utf8_lossy(c).trim().to_owned());
        if out.head.is_empty() {
            if record.len() > MAX_COLUMNS {
                return Err(Error::too_large(
                    format!("The table has more than {MAX_COLUMNS} columns."),
                    FORM,
                ));
            }
            out.head = cells.collect();
            continue;
        }
        let mut cells: Vec<String> = cells.take(MAX_COLUMNS + 1).collect();
        while cells.last().is_some_and(String::is_empty) {
            cells.pop();
        }
        if cells.is_empty() {
            continue;
        }
        if cells.len() > out.head.len() {
            return Err(Error::input(
                format!("Row {row} has more cells than the first row names columns."),
                "Numbers with a decimal comma need semicolons or tabs between the cells, or quotes.",
            ));
        }
        if out.rows.len() == MAX_ROWS {
            return Err(too_many_rows());
        }
        out.rows.push((row, cells));
    }
}

fn broken(error: csv::Error) -> Error {
    Error::damaged(
        format!("The table could not be taken apart: {error}."),
        "Save it as CSV once more.",
    )
}

/// The sign between the cells: that which the first row has most often outside quotes.
fn delimiter(text: &str) -> u8 {
    let first = text
        .lines()
        .find(|l| !l.trim().is_empty() && !l.starts_with('#'))
        .unwrap_or_default();
    let mut quoted = false;
    let mut counts = [(b'\t', 0_usize), (b';', 0), (b',', 0)];
    for byte in first.bytes() {
        quoted ^= byte == b'"';
        for (sign, count) in &mut counts {
            *count += usize::from(!quoted && byte == *sign);
        }
    }
    let most = counts.iter().map(|c| c.1).max().unwrap_or(0);
    counts.iter().find(|c| c.1 == most).map_or(b',', |c| c.0)
}

/// Row numbers as a spreadsheet shows them: a reader's own count leaves out empty lines.
struct RowNumbers<'a> {
    bytes: &'a [u8],
    at: usize,
    row: usize,
}

impl<'a> RowNumbers<'a> {
    const fn new(text: &'a str, row: usize) -> Self {
        Self {
            bytes: text.as_bytes(),
            at: 0,
            row,
        }
    }

    /// The row of the record that is the first at or behind a byte.
    fn at(&mut self, byte: usize) -> usize {
        let passed = self.bytes.get(self.at..byte).unwrap_or_default();
        self.row += passed.iter().filter(|b| **b == b'\n').count();
        self.at = self.at.max(byte.min(self.bytes.len()));
        let rest = self.bytes.get(self.at..).unwrap_or_default();
        let mut skipped = 0;
        for line in rest.split_inclusive(|b| *b == b'\n') {
            let blank = line.iter().all(|b| matches!(b, b'\r' | b'\n'));
            // The end of the record before, or a line that is left out.
            if !blank && line.first() != Some(&b'#') {
                break;
            }
            skipped += 1;
        }
        self.row + skipped
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn all_delimiters_quotes_and_row_numbers() {
        for text in [
            "name,L*,a*,b*\nA1,1,2,3\n\n# no row\nB1,4,5,6\n",
            "name;L*;a*;b*\r\nA1;1;2;3\r\n\r\n#\r\nB1;4;5;6",
            "name\tL*\ta*\tb*\nA1\t1\t2\t3\n\n#x\n\"B1\"\t4\t5\t\"6\"\n",
        ] {
            let found = table(text).map(|t| (t.head.len(), t.rows));
            let row = |n, cells: [&str; 4]| (n, cells.map(str::to_owned).to_vec());
            let want = vec![row(2, ["A1", "1", "2", "3"]), row(5, ["B1", "4", "5", "6"])];
            assert_eq!(found, Ok((4, want)), "{text}");
        }
        let said = table("sep=;\nname;L*\nA,1;2\n").map(|t| t.rows);
        assert_eq!(said, Ok(vec![(3, vec!["A,1".to_owned(), "2".to_owned()])]));
    }

    #[test]
    fn unquoted_decimal_commas_between_commas() {
        let said = table("name,L*,a*,b*\nA1,79,6,-1,3,13,1\n").map_err(|e| e.to_string());
        assert!(said.is_err_and(|e| e.starts_with("Row 2 has more cells")));
    }

    #[test]
    fn bounds() {
        let many = format!("name,L*\n{}", "A,1\n".repeat(10_000));
        assert_eq!(table(&many).map_err(|e| e.kind()), Err("too-large"));
        let wide = ",".repeat(100_000);
        assert_eq!(table(&wide).map_err(|e| e.kind()), Err("too-large"));
    }
}
