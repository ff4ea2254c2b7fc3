//! What a region's own form and surface do to the light it returns: sheen and shading.
//!
//! Two facts separate them from the enamel's colour.
//!
//! * Sheen has the colour of the light, so after balancing it adds the same to every channel,
//!   and the difference between yellow and blue, D = (R + G)/2 − B, does not see it. Across a
//!   third of a tooth the enamel's own Y/D hardly changes; where Y/D rises above its low values,
//!   sheen lies on it. (The dichromatic reflection model, S. A. Shafer, Color Res. Appl. 10
//!   (1985) 210–218.)
//! * A crown is curved like a barrel. Across its axis the logarithm of the light it returns is
//!   a parabola whose peak lies where the surface faces the light, however the tooth is turned:
//!   ln n·E ≈ −(κu + θ)²/2 + e(κu + θ) has its highest value e²/2 whatever θ. So the mean of a
//!   third is set against the peak. D is used here too, so that highlights do not count.
//!
//! Along the axis the enamel's own colour changes, so the slope there cannot be read from one
//! tooth; each third gets what crowns usually have, and how much it looks up or down (`tilt`),
//! which the light model turns into shading once it knows how far from above the light comes.

use super::smooth::{TERMS, fit_surface, terms};
use super::statistics::{Cell, RegionStatistics};
use crate::colour::Vec3;
use crate::colour::order::{median, quantile};
use crate::light::Correction;
use crate::light::model::Seen;
use crate::scene::{Axis, Zone};
use nalgebra::SVector;

/// Pixels a cell needs to count.
const CELL_MIN_PIXELS: u32 = 20;
/// What inner cells should hold, so that those at the outline count as well.
const CELL_ENOUGH_PIXELS: u32 = 2 * CELL_MIN_PIXELS;
/// Cells a third needs for its sheen.
const ZONE_MIN_CELLS: usize = 6;
/// Rank of Y/D among the cells of a third that is taken for enamel without sheen.
const CLEAN_SHARE: f32 = 0.3;
/// Sheen that lies on everything, those cells too; of a perfect diffuser's light.
const BASE_SHEEN: f64 = 0.005;
/// Under this D/Y a surface is too grey for its sheen to be told from its own light.
const GREY: f64 = 0.08;
/// Fall of the parabola to the sides, ln, at the widest place: that of usual crowns. Its own
/// fit is too uncertain to be better than that.
const CURVATURE: f64 = -0.17;
/// A tooth turned away is set back in the arch as well and gets less light, by slope and its
/// square.
const TURNED: [f64; 2] = [-0.3, -0.3];
/// Mean shading of the thirds along the axis, ln, beside what is read across it.
const ALONG: [f64; 3] = [-0.02, 0.0135, 0.016];
/// How much each third of a crown looks toward its cervical side, relative to the cervical one.
const LOOKS_UP: [f64; 3] = [1.0, 0.28, -0.44];
/// Standard uncertainty of the shading, ln.
pub const SHADING_UNCERTAINTY: f64 = 0.016;
/// Standard uncertainty of the sheen where it is found, and where it is not.
const SHEEN_UNCERTAINTY: f64 = 0.006;
const SHEEN_UNKNOWN: f64 = 0.015;

/// One third, freed from sheen and shading.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ZoneForm {
    /// Ready for the light model.
    pub seen: Seen,
    /// Sheen taken out, of a perfect diffuser's light.
    pub sheen: f64,
    /// Its standard uncertainty.
    pub sheen_uncertainty: f64,
    /// Shading taken out, ln.
    pub shading_log: f64,
}

/// A region's thirds.
#[derive(Debug, Clone, PartialEq)]
pub struct Form {
    /// Cervical, middle, incisal; missing where too few pixels are usable.
    pub zones: [Option<ZoneForm>; 3],
}

/// What lies on a surface beside its own colour.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Sheen {
    /// To be found from this photo.
    Find,
    /// None: crossed polarisers.
    None,
    /// Known for each third from the pair.
    Known([Option<f64>; 3]),
}

struct Balanced {
    along: f64,
    across: f64,
    weight: f64,
    luminance: f64,
    yellow: f64,
}

