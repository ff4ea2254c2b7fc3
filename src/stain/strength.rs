//! The strength of one stain: K and S per coat, fitted from fired swatches.
//!
//! log K is a cubic over the wavelength (400–700 nm → −1…1), log S a level with a fall as 1∕λ:
//! five numbers. One swatch gives three, and one base cannot tell absorption from scattering
//! well, so the fit is a Gaussian estimate with priors (maximum a posteriori by
//! Levenberg–Marquardt; logarithms keep K and S positive). Scattering is either faint, as in
//! stains that tint, or considerable, as in light ones: two priors, weighed against each other by
//! how well they explain the swatches (Laplace's approximation of the evidence; MacKay, Neural
//! Computation 4 (1992) 415). The priors are our own choice (no source), set on rendered stains
//! by other seeds than the figures come from.

use super::layer::{Layer, Matter, seen};
use super::metric::parts_from_lab;
use super::spectrum::{Eye, Spectrum, place, relative_wavelength, spectrum};
use crate::colour::Lab;
use nalgebra::{Matrix3, SMatrix, SVector, Vector3};

/// Numbers that a strength is made of.
pub const PARAMETERS: usize = 5;
/// Log K: level, slope, curve, bend; log S at 550 nm.
pub type Parameters = SVector<f64, PARAMETERS>;
/// Their covariance.
pub type Covariance = SMatrix<f64, PARAMETERS, PARAMETERS>;

/// What log K usually is: mean and spread of level, slope, curve, bend.
const USUAL_K: [[f64; 2]; 4] = [[-2.5, 2.0], [-0.5, 1.5], [0.0, 1.0], [0.0, 0.7]];
/// What log S usually is: mean, spread, and how usual that kind is.
pub const KINDS: [[f64; 3]; 2] = [[-5.0, 1.0, 0.9], [-2.5, 1.0, 0.1]];
/// Logs are held within this.
const LOG_RANGE: [f64; 2] = [-12.0, 4.0];
/// Steps of the fit at most.
const MAX_STEPS: usize = 60;
/// Step of the derivative.
const PROBE: f64 = 1e-5;

/// One swatch as the fit sees it.
#[derive(Debug, Clone, PartialEq)]
pub struct Observation {
    /// What comes back inside the base.
    pub base: Spectrum,
    /// Coats.
    pub coats: f64,
    /// After firing.
    pub after: Lab,
    /// Measures differences from `after` as ΔE00.
    pub parts: Matrix3<f64>,
    /// Its own uncertainty per part, when known; that of the book otherwise.
    pub own_sigma: Option<f64>,
}

impl Observation {
    /// A swatch seen by the fit.
    pub fn new(base: Spectrum, coats: f64, after: Lab, own_sigma: Option<f64>) -> Self {
        Self {
            base,
            coats,
            after,
            parts: parts_from_lab(after),
            own_sigma,
        }
    }

    /// How far a matter misses it, in parts of ΔE00.
    pub fn miss(&self, eye: &Eye, matter: &Matter) -> Vector3<f64> {
        let got = eye.lab(&seen(&Layer::of(matter, self.coats).over(&self.base)));
        self.parts * (Vector3::from(got.0) - Vector3::from(self.after.0))
    }

    /// Its uncertainty per part.
    pub fn sigma(&self, of_book: f64) -> f64 {
        self.own_sigma.unwrap_or(of_book)
    }
}

/// One way to explain a stain's swatches.
#[derive(Debug, Clone, PartialEq)]
pub struct Estimate {
    /// Its share among the ways, 0–1.
    pub weight: f64,
    /// The likeliest parameters.
    pub at: Parameters,
    /// Their covariance.
    pub covariance: Covariance,
}

/// K and S per band.
pub fn matter(at: &Parameters) -> Matter {
    let log = |v: f64| libm::exp(v.clamp(LOG_RANGE[0], LOG_RANGE[1]));
    let [level, slope, curve, bend, scatter] = (*at).into();
    let s550 = log(scatter);
    Matter {
        k: spectrum(|band| {
            let x = place(band);
            log(level + slope * x + curve * (x * x - 1.0 / 3.0) + bend * x * (x * x - 0.6))
        }),
        s: spectrum(|band| s550 / relative_wavelength(band)),
    }
}

