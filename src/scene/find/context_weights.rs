//! Weights of the traits of a candidate beside the others, as fitted on rendered photos; see
//! [`super::likely`]. Each line: mean, spread, weight, weight of the square. Without units.

use super::context::CONTEXT;
use super::likely::Weight;

/// What is added to the sum.
pub const CONTEXT_CONSTANT: f64 = -3.3456;
/// One line per trait.
#[rustfmt::skip]
pub const CONTEXT_WEIGHTS: [Weight; CONTEXT] = [
    [-0.09859, 0.21325, 0.2065, -0.0627], // lightness against the family's
    [0.05317, 0.41111, 0.4310, -0.7491], // redness against the family's
    [-0.18952, 0.26981, 1.5177, -0.3102], // yellowness against the family's
    [-0.55101, 1.47036, 0.8167, -2.1658], // size against the family's
    [-4.50192, 3.62582, 1.2445, 0.8327], // odds at first sight
    [7.27490, 3.64640, -0.2354, -0.0519], // size of the family
    [1.09776, 0.50723, 0.9047, -0.3263], // border
    [0.96475, 0.02323, 0.2177, -0.0443], // solidity
];
