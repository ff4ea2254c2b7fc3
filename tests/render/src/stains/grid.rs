//! Spectra at 5 nm, 380–730 nm, and their CIELAB (D65, 2°).
//!
//! The stains' features are narrower than the crate's 10 nm grid likes. D65 is taken between its
//! tabled values on a straight line (as CIE 015:2018 asks), the observer and lifted reflectances
//! on a cubic. White is the perfect diffuser as summed here.

use crate::colour::lab_from_xyz;
use crate::illuminant::Illuminant;
use crate::spectrum::{self, Spectrum};
use crate::tables::observer::observer_2deg;
use std::sync::OnceLock;

/// Number of samples.
pub const N: usize = 2 * spectrum::N - 1;

/// Wavelength of sample `i`, in nanometres.
pub fn wavelength_nm(i: usize) -> f64 {
    380.0 + 5.0 * i as f64
}

/// Samples at 380, 385 … 730 nm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fine(pub [f64; N]);

impl Fine {
    /// From a function of the wavelength in nanometres.
    pub fn from_fn(f: impl Fn(f64) -> f64) -> Self {
        Self(std::array::from_fn(|i| f(wavelength_nm(i))))
    }

    /// A 10 nm spectrum with the samples between on a cubic through four neighbours.
    pub fn from_coarse(coarse: &Spectrum) -> Self {
        Self::between(coarse, |c, i| {
            if i == 0 {
                (3.0 * c[0] + 6.0 * c[1] - c[2]) / 8.0
            } else if i + 2 == spectrum::N {
                (3.0 * c[i + 1] + 6.0 * c[i] - c[i - 1]) / 8.0
            } else {
                (9.0 * (c[i] + c[i + 1]) - c[i - 1] - c[i + 2]) / 16.0
            }
        })
    }

    fn between(coarse: &Spectrum, mid: impl Fn(&[f64; spectrum::N], usize) -> f64) -> Self {
        Self(std::array::from_fn(|i| {
            if i % 2 == 0 {
                coarse.0[i / 2]
            } else {
                mid(&coarse.0, i / 2)
            }
        }))
    }

    /// Sample by sample.
    pub fn map(&self, f: impl Fn(f64) -> f64) -> Self {
        Self(self.0.map(f))
    }

    /// Sample by sample of two.
    pub fn zip(&self, other: &Self, f: impl Fn(f64, f64) -> f64) -> Self {
        Self(std::array::from_fn(|i| f(self.0[i], other.0[i])))
    }

    /// Mean of all samples.
    pub fn mean(&self) -> f64 {
        self.0.iter().sum::<f64>() / N as f64
    }

    /// CIELAB of this reflectance under D65, 2°.
    pub fn lab_d65(&self) -> [f64; 3] {
        let sum = |w: &Self| w.0.iter().zip(&self.0).map(|(a, b)| a * b).sum::<f64>();
        let weights = weights();
        let white = weights.each_ref().map(|w| w.0.iter().sum());
        lab_from_xyz(weights.each_ref().map(sum), white)
    }
}

/// D65 × observer, for X, Y, Z.
fn weights() -> &'static [Fine; 3] {
    static WEIGHTS: OnceLock<[Fine; 3]> = OnceLock::new();
    WEIGHTS.get_or_init(|| {
        let light = Fine::between(&Illuminant::D65.spectrum(), |c, i| 0.5 * (c[i] + c[i + 1]));
        observer_2deg().map(|bar| light.zip(&Fine::from_coarse(&bar), |a, b| a * b))
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::colour::{delta_e_00, lab_d65};
    use crate::material::{Family, lift_d65};

    #[test]
    fn a_perfect_white_is_100_0_0() {
        let lab = Fine::from_fn(|_| 1.0).lab_d65();
        assert!((lab[0] - 100.0).abs() < 1e-9 && lab[1].abs() < 1e-9 && lab[2].abs() < 1e-9);
    }

    #[test]
    fn smooth_spectra_have_the_same_colour_at_5_and_at_10_nm() {
        for lab in [[80.0, -1.0, 12.0], [65.0, 3.0, 24.0]] {
            let r = lift_d65(Family::Ceramic, lab);
            let d = delta_e_00(Fine::from_coarse(&r).lab_d65(), lab_d65(&r));
            assert!(d < 0.03, "{d}");
        }
        // A parabola is met exactly between its samples.
        let f = |nm: f64| ((nm - 500.0) / 100.0).powi(2);
        let fine = Fine::from_coarse(&Spectrum::from_fn(f));
        for (i, v) in fine.0.iter().enumerate() {
            assert!((v - f(wavelength_nm(i))).abs() < 1e-12, "{i}");
        }
    }
}
