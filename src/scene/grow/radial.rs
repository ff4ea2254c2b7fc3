//! The best closed curve around a centre, as one radius per direction.
//!
//! Along every direction each radius gets a score: how strong the border is there, and how much
//! of the way to it has the colour of the inside. Reward for more of the inside fades once a
//! border has been crossed, so that the like-coloured neighbour behind a contact does not pull.
//! A border is a step of lightness or colour, or a dark or red line between two like sides: the
//! contact with a neighbour. Dynamic programming ([`super::path`]) then finds the closed curve
//! with the best sum, radii of neighbouring directions being close. What it finds is star-shaped
//! about the centre, as crowns, tabs and cards are.

use super::features::{Feature, Features, Model};
use super::path::closed_path;
use super::rays::Rays;
use crate::colour::root::hypot;
use std::f64::consts::TAU;
use std::sync::LazyLock;

/// How finely is searched.
#[derive(Debug, Clone, Copy)]
pub struct Fan {
    /// Directions around the centre.
    pub directions: usize,
    /// Radii, spaced by equal factors.
    pub radii: usize,
    /// Steps of radius that neighbouring directions may differ by.
    pub max_jump: usize,
}

impl Fan {
    /// For one outline that a user waits for.
    pub const FINE: Self = Self {
        directions: 128,
        radii: 96,
        max_jump: 4,
    };
    /// For what many guesses left over.
    pub const KEPT: Self = Self {
        directions: 96,
        radii: 64,
        max_jump: 4,
    };
    /// For many guesses at once.
    pub const QUICK: Self = Self {
        directions: 64,
        radii: 44,
        max_jump: 3,
    };
}

/// Smallest radius, in reduced pixels.
const LEAST_RADIUS: f64 = 3.0;

/// How to search.
#[derive(Debug, Clone, Copy)]
pub struct How {
    /// Highlights inside are taken for the inside.
    pub ignore_highlights: bool,
    /// Weight of borders that get lighter outward, against those that get darker or redder.
    pub lighter_outward: f32,
    /// Cost of a jump of one radius step, squared for more.
    pub stiffness: f32,
}

impl How {
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

/// Feature difference at which a border counts half.
const BORDER_HALF: f32 = 0.10;
/// What a line between like sides counts against a step of the same size.
const LINE_WEIGHT: f32 = 4.0;

/// A closed curve: radii around a centre.
#[derive(Debug, Clone)]
pub struct Closed {
    centre: [f64; 2],
    radii: Vec<f64>,
    score: f32,
}

impl Closed {
    /// From radii around a centre.
    pub const fn new(centre: [f64; 2], radii: Vec<f64>) -> Self {
        Self {
            centre,
            radii,
            score: 0.0,
        }
    }

    /// How well border and inside fit, the mean over the directions; larger is better.
    pub const fn score(&self) -> f32 {
        self.score
    }

    /// Its points.
    pub fn outline(&self) -> Vec<[f64; 2]> {
        let n = self.radii.len();
        self.radii
            .iter()
            .enumerate()
            .map(|(i, r)| {
                let (s, c) = direction(i, n);
                [self.centre[0] + r * c, self.centre[1] + r * s]
            })
            .collect()
    }

    /// What the radii stand around.
    pub const fn centre(&self) -> [f64; 2] {
        self.centre
    }

    /// One per direction.
    pub fn radii(&self) -> &[f64] {
        &self.radii
    }

    /// The same curve with other radii.
    pub fn with_radii(&self, radii: Vec<f64>) -> Self {
        Self { radii, ..*self }
    }

    /// Its radii, shrunk by a factor.
    pub fn shrunk(&self, factor: f64) -> Vec<f64> {
        self.radii.iter().map(|r| r * factor).collect()
    }

    /// The middle of its area.
    pub fn middle(&self) -> [f64; 2] {
        let n = self.radii.len();
        let (mut area, mut x, mut y) = (0.0, 0.0, 0.0);
        for (i, r) in self.radii.iter().enumerate() {
            let (s, c) = direction(i, n);
            area += r * r / 2.0;
            x += r * r * r * c / 3.0;
            y += r * r * r * s / 3.0;
        }
        let area = area.max(1e-9);
        [self.centre[0] + x / area, self.centre[1] + y / area]
    }

