//! Readings against the truth, scene by scene and level by level.

use crate::level::{Level, baseline, key, own_guide, true_lab, unnamed};
use crate::scene_of;
use scene_render::Rendered;
use scene_render::spec::{SceneSpec, Variety};
use scene_render::truth::Truth;
use std::collections::BTreeMap;
use tabside::colour::{Lab, delta_e_00};
use tabside::engine::{Engine, ReadOptions, Report};
use tabside::photo::Photo;
use tabside::scene::{RegionKind, Scene, Zone};

/// One zone of a tooth or restoration.
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
    /// The same if L* were right: what no better exposure, shading or glare would mend.
    pub colour_delta_e_00: f64,
    /// Read − true.
    pub off: [f64; 3],
    /// The doubt that was given.
    pub doubt: f64,
    /// L* of the cross-polarised photo − true, with a pair.
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
    /// The ladder says that the first two cannot be told apart.
    pub said_alike: bool,
}

/// The same third of two regions of one photo against each other: how far what was read of their
/// difference is from the truth, and the ± that was given.
#[derive(Debug, Clone)]
pub struct WithinPhoto {
    /// One of them is a tab.
    pub with_tab: bool,
    /// Read − true difference in L*, in C*ab, and of the colours (ΔE00).
    pub off: [f64; 3],
    /// The ± on these.
    pub doubt: [f64; 3],
}

/// What a scene gave at one level.
#[derive(Debug, Default, Clone)]
pub struct Score {
    /// Zones of teeth and restorations that were read.
    pub zones: Vec<ZoneError>,
    /// Ladders of teeth and restorations with at least two tabs.
    pub ladders: Vec<LadderScore>,
    /// Thirds of its regions against each other.
    pub within: Vec<WithinPhoto>,
    /// Zones without a reading.
    pub missing: usize,
    /// Largest error of the found pair transform, in pixels.
    pub pair_error_px: Option<f64>,
    /// Codes and severities of the checks.
    pub checks: Vec<String>,
}

impl Score {
    /// ΔE00 of all zones.
    pub fn delta_e_00(&self) -> Vec<f64> {
        self.zones.iter().map(|z| z.delta_e_00).collect()
    }

    /// Takes in another scene's.
    pub fn add(&mut self, other: Self) {
        self.zones.extend(other.zones);
        self.ladders.extend(other.ladders);
        self.within.extend(other.within);
        self.missing += other.missing;
    }
}

/// Scores by level.
pub type Scores = BTreeMap<Level, Score>;

/// Renders and reads the random scene of a seed at all levels.
///
/// # Errors
/// When rendering or reading fails.
pub fn score_random(seed: u64, variety: &Variety) -> Result<Scores, String> {
    score(&format!("seed {seed}"), &SceneSpec::random(seed, variety))
}

/// Renders and reads a scene at all levels.
///
/// # Errors
/// When rendering or reading fails.
pub fn score(name: &str, spec: &SceneSpec) -> Result<Scores, String> {
    let mut rendered = scene_render::render(spec)?;
    // A pair is scored at a level of its own.
    let polarised = rendered.polarised.take();
    let mut out = Scores::new();
    let scene = scene_of(&rendered.truth.scene)?;
    let photo = Photo::decode(&rendered.plain.bytes).map_err(|e| format!("{name}: {e}"))?;
    for level in Level::ALL {
        if level == Level::Pair {
            if polarised.is_none() {
                continue;
            }
            rendered.polarised.clone_from(&polarised);
        }
        let score = match level {
            Level::VonKries | Level::TabGains => {
                let Some(labs) = baseline(&photo, &scene, &rendered.truth, level) else {
                    continue;
                };
                plain_score(name, &scene, &rendered.truth, &labs)
            }
            _ => {
                let Some(report) = read_at(name, &rendered, &scene, level)? else {
                    continue;
                };
                compare(name, &report, &rendered.truth)
            }
        };
        out.insert(level, score);
    }
    Ok(out)
}

/// The engine's report at a level; `None` when the scene has no tabs for it.
///
/// # Errors
/// When reading fails.
pub fn read_at(
    name: &str,
    rendered: &Rendered,
    scene: &Scene,
    level: Level,
) -> Result<Option<Report>, String> {
    let words = |e: tabside::Error| format!("{name}: {e}");
    let mut engine = Engine::new().map_err(words)?;
    let mut scene = scene.clone();
    let has_tabs = scene.regions.iter().any(|r| r.kind == RegionKind::Tab);
    match level {
        Level::Card => scene = unnamed(&scene),
        Level::OwnTabs | Level::Pair => {
            let Some(guide) = own_guide(&rendered.truth, &scene) else {
                return Ok(None);
            };
            engine.set_guide(Some(guide)).map_err(words)?;
        }
        _ if !has_tabs => return Ok(None),
        _ => {}
    }
    let plain = engine.open(&rendered.plain.bytes).map_err(words)?;
    if let Some(polarised) = &rendered.polarised {
        let partner = engine.open(&polarised.bytes).map_err(words)?;
        engine.set_pair(plain.id, Some(partner.id)).map_err(words)?;
    }
    let report = engine.read(plain.id, &scene, &ReadOptions::default());
    report.map(Some).map_err(words)
}

