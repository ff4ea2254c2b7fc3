//! The light checks on faulty and on sound photos.

use crate::level::{Level, own_guide};
use crate::reading::read_at;
use crate::scene_of;
use scene_render::Rendered;
use scene_render::spec::fault::{Fault, render_faulty, render_sound};
use std::collections::{BTreeMap, BTreeSet};
use tabside::error::Severity;

/// Sizes that are taken in turn.
const SIZES: [[u32; 2]; 3] = [[1200, 800], [1500, 1000], [1000, 1400]];

/// The codes of the light checks of a scene with the owner's own measured tabs, notes left out.
///
/// # Errors
/// When reading fails.
pub fn said(name: &str, rendered: &Rendered) -> Result<BTreeSet<String>, String> {
    let scene = scene_of(&rendered.truth.scene)?;
    let level = match own_guide(&rendered.truth, &scene) {
        Some(_) => Level::OwnTabs,
        None => Level::Card,
    };
    let report = read_at(name, rendered, &scene, level)?.ok_or("no report")?;
    let codes = report
        .checks
        .iter()
        .filter(|c| c.severity != Severity::Note);
    codes
        .map(|c| match serde_json::to_value(c.code) {
            Ok(serde_json::Value::String(code)) => Ok(code),
            other => Err(format!("{other:?} is no code")),
        })
        .collect()
}

/// How one fault fared.
#[derive(Debug, Default, Clone)]
pub struct FaultScore {
    /// Seeds on which its check fired.
    pub told: Vec<u64>,
    /// Seeds on which it did not.
    pub missed: Vec<u64>,
}

/// Every fault on the given seeds.
///
/// # Errors
/// When rendering or reading fails.
pub fn faulty(
    seeds: std::ops::Range<u64>,
    progress: &mut dyn FnMut(&str),
) -> Result<BTreeMap<Fault, FaultScore>, String> {
    let mut out: BTreeMap<Fault, FaultScore> = BTreeMap::new();
    for fault in Fault::ALL {
        for seed in seeds.clone() {
            let size = SIZES[seed as usize % SIZES.len()];
            let rendered = render_faulty(*fault, seed, size)?;
            let name = format!("{} {seed}", fault.word());
            let said = said(&name, &rendered)?;
            progress(&format!("{name}: {said:?}"));
            let score = out.entry(*fault).or_default();
            if said.contains(fault.code()) {
                score.told.push(seed);
            } else {
                score.missed.push(seed);
            }
        }
    }
    Ok(out)
}

/// On how many of the sound photos each check fired, by code; and how many there were. Every
/// second one is a pair.
///
/// # Errors
/// When rendering or reading fails.
pub fn sound(
    seeds: std::ops::Range<u64>,
    progress: &mut dyn FnMut(&str),
) -> Result<(BTreeMap<String, usize>, usize), String> {
    let mut out = BTreeMap::new();
    let mut count = 0;
    for seed in seeds {
        let size = SIZES[seed as usize % SIZES.len()];
        let rendered = render_sound(seed, size, seed % 2 == 0)?;
        let said = said(&format!("sound {seed}"), &rendered)?;
        progress(&format!("sound {seed}: {said:?}"));
        for code in said {
            *out.entry(code).or_default() += 1;
        }
        count += 1;
    }
    Ok((out, count))
}
