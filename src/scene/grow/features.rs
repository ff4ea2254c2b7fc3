//! What an outline is found by: lightness and two opponent colours of a reduced copy, roughly
//! even to the eye, free of units.

use super::radial::How;
use crate::colour::order::quantile;
use crate::error::{Error, Result};
use crate::photo::Reduced;
use crate::scene::types::Point;

/// Lightness, redness (red − green), yellowness (green − blue) of one pixel.
pub type Feature = [f32; 3];

/// Opponent differences are smaller than lightness differences; this evens them out.
const OPPONENT_WEIGHT: f32 = 2.0;

/// Opponent differences divided by lightness: the same in light and in shadow.
pub fn chromaticity([l, a, b]: Feature) -> [f32; 2] {
    let scale = 1.0 / l.max(0.05);
    [a * scale, b * scale]
}

/// Noise at which a photo is smoothed once more.
const QUIET: f32 = 0.012;
/// Times at most.
const MOST_BLURS: usize = 3;

/// About the cube root of light relative to a bright place, bent straight in the dark, where a
/// root would make much of noise.
fn lightness(linear: f32) -> f32 {
    const TOE: f32 = 0.006;
    const ROOT_OF_TOE: f32 = 0.181_712;
    (libm::cbrtf(linear + TOE) - ROOT_OF_TOE) * 1.22
}

/// Light up to this is told apart; above it everything is glare.
const MOST_LIGHT: f32 = 4.0;
/// Steps of the table, evenly spaced in the root of light.
const STEPS: usize = 1024;

fn lightness_table() -> Vec<f32> {
    (0..=STEPS)
        .map(|i| {
            let root = i as f32 / STEPS as f32;
            lightness(root * root * MOST_LIGHT)
        })
        .collect()
}

/// Lightness between two steps of the table: one root instead of three cube roots per pixel.
fn look_up(table: &[f32], linear: f32) -> f32 {
    let place = (linear.clamp(0.0, MOST_LIGHT) / MOST_LIGHT).sqrt() * STEPS as f32;
    let i = (place as usize).min(STEPS - 1);
    let (low, high) = (table.get(i), table.get(i + 1));
    let (low, high) = (low.copied().unwrap_or(0.0), high.copied().unwrap_or(0.0));
    low + (place - i as f32) * (high - low)
}

/// The features of a reduced copy, slightly blurred.
#[derive(Debug)]
pub struct Features {
    width: usize,
    height: usize,
    values: Vec<Feature>,
}

impl Features {
    /// Computes them. Exposure drops out: light is taken relative to a bright place.
    pub fn of(reduced: &Reduced) -> Result<Self> {
        let (width, height) = (reduced.width as usize, reduced.height as usize);
        if width < 8 || height < 8 || reduced.linear_rgb.len() != width * height {
            return Err(Error::input(
                "The photo is too small to find anything in.",
                "Open a larger photo.",
            ));
        }
        let mut greens: Vec<f32> = reduced.linear_rgb.iter().step_by(7).map(|p| p[1]).collect();
        let bright = quantile(&mut greens, 0.98).unwrap_or(1.0);
        let scale = 1.0 / bright.max(1e-4);
        let table = lightness_table();
        let values = reduced
            .linear_rgb
            .iter()
            .map(|rgb| {
                let [r, g, b] = rgb.map(|v| look_up(&table, v * scale));
                [
                    0.3 * r + 0.6 * g + 0.1 * b,
                    OPPONENT_WEIGHT * (r - g),
                    OPPONENT_WEIGHT * (g - b),
                ]
            })
            .collect();
        let raw = Self {
            width,
            height,
            values,
        };
        // A noisy photo is smoothed more, up to where its contacts would go too.
        let mut smooth = raw.blurred();
        for _ in 0..MOST_BLURS {
            if smooth.noise() < QUIET {
                break;
            }
            smooth = smooth.blurred();
        }
        Ok(smooth)
    }

