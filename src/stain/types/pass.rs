//! Passes: what was painted, what came out, and the look before firing.

use super::plan::{Paint, PlanLimits};
use crate::colour::Lab;
use crate::colour::threshold::Verdict;
use crate::scene::Zone;
use serde::{Deserialize, Serialize};

/// One third of a fired pass.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct PassZone {
    /// The third.
    pub zone: Zone,
    /// What was painted.
    pub paint: Paint,
    /// Before.
    pub before: Lab,
    /// As the plan predicted it.
    pub predicted: Lab,
    /// ± on that, ΔE00.
    pub predicted_doubt: f64,
    /// After firing.
    pub got: Lab,
    /// The target.
    pub target: Lab,
    /// ± on the difference between what came out and the target, ΔE00.
    pub doubt: f64,
}

/// The steps painted together before one firing, and what came of them.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct Pass {
    /// A foundation of glaze was under it.
    #[serde(default)]
    pub foundation: bool,
    /// What the next pass may use: whether it is worth it is judged by these.
    #[serde(default)]
    pub limits: PlanLimits,
    /// The thirds.
    pub zones: Vec<PassZone>,
}

/// Whether another pass is worth it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub enum PassAdvice {
    /// What is left is below what people see: stop.
    StopBelowPerceptibility,
    /// What is left is within the doubt: another pass would chase noise.
    StopWithinDoubt,
    /// The next pass is predicted to bring no improvement that is seen.
    StopNothingGained,
    /// Another pass would help.
    Go,
}

/// One third, looked back at.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct PassZoneReview {
    /// The third.
    pub zone: Zone,
    /// ΔE00 to the target before the pass.
    pub before_delta_e_00: f64,
    /// ΔE00 to the target now.
    pub left_delta_e_00: f64,
    /// That against the two thresholds.
    pub verdict: Verdict,
    /// ΔE00 between what came out and what was predicted.
    pub miss_delta_e_00: f64,
    /// That lies within the doubt of prediction and reading.
    pub as_predicted: bool,
    /// In words: "Came out lighter than predicted, ΔE00 1.1: the coats were thinner."
    pub words: String,
}

/// A fired pass, looked back at.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct PassReview {
    /// Go on or stop.
    pub advice: PassAdvice,
    /// The same in one sentence.
    pub words: String,
    /// The thirds.
    pub zones: Vec<PassZoneReview>,
}

/// One third that is painted and not fired yet.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct UnfiredZone {
    /// The third.
    pub zone: Zone,
    /// Before painting.
    pub before: Lab,
    /// Painted, not fired.
    pub unfired: Lab,
    /// What the plan predicts after firing.
    pub predicted: Lab,
    /// ± on that, ΔE00.
    pub predicted_doubt: f64,
    /// ± on the unfired reading, ΔE00.
    pub doubt: f64,
    /// Unevenness of the bare third, ΔE00, when it is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub blotch_before: Option<f64>,
    /// Unevenness now.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub blotch: Option<f64>,
}

/// A second look at what is painted.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct UnfiredRequest {
    /// The thirds.
    pub zones: Vec<UnfiredZone>,
}

/// What to do with a third while it can still be changed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub enum UnfiredAdvice {
    /// As it should be.
    Leave,
    /// Too much: lift or thin it.
    Thin,
    /// Too little: add.
    Add,
    /// Patchy: spread it.
    Spread,
    /// The doubt is too large to say.
    CannotTell,
}

/// What the look says of one third.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct UnfiredZoneLook {
    /// The third.
    pub zone: Zone,
    /// Most important first.
    pub advice: Vec<UnfiredAdvice>,
    /// Fired colour predicted from the unfired one; only with a usable shift.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fired: Option<Lab>,
    /// ± on that, ΔE00.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fired_doubt: Option<f64>,
    /// About how much of the meant coats is there, 1 = all.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub share_of_coats: Option<f64>,
    /// In words.
    pub words: String,
}

/// The second look.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct UnfiredLook {
    /// Only directions: there are not yet enough pairs of unfired and fired readings.
    pub directions_only: bool,
    /// What that means, in words.
    pub words: String,
    /// The thirds.
    pub zones: Vec<UnfiredZoneLook>,
}
