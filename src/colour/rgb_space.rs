//! RGB spaces by their published primaries, white and curve.
//!
//! Matrices are derived from the primaries, not typed in, so that white comes out exactly.

use super::adaptation::{WHITE_D65, bradford};
use super::matrix::{Matrix3, Vec3};
use super::transfer::TransferCurve;

/// An RGB space: three primaries, a white, a curve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RgbSpace {
    /// The name shown to people.
    pub name: &'static str,
    /// CIE xy of red, green, blue.
    pub primaries_xy: [[f64; 2]; 3],
    /// XYZ of white, Y = 1.
    pub white_xyz: Vec3,
    /// How linear light is encoded.
    pub transfer: TransferCurve,
}

/// sRGB, IEC 61966-2-1 (primaries of ITU-R BT.709).
pub const SRGB: RgbSpace = RgbSpace {
    name: "sRGB",
    primaries_xy: [[0.64, 0.33], [0.30, 0.60], [0.15, 0.06]],
    white_xyz: WHITE_D65,
    transfer: TransferCurve::Srgb,
};

/// Display P3: the primaries of SMPTE EG 432-1 with D65 and the sRGB curve.
pub const DISPLAY_P3: RgbSpace = RgbSpace {
    name: "Display P3",
    primaries_xy: [[0.680, 0.320], [0.265, 0.690], [0.150, 0.060]],
    white_xyz: WHITE_D65,
    transfer: TransferCurve::Srgb,
};

/// Adobe RGB (1998), gamma 563/256.
pub const ADOBE_RGB_1998: RgbSpace = RgbSpace {
    name: "Adobe RGB (1998)",
    primaries_xy: [[0.64, 0.33], [0.21, 0.71], [0.15, 0.06]],
    white_xyz: WHITE_D65,
    transfer: TransferCurve::Gamma(563.0 / 256.0),
};

impl RgbSpace {
    /// Linear RGB to XYZ under the space's own white.
    pub fn xyz_from_linear_rgb(&self) -> Matrix3 {
        let columns = self
            .primaries_xy
            .map(|[x, y]| [x / y, 1.0, (1.0 - x - y) / y]);
        let unscaled = Matrix3([0, 1, 2].map(|row: usize| columns.map(|c| c[row])));
        // Published primaries are never collinear; identity would be seen by every test.
        let scale = unscaled
            .inverse()
            .map_or([1.0; 3], |inverse| inverse.apply(self.white_xyz));
        unscaled.times(&Matrix3::diagonal(scale))
    }

    /// Linear RGB to XYZ under D65 (Bradford where the space's white differs).
    pub fn xyz_d65_from_linear_rgb(&self) -> Matrix3 {
        if self.white_xyz == WHITE_D65 {
            return self.xyz_from_linear_rgb();
        }
        bradford(self.white_xyz, WHITE_D65).times(&self.xyz_from_linear_rgb())
    }
}

#[cfg(test)]
mod tests {
    use super::super::lab::Lab;
    use super::*;

    fn close(space: RgbSpace, want: [[f64; 3]; 3], tolerance: f64) {
        let got = space.xyz_d65_from_linear_rgb();
        for (g, w) in got.0.iter().flatten().zip(want.iter().flatten()) {
            assert!(
                (g - w).abs() < tolerance,
                "{}: {g} should be {w}",
                space.name
            );
        }
    }

    /// Matrices from the published primaries, computed with an independent script from
    /// D65 = xy (0.3127, 0.3290); the white used here differs from that in the fifth digit.
    #[test]
    fn published_matrices() {
        close(
            SRGB,
            [
                [0.412_390_8, 0.357_584_3, 0.180_480_8],
                [0.212_639_0, 0.715_168_7, 0.072_192_3],
                [0.019_330_8, 0.119_194_8, 0.950_532_2],
            ],
            3e-4,
        );
        close(
            DISPLAY_P3,
            [
                [0.486_570_9, 0.265_667_7, 0.198_217_3],
                [0.228_974_6, 0.691_738_5, 0.079_286_9],
                [0.0, 0.045_113_4, 1.043_944_4],
            ],
            3e-4,
        );
        close(
            ADOBE_RGB_1998,
            [
                [0.576_669_0, 0.185_558_2, 0.188_228_6],
                [0.297_345_0, 0.627_363_6, 0.075_291_5],
                [0.027_031_4, 0.070_688_9, 0.991_337_5],
            ],
            3e-4,
        );
        // The matrix as IEC 61966-2-1 prints it, to its four digits; its white has Z 1.0890.
        close(
            SRGB,
            [
                [0.4124, 0.3576, 0.1805],
                [0.2126, 0.7152, 0.0722],
                [0.0193, 0.1192, 0.9505],
            ],
            2.5e-4,
        );
    }

    /// sRGB codes to Lab D65, computed with an independent script.
    #[test]
    fn srgb_codes_to_lab() {
        let m = SRGB.xyz_d65_from_linear_rgb();
        for (code, want) in [
            ([255.0, 255.0, 255.0], [100.0, 0.0, 0.0]),
            ([119.0, 119.0, 119.0], [50.0344, 0.0, 0.0]),
            ([200.0, 180.0, 150.0], [74.2698, 2.4599, 17.9329]),
            ([222.0, 205.0, 176.0], [83.0876, 1.3198, 16.5953]),
            ([180.0, 170.0, 160.0], [70.1699, 1.8361, 6.4358]),
            ([255.0, 0.0, 0.0], [53.2408, 80.0925, 67.2032]),
        ] {
            let linear = code.map(|c: f64| TransferCurve::Srgb.linear_from_encoded(c / 255.0));
            let lab = Lab::from_xyz_d65(m.apply(linear));
            for (g, w) in lab.0.iter().zip(want) {
                assert!((g - w).abs() < 2e-3, "{code:?}: {lab:?} should be {want:?}");
            }
        }
    }
}
