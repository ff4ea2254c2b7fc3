//! A book of swatches and the strengths fitted from it.
//!
//! How uncertain a reading is need not be told: the swatches of one book are fitted at several
//! noise levels, and the level that explains them best is taken (evidence summed over the
//! stains, with a weak prior around what photos give). Exact swatches so count as exact, and
//! noisy ones do not bend the strengths.

use super::checks;
use super::layer::Matter;
use super::lift::internal_from_lab;
use super::mixed;
use super::shift::fired_shift;
use super::spectrum::Eye;
use super::strength::{Estimate, Explained, Observation, explain, matter};
use super::types::{FittedBook, StainInfo, Swatch, SwatchBook, SwatchCheck};
use crate::colour::order::sorted_by_key;
use crate::error::{Error, Result};
use std::rc::Rc;

/// Noise levels that are tried: the uncertainty of (after − base) per part of ΔE00.
const SIGMAS: [f64; 14] = [
    2.4, 1.6, 1.0, 0.6, 0.4, 0.3, 0.25, 0.2, 0.15, 0.1, 0.06, 0.03, 0.01, 0.003,
];
/// Where photos usually lie, and how wide that is (natural log): weak, no source.
const USUAL_SIGMA: [f64; 2] = [0.15, 1.2];
/// Swatches and stains that a book may hold.
const MAX_SWATCHES: usize = 1000;
const MAX_STAINS: usize = 60;
/// Swatches disagree when they miss by more than this many times the book's noise.
const DISAGREES: f64 = 1.5;
/// Rounds of widening; more change nothing.
const WIDENINGS: usize = 3;
/// A ± of 95 % is this many of one part's uncertainty (χ with three parts).
const PARTS_IN_95: f64 = 2.795;

/// One stain with what it does.
#[derive(Debug, Clone)]
pub struct Stain {
    /// What the book says of it.
    pub info: StainInfo,
    /// K and S of one coat.
    pub matter: Matter,
    /// Ways to explain its swatches.
    pub ways: Vec<Estimate>,
    /// The uncertainty its own swatches show, per part of ΔE00: the book's, or more where they
    /// disagree.
    pub sigma: f64,
    /// Different swatches that speak of it: numbers of coats and bases.
    pub different: usize,
    /// Its own swatches show that it lightens.
    pub lightens: bool,
    /// The lightest base on which they show it, L*.
    pub lightens_up_to: f64,
}

/// Strengths that predictions and plans are made with.
#[derive(Debug, Clone)]
pub struct StrengthBook {
    pub(super) eye: Eye,
    pub(super) stains: Vec<Stain>,
    fitted: FittedBook,
}

impl StrengthBook {
    /// Strengths from swatches alone.
    pub fn fit(swatches: &[Swatch]) -> Result<Self> {
        Self::of(&SwatchBook {
            swatches: swatches.to_vec(),
            ..SwatchBook::default()
        })
    }

    /// Strengths from a book. An error when no swatch can be used; what is wrong with single
    /// ones travels in [`FittedBook::checks`].
    pub fn of(book: &SwatchBook) -> Result<Self> {
        if book.swatches.len() > MAX_SWATCHES || book.stains.len() > MAX_STAINS {
            return Err(Error::input(
                format!(
                    "The book has {} swatches and {} stains; at most {MAX_SWATCHES} and {MAX_STAINS} are taken.",
                    book.swatches.len(),
                    book.stains.len()
                ),
                "Split it into several books.",
            ));
        }
        let eye = Eye::new();
        let mut findings = Vec::new();
        let usable = checks::usable(book, &mut findings);
        let infos = stains_of(book, &usable);
        if infos.len() > MAX_STAINS {
            return Err(Error::input(
                format!(
                    "The swatches name {} stains; at most {MAX_STAINS} are taken.",
                    infos.len()
                ),
                "Split them into several books.",
            ));
        }
        let seen: Vec<Seen<'_>> = usable
            .iter()
            .filter_map(|(place, swatch)| Seen::new(&eye, *place, swatch))
            .collect();
        if !seen.iter().any(|s| s.swatch.mix.is_none()) {
            return Err(nothing_usable(&findings));
        }
        let (sigma, mut stains, alone) = fit_all(&eye, &infos, &seen);
        mixed::learn(&eye, &mut stains, &seen, sigma);
        for stain in &mut stains {
            stain.matter = mean_matter(&stain.ways);
        }
        checks::about_strengths(&seen, &mut stains, &alone, sigma, &eye, &mut findings);
        let findings = sorted_by_key(findings, |f| f64::from(f.severity as u8));
        let mut out = Self {
            eye,
            stains,
            fitted: FittedBook {
                demo: book.demo,
                strengths: Vec::new(),
                reading_noise: sigma * 3.0_f64.sqrt(),
                fired_shift: fired_shift(usable.iter().map(|(_, s)| *s)),
                checks: findings,
            },
        };
        out.fitted.strengths = out
            .stains
            .iter()
            .map(|stain| super::strength_report::of(&out, stain, &seen))
            .collect();
        Ok(out)
    }

    /// What is known, as plain data.
    pub const fn fitted(&self) -> &FittedBook {
        &self.fitted
    }

    /// A stain by name.
    pub(super) fn stain(&self, name: &str) -> Option<&Stain> {
        self.stains.iter().find(|s| s.info.name == name)
    }
}

/// A swatch that can be used, as the fits see it.
pub struct Seen<'a> {
    /// Its place in the book.
    pub place: usize,
    /// As given.
    pub swatch: &'a Swatch,
    /// As the fits see it.
    pub observation: Observation,
}

