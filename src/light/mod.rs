//! From the light of a photo to a correction, and the light checks.
//!
//! The card gives a [`Correction`] (cast, exposure, tone curve); the [`model`] holds what the
//! card leaves open, which tabs of known colour [`anchor`].

pub mod anchor;
pub mod card;
pub mod checks;
pub mod correction;
pub mod estimate;
pub mod evenness;
pub mod model;
pub mod patch;
pub mod sharpness;
pub mod tone;
pub mod types;

pub use card::read_card;
pub use correction::Correction;
pub use types::{AnchorTab, LightReport, Trust};

#[cfg(test)]
mod tests;
