//! Renders intra-oral photos from spectra, with the true colour of every zone beside them.
//!
//! The independent truth for the tests: it shares no code with the project it tests. From a
//! [`spec::SceneSpec`] (fixed: [`spec::demo`], [`spec::other`]; random by seed:
//! [`spec::SceneSpec::random`]) [`render`] makes a photo file, perhaps its cross-polarised twin,
//! and a [`truth::Truth`].
//!
//! Path of the light: illuminant × reflectance × camera sensitivity, 380–730 nm at 10 nm
//! ([`spectrum`], [`illuminant`], [`material`], [`camera`]); six spectra per body are seen once
//! through every light, so that a pixel is a small sum and yet exact ([`world::ink`]). Bodies are
//! height fields with signed-distance outlines ([`world`]); shadows and openness come from one
//! height map; mirrored lamps make the highlights. Then lens, noise, balance, matrix, curve
//! ([`develop`]) and the file ([`file`]).
//!
//! ```
//! use scene_render::spec::{SceneSpec, Variety};
//! let variety = Variety { size_px: [240, 160], ..Variety::accuracy() };
//! let scene = scene_render::render(&SceneSpec::random(1, &variety))?;
//! let lab = scene.truth.zones["tooth-11"]["middle"].lab;
//! assert!(lab[0] > 55.0 && lab[0] < 90.0);
//! # Ok::<(), String>(())
//! ```

pub mod camera;
pub mod colour;
pub mod develop;
pub mod file;
pub mod guide;
pub mod illuminant;
pub mod material;
pub mod noise;
pub mod rng;
pub mod spec;
pub mod spectrum;
pub mod stains;
pub mod tables;
pub mod world;

pub mod check;
mod render;
pub mod truth;

pub use render::{Photo, Rendered, polarised_from_plain, render};
