//! Readings against the truth, scene by scene.

use crate::scene_of;
use scene_render::spec::{SceneSpec, Variety};
use scene_render::truth::Truth;
use tabside::colour::{Lab, delta_e_00};
use tabside::engine::{Engine, ReadOptions, Report};
use tabside::scene::{RegionKind, Zone};

/// One zone of one region of one scene.
#[derive(Debug, Clone)]
pub struct ZoneError {
    /// Which scene.
    pub scene: String,
    /// Which region.
    pub region: String,
    /// Which zone.
    pub zone: Zone,
    /// ΔE00 between the reading and the truth.
    pub delta_e_00: f64,
    /// ΔE00 against the truth with the shading by form left in.
    pub against_shaded: f64,
    /// L* read − true.
    pub delta_l: f64,
    /// The doubt that was given.
    pub doubt: f64,
    /// |L* of the cross-polarised photo − true|, with a pair.
    pub polarised_delta_l: Option<f64>,
}

/// One ladder: was the nearest tab right, and how do the orders agree.
#[derive(Debug, Clone)]
pub struct LadderScore {
    /// The nearest tab is the truly nearest one.
    pub top_right: bool,
    /// True ΔE00 of the second tab − of the first.
    pub true_gap: f64,
    /// Spearman's rank correlation of the two orders.
    pub rank: f64,
}

/// What a scene gave.
#[derive(Debug, Default)]
pub struct SceneScore {
    /// Zones that were read.
    pub zones: Vec<ZoneError>,
    /// Ladders of teeth and restorations with at least two tabs.
    pub ladders: Vec<LadderScore>,
    /// Zones without a reading, and why the photo was doubted.
    pub missing: usize,
    /// Codes of the light checks that asked for another photo.
    pub retakes: Vec<String>,
    /// Largest error of the found pair transform, in pixels.
    pub pair_error_px: Option<f64>,
}

/// Renders and reads the random scene of a seed.
///
/// # Errors
/// When rendering or reading fails.
pub fn score_random(seed: u64, variety: &Variety) -> Result<SceneScore, String> {
    score(&format!("seed {seed}"), &SceneSpec::random(seed, variety))
}

/// Renders and reads a scene.
///
/// # Errors
/// When rendering or reading fails.
pub fn score(name: &str, spec: &SceneSpec) -> Result<SceneScore, String> {
    let rendered = scene_render::render(spec)?;
    let words = |e: tabside::Error| format!("{name}: {e}");
    let mut engine = Engine::new().map_err(words)?;
    let plain = engine.open(&rendered.plain.bytes).map_err(words)?;
    if let Some(polarised) = &rendered.polarised {
        let partner = engine.open(&polarised.bytes).map_err(words)?;
        engine.set_pair(plain.id, Some(partner.id)).map_err(words)?;
    }
    let scene = scene_of(&rendered.truth.scene)?;
    let report = engine
        .read(plain.id, &scene, &ReadOptions::default())
        .map_err(words)?;
    Ok(compare(name, &report, &rendered.truth))
}

/// Compares a report with the truth.
pub fn compare(name: &str, report: &Report, truth: &Truth) -> SceneScore {
    let mut out = SceneScore::default();
    for reading in &report.readings {
        let Some(zones) = truth.zones.get(&reading.region) else {
            continue;
        };
        for (zone, key) in [
            (Zone::Cervical, "cervical"),
            (Zone::Middle, "middle"),
            (Zone::Incisal, "incisal"),
            (Zone::Whole, "whole"),
        ] {
            let Some(want) = zones.get(key) else { continue };
            let Some(got) = reading.zones.get(zone) else {
                out.missing += 1;
                continue;
            };
            out.zones.push(ZoneError {
                scene: name.to_owned(),
                region: reading.region.clone(),
                zone,
                delta_e_00: delta_e_00(Lab(want.lab), got.lab),
                against_shaded: delta_e_00(Lab(want.lab_shaded), got.lab),
                delta_l: got.lab.l() - want.lab[0],
                doubt: got.doubt,
                polarised_delta_l: got.value_polarised.map(|l| (l - want.lab[0]).abs()),
            });
        }
    }
    out.ladders = ladders(report, truth);
    out.retakes = report
        .checks
        .iter()
        .filter(|c| c.severity == tabside::error::Severity::Retake)
        .map(|c| format!("{:?}", c.code))
        .collect();
    out.pair_error_px = report
        .pair
        .as_ref()
        .zip(truth.pair.as_ref())
        .map(|(found, pair)| {
            let (w, h) = (
                f64::from(report.photo.width),
                f64::from(report.photo.height),
            );
            let apart = |x: f64, y: f64| {
                let carry = |m: &[[f64; 3]; 2]| m.map(|r| r[0] * x + r[1] * y + r[2]);
                let (a, b) = (carry(&found.transform), carry(&pair.polarised_from_plain));
                (a[0] - b[0]).hypot(a[1] - b[1])
            };
            [(0.0, 0.0), (w, 0.0), (0.0, h), (w, h)]
                .map(|(x, y)| apart(x, y))
                .into_iter()
                .fold(0.0, f64::max)
        });
    out
}

fn ladders(report: &Report, truth: &Truth) -> Vec<LadderScore> {
    let tabs: Vec<_> = report
        .scene
        .regions
        .iter()
        .filter(|r| r.kind == RegionKind::Tab)
        .collect();
    if tabs.len() < 2 {
        return Vec::new();
    }
    let key = |zone: Zone| match zone {
        Zone::Cervical => "cervical",
        Zone::Middle => "middle",
        Zone::Incisal => "incisal",
        Zone::Whole => "whole",
    };
    let lab =
        |region: &str, zone: Zone| truth.zones.get(region)?.get(key(zone)).map(|z| Lab(z.lab));
    report
        .ladders
        .iter()
        .filter_map(|ladder| {
            let own = lab(&ladder.region, ladder.zone)?;
            let mut right: Vec<(f64, &str)> = tabs
                .iter()
                .filter_map(|t| Some((delta_e_00(own, lab(&t.id, ladder.zone)?), t.name.as_str())))
                .collect();
            right.sort_by(|a, b| a.0.total_cmp(&b.0));
            let (first, second) = (right.first()?, right.get(1)?);
            Some(LadderScore {
                top_right: ladder.tabs.first()?.name == first.1,
                true_gap: second.0 - first.0,
                rank: spearman(&right, ladder),
            })
        })
        .collect()
}

fn spearman(right: &[(f64, &str)], ladder: &tabside::reading::Ladder) -> f64 {
    let n = right.len() as f64;
    let squares: f64 = right
        .iter()
        .enumerate()
        .map(|(i, (_, name))| {
            let j = ladder
                .tabs
                .iter()
                .position(|t| t.name == *name)
                .unwrap_or(i);
            (i as f64 - j as f64).powi(2)
        })
        .sum();
    1.0 - 6.0 * squares / (n * (n * n - 1.0))
}
