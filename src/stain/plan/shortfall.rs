//! What a plan cannot do, by how much, and what the trade does instead.
//!
//! The alternatives are common practice in the trade (no published source).

use super::search::{Mixtures, allowed};
use super::words::{self, Third};
use super::{QUARTERS, Task};
use crate::colour::delta_e_00_parts;
use crate::colour::threshold::PERCEPTIBILITY_DELTA_E_00;
use crate::stain::book::StrengthBook;
use crate::stain::predict::MAX_COATS;
use crate::stain::types::{PlanLimits, Shortfall, ShortfallCode as Code, ZonePlan};

/// A part of what is left that deserves a word: half of what people see.
const WORTH_A_WORD: f64 = PERCEPTIBILITY_DELTA_E_00 / 2.0;
/// What other limits must gain to be spoken of, ΔE00 …
const GAIN: f64 = 0.3;
/// … and how much of what is left they must take away.
const GAIN_SHARE: f64 = 0.3;
/// A rise of L* by paint that has its price named.
const LIGHTENED_FROM: f64 = 0.3;
/// Share of the light that coats throw back by themselves beyond which a surface looks flat.
/// Our own choice, no source.
const FLAT_FROM: f64 = 0.08;
/// Where hue is spoken of as red and yellow: hue angles of teeth, and chroma enough to see it.
const TOOTH_HUE_DEG: std::ops::RangeInclusive<f64> = 30.0..=130.0;
const LEAST_CHROMA: f64 = 5.0;

/// Everything that falls short on one third.
pub fn of(
    book: &StrengthBook,
    mixtures: &Mixtures<'_>,
    task: &Task,
    zone: &ZonePlan,
    limits: &PlanLimits,
) -> Vec<Shortfall> {
    let mut out = Vec::new();
    prices(task, zone, &mut out);
    let short = zone.after_delta_e_00;
    // What was left on purpose, unseen or within the doubt, falls short of nothing.
    if short <= PERCEPTIBILITY_DELTA_E_00.max(task.zone.doubt) {
        return out;
    }
    let before = out.len();
    causes(book, zone, limits, &mut out);
    if let Some((coats, reached)) = with_more_coats(book, mixtures, task, zone, limits) {
        let each = words::coats(limits.coats_per_firing);
        let limit = match limits.firings {
            1 => format!("{each} in one firing"),
            n => format!("{each} in each of {n} firings"),
        };
        push(
            &mut out,
            zone,
            Code::CoatLimit,
            format!(
                "{} in all would bring it to ΔE00 {reached:.1}; your limit is {limit}.",
                words::coats(coats)
            ),
            &[
                "Plan another firing, if the material's instructions allow it.",
                "Ask for a base nearer the target.",
            ],
        );
    }
    if let Some((names, reached)) = with_other_stains(book, task, zone, limits) {
        push(
            &mut out,
            zone,
            Code::LeftOut,
            format!("{names}, which your limits leave out, would bring it to ΔE00 {reached:.1}."),
            &["Allow it and plan again."],
        );
    }
    if out.len() == before {
        push(
            &mut out,
            zone,
            Code::NoNearer,
            format!("no allowed mix comes nearer than ΔE00 {short:.1}."),
            &[
                "Fire swatches of further stains and plan again.",
                "Ask for a base nearer the target.",
            ],
        );
    }
    out
}

fn push(out: &mut Vec<Shortfall>, zone: &ZonePlan, code: Code, text: String, instead: &[&str]) {
    out.push(Shortfall {
        code,
        zone: zone.zone,
        text: format!("{}: {text}", Third(zone.zone)),
        instead: instead.iter().map(|s| (*s).to_owned()).collect(),
    });
}

/// What is reached at a price.
fn prices(task: &Task, zone: &ZonePlan, out: &mut Vec<Shortfall>) {
    let share = zone.opacity * 100.0;
    let rise = zone.predicted.lab.l() - task.base_lab.l();
    if rise > LIGHTENED_FROM {
        push(
            out,
            zone,
            Code::LightenedAtAPrice,
            format!(
                "value is raised by L* {rise:.1} with a light, scattering stain. The price is opacity ({share:.0} % of the light comes back from the coats themselves) and a flatter look."
            ),
            &[
                "Look at it on a swatch first.",
                "A remake in a lighter base keeps the depth.",
            ],
        );
    } else if zone.opacity > FLAT_FROM {
        push(
            out,
            zone,
            Code::Opaque,
            format!(
                "the coats throw back {share:.0} % of the light by themselves, so the surface may look flat."
            ),
            &[
                "Use fewer coats and accept a remaining difference.",
                "Ask for a base nearer the target.",
            ],
        );
    }
}

