//! The look before firing: which third has too much or too little, which is patchy, while it can
//! still be thinned, lifted or spread.
//!
//! Unfired and fired colour differ by a shift that only the user's own pairs can teach (`shift`).
//! Until there are enough of them the thirds are compared with each other and only directions
//! are given.

use super::book::StrengthBook;
use super::pass::share_of_change;
use super::plan::words::third;
use super::shift::shifted;
use super::types::{
    FiredShift, UnfiredAdvice, UnfiredLook, UnfiredRequest, UnfiredZone, UnfiredZoneLook,
};
use crate::colour::{Lab, delta_e_00};
use crate::error::{Error, Result};

/// A third is patchy when its unevenness grew by this, ΔE00 (half of what people see) …
const PATCHY_GAIN: f64 = 0.4;
/// … and by this factor.
const PATCHY_FACTOR: f64 = 1.5;
/// Without a shift: a third that went this much further or less far than the others stands out.
const STANDS_OUT: [f64; 2] = [0.65, 1.5];
/// Without a shift and alone: only far too little or far too much is told.
const FAR: [f64; 2] = [0.35, 2.0];

/// Looks at what is painted.
pub fn look_unfired(book: &StrengthBook, request: &UnfiredRequest) -> Result<UnfiredLook> {
    let sound = |z: &UnfiredZone| {
        [z.before, z.unfired, z.predicted]
            .iter()
            .all(Lab::is_finite)
            && z.doubt >= 0.0
            && z.predicted_doubt >= 0.0
    };
    if request.zones.is_empty() || !request.zones.iter().all(sound) {
        return Err(Error::input(
            "The look has no third that can be compared.",
            "Photograph the painted restoration with the card beside it, and mark it.",
        ));
    }
    let shift = book.fitted().fired_shift.as_ref().filter(|s| s.usable);
    let shares: Vec<Option<f64>> = request
        .zones
        .iter()
        .map(|z| share_of_change(z.before, z.predicted, z.unfired))
        .collect();
    let zones = request
        .zones
        .iter()
        .enumerate()
        .map(|(i, zone)| match shift {
            Some(shift) => by_shift(zone, shift),
            None => by_the_others(zone, i, &shares),
        })
        .collect();
    Ok(UnfiredLook {
        directions_only: shift.is_none(),
        words: shift.map_or_else(
            || {
                let known = book.fitted().fired_shift.as_ref().map_or(0, |s| s.pairs);
                format!(
                    "Directions only: {known} of your own pairs of unfired and fired readings are known; from 4 that agree the fired colour can be predicted."
                )
            },
            |s| format!("Predicted from {} of your own pairs of unfired and fired readings.", s.pairs),
        ),
        zones,
    })
}

fn patchy(zone: &UnfiredZone) -> bool {
    match (zone.blotch_before, zone.blotch) {
        (Some(before), Some(now)) => now > before + PATCHY_GAIN && now > before * PATCHY_FACTOR,
        (None, Some(now)) => now > 3.0 * PATCHY_GAIN,
        _ => false,
    }
}

fn by_shift(zone: &UnfiredZone, shift: &FiredShift) -> UnfiredZoneLook {
    let fired = shifted(zone.unfired, shift.shift);
    let doubt = libm::hypot(shift.doubt, zone.doubt);
    let off = delta_e_00(zone.predicted, fired);
    let share = share_of_change(zone.before, zone.predicted, fired);
    let way = delta_e_00(zone.before, zone.predicted);
    let unsure = libm::hypot(doubt, zone.predicted_doubt);
    let amount = if unsure >= way {
        UnfiredAdvice::CannotTell
    } else if off <= unsure {
        UnfiredAdvice::Leave
    } else if share.is_some_and(|s| s > 1.0) {
        UnfiredAdvice::Thin
    } else {
        UnfiredAdvice::Add
    };
    finish(zone, amount, Some((fired, unsure)), share)
}

fn by_the_others(zone: &UnfiredZone, place: usize, shares: &[Option<f64>]) -> UnfiredZoneLook {
    let own = shares.get(place).copied().flatten();
    let others: Vec<f64> = shares
        .iter()
        .enumerate()
        .filter(|(i, _)| *i != place)
        .filter_map(|(_, s)| *s)
        .collect();
    let count = others.len() as f64;
    let common = (count > 0.0)
        .then(|| others.iter().sum::<f64>() / count)
        .filter(|m| *m > 0.1);
    let amount = match (own, common) {
        (None, _) => UnfiredAdvice::CannotTell,
        (Some(own), Some(common)) if own < common * STANDS_OUT[0] => UnfiredAdvice::Add,
        (Some(own), Some(common)) if own > common * STANDS_OUT[1] => UnfiredAdvice::Thin,
        (Some(own), _) if own < FAR[0] => UnfiredAdvice::Add,
        (Some(own), _) if own > FAR[1] => UnfiredAdvice::Thin,
        _ => UnfiredAdvice::Leave,
    };
    finish(zone, amount, None, None)
}

fn finish(
    zone: &UnfiredZone,
    amount: UnfiredAdvice,
    fired: Option<(Lab, f64)>,
    share: Option<f64>,
) -> UnfiredZoneLook {
    let mut advice = Vec::with_capacity(2);
    if patchy(zone) {
        advice.push(UnfiredAdvice::Spread);
    }
    if amount != UnfiredAdvice::Leave || advice.is_empty() {
        advice.push(amount);
    }
    let words: Vec<String> = advice
        .iter()
        .map(|a| {
            if fired.is_some() {
                said(*a, zone, share)
            } else {
                hinted(*a, zone)
            }
        })
        .collect();
    UnfiredZoneLook {
        zone: zone.zone,
        fired: fired.map(|f| f.0),
        fired_doubt: fired.map(|f| f.1),
        share_of_coats: share,
        words: words.join(" "),
        advice,
    }
}

fn said(advice: UnfiredAdvice, zone: &UnfiredZone, share: Option<f64>) -> String {
    let who = third(zone.zone);
    let amount = share.map_or(String::new(), |s| {
        format!(" (about {:.0} % of what was meant)", s.max(0.0) * 100.0)
    });
    match advice {
        UnfiredAdvice::Leave => format!("The {who} is as meant: leave it."),
        UnfiredAdvice::Thin => format!("The {who} has too much{amount}: lift or thin it."),
        UnfiredAdvice::Add => format!("The {who} has too little{amount}: add a little."),
        UnfiredAdvice::Spread => format!(
            "The {who} is patchy (unevenness ΔE00 {:.1}): spread it before anything else.",
            zone.blotch.unwrap_or(0.0)
        ),
        UnfiredAdvice::CannotTell => {
            format!("The {who} is meant to change less than can be told before firing.")
        }
    }
}

/// The same without a known shift: a hint, no judgement.
fn hinted(advice: UnfiredAdvice, zone: &UnfiredZone) -> String {
    let who = third(zone.zone);
    match advice {
        UnfiredAdvice::Leave => format!("Nothing stands out in the {who}."),
        UnfiredAdvice::Thin => format!(
            "The {who} has changed more than the rest of the plan lets expect: look whether there is too much."
        ),
        UnfiredAdvice::Add => format!(
            "The {who} has changed less than the rest of the plan lets expect: look whether there is too little."
        ),
        UnfiredAdvice::Spread | UnfiredAdvice::CannotTell => said(advice, zone, None),
    }
}
