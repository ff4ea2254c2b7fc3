//! Colours of the thirds of a region.

use super::outline::{area, contains, to_outline};
use super::{Region, ZoneTruth};
use crate::colour::{lab_from_xyz, white_d65};
use crate::world::World;
use crate::world::body::Body;
use rayon::prelude::*;
use std::collections::BTreeMap;

/// Share of √area that is left out along the outline.
pub const INSET: f64 = 0.08;
/// Samples per region; larger regions are sampled on a coarser pixel lattice.
const SAMPLES: f64 = 45_000.0;

/// 0, 1, 2 for a place on the axis, `None` beyond its ends.
pub fn zone_of(region: &Region, p: [f64; 2]) -> Option<usize> {
    let a = [
        region.incisal[0] - region.cervical[0],
        region.incisal[1] - region.cervical[1],
    ];
    let t = ((p[0] - region.cervical[0]) * a[0] + (p[1] - region.cervical[1]) * a[1])
        / (a[0] * a[0] + a[1] * a[1]);
    if !(0.0..=1.0).contains(&t) {
        return None;
    }
    Some(((t * 3.0) as usize).min(2))
}

/// Whole-numbered pixels of the zones (x, y, third), every `stride`-th.
pub fn zone_pixels(region: &Region, stride: usize) -> Vec<(i64, i64, usize)> {
    let p = &region.outline;
    let inset = INSET * area(p).abs().sqrt();
    let bound =
        |k: usize, f: fn(f64, f64) -> f64, start: f64| p.iter().map(|q| q[k]).fold(start, f);
    let (x0, x1) = (
        bound(0, f64::min, f64::INFINITY).ceil() as i64,
        bound(0, f64::max, f64::NEG_INFINITY).floor() as i64,
    );
    let (y0, y1) = (
        bound(1, f64::min, f64::INFINITY).ceil() as i64,
        bound(1, f64::max, f64::NEG_INFINITY).floor() as i64,
    );
    let rows: Vec<i64> = (y0..=y1).step_by(stride).collect();
    rows.par_iter()
        .flat_map_iter(|&y| {
            (x0..=x1).step_by(stride).filter_map(move |x| {
                let q = [x as f64, y as f64];
                let zone = zone_of(region, q)?;
                (contains(p, q) && to_outline(p, q) >= inset).then_some((x, y, zone))
            })
        })
        .collect()
}

/// The stride that keeps a region near [`SAMPLES`].
fn stride(outline: &[[f64; 2]]) -> usize {
    ((area(outline).abs() / SAMPLES).sqrt().ceil() as usize).max(1)
}

/// Truth of the thirds and of the whole.
pub fn zones(world: &World, body: &Body, region: &Region) -> BTreeMap<String, ZoneTruth> {
    let pixels = zone_pixels(region, stride(&region.outline));
    let seen: Vec<(usize, [f64; 3], [f64; 3])> = pixels
        .par_iter()
        .map(|&(x, y, zone)| {
            let [mx, my] = world.mm(x as f64, y as f64);
            let (face, shaded) = world.truth_at(body, mx as f32, my as f32);
            (zone, face, shaded)
        })
        .collect();
    let mut out = BTreeMap::new();
    for (k, name) in ["cervical", "middle", "incisal", "whole"]
        .iter()
        .enumerate()
    {
        let (mut n, mut face, mut shaded) = (0.0, [0.0; 3], [0.0; 3]);
        for (zone, f, s) in &seen {
            if k == 3 || *zone == k {
                n += 1.0;
                for i in 0..3 {
                    face[i] += f[i];
                    shaded[i] += s[i];
                }
            }
        }
        if n > 0.0 {
            let lab = |v: [f64; 3]| {
                lab_from_xyz(v.map(|c| c / n), white_d65()).map(|c| (c * 1e4).round() / 1e4)
            };
            out.insert(
                (*name).to_owned(),
                ZoneTruth {
                    lab: lab(face),
                    lab_shaded: lab(shaded),
                },
            );
        }
    }
    out
}

/// Mean face-on colour within an outline.
pub fn mean_lab(world: &World, body: &Body, outline: &[[f64; 2]]) -> [f64; 3] {
    let whole = Region {
        id: String::new(),
        kind: String::new(),
        name: String::new(),
        outline: outline.to_vec(),
        cervical: [0.0, -1e9],
        incisal: [0.0, 1e9],
        visible_share: 1.0,
    };
    let pixels = zone_pixels(&whole, stride(outline));
    let sum = pixels.iter().fold([0.0; 3], |mut s, &(x, y, _)| {
        let [mx, my] = world.mm(x as f64, y as f64);
        let (face, _) = world.truth_at(body, mx as f32, my as f32);
        (0..3).for_each(|i| s[i] += face[i]);
        s
    });
    lab_from_xyz(sum.map(|c| c / pixels.len().max(1) as f64), white_d65())
        .map(|c| (c * 1e4).round() / 1e4)
}
