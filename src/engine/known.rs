//! What a photo's regions tell of its light: tabs of known colour as anchors, and the row of all
//! regions for its trend.

use super::measure::Gathered;
use crate::colour::Vec3;
use crate::error::LightCheck;
use crate::light::anchor::Anchor;
use crate::light::evenness::{Kind, Patch};
use crate::light::{Correction, checks};
use crate::reading::guide::{Guide, GuideSource};
use crate::scene::{Region, RegionKind, Scene, Zone};

/// Every zone of a tab whose colour the guide knows.
pub fn anchors(
    scene: &Scene,
    regions: &[Gathered],
    guide: &Guide,
    found: &mut Vec<LightCheck>,
) -> Vec<Anchor> {
    let published = guide.source == GuideSource::Published;
    let mut out = Vec::new();
    for (tab, (region, gathered)) in scene.regions.iter().zip(regions).enumerate() {
        if region.kind != RegionKind::Tab {
            continue;
        }
        let Some(known) = guide.tabs.iter().find(|t| t.name == name_of(region)) else {
            continue;
        };
        let zones = known.zones.unwrap_or_default();
        let thirds = [zones.cervical, zones.middle, zones.incisal];
        let all = thirds.into_iter().flatten().chain([known.lab]);
        if let Some(lab) = all.into_iter().find(|lab| !checks::is_tab_colour(*lab)) {
            found.push(checks::tab_impossible(name_of(region), &region.id, lab));
            continue;
        }
        if thirds.iter().all(Option::is_none) {
            out.extend(
                gathered
                    .form
                    .whole(&gathered.statistics)
                    .map(|seen| Anchor {
                        tab,
                        seen,
                        known: known.lab,
                        published,
                        whole: true,
                    }),
            );
            continue;
        }
        for ((zone, known), form) in Zone::THIRDS.iter().zip(thirds).zip(&gathered.form.zones) {
            let enough = gathered.statistics.zone(*zone).used > 100;
            if let (Some(known), Some(form), true) = (known, form, enough) {
                out.push(Anchor {
                    tab,
                    seen: form.seen,
                    known,
                    published,
                    whole: false,
                });
            }
        }
    }
    out
}

/// The regions as the trend of light takes them.
pub fn patches(
    scene: &Scene,
    regions: &[Gathered],
    anchors: &[Anchor],
    correction: &Correction,
) -> Vec<Patch> {
    let logs = |rgb: Vec3| {
        let [r, _, b] = rgb.map(|v| v.max(1e-4));
        let y = correction.luminance(rgb).max(1e-4);
        (libm::log(y), libm::log(r / b))
    };
    let rgb_from_xyz = correction.xyz_d65_from_linear_rgb.inverse();
    let mut out = Vec::with_capacity(regions.len());
    for (i, (region, gathered)) in scene.regions.iter().zip(regions).enumerate() {
        let Some(seen) = gathered.form.whole(&gathered.statistics) else {
            continue;
        };
        let [x_px, _] = seen.place;
        let (mut light_log, mut colour_log) = logs(seen.linear_rgb);
        let mut kind = match region.kind {
            RegionKind::Tab => Kind::Tab,
            RegionKind::Tooth | RegionKind::Restoration => Kind::Tooth,
        };
        let (mut off, mut n) = ([0.0; 2], 0.0);
        for a in anchors.iter().filter(|a| a.tab == i && !a.published) {
            if let Some(m) = rgb_from_xyz {
                let known = logs(m.apply(a.known.to_xyz_d65()));
                let seen = logs(a.seen.linear_rgb);
                off[0] += seen.0 - known.0;
                off[1] += seen.1 - known.1;
                n += 1.0;
            }
        }
        if n > 0.0 {
            kind = Kind::Known;
            [light_log, colour_log] = off.map(|o| o / n);
        }
        out.push(Patch {
            kind,
            x_px,
            light_log,
            colour_log,
        });
    }
    out
}

/// A region's name, or its id.
pub fn name_of(region: &Region) -> &str {
    if region.name.is_empty() {
        &region.id
    } else {
        &region.name
    }
}
