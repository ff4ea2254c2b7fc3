//! Nearly neutral things: the card's paper and the metal of the tab holders.

use crate::spectrum::Spectrum;

/// Grey paper of luminous reflectance `y`, not perfectly neutral: ±`waviness` (0.01 is a good
/// card) in a slow wave whose place is set by `phase_rad`.
pub fn grey(y: f64, waviness: f64, phase_rad: f64) -> Spectrum {
    let raw = Spectrum::from_fn(|nm| {
        1.0 + waviness
            * (0.7 * ((nm - 380.0) / 350.0 * 5.5 + phase_rad).sin()
                + 0.3 * ((nm - 380.0) / 350.0 * 11.0 + 2.0 * phase_rad).cos())
    });
    let d65 = crate::illuminant::Illuminant::D65.spectrum();
    let have = crate::colour::xyz_under(&d65, &raw)[1];
    raw.scaled(y / have)
}

/// Brushed steel: grey, a little higher toward the red.
pub fn stainless() -> Spectrum {
    Spectrum::from_fn(|nm| 0.55 + 0.06 * (nm - 550.0) / 170.0)
}
