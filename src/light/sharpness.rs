//! How sharp the outlined things are: how many pixels an edge takes to rise from 10 % to 90 %.
//!
//! Profiles are taken across the outlines in √(linear luminance), where photon noise is even and
//! light and dark count alike. An edge blurred by a Gaussian of σ rises from 10 % to 90 % within
//! 2.563 σ, and its contrast over its steepest slope is √(2π) σ = 2.507 σ: the second stands for
//! the first. Contrast and slope are taken over spans that follow the width found, so that
//! shading beside an edge is left out and noise is averaged the more the softer the edge.
//! Teeth are round and gums soft, so not all edges are: the sharper ones of each direction tell.

use super::patch::luminance_weights;
use crate::colour::order::{median, quantile};
use crate::error::{CheckCode, LightCheck, Severity};
use crate::photo::{Photo, Sample};
use crate::scene::{Point, Polygon};

/// Places along an outline that are looked at.
const PLACES: usize = 56;
/// Outlines that are looked at; of more, some are left out evenly.
const ENOUGH_OUTLINES: usize = 8;
/// An edge is sought this share of the region's width to either side of the outline.
const SEARCH_SHARE: f64 = 0.08;
/// Half the length of a profile, as a share of the region's width.
const REACH_SHARE: f64 = 0.24;
/// Samples of a profile.
const PROFILE: usize = 81;
/// Parallel profiles that are averaged, one pixel apart.
const LINES: usize = 3;
/// Contrast an edge needs in √luminance, and in standard deviations of the noise.
const MIN_CONTRAST: f32 = 0.07;
const MIN_CONTRAST_IN_NOISE: f32 = 15.0;
/// Edges a direction needs.
const MIN_EDGES: usize = 6;
/// Rank of the edge that stands for its direction.
const SHARPER: f32 = 0.45;
/// Rise as a share of the width from which blur is spoken of, and from which neighbouring
/// zones, and glare and enamel, mix.
const CARE_SHARE: f64 = 0.035;
const RETAKE_SHARE: f64 = 0.06;
/// Edges that rise within this many pixels are as sharp as pixels let them be.
const SHARP_PX: f64 = 3.0;
const HALF_ROOT_3: f64 = 0.866_025_403_784;
/// A shake blurs one direction this much more than the one across.
const SHAKE_RATIO: f64 = 1.8;

/// Sharpness of the outlined things.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sharpness {
    /// Rise of edges from 10 % to 90 % in the softest direction, in pixels.
    pub rise_px: f64,
    /// `rise_px` as a share of the width of the regions.
    pub share_of_width: f64,
    /// Largest ratio between the rises of two directions at right angles; 1 when too few edges
    /// lie so.
    pub unlikeness: f64,
    /// Edges measured.
    pub edges: usize,
}

/// Measures the edges of `regions`. `None` when too few are clear enough to tell.
pub fn measure_sharpness(photo: &Photo, regions: &[Polygon]) -> Option<Sharpness> {
    let weights = luminance_weights(photo);
    let level = |x: f64, y: f64| level(photo, weights, x, y);
    let mut widths: Vec<f32> = Vec::new();
    // Direction of the normal as (cos 2θ, sin 2θ), rise in pixels.
    let mut edges: Vec<([f64; 2], f32)> = Vec::new();
    for region in regions.iter().step_by(regions.len() / ENOUGH_OUTLINES + 1) {
        let [ax, ay] = region.major_axis();
        let [low, high] = region.extent_along([-ay, ax]);
        let width = high - low;
        widths.push(width as f32);
        let places: Vec<_> = along(region)
            .into_iter()
            .filter_map(|(at, normal)| Some((at, normal, steepness(&level, at, normal, width)?)))
            .collect();
        for upright in [false, true] {
            // The clearest of each half of the directions.
            let half = || {
                places
                    .iter()
                    .filter(|(_, [nx, ny], _)| (nx.abs() < ny.abs()) == upright)
            };
            let mut steepnesses: Vec<f32> = half().map(|p| p.2).collect();
            let least = quantile(&mut steepnesses, 0.7).unwrap_or(f32::MAX);
            for (at, [nx, ny], _) in half().filter(|p| p.2 >= least) {
                if let Some(rise) = rise(&level, *at, [*nx, *ny], width) {
                    edges.push(([nx * nx - ny * ny, 2.0 * nx * ny], rise));
                }
            }
        }
    }
    // Normals within 20° of 0, 30, … 150 degrees; three further on is at right angles.
    let rises = [
        [1.0, 0.0],
        [0.5, HALF_ROOT_3],
        [-0.5, HALF_ROOT_3],
        [-1.0, 0.0],
        [-0.5, -HALF_ROOT_3],
        [0.5, -HALF_ROOT_3],
    ]
    .map(|[c, s]| {
        let mut near: Vec<f32> = edges
            .iter()
            .filter(|([ec, es], _)| c * ec + s * es > 0.766)
            .map(|(_, rise)| *rise)
            .collect();
        let enough = near.len() >= MIN_EDGES;
        quantile(&mut near, SHARPER)
            .filter(|_| enough)
            .map_or(0.0, f64::from)
    });
    let rise_px = rises.iter().copied().fold(0.0, f64::max);
    let unlikeness = rises
        .iter()
        .zip(rises.iter().cycle().skip(3))
        .filter(|(_, across)| **across > 0.0)
        .map(|(along, across)| along / across)
        .fold(1.0, f64::max);
    (rise_px > 0.0).then_some(Sharpness {
        rise_px,
        share_of_width: rise_px / f64::from(median(&mut widths)?).max(1.0),
        unlikeness,
        edges: edges.len(),
    })
}

