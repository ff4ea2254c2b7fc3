//! Spectra in 31 bands, 400–700 nm at 10 nm, and the L*a*b* they look like under D65.
//!
//! A last band, at 710 nm, counts for nothing: with it bands go in pairs, as processors take them.
//!
//! Reflectances are shares, 0–1. White is the perfect diffuser: a reflectance of 1 in every band
//! is exactly L* 100, a* 0, b* 0. Tables: CIE 015:2018, colour-matching functions of the 1931
//! observer (2°), and ISO/CIE 11664-2, relative power of D65, every tenth nanometre. What lies
//! beyond 395–705 nm is 0.03 % of Y and 0.1 % of X and Z.

use crate::colour::Lab;
use crate::colour::adaptation::WHITE_D65;

/// Bands of a spectrum.
pub const BANDS: usize = 32;
/// One value per band.
pub type Spectrum = [f64; BANDS];

const X_BAR: Spectrum = [
    0.014310, 0.043510, 0.134380, 0.283900, 0.348280, 0.336200, 0.290800, 0.195360, 0.095640,
    0.032010, 0.004900, 0.009300, 0.063270, 0.165500, 0.290400, 0.433450, 0.594500, 0.762100,
    0.916300, 1.026300, 1.062200, 1.002600, 0.854450, 0.642400, 0.447900, 0.283500, 0.164900,
    0.087400, 0.046770, 0.022700, 0.011359, 0.0,
];
const Y_BAR: Spectrum = [
    0.000396, 0.001210, 0.004000, 0.011600, 0.023000, 0.038000, 0.060000, 0.090980, 0.139020,
    0.208020, 0.323000, 0.503000, 0.710000, 0.862000, 0.954000, 0.994950, 0.995000, 0.952000,
    0.870000, 0.757000, 0.631000, 0.503000, 0.381000, 0.265000, 0.175000, 0.107000, 0.061000,
    0.032000, 0.017000, 0.008210, 0.004102, 0.0,
];
const Z_BAR: Spectrum = [
    0.067850, 0.207400, 0.645600, 1.385600, 1.747060, 1.772110, 1.669200, 1.287640, 0.812950,
    0.465180, 0.272000, 0.158200, 0.078250, 0.042160, 0.020300, 0.008750, 0.003900, 0.002100,
    0.001650, 0.001100, 0.000800, 0.000340, 0.000190, 0.000050, 0.000020, 0.0, 0.0, 0.0, 0.0, 0.0,
    0.0, 0.0,
];
const D65: Spectrum = [
    82.7549, 91.4860, 93.4318, 86.6823, 104.8650, 117.0080, 117.8120, 114.8610, 115.9230, 108.8110,
    109.3540, 107.8020, 104.7900, 107.6890, 104.4050, 104.0460, 100.0000, 96.3342, 95.7880,
    88.6856, 90.0062, 89.5991, 87.6987, 83.2886, 83.6992, 80.0268, 80.2146, 82.2778, 78.2842,
    69.7213, 71.6091, 0.0,
];

/// Place of each band, −1 at 400 nm, 0 at 550 nm, 1 at 700 nm.
pub const PLACE: Spectrum = {
    let (mut out, mut band) = ([0.0; BANDS], 0);
    while band < BANDS {
        out[band] = (band as f64 - 15.0) / 15.0;
        band += 1;
    }
    out
};

/// Wavelength of each band, relative to 550 nm.
pub const RELATIVE_WAVELENGTH: Spectrum = {
    let (mut out, mut band) = ([0.0; BANDS], 0);
    while band < BANDS {
        out[band] = (400.0 + 10.0 * band as f64) / 550.0;
        band += 1;
    }
    out
};

/// A spectrum from a rule per band.
pub fn spectrum(of: impl FnMut(usize) -> f64) -> Spectrum {
    std::array::from_fn(of)
}

/// How much each band counts for X, Y, Z; the weights of each sum to the white's.
#[derive(Debug, Clone, PartialEq)]
pub struct Eye([[f64; 3]; BANDS]);

impl Eye {
    /// The 1931 observer under D65.
    pub fn new() -> Self {
        let mut weights = [[0.0; 3]; BANDS];
        for (axis, (bar, white)) in [X_BAR, Y_BAR, Z_BAR].iter().zip(WHITE_D65).enumerate() {
            let all: f64 = bar.iter().zip(D65).map(|(b, e)| b * e).sum();
            for ((w, b), e) in weights.iter_mut().zip(bar).zip(D65) {
                w[axis] = b * e / all * white;
            }
        }
        Self(weights)
    }

    /// XYZ relative to D65 (Y = 1 for the perfect diffuser).
    pub fn xyz_d65(&self, reflectance: &Spectrum) -> [f64; 3] {
        let mut sum = [0.0; 3];
        for (w, r) in self.0.iter().zip(reflectance) {
            for (s, w) in sum.iter_mut().zip(w) {
                *s += w * r;
            }
        }
        sum
    }

    /// Luminance Y, 0–1.
    pub fn luminance(&self, reflectance: &Spectrum) -> f64 {
        self.0.iter().zip(reflectance).map(|(w, r)| w[1] * r).sum()
    }

    /// L*a*b*, D65, 2° observer.
    pub fn lab(&self, reflectance: &Spectrum) -> Lab {
        Lab::from_xyz_d65(self.xyz_d65(reflectance))
    }
}

impl Default for Eye {
    fn default() -> Self {
        Self::new()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_perfect_diffuser_is_white_and_red_light_is_red() {
        let eye = Eye::new();
        let white = eye.lab(&[1.0; BANDS]);
        assert!((white.l() - 100.0).abs() < 1e-9 && white.chroma() < 1e-9);
        let red = eye.lab(&spectrum(|i| if i > 20 { 0.8 } else { 0.1 }));
        assert!(red.a() > 20.0 && red.b() > 10.0);
    }

    /// A yellow-brown reflectance summed over 380–730 nm at 5 nm with an independent library
    /// (colour-science 0.4.7, CIE 1931 2°, D65).
    #[test]
    fn agrees_with_a_finer_sum() {
        let eye = Eye::new();
        let edge = |nm: f64| 0.2 + 0.6 / (1.0 + libm::exp((500.0 - nm) / 40.0));
        let lab = eye.lab(&spectrum(|i| edge(400.0 + 10.0 * i as f64)));
        for (got, want) in lab.0.iter().zip(FINE) {
            assert!((got - want).abs() < 0.15, "{lab:?}");
        }
    }
    const FINE: [f64; 3] = [84.922, 0.247, 32.142];
}
