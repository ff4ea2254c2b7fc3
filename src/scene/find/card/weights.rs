//! Weights of the traits of a patch that may be the card, as fitted on rendered photos; see
//! [`super::likely`]. Each line: mean, spread, weight, weight of the square. Without units.

use super::TRAITS;

/// What is added to the sum.
pub const CONSTANT: f64 = -7.2095;
/// One line per trait.
#[rustfmt::skip]
pub const WEIGHTS: [[f64; 4]; TRAITS] = [
    [0.81104, 0.07163, -0.0141, 0.3020], // fill
    [4.83453, 0.73538, -0.3849, -0.3736], // sides
    [1.12818, 0.19299, -1.6611, 0.1042], // refined area
    [0.64974, 0.68948, -1.4040, 0.0755], // texture
    [0.03593, 0.05727, -0.3277, -0.5772], // spread of chroma
    [0.70553, 0.19546, -1.8444, -0.4444], // lightness
    [0.14311, 0.40896, -1.1028, -0.7892], // redder than teeth
    [-0.14184, 0.21975, -0.9667, -0.3318], // yellower than teeth
    [-4.92134, 1.03887, 1.2519, 0.0313], // log area
    [0.38303, 0.17390, -0.9117, -0.1550], // squareness
    [0.22962, 0.42059, -0.0734, -0.0944], // holder
    [0.35271, 0.57900, 0.1261, -0.0491], // crowns on it
    [0.36095, 0.48028, -0.5685, -0.3292], // under a crown
    [1.04317, 0.26928, -0.4768, 0.0602], // members
    [0.89553, 0.16644, -0.1251, -0.3779], // border along the sides
    [0.71371, 0.34048, 0.1033, -0.1870], // weakest side
    [0.76094, 0.51876, -1.1889, 0.1590], // bent sides
    [0.19029, 0.10194, 0.8828, -0.0428], // height of the border
    [0.08612, 0.14912, -0.5756, -0.1269], // on the frame
];
