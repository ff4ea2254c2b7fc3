//! What stands around an outline: gum, holder, neighbours – seen in each direction.

use super::candidate::Candidate;
use crate::scene::grow::features::Features;
use crate::scene::grow::radial::direction;

/// Redder outside than inside by this: soft tissue.
const REDDER: f32 = 0.10;
/// Nearly as light outside as inside, and less yellow or red: a holder or a card.
const PALER: f32 = 0.05;

/// Sums over the directions around an outline.
#[derive(Debug, Clone, Copy, Default)]
pub struct Surround {
    /// Where the redness is: mean direction, its length 0–1.
    pub red: [f64; 2],
    /// Share of the directions with soft tissue outside.
    pub red_share: f64,
    /// Where something solid and less coloured is.
    pub solid: [f64; 2],
    /// Share of the directions with such a thing outside.
    pub solid_share: f64,
    /// Share of the directions that are dark outside.
    pub dark_share: f64,
}

/// Looks around.
pub fn surround(features: &Features, candidate: &Candidate) -> Surround {
    let curve = &candidate.curve;
    let [l, a, b] = candidate.model.middle();
    let n = curve.radii().len();
    let centre = curve.centre();
    let mean = curve.radii().iter().sum::<f64>() / n.max(1) as f64;
    let mut out = Surround::default();
    let mut weights = 0.0;
    for (i, r) in curve.radii().iter().enumerate() {
        let (s, c) = direction(i, n);
        // Arc lengths grow with the radius.
        let weight = *r;
        weights += weight;
        let mut seen = [0.0_f32; 3];
        for k in 1..=3 {
            let far = r + 1.5 + 0.08 * mean * f64::from(k);
            let here = features.at([centre[0] + far * c, centre[1] + far * s]);
            for (v, h) in seen.iter_mut().zip(here) {
                *v += h / 3.0;
            }
        }
        let [lo, ao, bo] = seen;
        if lo < 0.45 * l {
            out.dark_share += weight;
        } else if ao - a > REDDER {
            out.red_share += weight;
            let strength = weight * f64::from((ao - a).min(0.4) / 0.4);
            out.red[0] += strength * c;
            out.red[1] += strength * s;
        } else if (b - bo) + (a - ao) > PALER {
            out.solid_share += weight;
            out.solid[0] += weight * c;
            out.solid[1] += weight * s;
        }
    }
    let scale = 1.0 / f64::max(weights, 1e-9);
    out.red = out.red.map(|v| v * scale);
    out.solid = out.solid.map(|v| v * scale);
    out.red_share *= scale;
    out.solid_share *= scale;
    out.dark_share *= scale;
    out
}

/// What lies beyond one end of an axis, over the middle third of the width: mean redness against
/// the inside, share of a holder, share of the dark, share of soft tissue.
pub fn beyond(
    features: &Features,
    candidate: &Candidate,
    end: [f64; 2],
    outward: [f64; 2],
    [length, width]: [f64; 2],
) -> [f64; 4] {
    let [l, a, b] = candidate.model.middle();
    let (mut red, mut holder, mut dark, mut soft, mut count) = (0.0, 0.0, 0.0, 0.0, 0.0);
    for i in 0..6 {
        let along = 2.0 + length * (0.06 + 0.08 * f64::from(i));
        for j in -2..=2 {
            let side = width * 0.07 * f64::from(j);
            let at = [
                end[0] + along * outward[0] - side * outward[1],
                end[1] + along * outward[1] + side * outward[0],
            ];
            if !features.is_inside(at) {
                continue;
            }
            let [lo, ao, bo] = features.at(at);
            count += 1.0;
            red += f64::from((ao - a).clamp(-0.3, 0.4));
            if lo < 0.4 * l {
                dark += 1.0;
            } else if ao - a > REDDER {
                soft += 1.0;
            } else if (b - bo) + (a - ao) > PALER {
                holder += 1.0;
            }
        }
    }
    let scale = 1.0 / f64::max(count, 1.0);
    [red * scale, holder * scale, dark * scale, soft * scale]
}
