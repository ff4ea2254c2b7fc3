//! The levels of trust that readings are scored at, and the two plain methods to compare with.

use scene_render::truth::Truth;
use std::collections::BTreeMap;
use tabside::colour::{Lab, Vec3};
use tabside::light::{Correction, read_card};
use tabside::photo::Photo;
use tabside::reading::{Guide, GuideSource, GuideTab, GuideZones, RegionStatistics};
use tabside::scene::{Axis, Polygon, RegionKind, Scene, Zone};

/// What a reading may use.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Level {
    /// Baseline: one gain per channel from the card, nothing else.
    VonKries,
    /// Baseline: one gain per channel from the tabs' measured colours, nothing else.
    TabGains,
    /// The engine with the card; tabs have no known colour.
    Card,
    /// The engine with tabs by the default guide's published colours.
    Tabs,
    /// The engine with the tabs' own measured colours.
    OwnTabs,
    /// The same with the cross-polarised photo of a pair.
    Pair,
}

impl Level {
    /// Baselines first.
    pub const ALL: [Self; 6] = [
        Self::VonKries,
        Self::TabGains,
        Self::Card,
        Self::Tabs,
        Self::OwnTabs,
        Self::Pair,
    ];

    /// For tables.
    pub const fn words(self) -> &'static str {
        match self {
            Self::VonKries => "baseline: von Kries on the card",
            Self::TabGains => "baseline: gains from measured tabs",
            Self::Card => "card only",
            Self::Tabs => "card + tabs, published colours",
            Self::OwnTabs => "card + own measured tabs",
            Self::Pair => "card + own measured tabs, pair",
        }
    }
}

/// The key of a zone in the truth.
pub const fn key(zone: Zone) -> &'static str {
    match zone {
        Zone::Cervical => "cervical",
        Zone::Middle => "middle",
        Zone::Incisal => "incisal",
        Zone::Whole => "whole",
    }
}

/// The true colour of a zone.
pub fn true_lab(truth: &Truth, region: &str, zone: Zone) -> Option<Lab> {
    Some(Lab(truth.zones.get(region)?.get(key(zone))?.lab))
}

/// The scene's tabs as a guide that their owner measured without error; by name where the truth
/// says that names are wrong.
pub fn own_guide(truth: &Truth, scene: &Scene) -> Option<Guide> {
    let tabs: Vec<GuideTab> = scene
        .regions
        .iter()
        .filter(|r| r.kind == RegionKind::Tab)
        .filter_map(|r| {
            let lab = |zone| match truth.guide.get(&r.name) {
                Some(zones) => zones.get(key(zone)).copied().map(Lab),
                None => true_lab(truth, &r.id, zone),
            };
            Some(GuideTab {
                name: r.name.clone(),
                lab: lab(Zone::Whole)?,
                zones: Some(GuideZones {
                    cervical: lab(Zone::Cervical),
                    middle: lab(Zone::Middle),
                    incisal: lab(Zone::Incisal),
                }),
            })
        })
        .collect();
    (!tabs.is_empty()).then(|| Guide {
        name: "Own tabs".into(),
        source: GuideSource::Measured,
        tabs,
        note: None,
    })
}

/// The scene with names that no guide knows.
pub fn unnamed(scene: &Scene) -> Scene {
    let mut out = scene.clone();
    for region in &mut out.regions {
        region.name.clear();
    }
    out
}

/// Zone colours by the two plain methods, per region id.
pub fn baseline(
    photo: &Photo,
    scene: &Scene,
    truth: &Truth,
    level: Level,
) -> Option<BTreeMap<String, Vec<(Zone, Lab)>>> {
    let card = read_card(photo, scene.card.as_ref()?, &mut Vec::new()).ok()??;
    let matrix = photo.xyz_d65_from_linear_rgb();
    let correction = Correction::from_card(&card, matrix)?;
    let mut means: Vec<(&str, RegionKind, Zone, Vec3)> = Vec::new();
    for region in &scene.regions {
        let polygon = Polygon::new(&region.outline, "The outline").ok()?;
        let axis = Axis::of(region, &polygon);
        let statistics = RegionStatistics::measure(photo, &polygon, &axis);
        for zone in Zone::ALL {
            if let Some(mean) = statistics.zone(zone).mean() {
                let [a, b, c] = correction.gains;
                let mean = [mean[0] * a, mean[1] * b, mean[2] * c];
                means.push((&region.id, region.kind, zone, mean));
            }
        }
    }
    let mut gains = [1.0; 3];
    if level == Level::TabGains {
        let inverse = matrix.inverse()?;
        let (mut sum, mut n) = ([0.0; 3], 0.0);
        for (id, kind, zone, mean) in &means {
            if *kind != RegionKind::Tab || *zone == Zone::Whole {
                continue;
            }
            let target = inverse.apply(true_lab(truth, id, *zone)?.to_xyz_d65());
            for c in 0..3 {
                sum[c] += (target[c] / mean[c]).ln();
            }
            n += 1.0;
        }
        if n == 0.0 {
            return None;
        }
        gains = sum.map(|s| f64::exp(s / n));
    }
    let mut out: BTreeMap<String, Vec<(Zone, Lab)>> = BTreeMap::new();
    for (id, _, zone, m) in means {
        let rgb = [m[0] * gains[0], m[1] * gains[1], m[2] * gains[2]];
        let lab = Lab::from_xyz_d65(matrix.apply(rgb));
        out.entry(id.to_owned()).or_default().push((zone, lab));
    }
    Some(out)
}
