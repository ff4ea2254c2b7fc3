//! Patches of one chromaticity: what a card is, whatever its lightness does.
//!
//! Opponent differences divided by lightness stay the same across the steps of a card and across
//! a shadow. Their commonest values in the photo are tried one after another; connected places
//! of each are a patch. No white point is needed, so a strong cast does not matter.

use crate::colour::order::quantile;
use crate::scene::grow::features::{Features, chromaticity};

/// Patches smaller than this share of the picture are left alone.
const LEAST_SHARE: f64 = 0.0012;
/// Larger ones too.
const MOST_SHARE: f64 = 0.5;
/// How far from a common chromaticity a patch may stray.
const STRAY: f32 = 0.075;
/// Chromaticities that change faster than this, per pixel, are edges or texture.
const FLAT: f32 = 0.06;
/// Cells of the table of chromaticities along each side, and what it covers.
const CELLS: usize = 56;
const FROM: f32 = -1.2;
const TO: f32 = 1.6;
/// Common chromaticities tried.
const MOST_MODES: usize = 10;
/// Pixels of the features per pixel here, along each side.
pub const BLOCK: usize = 3;
/// Darker than this has no chromaticity to speak of: half a thousandth of the light that is white.
const DARK: f32 = 0.08;

/// A picture of means over blocks of the features: lightness and two chromaticities.
pub struct Chroma {
    /// Pixels across.
    pub width: usize,
    /// Pixels down.
    pub height: usize,
    /// (lightness, red–green, yellow–blue).
    pub values: Vec<[f32; 3]>,
}

impl Chroma {
    /// From features.
    pub fn of(features: &Features) -> Self {
        let (width, height) = (features.width() / BLOCK, features.height() / BLOCK);
        let mut values = Vec::with_capacity(width * height);
        for y in 0..height {
            for x in 0..width {
                let mut sum = [0.0_f32; 3];
                let share = 1.0 / (BLOCK * BLOCK) as f32;
                for k in 0..BLOCK * BLOCK {
                    let here = features.pixel(BLOCK * x + k % BLOCK, BLOCK * y + k / BLOCK);
                    for (s, v) in sum.iter_mut().zip(here) {
                        *s += v * share;
                    }
                }
                let ([l, ..], [u, v]) = (sum, chromaticity(sum));
                values.push([l, u, v]);
            }
        }
        Self {
            width,
            height,
            values,
        }
    }

    /// One pixel; zeros outside.
    pub fn at(&self, x: usize, y: usize) -> [f32; 3] {
        if x >= self.width {
            return [0.0; 3];
        }
        self.values
            .get(y * self.width + x)
            .copied()
            .unwrap_or_default()
    }
}

/// Connected pixels of one chromaticity.
pub struct Patch {
    /// Pixel indices.
    pub pixels: Vec<u32>,
    /// The chromaticity.
    pub chroma: [f32; 2],
    /// Mean lightness.
    pub lightness: f32,
}

/// Patches of one chromaticity each, whatever their lightness does.
pub fn of_one_chroma(chroma: &Chroma) -> Vec<Patch> {
    let flat = flat(chroma);
    let mut out = Vec::new();
    for mode in modes(chroma, &flat) {
        let own: Vec<bool> = chroma
            .values
            .iter()
            .map(|[l, u, v]| {
                let (du, dv) = (u - mode[0], v - mode[1]);
                *l > DARK && du * du + dv * dv < STRAY * STRAY
            })
            .collect();
        out.extend(components(chroma, &own));
    }
    out
}

/// Patches that no border of lightness or colour crosses: single steps, cards beside a holder.
pub fn of_one_piece(chroma: &Chroma) -> Vec<Patch> {
    components(chroma, &smooth(chroma))
}

/// Connected places that are large enough.
fn components(chroma: &Chroma, own: &[bool]) -> Vec<Patch> {
    let (w, h) = (chroma.width, chroma.height);
    let all = (w * h) as f64;
    // Thin bridges are not followed: a pixel counts with most of its neighbours.
    let mut free = vec![false; w * h];
    // How many of three in a row, named after the first.
    let three = |w: &[bool]| w.iter().map(|b| u8::from(*b)).sum::<u8>();
    let counts: Vec<u8> = own.windows(3).map(three).collect();
    for y in 1..h.saturating_sub(1) {
        let row = |y: usize| counts.iter().skip(y * w);
        let near = row(y - 1).zip(row(y)).zip(row(y + 1));
        let inner = free.get_mut(y * w + 1..(y + 1) * w - 1);
        for (slot, ((a, b), c)) in inner.unwrap_or_default().iter_mut().zip(near) {
            *slot = a + b + c >= 7;
        }
    }
    let mut out = Vec::new();
    for start in 0..w * h {
        if free.get(start) != Some(&true) {
            continue;
        }
        let mut pixels = Vec::new();
        let mut stack = vec![start];
        if let Some(f) = free.get_mut(start) {
            *f = false;
        }
        while let Some(i) = stack.pop() {
            pixels.push(i as u32);
            for j in [i.wrapping_sub(1), i + 1, i.wrapping_sub(w), i + w] {
                if let Some(f) = free.get_mut(j)
                    && *f
                {
                    *f = false;
                    stack.push(j);
                }
            }
        }
        let share = pixels.len() as f64 / all;
        if (LEAST_SHARE..MOST_SHARE).contains(&share) {
            let count = pixels.len().max(1) as f32;
            let mut mean = [0.0_f32; 3];
            for value in pixels.iter().filter_map(|i| chroma.values.get(*i as usize)) {
                for (m, v) in mean.iter_mut().zip(value) {
                    *m += v / count;
                }
            }
            let [lightness, u, v] = mean;
            out.push(Patch {
                pixels,
                chroma: [u, v],
                lightness,
            });
        }
    }
    out
}

