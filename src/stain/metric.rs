//! ΔE00 near one colour as a linear measure of L*a*b* differences, so that fits and doubts can
//! speak of it.

use crate::colour::{Lab, delta_e_00_parts};
use nalgebra::{Matrix3, Vector3};

/// Step for the slopes: small beside any doubt, large beside rounding.
const STEP: f64 = 0.01;
/// χ² of 95 % with ν degrees of freedom by Wilson & Hilferty (Proc. Natl. Acad. Sci. 17 (1931)
/// 684): the normal quantile in it.
const NORMAL_95: f64 = 1.644_854;

/// Takes a small difference in L*a*b* to (ΔL′∕SL, ΔC′∕SC, ΔH′∕SH).
pub fn parts_from_lab(near: Lab) -> Matrix3<f64> {
    let column = |axis: usize| {
        let mut moved = near;
        if let Some(v) = moved.0.get_mut(axis) {
            *v += STEP;
        }
        let p = delta_e_00_parts(near, moved);
        Vector3::new(p.delta_l, p.delta_c, p.delta_h) / STEP
    };
    Matrix3::from_columns(&[column(0), column(1), column(2)])
}

/// The ΔE00 that a Gaussian error with this covariance (in those parts) stays within in 95 % of
/// cases: a scaled χ² with the same mean and variance (Satterthwaite, Biometrics 2 (1946) 110).
pub fn delta_e_00_95(covariance: &Matrix3<f64>) -> f64 {
    // Sum and sum of squares of the eigenvalues.
    let (sum, squares) = (covariance.trace(), covariance.norm_squared());
    if squares <= 0.0 || sum <= 0.0 {
        return 0.0;
    }
    let freedom = sum * sum / squares;
    let ninths = 2.0 / (9.0 * freedom);
    let root = 1.0 - ninths + NORMAL_95 * ninths.sqrt();
    (sum * root * root * root).max(0.0).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::colour::delta_e_00;

    #[test]
    fn the_measure_is_that_of_small_differences() {
        let near = Lab::new(75.0, 1.0, 18.0);
        let m = parts_from_lab(near);
        for step in [[0.2, 0.0, 0.0], [0.0, 0.2, 0.0], [0.1, -0.1, 0.15]] {
            let other = Lab([0, 1, 2].map(|i: usize| near.0[i] + step[i]));
            let linear = (m * Vector3::from(step)).norm();
            assert!((linear - delta_e_00(near, other)).abs() < 0.01, "{step:?}");
        }
    }

    /// χ²: 3.841 with one degree of freedom, 7.815 with three (tables).
    #[test]
    fn quantiles() {
        let one = Matrix3::from_diagonal(&Vector3::new(1.0, 0.0, 0.0));
        assert!((delta_e_00_95(&one) - 3.841_f64.sqrt()).abs() < 0.03);
        assert!((delta_e_00_95(&Matrix3::identity()) - 7.815_f64.sqrt()).abs() < 0.01);
        assert_eq!(delta_e_00_95(&Matrix3::zeros()), 0.0);
    }
}
