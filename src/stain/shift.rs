//! What firing does to a painted colour, learned from the user's own pairs.
//!
//! Stain as applied and stain after firing differ for every stain (Mulla & Weiner, J. Prosthet.
//! Dent. 65 (1991) 507), in a direction that depends on the material: nothing is assumed, the
//! mean shift of the user's pairs is taken once they agree.

use super::types::{FiredShift, Swatch};
use crate::colour::{Lab, delta_e_00};

/// Pairs needed before numbers are given.
const ENOUGH: usize = 4;
/// ± beyond which the pairs agree too little to be of use, ΔE00.
const MAX_DOUBT: f64 = 2.0;

/// The mean shift fired − unfired; `None` without a pair.
pub fn fired_shift<'a>(swatches: impl Iterator<Item = &'a Swatch>) -> Option<FiredShift> {
    let pairs: Vec<(Lab, Lab)> = swatches
        .filter_map(|s| Some((s.unfired?, s.after)))
        .filter(|(u, _)| u.is_finite())
        .collect();
    let n = pairs.len() as f64;
    if pairs.is_empty() {
        return None;
    }
    let mut shift = [0.0; 3];
    for (unfired, fired) in &pairs {
        for ((s, f), u) in shift.iter_mut().zip(fired.0).zip(unfired.0) {
            *s += (f - u) / n;
        }
    }
    // What the mean leaves, with the mean's own uncertainty: ×(1 + 1∕n), n − 1 freedoms.
    let left: f64 = pairs
        .iter()
        .map(|(u, f)| {
            let d = delta_e_00(shifted(*u, shift), *f);
            d * d
        })
        .sum::<f64>();
    let spread = (left / (n - 1.0).max(1.0) * (1.0 + 1.0 / n)).sqrt();
    // rms to 95 % with three parts (χ: 2.795 ∕ √3), more where few pairs speak.
    let doubt = spread * 1.614 * (1.0 + 2.0 / n);
    Some(FiredShift {
        pairs: pairs.len() as u32,
        shift,
        doubt,
        usable: pairs.len() >= ENOUGH && doubt <= MAX_DOUBT,
    })
}

/// A colour moved by a shift.
pub fn shifted(lab: Lab, shift: [f64; 3]) -> Lab {
    let [l, a, b] = lab.0;
    let [dl, da, db] = shift;
    Lab::new(l + dl, a + da, b + db)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pair(unfired: [f64; 3], after: [f64; 3]) -> Swatch {
        Swatch {
            stain: "umber".to_owned(),
            mix: None,
            coats: 1.0,
            base: Lab::new(78.0, 0.0, 13.0),
            after: Lab(after),
            unfired: Some(Lab(unfired)),
            doubt: None,
            note: String::new(),
        }
    }

    #[test]
    fn pairs_that_agree_can_be_used() {
        let pairs: Vec<Swatch> = [0.0, 0.1, -0.1, 0.05]
            .iter()
            .map(|d| pair([74.0 + d, 2.0, 16.0], [75.0, 2.5, 17.5]))
            .collect();
        let shift = fired_shift(pairs.iter()).unwrap();
        assert!(
            shift.usable && (shift.shift[0] - 0.99).abs() < 0.02,
            "{shift:?}"
        );
        assert!(!fired_shift(pairs.iter().take(3)).unwrap().usable);
    }

    #[test]
    fn pairs_that_do_not_agree_cannot() {
        let pairs: Vec<Swatch> = [0.0, 4.0, -4.0, 3.0, -3.0]
            .iter()
            .map(|d| pair([74.0 + d, 2.0, 16.0], [75.0, 2.5, 17.5]))
            .collect();
        assert!(!fired_shift(pairs.iter()).unwrap().usable);
        assert!(fired_shift(std::iter::empty()).is_none());
    }
}
