//! The colour of a base under coats, with its doubt.
//!
//! The doubt carries the strengths' covariance, and what different explanations of the swatches
//! would make of it, to ΔE00 (95 %), with a floor for what lifting colours to spectra leaves open.

use super::book::{Stain, StrengthBook};
use super::layer::{Layer, Matter, seen};
use super::lift::{CERAMIC, internal_from_lab};
use super::metric::{delta_e_00_95, parts_from_lab};
use super::spectrum::Spectrum;
use super::strength::{Estimate, PARAMETERS, Parameters, matter};
use super::types::{Mix, PredictRequest, Predicted, Prediction};
use crate::colour::{Lab, delta_e_00};
use crate::error::{Error, Result};
use nalgebra::{Matrix3, SMatrix, Vector3};

/// Coats that are predicted at most.
pub const MAX_COATS: f64 = 12.0;
/// Requests answered at once.
const MAX_REQUESTS: usize = 100_000;
/// The shares of a mix may miss 1 by this.
const SUM_TOLERANCE: f64 = 0.005;
/// What the model itself is uncertain by, ΔE00: fixed, and as a share of the shift. Set on
/// rendered stains by other seeds than the figures come from.
const FLOOR: [f64; 2] = [0.05, 0.02];
/// The share where a stain is known by one swatch: nobody lays one coat to better than a tenth,
/// and nothing shows how well this one was laid (common experience, no source).
const LONELY: f64 = 0.1;
/// What linear error propagation is multiplied by; set in the same way.
const WIDER: f64 = 0.95;
/// Explanations less likely than this are not followed.
const LEAST_WEIGHT: f64 = 0.03;
/// Stains of one mix whose covariance is followed.
const MAX_FOLLOWED: usize = 4;
const PROBE: f64 = 1e-4;

/// A checked mix: stains with their shares.
pub type Parts<'a> = Vec<(&'a Stain, f64)>;

impl StrengthBook {
    /// The colour of `base` (L*a*b*, D65) under `coats` (0–12) of a mix, fired.
    pub fn predict(&self, base: Lab, mix: &Mix, coats: f64) -> Result<Predicted> {
        let parts = self.parts(mix)?;
        if !(0.0..=MAX_COATS).contains(&coats) {
            return Err(Error::input(
                format!("{coats} coats cannot be predicted."),
                format!("Ask for 0 to {MAX_COATS} coats."),
            ));
        }
        let base = self.internal(base)?;
        Ok(self.predict_parts(&base, &parts, coats))
    }

