//! Coats, mixes and thirds in words.

use crate::scene::Zone;
use crate::stain::types::Paint;
use std::fmt;

/// "cervical third".
pub const fn third(zone: Zone) -> &'static str {
    match zone {
        Zone::Cervical => "cervical third",
        Zone::Middle => "middle third",
        Zone::Incisal => "incisal third",
        Zone::Whole => "whole",
    }
}

/// The same at the head of a sentence.
pub struct Third(pub Zone);

impl fmt::Display for Third {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self.0 {
            Zone::Cervical => "Cervical third",
            Zone::Middle => "Middle third",
            Zone::Incisal => "Incisal third",
            Zone::Whole => "Whole",
        })
    }
}

/// "cervical and middle third".
pub fn thirds(zones: &[Zone]) -> String {
    let names: Vec<&str> = zones
        .iter()
        .map(|z| third(*z).trim_end_matches(" third"))
        .collect();
    match names.as_slice() {
        [one] => format!("{one} third"),
        [one, other] => format!("{one} and {other} third"),
        [one, other, last] => format!("{one}, {other} and {last} third"),
        _ => String::new(),
    }
}

/// "1½ coats", "¾ coat".
pub fn coats(count: f64) -> String {
    let whole = count.floor();
    let quarter = match ((count - whole) * 4.0).round() as u32 {
        1 => "¼",
        2 => "½",
        3 => "¾",
        _ => "",
    };
    let number = if whole == 0.0 && !quarter.is_empty() {
        quarter.to_owned()
    } else {
        format!("{whole}{quarter}")
    };
    let unit = if count > 1.0 { "coats" } else { "coat" };
    format!("{number} {unit}")
}

/// "6 parts umber + 4 parts slate", or the stain alone.
pub fn mix(paint: &Paint) -> String {
    match paint.mix.as_slice() {
        [] => "nothing".to_owned(),
        [one] => format!("{} alone", one.stain),
        several => several
            .iter()
            .map(|s| {
                let unit = if s.parts == 1 { "part" } else { "parts" };
                format!("{} {unit} {}", s.parts, s.stain)
            })
            .collect::<Vec<_>>()
            .join(" + "),
    }
}

/// One decimal with a true minus sign, and no minus before a zero.
pub fn number(value: f64) -> String {
    let text = format!("{:.1}", value.abs());
    if value < 0.0 && text != "0.0" {
        format!("−{text}")
    } else {
        text
    }
}

/// The head letter large.
pub fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or(String::new(), |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::stain::types::Share;

    #[test]
    fn coats_read_as_fractions() {
        for (count, want) in [
            (0.25, "¼ coat"),
            (1.0, "1 coat"),
            (1.5, "1½ coats"),
            (2.75, "2¾ coats"),
            (3.0, "3 coats"),
        ] {
            assert_eq!(coats(count), want);
        }
    }

    #[test]
    fn numbers_have_a_true_minus() {
        assert_eq!(
            [number(-0.04), number(-1.26), number(3.0)],
            ["0.0", "−1.3", "3.0"]
        );
    }

    #[test]
    fn mixes_read_as_parts() {
        let share = |stain: &str, parts| Share {
            stain: stain.to_owned(),
            parts,
        };
        let paint = |mix| Paint { mix, coats: 1.0 };
        assert_eq!(mix(&paint(vec![share("umber", 10)])), "umber alone");
        assert_eq!(
            mix(&paint(vec![share("umber", 9), share("slate", 1)])),
            "9 parts umber + 1 part slate"
        );
    }
}
