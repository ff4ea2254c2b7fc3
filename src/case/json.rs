//! Text to plain data, bounded: how deep and how many values are counted before any of them is
//! made. Numbers beyond what a computer's numbers hold are refused by the parser, and JSON has
//! no NaN.

use crate::error::{Error, Result};
use serde::de::DeserializeOwned;
use serde_json::Value;

/// Lists and objects inside each other.
const MAX_DEPTH: usize = 48;
/// Values in one text.
const MAX_VALUES: usize = 4_000_000;

const AGAIN: &str = "Ask the sender to save and send the case once more.";

/// Parses a part of a case file.
pub fn parse(part: &str, bytes: &[u8]) -> Result<Value> {
    let (depth, values) = extent(bytes);
    if depth > MAX_DEPTH || values > MAX_VALUES {
        return Err(Error::too_large(
            format!(
                "{part} in the case file is nested deeper than {MAX_DEPTH} or holds more than {MAX_VALUES} values."
            ),
            "Open only case files that this program wrote; ask the sender for the case as it was saved.",
        ));
    }
    serde_json::from_slice(bytes).map_err(|e| unreadable(part, &e.to_string()))
}

/// The plain data as what it should be.
pub fn typed<T: DeserializeOwned>(part: &str, value: Value) -> Result<T> {
    serde_json::from_value(value).map_err(|e| unreadable(part, &e.to_string()))
}

/// A part that is not what it should be; `why` may quote the file.
pub fn unreadable(part: &str, why: &str) -> Error {
    Error::damaged(
        format!(
            "{part} in the case file could not be read: {}.",
            plain(why, 200)
        ),
        AGAIN,
    )
}

/// Text of a file as it may be shown: on one line, not too long.
pub fn plain(text: &str, most: usize) -> String {
    text.chars()
        .filter(|c| !c.is_control())
        .take(most)
        .collect()
}

/// How deep lists and objects lie in each other, and how many values there are at most.
fn extent(bytes: &[u8]) -> (usize, usize) {
    let (mut depth, mut deepest, mut values) = (0_usize, 0, 1_usize);
    let (mut in_text, mut escaped) = (false, false);
    for byte in bytes {
        if in_text {
            match (escaped, byte) {
                (true, _) => escaped = false,
                (false, b'\\') => escaped = true,
                (false, b'"') => in_text = false,
                _ => {}
            }
            continue;
        }
        match byte {
            b'"' => in_text = true,
            b'[' | b'{' => {
                depth += 1;
                values += 1;
                deepest = deepest.max(depth);
            }
            b']' | b'}' => depth = depth.saturating_sub(1),
            b',' => values += 1,
            _ => {}
        }
    }
    (deepest, values)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn extents() {
        assert_eq!(extent(b"1"), (0, 1));
        assert_eq!(extent(br#"{"a":[1,2,[3]]}"#), (3, 6));
        assert_eq!(extent(br#"["[[[,,,\"[[",2]"#), (1, 3));
    }

    #[test]
    fn bounds() {
        let deep = |n: usize| "[".repeat(n) + &"]".repeat(n);
        assert!(parse("x", deep(MAX_DEPTH).as_bytes()).is_ok());
        assert!(parse("x", deep(MAX_DEPTH + 1).as_bytes()).is_err());
        let many = format!("[{}0]", "0,".repeat(MAX_VALUES));
        assert_eq!(
            parse("x", many.as_bytes()).map_err(|e| e.kind()),
            Err("too-large")
        );
        for bad in [
            "NaN",
            "[1e999]",
            "[-1e999]",
            "[Infinity]",
            "{\"a\":1",
            "",
            "\u{feff}{}",
        ] {
            assert_eq!(
                parse("x", bad.as_bytes()).map_err(|e| e.kind()),
                Err("file-damaged"),
                "{bad}"
            );
        }
    }
}