    /// Whether a place lies inside.
    pub fn contains(&self, [x, y]: [f64; 2]) -> bool {
        let n = self.radii.len().max(1);
        let (dx, dy) = (x - self.centre[0], y - self.centre[1]);
        let angle = libm::atan2(dy, dx).rem_euclid(TAU);
        let i = (angle / TAU * n as f64).round() as usize % n;
        self.radii.get(i).is_some_and(|r| hypot(dx, dy) < *r)
    }
}

/// Directions that are worked out once: those of every fan are among them.
const COMPASS: usize = 384;
static COMPASS_ROSE: LazyLock<Vec<(f64, f64)>> =
    LazyLock::new(|| (0..COMPASS).map(|i| worked_out(i, COMPASS)).collect());

/// Sine and cosine of direction `i` of `n`.
pub fn direction(i: usize, n: usize) -> (f64, f64) {
    // A fraction in lower terms is the same number, to the last bit.
    let known = if COMPASS.is_multiple_of(n) {
        COMPASS_ROSE.get(i * (COMPASS / n))
    } else {
        None
    };
    known.copied().unwrap_or_else(|| worked_out(i, n))
}

fn worked_out(i: usize, n: usize) -> (f64, f64) {
    let angle = i as f64 / n as f64 * TAU;
    (libm::sin(angle), libm::cos(angle))
}

/// The best curve around `centre` with radii from `least` (reduced pixels) to `limit`.
pub fn best_curve(
    features: &Features,
    centre: [f64; 2],
    model: &Model,
    [least, limit]: [f64; 2],
    how: &How,
    fan: &Fan,
) -> Closed {
    let least = least.max(LEAST_RADIUS);
    let count = fan.radii.max(2);
    let factor = libm::pow((limit / least).max(1.5), 1.0 / (count - 1) as f64);
    let mut radii = Vec::with_capacity(count);
    let mut r = least;
    for _ in 0..count {
        radii.push(r);
        r *= factor;
    }
    // Inside the least radius everything is taken for the inside.
    let rays = Rays::new(&radii, factor);
    let scores = rays.scores(features, centre, model, how, fan.directions);
    let path = closed_path(&scores, count, fan.max_jump, how.stiffness);
    let score: f32 = scores
        .chunks_exact(count)
        .zip(&path)
        .filter_map(|(s, k)| s.get(*k))
        .sum();
    Closed {
        centre,
        score: score / fan.directions.max(1) as f32,
        radii: path
            .iter()
            .map(|k| radii.get(*k).copied().unwrap_or(least))
            .collect(),
    }
}

/// The larger of two numbers. As a plain comparison it is quick on several at a time.
#[inline]
fn larger(a: f32, b: f32) -> f32 {
    if a > b { a } else { b }
}

/// How much of a border lies between an inner and an outer place, 0–1.
#[inline]
pub fn border_between(inner: Feature, here: Feature, outer: Feature, how: &How) -> f32 {
    let (step, polarity, line) = differences(inner, here, outer, how);
    let half = BORDER_HALF * BORDER_HALF;
    larger(step / (step + half) * polarity, line / (line + half))
}

/// The same without an upper end: tells where a strong border is strongest.
pub fn steepness_between(inner: Feature, here: Feature, outer: Feature, how: &How) -> f32 {
    let (step, polarity, line) = differences(inner, here, outer, how);
    (step * polarity * polarity).max(line).sqrt()
}

/// The squared step from inside to outside, what its direction makes it count, and the squared
/// height of a dark or red line between two like sides.
#[inline]
fn differences(inner: Feature, here: Feature, outer: Feature, how: &How) -> (f32, f32, f32) {
    let [li, ai, bi] = inner;
    let [lo, ao, bo] = outer;
    let [l, a, _] = here;
    let (dl, da, db) = (lo - li, ao - ai, bo - bi);
    let polarity = if (dl > 0.02) & (da < 0.03) {
        how.lighter_outward
    } else {
        1.0
    };
    let dark = larger(-larger(-li, -lo) - l, 0.0);
    let red = larger(a - larger(ai, ao), 0.0);
    let line = LINE_WEIGHT * LINE_WEIGHT * (dark * dark + red * red);
    (dl * dl + da * da + db * db, polarity, line)
}
