//! From two readings and the user's own fired swatches to what to paint, and what it will look
//! like. Knows nothing of pixels.
//!
//! `lift` brings colours to smooth spectra, `layer` lays coats over them, `strength` and `book`
//! find what each stain does, `predict` answers, `solve` searches all allowed mixes and coats,
//! `steps` says how to paint them.

pub mod advice;
mod along;
mod book;
mod checks;
mod exponential;
mod layer;
mod lift;
mod metric;
mod mixed;
mod pass;
mod plan;
mod practice;
mod predict;
mod shift;
mod spectrum;
mod strength;
mod strength_report;
pub mod types;
mod unfired;

pub use advice::advise;
pub use along::AlongAxis;
pub use book::StrengthBook;
pub use pass::review;
pub use plan::plan;
pub use practice::score;
pub use predict::predict_all;
pub use types::*;
pub use unfired::look_unfired;
