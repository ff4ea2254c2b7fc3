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

/// Between four pixels, by the shares of the way across and down.
#[inline]
fn blend([a, b, c, d]: [f32; 4], fx: f32, fy: f32) -> f32 {
    (a * (1.0 - fx) + b * fx) * (1.0 - fy) + (c * (1.0 - fx) + d * fx) * fy
}

fn mix(a: f32, b: f32, c: f32) -> f32 {
    0.25 * a + 0.5 * b + 0.25 * c
}

/// The features of a reduced copy, slightly blurred.
#[derive(Debug)]
pub struct Features {
    width: usize,
    height: usize,
    /// Row by row; a row and a pixel more, so that blending never leaves them.
    values: Vec<Padded>,
}

/// The features of a pixel and a zero: four numbers at a time are quick.
pub type Padded = [f32; 4];

/// Directions that are looked along together.
pub const LANES: usize = 16;
/// A number for each of them.
pub type Lanes = [f32; LANES];

/// What is seen in several directions at one distance.
#[derive(Clone, Copy, Default)]
pub struct Seen {
    l: Lanes,
    a: Lanes,
    b: Lanes,
    /// Not 0 where the place lies in the picture.
    pub inside: [u32; LANES],
}

impl Seen {
    /// Takes highlights off.
    #[allow(
        clippy::needless_range_loop,
        reason = "plain counted loops over arrays of one length become wide"
    )]
    pub fn without_highlights(&mut self, model: &Model) {
        for i in 0..LANES {
            [self.l[i], self.a[i], self.b[i]] = model.without_highlight(self.at(i));
        }
    }

    /// The features in one direction.
    #[inline]
    pub fn at(&self, i: usize) -> Feature {
        [self.l[i], self.a[i], self.b[i]]
    }

    /// The same, with another's features where the place lies outside.
    #[inline]
    #[allow(
        clippy::needless_range_loop,
        reason = "plain counted loops over arrays of one length become wide"
    )]
    pub fn or(&self, other: &Self) -> Self {
        let mut out = *self;
        for i in 0..LANES {
            let own = self.inside[i] != 0;
            out.l[i] = if own { self.l[i] } else { other.l[i] };
            out.a[i] = if own { self.a[i] } else { other.a[i] };
            out.b[i] = if own { self.b[i] } else { other.b[i] };
        }
        out
    }
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
        let pixels = reduced.linear_rgb.iter().map(|rgb| {
            let [r, g, b] = rgb.map(|v| look_up(&table, v * scale));
            [
                0.3 * r + 0.6 * g + 0.1 * b,
                OPPONENT_WEIGHT * (r - g),
                OPPONENT_WEIGHT * (g - b),
                0.0,
            ]
        });
        let mut values = Vec::with_capacity(width * (height + 1) + 1);
        values.extend(pixels);
        values.resize(width * (height + 1) + 1, Padded::default());
        let mut features = Self {
            width,
            height,
            values,
        };
        // A noisy photo is smoothed more, up to where its contacts would go too.
        features.blur();
        for _ in 0..MOST_BLURS {
            if features.noise() < QUIET {
                break;
            }
            features.blur();
        }
        Ok(features)
    }

    /// How much neighbouring pixels differ for no reason: the lower quartile of the second
    /// differences of all features.
    fn noise(&self) -> f32 {
        let mut all = Vec::with_capacity(self.values.len() / 5);
        for row in self.rows().step_by(5) {
            for w in row.windows(3) {
                if let [a, b, c] = w {
                    let bend = |k: usize| -> f32 {
                        let at = |v: &Padded| v.get(k).copied().unwrap_or(0.0);
                        (at(a) - 2.0 * at(b) + at(c)).abs()
                    };
                    all.push(bend(0) + bend(1) + bend(2));
                }
            }
        }
        quantile(&mut all, 0.25).unwrap_or(0.0)
    }

    /// Its rows; the features of a pixel are the first three numbers.
    pub fn rows(&self) -> impl Iterator<Item = &[Padded]> {
        self.values.chunks_exact(self.width).take(self.height)
    }

    /// A 3×3 binomial blur: takes pixel noise out of the differences.
    fn blur(&mut self) {
        let wide = 4 * self.width;
        // Row by row blurred along it; three such rows make one that is blurred down, too.
        let along = |row: &[f32], out: &mut Vec<f32>| {
            out.clear();
            out.extend(row);
            let sides = row.iter().zip(row.iter().skip(8));
            let mixed = out.iter_mut().skip(4).zip(row.iter().skip(4)).zip(sides);
            for ((o, b), (a, c)) in mixed {
                *o = mix(*a, *b, *c);
            }
        };
        let [mut above, mut here, mut below] = [(); 3].map(|()| Vec::with_capacity(wide));
        let height = self.height;
        let flat = self.values.as_flattened_mut();
        for y in 0..=height {
            if let Some(row) = flat.get(y * wide..(y + 1) * wide) {
                along(row, &mut below);
            }
            if let Some(out) = flat.get_mut(y.saturating_sub(1) * wide..y * wide) {
                if y == 1 || y == height {
                    out.copy_from_slice(&here);
                } else {
                    for (((o, a), b), c) in out.iter_mut().zip(&above).zip(&here).zip(&below) {
                        *o = mix(*a, *b, *c);
                    }
                }
            }
            std::mem::swap(&mut above, &mut here);
            std::mem::swap(&mut here, &mut below);
        }
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
        let pixel = self.values.get(y * self.width + x);
        let [l, a, b, _] = pixel.copied().unwrap_or_default();
        [l, a, b]
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
        let (x0, y0) = (x as u32, y as u32);
        let (fx, fy) = ((x - f64::from(x0)) as f32, (y - f64::from(y0)) as f32);
        let pixels = self.around(y0 as usize * self.width + x0 as usize);
        let Some([a, b, c, d]) = pixels else {
            return Feature::default();
        };
        [0, 1, 2].map(|k| blend([a[k], b[k], c[k], d[k]], fx, fy))
    }

    /// Four pixels, the first of them at `i`, the next beside it, the others below these.
    #[inline]
    fn around(&self, i: usize) -> Option<[&Padded; 4]> {
        let pair = |i: usize| self.values.get(i..i + 2).and_then(<[Padded]>::as_array);
        let ([a, b], [c, d]) = (pair(i)?, pair(i + self.width)?);
        Some([a, b, c, d])
    }

    /// What lies at a distance from a place, in the directions of these sines and cosines, and
    /// where that is in the picture.
    #[allow(
        clippy::needless_range_loop,
        reason = "plain counted loops over arrays of one length become wide"
    )]
    #[inline(never)]
    pub fn along(
        &self,
        [cx, cy]: [f64; 2],
        r: f64,
        [sines, cosines]: &[[f64; LANES]; 2],
        seen: &mut Seen,
    ) {
        let (right, low) = (self.width as f64 - 1.0, self.height as f64 - 1.0);
        let width = self.width as i32;
        let mut places = [0_i32; LANES];
        let (mut fxs, mut fys) = ([0.0_f32; LANES], [0.0_f32; LANES]);
        for i in 0..LANES {
            let (x, y) = (cx + r * cosines[i], cy + r * sines[i]);
            let is_inside = (x >= -0.5) & (y >= -0.5) & (x < right + 0.5) & (y < low + 0.5);
            seen.inside[i] = u32::from(is_inside);
            let within = |v: f64, last: f64| {
                let v = if v < 0.0 { 0.0 } else { v };
                if v > last { last } else { v }
            };
            let (x, y) = (within(x, right), within(y, low));
            let (x0, y0) = (x as i32, y as i32);
            fxs[i] = (x - f64::from(x0)) as f32;
            fys[i] = (y - f64::from(y0)) as f32;
            places[i] = y0 * width + x0;
        }
        // The four pixels around each place, number by number.
        let mut corners = [[[0.0_f32; LANES]; 4]; 3];
        for (i, place) in places.iter().enumerate() {
            if let Some(pixels) = self.around(*place as usize) {
                for (corners, k) in corners.iter_mut().zip(0..) {
                    for (corner, pixel) in corners.iter_mut().zip(pixels) {
                        corner[i] = pixel[k];
                    }
                }
            }
        }
        let outs = [&mut seen.l, &mut seen.a, &mut seen.b];
        for (out, [a, b, c, d]) in outs.into_iter().zip(&corners) {
            for i in 0..LANES {
                out[i] = blend([a[i], b[i], c[i], d[i]], fxs[i], fys[i]);
            }
        }
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
    #[inline]
    pub fn without_highlight(&self, [l, a, b]: Feature) -> Feature {
        // A highlight also pales the colour: give back the middle's.
        let pale = (l - self.ceiling) / 0.1;
        let pale = if pale < 1.0 { pale } else { 1.0 };
        let [_, ma, mb] = self.middle;
        let (off_a, off_b) = (a + (ma - a) * pale, b + (mb - b) * pale);
        if l <= self.ceiling {
            [l, a, b]
        } else {
            [self.ceiling, off_a, off_b]
        }
    }

    /// Distance from the middle, in spreads.
    #[inline]
    pub fn distance(&self, feature: Feature) -> f32 {
        let mut squares = 0.0;
        for ((v, m), s) in feature.into_iter().zip(self.middle).zip(self.spread) {
            let d = (v - m) / s;
            squares += d * d;
        }
        squares.sqrt()
    }
}
