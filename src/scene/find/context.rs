//! What a candidate looks like beside the other things in the photo.
//!
//! Crowns and tabs of one photo are of one family of colours and sizes, in whatever light; a
//! card, a holder, a glove or a patch of gum is not. The family is the median of what looks most
//! like crowns at first sight.

use super::candidate::{CONTEXT, Candidate};
use super::choose::choose;
use super::likely::likely_in_context;
use crate::colour::order::median;

/// Likelier than this at first sight: of the family.
const FAMILY: f32 = 0.75;

/// The family of a photo.
pub struct Family {
    looks: [f32; 4],
    count: f32,
}

impl Family {
    /// From candidates judged at first sight or in context.
    pub fn of(candidates: &[Candidate]) -> Self {
        let first = choose(candidates.to_vec());
        let sure: Vec<&Candidate> = first.iter().filter(|c| c.likely > FAMILY).collect();
        let count = sure.len() as f32;
        let of: Vec<&Candidate> = if sure.is_empty() {
            first.iter().collect()
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
            candidate.context = context;
            candidate.likely = likely_in_context(&context);
        }
    }
}

/// Lightness, two chromaticities, logarithm of the area.
fn looks(c: &Candidate) -> [f32; 4] {
    let [l, a, b] = c.model.middle();
    let scale = 1.0 / l.max(0.05);
    let [.., area] = c.traits;
    [l, a * scale, b * scale, area]
}
