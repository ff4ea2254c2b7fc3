//! The plain data of what a correction stands on.

use serde::{Deserialize, Serialize};

/// How far readings can be trusted, by what their correction stands on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub enum Trust {
    /// One grey patch.
    Card,
    /// Several neutral steps.
    CardSteps,
    /// The card, and tabs by their published colours.
    CardAndTabs,
    /// The card, and the user's own tabs by their measured colours.
    CardAndOwnTabs,
}

/// A tab in the photo whose colour is known, judged by the others.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct AnchorTab {
    /// The region's id.
    pub region: String,
    /// Its name in the guide.
    pub name: String,
    /// ΔE00 between its known colour and what the other tabs (with none: the card) make of it.
    pub left_out_delta_e_00: f64,
    /// Whether it was used; a tab that the others contradict is not.
    pub used: bool,
}

/// What the readings of a photo stand on.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct LightReport {
    /// The level of trust.
    pub trust: Trust,
    /// The same in words.
    pub words: String,
    /// What would raise it; missing at the highest level.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub raise: Option<String>,
    /// The tabs of known colour.
    pub tabs: Vec<AnchorTab>,
    /// How much the light differs between the outlined regions, as a share of it, after what
    /// card and tabs say; it is corrected.
    pub falloff: f64,
    /// A tone curve was found on the card's steps and undone.
    pub tone_curve: bool,
}