/// Why it stays away from its target: value, then chroma, then hue.
fn causes(book: &StrengthBook, zone: &ZonePlan, limits: &PlanLimits, out: &mut Vec<Shortfall>) {
    let left = delta_e_00_parts(zone.to, zone.predicted.lab);
    let at_first = delta_e_00_parts(zone.to, zone.from);
    let by = format!(
        "It stays ΔE00 {:.1} from its target.",
        zone.after_delta_e_00
    );
    if at_first.delta_l < -WORTH_A_WORD && left.delta_l < -WORTH_A_WORD {
        let at_hand = book.stains.iter().any(|s| s.lightens && !s.info.resting);
        let why = match (at_hand, limits.may_lighten) {
            (true, true) => "the lightening stain at hand does not bring it there",
            (true, false) => {
                "surface stain takes light away; the one that lightens is ruled out by your limits"
            }
            (false, _) => {
                "surface stain takes light away, and no stain at hand is shown to lighten by its own swatches"
            }
        };
        push(
            out,
            zone,
            Code::TargetLighter,
            format!(
                "the target is lighter by L* {:.1}, and {why}. {by}",
                zone.to.l() - zone.from.l()
            ),
            &[
                "Remake it in a lighter base.",
                "If earlier stain made it dark: strip the stain and restart, as the material's instructions allow.",
                "Ask the lab what the base allows.",
            ],
        );
    } else if left.delta_l > WORTH_A_WORD {
        push(
            out,
            zone,
            Code::TargetDarker,
            format!(
                "the target is darker; with what may be used L* stays {:.1} too high. {by}",
                zone.predicted.lab.l() - zone.to.l()
            ),
            &[
                "Allow more coats, or a stain that lowers value more (a grey).",
                "Ask for a darker base.",
            ],
        );
    }
    if at_first.delta_c > WORTH_A_WORD && left.delta_c > WORTH_A_WORD {
        push(
            out,
            zone,
            Code::ChromaTooHigh,
            format!(
                "it has more chroma than its target by C* {:.1}. Only a complementary stain takes chroma away, and value with it, or a light one, at the price of opacity. {by}",
                zone.predicted.lab.chroma() - zone.to.chroma()
            ),
            &[
                "Strip the stain and restart, if stain made it so.",
                "Remake it in a base of less chroma.",
                "Ask the lab.",
            ],
        );
    }
    if left.delta_h.abs() > WORTH_A_WORD && zone.to.chroma() >= LEAST_CHROMA {
        let way = match (
            TOOTH_HUE_DEG.contains(&zone.to.hue_deg()),
            left.delta_h > 0.0,
        ) {
            (false, _) => "of another hue",
            (true, true) => "redder",
            (true, false) => "yellower",
        };
        push(
            out,
            zone,
            Code::HueNotAtHand,
            format!("the target is {way}, and no allowed mix turns the hue that far. {by}"),
            &[
                "Fire a swatch of a stain of that hue and plan again.",
                "Ask for a base of the right hue family.",
            ],
        );
    }
}

fn is_a_gain(reached: f64, zone: &ZonePlan) -> bool {
    let left = zone.after_delta_e_00;
    reached <= left - GAIN.max(GAIN_SHARE * left)
}

/// Coats beyond the limit that would bring it clearly nearer, and how near.
fn with_more_coats(
    book: &StrengthBook,
    mixtures: &Mixtures<'_>,
    task: &Task,
    zone: &ZonePlan,
    limits: &PlanLimits,
) -> Option<(f64, f64)> {
    let most = (MAX_COATS * QUARTERS) as u32;
    let allowed_now = super::quarters(limits.coats_per_firing) * limits.firings;
    let all = allowed(book, mixtures, task, limits, most);
    let best = all
        .iter()
        .filter(|c| c.quarters > allowed_now)
        .min_by(|a, b| a.off.delta_e_00.total_cmp(&b.off.delta_e_00))?;
    is_a_gain(best.off.delta_e_00, zone)
        .then(|| (f64::from(best.quarters) / QUARTERS, best.off.delta_e_00))
}

/// Stains that the limits leave out and that would bring it clearly nearer, and how near.
fn with_other_stains(
    book: &StrengthBook,
    task: &Task,
    zone: &ZonePlan,
    limits: &PlanLimits,
) -> Option<(String, f64)> {
    if limits.stains.is_empty() {
        return None;
    }
    let open = PlanLimits {
        stains: Vec::new(),
        ..limits.clone()
    };
    let mixtures = Mixtures::of(book, &open);
    let most = super::quarters(limits.coats_per_firing) * limits.firings;
    let all = allowed(book, &mixtures, task, &open, most);
    let best = all
        .iter()
        .min_by(|a, b| a.off.delta_e_00.total_cmp(&b.off.delta_e_00))?;
    let shares = mixtures.shares(best.mixture);
    let names: Vec<String> = shares
        .iter()
        .filter(|s| !limits.stains.contains(&s.stain))
        .map(|s| format!("“{}”", s.stain))
        .collect();
    (is_a_gain(best.off.delta_e_00, zone) && !names.is_empty())
        .then(|| (names.join(" and "), best.off.delta_e_00))
}
