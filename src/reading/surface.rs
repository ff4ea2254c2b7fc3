//! Whether tabs and teeth are alike in wetness: gloss told from the sheen found on each.

use super::form::Form;
use super::statistics::RegionStatistics;
use crate::error::{CheckCode, LightCheck, Severity};
use crate::scene::RegionKind;

/// Sheen (of a perfect diffuser's light) and dropped highlights are added with this weight: a
/// highlight that was dropped is about this much brighter than the surface.
const HIGHLIGHT: f64 = 0.15;
/// Gloss that does not tell: added to both sides.
const DULL: f64 = 0.001;
/// Gloss of the tabs, in that of the teeth, which sound photos do not leave: 0.50 to 2.5 on rendered
/// ones.
const ALIKE: std::ops::RangeInclusive<f64> = 0.43..=3.0;

/// Mean gloss of the regions of one side.
fn gloss<'a>(forms: impl Iterator<Item = (&'a RegionStatistics, &'a Form)>) -> Option<f64> {
    let (mut sum, mut n) = (0.0, 0.0);
    for (statistics, form) in forms {
        let thirds = form.zones.iter().flatten();
        let sheen: Vec<f64> = thirds.map(|z| z.sheen).collect();
        if sheen.is_empty() {
            continue;
        }
        let mean = sheen.iter().sum::<f64>() / sheen.len() as f64;
        let whole = statistics.zone(crate::scene::Zone::Whole);
        sum += mean + HIGHLIGHT * whole.dropped_share();
        n += 1.0;
    }
    (n > 0.0).then(|| sum / n)
}

/// Compares tabs with teeth.
pub fn check_surfaces<'a>(
    regions: impl Iterator<Item = (RegionKind, &'a RegionStatistics, &'a Form)> + Clone,
    checks: &mut Vec<LightCheck>,
) {
    let side = |tab: bool| {
        let of = regions
            .clone()
            .filter(move |(kind, ..)| (*kind == RegionKind::Tab) == tab);
        gloss(of.map(|(_, statistics, form)| (statistics, form)))
    };
    let (Some(tabs), Some(teeth)) = (side(true), side(false)) else {
        return;
    };
    let which = if tabs < teeth {
        "the tabs look dry and dull, the teeth wet and shiny"
    } else {
        "the teeth look dry and dull, the tabs wet and shiny"
    };
    if !ALIKE.contains(&((tabs + DULL) / (teeth + DULL))) {
        checks.push(LightCheck::new(
            CheckCode::SurfaceUnlike,
            Severity::Care,
            format!("Tabs and teeth differ in wetness: {which}."),
            "Wet the tabs as the teeth are wet (or dry neither), hold them in the plane of the \
             teeth, and take the photo again: a wet surface reflects otherwise than a dry one.",
        ));
    }
}
