//! One candidate per third, so that the thirds fit together.
//!
//! In this order: fewest firings, fewest stains in all, borders where the two paints meet well,
//! then nearness; where a third cannot be met within what people see, value counts before chroma
//! before hue, as the trade does (common practice, no source). All are within the tolerance of
//! each third's best, so nearness is never given up for more than that.

use super::search::{Candidate, Mixtures};
use super::{QUARTERS, Task, quarters};
use crate::colour::threshold::PERCEPTIBILITY_DELTA_E_00;
use crate::colour::{Lab, delta_e_00};
use crate::stain::book::StrengthBook;
use crate::stain::layer::{Layer, Matter, seen};
use crate::stain::spectrum::spectrum;
use crate::stain::types::PlanLimits;

/// A border may be this much further off than the worse of its two thirds, ΔE00.
const BORDER_FREE: f64 = 0.4;

/// What is compared, smaller first.
type Cost = (u32, u32, u64, u64);

/// One candidate for each third.
pub fn choose(
    book: &StrengthBook,
    mixtures: &Mixtures<'_>,
    tasks: &[Task],
    lists: &[Vec<Candidate>],
    limits: &PlanLimits,
) -> Vec<Candidate> {
    let per_firing = quarters(limits.coats_per_firing).max(1);
    let borders: Vec<Vec<Vec<f64>>> = tasks
        .windows(2)
        .zip(lists.windows(2))
        .map(|(tasks, lists)| match (tasks, lists) {
            ([a, b], [left, right]) => left
                .iter()
                .map(|one| {
                    right
                        .iter()
                        .map(|other| border(book, mixtures, (a, one), (b, other)))
                        .collect()
                })
                .collect(),
            _ => Vec::new(),
        })
        .collect();
    let mut best: Option<(Cost, Vec<usize>)> = None;
    let mut picked = vec![0_usize; lists.len()];
    loop {
        let now: Vec<&Candidate> = lists
            .iter()
            .zip(&picked)
            .filter_map(|(list, i)| list.get(*i))
            .collect();
        let firings = now
            .iter()
            .map(|c| c.quarters.div_ceil(per_firing))
            .max()
            .unwrap_or(0);
        let stains = now
            .iter()
            .fold(0, |mask, c| mask | mixtures.mask(c))
            .count_ones();
        let meets: f64 = borders
            .iter()
            .zip(picked.windows(2))
            .filter_map(|(border, pair)| match pair {
                [i, j] => border.get(*i)?.get(*j).copied(),
                _ => None,
            })
            .sum();
        let near: f64 = now.iter().map(|c| nearness(c)).sum();
        // Borders by tenths, nearness by hundredths: smaller differences decide nothing.
        let cost = (
            firings,
            stains,
            (meets * 10.0) as u64,
            (near * 100.0) as u64,
        );
        if best.as_ref().is_none_or(|(c, _)| cost < *c) {
            best = Some((cost, picked.clone()));
        }
        if !next(&mut picked, lists) {
            break;
        }
    }
    let picked = best.map_or(picked, |(_, p)| p);
    lists
        .iter()
        .zip(picked)
        .filter_map(|(list, i)| list.get(i).cloned())
        .collect()
}

/// The next combination; `false` after the last.
fn next(picked: &mut [usize], lists: &[Vec<Candidate>]) -> bool {
    for (place, list) in picked.iter_mut().zip(lists) {
        *place += 1;
        if *place < list.len() {
            return true;
        }
        *place = 0;
    }
    false
}

/// How far off a candidate is; by value, chroma, hue where it is seen.
fn nearness(c: &Candidate) -> f64 {
    if c.off.delta_e_00 <= PERCEPTIBILITY_DELTA_E_00 {
        return c.off.delta_e_00;
    }
    c.off.delta_e_00 + c.off.delta_l.abs() + 0.5 * c.off.delta_c.abs() + 0.25 * c.off.delta_h.abs()
}

/// How much worse the border is than its thirds: half of each paint over half of each base,
/// against half of each target.
fn border(
    book: &StrengthBook,
    mixtures: &Mixtures<'_>,
    (a, one): (&Task, &Candidate),
    (b, other): (&Task, &Candidate),
) -> f64 {
    let mut both = Matter::NONE;
    for c in [one, other] {
        if let Some(matter) = mixtures.matter(c) {
            both.add(matter, f64::from(c.quarters) / QUARTERS / 2.0);
        }
    }
    let base = spectrum(|i| {
        let of = |t: &Task| t.base.get(i).copied().unwrap_or(0.0);
        (of(a) + of(b)) / 2.0
    });
    let lab = book.eye.lab(&seen(&Layer::of(&both, 1.0).over(&base)));
    let middle = Lab([0, 1, 2].map(|i: usize| {
        let of = |t: &Task| t.zone.to.0.get(i).copied().unwrap_or(0.0);
        (of(a) + of(b)) / 2.0
    }));
    let worse = one.off.delta_e_00.max(other.off.delta_e_00);
    (delta_e_00(middle, lab) - worse - BORDER_FREE).max(0.0)
}