impl Form {
    /// Reads the form of a region.
    pub fn of(
        statistics: &RegionStatistics,
        correction: &Correction,
        axis: &Axis,
        sheen: Sheen,
    ) -> Self {
        let cells: Vec<Balanced> = statistics
            .cells_of(axis, CELL_ENOUGH_PIXELS)
            .iter()
            .filter_map(|cell| balanced(cell, correction))
            .collect();
        let profile = profile(&cells);
        let [_, _, up] = axis.along();
        // Downward along the axis in the picture: the cervical end looks up.
        let downward = up * axis.length_px();
        let place_at = |t: f64| {
            let (a, b) = (axis.cervical, axis.incisal);
            [a.x() + t * (b.x() - a.x()), a.y() + t * (b.y() - a.y())]
        };
        let mut zones = [None; 3];
        for (i, (zone, out)) in Zone::THIRDS.into_iter().zip(&mut zones).enumerate() {
            let middle = axis.middle_of_third(i);
            let third: Vec<&Balanced> = cells
                .iter()
                .filter(|c| axis.third_at(c.along) == zone)
                .collect();
            let Some(mean) = statistics.zone(zone).mean() else {
                continue;
            };
            let mean = correction.balanced(mean);
            let (sheen, sheen_uncertainty) = match sheen {
                Sheen::None => (0.0, 0.0),
                Sheen::Known(known) => match known.get(i).copied().flatten() {
                    Some(s) => (s, SHEEN_UNCERTAINTY / 2.0),
                    None => (0.0, SHEEN_UNKNOWN),
                },
                Sheen::Find => find_sheen(&third),
            };
            let at = |table: [f64; 3]| table.get(i).copied().unwrap_or(0.0);
            let shading_log = shading(&third, profile, middle) + at(ALONG);
            // Never more than most of the light.
            let darkest = mean.into_iter().fold(f64::INFINITY, f64::min);
            let sheen = sheen.clamp(-0.02, (0.7 * darkest).max(0.0));
            let bright = libm::exp(-shading_log);
            *out = Some(ZoneForm {
                seen: Seen {
                    linear_rgb: mean.map(|v| (v - sheen) * bright),
                    place: place_at(middle),
                    tilt: at(LOOKS_UP) * downward,
                },
                sheen,
                sheen_uncertainty,
                shading_log,
            });
        }
        Self { zones }
    }

    /// The third's form for any place along the axis (0–1), between the middles of the thirds.
    pub fn at(&self, along: f64) -> Option<ZoneForm> {
        let v = (along * 3.0 - 0.5).clamp(0.0, 2.0);
        let i = (v as usize).min(1);
        let (a, b) = (self.zones.get(i)?, self.zones.get(i + 1)?);
        let (Some(a), Some(b)) = (a, b) else {
            return (*a).or(*b);
        };
        let t = v - i as f64;
        let mix = |x: f64, y: f64| x + t * (y - x);
        Some(ZoneForm {
            seen: Seen {
                linear_rgb: a.seen.linear_rgb,
                place: [
                    mix(a.seen.place[0], b.seen.place[0]),
                    mix(a.seen.place[1], b.seen.place[1]),
                ],
                tilt: mix(a.seen.tilt, b.seen.tilt),
            },
            sheen: mix(a.sheen, b.sheen),
            sheen_uncertainty: mix(a.sheen_uncertainty, b.sheen_uncertainty),
            shading_log: mix(a.shading_log, b.shading_log),
        })
    }

    /// Mean linear RGB in the photo's light, freed from what the form does at that place.
    pub fn free(&self, mean: Vec3, correction: &Correction, along: f64) -> Option<Seen> {
        let form = self.at(along)?;
        let mean = correction.balanced(mean);
        let bright = libm::exp(-form.shading_log);
        Some(Seen {
            linear_rgb: mean.map(|v| ((v - form.sheen) * bright).max(1e-4)),
            ..form.seen
        })
    }

    /// The thirds taken together, weighted by their pixels: for tabs known as a whole.
    pub fn whole(&self, statistics: &RegionStatistics) -> Option<Seen> {
        let mut sum = [0.0; 6];
        let mut weights = 0.0;
        for (zone, form) in Zone::THIRDS.into_iter().zip(&self.zones) {
            let Some(form) = form else { continue };
            let sums = statistics.zone(zone);
            let weight = f64::from(sums.used) + f64::from(sums.dropped);
            let ([r, g, b], [x, y]) = (form.seen.linear_rgb, form.seen.place);
            for (s, v) in sum.iter_mut().zip([r, g, b, x, y, form.seen.tilt]) {
                *s += weight * v;
            }
            weights += weight;
        }
        (weights > 0.0).then(|| {
            let [r, g, b, x, y, tilt] = sum.map(|s| s / weights);
            Seen {
                linear_rgb: [r, g, b],
                place: [x, y],
                tilt,
            }
        })
    }
}