    /// How much neighbouring pixels differ for no reason: the lower quartile of the second
    /// differences of all features.
    fn noise(&self) -> f32 {
        let mut all = Vec::with_capacity(self.values.len() / 5);
        for row in self.values.chunks_exact(self.width).step_by(5) {
            for w in row.windows(3) {
                if let [a, b, c] = w {
                    let bend = |k: usize| -> f32 {
                        let at = |v: &Feature| v.get(k).copied().unwrap_or(0.0);
                        (at(a) - 2.0 * at(b) + at(c)).abs()
                    };
                    all.push(bend(0) + bend(1) + bend(2));
                }
            }
        }
        quantile(&mut all, 0.25).unwrap_or(0.0)
    }

    /// A 3×3 binomial blur: takes pixel noise out of the differences.
    fn blurred(&self) -> Self {
        let mut rows = self.values.clone();
        let mix = |a: Feature, b: Feature, c: Feature| {
            let mut out = [0.0; 3];
            for (o, ((a, b), c)) in out.iter_mut().zip(a.into_iter().zip(b).zip(c)) {
                *o = 0.25 * a + 0.5 * b + 0.25 * c;
            }
            out
        };
        for (out, row) in rows
            .chunks_exact_mut(self.width)
            .zip(self.values.chunks_exact(self.width))
        {
            for (o, w) in out.iter_mut().skip(1).zip(row.windows(3)) {
                if let &[a, b, c] = w {
                    *o = mix(a, b, c);
                }
            }
        }
        let mut values = rows.clone();
        for y in 1..self.height.saturating_sub(1) {
            for x in 0..self.width {
                let at = |dy: usize| rows.get((y + dy - 1) * self.width + x).copied();
                if let (Some(a), Some(b), Some(c), Some(o)) =
                    (at(0), at(1), at(2), values.get_mut(y * self.width + x))
                {
                    *o = mix(a, b, c);
                }
            }
        }
        Self { values, ..*self }
    }

    /// Width in reduced pixels.
    pub const fn width(&self) -> usize {
        self.width
    }

    /// Height in reduced pixels.
    pub const fn height(&self) -> usize {
        self.height
    }

    /// The features of one pixel; zeros outside.
    pub fn pixel(&self, x: usize, y: usize) -> Feature {
        self.values
            .get(y * self.width + x)
            .copied()
            .unwrap_or_default()
    }

    /// The longer side, in reduced pixels.
    pub fn longest_side(&self) -> f64 {
        self.width.max(self.height) as f64
    }

    /// A place of the photo in the reduced copy; `None` outside.
    pub fn reduced_from_photo(&self, reduced: &Reduced, p: Point) -> Option<[f64; 2]> {
        let at = reduced.reduced_from_photo(p.0);
        self.is_inside(at).then_some(at)
    }

    /// Whether a place lies in the picture.
    pub fn is_inside(&self, [x, y]: [f64; 2]) -> bool {
        x >= -0.5 && y >= -0.5 && x < self.width as f64 - 0.5 && y < self.height as f64 - 0.5
    }

    /// The features at a place, blended between pixels; the nearest edge pixel outside.
    pub fn at(&self, [x, y]: [f64; 2]) -> Feature {
        let x = x.clamp(0.0, (self.width - 1) as f64);
        let y = y.clamp(0.0, (self.height - 1) as f64);
        let (x0, y0) = (x as usize, y as usize);
        let (fx, fy) = ((x - x0 as f64) as f32, (y - y0 as f64) as f32);
        let (x1, y1) = ((x0 + 1).min(self.width - 1), (y0 + 1).min(self.height - 1));
        let get = |x: usize, y: usize| {
            self.values
                .get(y * self.width + x)
                .copied()
                .unwrap_or_default()
        };
        let (a, b, c, d) = (get(x0, y0), get(x1, y0), get(x0, y1), get(x1, y1));
        let mut out = [0.0; 3];
        for (o, (((a, b), c), d)) in out.iter_mut().zip(a.into_iter().zip(b).zip(c).zip(d)) {
            *o = (a * (1.0 - fx) + b * fx) * (1.0 - fy) + (c * (1.0 - fx) + d * fx) * fy;
        }
        out
    }