/// The ways to explain a stain, each started from what was found before, and the log evidence
/// for them together.
pub fn explain(
    eye: &Eye,
    observations: &[Observation],
    sigma: f64,
    before: Option<&[Estimate]>,
) -> (Vec<Estimate>, f64) {
    let mut found: Vec<(f64, Estimate)> = Vec::with_capacity(KINDS.len());
    for (i, [mean, spread, usual]) in KINDS.into_iter().enumerate() {
        let prior = Prior::of(mean, spread);
        let start = before
            .and_then(|b| b.get(i))
            .map_or(prior.mean, |estimate| estimate.at);
        if let Some((at, covariance, evidence)) = fit(eye, observations, sigma, &prior, start) {
            let estimate = Estimate {
                weight: 0.0,
                at,
                covariance,
            };
            found.push((evidence + libm::log(usual), estimate));
        }
    }
    let best = found.iter().map(|f| f.0).fold(f64::NEG_INFINITY, f64::max);
    let sum: f64 = found.iter().map(|f| libm::exp(f.0 - best)).sum();
    let estimates = found
        .into_iter()
        .map(|(evidence, estimate)| Estimate {
            weight: libm::exp(evidence - best) / sum,
            ..estimate
        })
        .collect();
    (estimates, best + libm::log(sum))
}

struct Prior {
    mean: Parameters,
    spread: Parameters,
}

impl Prior {
    fn of(scatter: f64, spread: f64) -> Self {
        let [k0, k1, k2, k3] = USUAL_K;
        Self {
            mean: Parameters::from([k0[0], k1[0], k2[0], k3[0], scatter]),
            spread: Parameters::from([k0[1], k1[1], k2[1], k3[1], spread]),
        }
    }
}

/// Cost (twice the negative log), with its normal equations at a place.
struct Normal {
    cost: f64,
    matrix: Covariance,
    gradient: Parameters,
}

fn cost(eye: &Eye, seen: &[Observation], sigma: f64, prior: &Prior, at: &Parameters) -> f64 {
    let m = matter(at);
    let pull = (at - prior.mean).component_div(&prior.spread);
    seen.iter()
        .map(|o| o.miss(eye, &m).norm_squared() / (o.sigma(sigma) * o.sigma(sigma)))
        .sum::<f64>()
        + pull.norm_squared()
}

fn normal(eye: &Eye, seen: &[Observation], sigma: f64, prior: &Prior, at: &Parameters) -> Normal {
    let here = matter(at);
    let moved: Vec<Matter> = (0..PARAMETERS)
        .map(|i| {
            let mut probe = *at;
            if let Some(v) = probe.get_mut(i) {
                *v += PROBE;
            }
            matter(&probe)
        })
        .collect();
    let inverse_square = prior.spread.map(|s| 1.0 / (s * s));
    let pull = at - prior.mean;
    let mut out = Normal {
        cost: pull.component_mul(&pull).dot(&inverse_square),
        matrix: Covariance::from_diagonal(&inverse_square),
        gradient: pull.component_mul(&inverse_square),
    };
    for o in seen {
        let weight = 1.0 / (o.sigma(sigma) * o.sigma(sigma));
        let miss = o.miss(eye, &here);
        let mut slopes = SMatrix::<f64, 3, PARAMETERS>::zeros();
        for (mut column, m) in slopes.column_iter_mut().zip(&moved) {
            column.copy_from(&((o.miss(eye, m) - miss) / PROBE));
        }
        out.cost += weight * miss.norm_squared();
        out.matrix += slopes.transpose() * slopes * weight;
        out.gradient += slopes.transpose() * miss * weight;
    }
    out
}

/// The likeliest parameters, their covariance, and the log evidence.
fn fit(
    eye: &Eye,
    seen: &[Observation],
    sigma: f64,
    prior: &Prior,
    start: Parameters,
) -> Option<(Parameters, Covariance, f64)> {
    let mut at = start;
    let mut damping = 1e-3;
    let mut here = normal(eye, seen, sigma, prior, &at);
    for _ in 0..MAX_STEPS {
        let mut damped = here.matrix;
        for i in 0..PARAMETERS {
            if let Some(v) = damped.get_mut((i, i)) {
                *v *= 1.0 + damping;
            }
        }
        let step = damped
            .cholesky()?
            .solve(&-here.gradient)
            .map(|s| s.clamp(-1.0, 1.0));
        let next = cost(eye, seen, sigma, prior, &(at + step));
        if next < here.cost {
            let settled = here.cost - next < 1e-9 * here.cost;
            at += step;
            damping = (damping / 5.0).max(1e-9);
            here = normal(eye, seen, sigma, prior, &at);
            if settled {
                break;
            }
        } else {
            damping *= 5.0;
            if damping > 1e8 {
                break;
            }
        }
    }
    let cholesky = here.matrix.cholesky()?;
    let log_determinant: f64 = cholesky
        .l()
        .diagonal()
        .iter()
        .map(|d| 2.0 * libm::log(*d))
        .sum();
    let spreads: f64 = prior.spread.iter().map(|s| libm::log(*s)).sum();
    let sigmas: f64 = seen.iter().map(|o| 3.0 * libm::log(o.sigma(sigma))).sum();
    let evidence = -0.5 * here.cost - 0.5 * log_determinant - spreads - sigmas;
    evidence
        .is_finite()
        .then(|| (at, cholesky.inverse(), evidence))
}
