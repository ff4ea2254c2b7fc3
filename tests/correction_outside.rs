//! The estimate behind the light model against colour-science 0.4.7 on the same data.
//!
//! With priors wide open the estimate has to be plain least squares. The matrix is what
//! `colour.characterisation.matrix_colour_correction_Cheung2004(TEST, REFERENCE, terms=3)` gives,
//! to eight decimals. The data are invented.

use tabside::light::estimate::Estimate;

#[expect(clippy::approx_constant, reason = "0.318 is a reflectance here")]
const TEST: [[f64; 3]; 8] = [
    [0.55, 0.659, 0.61],
    [0.39, 0.42, 0.649],
    [0.302, 0.628, 0.619],
    [0.487, 0.421, 0.411],
    [0.402, 0.478, 0.502],
    [0.521, 0.698, 0.617],
    [0.549, 0.696, 0.386],
    [0.364, 0.545, 0.318],
];
const REFERENCE: [[f64; 3]; 8] = [
    [0.576, 0.661, 0.604],
    [0.398, 0.428, 0.664],
    [0.316, 0.639, 0.615],
    [0.503, 0.421, 0.414],
    [0.419, 0.484, 0.505],
    [0.547, 0.703, 0.617],
    [0.58, 0.693, 0.379],
    [0.384, 0.548, 0.309],
];
const COLOUR_SCIENCE: [[f64; 3]; 3] = [
    [1.028_068_42, 0.037_345_69, -0.026_836_4],
    [-0.028_908_58, 1.005_641_66, 0.026_329_6],
    [0.021_965_43, -0.053_891_13, 1.039_151_51],
];

#[test]
fn wide_priors_give_the_least_squares_matrix_of_colour_science() {
    for (channel, want) in COLOUR_SCIENCE.iter().enumerate() {
        let mut estimate = Estimate::prior([(0.0, 1e3); 3]);
        for (row, target) in TEST.iter().zip(REFERENCE) {
            estimate.observe(row, target[channel], 1e-4);
        }
        for (unit, w) in [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]]
            .iter()
            .zip(want)
        {
            let got = estimate.expected(unit);
            // The priors' own pull is about 1e-10; updating one by one loses some digits.
            assert!((got - w).abs() < 1e-5, "channel {channel}: {got} for {w}");
        }
    }
}

/// Regularised, the fit stays nearer to its prior, and the nearer the fewer data it has.
#[test]
fn narrow_priors_hold_the_fit_near_the_card_alone() {
    let prior = [(1.0, 0.02), (0.0, 0.02), (0.0, 0.02)];
    let fit = |n: usize| {
        let mut estimate = Estimate::prior(prior);
        for (row, target) in TEST.iter().zip(REFERENCE).take(n) {
            estimate.observe(row, target[0], 1e-4);
        }
        (estimate.expected(&[1.0, 0.0, 0.0]) - 1.0).abs()
    };
    assert_eq!(fit(0), 0.0);
    assert!(fit(1) < fit(8) && fit(8) < 0.028_068_42);
}
