//! The plain data of stain advice.

use crate::colour::threshold::Verdict;
use crate::scene::Zone;
use serde::{Deserialize, Serialize};

/// Which way surface stain would have to go in one zone.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub enum StainDirection {
    /// Within what people see, or within the doubt: leave it.
    Leave,
    /// Lower the value (grey or the complementary colour).
    LowerValue,
    /// Add chroma in the tooth's own hue.
    AddChroma,
    /// Turn the hue towards red.
    Redder,
    /// Turn the hue towards yellow.
    Yellower,
    /// The chroma is too high: only the complementary colour lowers it, and value with it.
    ReduceChroma,
    /// The restoration is too dark for its target: surface stain does not raise value.
    CannotLighten,
}

/// The advice for one zone.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct ZoneAdvice {
    /// The third.
    pub zone: Zone,
    /// ΔE00 between restoration and target.
    pub delta_e_00: f64,
    /// ± on that, in ΔE00.
    pub doubt: f64,
    /// Restoration − target: positive when the restoration is lighter (ΔL′ ÷ SL).
    pub delta_l: f64,
    /// Positive when the restoration has more chroma (ΔC′ ÷ SC).
    pub delta_c: f64,
    /// Positive when the restoration is yellower, negative when it is redder (ΔH′ ÷ SH).
    pub delta_h: f64,
    /// Against the two thresholds.
    pub verdict: Verdict,
    /// In words: "The restoration is lighter, with less chroma."
    pub words: String,
    /// What to do, most important first (value, then chroma, then hue).
    pub directions: Vec<StainDirection>,
    /// The same in plain sentences, in the same order.
    pub steps: Vec<String>,
}

/// How one restoration differs from its target.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct StainAdvice {
    /// The restoration's id.
    pub restoration: String,
    /// The id of the region it is compared with.
    pub target: String,
    /// One per third that could be read in both, cervical first.
    pub zones: Vec<ZoneAdvice>,
    /// What must be said with any advice.
    pub cautions: Vec<String>,
}
