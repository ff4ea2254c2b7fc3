//! How likely a patch is the card: a logistic sum over its traits and their squares, fitted like
//! that of the crowns (see [`super::super::likely`]).

use super::TRAITS;
use super::weights::{CONSTANT, WEIGHTS};

/// 0–1.
pub fn likely(traits: &[f64; TRAITS]) -> f64 {
    let sum: f64 = traits
        .iter()
        .zip(&WEIGHTS)
        .map(|(t, [mean, spread, linear, square])| {
            let z = ((t - mean) / spread).clamp(-6.0, 6.0);
            linear * z + square * z * z
        })
        .sum();
    1.0 / (1.0 + libm::exp(-(sum + CONSTANT)))
}
