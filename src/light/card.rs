//! Reading the card of a scene: every neutral step measured, and judged fit or not.

use super::patch::{CLIPPED_PEAK, Patch, measure};
use crate::colour::Lab;
use crate::error::{CheckCode, Error, LightCheck, Result, Severity};
use crate::photo::Photo;
use crate::scene::{Card, Point, Polygon};

/// Reflectance taken for a card of which nothing is known: L* 50.00.
pub const DEFAULT_CARD_Y: f64 = 0.184_187;
/// Usable pixels a balance needs at least.
pub const MIN_CARD_PIXELS: u32 = 200;
/// Steps a card may have.
const MAX_STEPS: usize = 32;

/// One neutral step: its known colour and what was measured.
#[derive(Debug, Clone, PartialEq)]
pub struct StepReading {
    /// Known colour, D65.
    pub known: Lab,
    /// What the photo shows.
    pub patch: Patch,
}

/// All usable steps of the card; at least one.
#[derive(Debug, Clone, PartialEq)]
pub struct CardReading {
    /// The steps.
    pub steps: Vec<StepReading>,
}

/// Measures the card. `Ok(None)` when it cannot be balanced on: a check then says why. Errors
/// are for outlines and numbers that cannot be meant.
pub fn read_card(
    photo: &Photo,
    card: &Card,
    checks: &mut Vec<LightCheck>,
) -> Result<Option<CardReading>> {
    let wanted = wanted_steps(card)?;
    let mut steps = Vec::with_capacity(wanted.len());
    let mut seen = Seen::default();
    for (outline, known) in wanted {
        let polygon = Polygon::new(&outline, "The card's outline")?;
        let (patch, clipped) = measure(photo, &polygon);
        seen.clipped = seen.clipped.max(clipped);
        let Some(patch) = patch else {
            seen.inside = seen.inside.min(crate::scene::pixels::share_inside(
                &polygon,
                photo.width_px(),
                photo.height_px(),
            ));
            continue;
        };
        seen.inside = seen.inside.min(patch.inside);
        seen.unevenness = seen.unevenness.max(patch.unevenness);
        seen.texture = seen.texture.max(patch.texture);
        seen.outliers = seen.outliers.max(patch.outliers);
        seen.pixels = seen.pixels.max(patch.pixels);
        seen.brightest = patch.linear_rgb.into_iter().fold(seen.brightest, f64::max);
        // More than half clipped: what is left is the unclipped tail and would mislead.
        if patch.pixels >= MIN_CARD_PIXELS && clipped <= 0.5 {
            steps.push(StepReading { known, patch });
        }
    }
    seen.report(steps.is_empty(), checks);
    Ok((!steps.is_empty()).then_some(CardReading { steps }))
}

fn wanted_steps(card: &Card) -> Result<Vec<(Vec<Point>, Lab)>> {
    let remedy = "Give L*, a*, b* as printed on the card (L* 5 to 99, a* and b* within ±20), or \
                  the share of light it reflects between 0.02 and 0.98.";
    if card.steps.len() > MAX_STEPS {
        return Err(Error::input(
            format!(
                "The card has {} steps; at most {MAX_STEPS} are taken.",
                card.steps.len()
            ),
            "Remove the steps that are not needed.",
        ));
    }
    let sane = |lab: Lab| {
        lab.is_finite()
            && (5.0..=99.5).contains(&lab.l())
            && lab.a().abs() <= 20.0
            && lab.b().abs() <= 20.0
    };
    let known = match (card.lab, card.reflectance) {
        (Some(lab), _) if sane(lab) => lab,
        (None, Some(y)) if (0.02..=0.98).contains(&y) => Lab::neutral_from_y(y),
        (None, None) => Lab::neutral_from_y(DEFAULT_CARD_Y),
        _ => {
            return Err(Error::input(
                "The card's colour cannot be that of a grey card.",
                remedy,
            ));
        }
    };
    let mut wanted = Vec::with_capacity(card.steps.len() + 1);
    // The single patch and the steps are alternatives: steps carry their own colours.
    if !card.outline.is_empty() && card.steps.is_empty() {
        wanted.push((card.outline.clone(), known));
    }
    for step in &card.steps {
        if !sane(step.lab) {
            return Err(Error::input(
                "A step of the card has a colour that no grey has.",
                remedy,
            ));
        }
        wanted.push((step.outline.clone(), step.lab));
    }
    if wanted.is_empty() {
        return Err(Error::input(
            "The card has no outline.",
            "Tap the card in the photo.",
        ));
    }
    Ok(wanted)
}

