//! Places worth looking at: middles of what is lighter and less red than what stands around it.
//!
//! Lightness minus redness is cut at several levels; at each level the places farthest from the
//! cut's edge are middles of blobs. A middle that comes back at many levels is a thing of its
//! own, whatever the exposure or the cast. Highlights do not disturb this (they lie above every
//! level that their tooth lies above), and a contact between two teeth parts them at the levels
//! between it and them.

use crate::colour::order::{quantile, sorted_by_key};
use crate::colour::root::hypot;
use crate::scene::grow::features::{Features, Padded};

/// Levels that the picture is cut at, and the same less its own surroundings.
const LEVELS: [usize; 2] = [9, 7];
const ALL: usize = LEVELS[0] + LEVELS[1];
/// How much of the surroundings is taken off, and how far they reach, in longest sides.
const OWN_SURROUNDINGS: f32 = 0.75;
const SURROUNDINGS: f64 = 0.09;
/// Least distance from a middle to its edge, in longest sides: smaller things are not crowns.
const LEAST_RADIUS: f64 = 0.011;
/// Largest one.
const MOST_RADIUS: f64 = 0.22;
/// Middles kept.
const MOST_SEEDS: usize = 84;

/// A middle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Seed {
    /// Place, in reduced pixels.
    pub at: [f64; 2],
    /// Distance to the nearest edge, in reduced pixels.
    pub radius: f64,
    /// Share of the levels at which it was seen.
    pub steadiness: f64,
}

/// A picture of one number per pixel, half as fine as the features.
struct Half {
    width: usize,
    height: usize,
    values: Vec<f32>,
}

/// The middles, the steadiest first.
pub fn seeds(features: &Features) -> Vec<Seed> {
    let half = solid(features);
    let local = less_surroundings(&half);
    let longest = half.width.max(half.height) as f64;
    let Some(cuts) = cuts(&half, &local) else {
        return Vec::new();
    };
    let distances = distances_to_edge(&half, &local, &cuts);
    let mut found: Vec<(Seed, f64)> = Vec::new();
    for peaks in peaks(&distances, half.width + 2, LEAST_RADIUS * longest) {
        at_level(middles(peaks), MOST_RADIUS * longest, &mut found);
    }
    let seeds: Vec<Seed> = found
        .into_iter()
        .map(|(s, count)| Seed {
            at: s.at.map(|v| 2.0 * v + 0.5),
            radius: 2.0 * s.radius,
            steadiness: count / ALL as f64,
        })
        .collect();
    let mut seeds = sorted_by_key(seeds, |s| -s.steadiness * s.radius.sqrt());
    seeds.truncate(MOST_SEEDS);
    seeds
}

/// The levels of both pictures, one after the other.
fn cuts(half: &Half, local: &Half) -> Option<[f32; ALL]> {
    let mut cuts = [0.0; ALL];
    let mut slots = cuts.iter_mut();
    for (picture, levels) in [half, local].into_iter().zip(LEVELS) {
        let mut sorted = picture.values.clone();
        let (low, high) = (quantile(&mut sorted, 0.05)?, quantile(&mut sorted, 0.985)?);
        for (level, slot) in (0..levels).zip(&mut slots) {
            *slot = low + (high - low) * (level as f32 + 1.0) / (levels as f32 + 1.0);
        }
    }
    Some(cuts)
}

/// Adds what is seen at one level; what was seen before is seen again.
fn at_level(middles: Vec<([f64; 2], f64)>, most: f64, found: &mut Vec<(Seed, f64)>) {
    for (at, radius) in middles {
        if radius > most {
            continue;
        }
        let same = found.iter_mut().find(|(s, _)| {
            let apart = hypot(s.at[0] - at[0], s.at[1] - at[1]);
            apart < 0.45 * radius && (0.72..1.4).contains(&(s.radius / radius))
        });
        match same {
            Some((seed, count)) => {
                // The mean of where it was seen.
                *count += 1.0;
                let w = 1.0 / *count;
                for (old, new) in seed.at.iter_mut().zip(at) {
                    *old += w * (new - *old);
                }
                seed.radius += w * (radius - seed.radius);
            }
            None => found.push((
                Seed {
                    at,
                    radius,
                    steadiness: 0.0,
                },
                1.0,
            )),
        }
    }
}

