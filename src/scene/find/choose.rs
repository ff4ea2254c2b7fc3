//! From many candidates to those that can stand side by side.

use super::candidate::Candidate;
use crate::colour::order::sorted_by_key;
use crate::colour::root::hypot;
use crate::scene::grow::radial::direction;

/// Below this a candidate is not taken for a crown.
const LEAST_LIKELY: f32 = 0.2;
/// Two outlines that share more than this of the smaller one are about the same thing.
const SAME: f64 = 0.25;

/// The likeliest first, each kept unless it lies on one that is kept.
pub fn choose(mut candidates: Vec<Candidate>) -> Vec<Candidate> {
    candidates.retain(|c| c.likely >= LEAST_LIKELY);
    let candidates = sorted_by_key(candidates, |c| -f64::from(c.likely));
    let mut kept: Vec<Candidate> = Vec::new();
    for candidate in candidates {
        let free = |k: &Candidate| {
            let (a, b) = shared(k, &candidate);
            a.max(b) <= SAME
        };
        if kept.iter().all(free) {
            kept.push(candidate);
        }
    }
    kept
}

/// The share of each outline that lies in the other, 0–1.
pub fn shared(a: &Candidate, b: &Candidate) -> (f64, f64) {
    let reach = |c: &Candidate| c.curve.radii().iter().fold(0.0_f64, |m, r| m.max(*r));
    let [ca, cb] = [a.curve.centre(), b.curve.centre()];
    if hypot(ca[0] - cb[0], ca[1] - cb[1]) > reach(a) + reach(b) {
        return (0.0, 0.0);
    }
    (within(a, b), within(b, a))
}

/// The share of `a` that lies in `b`.
fn within(a: &Candidate, b: &Candidate) -> f64 {
    let n = a.curve.radii().len();
    let centre = a.curve.centre();
    let (mut inside, mut all) = (0.0, 0.0);
    for (i, r) in a.curve.radii().iter().enumerate().step_by(3) {
        let (s, c) = direction(i, n);
        for k in 0..4 {
            // Rings of equal width, weighed by their area.
            let share = (f64::from(k) + 0.5) / 4.0;
            let weight = share * r * r;
            all += weight;
            if b.curve
                .contains([centre[0] + share * r * c, centre[1] + share * r * s])
            {
                inside += weight;
            }
        }
    }
    inside / f64::max(all, 1e-9)
}