    /// Redness at a place.
    pub fn redness(&self, at: [f64; 2]) -> Option<f32> {
        self.is_inside(at).then(|| self.at(at)[1])
    }
}

/// The colour inside, as a middle and a spread per feature.
#[derive(Debug, Clone, Copy)]
pub struct Model {
    middle: Feature,
    spread: Feature,
    /// Lightness above this counts as this: highlights are part of what they lie on.
    ceiling: f32,
}

/// Spreads are at least this, whatever the samples say: shading changes lightness most.
const LEAST_SPREAD: Feature = [0.07, 0.05, 0.07];
/// And at most this.
const MOST_SPREAD: Feature = [0.14, 0.09, 0.12];

impl Model {
    /// From a disc around the tap.
    pub fn around(features: &Features, seed: [f64; 2], radius: f64, how: &How) -> Self {
        let mut samples = Vec::with_capacity(200);
        for i in -7..=7 {
            for j in -7..=7 {
                let [dx, dy] = [i, j].map(|k| f64::from(k) / 7.0 * radius);
                let at = [seed[0] + dx, seed[1] + dy];
                if dx * dx + dy * dy <= radius * radius && features.is_inside(at) {
                    samples.push(features.at(at));
                }
            }
        }
        Self::from_samples(&mut samples, how).unwrap_or(Self {
            middle: features.at(seed),
            spread: LEAST_SPREAD,
            ceiling: f32::INFINITY,
        })
    }

    /// From the inside of a curve, given as radii around its centre.
    pub fn within(features: &Features, centre: [f64; 2], radii: &[f64], how: &How) -> Option<Self> {
        let mut samples = Vec::with_capacity(radii.len() * 8);
        for (i, radius) in radii.iter().enumerate() {
            let angle = i as f64 / radii.len() as f64 * std::f64::consts::TAU;
            for k in 1..=8 {
                // Even over the area: radii go with the square root.
                let r = radius * (f64::from(k) / 8.0).sqrt();
                let at = [
                    centre[0] + r * libm::cos(angle),
                    centre[1] + r * libm::sin(angle),
                ];
                if features.is_inside(at) {
                    samples.push(features.at(at));
                }
            }
        }
        Self::from_samples(&mut samples, how)
    }

    fn from_samples(samples: &mut [Feature], how: &How) -> Option<Self> {
        if samples.len() < 9 {
            return None;
        }
        let mut middle = [0.0; 3];
        let mut spread = [0.0; 3];
        for channel in 0..3_usize {
            let mut values: Vec<f32> = samples
                .iter()
                .filter_map(|s| s.get(channel).copied())
                .collect();
            let mut at = |share| quantile(&mut values, share);
            let (low, half, high) = (at(0.2)?, at(0.5)?, at(0.8)?);
            let (least, most) = (LEAST_SPREAD.get(channel)?, MOST_SPREAD.get(channel)?);
            *middle.get_mut(channel)? = half;
            *spread.get_mut(channel)? = ((high - low) / 1.7).clamp(*least, *most);
        }
        let [lightness, ..] = middle;
        let [light_spread, ..] = spread;
        Some(Self {
            middle,
            spread,
            ceiling: if how.ignore_highlights {
                lightness + light_spread
            } else {
                f32::INFINITY
            },
        })
    }

    /// The middle of what lies inside.
    pub const fn middle(&self) -> Feature {
        self.middle
    }

    /// A feature with highlights taken off.
    pub fn without_highlight(&self, [l, a, b]: Feature) -> Feature {
        if l <= self.ceiling {
            return [l, a, b];
        }
        // A highlight also pales the colour: give back the middle's.
        let pale = ((l - self.ceiling) / 0.1).min(1.0);
        let [_, ma, mb] = self.middle;
        [self.ceiling, a + (ma - a) * pale, b + (mb - b) * pale]
    }

    /// Distance from the middle, in spreads.
    pub fn distance(&self, feature: Feature) -> f32 {
        let mut squares = 0.0;
        for ((v, m), s) in feature.into_iter().zip(self.middle).zip(self.spread) {
            let d = (v - m) / s;
            squares += d * d;
        }
        squares.sqrt()
    }
}
