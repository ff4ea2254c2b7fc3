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
/// What more coats must gain to be spoken of, ΔE00.
const COATS_GAIN: f64 = 0.3;
/// Share of the light that coats throw back by themselves beyond which a surface looks flat.
/// Our own choice, no source.
const FLAT_FROM: f64 = 0.08;

/// Everything that falls short on one third.
pub fn of(
    book: &StrengthBook,
    mixtures: &Mixtures<'_>,
    task: &Task,
    zone: &ZonePlan,
    limits: &PlanLimits,
) -> Vec<Shortfall> {
    let mut out = Vec::new();
    let mut say = |code, text: String, instead: &[&str]| {
        out.push(Shortfall {
            code,
            zone: zone.zone,
            text,
            instead: instead.iter().map(|s| (*s).to_owned()).collect(),
        });
    };
    let who = Third(zone.zone);
    let left = delta_e_00_parts(zone.to, zone.predicted.lab);
    let at_first = delta_e_00_parts(zone.to, zone.from);
    let lightened = zone.predicted.lab.l() > task.base_lab.l() + 0.1;
    if lightened {
        say(
            Code::LightenedAtAPrice,
            format!(
                "{who}: value is raised by L* {:.1} with a light, scattering stain. The price is opacity ({:.0} % of the light comes back from the coats themselves) and a flatter look.",
                zone.predicted.lab.l() - zone.from.l(),
                zone.opacity * 100.0
            ),
            &[
                "Look at it on a swatch first.",
                "A remake in a lighter base keeps the depth.",
            ],
        );
    }
    if zone.opacity > FLAT_FROM && !lightened {
        say(
            Code::Opaque,
            format!(
                "{who}: the coats throw back {:.0} % of the light by themselves, so the surface may look flat.",
                zone.opacity * 100.0
            ),
            &[
                "Use fewer coats and accept a remaining difference.",
                "Ask the lab for a base nearer the target.",
            ],
        );
    }
    let short = left.delta_e_00;
    if short <= PERCEPTIBILITY_DELTA_E_00 {
        return out;
    }
    let by = format!("It stays ΔE00 {short:.1} from its target.");
    if at_first.delta_l < -WORTH_A_WORD && left.delta_l < -WORTH_A_WORD {
        let why = if limits.may_lighten && book.stains.iter().any(|s| s.lightens && !s.info.resting)
        {
            "the lightening stain at hand does not bring it there"
        } else {
            "surface stain takes light away, and no stain at hand is shown to lighten by its own swatches"
        };
        say(
            Code::TargetLighter,
            format!(
                "{who}: the target is lighter by L* {:.1}, and {why}. {by}",
                zone.to.l() - zone.from.l()
            ),
            &[
                "Remake it in a lighter base.",
                "If earlier stain made it dark: strip the stain and restart, as the material's instructions allow.",
                "Ask the lab what the base allows.",
            ],
        );
    }
    if at_first.delta_c > WORTH_A_WORD && left.delta_c > WORTH_A_WORD {
        say(
            Code::ChromaTooHigh,
            format!(
                "{who}: it has more chroma than its target by C* {:.1}. Only a complementary stain takes chroma away, and value with it. {by}",
                zone.predicted.lab.chroma() - zone.to.chroma()
            ),
            &[
                "Strip the stain and restart, if stain made it so.",
                "Remake it in a base of less chroma.",
                "Ask the lab.",
            ],
        );
    }
    if left.delta_h.abs() > WORTH_A_WORD {
        let way = if left.delta_h > 0.0 {
            "redder"
        } else {
            "yellower"
        };
        say(
            Code::HueNotAtHand,
            format!(
                "{who}: the target is {way}, and no allowed mix of the stains at hand turns the hue that far. {by}"
            ),
            &[
                "Fire a swatch of a stain of that hue and plan again.",
                "Ask the lab for a base of the right hue family.",
            ],
        );
    }
    if let Some((coats, reached)) = with_more_coats(book, mixtures, task, zone, limits) {
        say(
            Code::CoatLimit,
            format!(
                "{who}: {} would bring it to ΔE00 {reached:.1}; your limit is {} in {}.",
                words::coats(coats),
                words::coats(limits.coats_per_firing),
                if limits.firings == 1 {
                    "one firing".to_owned()
                } else {
                    format!("each of {} firings", limits.firings)
                },
            ),
            &[
                "Plan another firing, if the material's instructions allow it.",
                "Ask the lab for a base nearer the target.",
            ],
        );
    }
    if out.is_empty() {
        out.push(Shortfall {
            code: Code::HueNotAtHand,
            zone: zone.zone,
            text: format!("{who}: no allowed mix comes nearer. {by}"),
            instead: vec![
                "Fire swatches of further stains and plan again.".to_owned(),
                "Ask the lab.".to_owned(),
            ],
        });
    }
    out
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
    (best.off.delta_e_00 < zone.after_delta_e_00 - COATS_GAIN)
        .then(|| (f64::from(best.quarters) / QUARTERS, best.off.delta_e_00))
}
