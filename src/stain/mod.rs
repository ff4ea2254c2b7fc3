//! From the difference between a restoration and its target to what a stain could do about it.
//! Knows nothing of pixels.

pub mod advice;
pub mod types;

pub use advice::advise;
pub use types::{StainAdvice, StainDirection, ZoneAdvice};
