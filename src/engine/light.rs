//! What readings stand on, in words.

use super::measure::Measured;
use crate::light::{LightReport, Trust};

pub fn report(measured: &Measured) -> LightReport {
    let used: Vec<&str> = measured
        .tabs
        .iter()
        .filter(|t| t.used)
        .map(|t| t.name.as_str())
        .collect();
    let names = used.join(", ");
    let few = used.len() < 3;
    let (words, raise) = match measured.trust {
        Trust::Card => (
            "The grey card alone.".to_owned(),
            Some(
                "Tabs in the photo, in the plane of the teeth, with their names, would tell what the card cannot: the camera's colour errors and how the light falls on the teeth. A card with several grey steps shows a bent tone curve.",
            ),
        ),
        Trust::CardSteps => (
            "The grey steps of the card.".to_owned(),
            Some(
                "Tabs in the photo, in the plane of the teeth, with their names, would tell what the card cannot: the camera's colour errors and how the light falls on the teeth.",
            ),
        ),
        Trust::CardAndTabs => (
            format!("The card, and tabs by published colours: {names}."),
            Some(
                "Colours measured on your own tabs, typed in or loaded as a shade guide, would replace the published averages, from which a set differs by more than is acceptable.",
            ),
        ),
        Trust::CardAndOwnTabs => (
            format!("The card, and your own tabs by their measured colours: {names}."),
            few.then_some(
                "More of your tabs in the photo, three to five, would settle the light further.",
            ),
        ),
    };
    LightReport {
        trust: measured.trust,
        words,
        raise: raise.map(str::to_owned),
        tabs: measured.tabs.clone(),
        falloff: measured.falloff(),
        tone_curve: !measured.correction.tone.is_straight(),
    }
}
