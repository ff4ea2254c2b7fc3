//! Weights of the traits of a patch that may be the card, as fitted on rendered photos; see
//! [`crate::scene::find::likely`]. Each line: mean, spread, weight, weight of the square. Without units.

use super::TRAITS;
use crate::scene::find::likely::Weight;

/// What is added to the sum.
pub const CONSTANT: f64 = -6.5419;
/// One line per trait.
#[rustfmt::skip]
pub const WEIGHTS: [Weight; TRAITS] = [
    [0.81475, 0.07378, -0.0050, 0.2644], // fill
    [4.87866, 0.74295, -0.2869, -0.6736], // sides
    [1.11269, 0.17863, -1.1773, -0.0326], // refined area
    [0.56400, 0.67199, -1.4547, 0.0696], // texture
    [0.03841, 0.06502, -0.1080, -0.5245], // spread of chroma
    [0.70249, 0.19879, -1.9034, -0.4970], // lightness
    [0.11719, 0.40817, -0.7797, -1.0270], // redder than teeth
    [-0.15221, 0.21626, -1.0976, -0.2694], // yellower than teeth
    [-4.71509, 1.06094, 1.2858, 0.1100], // log area
    [0.35744, 0.17797, -1.2891, -0.2256], // squareness
    [0.26259, 0.44004, -0.2268, -0.2448], // holder
    [0.42351, 0.64579, 0.1346, -0.0491], // crowns on it
    [0.34297, 0.47470, -0.4483, -0.2966], // under a crown
    [1.11956, 0.45862, -0.4726, 0.1145], // members
    [0.91028, 0.15264, 0.0500, -0.0566], // border along the sides
    [0.74180, 0.33201, -0.1440, -0.0341], // weakest side
    [0.72326, 0.50871, -1.4622, 0.0230], // bent sides
    [0.20561, 0.10293, 0.7418, 0.0010], // height of the border
    [0.09199, 0.15388, -0.5359, -0.0963], // on the frame
];