fn balanced(cell: &Cell, correction: &Correction) -> Option<Balanced> {
    if cell.sums.used < CELL_MIN_PIXELS {
        return None;
    }
    let rgb: Vec3 = correction.balanced(cell.sums.mean()?);
    let [r, g, b] = rgb;
    let luminance = correction.luminance(rgb);
    (luminance > 1e-4).then_some(Balanced {
        along: cell.along,
        across: cell.across,
        weight: f64::from(cell.sums.used),
        luminance,
        yellow: (0.5 * (r + g) - b).max(0.02 * luminance),
    })
}

/// Coefficients of ln D over the region: what it does across the axis.
fn profile(cells: &[Balanced]) -> Option<SVector<f64, TERMS>> {
    let mut weights: Vec<f64> = cells.iter().map(|c| c.weight).collect();
    let mut found = None;
    // Reweighted so that stains and spots do not pull.
    for _ in 0..4 {
        let points = cells.iter().zip(&weights).map(|(c, w)| {
            let value = libm::log(c.yellow) - CURVATURE * c.across * c.across;
            (terms(c.along, c.across), [value, 0.0, 0.0], *w)
        });
        let fit = fit_surface(points)?.column(0).into_owned();
        let off = |c: &Balanced| {
            let value = libm::log(c.yellow) - CURVATURE * c.across * c.across;
            value - terms(c.along, c.across).dot(&fit)
        };
        let mut sizes: Vec<f32> = cells.iter().map(|c| off(c).abs() as f32).collect();
        let sigma = 1.4826 * f64::from(median(&mut sizes)?) + 1e-3;
        for (w, c) in weights.iter_mut().zip(cells) {
            let e = off(c) / (2.0 * sigma);
            *w = c.weight / (1.0 + e * e);
        }
        found = Some(fit);
    }
    found
}

/// ln of the third's mean light against what it would be where it faces the light.
fn shading(third: &[&Balanced], profile: Option<SVector<f64, TERMS>>, middle: f64) -> f64 {
    let slope = profile.map_or(0.0, |p| {
        let at = |i: usize| p.get(i).copied().unwrap_or(0.0);
        // Terms 4 and 6: across, and its twist along the axis.
        at(4) + at(6) * (2.0 * middle - 1.0)
    });
    let peak = (-slope / (2.0 * CURVATURE)).clamp(-1.0, 1.0);
    let line = |u: f64| slope * u + CURVATURE * u * u;
    let weights: f64 = third.iter().map(|c| c.weight).sum();
    if weights <= 0.0 {
        return line(0.0) - line(peak);
    }
    let mean: f64 = third.iter().map(|c| c.weight * line(c.across)).sum::<f64>() / weights;
    let [by_slope, by_square] = TURNED;
    let turned = slope.abs().min(0.5);
    mean - line(peak) + by_slope * turned + by_square * turned * turned
}

/// Sheen on a third and its standard uncertainty.
fn find_sheen(third: &[&Balanced]) -> (f64, f64) {
    let weights: f64 = third.iter().map(|c| c.weight).sum();
    let mean = |f: &dyn Fn(&Balanced) -> f64| {
        third.iter().map(|c| c.weight * f(c)).sum::<f64>() / weights.max(1e-9)
    };
    let grey = mean(&|c| c.yellow) < GREY * mean(&|c| c.luminance);
    if third.len() < ZONE_MIN_CELLS || grey {
        return (BASE_SHEEN, SHEEN_UNKNOWN);
    }
    let ratio = |c: &Balanced| c.luminance / c.yellow;
    // The enamel's own Y/D runs along the axis: its line is taken out first.
    let (mt, mq) = (mean(&|c| c.along), mean(&ratio));
    let (mut covariance, mut variance) = (0.0, 1e-9);
    for c in third {
        covariance += c.weight * (c.along - mt) * (ratio(c) - mq);
        variance += c.weight * (c.along - mt) * (c.along - mt);
    }
    let level = |c: &Balanced| ratio(c) - mq - covariance / variance * (c.along - mt);
    let mut levels: Vec<f32> = third.iter().map(|c| level(c) as f32).collect();
    let clean = f64::from(quantile(&mut levels, CLEAN_SHARE).unwrap_or(0.0));
    let found = mean(&|c| (level(c) - clean) * c.yellow);
    (1.1 * found.max(0.0) + BASE_SHEEN, SHEEN_UNCERTAINTY)
}
