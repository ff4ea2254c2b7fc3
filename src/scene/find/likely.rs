//! How likely a candidate is a crown or a tab: a logistic sum over its traits and their squares.
//!
//! The weights were fitted by ridge-regularised logistic regression on candidates of rendered
//! scenes (by other seeds than the tests use), a candidate counting as a crown when it overlaps a
//! true one by 0.8 and more. Each line names its trait, so that every weight can be read.

use super::candidate::{CONTEXT, TRAITS};
use super::context_weights::{CONTEXT_CONSTANT, CONTEXT_WEIGHTS};
use super::likely_weights::{CONSTANT, WEIGHTS};

/// Mean and spread of a trait over the candidates, weight of the normalised trait and of its
/// square.
pub type Weight = [f32; 4];

/// 0–1, at first sight.
pub fn likely(traits: &[f32; TRAITS]) -> f32 {
    logistic(traits, &WEIGHTS, CONSTANT)
}

/// 0–1, beside what else was found.
pub fn likely_in_context(context: &[f32; CONTEXT]) -> f32 {
    logistic(context, &CONTEXT_WEIGHTS, CONTEXT_CONSTANT)
}

fn logistic(traits: &[f32], weights: &[Weight], constant: f32) -> f32 {
    let sum: f32 = traits
        .iter()
        .zip(weights)
        .map(|(t, [mean, spread, linear, square])| {
            let z = ((t - mean) / spread).clamp(-6.0, 6.0);
            linear * z + square * z * z
        })
        .sum();
    1.0 / (1.0 + libm::expf(-(sum + constant)))
}