/// Lightness changes by less than this per two pixels, or by less than the noise does.
const SMOOTH: f32 = 0.035;

fn smooth(chroma: &Chroma) -> Vec<bool> {
    let (w, h) = (chroma.width, chroma.height);
    let mut change = vec![f32::INFINITY; w * h];
    for y in 1..h.saturating_sub(1) {
        for x in 1..w.saturating_sub(1) {
            let step = |a: [f32; 3], b: [f32; 3]| {
                // Colour as it is seen, not as a ratio: the dark is noisy.
                let colour = |k: usize| {
                    let at = |v: &[f32; 3]| v.get(k).copied().unwrap_or(0.0) * v[0];
                    (at(&a) - at(&b)).abs()
                };
                (a[0] - b[0])
                    .abs()
                    .max(0.7 * colour(1))
                    .max(0.7 * colour(2))
            };
            let across = step(chroma.at(x + 1, y), chroma.at(x - 1, y));
            let down = step(chroma.at(x, y + 1), chroma.at(x, y - 1));
            if let Some(c) = change.get_mut(y * w + x) {
                *c = across.max(down);
            }
        }
    }
    let mut sample: Vec<f32> = change
        .iter()
        .step_by(5)
        .copied()
        .filter(|c| c.is_finite())
        .collect();
    let noise = quantile(&mut sample, 0.3).unwrap_or(0.0);
    let limit = SMOOTH.max(3.0 * noise).min(0.08);
    // What is black is smooth too, and no step of a card is as black as an open mouth.
    let lit = chroma.values.iter().map(|[l, ..]| *l > DARK);
    change
        .into_iter()
        .zip(lit)
        .map(|(c, lit)| lit && c < limit)
        .collect()
}

fn flat(chroma: &Chroma) -> Vec<bool> {
    let (w, h) = (chroma.width, chroma.height);
    let mut out = vec![false; w * h];
    for y in 1..h.saturating_sub(1) {
        for x in 1..w.saturating_sub(1) {
            let [l, ..] = chroma.at(x, y);
            let step = |a: [f32; 3], b: [f32; 3]| (a[1] - b[1]).abs().max((a[2] - b[2]).abs());
            let change = step(chroma.at(x - 1, y), chroma.at(x + 1, y))
                .max(step(chroma.at(x, y - 1), chroma.at(x, y + 1)));
            if let Some(o) = out.get_mut(y * w + x) {
                *o = l > DARK && change < FLAT;
            }
        }
    }
    out
}

/// The commonest chromaticities of flat places.
fn modes(chroma: &Chroma, flat: &[bool]) -> Vec<[f32; 2]> {
    let scale = CELLS as f32 / (TO - FROM);
    let cell = |v: f32| (((v - FROM) * scale) as usize).min(CELLS - 1);
    let mut counts = vec![0_u32; CELLS * CELLS];
    for (value, _) in chroma.values.iter().zip(flat).filter(|(_, f)| **f) {
        let [_, u, v] = *value;
        if let Some(c) = counts.get_mut(cell(v) * CELLS + cell(u)) {
            *c += 1;
        }
    }
    let around = |i: usize| -> u32 {
        let (x, y) = (i % CELLS, i / CELLS);
        let near = |k: usize| k.saturating_sub(1)..=(k + 1).min(CELLS - 1);
        near(y)
            .flat_map(|v| near(x).map(move |u| v * CELLS + u))
            .filter_map(|j| counts.get(j))
            .sum()
    };
    let smooth: Vec<u32> = (0..counts.len()).map(around).collect();
    let least = (chroma.values.len() as f64 * LEAST_SHARE * 0.7) as u32;
    let place = |i: usize| [i % CELLS, i / CELLS].map(|k| FROM + (k as f32 + 0.5) / scale);
    let mut left = smooth;
    let mut kept: Vec<[f32; 2]> = Vec::new();
    // The commonest, then the commonest of what that one does not cover, and so on.
    while kept.len() < MOST_MODES {
        let top = left
            .iter()
            .enumerate()
            .max_by(|a, b| a.1.cmp(b.1).then(b.0.cmp(&a.0)));
        let Some((i, count)) = top else { break };
        if *count < least {
            break;
        }
        let mode = place(i);
        kept.push(mode);
        for (j, c) in left.iter_mut().enumerate() {
            let other = place(j);
            if libm::hypotf(other[0] - mode[0], other[1] - mode[1]) < 0.8 * STRAY {
                *c = 0;
            }
        }
    }
    kept
}
