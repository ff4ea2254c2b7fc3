//! From a region's statistics and a photo's correction to its reading.

use super::doubt::zone_doubt;
use super::smooth::blotch;
use super::statistics::{GRADIENT_BINS, MIN_ZONE_PIXELS, RegionStatistics, Sums};
use super::types::{GradientPoint, RegionReading, ZoneReading, ZoneReadings};
use crate::colour::whiteness::whiteness_wid;
use crate::error::{CheckCode, LightCheck, Severity};
use crate::light::Correction;
use crate::photo::Photo;
use crate::scene::{Region, RegionKind, Zone};

/// Pixels a bin of the gradient needs.
const BIN_MIN_PIXELS: u32 = 30;
/// Linear luminance (after correction, Y) under which a tooth is too dark: L* 25.
const DARK_L: f64 = 25.0;

/// Reads a region. Zones that cannot be trusted are left out, with a check that says why.
pub fn read_region(
    photo: &Photo,
    region: &Region,
    statistics: &RegionStatistics,
    correction: &Correction,
    checks: &mut Vec<LightCheck>,
) -> RegionReading {
    check_region(region, statistics, checks);
    let mut zones = ZoneReadings::default();
    for zone in Zone::ALL {
        *zones.get_mut(zone) = read_zone(photo, statistics, zone, correction);
    }
    if let Some(whole) = &zones.whole {
        check_plausible(region, whole, checks);
    }
    let gradient = statistics
        .bins
        .iter()
        .enumerate()
        .filter(|(_, bin)| bin.used >= BIN_MIN_PIXELS && bin.dropped_share() < 0.8)
        .filter_map(|(i, bin)| {
            Some(GradientPoint {
                at: (i as f64 + 0.5) / GRADIENT_BINS as f64,
                lab: correction.lab(bin.mean()?),
            })
        })
        .collect();
    RegionReading {
        region: region.id.clone(),
        zones,
        gradient,
        blotch: blotch(correction, &statistics.cells),
    }
}

fn read_zone(
    photo: &Photo,
    statistics: &RegionStatistics,
    zone: Zone,
    correction: &Correction,
) -> Option<ZoneReading> {
    let sums: &Sums = statistics.zone(zone);
    if pixels_in_photo(statistics, sums) < MIN_ZONE_PIXELS {
        return None;
    }
    let mean = sums.mean()?;
    let lab = correction.lab(mean);
    let step = photo.code_step_linear(mean.iter().sum::<f64>() / 3.0);
    let doubt = zone_doubt(correction, sums, step)?;
    Some(ZoneReading {
        lab,
        chroma: lab.chroma(),
        hue_deg: lab.hue_deg(),
        doubt: doubt.absolute,
        doubt_in_photo: doubt.in_photo,
        pixels: pixels_in_photo(statistics, sums),
        glare: sums.dropped_share(),
        whiteness: whiteness_wid(lab),
        value_polarised: None,
    })
}

fn pixels_in_photo(statistics: &RegionStatistics, sums: &Sums) -> u32 {
    sums.used.saturating_mul(statistics.pixels_per_sample)
}

fn label(region: &Region) -> String {
    let kind = match region.kind {
        RegionKind::Tooth => "Tooth",
        RegionKind::Restoration => "Restoration",
        RegionKind::Tab => "Tab",
    };
    if region.name.is_empty() {
        format!("{kind} “{}”", region.id)
    } else {
        format!("{kind} “{}”", region.name)
    }
}

fn check_region(region: &Region, statistics: &RegionStatistics, checks: &mut Vec<LightCheck>) {
    let name = label(region);
    let mut say = |code, severity, text: String, remedy: &str| {
        checks.push(LightCheck::new(code, severity, text, remedy).about(&region.id));
    };
    if statistics.inside < 0.999 {
        say(
            CheckCode::RegionOutside,
            if statistics.inside < 0.5 {
                Severity::Retake
            } else {
                Severity::Care
            },
            format!(
                "{:.0} % of the outline of {name} lies outside the photo.",
                100.0 * (1.0 - statistics.inside)
            ),
            "Draw the outline within the photo.",
        );
    }
    if statistics.clipped > 0.15 {
        say(
            CheckCode::ToothClipped,
            if statistics.clipped > 0.5 {
                Severity::Retake
            } else {
                Severity::Care
            },
            format!(
                "{:.0} % of {name} is too bright to be measured.",
                100.0 * statistics.clipped
            ),
            "Take the photo again with less light or a shorter exposure.",
        );
    }
    let missing: Vec<&str> = [
        (Zone::Cervical, "cervical third"),
        (Zone::Middle, "middle third"),
        (Zone::Incisal, "incisal third"),
    ]
    .into_iter()
    .filter(|(zone, _)| pixels_in_photo(statistics, statistics.zone(*zone)) < MIN_ZONE_PIXELS)
    .map(|(_, words)| words)
    .collect();
    if !missing.is_empty() && statistics.inside > 0.0 {
        say(
            CheckCode::ToothSmall,
            if missing.len() == 3 {
                Severity::Retake
            } else {
                Severity::Care
            },
            format!(
                "{name} has fewer than {MIN_ZONE_PIXELS} usable pixels in its {}, so no colour is given there.",
                missing.join(" and ")
            ),
            "Photograph it larger or with less shine, or check its outline and axis.",
        );
    }
}

fn check_plausible(region: &Region, whole: &ZoneReading, checks: &mut Vec<LightCheck>) {
    let name = label(region);
    let [l, a, b] = whole.lab.0;
    if l < DARK_L {
        checks.push(
            LightCheck::new(
                CheckCode::ToothDark,
                Severity::Retake,
                format!("{name} reads L* {l:.0}, too dark to be judged."),
                "Take the photo again with more light on the teeth, or check the outline.",
            )
            .about(&region.id),
        );
    } else if !((50.0..=95.0).contains(&l)
        && (-6.0..=12.0).contains(&a)
        && (0.0..=42.0).contains(&b))
    {
        checks.push(
            LightCheck::new(
                CheckCode::ReadingUnusual,
                Severity::Care,
                format!("{name} reads L* {l:.0}, a* {a:.0}, b* {b:.0}, which is unusual for a tooth or tab."),
                "Check the card, its colour and its outline, and that the outline lies on the tooth.",
            )
            .about(&region.id),
        );
    }
}
