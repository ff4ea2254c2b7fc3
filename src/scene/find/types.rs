//! What the search gives, in photo pixels.

use crate::scene::types::{Card, Point, Region, RegionKind, Scene};
use serde::{Deserialize, Serialize};

/// Everything found in a photo without a tap. Proposals: the user confirms or mends them.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct Found {
    /// The grey card, if one was found.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub card: Option<FoundCard>,
    /// Teeth and tabs: the upper row from left to right, the lower one, then the tabs.
    pub regions: Vec<FoundRegion>,
    /// The tooth proposed for comparing with, as a place in `regions`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub target: Option<usize>,
    /// The tooth most unlike its neighbours beside the target: proposed as the restoration.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub restoration: Option<usize>,
}

impl Found {
    /// The same as a scene to read: every crown a tooth or a tab, none with a name, none a
    /// restoration; of a card with several steps the one nearest to mid-grey.
    pub fn as_scene(&self) -> Scene {
        let card = self.card.as_ref().map(|c| Card {
            outline: c.outline.clone(),
            ..Card::default()
        });
        let mut counts = [0_usize; 2];
        let regions = self
            .regions
            .iter()
            .map(|r| {
                let [teeth, tabs] = &mut counts;
                let (word, count) = match r.kind {
                    RegionKind::Tab => ("tab", tabs),
                    RegionKind::Tooth | RegionKind::Restoration => ("tooth", teeth),
                };
                *count += 1;
                Region {
                    id: format!("{word}-{count}"),
                    kind: r.kind,
                    name: String::new(),
                    outline: r.outline.clone(),
                    cervical: Some(r.cervical),
                    incisal: Some(r.incisal),
                    borders: None,
                }
            })
            .collect();
        Scene {
            card,
            regions,
            ..Scene::default()
        }
    }
}

/// A card that was found.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct FoundCard {
    /// The patch to read: the whole card, or of several steps the one nearest to mid-grey.
    pub outline: Vec<Point>,
    /// The outline of the whole card.
    pub whole: Vec<Point>,
    /// All neutral steps, the lightest first, where it has several. Their printed values are not
    /// known from the photo.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub steps: Vec<Vec<Point>>,
    /// How sure the search is, 0–1.
    pub sure: f64,
}

/// A tooth, restoration or tab that was found, or one of several outlines offered for a tap.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct FoundRegion {
    /// Tooth or tab; the search does not tell restorations by itself.
    pub kind: RegionKind,
    /// Its outline.
    pub outline: Vec<Point>,
    /// The cervical end of its axis.
    pub cervical: Point,
    /// The incisal end of its axis.
    pub incisal: Point,
    /// How sure the search is, 0–1.
    pub sure: f64,
}
