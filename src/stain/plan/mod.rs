//! From a restoration to its target: which mix, how many coats, in which order.
//!
//! `search` tries every allowed mix and number of coats on every third, `choose` takes one per
//! third so that they fit together, `shortfall` says what cannot be reached, `steps` how to
//! paint it. The same input gives the same plan.

mod choose;
mod search;
mod shortfall;
mod steps;
pub mod words;

use super::book::StrengthBook;
use super::layer::Layer;
use super::predict::MAX_COATS;
use super::spectrum::Spectrum;
use super::types::{Paint, Plan, PlanLimits, PlanRequest, PlanZone, Predicted, Share, ZonePlan};
use crate::colour::order::sorted_by_key;
use crate::colour::threshold::{PERCEPTIBILITY_DELTA_E_00, Verdict};
use crate::colour::{Lab, delta_e_00};
use crate::error::{Error, Result};
use crate::reading::words::{Subject, difference_in_words};
use crate::scene::Zone;
use search::{Candidate, Mixtures};

/// Coats go in quarters.
pub const QUARTERS: f64 = 4.0;
/// Parts that a mix has.
const PARTS: u32 = 10;
/// Paint that brings a third nearer by less than this is not worth it, ΔE00.
const WORTH: f64 = 0.3;

/// What must be said with every plan. Common practice in the trade, no published source.
pub const CAUTIONS: [&str; 5] = [
    "Try the mix on a swatch first: these are calculated colours.",
    "Firing temperature, hold and number of firings are in the material's own instructions, not \
     in this tool; every firing more changes the colour.",
    "Ceramic dust, stain powders and glaze sprays need extraction, mask and gloves by local rules.",
    "Surface stain wears with the years; plan to look at it again.",
    "The final judgement is the clinician's, at the try-in, under two lights.",
];

/// One third as the search sees it.
pub(super) struct Task {
    pub zone: PlanZone,
    /// What comes back inside the restoration, with the foundation on it.
    pub base: Spectrum,
    /// Its colour.
    pub base_lab: Lab,
    /// ± that the foundation brings, ΔE00.
    pub base_doubt: f64,
}

impl Task {
    /// With readings that have a doubt: what is not seen, or lies within the doubt, is left.
    fn is_better_left(&self, unpainted: f64) -> bool {
        let doubt = self.zone.doubt;
        doubt > 0.0 && unpainted <= doubt.max(PERCEPTIBILITY_DELTA_E_00)
    }

    /// Takes the foundation away.
    fn stay_bare(&mut self, book: &StrengthBook) -> Result<()> {
        self.base = book.internal(self.zone.from)?;
        self.base_lab = self.zone.from;
        self.base_doubt = 0.0;
        Ok(())
    }
}

/// Plans all thirds of a request.
pub fn plan(book: &StrengthBook, request: &PlanRequest) -> Result<Plan> {
    let limits = checked(book, request)?;
    let mut tasks = tasks(book, request, &limits)?;
    let mixtures = Mixtures::of(book, &limits);
    let most = quarters(limits.coats_per_firing) * limits.firings;
    let shortlists: Vec<Vec<Candidate>> = tasks
        .iter()
        .map(|task| search::shortlist(book, &mixtures, task, &limits, most))
        .collect();
    let chosen = choose::choose(book, &mixtures, &tasks, &shortlists, &limits);
    let painted = chosen.iter().any(|c| c.mixture.is_some());
    if !painted {
        // No paint, no firing, no foundation: everything stays as it is.
        for task in &mut tasks {
            task.stay_bare(book)?;
        }
    }
    let zones: Vec<ZonePlan> = tasks
        .iter()
        .zip(&chosen)
        .map(|(task, candidate)| zone_plan(book, &mixtures, task, candidate, &limits))
        .collect();
    let shortfalls = tasks
        .iter()
        .zip(&zones)
        .flat_map(|(task, zone)| shortfall::of(book, &mixtures, task, zone, &limits))
        .collect();
    Ok(Plan {
        demo: book.fitted().demo,
        firings: zones.iter().map(|z| z.firings).max().unwrap_or(0),
        steps: if painted {
            steps::steps(book, &tasks, &zones, &limits)
        } else {
            Vec::new()
        },
        leave: leave(&zones, &tasks),
        limits,
        zones,
        shortfalls,
        cautions: CAUTIONS.map(str::to_owned).to_vec(),
    })
}

/// Whole quarters in so many coats.
pub fn quarters(coats: f64) -> u32 {
    (coats * QUARTERS + 1e-9) as u32
}

