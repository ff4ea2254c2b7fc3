//! How far readings are from the truth of rendered scenes, how well taps become outlines, and how
//! well stained colours are predicted.
//!
//! The renderer shares no code with the engine; the truth is each zone's diffuse colour seen
//! face-on under D65, without glare, shading, noise or camera.

pub mod contact;
pub mod faults;
pub mod finding;
pub mod finding_table;
pub mod level;
pub mod reading;
pub mod stains;
pub mod stains_baselines;
pub mod stains_model;
pub mod stains_plans;
pub mod stains_table;
pub mod table;

use scene_render::truth::Region as TrueRegion;
use scene_render::truth::SceneTruth;
use tabside::scene::Scene;

/// The engine's scene for a true one: both have the same form in JSON.
///
/// # Errors
/// When the forms have drifted apart.
pub fn scene_of(truth: &SceneTruth) -> Result<Scene, String> {
    let value = serde_json::to_value(truth).map_err(|e| e.to_string())?;
    serde_json::from_value(value).map_err(|e| e.to_string())
}

/// Half-way along the axis of a true region: where a person would tap.
pub fn middle_of(region: &TrueRegion) -> [f64; 2] {
    [0, 1].map(|i: usize| (region.cervical[i] + region.incisal[i]) / 2.0)
}
