//! Where things are in a photo: the card, and the outlined teeth, restorations and tabs with
//! their long axes and zones. Knows no colour science beyond what finding needs.

pub mod align;
pub mod axis;
pub mod cut;
pub mod find;
pub mod grow;
pub mod pixels;
pub mod polygon;
pub mod ring;
pub mod types;

pub use axis::Axis;
pub use polygon::Polygon;
pub use types::{Card, CardStep, Point, Rect, Region, RegionKind, Scene, Zone};
