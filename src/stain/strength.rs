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

mod fit;

use super::exponential::exp_of;
use super::layer::{Layer, Matter, seen};
use super::metric::parts_from_lab;
use super::spectrum::{Eye, PLACE, RELATIVE_WAVELENGTH, Spectrum};
use crate::colour::Lab;
use fit::{Around, Prior, Swatches};
use nalgebra::{Matrix3, SMatrix, SVector, Vector3};
use std::rc::Rc;

/// Numbers that a strength is made of.
pub const PARAMETERS: usize = 5;
/// Log K: level, slope, curve, bend; log S at 550 nm.
pub type Parameters = SVector<f64, PARAMETERS>;
/// Place of the last one.
const SCATTER: usize = 4;
/// Their covariance.
pub type Covariance = SMatrix<f64, PARAMETERS, PARAMETERS>;
/// How fast the parts of a miss change with each.
pub type Slopes = SMatrix<f64, 3, PARAMETERS>;

/// What log K usually is: mean and spread of level, slope, curve, bend.
const USUAL_K: [[f64; 2]; 4] = [[-2.5, 2.0], [-0.5, 1.5], [0.0, 1.0], [0.0, 0.7]];
/// What log S usually is: mean, spread, and how usual that kind is.
pub const KINDS: [[f64; 3]; 2] = [[-5.0, 1.0, 0.9], [-2.5, 1.0, 0.1]];
/// Logs are held within this.
const LOG_RANGE: [f64; 2] = [-12.0, 4.0];
/// Steps of the fit at most.
const MAX_STEPS: usize = 60;

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
        self.miss_under(eye, &Layer::of(matter, self.coats))
    }

    /// The same of its coats as a layer.
    fn miss_under(&self, eye: &Eye, layer: &Layer) -> Vector3<f64> {
        let got = eye.lab(&seen(&layer.over(&self.base)));
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

/// One way to explain a stain's swatches, with how they lie around it.
type Found = (Estimate, Rc<Around>);

/// All ways to explain a stain's swatches.
pub struct Explained {
    /// The ways; their weights sum to 1.
    pub ways: Vec<Estimate>,
    /// The log evidence for them together.
    pub evidence: f64,
    around: Vec<Rc<Around>>,
}

impl Explained {
    /// Where a fit without one of the swatches may start.
    pub fn without(&self, place: usize) -> Self {
        let around = self.around.iter().map(|around| {
            let mut around = Around::clone(around);
            if place < around.misses.len() {
                around.misses.remove(place);
                around.slopes.remove(place);
            }
            Rc::new(around)
        });
        Self {
            ways: Vec::new(),
            evidence: self.evidence,
            around: around.collect(),
        }
    }
}

/// K and S per band.
pub fn matter(at: &Parameters) -> Matter {
    Matter {
        k: absorption(at),
        s: scattering(at),
    }
}

fn held(log: f64) -> f64 {
    log.clamp(LOG_RANGE[0], LOG_RANGE[1])
}

fn absorption(at: &Parameters) -> Spectrum {
    let [level, slope, curve, bend, _] = (*at).into();
    exp_of(
        &PLACE.map(|x| {
            held(level + slope * x + curve * (x * x - 1.0 / 3.0) + bend * x * (x * x - 0.6))
        }),
    )
}

fn scattering(at: &Parameters) -> Spectrum {
    let [_, _, _, _, scatter] = (*at).into();
    let s550 = libm::exp(held(scatter));
    RELATIVE_WAVELENGTH.map(|relative| s550 / relative)
}

/// The ways to explain a stain, each started from what was found before on the same swatches.
pub fn explain(
    eye: &Eye,
    observations: &[Observation],
    sigma: f64,
    before: Option<&Explained>,
) -> Explained {
    explain_in(MAX_STEPS, eye, observations, sigma, before)
}

/// The same in so many steps at most.
pub fn explain_in(
    steps: usize,
    eye: &Eye,
    observations: &[Observation],
    sigma: f64,
    before: Option<&Explained>,
) -> Explained {
    let swatches = Swatches::of(eye, observations);
    let mut found: Vec<(f64, Found)> = Vec::with_capacity(KINDS.len());
    for (i, [mean, spread, usual]) in KINDS.into_iter().enumerate() {
        let prior = Prior::of(mean, spread);
        let start = before
            .and_then(|b| b.around.get(i))
            .map_or_else(|| swatches.around(prior.mean), Rc::clone);
        if let Some((evidence, way)) = swatches.fit(steps, sigma, &prior, start) {
            found.push((evidence + libm::log(usual), way));
        }
    }
    let best = found.iter().map(|f| f.0).fold(f64::NEG_INFINITY, f64::max);
    let sum: f64 = found.iter().map(|f| libm::exp(f.0 - best)).sum();
    let (ways, around) = found
        .into_iter()
        .map(|(evidence, (estimate, around))| {
            let weight = libm::exp(evidence - best) / sum;
            (Estimate { weight, ..estimate }, around)
        })
        .unzip();
    Explained {
        ways,
        evidence: best + libm::log(sum),
        around,
    }
}
