//! The light of a photo: the correction from its linear RGB to XYZ under D65, and the light
//! checks on its fitness. Knows nothing of shades.

pub mod card;
pub mod checks;
pub mod correction;
pub mod patch;

pub use card::read_card;
pub use correction::{Correction, Trust};