/// The worst of what the steps showed.
struct Seen {
    clipped: f64,
    inside: f64,
    unevenness: f64,
    texture: f64,
    outliers: f64,
    pixels: u32,
    brightest: f64,
}

impl Default for Seen {
    fn default() -> Self {
        Self {
            clipped: 0.0,
            inside: 1.0,
            unevenness: 0.0,
            texture: 0.0,
            outliers: 0.0,
            pixels: 0,
            brightest: 0.0,
        }
    }
}

impl Seen {
    fn report(&self, unusable: bool, checks: &mut Vec<LightCheck>) {
        use CheckCode as C;
        let hard = if unusable {
            Severity::Retake
        } else {
            Severity::Care
        };
        let percent = |share: f64| format!("{:.0} %", 100.0 * share);
        let mut say = |code, severity, text: String, remedy: &str| {
            checks.push(LightCheck::new(code, severity, text, remedy));
        };
        if self.inside < 0.999 {
            say(
                C::CardOutside,
                hard,
                format!(
                    "{} of the card's outline lies outside the photo.",
                    percent(1.0 - self.inside)
                ),
                "Draw the card's outline within the photo.",
            );
        }
        if self.clipped > 0.02 {
            say(
                C::CardClipped,
                if self.clipped > 0.3 {
                    Severity::Retake
                } else {
                    hard
                },
                format!(
                    "{} of the card is too bright to be measured (above {:.0} of 255).",
                    percent(self.clipped),
                    CLIPPED_PEAK * 255.0
                ),
                "Take the photo again with less light or a shorter exposure, and tilt the card \
                 until it does not shine.",
            );
        } else if unusable && self.inside > 0.0 {
            say(
                C::CardSmall,
                Severity::Retake,
                format!(
                    "Only {} usable pixels lie on the card; {MIN_CARD_PIXELS} are needed.",
                    self.pixels
                ),
                "Outline more of the card, or photograph it larger.",
            );
        }
        if unusable {
            return;
        }
        if self.brightest < DARK_LINEAR {
            say(
                C::CardDark,
                Severity::Retake,
                "The card is almost black in the photo, so its colour is mostly noise.".into(),
                "Take the photo again with more light or a longer exposure.",
            );
        }
        if self.outliers > PRINTED && self.unevenness <= 0.10 && self.texture <= 0.15 {
            say(
                C::CardTextured,
                Severity::Care,
                format!(
                    "{} of the card differs from the rest of it: print, dirt or shine.",
                    percent(self.outliers)
                ),
                "Outline a part of the card that is plain grey, or use a clean card without print.",
            );
        }
        if self.unevenness > 0.10 || self.texture > 0.15 {
            let severe = self.unevenness > 0.35;
            say(
                C::CardTextured,
                if severe {
                    Severity::Retake
                } else {
                    Severity::Care
                },
                format!(
                    "The card is uneven: {} between its darker and its lighter parts.",
                    percent(self.unevenness.max(self.texture))
                ),
                "Hold the card flat in the plane of the teeth, without shadow or shine; make sure \
                 that the outline holds nothing but card.",
            );
        }
    }
}

/// Share of a card's pixels far from the rest that a plain card does not have.
const PRINTED: f64 = 0.15;
/// Linear light below which a card is too dark: the sRGB code 24.
const DARK_LINEAR: f64 = 0.009;

#[cfg(test)]
mod tests;
