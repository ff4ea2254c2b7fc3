//! What every radius along every direction around a centre is worth as a place on a closed
//! curve; see [`super::radial`].
//!
//! Directions are looked along [`LANES`] at a time, their numbers side by side, so that the
//! loops over them become wide.

use super::features::{Features, LANES, Lanes, Model, Seen};
use super::radial::{How, border_between, direction};

/// Reward per e-fold of radius filled with the inside's colour.
const FILL_WEIGHT: f32 = 1.6;
/// Distance from the inside's colour, in spreads, at which reward turns to cost.
const FILL_TURN: f32 = 2.2;
/// Weight of a full border.
const BORDER_WEIGHT: f32 = 2.6;
/// How fast reward fades behind a border.
const FADE: f32 = 6.0;

/// The radii along a direction.
pub struct Rays<'a> {
    radii: &'a [f64],
    /// Steps to either side that a border is looked for across.
    reach: Vec<usize>,
    step: f32,
}

impl<'a> Rays<'a> {
    /// Radii, each `factor` times the one before.
    pub fn new(radii: &'a [f64], factor: f64) -> Self {
        let reach = radii
            .iter()
            .map(|r| {
                let half = 1.0 + 0.015 * r;
                ((half / (r * (factor - 1.0))).round() as usize).clamp(1, 12)
            })
            .collect();
        Self {
            radii,
            reach,
            step: libm::log(factor) as f32,
        }
    }

    /// One score per direction and radius, direction by direction.
    pub fn scores(
        &self,
        features: &Features,
        centre: [f64; 2],
        model: &Model,
        how: &How,
        directions: usize,
    ) -> Vec<f32> {
        let count = self.radii.len();
        let mut scores = vec![0.0; directions * count];
        let mut seen = vec![Seen::default(); count];
        let mut out = vec![[0.0; LANES]; count];
        for (block, rows) in scores.chunks_mut(LANES * count).enumerate() {
            let mut ways = [[0.0; LANES]; 2];
            let [sines, cosines] = &mut ways;
            for (i, (s, c)) in sines.iter_mut().zip(cosines).enumerate() {
                (*s, *c) = direction(block * LANES + i, directions);
            }
            for (seen, r) in seen.iter_mut().zip(self.radii) {
                features.along(centre, *r, &ways, seen);
                seen.without_highlights(model);
            }
            self.score(&seen, model, how, &mut out);
            for (i, row) in rows.chunks_exact_mut(count).enumerate() {
                for (slot, lanes) in row.iter_mut().zip(&out) {
                    *slot = lanes.get(i).copied().unwrap_or_default();
                }
            }
        }
        scores
    }

    /// From what is seen at each radius to its scores. Each loop over the lanes does one thing:
    /// such loops become wide.
    #[allow(
        clippy::needless_range_loop,
        reason = "plain counted loops over arrays of one length become wide"
    )]
    fn score(&self, seen: &[Seen], model: &Model, how: &How, out: &mut [Lanes]) {
        let mut filled = [0.0_f32; LANES];
        let mut fade = [1.0_f32; LANES];
        let last = seen.len().saturating_sub(1);
        // The frame of the photo is a weak border: things are cut off by it.
        let frame = 0.3 * BORDER_WEIGHT;
        for (k, ((here, reach), out)) in seen.iter().zip(&self.reach).zip(out).enumerate() {
            // What lies outside looks like what lies here.
            let side = |i: usize| seen.get(i).unwrap_or(here).or(here);
            let inner = side(k.saturating_sub(*reach));
            let outer = side((k + reach).min(last));
            let mut border = [0.0; LANES];
            for i in 0..LANES {
                border[i] = border_between(inner.at(i), here.at(i), outer.at(i), how);
            }
            let mut likeness = [0.0; LANES];
            for i in 0..LANES {
                let own = FILL_TURN - model.distance(here.at(i));
                let own = if own < -2.0 { -2.0 } else { own };
                likeness[i] = if own > 1.0 { 1.0 } else { own };
            }
            // A border is wider than one step; its parts must not add up to more than one.
            let wide = (2 * reach) as f32;
            let first = k == 0;
            for i in 0..LANES {
                let border = border[i];
                let crossed = FADE * border * border / wide;
                let left = fade[i] / (1.0 + crossed + 0.5 * crossed * crossed);
                let faded = if likeness[i] > 0.0 { fade[i] } else { 1.0 };
                let more = FILL_WEIGHT * likeness[i] * self.step * faded;
                let beyond = filled[i] + frame - 6.0 * self.step;
                let beyond = if first { -9.0 } else { beyond };
                let inside = here.inside[i] != 0;
                out[i] = if inside {
                    filled[i] + BORDER_WEIGHT * border
                } else {
                    beyond
                };
                filled[i] = if inside {
                    filled[i] + more
                } else {
                    filled[i] - 4.0 * self.step
                };
                fade[i] = if inside { left } else { fade[i] };
            }
        }
    }
}
