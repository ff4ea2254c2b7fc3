//! 3×3 matrices and 3-vectors in `f64`: just what colour conversion needs.

/// A column vector of three numbers (XYZ, linear RGB, cone responses).
pub type Vec3 = [f64; 3];

/// A 3×3 matrix, row-major, acting on column vectors.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Matrix3(pub [[f64; 3]; 3]);

impl Matrix3 {
    /// The matrix that changes nothing.
    pub const IDENTITY: Self = Self([[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]]);

    /// A matrix with `d` on its diagonal.
    pub const fn diagonal(d: Vec3) -> Self {
        Self([[d[0], 0.0, 0.0], [0.0, d[1], 0.0], [0.0, 0.0, d[2]]])
    }

    /// `self · v`.
    pub fn apply(&self, v: Vec3) -> Vec3 {
        self.0
            .map(|row| row[0] * v[0] + row[1] * v[1] + row[2] * v[2])
    }

    /// `self · right`: first `right`, then `self`.
    pub fn times(&self, right: &Self) -> Self {
        let r = &right.0;
        Self(self.0.map(|row| {
            std::array::from_fn(|j| row[0] * r[0][j] + row[1] * r[1][j] + row[2] * r[2][j])
        }))
    }

    /// The determinant.
    pub fn determinant(&self) -> f64 {
        let m = &self.0;
        m[0][0] * (m[1][1] * m[2][2] - m[1][2] * m[2][1])
            - m[0][1] * (m[1][0] * m[2][2] - m[1][2] * m[2][0])
            + m[0][2] * (m[1][0] * m[2][1] - m[1][1] * m[2][0])
    }

    /// The inverse, or `None` when the matrix is singular or not finite.
    pub fn inverse(&self) -> Option<Self> {
        let m = &self.0;
        let det = self.determinant();
        if !det.is_finite() || det.abs() < 1e-12 {
            return None;
        }
        let c = |a: usize, b: usize, c: usize, d: usize| m[a][b] * m[c][d] - m[a][d] * m[c][b];
        let k = 1.0 / det;
        Some(Self([
            [c(1, 1, 2, 2) * k, -c(0, 1, 2, 2) * k, c(0, 1, 1, 2) * k],
            [-c(1, 0, 2, 2) * k, c(0, 0, 2, 2) * k, -c(0, 0, 1, 2) * k],
            [c(1, 0, 2, 1) * k, -c(0, 0, 2, 1) * k, c(0, 0, 1, 1) * k],
        ]))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn inverse_undoes() {
        let m = Matrix3([[0.4, 0.3, 0.2], [0.2, 0.7, 0.1], [0.05, 0.1, 0.9]]);
        let back = m.inverse().map(|i| i.times(&m));
        for (i, row) in back.unwrap_or(Matrix3([[9.0; 3]; 3])).0.iter().enumerate() {
            for (j, v) in row.iter().enumerate() {
                let want = f64::from(u8::from(i == j));
                assert!((v - want).abs() < 1e-12, "{i},{j}: {v}");
            }
        }
    }

    #[test]
    fn singular_has_no_inverse() {
        assert!(
            Matrix3([[1.0, 2.0, 3.0], [2.0, 4.0, 6.0], [0.0, 0.0, 1.0]])
                .inverse()
                .is_none()
        );
        assert!(Matrix3([[f64::NAN; 3]; 3]).inverse().is_none());
    }
}
