//! Places worth looking at: middles of what is lighter and less red than what stands around it.
//!
//! Lightness minus redness is cut at several levels; at each level the places farthest from the
//! cut's edge are middles of blobs. A middle that comes back at many levels is a thing of its
//! own, whatever the exposure or the cast. Highlights do not disturb this (they lie above every
//! level that their tooth lies above), and a contact between two teeth parts them at the levels
//! between it and them.

use crate::colour::order::{quantile, sorted_by_key};
use crate::scene::grow::features::Features;

/// Levels that the picture is cut at, and the same less its own surroundings.
const LEVELS: [usize; 2] = [9, 7];
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
    let mut found: Vec<(Seed, f64)> = Vec::new();
    for (picture, levels) in [&half, &local].into_iter().zip(LEVELS) {
        at_levels(picture, levels, &mut found);
    }
    let all = LEVELS.iter().sum::<usize>() as f64;
    let seeds: Vec<Seed> = found
        .into_iter()
        .map(|(s, count)| Seed {
            at: s.at.map(|v| 2.0 * v + 0.5),
            radius: 2.0 * s.radius,
            steadiness: count / all,
        })
        .collect();
    let mut seeds = sorted_by_key(seeds, |s| -s.steadiness * s.radius.sqrt());
    seeds.truncate(MOST_SEEDS);
    seeds
}

/// Adds what is seen at the levels of one picture; what was seen before is seen again.
fn at_levels(picture: &Half, levels: usize, found: &mut Vec<(Seed, f64)>) {
    let mut sorted = picture.values.clone();
    let (Some(low), Some(high)) = (quantile(&mut sorted, 0.05), quantile(&mut sorted, 0.985))
    else {
        return;
    };
    let longest = picture.width.max(picture.height) as f64;
    for level in 0..levels {
        let cut = low + (high - low) * (level as f32 + 1.0) / (levels as f32 + 1.0);
        let distances = distances_to_edge(picture, cut);
        for (at, radius) in middles(picture, &distances, LEAST_RADIUS * longest) {
            if radius > MOST_RADIUS * longest {
                continue;
            }
            let same = found.iter_mut().find(|(s, _)| {
                let apart = libm::hypot(s.at[0] - at[0], s.at[1] - at[1]);
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
}

/// The picture less the mean of a square around each place: finds what is light only for where
/// it stands.
fn less_surroundings(half: &Half) -> Half {
    let (w, h) = (half.width, half.height);
    let reach = (SURROUNDINGS * w.max(h) as f64).max(4.0) as usize;
    // Sums over everything above and to the left.
    let wide = w + 1;
    let mut sums = vec![0.0_f64; wide * (h + 1)];
    for y in 0..h {
        let mut row = 0.0;
        for x in 0..w {
            row += f64::from(half.values.get(y * w + x).copied().unwrap_or(0.0));
            let above = sums.get(y * wide + x + 1).copied().unwrap_or(0.0);
            if let Some(s) = sums.get_mut((y + 1) * wide + x + 1) {
                *s = above + row;
            }
        }
    }
    let sum = |x: usize, y: usize| sums.get(y * wide + x).copied().unwrap_or(0.0);
    let mut values = Vec::with_capacity(w * h);
    for y in 0..h {
        let (y0, y1) = (y.saturating_sub(reach), (y + reach + 1).min(h));
        for x in 0..w {
            let (x0, x1) = (x.saturating_sub(reach), (x + reach + 1).min(w));
            let count = ((x1 - x0) * (y1 - y0)) as f64;
            let mean = (sum(x1, y1) - sum(x0, y1) - sum(x1, y0) + sum(x0, y0)) / count;
            let own = half.values.get(y * w + x).copied().unwrap_or(0.0);
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
    for y in 0..height {
        for x in 0..width {
            let sum: f32 = [(0, 0), (1, 0), (0, 1), (1, 1)]
                .into_iter()
                .map(|(dx, dy)| {
                    let [l, a, _] = features.pixel(2 * x + dx, 2 * y + dy);
                    l - a
                })
                .sum();
            values.push(sum / 4.0);
        }
    }
    Half {
        width,
        height,
        values,
    }
}

/// Distance of every pixel above the cut to the nearest one below it or to the frame, in thirds
/// of a pixel (chamfer 3-4: G. Borgefors, Distance transformations in digital images, 1986).
fn distances_to_edge(half: &Half, cut: f32) -> Vec<u16> {
    let (w, h) = (half.width, half.height);
    // One pixel of frame all round, at distance 0.
    let wide = w + 2;
    let mut d = vec![0_u16; wide * (h + 2)];
    for (row, values) in d
        .chunks_exact_mut(wide)
        .skip(1)
        .zip(half.values.chunks_exact(w.max(1)))
    {
        for (out, v) in row.iter_mut().skip(1).zip(values) {
            *out = if *v > cut { u16::MAX - 8 } else { 0 };
        }
    }
    let pass = |d: &mut [u16], order: &mut dyn Iterator<Item = usize>, sign: isize| {
        let near: [(isize, u16); 4] = [
            (-1, 3),
            (-(wide as isize), 3),
            (-(wide as isize) - 1, 4),
            (-(wide as isize) + 1, 4),
        ];
        for i in order {
            let Some(&here) = d.get(i) else { continue };
            if here == 0 {
                continue;
            }
            let mut best = here;
            for (offset, cost) in near {
                let j = i.wrapping_add_signed(sign * offset);
                best = best.min(d.get(j).map_or(0, |v| *v).saturating_add(cost));
            }
            if let Some(slot) = d.get_mut(i) {
                *slot = best;
            }
        }
    };
    let first = wide + 1;
    let last = wide * (h + 1) - 1;
    pass(&mut d, &mut (first..last), 1);
    pass(&mut d, &mut (first..last).rev(), -1);
    let mut out = Vec::with_capacity(w * h);
    for row in d.chunks_exact(wide).skip(1).take(h) {
        out.extend(row.iter().skip(1).take(w));
    }
    out
}

/// Places farthest from the edge, one per blob or lobe of a blob.
fn middles(half: &Half, distances: &[u16], least: f64) -> Vec<([f64; 2], f64)> {
    let w = half.width;
    let least = (least * 3.0) as u16;
    let mut peaks: Vec<(u16, usize)> = Vec::new();
    for y in 1..half.height.saturating_sub(1) {
        for x in 1..w.saturating_sub(1) {
            let i = y * w + x;
            let Some(&here) = distances.get(i) else {
                continue;
            };
            if here < least {
                continue;
            }
            let is_peak = [
                i - 1,
                i + 1,
                i - w,
                i + w,
                i - w - 1,
                i - w + 1,
                i + w - 1,
                i + w + 1,
            ]
            .iter()
            .all(|j| distances.get(*j).is_none_or(|v| *v <= here));
            if is_peak {
                peaks.push((here, i));
            }
        }
    }
    let peaks = sorted_by_key(peaks, |p| -f64::from(p.0));
    let mut kept: Vec<([f64; 2], f64)> = Vec::new();
    for (d, i) in peaks {
        let at = [(i % w) as f64, (i / w) as f64];
        let radius = f64::from(d) / 3.0;
        let free = kept.iter().all(|(k, r)| {
            let apart = libm::hypot(k[0] - at[0], k[1] - at[1]);
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
