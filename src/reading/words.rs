//! Colour differences in plain words: value first, then chroma, then hue.

use crate::colour::threshold::{ACCEPTABILITY_DELTA_E_00, PERCEPTIBILITY_DELTA_E_00};
use crate::colour::{DeltaE00Parts, Lab, delta_e_00_parts};

/// What the words are about, for the sentence that says there is no difference.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Subject {
    /// A tab beside a zone, or any colour beside another.
    Tab,
    /// A restoration beside its target.
    Restoration,
}

/// Parts of a difference smaller than this are not worth a word: half the perceptibility
/// threshold.
pub const WORDLESS_DELTA_E_00: f64 = PERCEPTIBILITY_DELTA_E_00 / 2.0;

/// How `other` differs from `reference`: "clearly lighter, slightly less chroma, redder".
pub fn difference_in_words(reference: Lab, other: Lab, subject: Subject) -> String {
    let parts = delta_e_00_parts(reference, other);
    let words = part_words(&parts, reference);
    if words.is_empty() {
        return match subject {
            Subject::Tab => "no difference to speak of".to_owned(),
            Subject::Restoration => "no difference to speak of from its target".to_owned(),
        };
    }
    words.join(", ")
}

fn part_words(parts: &DeltaE00Parts, reference: Lab) -> Vec<String> {
    // Red to yellow is how hue is spoken of on teeth; elsewhere on the circle those words lie.
    let tooth_hue = (30.0..=130.0).contains(&reference.hue_deg());
    let hue = if tooth_hue {
        ["yellower", "redder"]
    } else {
        ["another hue", "another hue"]
    };
    [
        (parts.delta_l, ["lighter", "darker"]),
        (parts.delta_c, ["more chroma", "less chroma"]),
        (parts.delta_h, hue),
    ]
    .into_iter()
    .filter(|(part, _)| part.abs() >= WORDLESS_DELTA_E_00)
    .map(|(part, [up, down])| {
        let word = if part > 0.0 { up } else { down };
        if part.abs() >= ACCEPTABILITY_DELTA_E_00 {
            format!("clearly {word}")
        } else if part.abs() < PERCEPTIBILITY_DELTA_E_00 {
            format!("slightly {word}")
        } else {
            word.to_owned()
        }
    })
    .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_follow_the_signs() {
        let tooth = Lab::new(75.0, 1.0, 18.0);
        let say = |l, a, b| difference_in_words(tooth, Lab::new(l, a, b), Subject::Tab);
        assert_eq!(say(75.0, 1.0, 18.0), "no difference to speak of");
        assert_eq!(say(79.0, 1.0, 18.0), "clearly lighter");
        assert_eq!(say(74.2, 1.0, 18.0), "slightly darker");
        assert_eq!(say(77.0, 1.0, 15.0), "lighter, less chroma");
        assert_eq!(say(75.0, 2.0, 17.9), "redder");
        assert_eq!(say(75.0, -1.0, 18.0), "clearly yellower");
    }
}
