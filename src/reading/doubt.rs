//! The doubt of a zone reading: ± in ΔE00, about 95 %.
//!
//! Independent parts are added in quadrature at one standard deviation and doubled. Each part
//! is carried through the colour arithmetic by finite differences, so that it arrives in ΔE00
//! at the zone's own colour.

use super::statistics::Sums;
use crate::colour::{Vec3, delta_e_00};
use crate::light::correction::{CORRELATED_PIXELS, Correction, Trust};

/// Standard deviation, in ΔE00, of what a grey card cannot undo: the camera's spectral errors,
/// the shading of the curved tooth and sheen that is not told from enamel. Chosen so that about
/// 95 % of the zones of the accuracy run lie within their doubt (40 scenes: 95.1 %; errors there
/// have the median 1.24, and 95 % are below 3.19).
const CAMERA_CARD_ONLY: f64 = 1.5;
/// The same with several neutral steps, which pin exposure but no more of the spectrum.
const CAMERA_CARD_STEPS: f64 = 1.4;
/// What glare that was not found may add to the linear light: this share of the found share.
const HIDDEN_GLARE: f64 = 0.05;

/// What is left of the camera's error between two tooth colours in one photo: they are made
/// of other pigments, so a part is not shared. Measured on the same scenes.
const CAMERA_IN_PHOTO: f64 = 0.4;

/// The two doubts of a zone, in ΔE00, about 95 %.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ZoneDoubt {
    /// On the colour itself.
    pub absolute: f64,
    /// When it is compared inside the photo.
    pub in_photo: f64,
}

/// The doubts of a zone.
pub fn zone_doubt(
    correction: &Correction,
    sums: &Sums,
    quantisation_linear: f64,
) -> Option<ZoneDoubt> {
    let mean = sums.mean()?;
    let at = correction.lab(mean);
    let moved = |rgb: Vec3| delta_e_00(at, correction.lab(rgb));

    let independent = (f64::from(sums.used) / CORRELATED_PIXELS).max(1.0);
    let error = sums
        .deviation()
        .map(|d| (d * d + quantisation_linear * quantisation_linear / 12.0) / independent);
    let noise: f64 = (0..3_usize)
        .map(|channel| {
            let mut rgb = mean;
            if let (Some(v), Some(e)) = (rgb.get_mut(channel), error.get(channel)) {
                *v += e.sqrt();
            }
            let part = moved(rgb);
            part * part
        })
        .sum();

    let gain = moved(mean.map(|v| v * (1.0 + correction.gain_uncertainty)));
    let residuals = &correction.step_residuals;
    let residual_square =
        residuals.iter().map(|r| r * r).sum::<f64>() / (residuals.len().max(1) as f64);
    let camera = match correction.trust {
        Trust::Card => CAMERA_CARD_ONLY,
        Trust::CardSteps => CAMERA_CARD_STEPS,
    };
    let glare = moved(mean.map(|v| v * (1.0 - HIDDEN_GLARE * sums.dropped_share())));
    let own = noise + glare * glare;
    // Light that is uneven across the card is uneven across the teeth too.
    let in_photo = own + gain * gain + CAMERA_IN_PHOTO * CAMERA_IN_PHOTO;
    Some(ZoneDoubt {
        absolute: 2.0 * (own + gain * gain + residual_square + camera * camera).sqrt(),
        in_photo: 2.0 * in_photo.sqrt(),
    })
}
