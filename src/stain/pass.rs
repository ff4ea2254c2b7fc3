//! A fired pass, looked back at: what came out against what was predicted, and whether another
//! pass is worth it.

use super::book::StrengthBook;
use super::metric::parts_from_lab;
use super::plan::plan;
use super::plan::words::{Third, third};
use super::types::{
    Pass, PassAdvice, PassReview, PassZone, PassZoneReview, PlanLimits, PlanRequest, PlanZone,
};
use crate::colour::threshold::{PERCEPTIBILITY_DELTA_E_00, Verdict};
use crate::colour::{Lab, delta_e_00};
use crate::error::{Error, Result};
use crate::reading::words::{Subject, difference_in_words};
use nalgebra::Vector3;

/// What another pass must gain on some third to be worth a firing, ΔE00.
const WORTH: f64 = 0.3;
/// Share of the predicted change within which coats count as laid as meant.
const AS_MEANT: [f64; 2] = [0.8, 1.25];
/// A predicted change smaller than this says nothing about coats, ΔE00.
const TELLING: f64 = 1.0;

/// Looks back at a pass.
pub fn review(book: &StrengthBook, pass: &Pass) -> Result<PassReview> {
    if pass.zones.is_empty() {
        return Err(Error::input(
            "The pass has no third.",
            "Give at least one third with before, predicted, got and target.",
        ));
    }
    let sound = |z: &PassZone| {
        [z.before, z.predicted, z.got, z.target]
            .iter()
            .all(Lab::is_finite)
            && z.doubt >= 0.0
            && z.predicted_doubt >= 0.0
    };
    if let Some(zone) = pass.zones.iter().find(|z| !sound(z)) {
        return Err(Error::input(
            format!(
                "The {} has a colour or doubt that is no number.",
                third(zone.zone)
            ),
            "Read the photo again.",
        ));
    }
    let zones: Vec<PassZoneReview> = pass.zones.iter().map(zone_review).collect();
    let advice = advice(book, pass, &zones)?;
    let worst = zones
        .iter()
        .max_by(|a, b| a.left_delta_e_00.total_cmp(&b.left_delta_e_00));
    Ok(PassReview {
        advice,
        words: sentence(advice, worst),
        zones,
    })
}

fn zone_review(zone: &PassZone) -> PassZoneReview {
    let left = delta_e_00(zone.target, zone.got);
    let miss = delta_e_00(zone.predicted, zone.got);
    let as_predicted = miss <= libm::hypot(zone.predicted_doubt, zone.doubt);
    PassZoneReview {
        zone: zone.zone,
        before_delta_e_00: delta_e_00(zone.target, zone.before),
        left_delta_e_00: left,
        verdict: Verdict::of_delta_e_00(left),
        miss_delta_e_00: miss,
        as_predicted,
        words: miss_in_words(zone, miss, as_predicted),
    }
}

fn miss_in_words(zone: &PassZone, miss: f64, as_predicted: bool) -> String {
    if as_predicted {
        return format!("Came out as predicted (ΔE00 {miss:.1} apart, within the doubt).");
    }
    let differs = difference_in_words(zone.predicted, zone.got, Subject::Tab);
    let mut out = format!("Came out ΔE00 {miss:.1} from what was predicted");
    if !differs.starts_with("no difference") {
        out.push_str(&format!(": {differs}"));
    }
    out.push('.');
    if let Some(share) = share_of_change(zone.before, zone.predicted, zone.got) {
        if share < AS_MEANT[0] {
            out.push_str(&format!(
                " The coats did about {:.0} % of what was meant: thinner coats, or lost in the fire.",
                share.max(0.0) * 100.0
            ));
        } else if share > AS_MEANT[1] {
            out.push_str(&format!(
                " The coats did about {:.0} % of what was meant: thicker coats than planned.",
                share * 100.0
            ));
        }
    }
    out
}

/// How much of the way from `before` to `meant` the colour has gone, along that way; `None`
/// where the way is too short to tell.
pub fn share_of_change(before: Lab, meant: Lab, got: Lab) -> Option<f64> {
    let measure = parts_from_lab(before);
    let from = |lab: Lab| measure * (Vector3::from(lab.0) - Vector3::from(before.0));
    let (way, gone) = (from(meant), from(got));
    let length = way.norm_squared();
    (length.sqrt() >= TELLING).then(|| way.dot(&gone) / length)
}

fn advice(book: &StrengthBook, pass: &Pass, zones: &[PassZoneReview]) -> Result<PassAdvice> {
    if zones
        .iter()
        .all(|z| z.left_delta_e_00 <= PERCEPTIBILITY_DELTA_E_00)
    {
        return Ok(PassAdvice::StopBelowPerceptibility);
    }
    let within = zones
        .iter()
        .zip(&pass.zones)
        .all(|(z, p)| z.left_delta_e_00 <= p.doubt.max(PERCEPTIBILITY_DELTA_E_00));
    if within {
        return Ok(PassAdvice::StopWithinDoubt);
    }
    let next = plan(
        book,
        &PlanRequest {
            zones: pass
                .zones
                .iter()
                .map(|z| PlanZone {
                    zone: z.zone,
                    from: z.got,
                    to: z.target,
                    doubt: z.doubt,
                })
                .collect(),
            limits: PlanLimits {
                foundation: false,
                firings: 1,
                ..pass.limits.clone()
            },
        },
    )?;
    let gain = next
        .zones
        .iter()
        .map(|z| z.before_delta_e_00 - z.after_delta_e_00)
        .fold(0.0, f64::max);
    Ok(if gain < WORTH {
        PassAdvice::StopNothingGained
    } else {
        PassAdvice::Go
    })
}

fn sentence(advice: PassAdvice, worst: Option<&PassZoneReview>) -> String {
    let left = worst.map_or(String::new(), |z| {
        format!(
            "{} is ΔE00 {:.1} from its target",
            Third(z.zone),
            z.left_delta_e_00
        )
    });
    match advice {
        PassAdvice::StopBelowPerceptibility => {
            "Stop here: what is left is less than people see (ΔE00 0.8).".to_owned()
        }
        PassAdvice::StopWithinDoubt => format!(
            "Stop here: {}, within the doubt of the readings; another pass would chase noise.",
            lower(&left)
        ),
        PassAdvice::StopNothingGained => format!(
            "Stop here: {}, and no stain at hand brings it nearer.",
            lower(&left)
        ),
        PassAdvice::Go => format!("Another pass would help: {}.", lower(&left)),
    }
}

fn lower(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or(String::new(), |first| {
        format!("the {}{}", first.to_lowercase(), letters.as_str())
    })
}
