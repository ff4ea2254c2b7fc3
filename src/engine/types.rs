//! What the engine takes and gives, in the page's terms.

use crate::error::LightCheck;
use crate::light::LightReport;
use crate::photo::PhotoInfo;
use crate::reading::{Ladder, RegionReading};
use crate::scene::Scene;
use crate::stain::StainAdvice;
use serde::{Deserialize, Serialize};

/// Everything that is said about one photo (or pair) and its scene. This is what the command
/// line prints.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct Report {
    /// Program version that made these numbers.
    pub version: String,
    /// The photo (the plain one of a pair).
    pub photo: PhotoInfo,
    /// Findings about the photo's fitness, the gravest first.
    pub checks: Vec<LightCheck>,
    /// The scene the numbers belong to: what was given, with axes filled in.
    pub scene: Scene,
    /// What the readings stand on; missing without a usable card.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub light: Option<LightReport>,
    /// One per region that could be read.
    pub readings: Vec<RegionReading>,
    /// One per tooth or restoration and zone.
    pub ladders: Vec<Ladder>,
    /// For each restoration: how it differs from its target and which way a stain would go.
    pub advice: Vec<StainAdvice>,
    /// With a cross-polarised photo: how the two lie over each other.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pair: Option<Pair>,
}

/// How a cross-polarised photo lies over the plain one.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct Pair {
    /// The cross-polarised photo.
    pub photo: PhotoInfo,
    /// 2×3 matrix, row-major: plain pixel (x, y, 1) → cross-polarised pixel.
    pub transform: [[f64; 3]; 2],
    /// How far the cross-polarised photo is turned against the plain one, in degrees clockwise.
    pub turn_deg: f64,
    /// How many times larger it shows the teeth.
    pub scale: f64,
    /// The user laid it over by hand.
    pub by_hand: bool,
}

/// What the user chose beside the scene.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct ReadOptions {
    /// The id of the region that restorations are compared with; the nearest tooth otherwise.
    pub target: Option<String>,
}

/// A photo that was opened.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct Opened {
    /// The handle for further calls.
    pub id: u32,
    /// Size, space, facts.
    pub info: PhotoInfo,
    /// Findings about the file.
    pub checks: Vec<LightCheck>,
}

/// A picture to lay over a part of a photo.
#[derive(Debug, Clone, PartialEq)]
pub struct Patch {
    /// Its place in upright photo pixels: left, top, width, height.
    pub place: [f64; 4],
    /// Its pixels, as many across as there are.
    pub picture: crate::photo::Preview,
    /// Of a map of differences: the ΔE00 from which it is as opaque as it gets (alpha 200 of
    /// 255); alpha is proportional below.
    pub full_delta_e_00: Option<f64>,
}
