//! Weights of the traits of a candidate at first sight, as fitted on rendered photos; see
//! [`super::likely`]. Each line: mean and spread of the trait over the candidates, weight of the
//! normalised trait, weight of its square. Without units.

use super::candidate::TRAITS;
use super::likely::Weight;

/// What is added to the sum.
pub const CONSTANT: f64 = -2.7504;
/// One line per trait.
#[rustfmt::skip]
pub const WEIGHTS: [Weight; TRAITS] = [
    [0.65082, 0.20460, 2.0162, 1.0970], // mean border
    [0.44756, 0.31717, 0.9577, -1.2933], // weakest fifth of the border
    [0.16570, 0.12730, 0.1410, -0.3643], // darker outside
    [0.06514, 0.10170, -0.4494, -0.1251], // redder outside
    [0.65037, 0.26706, 0.2568, 0.1624], // darker or redder outside, share
    [0.10994, 0.15146, -0.5972, 0.2608], // cut by the frame, share
    [0.94561, 0.08369, 0.2974, 0.0230], // of one colour, share
    [0.96474, 0.02323, 1.2510, 0.0490], // solidity
    [0.77639, 0.11007, 0.5503, -0.3811], // slenderness
    [0.31451, 0.20087, 0.1146, 0.0361], // steadiness of the seed
    [1.50201, 0.40057, -0.0639, -0.0369], // size against the seed
    [0.74976, 0.19729, -0.1785, -0.1039], // lightness
    [0.14820, 0.25849, -0.6239, 0.0125], // redness
    [0.14978, 0.24736, 1.0303, -0.1570], // yellowness
    [0.02175, 0.01427, 0.7602, -0.4554], // texture
    [-4.67799, 1.26241, 1.0225, -0.6494], // logarithm of the area
];