impl<'a> Seen<'a> {
    fn new(eye: &Eye, place: usize, swatch: &'a Swatch) -> Option<Self> {
        let base = internal_from_lab(eye, swatch.base)?;
        // Two readings stand in a difference.
        let own = swatch.doubt.map(|d| {
            (d / PARTS_IN_95 * 2.0_f64.sqrt()).max(SIGMAS.into_iter().fold(1.0, f64::min))
        });
        Some(Self {
            place,
            swatch,
            observation: Observation::new(base, swatch.coats, swatch.after, own),
        })
    }

    /// It speaks of this stain alone.
    pub fn is_of(&self, stain: &str) -> bool {
        self.swatch.mix.is_none() && self.swatch.stain == stain
    }
}

/// The stains of the book in its order, then those that only swatches name.
fn stains_of(book: &SwatchBook, usable: &[(usize, &Swatch)]) -> Vec<StainInfo> {
    let mut out: Vec<StainInfo> = Vec::new();
    for info in &book.stains {
        if !out.iter().any(|i| i.name == info.name) {
            out.push(info.clone());
        }
    }
    for (_, swatch) in usable {
        if swatch.mix.is_none() && !out.iter().any(|i| i.name == swatch.stain) {
            out.push(StainInfo {
                name: swatch.stain.clone(),
                ..StainInfo::default()
            });
        }
    }
    out
}

/// All stains at the noise level that explains them best, and how each of them is explained at
/// that level. Stains without a swatch are left out.
fn fit_all(
    eye: &Eye,
    infos: &[StainInfo],
    seen: &[Seen<'_>],
) -> (f64, Vec<Stain>, Rc<[Explained]>) {
    let of_each: Vec<(&StainInfo, Vec<Observation>)> = infos
        .iter()
        .map(|info| {
            let own = seen.iter().filter(|s| s.is_of(&info.name));
            (info, own.map(|s| s.observation.clone()).collect())
        })
        .filter(|(_, own): &(_, Vec<Observation>)| !own.is_empty())
        .collect();
    let mut best: Option<(f64, f64, Rc<[Explained]>)> = None;
    let mut before: Rc<[Explained]> = Rc::new([]);
    for sigma in SIGMAS {
        let off = (libm::log(sigma) - libm::log(USUAL_SIGMA[0])) / USUAL_SIGMA[1];
        let mut evidence = -0.5 * off * off;
        let mut found = Vec::with_capacity(of_each.len());
        for (i, (_, own)) in of_each.iter().enumerate() {
            let explained = explain(eye, own, sigma, before.get(i));
            evidence += explained.evidence;
            found.push(explained);
        }
        before = found.into();
        if best.as_ref().is_none_or(|(e, _, _)| evidence > *e) {
            best = Some((evidence, sigma, Rc::clone(&before)));
        }
    }
    let (sigma, found) = best.map_or((USUAL_SIGMA[0], before), |(_, sigma, found)| (sigma, found));
    let stains = of_each
        .into_iter()
        .zip(found.iter())
        .map(|((info, own), found)| {
            let (ways, of_stain) = widened(eye, &own, found, sigma);
            Stain {
                info: info.clone(),
                matter: mean_matter(&ways),
                ways,
                sigma: of_stain,
                different: different(&own),
                lightens: false,
                lightens_up_to: 0.0,
            }
        })
        .collect();
    (sigma, stains, found)
}

/// A stain whose swatches disagree by more than the book's noise gets a noise of its own: what
/// the book agrees on must not make it look certain.
fn widened(eye: &Eye, own: &[Observation], found: &Explained, sigma: f64) -> (Vec<Estimate>, f64) {
    let (mut wider, mut wide): (Option<Explained>, f64) = (None, sigma);
    for _ in 0..WIDENINGS {
        let now = wider.as_ref().unwrap_or(found);
        let mean = mean_matter(&now.ways);
        let squares: f64 = own
            .iter()
            .filter(|o| o.own_sigma.is_none())
            .map(|o| o.miss(eye, &mean).norm_squared())
            .sum();
        // Of 3 numbers per swatch about 3 are used up by the fit.
        let freedom = (3.0 * own.len() as f64 - 3.0).max(1.0);
        let shown = (squares / freedom).sqrt();
        if own.len() < 2 || shown <= wide * DISAGREES {
            break;
        }
        wide = shown;
        let again = explain(eye, own, wide, Some(now));
        if again.ways.is_empty() {
            break;
        }
        wider = Some(again);
    }
    (wider.as_ref().unwrap_or(found).ways.clone(), wide)
}

/// Swatches that differ in coats or base.
fn different(own: &[Observation]) -> usize {
    let same = |a: &Observation, b: &Observation| {
        (a.coats - b.coats).abs() < 0.1
            && a.base
                .iter()
                .zip(&b.base)
                .all(|(x, y)| (x - y).abs() < 0.02)
    };
    own.iter()
        .enumerate()
        .filter(|(i, o)| !own.iter().take(*i).any(|before| same(before, o)))
        .count()
}

fn mean_matter(ways: &[Estimate]) -> Matter {
    let mut sum = Matter::NONE;
    for way in ways {
        sum.add(&matter(&way.at), way.weight);
    }
    sum
}

fn nothing_usable(findings: &[SwatchCheck]) -> Error {
    let why = findings
        .first()
        .map_or(String::new(), |f| format!(" {}", f.text));
    Error::input(
        format!("None of the swatches can be used.{why}"),
        "Give at least one swatch: a stain, the coats, the base before and the colour after firing.",
    )
}
