//! CIELAB (ISO/CIE 11664-4) under D65, 2° observer.

use super::adaptation::WHITE_D65;
use super::matrix::Vec3;
use super::root::{cbrt, hypot};
use serde::{Deserialize, Serialize};

/// A CIELAB colour under D65, 2° observer: `[L*, a*, b*]`. L* is 0 for black and 100 for the
/// perfect diffuser; a* grows towards red, b* towards yellow.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct Lab(pub [f64; 3]);

/// (6/29)³, below which the cube root is replaced by a line.
const EPSILON: f64 = 216.0 / 24389.0;
/// (29/3)³, the slope of that line, scaled as L* is.
const KAPPA: f64 = 24389.0 / 27.0;

impl Lab {
    /// From L*, a*, b*.
    pub const fn new(l: f64, a: f64, b: f64) -> Self {
        Self([l, a, b])
    }

    /// L*, the value.
    pub const fn l(&self) -> f64 {
        self.0[0]
    }

    /// a*, green (−) to red (+).
    pub const fn a(&self) -> f64 {
        self.0[1]
    }

    /// b*, blue (−) to yellow (+).
    pub const fn b(&self) -> f64 {
        self.0[2]
    }

    /// C*ab, the chroma.
    pub fn chroma(&self) -> f64 {
        hypot(self.a(), self.b())
    }

    /// hab, the hue angle in degrees, 0 ≤ h < 360; 0 for a neutral.
    pub fn hue_deg(&self) -> f64 {
        if self.a() == 0.0 && self.b() == 0.0 {
            return 0.0;
        }
        let h = libm::atan2(self.b(), self.a()).to_degrees();
        if h < 0.0 { h + 360.0 } else { h }
    }

    /// CIELAB from XYZ relative to D65 (Y = 1 for the perfect diffuser).
    pub fn from_xyz_d65(xyz: Vec3) -> Self {
        Self::from_xyz(xyz, WHITE_D65)
    }

    /// CIELAB from XYZ relative to any white. Only for tables given under another white; the
    /// rest of the crate is D65.
    pub fn from_xyz(xyz: Vec3, white: Vec3) -> Self {
        let f = |t: f64| {
            if t > EPSILON {
                cbrt(t)
            } else {
                (KAPPA * t + 16.0) / 116.0
            }
        };
        let [fx, fy, fz] = [0, 1, 2].map(|i: usize| f(xyz[i] / white[i]));
        Self([116.0 * fy - 16.0, 500.0 * (fx - fy), 200.0 * (fy - fz)])
    }

    /// XYZ relative to D65 (Y = 1 for the perfect diffuser).
    pub fn to_xyz_d65(self) -> Vec3 {
        self.to_xyz(WHITE_D65)
    }

    /// XYZ relative to any white; the inverse of [`Self::from_xyz`].
    pub fn to_xyz(self, white: Vec3) -> Vec3 {
        let fy = (self.l() + 16.0) / 116.0;
        let f_inverse = |f: f64| {
            let cubed = f * f * f;
            if cubed > EPSILON {
                cubed
            } else {
                (116.0 * f - 16.0) / KAPPA
            }
        };
        [
            f_inverse(fy + self.a() / 500.0) * white[0],
            f_inverse(fy) * white[1],
            f_inverse(fy - self.b() / 200.0) * white[2],
        ]
    }

    /// L* of a neutral that reflects the share `y` (0–1).
    pub fn l_from_y(y: f64) -> f64 {
        Self::from_xyz_d65([WHITE_D65[0] * y, y, WHITE_D65[2] * y]).l()
    }

    /// The neutral that reflects the share `y` (0–1).
    pub fn neutral_from_y(y: f64) -> Self {
        Self([Self::l_from_y(y), 0.0, 0.0])
    }

    /// All three numbers are finite.
    pub fn is_finite(&self) -> bool {
        self.0.iter().all(|v| v.is_finite())
    }
}

#[cfg(test)]
mod tests {
    use super::super::adaptation::{WHITE_C, bradford};
    use super::*;

    fn close(got: Lab, want: [f64; 3], tolerance: f64) {
        for (g, w) in got.0.iter().zip(want) {
            assert!((g - w).abs() <= tolerance, "{got:?} should be {want:?}");
        }
    }

    #[test]
    fn white_and_signs() {
        close(Lab::from_xyz_d65(WHITE_D65), [100.0, 0.0, 0.0], 1e-12);
        close(Lab::from_xyz_d65([0.0; 3]), [0.0, 0.0, 0.0], 1e-12);
        // sRGB red has a* > 0 and b* > 0.
        let red = Lab::from_xyz_d65([0.412_456, 0.212_673, 0.019_334]);
        close(red, [53.2408, 80.0925, 67.2032], 5e-3);
    }

    /// L* of neutral reflectances, computed with an independent script.
    #[test]
    fn grey_levels() {
        for (y, l) in [
            (0.18, 49.4961),
            (0.184_187, 50.0001),
            (0.2, 51.8372),
            (0.5, 76.0693),
            (0.9, 95.9968),
        ] {
            assert!((Lab::l_from_y(y) - l).abs() < 5e-5, "Y {y}");
        }
    }

    /// Tooth-like porcelain under illuminant C, Y x y → Lab, printed in Dent Mater 1989
    /// (tolerance 0.05, as the prints are rounded).
    #[test]
    fn published_illuminant_c_rows() {
        for (yxy, want) in [
            ([55.72, 0.3407, 0.3502], [79.49, -1.10, 15.26]),
            ([51.21, 0.3534, 0.3615], [76.84, -0.42, 20.18]),
            ([37.05, 0.3610, 0.3641], [67.34, 1.31, 19.93]),
            ([38.24, 0.3811, 0.3794], [68.23, 2.91, 27.38]),
        ] {
            let [y, cx, cy] = yxy;
            let xyz = [
                cx / cy * y / 100.0,
                y / 100.0,
                (1.0 - cx - cy) / cy * y / 100.0,
            ];
            close(Lab::from_xyz(xyz, WHITE_C), want, 0.05);
        }
    }

    /// Illuminant C to D65 by Bradford, computed with an independent script.
    #[test]
    fn c_to_d65() {
        let m = bradford(WHITE_C, WHITE_D65);
        for (from, want) in [
            ([79.57, -1.61, 13.05], [79.60, -1.33, 13.05]),
            ([64.78, 1.59, 18.66], [64.81, 2.08, 18.65]),
        ] {
            close(
                Lab::from_xyz_d65(m.apply(Lab(from).to_xyz(WHITE_C))),
                want,
                0.01,
            );
        }
    }

    #[test]
    fn round_trip_and_hue() {
        for l in [0.5, 8.0, 30.0, 75.0, 99.0] {
            let lab = Lab::new(l, -3.0, 12.0);
            close(Lab::from_xyz_d65(lab.to_xyz_d65()), lab.0, 1e-9);
        }
        assert!((Lab::new(50.0, 0.0, 5.0).hue_deg() - 90.0).abs() < 1e-12);
        assert!((Lab::new(50.0, 1.0, -1.0).hue_deg() - 315.0).abs() < 1e-12);
        assert_eq!(Lab::new(50.0, 0.0, 0.0).hue_deg(), 0.0);
    }
}
