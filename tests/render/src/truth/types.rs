//! The truth's plain data, as it is written to JSON.

use super::outline::Polygon;
use crate::spec::SceneSpec;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// Everything true of a picture.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Truth {
    /// Card and measured regions, in the form that a scene file has.
    pub scene: SceneTruth,
    /// Colours by region id, then `cervical`, `middle`, `incisal`, `whole`.
    pub zones: BTreeMap<String, BTreeMap<String, ZoneTruth>>,
    /// All visible crowns and tabs, the measured ones included.
    pub crowns: Vec<Region>,
    /// The visible outline of the whole card, steps together.
    pub card_outline: Option<Polygon>,
    /// Area within `card_outline` ÷ area of the whole card.
    #[serde(default = "whole", skip_serializing_if = "is_whole")]
    pub card_visible_share: f64,
    /// The cross-polarised picture of a pair.
    pub pair: Option<PairTruth>,
    /// The region whose name in `scene` is not its own.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub misnamed: Option<String>,
    /// Where a name is wrong: what the owner of this set of tabs would have measured, by tab name
    /// and zone. For the wrong name, whose tab is not in the photo: the zones of the misnamed tab
    /// moved by what the nominal body colours of the two names differ.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub guide: BTreeMap<String, BTreeMap<String, [f64; 3]>>,
    /// What was asked for.
    pub spec: SceneSpec,
}

/// Card and regions.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct SceneTruth {
    /// Grey reference.
    pub card: Option<Card>,
    /// Measured teeth, restorations, tabs.
    pub regions: Vec<Region>,
}

/// A card: one outline and colour, or steps.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Card {
    /// Empty when there are steps.
    pub outline: Polygon,
    /// True CIELAB (D65) of the paper, averaged over the outline.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub lab: Option<[f64; 3]>,
    /// Steps of a card that has several.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub steps: Vec<CardStep>,
}

/// One step.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct CardStep {
    /// Its outline.
    pub outline: Polygon,
    /// Its colour.
    pub lab: [f64; 3],
}

/// A region.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Region {
    /// `tooth-11`, `tab-A2`.
    pub id: String,
    /// `tooth`, `restoration` or `tab`.
    pub kind: String,
    /// For people.
    pub name: String,
    /// Visible outline.
    pub outline: Polygon,
    /// Cervical end of the axis, on the outline.
    pub cervical: [f64; 2],
    /// Incisal end of the axis, on the outline.
    pub incisal: [f64; 2],
    /// Area within `outline` ÷ the whole area that the gum leaves free, in or out of the frame,
    /// before or behind other things: 0–1.
    #[serde(default = "whole", skip_serializing_if = "is_whole")]
    pub visible_share: f64,
}

fn whole() -> f64 {
    1.0
}

#[allow(clippy::trivially_copy_pass_by_ref)]
fn is_whole(v: &f64) -> bool {
    *v == 1.0
}

/// Colour of a zone.
#[derive(Debug, Clone, Copy, Serialize, Deserialize)]
pub struct ZoneTruth {
    /// Diffuse reflectance seen face-on, evenly lit (D65, 2°).
    pub lab: [f64; 3],
    /// The same with the shading by form, openness and shadows, the card plane's irradiance as 1.
    pub lab_shaded: [f64; 3],
}

/// The second picture.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct PairTruth {
    /// Plain pixel (x, y, 1) → cross-polarised pixel.
    pub polarised_from_plain: [[f64; 3]; 2],
    /// Its own card and regions.
    pub scene: SceneTruth,
    /// Its own zones (the same mouth, its own outlines).
    pub zones: BTreeMap<String, BTreeMap<String, ZoneTruth>>,
}
