//! How far predicted colours of stained ceramics are from the truth, for any model of the stains.
//!
//! The truth is the renderer's (`scene_render::stains`): other spectra and other mathematics than
//! the engine's. A model sees the swatches and the requests and nothing else.

use scene_render::colour::delta_e_00;
use scene_render::stains::base::LIGHT_L;
use scene_render::stains::job::{Answer, Request, Swatch, swatches};
use scene_render::stains::{Handling, Job, StainSet, Surface, trade_targets};
use std::ops::Range;

/// Seeds from here on were never tuned on.
pub const HELD_BACK: u64 = 9000;

/// What a model says.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Prediction {
    /// CIELAB (D65, 2°) after the coats.
    pub lab: [f64; 3],
    /// ± in ΔE00 within which the truth should lie 95 times in 100; none where a model has none.
    pub doubt: Option<f64>,
}

/// Anything that learns from swatches and answers requests.
pub trait Model {
    /// Its name in the tables.
    fn name(&self) -> &str;

    /// One prediction for each request, in their order.
    ///
    /// # Errors
    /// When it cannot; a failure fails the whole measurement.
    fn predict(&self, swatches: &[Swatch], requests: &[Request])
    -> Result<Vec<Prediction>, String>;
}

/// One request's outcome.
#[derive(Debug, Clone)]
pub struct Outcome {
    /// Seed of the set and the request.
    pub seed: u64,
    /// What was asked.
    pub request: Request,
    /// The true colour.
    pub truth: [f64; 3],
    /// What was predicted.
    pub prediction: Prediction,
    /// Distance between the two, ΔE00.
    pub delta_e_00: f64,
}

impl Outcome {
    /// One stain alone.
    pub fn single(&self) -> bool {
        self.request.mix.len() == 1
    }

    /// On a light base.
    pub fn light(&self) -> bool {
        self.request.base[0] >= LIGHT_L
    }

    /// The truth lies within the doubt.
    pub fn within(&self) -> Option<bool> {
        Some(self.delta_e_00 <= self.prediction.doubt?)
    }

    /// How far the coats really go, ΔE00.
    pub fn shift(&self) -> f64 {
        delta_e_00(self.request.base, self.truth)
    }
}

/// A model against the sets of these seeds.
///
/// # Errors
/// When the model fails or leaves a request unanswered.
pub fn score(
    model: &dyn Model,
    seeds: Range<u64>,
    handling: Handling,
    surface: Surface,
) -> Result<Vec<Outcome>, String> {
    let mut out = Vec::new();
    for seed in seeds {
        let job = Job::random(seed, handling, surface)?;
        out.extend(score_job(model, seed, job)?);
    }
    Ok(out)
}

/// A model against the targets of the trade's set, whose swatches are read exactly.
///
/// # Errors
/// As [`score`].
pub fn score_trade(model: &dyn Model) -> Result<Vec<Outcome>, String> {
    let (mut requests, mut truth) = (Vec::new(), Vec::new());
    for t in trade_targets()? {
        requests.push(Request {
            id: t.name.to_owned(),
            base: t.base,
            mix: t
                .mix
                .iter()
                .map(|(name, share)| ((*name).to_owned(), *share))
                .collect(),
            coats: t.coats,
        });
        truth.push(Answer {
            id: t.name.to_owned(),
            lab: t.target,
        });
    }
    let swatches = swatches(&StainSet::trade(), 0, Handling::default())?;
    let job = Job {
        swatches,
        requests,
        truth,
    };
    score_job(model, 0, job)
}

fn score_job(model: &dyn Model, seed: u64, job: Job) -> Result<Vec<Outcome>, String> {
    let here = format!("{}, seed {seed}", model.name());
    let said = model
        .predict(&job.swatches, &job.requests)
        .map_err(|e| format!("{here}: {e}"))?;
    if said.len() != job.requests.len() {
        return Err(format!(
            "{here}: {} answers to {}",
            said.len(),
            job.requests.len()
        ));
    }
    job.requests
        .into_iter()
        .zip(job.truth)
        .zip(said)
        .map(|((request, truth), prediction)| {
            let doubt = prediction.doubt.unwrap_or(0.0);
            let sound = prediction.lab.iter().all(|v| v.is_finite()) && doubt.is_finite();
            if !sound || request.id != truth.id {
                return Err(format!("{here}, {}: {prediction:?}", request.id));
            }
            Ok(Outcome {
                seed,
                request,
                truth: truth.lab,
                prediction,
                delta_e_00: delta_e_00(prediction.lab, truth.lab),
            })
        })
        .collect()
}
