//! Practice: one tab turned into another, and scored.

use crate::colour::Lab;
use crate::colour::threshold::Verdict;
use crate::scene::Zone;
use serde::{Deserialize, Serialize};

/// One third of an exercise.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct PracticeZone {
    /// The third.
    pub zone: Zone,
    /// The base tab before.
    pub base: Lab,
    /// The same tab, painted and fired.
    pub got: Lab,
    /// The target tab.
    pub target: Lab,
    /// ± on the difference between the last two, ΔE00.
    pub doubt: f64,
    /// Unevenness of the painted tab, ΔE00.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub blotch: Option<f64>,
    /// Unevenness of the target tab.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub target_blotch: Option<f64>,
}

/// An exercise to be scored.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct PracticeRequest {
    /// The thirds.
    pub zones: Vec<PracticeZone>,
}

/// One third's score.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct PracticeZoneScore {
    /// The third.
    pub zone: Zone,
    /// ΔE00 between base and target: what had to be done.
    pub start_delta_e_00: f64,
    /// ΔE00 between result and target: what is left.
    pub left_delta_e_00: f64,
    /// That against the two thresholds.
    pub verdict: Verdict,
    /// In words.
    pub words: String,
}

/// How close and how even an exercise came.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct PracticeScore {
    /// Mean ΔE00 left over the thirds.
    pub colour: f64,
    /// ΔE00 between the neck-to-edge change of result and target: how well the gradient is met.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub gradient: Option<f64>,
    /// Unevenness above the target's, ΔE00, worst third; 0 when it is as even.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub evenness: Option<f64>,
    /// Share of the way from base to target, 0–1 (colour).
    pub way: f64,
    /// One sentence: what to do differently.
    pub words: String,
    /// The thirds.
    pub zones: Vec<PracticeZoneScore>,
}