/// The picture less the mean of a square around each place: finds what is light only for where
/// it stands.
fn less_surroundings(half: &Half) -> Half {
    let (w, h) = (half.width, half.height);
    let reach = (SURROUNDINGS * w.max(h) as f64).max(4.0) as usize;
    // Sums over everything above and to the left.
    let wide = w + 1;
    let mut sums = vec![0.0_f64; wide * (h + 1)];
    for (y, values) in half.values.chunks_exact(w.max(1)).enumerate() {
        let (above, here) = sums.split_at_mut((y + 1) * wide);
        let above = above.iter().skip(y * wide + 1);
        let mut row = 0.0;
        for ((sum, above), value) in here.iter_mut().skip(1).zip(above).zip(values) {
            row += f64::from(*value);
            *sum = above + row;
        }
    }
    let mut values = Vec::with_capacity(w * h);
    for (y, own) in half.values.chunks_exact(w.max(1)).enumerate() {
        let (y0, y1) = (y.saturating_sub(reach), (y + reach + 1).min(h));
        let row = |y: usize| sums.get(y * wide..(y + 1) * wide).unwrap_or_default();
        let (high, low) = (row(y0), row(y1));
        for (x, own) in own.iter().enumerate() {
            let (x0, x1) = (x.saturating_sub(reach), (x + reach + 1).min(w));
            let count = ((x1 - x0) * (y1 - y0)) as f64;
            let at = |row: &[f64], x: usize| row.get(x).copied().unwrap_or(0.0);
            let mean = (at(low, x1) - at(low, x0) - at(high, x1) + at(high, x0)) / count;
            values.push(own - OWN_SURROUNDINGS * mean as f32);
        }
    }
    Half {
        width: w,
        height: h,
        values,
    }
}

/// Lightness minus redness, means of 2×2.
fn solid(features: &Features) -> Half {
    let (width, height) = (features.width() / 2, features.height() / 2);
    let mut values = Vec::with_capacity(width * height);
    let mut rows = features.rows();
    while let (Some(high), Some(low)) = (rows.next(), rows.next()) {
        let ((high, _), (low, _)) = (high.as_chunks::<2>(), low.as_chunks::<2>());
        values.extend(high.iter().zip(low).map(|([a, b], [c, d])| {
            let own = |p: &Padded| p[0] - p[1];
            (own(a) + own(b) + own(c) + own(d)) / 4.0
        }));
    }
    Half {
        width,
        height,
        values,
    }
}

/// Distances at every level.
type Levels = [u16; ALL];

/// The least of what lies near, straight ones 3 and slanted ones 4 farther.
#[inline]
#[allow(
    clippy::needless_range_loop,
    reason = "plain counted loops over arrays of one length become wide"
)]
fn nearest([straight, beside]: [&Levels; 2], slanted: [&Levels; 2], most: &Levels) -> Levels {
    let mut out = *most;
    for i in 0..ALL {
        let straight = straight[i].min(beside[i]) + 3;
        let slanted = slanted[0][i].min(slanted[1][i]) + 4;
        out[i] = out[i].min(straight).min(slanted);
    }
    out
}

