//! Ladders: the tabs ordered by their difference from a zone, with the difference in words.

use super::guide::{Guide, GuideSource, GuideTab};
use super::types::{Ladder, RegionReading, Rung, RungBasis, ZoneReading};
use super::words::{Subject, difference_in_words};
use crate::colour::order::insertion_sort;
use crate::colour::threshold::{ACCEPTABILITY_DELTA_E_00, Verdict};
use crate::colour::{Lab, delta_e_00_parts};
use crate::scene::{Region, RegionKind, Zone};

/// A tab that was read in the photo.
#[derive(Debug, Clone, Copy)]
pub struct TabInPhoto<'a> {
    /// The tab's region.
    pub region: &'a Region,
    /// Its reading.
    pub reading: &'a RegionReading,
}

/// Where the rungs come from: tabs in the photo first; a guide fills in tabs that are not in
/// the photo.
#[derive(Debug, Clone, Copy)]
pub struct Tabs<'a> {
    /// Tabs read in the photo.
    pub in_photo: &'a [TabInPhoto<'a>],
    /// The guide whose other tabs are added, if any.
    pub guide: Option<&'a Guide>,
}

/// The ladders of one tooth or restoration: one per zone that was read. Like is compared with
/// like: a third with the same third of each tab where that is known. A tab in the photo whose
/// colour its owner measured counts with that colour.
pub fn ladders(reading: &RegionReading, tabs: Tabs<'_>) -> Vec<Ladder> {
    Zone::ALL
        .into_iter()
        .filter_map(|zone| {
            let own = reading.zones.get(zone)?;
            let mut rungs: Vec<Rung> = tabs
                .in_photo
                .iter()
                .filter_map(|tab| {
                    let name = tab_name(tab.region);
                    let (lab, basis, whole_tab) = match tabs.measured(name, zone) {
                        Some(lab) => (lab, RungBasis::Measured, false),
                        None => (tab.reading.zones.get(zone)?.lab, RungBasis::InPhoto, false),
                    };
                    Some(rung(own.lab, lab, name, basis, whole_tab))
                })
                .collect();
            if let Some(guide) = tabs.guide {
                let basis = match guide.source {
                    GuideSource::Measured => RungBasis::Measured,
                    GuideSource::Published => RungBasis::Published,
                };
                for tab in &guide.tabs {
                    if tabs.in_photo.iter().any(|t| tab_name(t.region) == tab.name) {
                        continue;
                    }
                    let (lab, whole_tab) = guide_colour(tab, zone);
                    rungs.push(rung(own.lab, lab, &tab.name, basis, whole_tab));
                }
            }
            // Ties by name, so that the same input gives the same order.
            insertion_sort(&mut rungs, |a, b| {
                let order = a.delta_e_00.total_cmp(&b.delta_e_00);
                order.then_with(|| a.name.cmp(&b.name)).is_lt()
            });
            let note = note(own, &mut rungs);
            (!rungs.is_empty()).then(|| Ladder {
                region: reading.region.clone(),
                zone,
                tabs: rungs,
                note,
            })
        })
        .collect()
}

impl Tabs<'_> {
    /// The colour that the owner of a tab measured on a zone of it.
    fn measured(&self, name: &str, zone: Zone) -> Option<Lab> {
        let guide = self.guide.filter(|g| g.source == GuideSource::Measured)?;
        let tab = guide.tabs.iter().find(|t| t.name == name)?;
        let (lab, whole_tab) = guide_colour(tab, zone);
        (!whole_tab).then_some(lab)
    }
}

/// What has to be said about the first rungs, and which of them are alike: tabs whose
/// differences from the zone are nearer to each other than the doubt of comparing in this photo.
fn note(own: &ZoneReading, rungs: &mut [Rung]) -> Option<String> {
    let nearest = rungs.first()?.delta_e_00;
    // One number stands for two comparisons with a common side.
    let apart = own.doubt_in_photo / 2.0;
    let mut alike = 0_usize;
    for rung in rungs.iter_mut() {
        rung.alike = rung.delta_e_00 - nearest < apart;
        alike += usize::from(rung.alike);
    }
    let [first, second, ..] = &*rungs else {
        return None;
    };
    if alike > 1 {
        let names: Vec<&str> = rungs
            .iter()
            .filter(|r| r.alike)
            .map(|r| r.name.as_str())
            .collect();
        let (last, others) = names.split_last()?;
        return Some(format!(
            "{} and {last} cannot be told apart here: they differ from the zone by the same within the doubt.",
            others.join(", ")
        ));
    }
    // Between two: the differences point opposite ways in value or chroma, neither is near.
    let opposite = |a: f64, b: f64| a * b < 0.0 && a.abs().min(b.abs()) >= BETWEEN;
    let between = (opposite(first.delta_l, second.delta_l)
        || opposite(first.delta_c, second.delta_c))
        && second.delta_e_00 < 2.0 * first.delta_e_00.max(ACCEPTABILITY_DELTA_E_00);
    between.then(|| format!("The zone lies between {} and {}.", first.name, second.name))
}

/// Part of a difference, ΔE00, from which a zone lies clearly to one side of a tab.
const BETWEEN: f64 = 0.5;

/// Whether a region stands on a ladder's left side: teeth and restorations do, tabs do not.
pub fn has_ladder(region: &Region) -> bool {
    region.kind != RegionKind::Tab
}

fn tab_name(region: &Region) -> &str {
    if region.name.is_empty() {
        &region.id
    } else {
        &region.name
    }
}

/// A guide's colour for a zone, and whether it had to be that of the whole tab.
fn guide_colour(tab: &GuideTab, zone: Zone) -> (Lab, bool) {
    let zones = tab.zones.unwrap_or_default();
    let own = match zone {
        Zone::Cervical => zones.cervical,
        Zone::Middle => zones.middle,
        Zone::Incisal => zones.incisal,
        Zone::Whole => return (tab.lab, false),
    };
    own.map_or((tab.lab, true), |lab| (lab, false))
}

fn rung(zone: Lab, tab: Lab, name: &str, basis: RungBasis, whole_tab: bool) -> Rung {
    let parts = delta_e_00_parts(zone, tab);
    Rung {
        name: name.to_owned(),
        delta_e_00: parts.delta_e_00,
        delta_l: parts.delta_l,
        delta_c: parts.delta_c,
        delta_h: parts.delta_h,
        words: difference_in_words(zone, tab, Subject::Tab),
        verdict: Verdict::of_delta_e_00(parts.delta_e_00),
        basis,
        whole_tab,
        alike: false,
    }
}
