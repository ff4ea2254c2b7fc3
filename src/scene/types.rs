//! The plain data of a scene. Coordinates are upright photo pixels, origin top left, x to the
//! right, y down; the centre of the first pixel is (0, 0).

use crate::colour::Lab;
use serde::{Deserialize, Serialize};

/// Coordinates beyond this are no place in a photo: none is that large.
const MAX_COORDINATE_PX: f64 = 1.0e6;

/// A place in the upright photo, in pixels: `[x, y]`.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct Point(pub [f64; 2]);

impl From<Point> for [f64; 2] {
    fn from(point: Point) -> Self {
        point.0
    }
}

impl Point {
    /// From x and y.
    pub const fn new(x: f64, y: f64) -> Self {
        Self([x, y])
    }

    /// Pixels from the left.
    pub const fn x(&self) -> f64 {
        self.0[0]
    }

    /// Pixels from the top.
    pub const fn y(&self) -> f64 {
        self.0[1]
    }

    /// Both numbers are finite.
    pub fn is_finite(&self) -> bool {
        self.0.iter().all(|v| v.is_finite())
    }

    /// Both numbers are finite, and no farther from the corner than any photo reaches.
    pub fn is_in_a_photo(&self) -> bool {
        self.0.iter().all(|v| v.abs() <= MAX_COORDINATE_PX)
    }

    /// Distance to another point, in pixels.
    pub fn distance_px(&self, other: &Self) -> f64 {
        libm::hypot(self.x() - other.x(), self.y() - other.y())
    }
}

/// An upright rectangle in the photo, in pixels.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct Rect {
    /// Left edge.
    pub x: f64,
    /// Top edge.
    pub y: f64,
    /// Width, ≥ 0.
    pub width: f64,
    /// Height, ≥ 0.
    pub height: f64,
}

/// What an outlined area is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub enum RegionKind {
    /// A natural tooth.
    Tooth,
    /// A crown or veneer.
    Restoration,
    /// A shade tab.
    Tab,
}

/// A third of a region along its axis, or the whole of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub enum Zone {
    /// The third at the neck.
    Cervical,
    /// The middle third.
    Middle,
    /// The third at the biting edge.
    Incisal,
    /// All three together.
    Whole,
}

impl Zone {
    /// All zones, cervical first, whole last.
    pub const ALL: [Self; 4] = [Self::Cervical, Self::Middle, Self::Incisal, Self::Whole];
    /// The thirds, cervical first.
    pub const THIRDS: [Self; 3] = [Self::Cervical, Self::Middle, Self::Incisal];
}

/// One neutral step of a card that has several.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct CardStep {
    /// Its corners or outline, at least three points.
    pub outline: Vec<Point>,
    /// Its known colour under D65.
    pub lab: Lab,
}

/// The grey reference. Without a given colour it is taken for neutral with Y = 0.184187
/// (L* 50.00).
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct Card {
    /// Its corners or outline, at least three points. May be empty when `steps` are given.
    #[serde(default)]
    pub outline: Vec<Point>,
    /// The L*a*b* (D65) printed on it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lab: Option<Lab>,
    /// Instead of `lab`: the share of light it reflects, 0–1 (0.18 for "18 %").
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reflectance: Option<f64>,
    /// Several neutral steps, each with its known colour.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub steps: Vec<CardStep>,
}

/// An outlined tooth, restoration or tab.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct Region {
    /// Unique within the scene.
    pub id: String,
    /// Tooth, restoration or tab.
    pub kind: RegionKind,
    /// What people call it; for a tab its name in the shade guide.
    #[serde(default)]
    pub name: String,
    /// The visible outline, at least three points, either direction.
    pub outline: Vec<Point>,
    /// The cervical end of the long axis. Without both ends the axis follows from the shape.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cervical: Option<Point>,
    /// The incisal end of the long axis.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub incisal: Option<Point>,
    /// Where along the axis the cervical and the middle third end, 0 at the cervical end, 1 at
    /// the incisal one; one third and two thirds when not given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub borders: Option<[f64; 2]>,
}

/// Card and regions of one photo, and what the user said about the photo.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct Scene {
    /// The grey reference, once found.
    #[serde(default)]
    pub card: Option<Card>,
    /// The same card (or another) at a second place in the photo: tells how the light falls off
    /// between the two. The colours are balanced on the first one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub second_card: Option<Card>,
    /// Teeth, restorations and tabs.
    #[serde(default)]
    pub regions: Vec<Region>,
    /// This photo was taken through crossed polarisers, so it shows no glare.
    #[serde(default, skip_serializing_if = "is_false")]
    pub cross_polarised: bool,
    /// How the user laid the cross-polarised photo of a pair over the plain one, where that
    /// was not left to the program: plain pixel (x, y, 1) → cross-polarised pixel.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pair_transform: Option<[[f64; 3]; 2]>,
}

#[expect(
    clippy::trivially_copy_pass_by_ref,
    reason = "the form that serde calls"
)]
const fn is_false(value: &bool) -> bool {
    !*value
}