/// What the sharpness means for a reading.
pub fn check_sharpness(sharpness: &Sharpness) -> Option<LightCheck> {
    if sharpness.share_of_width < CARE_SHARE || sharpness.rise_px < SHARP_PX {
        return None;
    }
    let (what, remedy) = if sharpness.unlikeness > SHAKE_RATIO {
        (
            "shaken",
            "Take the photo again with the camera steadied, a shorter exposure or a flash.",
        )
    } else {
        (
            "out of focus",
            "Take the photo again with the focus on the teeth, and not nearer than the lens allows.",
        )
    };
    let (severity, meaning) = if sharpness.share_of_width > RETAKE_SHARE {
        (
            Severity::Retake,
            "zones, and glare and enamel, run into each other",
        )
    } else {
        (Severity::Care, "fine detail is lost")
    };
    Some(LightCheck::new(
        CheckCode::Blur,
        severity,
        format!(
            "The photo is {what}: edges are {:.0} pixels wide, {:.1} % of a region's width, so that {meaning}.",
            sharpness.rise_px,
            100.0 * sharpness.share_of_width
        ),
        remedy,
    ))
}

/// Evenly spaced places on an outline, each with its normal (a unit vector).
fn along(polygon: &Polygon) -> Vec<(Point, [f64; 2])> {
    let round: f64 = polygon.edges().map(|(a, b)| a.distance_px(&b)).sum();
    let step = round / PLACES as f64;
    let mut points = Vec::with_capacity(PLACES);
    let (mut walked, mut next) = (0.0, 0.0);
    for (a, b) in polygon.edges() {
        let length = a.distance_px(&b);
        while next < walked + length && points.len() < PLACES {
            let t = (next - walked) / length;
            points.push(Point::new(
                a.x() + t * (b.x() - a.x()),
                a.y() + t * (b.y() - a.y()),
            ));
            next += step;
        }
        walked += length;
    }
    // Over two steps, so that a jagged outline does not turn the normal.
    let ends = || points.iter().cycle();
    points
        .iter()
        .zip(ends().skip(points.len().saturating_sub(1)))
        .zip(ends().skip(1))
        .filter_map(|((at, before), after)| {
            let length = before.distance_px(after);
            let normal = [
                (after.y() - before.y()) / length,
                (before.x() - after.x()) / length,
            ];
            // At a corner (of a card) there is no edge to measure.
            let bent = before.distance_px(at) + at.distance_px(after) > 1.05 * length;
            (length > 0.0 && !bent).then_some((*at, normal))
        })
        .collect()
}

