//! What a tap can mean: the candidates around it, and some grown from the tap itself.

use super::candidate::{Candidate, around, colour_at};
use super::choose::shared;
use super::context;
use super::likely::likely;
use super::seeds::Seed;
use crate::colour::order::sorted_by_key;
use crate::scene::grow::features::Features;

/// Sizes of what may lie under a tap, as distances to its nearest edge in longest sides.
const SIZES: [f64; 6] = [0.014, 0.022, 0.034, 0.05, 0.075, 0.11];
/// How far each may reach, in that distance.
const REACH: f64 = 2.6;
/// Outlines that share more than this of both are the same.
const SAME: f64 = 0.86;
/// Much less likely than the likeliest: not offered.
const LEAST_SHARE: f32 = 0.002;
/// Outlines offered at most.
const MOST: usize = 5;

/// Candidates with the tap as their seed, judged beside those that stand in the photo.
pub fn candidates_at(features: &Features, at: [f64; 2], chosen: &[Candidate]) -> Vec<Candidate> {
    let longest = features.longest_side();
    let mut own: Vec<Candidate> = SIZES
        .iter()
        .filter_map(|size| {
            let seed = Seed {
                at,
                radius: size * longest,
                steadiness: 0.3,
            };
            around(features, &seed, &colour_at(features, &seed), REACH)
        })
        .map(|c| Candidate {
            likely: likely(&c.traits),
            ..c
        })
        .collect();
    context::Family::of(chosen).judge(&mut own);
    own
}

/// The likeliest that contain the tap, each unlike those before it. A tap is meant for what it
/// is in the middle of.
pub fn best_different(mut pool: Vec<Candidate>, at: [f64; 2]) -> Vec<Candidate> {
    let most = pool.iter().map(|c| c.likely).fold(0.0, f32::max);
    pool.retain(|c| c.curve.contains(at) && c.likely > LEAST_SHARE * most);
    let rank = |c: &Candidate| {
        let middle = c.curve.middle();
        let radius = c.curve.radii().iter().sum::<f64>() / c.curve.radii().len().max(1) as f64;
        let off = libm::hypot(middle[0] - at[0], middle[1] - at[1]) / radius.max(1.0);
        let odds = f64::from(c.likely).clamp(1e-4, 1.0 - 1e-4);
        libm::log(odds / (1.0 - odds)) - 2.0 * off * off
    };
    let ranked = sorted_by_key(pool, |c| -rank(c));
    different(ranked.into_iter())
}

/// Those that are unlike all before them, some at most.
pub fn different(candidates: impl Iterator<Item = Candidate>) -> Vec<Candidate> {
    let mut kept: Vec<Candidate> = Vec::new();
    for candidate in candidates {
        if kept.iter().all(|k| alike(k, &candidate) < SAME) {
            kept.push(candidate);
        }
        if kept.len() == MOST {
            break;
        }
    }
    kept
}

/// The lesser of the two shares in common.
fn alike(a: &Candidate, b: &Candidate) -> f64 {
    let (p, q) = shared(a, b);
    p.min(q)
}
