//! Tabside reads the colour of teeth against shade tabs from a photo with a grey card.
//!
//! ```text
//! bytes ─ photo ─ scene ─ light ─ reading ─ stain ─ case
//!             └────────── colour ──────────┘
//! ```
//!
//! A module imports only from its left, from `colour`, or from `error`; `engine` is the façade
//! over all of them, and `web` (compiled for WebAssembly only) is the one place that knows a
//! browser. `DEVELOPERS.md` is the guide.

#[cfg(feature = "case")]
pub mod case;
pub mod colour;
pub mod engine;
pub mod error;
pub mod light;
pub mod photo;
pub mod reading;
pub mod scene;
pub mod stain;
#[cfg(target_arch = "wasm32")]
mod web;

pub use error::{Error, Result};
