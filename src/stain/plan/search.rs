//! Every allowed mix in every allowed number of coats, on one third.
//!
//! Exhaustive: coats go in quarters, mixes in tenths, and a layer of a quarter coat is laid again
//! and again, so that a further quarter costs no exponential.

use super::{PARTS, QUARTERS, Task, WORTH, shares};
use crate::colour::order::sorted_by_key;
use crate::colour::threshold::PERCEPTIBILITY_DELTA_E_00;
use crate::colour::{DeltaE00Parts, Lab, delta_e_00_parts};
use crate::stain::book::{Stain, StrengthBook};
use crate::stain::layer::{Layer, Matter, seen};
use crate::stain::predict::Parts;
use crate::stain::types::{PlanLimits, Share};

/// A candidate this much worse than the best still counts when it is simpler, ΔE00. Below the
/// 0.3 that a plan may be from the best.
pub const TOLERANCE: f64 = 0.25;
/// Candidates that are weighed against those of the other thirds.
const SHORT: usize = 24;
/// A rise of L* that counts as lightening.
const LIGHTENS_FROM: f64 = 0.1;

/// One mix that may be painted.
pub struct Mixture<'a> {
    stains: Vec<(&'a Stain, u32)>,
    /// K and S of one coat.
    pub matter: Matter,
    quarter: Layer,
    /// Bit per stain of the book.
    pub mask: u64,
}

/// All of them.
pub struct Mixtures<'a>(pub Vec<Mixture<'a>>);

/// So many quarters of one mix, and what comes of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Candidate {
    /// Place of the mix; `None` for nothing.
    pub mixture: Option<usize>,
    /// Quarter coats.
    pub quarters: u32,
    /// Predicted colour.
    pub lab: Lab,
    /// Predicted − target.
    pub off: DeltaE00Parts,
}

impl<'a> Mixtures<'a> {
    /// Every single stain, and every pair in tenths when pairs are allowed.
    pub fn of(book: &'a StrengthBook, limits: &PlanLimits) -> Self {
        let usable: Vec<(usize, &Stain)> = book
            .stains
            .iter()
            .enumerate()
            .filter(|(_, s)| !s.info.glaze && !s.info.resting)
            .filter(|(_, s)| limits.stains.is_empty() || limits.stains.contains(&s.info.name))
            .collect();
        let mut out = Vec::new();
        for (i, stain) in &usable {
            out.push(Mixture::of(vec![(*stain, PARTS)], 1 << i));
        }
        if limits.stains_per_mix > 1 {
            for (place, (i, one)) in usable.iter().enumerate() {
                for (j, other) in usable.iter().skip(place + 1) {
                    for parts in 1..PARTS {
                        let stains = vec![(*one, parts), (*other, PARTS - parts)];
                        out.push(Mixture::of(stains, 1 << i | 1 << j));
                    }
                }
            }
        }
        Self(out)
    }

    fn get(&self, place: Option<usize>) -> Option<&Mixture<'a>> {
        place.and_then(|p| self.0.get(p))
    }

    /// Stains with their shares, 0–1; empty for nothing.
    pub fn parts(&self, place: Option<usize>) -> Parts<'a> {
        self.get(place).map_or(Vec::new(), |m| {
            m.stains
                .iter()
                .map(|(s, parts)| (*s, f64::from(*parts) / f64::from(PARTS)))
                .collect()
        })
    }

    /// Parts of ten by name.
    pub fn shares(&self, place: Option<usize>) -> Vec<Share> {
        let named: Vec<(&str, u32)> = self.get(place).map_or(Vec::new(), |m| {
            m.stains
                .iter()
                .map(|(s, parts)| (s.info.name.as_str(), *parts))
                .collect()
        });
        shares(&named)
    }

    /// Stains of a candidate, one bit each.
    pub fn mask(&self, candidate: &Candidate) -> u64 {
        self.get(candidate.mixture).map_or(0, |m| m.mask)
    }

    /// K and S of a candidate's mix.
    pub fn matter(&self, candidate: &Candidate) -> Option<&Matter> {
        self.get(candidate.mixture).map(|m| &m.matter)
    }

    /// How much of what lies below the coats hide by scattering, 0–1.
    pub fn opacity(&self, book: &StrengthBook, candidate: &Candidate) -> f64 {
        self.matter(candidate).map_or(0.0, |matter| {
            let layer = Layer::of(matter, f64::from(candidate.quarters) / QUARTERS);
            book.eye.luminance(layer.over_black())
        })
    }

    /// Whether some stain of the mix is shown to lighten a base of this L*.
    fn may_lighten(&self, mixture: &Mixture<'a>, base_l: f64) -> bool {
        mixture
            .stains
            .iter()
            .any(|(s, _)| s.lightens && base_l <= s.lightens_up_to + 5.0)
    }
}

