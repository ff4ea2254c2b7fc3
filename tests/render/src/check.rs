//! How well the card alone explains a picture: plain von Kries scaling of linear RGB on the card,
//! then the zones' mean CIELAB against the truth. A yardstick for scenes, not a reader.

use crate::camera::xyz_from_space;
use crate::colour::{apply, delta_e_00, inverse, lab_from_xyz, xyz_from_lab};
use crate::develop::{Picture, decode};
use crate::spec::SceneSpec;
use crate::truth::{Region, SceneTruth, ZoneTruth, zone_pixels};
use std::collections::BTreeMap;

/// One zone's error.
#[derive(Debug, Clone)]
pub struct Miss {
    /// Region.
    pub region: String,
    /// Zone.
    pub zone: &'static str,
    /// ΔE00 from `lab`.
    pub from_lab: f64,
    /// ΔE00 from `lab_shaded`.
    pub from_shaded: f64,
    /// What was read.
    pub read: [f64; 3],
    /// Truth.
    pub lab: [f64; 3],
}

/// Share above the median brightness from which a pixel counts as mirrored light.
pub const GLARE: f64 = 0.10;

/// All zones of all regions from upright encoded pixels; pixels brighter than the zone's median by
/// the share `glare` are dropped.
pub fn by_card(
    spec: &SceneSpec,
    scene: &SceneTruth,
    zones: &BTreeMap<String, BTreeMap<String, ZoneTruth>>,
    picture: &Picture,
    glare: f64,
) -> Vec<Miss> {
    let space = spec.output.space;
    let linear = |x: i64, y: i64| -> Option<[f64; 3]> {
        let p = picture
            .rgb
            .get(usize::try_from(y).ok()? * picture.w + usize::try_from(x).ok()?)?;
        // Blown or crushed numbers say nothing.
        if p.iter().any(|v| *v > 0.985) {
            return None;
        }
        Some(p.map(|v| decode(space, f64::from(v))))
    };
    let mean = |list: &[[f64; 3]]| {
        let n = list.len().max(1) as f64;
        list.iter()
            .fold([0.0; 3], |s, p| std::array::from_fn(|c| s[c] + p[c] / n))
    };
    let Some(card) = &scene.card else {
        return Vec::new();
    };
    let m = xyz_from_space(space);
    let white = apply(&m, [1.0; 3]);
    // The step nearest to mid grey.
    let (outline, lab) = match (
        &card.lab,
        card.steps
            .iter()
            .min_by(|a, b| (a.lab[0] - 60.0).abs().total_cmp(&(b.lab[0] - 60.0).abs())),
    ) {
        (_, Some(step)) => (step.outline.clone(), step.lab),
        (Some(lab), None) => (card.outline.clone(), *lab),
        _ => return Vec::new(),
    };
    let patch = Region {
        id: String::new(),
        kind: String::new(),
        name: String::new(),
        outline,
        cervical: [0.0, -1e9],
        incisal: [0.0, 1e9],
        visible_share: 1.0,
    };
    let seen = mean(
        &zone_pixels(&patch, 2)
            .iter()
            .filter_map(|&(x, y, _)| linear(x, y))
            .collect::<Vec<_>>(),
    );
    let want = apply(&inverse(&m), xyz_from_lab(lab, white));
    let gain: [f64; 3] = std::array::from_fn(|c| want[c] / seen[c].max(1e-9));

    let mut out = Vec::new();
    for region in &scene.regions {
        let Some(truth) = zones.get(&region.id) else {
            continue;
        };
        let pixels: Vec<(usize, [f64; 3])> = zone_pixels(region, 2)
            .iter()
            .filter_map(|&(x, y, z)| Some((z, linear(x, y)?)))
            .collect();
        for (k, zone) in ["cervical", "middle", "incisal", "whole"]
            .into_iter()
            .enumerate()
        {
            let mut list: Vec<[f64; 3]> = pixels
                .iter()
                .filter(|(z, _)| k == 3 || *z == k)
                .map(|(_, p)| *p)
                .collect();
            // Mirrored light lifts all channels: drop what is far brighter than the median.
            let mut y: Vec<f64> = list.iter().map(|p| apply(&m, *p)[1]).collect();
            y.sort_by(f64::total_cmp);
            let Some(middle) = y.get(y.len() / 2).copied() else {
                continue;
            };
            list.retain(|p| apply(&m, *p)[1] < middle * (1.0 + glare));
            let rgb = mean(&list);
            let read = lab_from_xyz(apply(&m, std::array::from_fn(|c| rgb[c] * gain[c])), white);
            let Some(t) = truth.get(zone) else { continue };
            out.push(Miss {
                region: region.id.clone(),
                zone,
                from_lab: delta_e_00(read, t.lab),
                from_shaded: delta_e_00(read, t.lab_shaded),
                read,
                lab: t.lab,
            });
        }
    }
    out
}

/// Median and 95th percentile.
pub fn spread(values: &mut [f64]) -> (f64, f64) {
    values.sort_by(f64::total_cmp);
    let at = |q: f64| {
        values
            .get(((values.len() as f64 - 1.0) * q).round().max(0.0) as usize)
            .copied()
            .unwrap_or(f64::NAN)
    };
    (at(0.5), at(0.95))
}
