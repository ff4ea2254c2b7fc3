//! Light checks that follow from the correction as a whole.

use super::correction::Correction;
use super::model::LightModel;
use super::types::AnchorTab;
use crate::colour::Lab;
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

/// Whether a known colour can be that of a tab at all.
pub fn is_tab_colour(lab: Lab) -> bool {
    let [l, a, b] = lab.0;
    (35.0..=100.0).contains(&l) && (-10.0..=15.0).contains(&a) && (-5.0..=50.0).contains(&b)
}

/// The check for a tab whose known colour no tooth has.
pub fn tab_impossible(name: &str, region: &str, lab: Lab) -> LightCheck {
    let [l, a, b] = lab.0;
    LightCheck::new(
        CheckCode::TabContradicts,
        Severity::Care,
        format!("Tab “{name}” is given as L* {l:.0}, a* {a:.0}, b* {b:.0}, which no tooth or tab is. It is not used."),
        "Correct its colour in the shade guide.",
    )
    .about(region)
}

/// Tabs that the others contradict.
pub fn check_tabs(tabs: &[AnchorTab], measured: bool, checks: &mut Vec<LightCheck>) {
    for tab in tabs.iter().filter(|t| !t.used) {
        checks.push(
            LightCheck::new(
                CheckCode::TabContradicts,
                Severity::Care,
                format!(
                    "Tab “{}” does not look like its known colour: the other tabs put it ΔE00 {:.1} away. It is not used.",
                    tab.name, tab.left_out_delta_e_00
                ),
                if measured {
                    "Check the name of this tab, its outline, and the colour given for it in the guide."
                } else {
                    "Check the name of this tab and its outline. The known colours are published averages; your own tab may differ."
                },
            )
            .about(&tab.region),
        );
    }
}

/// The check for a photo whose card and tabs agree only with a bent tone curve.
pub fn tone_by_tabs() -> LightCheck {
    LightCheck::new(
        CheckCode::Processed,
        Severity::Care,
        "Card and tabs agree only if the picture's tones were bent: a camera style, a filter or an edit.",
        "The tabs undo most of it. Switch off picture styles, filters and automatic enhancement, or use a card with several grey steps, which shows the curve.",
    )
}

/// What tabs of known colour say about the card: that it is turned away from the light that the
/// teeth get, or is not the grey it is said to be.
pub fn check_card_by_tabs(model: &LightModel, measured: bool, checks: &mut Vec<LightCheck>) {
    let slack = if measured { 1.0 } else { 1.6 };
    let [gain, sd] = model.gain();
    if gain.abs() > slack * TILTED && gain.abs() > 2.5 * sd {
        let way = if gain < 0.0 { "less" } else { "more" };
        checks.push(LightCheck::new(
            CheckCode::CardTilted,
            Severity::Care,
            format!(
                "The card gets {:.0} % {way} light than the tabs do: it is turned out of the plane of the teeth, or lies in front of or behind it.",
                100.0 * (1.0 - libm::exp(-gain.abs()))
            ),
            "Hold the card flat in the plane of the teeth, facing the camera, and take the photo again. The tabs correct the readings meanwhile.",
        ));
    }
    let colour = model.card_colour();
    let off = libm::hypot(colour[0], colour[1]);
    if off > slack * TINTED {
        checks.push(LightCheck::new(
            CheckCode::CardNotNeutral,
            Severity::Care,
            format!(
                "By the tabs, the card is not the grey it is said to be: a channel is off by {:.0} %.",
                100.0 * off
            ),
            "Use a card that is sold as neutral grey, or type the L*, a*, b* printed on it; check that no coloured light falls on the card alone.",
        ));
    }
}

/// ln of light that the card may lack against the tabs.
const TILTED: f64 = 0.075;
/// ln of a channel that the card may be off by.
const TINTED: f64 = 0.055;

#[cfg(test)]
mod tests;
