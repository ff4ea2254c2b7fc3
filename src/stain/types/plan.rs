//! Predictions and plans.

use crate::colour::Lab;
use crate::colour::threshold::Verdict;
use crate::scene::Zone;
use serde::{Deserialize, Serialize};

use super::Mix;

/// A question to the model: this base under so many coats of that mix.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct PredictRequest {
    /// Comes back with the answer.
    pub id: String,
    /// The base, L*a*b* D65.
    pub base: Lab,
    /// Stain → share; sums to 1.
    #[cfg_attr(target_arch = "wasm32", tsify(type = "Record<string, number>"))]
    pub mix: Mix,
    /// Coats, 0–12.
    pub coats: f64,
}

/// A predicted colour.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct Predicted {
    /// L*a*b* D65, fired.
    pub lab: Lab,
    /// ± in ΔE00 (about 95 %).
    pub doubt: f64,
}

/// The answer to a [`PredictRequest`].
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct Prediction {
    /// The request's.
    pub id: String,
    /// L*a*b* D65, fired.
    pub lab: Lab,
    /// ± in ΔE00 (about 95 %).
    pub doubt: f64,
}

/// One zone of a plan request.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct PlanZone {
    /// The third.
    pub zone: Zone,
    /// The restoration there.
    pub from: Lab,
    /// The target there.
    pub to: Lab,
    /// ± on the difference between the two readings in ΔE00; 0 when they are taken as exact.
    #[serde(default)]
    pub doubt: f64,
}

/// What a plan may use.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(default)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct PlanLimits {
    /// Coats that one firing may hold, 0.25–6; 3 unless the user says otherwise.
    pub coats_per_firing: f64,
    /// Firings that a plan may take, 1–3.
    pub firings: u32,
    /// Stains in one mix, 1 or 2.
    pub stains_per_mix: u32,
    /// Stains that may be used; all when empty.
    pub stains: Vec<String>,
    /// Stain that lightens may be used, at its price.
    pub may_lighten: bool,
    /// A foundation of glaze is painted first (its shift is in the prediction when the book
    /// has a glaze with swatches).
    pub foundation: bool,
}

impl Default for PlanLimits {
    fn default() -> Self {
        Self {
            coats_per_firing: 3.0,
            firings: 2,
            stains_per_mix: 2,
            stains: Vec::new(),
            may_lighten: true,
            foundation: true,
        }
    }
}

/// From where to where, and with what.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct PlanRequest {
    /// One to three thirds.
    pub zones: Vec<PlanZone>,
    /// What may be used.
    #[serde(default)]
    pub limits: PlanLimits,
}

/// A stain's part in a mix.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct Share {
    /// The stain.
    pub stain: String,
    /// Parts of ten by volume.
    pub parts: u32,
}

/// What is painted on one zone.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct Paint {
    /// Parts by volume, the larger first; empty when nothing is painted.
    pub mix: Vec<Share>,
    /// Coats in quarters; 0 when nothing is painted.
    pub coats: f64,
}

/// Why a zone cannot be brought to its target.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub enum ShortfallCode {
    /// The target is lighter, and no stain of the book is shown to lighten.
    TargetLighter,
    /// The target is darker, and what may be used does not lower value that far.
    TargetDarker,
    /// A lightening stain is used: the surface gets more opaque and looks flatter.
    LightenedAtAPrice,
    /// Chroma would have to be taken away.
    ChromaTooHigh,
    /// No stain at hand turns the hue that way.
    HueNotAtHand,
    /// More coats would be needed than the limit allows.
    CoatLimit,
    /// A stain that the limits leave out would bring it nearer.
    LeftOut,
    /// What is left has no single cause: no allowed mix comes nearer.
    NoNearer,
    /// The coats hide so much of the ceramic that it would look flat.
    Opaque,
}

/// What a plan cannot do, by how much, and what the trade does instead.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct Shortfall {
    /// Stable word.
    pub code: ShortfallCode,
    /// The third.
    pub zone: Zone,
    /// What falls short and by how much, in words with its figure.
    pub text: String,
    /// The trade's alternatives.
    pub instead: Vec<String>,
}

/// The plan of one third.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct ZonePlan {
    /// The third.
    pub zone: Zone,
    /// The restoration there, as given.
    pub from: Lab,
    /// The target there, as given.
    pub to: Lab,
    /// What is painted over all firings.
    pub paint: Paint,
    /// The colour after the last firing.
    pub predicted: Predicted,
    /// ΔE00 between restoration and target now.
    pub before_delta_e_00: f64,
    /// ΔE00 between prediction and target.
    pub after_delta_e_00: f64,
    /// That against the two thresholds.
    pub verdict: Verdict,
    /// In words, what is left: "A little lighter than the target."
    pub words: String,
    /// Firings this third needs.
    pub firings: u32,
    /// How much of the ceramic the coats hide, 0–1.
    pub opacity: f64,
}

/// What a step is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub enum StepKind {
    /// The foundation of glaze.
    Foundation,
    /// Paint on one or more thirds.
    Paint,
    /// A look by eye and by photo before firing.
    Look,
    /// Fire, by the material's own instructions.
    Fire,
    /// Photograph what came out.
    Photograph,
}

/// How far a coat is thinned out.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct Feather {
    /// Into which third.
    pub into: Zone,
    /// Share of that third, 0–1.
    pub share: f64,
}

/// One brush instruction.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct PlanStep {
    /// What it is about.
    pub kind: StepKind,
    /// The firing it belongs to, from 1.
    pub firing: u32,
    /// The thirds it is laid on, cervical first; empty when it is about all of them.
    pub zones: Vec<Zone>,
    /// Mix and coats of this firing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub paint: Option<Paint>,
    /// Where it is thinned out.
    #[serde(default)]
    pub feather: Vec<Feather>,
    /// The step in a few words: "Neck: 6 parts … with 4 parts …, 1½ coats".
    pub title: String,
    /// How it is laid: the stroke.
    pub stroke: String,
    /// What it should look like when it is right.
    pub look: String,
    /// The reading to expect on each of `zones` once this firing is done.
    pub expect: Vec<Predicted>,
}

/// What to paint, step by step, and what will come of it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct Plan {
    /// The strengths come from invented swatches.
    pub demo: bool,
    /// Limits that were used.
    pub limits: PlanLimits,
    /// One per third asked for, cervical first.
    pub zones: Vec<ZonePlan>,
    /// In the order of work.
    pub steps: Vec<PlanStep>,
    /// Firings in all; 0 when nothing is to be painted.
    pub firings: u32,
    /// Nothing is worth painting: why, in one sentence.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub leave: Option<String>,
    /// What cannot be reached.
    pub shortfalls: Vec<Shortfall>,
    /// What must be said with every plan.
    pub cautions: Vec<String>,
}
