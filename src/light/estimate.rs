//! A Gaussian estimate of a few unknowns, sharpened one observation at a time.
//!
//! Linear regression with priors: every unknown starts with a mean and a standard deviation,
//! every observation `value = row · unknowns + noise` moves them as far as it deserves. With no
//! observation the priors stand; no observation can use more freedom than its noise leaves.
//! (R. E. Kalman, J. Basic Eng. 82 (1960) 35–45, the update step for a scalar.)

/// `N` unknowns with their means and covariance.
#[derive(Debug, Clone, PartialEq)]
pub struct Estimate<const N: usize> {
    mean: [f64; N],
    covariance: [[f64; N]; N],
}

fn dot<const N: usize>(a: &[f64; N], b: &[f64; N]) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}

impl<const N: usize> Estimate<N> {
    /// From independent priors: mean and standard deviation of each unknown.
    pub fn prior(unknowns: [(f64, f64); N]) -> Self {
        let mut covariance = [[0.0; N]; N];
        for (i, (row, (_, sd))) in covariance.iter_mut().zip(unknowns).enumerate() {
            if let Some(diagonal) = row.get_mut(i) {
                *diagonal = sd * sd;
            }
        }
        Self {
            mean: unknowns.map(|(mean, _)| mean),
            covariance,
        }
    }

    /// The expected value of `row · unknowns`.
    pub fn expected(&self, row: &[f64; N]) -> f64 {
        dot(row, &self.mean)
    }

    /// The covariance of `a · unknowns` and `b · unknowns`.
    pub fn covariance(&self, a: &[f64; N], b: &[f64; N]) -> f64 {
        dot(a, &self.covariance.map(|row| dot(&row, b)))
    }

    /// Takes in one observation with the given noise variance.
    pub fn observe(&mut self, row: &[f64; N], value: f64, noise_variance: f64) {
        let spread = self.covariance.map(|r| dot(&r, row));
        let total = dot(row, &spread) + noise_variance;
        let surprise = value - self.expected(row);
        if total.is_nan() || total <= 0.0 || !surprise.is_finite() {
            return;
        }
        for ((mean, line), s) in self.mean.iter_mut().zip(&mut self.covariance).zip(spread) {
            *mean += s / total * surprise;
            for (c, t) in line.iter_mut().zip(spread) {
                *c -= s * t / total;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Ridge regression in one step gives the same: (XᵀX/σ² + P⁻¹)⁻¹ Xᵀy/σ².
    #[test]
    fn agrees_with_ridge_regression() {
        let mut e = Estimate::prior([(0.0, 1.0), (0.0, 0.5)]);
        let data = [([1.0, 0.0], 1.0), ([1.0, 1.0], 3.1), ([1.0, 2.0], 4.9)];
        let variance = 0.04;
        let (mut a, mut r) = ([[1.0, 0.0], [0.0, 4.0]], [0.0; 2]);
        for (x, y) in data {
            e.observe(&x, y, variance);
            for i in 0..2 {
                r[i] += x[i] * y / variance;
                for j in 0..2 {
                    a[i][j] += x[i] * x[j] / variance;
                }
            }
        }
        let det = a[0][0] * a[1][1] - a[0][1] * a[1][0];
        let want = [
            (r[0] * a[1][1] - r[1] * a[0][1]) / det,
            (r[1] * a[0][0] - r[0] * a[1][0]) / det,
        ];
        assert!((e.expected(&[1.0, 0.0]) - want[0]).abs() < 1e-9);
        assert!((e.expected(&[0.0, 1.0]) - want[1]).abs() < 1e-9);
        assert!((e.covariance(&[1.0, 0.0], &[1.0, 0.0]) - a[1][1] / det).abs() < 1e-9);
        assert!((e.covariance(&[1.0, 0.0], &[0.0, 1.0]) + a[0][1] / det).abs() < 1e-9);
    }

    #[test]
    fn nonsense_changes_nothing() {
        let before = Estimate::prior([(1.0, 1.0)]);
        let mut e = before.clone();
        e.observe(&[1.0], f64::NAN, 1.0);
        e.observe(&[0.0], 1.0, 0.0);
        assert_eq!(e, before);
    }
}
