//! Lights as spectra (relative power, scaled so that a perfect white gives Y = 1).
//!
//! Daylights follow the CIE formula (CIE 015:2018, daylight components and their coefficients);
//! A is Planck's law at 2856 K (c2 = 1.435e-2 m K as the standard says); C and FL11 are tables.
//! The white LEDs and the xenon flash are *models* in the shape such sources have (a blue peak
//! with two phosphors' broad humps, colour rendering good as of lamps meant for a surgery; nearly daylight with a little blackbody), not measurements.

use crate::colour::xyz_per_y;
use crate::spectrum::Spectrum;
use crate::tables::illuminant_tables::{C, FL11, S0, S1, S2};
use serde::{Deserialize, Serialize};

/// A light source by its spectrum.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Illuminant {
    /// Daylight, 5000 K nominal.
    D50,
    /// Daylight, 5500 K nominal.
    D55,
    /// Daylight, 6500 K nominal.
    D65,
    /// Tungsten lamp, 2856 K.
    A,
    /// The older daylight of the tab table.
    C,
    /// Three-band fluorescent lamp, about 4000 K.
    F11,
    /// White LED near 5600 K (model).
    LedCool,
    /// White LED near 4000 K (model).
    LedNeutral,
    /// Xenon flash (model).
    Flash,
    /// Blackbody at a temperature in kelvin.
    Planck(f64),
}

impl Illuminant {
    /// Relative power, Y of a perfect white = 1.
    pub fn spectrum(self) -> Spectrum {
        let raw = match self {
            // Nominal temperatures times 1.4388/1.4380: the constant in Planck's law has moved.
            Self::D50 => daylight(5000.0 * 1.4388 / 1.4380),
            Self::D55 => daylight(5500.0 * 1.4388 / 1.4380),
            Self::D65 => daylight(6500.0 * 1.4388 / 1.4380),
            Self::A => planck(2856.0, 1.435e-2),
            Self::C => Spectrum(C),
            Self::F11 => Spectrum(FL11),
            Self::LedCool => led(0.72, 0.34),
            Self::LedNeutral => led(0.40, 0.66),
            Self::Flash => daylight(5900.0)
                .scaled(0.01)
                .mix(&planck(6200.0, 1.4388e-2), 0.45),
            Self::Planck(kelvin) => planck(kelvin, 1.4388e-2),
        };
        raw.scaled(1.0 / xyz_per_y(&raw))
    }
}

/// CIE daylight at a correlated colour temperature (4000–25000 K).
fn daylight(kelvin: f64) -> Spectrum {
    let t = kelvin;
    let x = if t <= 7000.0 {
        -4.6070e9 / t.powi(3) + 2.9678e6 / t.powi(2) + 0.09911e3 / t + 0.244_063
    } else {
        -2.0064e9 / t.powi(3) + 1.9018e6 / t.powi(2) + 0.24748e3 / t + 0.237_040
    };
    let y = -3.0 * x * x + 2.87 * x - 0.275;
    let m = 0.0241 + 0.2562 * x - 0.7341 * y;
    // The standard rounds both to three decimals.
    let m1 = ((-1.3515 - 1.7703 * x + 5.9114 * y) / m * 1000.0).round() / 1000.0;
    let m2 = ((0.0300 - 31.4424 * x + 30.0717 * y) / m * 1000.0).round() / 1000.0;
    Spectrum(std::array::from_fn(|i| S0[i] + m1 * S1[i] + m2 * S2[i]))
}

/// Planck's law, 1 at 560 nm.
fn planck(kelvin: f64, c2: f64) -> Spectrum {
    let at = |nm: f64| nm.powi(-5) / ((c2 / (nm * 1e-9 * kelvin)).exp() - 1.0);
    Spectrum::from_fn(|nm| at(nm) / at(560.0))
}

/// Blue diode and two phosphor humps.
fn led(blue: f64, red: f64) -> Spectrum {
    let bump = |nm: f64, mid: f64, low: f64, high: f64| {
        let s = if nm < mid { low } else { high };
        (-0.5 * ((nm - mid) / s).powi(2)).exp()
    };
    Spectrum::from_fn(|nm| {
        blue * bump(nm, 452.0, 10.0, 13.0)
            + 0.56 * bump(nm, 530.0, 36.0, 58.0)
            + red * bump(nm, 632.0, 52.0, 42.0)
            + 0.14 * blue * bump(nm, 482.0, 18.0, 30.0)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::colour::xy_of_light;

    #[test]
    fn daylights_sit_at_their_published_chromaticity() {
        // CIE 015:2018; the 10 nm sum and its end at 730 nm move them by a few 1e-4.
        for (light, x, y) in [
            (Illuminant::D50, 0.34567, 0.35851),
            (Illuminant::D55, 0.33243, 0.34744),
            (Illuminant::D65, 0.31272, 0.32903),
            (Illuminant::A, 0.44758, 0.40745),
            (Illuminant::C, 0.31006, 0.31616),
            (Illuminant::F11, 0.3805, 0.3769),
        ] {
            let (cx, cy) = xy_of_light(&light.spectrum());
            let tolerance = if matches!(light, Illuminant::F11) {
                2e-3
            } else {
                8e-4
            };
            assert!(
                (cx - x).abs() < tolerance && (cy - y).abs() < tolerance,
                "{light:?} {cx} {cy}"
            );
        }
    }

    #[test]
    fn no_light_is_negative() {
        for light in [
            Illuminant::LedCool,
            Illuminant::LedNeutral,
            Illuminant::Flash,
            Illuminant::Planck(3200.0),
        ] {
            assert!(light.spectrum().range().0 >= 0.0);
        }
    }
}
