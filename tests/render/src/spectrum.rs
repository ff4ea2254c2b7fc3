//! A spectrum: 36 samples from 380 to 730 nm at 10 nm. Reflectances are 0–1 (diffuse
//! reflectance factor), light is relative power, sensitivities are relative.

/// Number of samples.
pub const N: usize = 36;

/// Wavelength of sample `i`, in nanometres.
pub fn wavelength_nm(i: usize) -> f64 {
    380.0 + 10.0 * i as f64
}

/// Samples at 380, 390 … 730 nm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spectrum(pub [f64; N]);

impl Spectrum {
    /// From a function of the wavelength in nanometres.
    pub fn from_fn(f: impl Fn(f64) -> f64) -> Self {
        Self(std::array::from_fn(|i| f(wavelength_nm(i))))
    }

    /// The same value everywhere.
    pub fn flat(v: f64) -> Self {
        Self([v; N])
    }

    /// Sample by sample product.
    pub fn times(&self, other: &Self) -> Self {
        Self(std::array::from_fn(|i| self.0[i] * other.0[i]))
    }

    /// Scaled by a number.
    pub fn scaled(&self, k: f64) -> Self {
        Self(self.0.map(|v| v * k))
    }

    /// Sum of sample by sample products.
    pub fn dot(&self, other: &Self) -> f64 {
        self.0.iter().zip(&other.0).map(|(a, b)| a * b).sum()
    }

    /// `(1 − t)·self + t·other`.
    pub fn mix(&self, other: &Self, t: f64) -> Self {
        Self(std::array::from_fn(|i| {
            self.0[i] * (1.0 - t) + other.0[i] * t
        }))
    }

    /// Smallest and largest sample.
    pub fn range(&self) -> (f64, f64) {
        self.0
            .iter()
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(lo, hi), &v| {
                (lo.min(v), hi.max(v))
            })
    }
}