fn checked(book: &StrengthBook, request: &PlanRequest) -> Result<PlanLimits> {
    let limits = request.limits.clone();
    let wrong = |what: String, remedy: &str| Err(Error::input(what, remedy));
    if request.zones.is_empty() || request.zones.len() > 3 {
        return wrong(
            format!("The plan is asked for {} thirds.", request.zones.len()),
            "Give one to three of cervical, middle and incisal, each with from and to.",
        );
    }
    for (i, zone) in request.zones.iter().enumerate() {
        if zone.zone == Zone::Whole || request.zones.iter().take(i).any(|z| z.zone == zone.zone) {
            return wrong(
                "A third stands twice in the request, or the whole tooth is asked for.".to_owned(),
                "Give each of cervical, middle and incisal once at most.",
            );
        }
        if !(zone.doubt.is_finite() && zone.doubt >= 0.0) {
            return wrong(
                format!("The doubt of the {} is no number.", words::third(zone.zone)),
                "Give a ± in ΔE00, or leave it out.",
            );
        }
    }
    let coats = limits.coats_per_firing;
    if !(0.25..=6.0).contains(&coats)
        || !(1..=3).contains(&limits.firings)
        || coats * f64::from(limits.firings) > MAX_COATS
    {
        return wrong(
            format!(
                "{coats} coats in each of {} firings are not planned.",
                limits.firings
            ),
            "Allow 0.25 to 6 coats per firing and 1 to 3 firings, 12 coats in all.",
        );
    }
    if !(1..=2).contains(&limits.stains_per_mix) {
        return wrong(
            format!(
                "{} stains in one mix are not planned.",
                limits.stains_per_mix
            ),
            "Allow one or two.",
        );
    }
    for name in &limits.stains {
        if book.stain(name).is_none() {
            return wrong(
                format!("No swatch shows what the stain “{name}” does."),
                "Fire a swatch of it, or leave it out of the limits.",
            );
        }
    }
    Ok(limits)
}

/// The thirds in order, cervical first.
fn tasks(book: &StrengthBook, request: &PlanRequest, limits: &PlanLimits) -> Result<Vec<Task>> {
    let glaze = book.stains.iter().find(|s| s.info.glaze && !s.info.resting);
    let mut out = Vec::with_capacity(3);
    for third in Zone::THIRDS {
        let Some(zone) = request.zones.iter().find(|z| z.zone == third) else {
            continue;
        };
        let about = |e: Error| match e {
            Error::Input { what, remedy } => {
                Error::input(format!("{}: {what}", words::Third(third)), remedy)
            }
            other => other,
        };
        let bare = book.internal(zone.from).map_err(about)?;
        book.internal(zone.to).map_err(about)?;
        let (base, base_doubt) = match glaze.filter(|_| limits.foundation) {
            Some(glaze) => {
                let one = book.predict_parts(&bare, &vec![(glaze, 1.0)], 1.0);
                (Layer::of(&glaze.matter, 1.0).over(&bare), one.doubt)
            }
            None => (bare, 0.0),
        };
        out.push(Task {
            zone: zone.clone(),
            base_lab: book.eye.lab(&super::layer::seen(&base)),
            base,
            base_doubt,
        });
    }
    Ok(out)
}

fn zone_plan(
    book: &StrengthBook,
    mixtures: &Mixtures<'_>,
    task: &Task,
    candidate: &Candidate,
    limits: &PlanLimits,
) -> ZonePlan {
    let zone = &task.zone;
    let parts = mixtures.parts(candidate.mixture);
    let coats = f64::from(candidate.quarters) / QUARTERS;
    let made = if parts.is_empty() {
        Predicted {
            lab: task.base_lab,
            doubt: 0.0,
        }
    } else {
        book.predict_parts(&task.base, &parts, coats)
    };
    let predicted = Predicted {
        lab: made.lab,
        doubt: libm::hypot(made.doubt, task.base_doubt),
    };
    let after = delta_e_00(zone.to, predicted.lab);
    ZonePlan {
        zone: zone.zone,
        from: zone.from,
        to: zone.to,
        paint: Paint {
            mix: mixtures.shares(candidate.mixture),
            coats,
        },
        predicted,
        before_delta_e_00: delta_e_00(zone.to, zone.from),
        after_delta_e_00: after,
        verdict: Verdict::of_delta_e_00(after),
        words: difference_in_words(zone.to, predicted.lab, Subject::Restoration),
        firings: candidate
            .quarters
            .div_ceil(quarters(limits.coats_per_firing).max(1)),
        opacity: mixtures.opacity(book, candidate),
    }
}

/// Why nothing should be painted, when that is so.
fn leave(zones: &[ZonePlan], tasks: &[Task]) -> Option<String> {
    let below = zones
        .iter()
        .all(|z| z.before_delta_e_00 <= PERCEPTIBILITY_DELTA_E_00);
    if below {
        return Some(
            "Every third is already within what people see (ΔE00 0.8): leave it as it is."
                .to_owned(),
        );
    }
    let within = zones
        .iter()
        .zip(tasks)
        .all(|(z, t)| z.before_delta_e_00 <= t.zone.doubt.max(PERCEPTIBILITY_DELTA_E_00));
    if within {
        return Some(
            "The differences are within the doubt of the readings: another photo says more than \
             a coat."
                .to_owned(),
        );
    }
    zones.iter().all(|z| z.paint.coats == 0.0).then(|| {
        "No allowed mix brings a third that is seen to differ nearer by ΔE00 0.3 or more: a firing \
         would gain nothing."
            .to_owned()
    })
}

/// Parts of ten, the larger first.
pub(super) fn shares(parts: &[(&str, u32)]) -> Vec<Share> {
    let out: Vec<Share> = parts
        .iter()
        .map(|(stain, parts)| Share {
            stain: (*stain).to_owned(),
            parts: *parts,
        })
        .collect();
    sorted_by_key(out, |s| -f64::from(s.parts))
}
