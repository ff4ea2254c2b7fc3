//! One fit of a strength: Levenberg–Marquardt from a start, on the swatches of one stain.
//!
//! A step's slopes are differences, so that what does not change with a parameter is not worked out
//! again: only the last one moves the scattering, the others only the absorption. How the swatches
//! lie around a place does not depend on the noise; a fit at another noise starts with it.

use super::{
    Covariance, Estimate, Found, Observation, PARAMETERS, Parameters, SCATTER, Slopes, USUAL_K,
    absorption, matter, scattering,
};
use crate::stain::layer::{Coat, Layer, Matter};
use crate::stain::spectrum::Eye;
use nalgebra::Vector3;
use std::rc::Rc;

/// Step of the derivative.
const PROBE: f64 = 1e-5;

/// What a stain usually is.
pub struct Prior {
    pub mean: Parameters,
    spread: Parameters,
}

impl Prior {
    pub fn of(scatter: f64, spread: f64) -> Self {
        let [k0, k1, k2, k3] = USUAL_K;
        Self {
            mean: Parameters::from([k0[0], k1[0], k2[0], k3[0], scatter]),
            spread: Parameters::from([k0[1], k1[1], k2[1], k3[1], spread]),
        }
    }
}

/// How the swatches lie around some parameters: all that a step of the fit needs, at whatever
/// noise.
#[derive(Clone)]
pub struct Around {
    at: Parameters,
    pub misses: Vec<Vector3<f64>>,
    pub slopes: Vec<Slopes>,
}

/// Cost (twice the negative log), with its normal equations at a place.
struct Normal {
    cost: f64,
    matrix: Covariance,
    gradient: Parameters,
}

/// The swatches of one stain. Those of one number of coats share a layer.
pub struct Swatches<'a> {
    eye: &'a Eye,
    seen: &'a [Observation],
    coats: Vec<f64>,
    layer_of: Vec<usize>,
}

impl<'a> Swatches<'a> {
    pub fn of(eye: &'a Eye, seen: &'a [Observation]) -> Self {
        let mut coats: Vec<f64> = Vec::new();
        let layer_of = seen
            .iter()
            .map(|o| {
                let known = coats.iter().position(|c| *c == o.coats);
                known.unwrap_or_else(|| {
                    coats.push(o.coats);
                    coats.len() - 1
                })
            })
            .collect();
        Self {
            eye,
            seen,
            coats,
            layer_of,
        }
    }

    /// How far a matter misses each of them.
    fn misses(&self, matter: &Matter) -> Vec<Vector3<f64>> {
        let coat = Coat::of(matter);
        let layers: Vec<Layer> = self.coats.iter().map(|c| Layer::thick(&coat, *c)).collect();
        self.seen
            .iter()
            .zip(&self.layer_of)
            .filter_map(|(o, layer)| Some(o.miss_under(self.eye, layers.get(*layer)?)))
            .collect()
    }

    pub fn around(&self, at: Parameters) -> Rc<Around> {
        let here = matter(&at);
        let misses = self.misses(&here);
        self.slopes(at, here, misses)
    }

    fn slopes(&self, at: Parameters, here: Matter, misses: Vec<Vector3<f64>>) -> Rc<Around> {
        let mut slopes = vec![Slopes::zeros(); misses.len()];
        for i in 0..PARAMETERS {
            let mut probe = at;
            if let Some(v) = probe.get_mut(i) {
                *v += PROBE;
            }
            let moved = if i == SCATTER {
                Matter {
                    k: here.k,
                    s: scattering(&probe),
                }
            } else {
                Matter {
                    k: absorption(&probe),
                    s: here.s,
                }
            };
            let moved = self.misses(&moved);
            for ((slopes, moved), miss) in slopes.iter_mut().zip(&moved).zip(&misses) {
                slopes.set_column(i, &((moved - miss) / PROBE));
            }
        }
        Rc::new(Around { at, misses, slopes })
    }

    fn cost(&self, sigma: f64, prior: &Prior, at: &Parameters, misses: &[Vector3<f64>]) -> f64 {
        let pull = (at - prior.mean).component_div(&prior.spread);
        self.seen
            .iter()
            .zip(misses)
            .map(|(o, miss)| miss.norm_squared() / (o.sigma(sigma) * o.sigma(sigma)))
            .sum::<f64>()
            + pull.norm_squared()
    }

    fn normal(&self, sigma: f64, prior: &Prior, around: &Around) -> Normal {
        let inverse_square = prior.spread.map(|s| 1.0 / (s * s));
        let pull = around.at - prior.mean;
        let mut out = Normal {
            cost: pull.component_mul(&pull).dot(&inverse_square),
            matrix: Covariance::from_diagonal(&inverse_square),
            gradient: pull.component_mul(&inverse_square),
        };
        let seen = self.seen.iter().zip(&around.misses).zip(&around.slopes);
        for ((o, miss), slopes) in seen {
            let weight = 1.0 / (o.sigma(sigma) * o.sigma(sigma));
            out.cost += weight * miss.norm_squared();
            out.matrix += slopes.transpose() * slopes * weight;
            out.gradient += slopes.transpose() * miss * weight;
        }
        out
    }

    /// The log evidence, and the likeliest parameters with their covariance.
    pub fn fit(
        &self,
        steps: usize,
        sigma: f64,
        prior: &Prior,
        start: Rc<Around>,
    ) -> Option<(f64, Found)> {
        let mut around = start;
        let mut damping = 1e-3;
        let mut here = self.normal(sigma, prior, &around);
        for _ in 0..steps {
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
            let at = around.at + step;
            let there = matter(&at);
            let misses = self.misses(&there);
            let next = self.cost(sigma, prior, &at, &misses);
            if next < here.cost {
                let settled = here.cost - next < 1e-9 * here.cost;
                damping = (damping / 5.0).max(1e-9);
                around = self.slopes(at, there, misses);
                here = self.normal(sigma, prior, &around);
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
        let sigmas = self.seen.iter().map(|o| 3.0 * libm::log(o.sigma(sigma)));
        let evidence = -0.5 * here.cost - 0.5 * log_determinant - spreads - sigmas.sum::<f64>();
        let way = Estimate {
            weight: 0.0,
            at: around.at,
            covariance: cholesky.inverse(),
        };
        evidence.is_finite().then_some((evidence, (way, around)))
    }
}
