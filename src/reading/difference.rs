//! Plain colours against each other: zones of several photos, or tab against tab.
//!
//! ΔE00 (1:1:1) and its signed parts of L*a*b* under D65, `to − from`: the sign of a rung with
//! the zone as `from` and the tab as `to`, and of advice with the target as `from`.
//! Every photo stands on its own card, so the errors of two photos are independent and their
//! doubts add as squares. Inside one photo much of the error is shared; give `doubt_in_photo`
//! there.

use super::words::{Subject, difference_in_words};
use crate::colour::threshold::Verdict;
use crate::colour::{Lab, delta_e_00_parts};
use crate::error::{Error, Result};
use serde::{Deserialize, Serialize};

/// Pairs that are compared in one call.
pub const MAX_PAIRS: usize = 4096;
/// No colour has a coordinate beyond this; it keeps the seventh powers of ΔE00 finite.
const LARGEST: f64 = 1000.0;

/// A colour with what is known of its error.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct Colour {
    /// L*a*b*, D65, 2° observer.
    pub lab: Lab,
    /// The ± on it, in ΔE00 (about 95 %), where it is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub doubt: Option<f64>,
}

/// Two colours to compare.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct ColourPair {
    /// The reference.
    pub from: Colour,
    /// What is described against it.
    pub to: Colour,
}

/// How `to` differs from `from`: parts are `to − from`, so a positive `delta_l` says that `to`
/// is the lighter one.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct Difference {
    /// ΔE00 (1:1:1).
    pub delta_e_00: f64,
    /// ΔL′ ÷ SL.
    pub delta_l: f64,
    /// ΔC′ ÷ SC.
    pub delta_c: f64,
    /// ΔH′ ÷ SH.
    pub delta_h: f64,
    /// The same in words: "lighter, less chroma".
    pub words: String,
    /// Against the perceptibility and acceptability thresholds.
    pub verdict: Verdict,
    /// The ± on `delta_e_00` (about 95 %): the root of the sum of squares of both doubts, which
    /// are taken for independent. Missing when one of them is not known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub doubt: Option<f64>,
}

/// Compares each pair, in their order.
pub fn differences(pairs: &[ColourPair]) -> Result<Vec<Difference>> {
    if pairs.len() > MAX_PAIRS {
        return Err(Error::input(
            format!(
                "{} pairs of colours were given; at most {MAX_PAIRS} are compared at once.",
                pairs.len()
            ),
            "Compare fewer colours.",
        ));
    }
    let sound = |c: &Colour| {
        c.lab.0.iter().all(|v| v.abs() <= LARGEST)
            && c.doubt.is_none_or(|d| (0.0..=LARGEST).contains(&d))
    };
    if let Some(at) = pairs.iter().position(|p| !sound(&p.from) || !sound(&p.to)) {
        return Err(Error::input(
            format!("A colour or doubt of pair {} cannot be.", at + 1),
            "Give L*, a*, b* as numbers, and a doubt of 0 or more or none.",
        ));
    }
    Ok(pairs.iter().map(difference).collect())
}

fn difference(pair: &ColourPair) -> Difference {
    let (from, to) = (pair.from.lab, pair.to.lab);
    let parts = delta_e_00_parts(from, to);
    Difference {
        delta_e_00: parts.delta_e_00,
        delta_l: parts.delta_l,
        delta_c: parts.delta_c,
        delta_h: parts.delta_h,
        words: difference_in_words(from, to, Subject::Tab),
        verdict: Verdict::of_delta_e_00(parts.delta_e_00),
        doubt: pair
            .from
            .doubt
            .zip(pair.to.doubt)
            .map(|(a, b)| libm::hypot(a, b)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pair(from: [f64; 3], to: [f64; 3], doubts: [Option<f64>; 2]) -> ColourPair {
        let [a, b] = doubts;
        ColourPair {
            from: Colour {
                lab: Lab(from),
                doubt: a,
            },
            to: Colour {
                lab: Lab(to),
                doubt: b,
            },
        }
    }

    fn one(pair: ColourPair) -> Difference {
        differences(&[pair]).expect("sound").remove(0)
    }

    #[test]
    fn signs_words_and_verdict_are_of_the_second_colour() {
        let d = one(pair([75.0, 1.0, 18.0], [77.0, 1.0, 15.0], [None; 2]));
        assert!(d.delta_l > 0.0 && d.delta_c < 0.0);
        assert_eq!(d.words, "lighter, less chroma");
        assert_eq!(d.verdict, Verdict::Disturbing);
        assert_eq!(d.doubt, None);
        let back = one(pair([77.0, 1.0, 15.0], [75.0, 1.0, 18.0], [None; 2]));
        assert!((back.delta_l + d.delta_l).abs() < 1e-12);
        assert_eq!(back.words, "darker, more chroma");
    }

    #[test]
    fn doubts_add_as_squares_when_both_are_known() {
        let with = |doubts| one(pair([75.0, 1.0, 18.0], [76.0, 1.0, 18.0], doubts)).doubt;
        assert_eq!(with([Some(3.0), Some(4.0)]), Some(5.0));
        assert_eq!(with([Some(3.0), Some(0.0)]), Some(3.0));
        assert_eq!(with([Some(3.0), None]), None);
        assert_eq!(with([None, Some(3.0)]), None);
    }

    #[test]
    fn what_cannot_be_compared_is_refused_by_its_number() {
        let good = pair([75.0, 1.0, 18.0], [76.0, 1.0, 18.0], [None; 2]);
        for bad in [
            pair([f64::NAN, 1.0, 18.0], [76.0, 1.0, 18.0], [None; 2]),
            pair([75.0, 1.0, 18.0], [76.0, f64::INFINITY, 18.0], [None; 2]),
            pair([75.0, 1.0, 1e200], [76.0, 1.0, 18.0], [None; 2]),
            pair([75.0, 1.0, 18.0], [76.0, 1.0, 18.0], [Some(-0.1), None]),
            pair([75.0, 1.0, 18.0], [76.0, 1.0, 18.0], [None, Some(f64::NAN)]),
        ] {
            let said = differences(&[good, bad]).expect_err("refused").to_string();
            assert!(said.contains("pair 2"), "{said}");
        }
        assert!(differences(&vec![good; MAX_PAIRS]).is_ok());
        let said = differences(&vec![good; MAX_PAIRS + 1])
            .expect_err("too many")
            .to_string();
        assert!(said.contains("4096"), "{said}");
        assert!(differences(&[]).expect("nothing to do").is_empty());
    }
}
