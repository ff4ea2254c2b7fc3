//! The best closed curve around a centre, as one radius per direction.
//!
//! Along every direction each radius gets a score: how strong the border is there, and how much
//! of the way to it has the colour of the inside. Reward for more of the inside fades once a
//! border has been crossed, so that the like-coloured neighbour behind a contact does not pull.
//! Dynamic programming then finds the closed curve with the best sum, radii of neighbouring
//! directions being close. What it finds is star-shaped about the centre, as crowns, tabs and
//! cards are.

use super::features::{Features, Model};
use std::f64::consts::TAU;

/// Directions.
pub const DIRECTIONS: usize = 128;
/// Radii, spaced by equal factors.
const RADII: usize = 96;
/// Steps of radius that neighbouring directions may differ by.
const MAX_JUMP: usize = 4;
/// Smallest radius, in reduced pixels.
const LEAST_RADIUS: f64 = 3.0;

/// How to search.
#[derive(Debug, Clone, Copy)]
pub struct Search {
    /// Highlights inside are taken for the inside.
    pub ignore_highlights: bool,
    /// Weight of borders that get lighter outward, against those that get darker or redder.
    pub lighter_outward: f32,
    /// Cost of a jump of one radius step, squared for more.
    pub stiffness: f32,
}

impl Search {
    /// For a grey card: any border counts, corners are sharp.
    pub const CARD: Self = Self {
        ignore_highlights: false,
        lighter_outward: 1.0,
        stiffness: 0.02,
    };
    /// For crowns and tabs: they are the light things in a darker, redder place.
    pub const CROWN: Self = Self {
        ignore_highlights: true,
        lighter_outward: 0.35,
        stiffness: 0.04,
    };
}

/// Reward per e-fold of radius filled with the inside's colour.
const FILL_WEIGHT: f32 = 1.6;
/// Distance from the inside's colour, in spreads, at which reward turns to cost.
const FILL_TURN: f32 = 2.2;
/// Weight of a full border.
const BORDER_WEIGHT: f32 = 2.6;
/// Feature difference at which a border counts half.
const BORDER_HALF: f32 = 0.10;
/// How fast reward fades behind a border.
const FADE: f32 = 3.0;

/// A closed curve: radii around a centre.
#[derive(Debug, Clone)]
pub struct Closed {
    centre: [f64; 2],
    radii: Vec<f64>,
    score: f32,
}

impl Closed {
    /// How well border and inside fit, summed over the directions; larger is better.
    pub const fn score(&self) -> f32 {
        self.score
    }

    /// Its points.
    pub fn outline(&self) -> Vec<[f64; 2]> {
        self.radii
            .iter()
            .enumerate()
            .map(|(i, r)| {
                let (s, c) = direction(i);
                [self.centre[0] + r * c, self.centre[1] + r * s]
            })
            .collect()
    }

    /// Its radii, shrunk by a factor.
    pub fn shrunk(&self, factor: f64) -> Vec<f64> {
        self.radii.iter().map(|r| r * factor).collect()
    }

    /// The middle of its area.
    pub fn middle(&self) -> [f64; 2] {
        let (mut area, mut x, mut y) = (0.0, 0.0, 0.0);
        for (i, r) in self.radii.iter().enumerate() {
            let (s, c) = direction(i);
            area += r * r / 2.0;
            x += r * r * r * c / 3.0;
            y += r * r * r * s / 3.0;
        }
        let area = area.max(1e-9);
        [self.centre[0] + x / area, self.centre[1] + y / area]
    }

    /// Whether a place lies inside.
    pub fn contains(&self, [x, y]: [f64; 2]) -> bool {
        let (dx, dy) = (x - self.centre[0], y - self.centre[1]);
        let angle = libm::atan2(dy, dx).rem_euclid(TAU);
        let i = (angle / TAU * DIRECTIONS as f64).round() as usize % DIRECTIONS;
        self.radii.get(i).is_some_and(|r| libm::hypot(dx, dy) < *r)
    }
}

fn direction(i: usize) -> (f64, f64) {
    let angle = i as f64 / DIRECTIONS as f64 * TAU;
    (libm::sin(angle), libm::cos(angle))
}

/// The best curve around `centre` with radii up to `limit`.
pub fn best_curve(
    features: &Features,
    centre: [f64; 2],
    model: &Model,
    limit: f64,
    how: &Search,
) -> Closed {
    let factor = libm::pow((limit / LEAST_RADIUS).max(1.5), 1.0 / (RADII - 1) as f64);
    let mut radii = Vec::with_capacity(RADII);
    let mut r = LEAST_RADIUS;
    for _ in 0..RADII {
        radii.push(r);
        r *= factor;
    }
    let scores: Vec<Vec<f32>> = (0..DIRECTIONS)
        .map(|i| score_direction(features, centre, direction(i), model, &radii, how))
        .collect();
    let path = closed_path(&scores, how.stiffness);
    let score = scores
        .iter()
        .zip(&path)
        .filter_map(|(s, k)| s.get(*k))
        .sum();
    Closed {
        centre,
        score,
        radii: path
            .iter()
            .map(|k| radii.get(*k).copied().unwrap_or(LEAST_RADIUS))
            .collect(),
    }
}

