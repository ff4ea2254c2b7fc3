//! Swatches, requests and their true answers, as files.

use super::base::Base;
use super::layer::Surface;
use super::pigment::Kind;
use super::set::StainSet;
use crate::colour::delta_e_00;
use crate::rng::Rng;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// Requests of one job.
pub const REQUESTS: usize = 40;

/// One fired test: a base, one stain, a number of coats, colour before and after.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Swatch {
    /// Name of the stain.
    pub stain: String,
    /// Number of coats.
    pub coats: f64,
    /// CIELAB read before.
    pub base: [f64; 3],
    /// CIELAB read after.
    pub after: [f64; 3],
}

/// A colour asked for: what becomes of this base with these coats?
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Request {
    /// Names the answer.
    pub id: String,
    /// CIELAB of the base, exact.
    pub base: [f64; 3],
    /// Stains in shares by volume, of sum 1.
    pub mix: BTreeMap<String, f64>,
    /// Number of coats.
    pub coats: f64,
}

/// The true answer.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Answer {
    /// Of which request.
    pub id: String,
    /// CIELAB after.
    pub lab: [f64; 3],
}

/// What a model of the stains is given, and what it should say.
#[derive(Debug, Clone, PartialEq)]
pub struct Job {
    /// Each stain alone, one and two coats, on the set's light base.
    pub swatches: Vec<Swatch>,
    /// On other bases, light and dark.
    pub requests: Vec<Request>,
    /// In the order of the requests.
    pub truth: Vec<Answer>,
}

/// What is not exact about swatches.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Handling {
    /// Both readings of every swatch are displaced by their own random error of this root mean
    /// square, ΔE00.
    pub noise_delta_e_00: f64,
    /// The coats of a swatch are together thicker or thinner than meant by this share (standard
    /// deviation).
    pub uneven: f64,
}

/// The job of a set, its swatches made with this handling; requests and answers are exact.
///
/// # Errors
/// For a set with fewer than two colours.
pub fn job(set: &StainSet, seed: u64, handling: Handling) -> Result<Job, String> {
    let swatches = swatches(set, seed, handling)?;
    let mut rng = Rng::new(seed, 0x4e9);
    let names: Vec<&str> = set.stains.iter().map(|s| s.name.as_str()).collect();
    let coloured = set.stains.iter().filter(|s| s.kind != Kind::Glaze);
    let colours: Vec<&str> = coloured.map(|s| s.name.as_str()).collect();
    if colours.len() < 2 {
        return Err("a set of one stain has no mixes".into());
    }
    let (mut requests, mut truth) = (Vec::new(), Vec::new());
    for i in 0..REQUESTS {
        let base = Base::random(&mut rng, i % 2 == 0);
        let mut mix = vec![(rng.pick(&names), 1.0)];
        if i % 4 >= 2 {
            // Glaze is painted by itself, never mixed in.
            let one = rng.below(colours.len());
            let other = (one + 1 + rng.below(colours.len() - 1)) % colours.len();
            let tenths = 1 + rng.below(9);
            mix = vec![
                (colours[one], tenths as f64 / 10.0),
                (colours[other], (10 - tenths) as f64 / 10.0),
            ];
        }
        let coats = 0.5 + 0.25 * rng.below(11) as f64;
        let id = format!("r{:02}", i + 1);
        truth.push(Answer {
            id: id.clone(),
            lab: set.after(&base, &mix, coats)?,
        });
        requests.push(Request {
            id,
            base: set.read(&base),
            mix: mix
                .iter()
                .map(|(name, share)| ((*name).to_owned(), *share))
                .collect(),
            coats,
        });
    }
    Ok(Job {
        swatches,
        requests,
        truth,
    })
}

/// The swatches of a set; see [`job`].
///
/// # Errors
/// Never for a sound set.
pub fn swatches(set: &StainSet, seed: u64, handling: Handling) -> Result<Vec<Swatch>, String> {
    let mut rng = Rng::new(seed, 0x5a7c);
    let mut hand = Rng::new(seed, 0x4a2d);
    let noise = handling.noise_delta_e_00;
    let mut out = Vec::new();
    for stain in &set.stains {
        for coats in [1.0, 2.0] {
            let painted = coats * (handling.uneven * hand.normal()).exp();
            let after = set.after(&set.swatch_base, &[(&stain.name, 1.0)], painted)?;
            out.push(Swatch {
                stain: stain.name.clone(),
                coats,
                base: misread(&mut rng, set.read(&set.swatch_base), noise),
                after: misread(&mut rng, after, noise),
            });
        }
    }
    Ok(out)
}

/// A colour displaced in a random direction of CIELAB, so that the root mean square of the
/// displacement is `rms` ΔE00.
pub fn misread(rng: &mut Rng, lab: [f64; 3], rms: f64) -> [f64; 3] {
    // The stream's normals are cut at ±2.5, which leaves 0.9776 of their square.
    let way: [f64; 3] = std::array::from_fn(|_| rng.normal() / 0.9776_f64.sqrt());
    let size = way.iter().map(|v| v * v).sum::<f64>().sqrt();
    if rms == 0.0 || size == 0.0 {
        return lab;
    }
    let wish = rms * size / 3.0_f64.sqrt();
    let moved = |t: f64| -> [f64; 3] { std::array::from_fn(|i| lab[i] + t * way[i] / size) };
    let mut t = wish;
    for _ in 0..8 {
        t *= wish / delta_e_00(lab, moved(t));
    }
    moved(t)
}

impl Job {
    /// The job of a random set by seed.
    ///
    /// # Errors
    /// Never for a sound set.
    pub fn random(seed: u64, handling: Handling, surface: Surface) -> Result<Self, String> {
        let set = StainSet::random(seed).with_surface(surface);
        job(&set, seed, handling)
    }

    /// The files `swatches.json`, `requests.json`, `truth.json`.
    ///
    /// # Errors
    /// When they cannot be written as JSON.
    pub fn files(&self) -> Result<[(&'static str, String); 3], String> {
        Ok([
            ("swatches.json", listed("swatches", &self.swatches)?),
            ("requests.json", listed("requests", &self.requests)?),
            ("truth.json", listed("predictions", &self.truth)?),
        ])
    }
}

/// An object with one list.
fn listed<T: Serialize>(name: &str, list: &[T]) -> Result<String, String> {
    let whole = BTreeMap::from([(name, list)]);
    let text = serde_json::to_string_pretty(&whole).map_err(|e| e.to_string())?;
    Ok(text + "\n")
}