/// √luminance at a place between pixels; `None` outside the photo.
fn level(photo: &Photo, [wr, wg, wb]: [f32; 3], x: f64, y: f64) -> Option<f32> {
    if !(x >= 0.0 && y >= 0.0) {
        return None;
    }
    let (column, row) = (x as u32, y as u32);
    let (u, v) = ((x - f64::from(column)) as f32, (y - f64::from(row)) as f32);
    let line = |row| {
        let mut two = [Sample::default(); 2];
        photo.read_row(column, row, &mut two)?;
        let [a, b] = two.map(|s| {
            let [r, g, b] = s.linear_rgb;
            (wr * r + wg * g + wb * b).max(0.0).sqrt()
        });
        Some(a + u * (b - a))
    };
    let (above, below) = (line(row)?, line(row + 1)?);
    Some(above + v * (below - above))
}

/// The largest step along a coarse profile.
fn steepness(
    level: &impl Fn(f64, f64) -> Option<f32>,
    at: Point,
    [nx, ny]: [f64; 2],
    width: f64,
) -> Option<f32> {
    let step = (0.03 * width).max(1.0);
    let mut last: Option<f32> = None;
    let mut most = 0.0_f32;
    for i in -4..=4 {
        let d = f64::from(i) * step;
        let here = level(at.x() + d * nx, at.y() + d * ny)?;
        most = most.max((here - last.unwrap_or(here)).abs());
        last = Some(here);
    }
    Some(most)
}

/// The rise, in pixels, of the steepest edge near a place of an outline.
fn rise(
    level: &impl Fn(f64, f64) -> Option<f32>,
    at: Point,
    [nx, ny]: [f64; 2],
    width: f64,
) -> Option<f32> {
    let middle = (PROFILE / 2) as f64;
    let reach = (REACH_SHARE * width).max(8.0);
    let step = reach / middle;
    // Running sums of the profile, and of its squared second differences for the noise.
    let mut sums = [0.0_f32; PROFILE + 1];
    let mut profile = [0.0_f32; PROFILE];
    for (i, value) in profile.iter_mut().enumerate() {
        let along = (i as f64 - middle) * step;
        for line in 0..LINES {
            let aside = line as f64 - (LINES / 2) as f64;
            *value += level(
                at.x() + along * nx - aside * ny,
                at.y() + along * ny + aside * nx,
            )? / LINES as f32;
        }
    }
    let mut sum = 0.0;
    for (to, value) in sums.iter_mut().skip(1).zip(&profile) {
        sum += value;
        *to = sum;
    }
    let mut bends: Vec<f32> = profile
        .windows(5)
        .filter_map(|w| w.as_array::<5>())
        .map(|[a, _, b, _, c]| (a - 2.0 * b + c).abs())
        .collect();
    // Of a normal spread: σ of (1, −2, 1) is √6 σ.
    let noise = median(&mut bends)? * 1.4826 / 2.449;
    // Mean of the profile between two distances (in samples) from its start.
    let mean = |from: f64, to: f64| -> Option<f32> {
        let (a, b) = (from.round().max(0.0) as usize, to.round().max(0.0) as usize);
        let b = b.max(a + 1);
        Some((sums.get(b)? - sums.get(a)?) / (b - a) as f32)
    };
    let search = (SEARCH_SHARE * width).max(3.0) / step;
    let mut rise = middle / 2.0;
    let mut contrast = 0.0;
    for _ in 0..6 {
        // The slope over half the width, from means of a quarter each side.
        let half = (rise / 4.0).max(0.5 / step).max(1.0);
        let (mut steepest, mut centre) = (0.0_f32, middle);
        let mut c = middle - search;
        while c <= middle + search {
            if let Some((a, b)) = mean(c - half, c).zip(mean(c, c + half))
                && (b - a).abs() > steepest
            {
                (steepest, centre) = ((b - a).abs(), c);
            }
            c += 1.0;
        }
        let slope = f64::from(steepest) / half;
        let side = (0.5 * rise).max(1.0);
        let far = (rise).max(half);
        let (a, b) =
            mean(centre - far - side, centre - far).zip(mean(centre + far, centre + far + side))?;
        contrast = (b - a).abs();
        rise = (f64::from(contrast) / slope.max(1e-6)).clamp(0.5, middle / 1.6);
    }
    (contrast > MIN_CONTRAST.max(MIN_CONTRAST_IN_NOISE * noise)).then_some((rise * step) as f32)
}

#[cfg(test)]
mod tests;
