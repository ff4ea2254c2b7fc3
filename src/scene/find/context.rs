//! What a candidate looks like beside the other things in the photo.
//!
//! Crowns and tabs of one photo are of one family of colours and sizes, in whatever light; a
//! card, a holder, a glove or a patch of gum is not. The family is the median of what looks most
//! like crowns at first sight.

use super::candidate::Candidate;
use super::likely::likely_in_context;
use crate::colour::order::median;
use crate::scene::grow::features::chromaticity;

/// Traits of a candidate beside the others.
pub const CONTEXT: usize = 8;
/// Likelier than this: of the family.
const FAMILY: f32 = 0.75;

/// The family of a photo.
pub struct Family {
    looks: [f32; 4],
    count: f32,
}

impl Family {
    /// From candidates that stand side by side.
    pub fn of(chosen: &[Candidate]) -> Self {
        let sure: Vec<&Candidate> = chosen.iter().filter(|c| c.likely > FAMILY).collect();
        let count = sure.len() as f32;
        let of = if sure.is_empty() {
            chosen.iter().collect()
        } else {
            sure
        };
        let middle = |k: usize| {
            let mut v: Vec<f32> = of.iter().filter_map(|c| looks(c).get(k).copied()).collect();
            median(&mut v).unwrap_or(0.0)
        };
        Self {
            looks: [0, 1, 2, 3].map(middle),
            count,
        }
    }

    /// Judges candidates that were judged at first sight.
    pub fn judge(&self, candidates: &mut [Candidate]) {
        for candidate in candidates {
            let own = looks(candidate);
            let mut context = [0.0_f32; CONTEXT];
            for ((out, a), b) in context.iter_mut().zip(own).zip(self.looks) {
                *out = a - b;
            }
            let odds = candidate.likely.clamp(1e-4, 1.0 - 1e-4);
            let [border, weakest, ..] = candidate.traits;
            let rest = [
                libm::logf(odds / (1.0 - odds)),
                self.count.min(12.0),
                border + weakest,
                candidate.traits.get(7).copied().unwrap_or(0.0),
            ];
            for (out, v) in context.iter_mut().skip(4).zip(rest) {
                *out = v;
            }
            candidate.likely = likely_in_context(&context);
        }
    }
}

/// Lightness, two chromaticities, logarithm of the area.
fn looks(c: &Candidate) -> [f32; 4] {
    let colour = c.model.middle();
    let ([l, ..], [u, v]) = (colour, chromaticity(colour));
    let [.., area] = c.traits;
    [l, u, v, area]
}
