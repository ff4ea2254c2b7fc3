//! From a region's statistics and a photo's correction to its reading.

use super::doubt::{Sources, zone_doubt};
use super::form::{Form, ZoneForm};
use super::smooth::unevenness;
use super::statistics::{GRADIENT_BINS, MIN_ZONE_PIXELS, RegionStatistics, Sums};
use super::types::{GradientPoint, RegionReading, ZoneReading, ZoneReadings};
use crate::colour::Lab;
use crate::colour::whiteness::whiteness_wid;
use crate::error::{CheckCode, LightCheck, Severity};
use crate::light::model::{LightModel, Seen};
use crate::light::{Correction, Trust};
use crate::photo::Photo;
use crate::scene::{Region, RegionKind, Zone};

/// Pixels a bin of the gradient needs.
const BIN_MIN_PIXELS: u32 = 30;
/// Linear luminance (after correction, Y) under which a tooth is too dark: L* 25.
const DARK_L: f64 = 25.0;

/// A region with everything that its reading needs.
#[derive(Debug, Clone, Copy)]
pub struct Outlined<'a> {
    /// The region.
    pub region: &'a Region,
    /// What was measured on it.
    pub statistics: &'a RegionStatistics,
    /// Its sheen and shading.
    pub form: &'a Form,
}

/// The light of the photo.
#[derive(Debug, Clone, Copy)]
pub struct Light<'a> {
    /// By the card.
    pub correction: &'a Correction,
    /// What card and tabs say beyond that.
    pub model: &'a LightModel,
    /// What it stands on.
    pub trust: Trust,
    /// How far the tabs put each other from their known colours (ΔE00, median).
    pub left_out_delta_e_00: f64,
    /// The sheen of this photo was measured on a pair.
    pub sheen_measured: bool,
}

/// Reads a region. Zones that cannot be trusted are left out, with a check that says why.
pub fn read_region(
    photo: &Photo,
    outlined: Outlined<'_>,
    light: Light<'_>,
    checks: &mut Vec<LightCheck>,
) -> RegionReading {
    let Outlined {
        region,
        statistics,
        form,
    } = outlined;
    check_region(region, statistics, checks);
    let mut zones = ZoneReadings::default();
    let mut thirds = Vec::with_capacity(3);
    for (zone, form) in Zone::THIRDS.into_iter().zip(&form.zones) {
        let read = form
            .as_ref()
            .and_then(|form| read_zone(photo, statistics, zone, form, light));
        if let Some(read) = read {
            *zones.get_mut(zone) = Some(read.reading.clone());
            thirds.push(read);
        }
    }
    zones.whole = whole(&thirds, statistics);
    let uneven = unevenness(&statistics.cells, &|_, mean| {
        Some(light.correction.lab(mean))
    });
    for (zone, blotch) in Zone::THIRDS
        .into_iter()
        .zip(uneven.iter().flat_map(|u| u.thirds))
    {
        if let Some(reading) = zones.get_mut(zone) {
            reading.blotch = blotch;
        }
    }
    let blotch = uneven.map(|u| u.whole);
    if let Some(whole) = &mut zones.whole {
        whole.blotch = blotch;
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
            let at = (i as f64 + 0.5) / GRADIENT_BINS as f64;
            let seen = form.free(bin.mean()?, light.correction, at)?;
            Some(GradientPoint {
                at,
                lab: light.lab(&seen),
            })
        })
        .collect();
    RegionReading {
        region: region.id.clone(),
        zones,
        gradient,
        blotch,
    }
}

impl Light<'_> {
    /// The colour of what is seen at a place.
    pub fn lab(&self, seen: &Seen) -> Lab {
        let (rgb, _) = self.model.correct(seen);
        Lab::from_xyz_d65(self.correction.xyz_d65_from_linear_rgb.apply(rgb))
    }
}

/// A third that was read.
struct ThirdRead {
    reading: ZoneReading,
    weight: f64,
}

fn read_zone(
    photo: &Photo,
    statistics: &RegionStatistics,
    zone: Zone,
    form: &ZoneForm,
    light: Light<'_>,
) -> Option<ThirdRead> {
    let sums: &Sums = statistics.zone(zone);
    if pixels_in_photo(statistics, sums) < MIN_ZONE_PIXELS {
        return None;
    }
    let xyz_from_rgb = light.correction.xyz_d65_from_linear_rgb;
    let (rgb, covariance) = light.model.correct(&form.seen);
    let lab = Lab::from_xyz_d65(xyz_from_rgb.apply(rgb));
    let mean = sums.mean()?;
    let doubt = zone_doubt(
        Sources {
            rgb,
            light: covariance,
            form,
            sums,
            quantisation_linear: photo.code_step_linear(mean.iter().sum::<f64>() / 3.0),
            trust: light.trust,
            left_out_delta_e_00: light.left_out_delta_e_00,
        },
        &xyz_from_rgb,
    );
    let [doubt_l_in_photo, doubt_c_in_photo] = doubt.parts_in_photo;
    // The same with the sheen left in.
    let bright = libm::exp(-form.shading_log);
    let shiny = Seen {
        linear_rgb: form.seen.linear_rgb.map(|v| v + form.sheen * bright),
        ..form.seen
    };
    let glare_value = light.lab(&shiny).l() - lab.l();
    Some(ThirdRead {
        weight: f64::from(sums.used) + f64::from(sums.dropped),
        reading: ZoneReading {
            lab,
            chroma: lab.chroma(),
            hue_deg: lab.hue_deg(),
            doubt: doubt.absolute,
            doubt_in_photo: doubt.in_photo,
            doubt_l_in_photo,
            doubt_c_in_photo,
            pixels: pixels_in_photo(statistics, sums),
            glare: sums.dropped_share(),
            glare_value,
            glare_measured: light.sheen_measured,
            whiteness: whiteness_wid(lab),
            blotch: None,
            value_polarised: None,
        },
    })
}

/// The thirds together: their mean in linear light, by pixels.
fn whole(thirds: &[ThirdRead], statistics: &RegionStatistics) -> Option<ZoneReading> {
    let weights: f64 = thirds.iter().map(|t| t.weight).sum();
    let mean = |of: &dyn Fn(&ZoneReading) -> f64| {
        thirds
            .iter()
            .map(|t| t.weight * of(&t.reading))
            .sum::<f64>()
            / weights
    };
    let first = thirds.first()?;
    let mut xyz = [0.0; 3];
    for t in thirds {
        for (sum, v) in xyz.iter_mut().zip(t.reading.lab.to_xyz_d65()) {
            *sum += t.weight / weights * v;
        }
    }
    let lab = Lab::from_xyz_d65(xyz);
    let sums = statistics.zone(Zone::Whole);
    Some(ZoneReading {
        lab,
        chroma: lab.chroma(),
        hue_deg: lab.hue_deg(),
        // Most of it is common to the thirds.
        doubt: mean(&|z| z.doubt),
        doubt_in_photo: mean(&|z| z.doubt_in_photo),
        doubt_l_in_photo: mean(&|z| z.doubt_l_in_photo),
        doubt_c_in_photo: mean(&|z| z.doubt_c_in_photo),
        pixels: pixels_in_photo(statistics, sums),
        glare: sums.dropped_share(),
        glare_value: mean(&|z| z.glare_value),
        glare_measured: first.reading.glare_measured,
        whiteness: whiteness_wid(lab),
        blotch: None,
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
