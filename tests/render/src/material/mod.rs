//! Reflectance spectra of what stands in the picture, lifted from a wanted CIELAB.
//!
//! Each family is a Kubelka–Munk colorant layer of infinite depth: K/S is a sum of three
//! absorbers, R = 1 + K/S − √((K/S)² + 2 K/S), so that every spectrum lies within 0..1 whatever
//! the amounts. Three amounts are solved (damped Newton on logarithms) until the CIELAB under
//! the given light is met. Teeth, ceramics and gums have different absorbers: a tooth and a tab
//! of the same CIELAB under D65 therefore part company under another light or camera.
//!
//! The absorber shapes are models in the character of the real ones (band positions are common
//! knowledge; no table is used).

mod families;
mod lift;
mod neutral;

pub use families::Family;
pub use lift::{lift, lift_d65};
pub use neutral::{dyed, grey, stainless, tinted};
