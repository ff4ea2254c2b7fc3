//! The plain data of a case: what `case.json` holds. Coordinates are upright photo pixels, colours
//! L*a*b* under D65, 2° observer, as everywhere.

use crate::reading::Guide;
use crate::scene::{Point, Scene};
use crate::stain::SwatchBook;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use std::collections::BTreeMap;

/// The version of the case file that this program writes.
pub const VERSION: u32 = 1;

/// Everything that belongs to one case.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Case {
    /// Version of this file format, from 1 on.
    #[cfg_attr(feature = "schema", schemars(range(min = 1)))]
    pub version: u32,
    /// Version of the program that wrote the file.
    #[serde(default)]
    pub program: String,
    /// What the user calls the case; free, never required.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub label: Option<String>,
    /// When the case was begun, ISO 8601 in UTC: "2026-05-17T10:32:05Z".
    pub created: String,
    /// When it was last changed, in the same form.
    pub changed: String,
    /// The photos, in the order they are shown.
    #[serde(default)]
    pub photos: Vec<KeptPhoto>,
    /// The id of the photo that is looked at.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shown: Option<String>,
    /// The shade guide in use; missing for the one that comes with the program.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub guide: Option<Guide>,
    /// The stains that plans are made with.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub swatches: Option<SwatchBook>,
    /// The job at hand – plan, ticks, passes – as the page keeps it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub work: Option<Value>,
    /// What else the page keeps with a case (limits, a half-entered swatch, an exercise), by name.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub page: BTreeMap<String, Value>,
}

/// One photo of a case, with what was made of it.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct KeptPhoto {
    /// Unique within the case.
    pub id: String,
    /// The name that the user's file had.
    #[serde(default)]
    pub name: String,
    /// What it shows.
    pub role: PhotoRole,
    /// The id of its cross-polarised partner.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub partner: Option<String>,
    /// Whether its bytes are in the file.
    pub kept: KeptAs,
    /// The part of the file that holds its bytes: "photos/1.jpg".
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub part: Option<String>,
    /// SHA-256 of the bytes that are kept, or, when they are not, of those that the reading was made
    /// from, freed of what is removed from photos; lower-case hexadecimal digits.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(regex(pattern = "^[0-9a-f]{64}$")))]
    pub sha256: Option<String>,
    /// What was removed from the photo before it was written, in plain words.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub removed: Vec<String>,
    /// Card and regions.
    #[serde(default)]
    pub scene: Scene,
    /// The id of the region that restorations are compared with.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub target: Option<String>,
    /// What the search proposes and the user has not settled.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub proposal: Option<Proposal>,
    /// Words pinned to places of the photo.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub notes: Vec<PhotoNote>,
    /// What was read when the case was written.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reading: Option<KeptReading>,
}

/// What a photo shows.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub enum PhotoRole {
    /// A photo with a scene of its own.
    #[default]
    Plain,
    /// The cross-polarised partner of another photo of the case.
    CrossPolarisedPartner,
}

/// Whether a photo's bytes are in the file.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub enum KeptAs {
    /// As the camera wrote them, freed of position, serial numbers and names.
    #[default]
    Original,
    /// A reduced copy, which other numbers come from.
    Reduced,
    /// Not in the file.
    Absent,
}

/// What the search proposes and the user has not settled.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Proposal {
    /// The id of the likely restoration.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub restoration: Option<String>,
    /// The id of the tooth to compare with.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub target: Option<String>,
    /// Neutral steps of the card, the lightest first; their printed values are not known.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub card_steps: Vec<Vec<Point>>,
}

/// A few words at a place of a photo.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct PhotoNote {
    /// Unique within the photo.
    pub id: String,
    /// Where, in upright photo pixels.
    pub at: Point,
    /// The words.
    pub text: String,
}

/// A reading as it was.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct KeptReading {
    /// The report (`tabside schema report`). It is carried as it was written: a later program may
    /// know other findings than this one.
    pub report: Value,
}
