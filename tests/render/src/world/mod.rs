//! The mouth, tabs and card as bodies with form, surface and colour, built from a
//! [`SceneSpec`](crate::spec::SceneSpec).

pub mod arch;
mod around;
pub mod body;
pub mod build;
pub mod crown;
pub mod grid;
pub mod gum;
pub mod ink;
pub mod lamps;
pub mod letters;
mod make;
mod mouth;
pub mod occlusion;
mod on_teeth;
pub mod paint;
pub(crate) mod props;
pub mod see;

pub use build::World;