/// Distance of every pixel above a cut to the nearest one below it or to the frame, in thirds
/// of a pixel (chamfer 3-4: G. Borgefors, Distance transformations in digital images, 1986), at
/// all levels side by side. One pixel of frame all round, at distance 0.
#[allow(
    clippy::needless_range_loop,
    reason = "plain counted loops over arrays of one length become wide"
)]
fn distances_to_edge(half: &Half, local: &Half, cuts: &[f32; ALL]) -> Vec<Levels> {
    let wide = half.width + 2;
    let mut d = vec![[0_u16; ALL]; wide * (half.height + 2)];
    let rows = half.values.chunks_exact(half.width.max(1));
    for (y, (own, local)) in rows
        .zip(local.values.chunks_exact(half.width.max(1)))
        .enumerate()
    {
        let (above, here) = d.split_at_mut((y + 1) * wide);
        let above = above.get(y * wide..).unwrap_or_default();
        let mut left = [0; ALL];
        let places = here.iter_mut().skip(1).zip(above.windows(3));
        for ((slot, near), (v, local)) in places.zip(own.iter().zip(local)) {
            let [a, b, c] = near else { continue };
            let mut most = [0; ALL];
            for i in 0..ALL {
                let value = if i < LEVELS[0] { v } else { local };
                most[i] = if *value > cuts[i] { u16::MAX - 8 } else { 0 };
            }
            left = nearest([b, &left], [a, c], &most);
            *slot = left;
        }
    }
    for y in (1..=half.height).rev() {
        let (here, below) = d.split_at_mut((y + 1) * wide);
        let here = here.get_mut(y * wide..).unwrap_or_default();
        let below = below.get(..wide).unwrap_or_default();
        let mut right = [0; ALL];
        let places = here.iter_mut().rev().skip(1).zip(below.windows(3).rev());
        for (slot, near) in places {
            let [a, b, c] = near else { continue };
            right = nearest([b, &right], [a, c], slot);
            *slot = right;
        }
    }
    d
}

/// A place and its distance to the edge, in thirds of a pixel.
type Peak = (u16, [f64; 2]);

/// Places no nearer to the edge than those around them, at every level.
#[allow(
    clippy::needless_range_loop,
    reason = "plain counted loops over arrays of one length become wide"
)]
fn peaks(distances: &[Levels], wide: usize, least: f64) -> [Vec<Peak>; ALL] {
    let least = (least * 3.0) as u16;
    let mut peaks = [const { Vec::new() }; ALL];
    // Neither the frame nor the pixels beside it.
    let (inner, height) = (wide.saturating_sub(4), distances.len() / wide.max(1));
    let rows = distances.chunks_exact(wide);
    let three = rows.clone().zip(rows.clone().skip(1)).zip(rows.skip(2));
    let three = three.enumerate().skip(1).take(height.saturating_sub(4));
    for (y, ((above, here), below)) in three {
        let windows = above.windows(3).zip(here.windows(3)).zip(below.windows(3));
        for (x, ((above, here), below)) in windows.enumerate().skip(1).take(inner) {
            let ([a, b, c], [left, own, right], [d, e, f]) = (above, here, below) else {
                continue;
            };
            let mut least = [least; ALL];
            let mut any = 0;
            for i in 0..ALL {
                let rim = a[i].max(b[i]).max(c[i]).max(d[i]).max(e[i]).max(f[i]);
                least[i] = rim.max(left[i]).max(right[i]).max(least[i]);
                any |= u16::from(own[i] >= least[i]);
            }
            if any != 0 {
                let levels = peaks.iter_mut().zip(own.iter().zip(least));
                for (peaks, (own, least)) in levels {
                    if *own >= least {
                        peaks.push((*own, [x as f64, y as f64]));
                    }
                }
            }
        }
    }
    peaks
}

/// Those farthest from the edge, one per blob or lobe of a blob.
fn middles(peaks: Vec<Peak>) -> Vec<([f64; 2], f64)> {
    let peaks = sorted_by_key(peaks, |p| -f64::from(p.0));
    let mut kept: Vec<([f64; 2], f64)> = Vec::new();
    for (d, at) in peaks {
        let radius = f64::from(d) / 3.0;
        let free = kept.iter().all(|(k, r)| {
            let apart = hypot(k[0] - at[0], k[1] - at[1]);
            apart > (0.85 * r).max(radius)
        });
        if free {
            kept.push((at, radius));
        }
        if kept.len() >= MOST_SEEDS {
            break;
        }
    }
    kept
}
