//! The truth of painted coats: stains over a ceramic, spectrum by spectrum.
//!
//! A base is an opaque body ([`base`]), a stain absorbs and scatters as pigments do
//! ([`pigment`]), coats are a layer of so many thicknesses over the base, solved step by step, and
//! everything is seen through a surface ([`layer`]). A mix absorbs and scatters as the sum of its
//! stains by volume. All at 5 nm ([`grid`]); CIELAB is D65, 2°.
//!
//! ```
//! use scene_render::stains::StainSet;
//! let set = StainSet::demo();
//! let before = set.read(&set.swatch_base);
//! let after = set.after(&set.swatch_base, &[("heath copper", 1.0)], 2.0)?;
//! assert!(after[0] < before[0] && after[2] > before[2]);
//! # Ok::<(), String>(())
//! ```

pub mod base;
pub mod book;
pub mod grid;
pub mod job;
pub mod layer;
pub mod pigment;
pub mod set;
pub mod trade;

pub use base::{Base, Ceramic};
pub use job::{Handling, Job, job};
pub use layer::Surface;
pub use pigment::{Kind, Recipe, Stain};
pub use set::StainSet;
pub use trade::{TradeTarget, trade_targets};