impl<'a> Mixture<'a> {
    fn of(stains: Vec<(&'a Stain, u32)>, mask: u64) -> Self {
        let mut matter = Matter::NONE;
        for (stain, parts) in &stains {
            matter.add(&stain.matter, f64::from(*parts) / f64::from(PARTS));
        }
        Self {
            quarter: Layer::of(&matter, 1.0 / QUARTERS),
            stains,
            matter,
            mask,
        }
    }
}

/// Everything allowed on one third within the tolerance of the best, the simplest and nearest of
/// them; never empty, since nothing may be painted always.
pub fn shortlist(
    book: &StrengthBook,
    mixtures: &Mixtures<'_>,
    task: &Task,
    limits: &PlanLimits,
    most_quarters: u32,
) -> Vec<Candidate> {
    let mut all = allowed(book, mixtures, task, limits, most_quarters);
    // Paint that is not worth it is not painted: nothing comes first.
    let unpainted = all.first().map_or(0.0, |c| c.off.delta_e_00);
    let leave = task.is_better_left(unpainted);
    all.retain(|c| c.mixture.is_none() || !leave && c.off.delta_e_00 <= unpainted - WORTH);
    let best = all
        .iter()
        .map(|c| c.off.delta_e_00)
        .fold(f64::INFINITY, f64::min);
    all.retain(|c| c.off.delta_e_00 <= best + TOLERANCE);
    let per_firing = super::quarters(limits.coats_per_firing).max(1);
    let near = |c: &Candidate| c.off.delta_e_00;
    // Firings first, then stains, then nearness (which is below the tolerance's range).
    let simple = |c: &Candidate| {
        let firings = f64::from(c.quarters.div_ceil(per_firing));
        let stains = f64::from(mixtures.mask(c).count_ones());
        firings * 1e6 + stains * 1e4 + near(c)
    };
    let all = sorted_by_key(all, near);
    let mut out: Vec<Candidate> = all.iter().take(SHORT / 2).cloned().collect();
    for c in sorted_by_key(all, simple) {
        if out.len() >= SHORT {
            break;
        }
        if !out.contains(&c) {
            out.push(c);
        }
    }
    out
}

/// All that is allowed on one third, with what would certainly be worse than the best left out.
pub fn allowed(
    book: &StrengthBook,
    mixtures: &Mixtures<'_>,
    task: &Task,
    limits: &PlanLimits,
    most_quarters: u32,
) -> Vec<Candidate> {
    let to = task.zone.to;
    let nothing = Candidate {
        mixture: None,
        quarters: 0,
        lab: task.base_lab,
        off: delta_e_00_parts(to, task.base_lab),
    };
    let unpainted = nothing.off.delta_e_00;
    let mut best = unpainted;
    let mut out = vec![nothing];
    let ceiling = to.chroma().max(task.base_lab.chroma());
    for (place, mixture) in mixtures.0.iter().enumerate() {
        // Lightening has a price: only where the difference is seen at all.
        let may_lighten = limits.may_lighten
            && unpainted > PERCEPTIBILITY_DELTA_E_00
            && mixtures.may_lighten(mixture, task.base_lab.l());
        let mut inside = task.base;
        let mut chroma = task.base_lab.chroma();
        for quarters in 1..=most_quarters {
            inside = mixture.quarter.over(&inside);
            let lab = book.eye.lab(&seen(&inside));
            let half_a_step = (lab.chroma() - chroma).abs() / 2.0;
            chroma = lab.chroma();
            if chroma > ceiling + half_a_step
                || (lab.l() > task.base_lab.l() + LIGHTENS_FROM && !may_lighten)
            {
                continue;
            }
            // ΔE00 is never less than its part of lightness.
            if (lab.l() - to.l()).abs() / weight_of_lightness(lab.l(), to.l()) > best + TOLERANCE {
                continue;
            }
            let off = delta_e_00_parts(to, lab);
            best = best.min(off.delta_e_00);
            out.push(Candidate {
                mixture: Some(place),
                quarters,
                lab,
                off,
            });
        }
    }
    out
}

/// SL of CIEDE2000.
fn weight_of_lightness(one: f64, other: f64) -> f64 {
    let from_middle = (one + other) / 2.0 - 50.0;
    let square = from_middle * from_middle;
    1.0 + 0.015 * square / (20.0 + square).sqrt()
}