    /// The stains of a mix; an error that names what is wrong with it.
    pub(super) fn parts(&self, mix: &Mix) -> Result<Parts<'_>> {
        let sum: f64 = mix.values().sum();
        let sound = mix.values().all(|v| v.is_finite() && *v >= 0.0);
        if mix.is_empty() || !sound || (sum - 1.0).abs() > SUM_TOLERANCE {
            return Err(Error::input(
                format!("The shares of the mix sum to {sum:.3}, not to 1."),
                "Give each stain its share by volume between 0 and 1, together 1.",
            ));
        }
        mix.iter()
            .filter(|(_, share)| **share > 0.0)
            .map(|(name, share)| {
                let stain = self.stain(name).ok_or_else(|| self.unknown(name))?;
                Ok((stain, share / sum))
            })
            .collect()
    }

    fn unknown(&self, name: &str) -> Error {
        let known: Vec<&str> = self.stains.iter().map(|s| s.info.name.as_str()).collect();
        Error::input(
            format!("No swatch shows what the stain “{name}” does."),
            format!("Fire a swatch of it, or use one of: {}.", known.join(", ")),
        )
    }

    /// What comes back inside a base.
    pub(super) fn internal(&self, base: Lab) -> Result<Spectrum> {
        internal_from_lab(&self.eye, base).ok_or_else(|| {
            let [l, a, b] = base.0.map(|v| format!("{v:.1}"));
            let [[l0, l1], [a0, a1], [b0, b1]] = CERAMIC;
            Error::input(
                format!("The base L* {l}, a* {a}, b* {b} is no colour of a dental ceramic."),
                format!("Check the reading: L* {l0} to {l1}, a* {a0} to {a1}, b* {b0} to {b1} are taken."),
            )
        })
    }

    /// The same with everything checked already; the base as it is inside.
    pub(super) fn predict_parts(
        &self,
        base: &Spectrum,
        parts: &Parts<'_>,
        coats: f64,
    ) -> Predicted {
        let mut mean = Matter::NONE;
        for (stain, share) in parts {
            mean.add(&stain.matter, *share);
        }
        let lab = self.seen_under(base, &mean, coats);
        let doubt = self.doubt(base, parts, coats, lab);
        Predicted { lab, doubt }
    }

    /// L*a*b* of a base under coats.
    pub(super) fn seen_under(&self, base: &Spectrum, matter: &Matter, coats: f64) -> Lab {
        self.eye.lab(&seen(&Layer::of(matter, coats).over(base)))
    }

    fn doubt(&self, base: &Spectrum, parts: &Parts<'_>, coats: f64, lab: Lab) -> f64 {
        let measure = parts_from_lab(lab);
        let shift = delta_e_00(lab, self.eye.lab(&seen(base)));
        let lonely = parts.iter().any(|(stain, _)| stain.different < 2);
        let share = if lonely { LONELY } else { FLOOR[1] };
        let floor = (FLOOR[0] * FLOOR[0] + (share * shift) * (share * shift)) / 3.0;
        let mut spread = Matrix3::zeros();
        let mut weights = 0.0;
        for set in sets_of_ways(parts) {
            let weight: f64 = set.iter().map(|(way, _)| way.weight).product();
            let here = self.seen_by(base, &set, coats, None);
            let off = measure * (Vector3::from(here.0) - Vector3::from(lab.0));
            let mut own = off * off.transpose();
            for (i, (way, _)) in set.iter().enumerate() {
                let mut slopes = SMatrix::<f64, 3, PARAMETERS>::zeros();
                for (j, mut column) in slopes.column_iter_mut().enumerate() {
                    let moved = self.seen_by(base, &set, coats, Some((i, j)));
                    column.copy_from(
                        &(measure * (Vector3::from(moved.0) - Vector3::from(here.0)) / PROBE),
                    );
                }
                own += slopes * way.covariance * slopes.transpose();
            }
            spread += own * weight;
            weights += weight;
        }
        let covariance = spread * (WIDER * WIDER / f64::max(weights, f64::MIN_POSITIVE))
            + Matrix3::identity() * floor;
        delta_e_00_95(&covariance)
    }

    /// The colour by one set of explanations; with one parameter of one stain moved.
    fn seen_by(
        &self,
        base: &Spectrum,
        set: &[(&Estimate, f64)],
        coats: f64,
        moved: Option<(usize, usize)>,
    ) -> Lab {
        let mut sum = Matter::NONE;
        for (i, (way, share)) in set.iter().enumerate() {
            let mut at: Parameters = way.at;
            if let Some((_, j)) = moved.filter(|(m, _)| *m == i)
                && let Some(v) = at.get_mut(j)
            {
                *v += PROBE;
            }
            sum.add(&matter(&at), *share);
        }
        self.seen_under(base, &sum, coats)
    }
}

/// Every combination of explanations worth following, one per stain of the mix.
fn sets_of_ways<'a>(parts: &[(&'a Stain, f64)]) -> Vec<Vec<(&'a Estimate, f64)>> {
    let mut sets: Vec<Vec<(&Estimate, f64)>> = vec![Vec::new()];
    for (stain, share) in parts.iter().take(MAX_FOLLOWED) {
        let ways: Vec<&Estimate> = stain
            .ways
            .iter()
            .filter(|w| w.weight >= LEAST_WEIGHT)
            .collect();
        sets = sets
            .into_iter()
            .flat_map(|set| {
                ways.iter().map(move |way| {
                    let mut longer = set.clone();
                    longer.push((*way, *share));
                    longer
                })
            })
            .collect();
    }
    sets
}

/// Answers every request, or says which one is wrong.
pub fn predict_all(book: &StrengthBook, requests: &[PredictRequest]) -> Result<Vec<Prediction>> {
    if requests.len() > MAX_REQUESTS {
        return Err(Error::input(
            format!(
                "{} predictions are asked for; at most {MAX_REQUESTS} are made at once.",
                requests.len()
            ),
            "Ask in several goes.",
        ));
    }
    requests
        .iter()
        .map(|r| {
            let made = book.predict(r.base, &r.mix, r.coats).map_err(|e| match e {
                Error::Input { what, remedy } => {
                    Error::input(format!("Request “{}”: {what}", r.id), remedy)
                }
                other => other,
            })?;
            Ok(Prediction {
                id: r.id.clone(),
                lab: made.lab,
                doubt: made.doubt,
            })
        })
        .collect()
}