fn plain_score(
    name: &str,
    scene: &Scene,
    truth: &Truth,
    labs: &BTreeMap<String, Vec<(Zone, Lab)>>,
) -> Score {
    let mut out = Score::default();
    for region in scene.regions.iter().filter(|r| r.kind != RegionKind::Tab) {
        for (zone, lab) in labs.get(&region.id).into_iter().flatten() {
            if let Some(want) = true_lab(truth, &region.id, *zone) {
                out.zones
                    .push(error(name, &region.id, *zone, want, *lab, 0.0, None));
            }
        }
    }
    out
}

fn error(
    name: &str,
    region: &str,
    zone: Zone,
    want: Lab,
    got: Lab,
    doubt: f64,
    polarised: Option<f64>,
) -> ZoneError {
    ZoneError {
        scene: name.to_owned(),
        region: region.to_owned(),
        zone,
        delta_e_00: delta_e_00(want, got),
        colour_delta_e_00: delta_e_00(want, Lab([want.0[0], got.0[1], got.0[2]])),
        off: [0, 1, 2].map(|i: usize| got.0[i] - want.0[i]),
        doubt,
        polarised_delta_l: polarised.map(|l| l - want.l()),
    }
}

/// Compares a report with the truth.
pub fn compare(name: &str, report: &Report, truth: &Truth) -> Score {
    let mut out = Score::default();
    for (region, reading) in report.scene.regions.iter().zip(&report.readings) {
        if region.kind == RegionKind::Tab {
            continue;
        }
        for zone in Zone::ALL {
            let Some(want) = true_lab(truth, &reading.region, zone) else {
                continue;
            };
            let Some(got) = reading.zones.get(zone) else {
                out.missing += 1;
                continue;
            };
            let id = &reading.region;
            let polarised = got.value_polarised;
            out.zones
                .push(error(name, id, zone, want, got.lab, got.doubt, polarised));
        }
    }
    out.ladders = ladders(report, truth);
    out.within = within(report, truth);
    out.checks = report
        .checks
        .iter()
        .map(|c| format!("{:?}/{:?}", c.code, c.severity))
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

fn within(report: &Report, truth: &Truth) -> Vec<WithinPhoto> {
    let mut out = Vec::new();
    for zone in Zone::THIRDS {
        let read: Vec<_> = report
            .scene
            .regions
            .iter()
            .zip(&report.readings)
            .filter_map(|(region, reading)| {
                let truth = true_lab(truth, &region.id, zone)?;
                Some((
                    region.kind == RegionKind::Tab,
                    reading.zones.get(zone)?,
                    truth,
                ))
            })
            .collect();
        for (i, (tab, a, true_a)) in read.iter().enumerate() {
            for (other_tab, b, true_b) in read.iter().skip(i + 1) {
                // Tabs are not compared with each other.
                if *tab && *other_tab {
                    continue;
                }
                // Where `b` would lie if the difference from the true `a` were as read.
                let by_difference =
                    Lab([0, 1, 2].map(|i: usize| true_a.0[i] + b.lab.0[i] - a.lab.0[i]));
                let chroma =
                    (b.lab.chroma() - a.lab.chroma()) - (true_b.chroma() - true_a.chroma());
                out.push(WithinPhoto {
                    with_tab: *tab || *other_tab,
                    off: [
                        by_difference.l() - true_b.l(),
                        chroma,
                        delta_e_00(*true_b, by_difference),
                    ],
                    doubt: [
                        a.doubt_l_in_photo.hypot(b.doubt_l_in_photo),
                        a.doubt_c_in_photo.hypot(b.doubt_c_in_photo),
                        a.doubt_in_photo.hypot(b.doubt_in_photo),
                    ],
                });
            }
        }
    }
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
    let lab = |region: &str, zone: Zone| Some(Lab(truth.zones.get(region)?.get(key(zone))?.lab));
    let name = |r: &tabside::scene::Region| {
        if r.name.is_empty() {
            r.id.clone()
        } else {
            r.name.clone()
        }
    };
    report
        .ladders
        .iter()
        .filter_map(|ladder| {
            let own = lab(&ladder.region, ladder.zone)?;
            let mut right: Vec<(f64, String)> = tabs
                .iter()
                .filter_map(|t| Some((delta_e_00(own, lab(&t.id, ladder.zone)?), name(t))))
                .collect();
            right.sort_by(|a, b| a.0.total_cmp(&b.0));
            let (first, second) = (right.first()?, right.get(1)?);
            Some(LadderScore {
                top_right: ladder.tabs.first()?.name == first.1,
                true_gap: second.0 - first.0,
                rank: spearman(&right, ladder),
                said_alike: ladder.tabs.get(1).is_some_and(|t| t.alike),
            })
        })
        .collect()
}

fn spearman(right: &[(f64, String)], ladder: &tabside::reading::Ladder) -> f64 {
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
