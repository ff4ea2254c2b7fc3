//! What fired mixes teach: the zones of a pass are swatches of two stains at once.
//!
//! One update of the Gaussian estimates of the stains in the mix (an iterated extended Kalman
//! step; Bell & Cathey, IEEE Trans. Autom. Control 38 (1993) 294). A hand never lays coats
//! exactly, so such a swatch counts with the share below on top of the reading's noise.

use super::book::{Seen, Stain};
use super::layer::Matter;
use super::spectrum::Eye;
use super::strength::{Estimate, Observation, Parameters, Slopes, matter};
use nalgebra::{Matrix3, Vector3};

/// How far coats laid on a tooth are off, as a share of the shift (95 %: twice that). Common
/// experience, no source.
const HAND: f64 = 0.1;
/// Repetitions; more change nothing.
const ROUNDS: usize = 4;
const PROBE: f64 = 1e-5;

/// Takes in every swatch of a mix, in the order of the book.
pub fn learn(eye: &Eye, stains: &mut [Stain], seen: &[Seen<'_>], sigma: f64) {
    for s in seen {
        let Some(mix) = &s.swatch.mix else { continue };
        let parts: Vec<(usize, f64)> = mix
            .iter()
            .filter(|(_, share)| **share > 0.0)
            .filter_map(|(name, share)| {
                let at = stains.iter().position(|st| st.info.name == *name)?;
                Some((at, *share))
            })
            .collect();
        if parts.is_empty() || parts.len() != mix.values().filter(|v| **v > 0.0).count() {
            continue;
        }
        take_in(
            eye,
            stains,
            &parts,
            &s.observation,
            s.observation.sigma(sigma),
        );
    }
}

/// Every stain keeps its ways; each is corrected together with the likeliest ways of the others.
fn take_in(
    eye: &Eye,
    stains: &mut [Stain],
    parts: &[(usize, f64)],
    observation: &Observation,
    sigma: f64,
) {
    let likeliest: Vec<Option<Estimate>> = parts
        .iter()
        .map(|(at, _)| {
            let ways = &stains.get(*at)?.ways;
            ways.iter()
                .max_by(|a, b| a.weight.total_cmp(&b.weight))
                .cloned()
        })
        .collect();
    let Some(likeliest) = likeliest.into_iter().collect::<Option<Vec<_>>>() else {
        return;
    };
    let mut corrected: Vec<Vec<Estimate>> = Vec::with_capacity(parts.len());
    for (own, (at, _)) in parts.iter().enumerate() {
        let Some(stain) = stains.get(*at) else { return };
        let mut ways = Vec::with_capacity(stain.ways.len());
        for way in &stain.ways {
            let mut set = likeliest.clone();
            if let Some(place) = set.get_mut(own) {
                *place = way.clone();
            }
            let Some((new, log)) = update(eye, &set, parts, observation, sigma) else {
                ways.push((way.clone(), 0.0));
                continue;
            };
            ways.push((new.into_iter().nth(own).unwrap_or_else(|| way.clone()), log));
        }
        corrected.push(weighed(ways));
    }
    for ((at, _), ways) in parts.iter().zip(corrected) {
        if let Some(stain) = stains.get_mut(*at) {
            stain.ways = ways;
        }
    }
}

fn weighed(ways: Vec<(Estimate, f64)>) -> Vec<Estimate> {
    let best = ways.iter().map(|w| w.1).fold(f64::NEG_INFINITY, f64::max);
    let sum: f64 = ways
        .iter()
        .map(|(w, log)| w.weight * libm::exp(log - best))
        .sum();
    ways.into_iter()
        .map(|(mut way, log)| {
            way.weight *= libm::exp(log - best) / sum.max(f64::MIN_POSITIVE);
            way
        })
        .collect()
}

/// The estimates after one observation, and the log likelihood that it had. The parameters of
/// all stains of the mix stand in one row, with their covariances along the diagonal.
fn update(
    eye: &Eye,
    set: &[Estimate],
    parts: &[(usize, f64)],
    observation: &Observation,
    sigma: f64,
) -> Option<(Vec<Estimate>, f64)> {
    let predicted = |at: &[Parameters]| -> Vector3<f64> {
        let mut sum = Matter::NONE;
        for ((_, share), own) in parts.iter().zip(at) {
            sum.add(&matter(own), *share);
        }
        observation.miss(eye, &sum)
    };
    let unpainted = observation.miss(eye, &Matter::NONE).norm();
    let variance = sigma * sigma + (HAND * unpainted) * (HAND * unpainted) / 3.0;
    let mut at: Vec<Parameters> = set.iter().map(|e| e.at).collect();
    let mut last = None;
    for _ in 0..ROUNDS {
        let here = predicted(&at);
        let slopes: Vec<Slopes> = (0..set.len())
            .map(|i| {
                let mut slopes = Slopes::zeros();
                for (j, mut column) in slopes.column_iter_mut().enumerate() {
                    let mut probe = at.clone();
                    if let Some(v) = probe.get_mut(i).and_then(|p| p.get_mut(j)) {
                        *v += PROBE;
                    }
                    column.copy_from(&((predicted(&probe) - here) / PROBE));
                }
                slopes
            })
            .collect();
        let mut spread = Matrix3::identity() * variance;
        let mut innovation = -here;
        for ((e, j), now) in set.iter().zip(&slopes).zip(&at) {
            spread += j * e.covariance * j.transpose();
            innovation -= j * (e.at - now);
        }
        let mut inverse = spread.try_inverse()?;
        // Far outside what was thinkable (95 %: 7.8 with three parts), the swatch itself is
        // doubted: it counts with the noise that would make it thinkable.
        let far = innovation.dot(&(inverse * innovation));
        if far > 7.8 {
            spread += Matrix3::identity() * variance * (far / 3.0 - 1.0);
            inverse = spread.try_inverse()?;
        }
        let pull = inverse * innovation;
        for ((e, j), now) in set.iter().zip(&slopes).zip(&mut at) {
            *now = e.at + e.covariance * j.transpose() * pull;
        }
        let log = -0.5 * innovation.dot(&pull) - 0.5 * libm::log(spread.determinant());
        last = Some((slopes, inverse, log));
    }
    let (slopes, inverse, log) = last?;
    let out = set
        .iter()
        .zip(&slopes)
        .zip(at)
        .map(|((e, j), at)| Estimate {
            weight: e.weight,
            at,
            covariance: e.covariance - e.covariance * j.transpose() * inverse * j * e.covariance,
        })
        .collect();
    Some((out, log))
}
