//! White points and chromatic adaptation.
//!
//! XYZ white points are those of the ICC and sRGB standards, Y = 1, 2° observer.

use super::matrix::{Matrix3, Vec3};

/// D65 as sRGB and CIELAB use it here (IEC 61966-2-1, ASTM E308: 0.95047, 1, 1.08883).
pub const WHITE_D65: Vec3 = [0.950_47, 1.0, 1.088_83];
/// D50, the white of the ICC profile connection space (ICC.1: 0.9642, 1, 0.8249; the digits
/// here are ASTM E308's and agree within 3e-4).
pub const WHITE_D50: Vec3 = [0.964_22, 1.0, 0.825_21];
/// The ICC profile connection space illuminant exactly as ICC.1:2022 7.2.16 prints it.
pub const WHITE_ICC_PCS: Vec3 = [0.9642, 1.0, 0.8249];
/// CIE illuminant C (the older tab tables use it), ASTM E308.
pub const WHITE_C: Vec3 = [0.980_74, 1.0, 1.182_32];
/// CIE illuminant A, ASTM E308.
pub const WHITE_A: Vec3 = [1.098_50, 1.0, 0.355_85];

/// The Bradford cone matrix (Lam 1985; printed in ICC.1:2022 annex E).
pub const BRADFORD: Matrix3 = Matrix3([
    [0.8951, 0.2664, -0.1614],
    [-0.7502, 1.7135, 0.0367],
    [0.0389, -0.0685, 1.0296],
]);

/// The inverse of [`BRADFORD`], to double precision.
const BRADFORD_INVERSE: Matrix3 = Matrix3([
    [
        0.986_992_905_466_712_2,
        -0.147_054_256_420_990_13,
        0.159_962_651_663_731_26,
    ],
    [
        0.432_305_269_723_394_6,
        0.518_360_271_536_777_6,
        0.049_291_228_212_855_6,
    ],
    [
        -0.008_528_664_575_177_328,
        0.040_042_821_654_084_87,
        0.968_486_695_787_550_2,
    ],
]);

/// The linear Bradford adaptation `target_from_source`: XYZ seen under `source_white` to the
/// XYZ that looks alike under `target_white`. The source white maps to the target white.
pub fn bradford(source_white: Vec3, target_white: Vec3) -> Matrix3 {
    let s = BRADFORD.apply(source_white);
    let t = BRADFORD.apply(target_white);
    let gains = Matrix3::diagonal([t[0] / s[0], t[1] / s[1], t[2] / s[2]]);
    BRADFORD_INVERSE.times(&gains.times(&BRADFORD))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn close(got: &Matrix3, want: [[f64; 3]; 3], tolerance: f64) {
        for (g, w) in got.0.iter().flatten().zip(want.iter().flatten()) {
            assert!((g - w).abs() < tolerance, "{g} should be {w}");
        }
    }

    #[test]
    fn inverse_is_the_inverse() {
        close(
            &BRADFORD.times(&BRADFORD_INVERSE),
            Matrix3::IDENTITY.0,
            1e-12,
        );
    }

    /// Matrices computed with an independent script from the same whites (they are also the
    /// ones widely printed for Bradford).
    #[test]
    fn published_matrices() {
        close(
            &bradford(WHITE_D65, WHITE_D50),
            [
                [1.047_811_2, 0.022_886_6, -0.050_127_0],
                [0.029_542_4, 0.990_484_4, -0.017_049_1],
                [-0.009_234_5, 0.015_043_6, 0.752_131_6],
            ],
            1e-6,
        );
        close(
            &bradford(WHITE_D50, WHITE_D65),
            [
                [0.955_576_6, -0.023_039_3, 0.063_163_6],
                [-0.028_289_5, 1.009_941_6, 0.021_007_7],
                [0.012_298_2, -0.020_483_0, 1.329_909_8],
            ],
            1e-6,
        );
        close(
            &bradford(WHITE_A, WHITE_D65),
            [
                [0.844_696_5, -0.117_922_5, 0.394_810_8],
                [-0.136_630_3, 1.104_122_6, 0.129_171_8],
                [0.079_848_9, -0.134_899_9, 3.192_400_9],
            ],
            1e-6,
        );
    }

    #[test]
    fn white_maps_to_white() {
        for (got, want) in bradford(WHITE_C, WHITE_D65)
            .apply(WHITE_C)
            .iter()
            .zip(WHITE_D65)
        {
            assert!((got - want).abs() < 1e-12);
        }
    }
}
