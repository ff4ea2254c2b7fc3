//! How likely something is what it looks like: a logistic sum over its traits and their squares.
//!
//! The weights were fitted by ridge-regularised logistic regression on candidates of rendered
//! scenes (by other seeds than the tests use), a candidate counting as a crown when it overlaps a
//! true one by 0.8 and more, a patch as the card from 0.75. Each line names its trait, so that every weight can be read.

use super::candidate::TRAITS;
use super::context::CONTEXT;
use super::context_weights::{CONTEXT_CONSTANT, CONTEXT_WEIGHTS};
use super::likely_weights::{CONSTANT, WEIGHTS};

/// Mean and spread of a trait over the candidates, weight of the normalised trait and of its
/// square.
pub type Weight = [f64; 4];

/// How likely a candidate is a crown or a tab, 0–1, at first sight.
pub fn likely(traits: &[f32; TRAITS]) -> f32 {
    logistic(traits.map(f64::from), &WEIGHTS, CONSTANT) as f32
}

/// The same beside what else was found.
pub fn likely_in_context(context: &[f32; CONTEXT]) -> f32 {
    logistic(context.map(f64::from), &CONTEXT_WEIGHTS, CONTEXT_CONSTANT) as f32
}

/// The logistic sum, 0–1.
pub fn logistic<const N: usize>(traits: [f64; N], weights: &[Weight; N], constant: f64) -> f64 {
    let sum: f64 = traits
        .iter()
        .zip(weights)
        .map(|(t, [mean, spread, linear, square])| {
            let z = ((t - mean) / spread).clamp(-6.0, 6.0);
            linear * z + square * z * z
        })
        .sum();
    1.0 / (1.0 + libm::exp(-(sum + constant)))
}
