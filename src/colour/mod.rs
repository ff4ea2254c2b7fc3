//! Colour arithmetic: numbers in, numbers out. Knows nothing of pixels or teeth.
//!
//! Conventions, everywhere in the crate:
//! - XYZ is relative, with Y = 1 for the perfect diffuser.
//! - [`Lab`] is CIELAB under D65 for the 2° observer, the white that sRGB uses.
//! - Matrices are row-major and act on column vectors; a name reads `target_from_source`.
//! - Scalars are `f64`; powers and roots come from the `libm` crate, so that the same bits
//!   result natively and in every browser.

pub mod adaptation;
pub mod block;
pub mod delta_e;
pub mod lab;
pub mod matrix;
pub mod order;
pub mod rgb_space;
pub mod root;
pub mod threshold;
pub mod transfer;
pub mod whiteness;

pub use adaptation::{WHITE_D50, WHITE_D65};
pub use delta_e::{DeltaE00Parts, delta_e_00, delta_e_00_parts};
pub use lab::Lab;
pub use matrix::{Matrix3, Vec3};
pub use rgb_space::RgbSpace;
pub use transfer::TransferCurve;