fn score_direction(
    features: &Features,
    centre: [f64; 2],
    (sin, cos): (f64, f64),
    model: &Model,
    radii: &[f64],
    how: &Search,
) -> Vec<f32> {
    let place = |r: f64| [centre[0] + r * cos, centre[1] + r * sin];
    let look = |r: f64| model.without_highlight(features.at(place(r)));
    let step = radii
        .get(1)
        .zip(radii.first())
        .map_or(0.1, |(b, a)| libm::log(b / a)) as f32;
    let mut filled = 0.0_f32;
    let mut crossed = 0.0_f32;
    let mut scores = Vec::with_capacity(radii.len());
    for &r in radii {
        if !features.is_inside(place(r)) {
            // The frame of the photo is a weak border: things are cut off by it.
            scores.push(if scores.is_empty() {
                -9.0
            } else {
                filled + 0.3 * BORDER_WEIGHT - 6.0 * step
            });
            filled -= 4.0 * step;
            continue;
        }
        let half = 1.0 + 0.015 * r;
        let (inner, outer) = (look(r - half), look(r + half));
        let [dl, da, db] = [0, 1, 2].map(|i: usize| {
            outer.get(i).copied().unwrap_or(0.0) - inner.get(i).copied().unwrap_or(0.0)
        });
        let squares = dl * dl + da * da + db * db;
        let polarity = if dl > 0.02 && da < 0.03 {
            how.lighter_outward
        } else {
            1.0
        };
        let border = squares / (squares + BORDER_HALF * BORDER_HALF) * polarity;
        scores.push(filled + BORDER_WEIGHT * border);
        let likeness = (FILL_TURN - model.distance(look(r))).clamp(-2.0, 1.0);
        let fade = libm::expf(-FADE * crossed);
        filled += FILL_WEIGHT * likeness * step * if likeness > 0.0 { fade } else { 1.0 };
        // A border is wider than one step; its parts must not add up to more than one.
        let steps_per_border = (2.0 * half / (r * f64::from(step))).max(1.0) as f32;
        crossed += border * border / steps_per_border;
    }
    scores
}

/// The path with the largest sum of scores, one index per direction, neighbours at most
/// `MAX_JUMP` apart, closed. Going round twice and keeping the middle closes it in practice;
/// a last pass pins the seam.
fn closed_path(scores: &[Vec<f32>], stiffness: f32) -> Vec<usize> {
    let open = best_path(scores, stiffness, None);
    let pin = open.get(DIRECTIONS).copied();
    let closed = best_path(scores, stiffness, pin);
    closed.into_iter().take(DIRECTIONS).collect()
}

/// Without a pin: over two turns. With one: over one turn that starts and ends at the pin.
fn best_path(scores: &[Vec<f32>], stiffness: f32, pin: Option<usize>) -> Vec<usize> {
    let n = scores.len();
    let turns = if pin.is_some() { n + 1 } else { 2 * n };
    let width = scores.first().map_or(0, Vec::len);
    let mut back: Vec<Vec<u8>> = Vec::with_capacity(turns);
    let mut best: Vec<f32> = (0..width)
        .map(|k| match pin {
            Some(p) if p != k => f32::NEG_INFINITY,
            _ => scores
                .first()
                .and_then(|s| s.get(k))
                .copied()
                .unwrap_or(0.0),
        })
        .collect();
    for i in 1..turns {
        let row = scores.get(i % n.max(1));
        let mut next = vec![f32::NEG_INFINITY; width];
        let mut from = vec![0_u8; width];
        for (k, (value, came)) in next.iter_mut().zip(&mut from).enumerate() {
            let own = row.and_then(|s| s.get(k)).copied().unwrap_or(0.0);
            for jump in 0..=2 * MAX_JUMP {
                let Some(before) = (k + jump).checked_sub(MAX_JUMP) else {
                    continue;
                };
                let Some(previous) = best.get(before) else {
                    continue;
                };
                let d = jump as f32 - MAX_JUMP as f32;
                let total = previous + own - stiffness * d * d;
                if total > *value {
                    *value = total;
                    *came = jump as u8;
                }
            }
        }
        back.push(from);
        best = next;
    }
    let mut k = pin.unwrap_or_else(|| {
        let last = best.iter().enumerate().max_by(|a, b| a.1.total_cmp(b.1));
        last.map_or(0, |(k, _)| k)
    });
    let mut path = vec![k];
    for from in back.iter().rev() {
        let jump = usize::from(from.get(k).copied().unwrap_or(MAX_JUMP as u8));
        k = (k + jump)
            .saturating_sub(MAX_JUMP)
            .min(width.saturating_sub(1));
        path.push(k);
    }
    path.reverse();
    path
}
