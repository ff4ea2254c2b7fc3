//! Light checks that follow from the correction as a whole.

use super::correction::Correction;
use crate::error::{CheckCode, LightCheck, Severity};

/// Cast above which the balance is doubtful: gains three to one. (Tungsten light taken as
/// daylight asks for about that in sRGB; common practice, no source.)
const STRONG_CAST: f64 = 3.0;
/// Under-exposure from which noise and quantisation matter: two and a half stops.
const UNDER_EXPOSED_GAIN: f64 = 5.6;
/// ΔE00 that the steps of a card may be apart from their known colours.
const STEP_TOLERANCE: f64 = 2.0;

/// The check for a scene without a usable card.
pub fn card_missing() -> LightCheck {
    LightCheck::new(
        CheckCode::CardMissing,
        Severity::Retake,
        "No grey card is marked, so colours cannot be told from the colour of the light.",
        "Tap the grey card in the photo. If there is none in the picture, take the photo again \
         with the card beside the teeth.",
    )
}

/// The check for a card that was measured but has no light in one of the channels.
pub fn card_black() -> LightCheck {
    LightCheck::new(
        CheckCode::CardDark,
        Severity::Retake,
        "The card has no light in at least one colour channel, so nothing can be balanced on it.",
        "Check the card's outline; take the photo again with more and whiter light.",
    )
}

/// What the correction itself says about the light.
pub fn check_correction(correction: &Correction, checks: &mut Vec<LightCheck>) {
    let exposure = correction.exposure_gain();
    let cast = correction.cast_ratio();
    if cast > STRONG_CAST {
        checks.push(LightCheck::new(
            CheckCode::CastStrong,
            Severity::Care,
            format!("The light has a strong colour cast: one channel needs {cast:.1} times the gain of another."),
            "The card takes the cast out, but less exactly than usual. Set the camera's white \
             balance to the light you use, and switch off other lights.",
        ));
    }
    if exposure > UNDER_EXPOSED_GAIN {
        checks.push(LightCheck::new(
            CheckCode::UnderExposed,
            Severity::Care,
            format!(
                "The photo is {:.1} stops too dark by the card.",
                libm::log2(exposure)
            ),
            "Take the photo again with more light: dark pixels are coarse and noisy.",
        ));
    }
    let worst = correction
        .step_residuals
        .iter()
        .copied()
        .fold(0.0, f64::max);
    if worst > STEP_TOLERANCE {
        checks.push(LightCheck::new(
            CheckCode::CardNotNeutral,
            Severity::Care,
            format!("The card's steps do not agree with their known colours: ΔE00 {worst:.1} remains on the worst."),
            "Check the colours typed for the steps and that each outline lies on its own step; \
             a processed photo (tone curve, filter) shows the same.",
        ));
    }
}
