//! Making the report of a scene: card, readings, ladders, advice, pair, checks.

use super::desk::shape_of;
use super::measure::{Measured, With, measure};
use super::pair::Partner;
use super::types::{ReadOptions, Report};
use super::{Engine, light, pair};
use crate::error::{CheckCode, Error, LightCheck, Result, Severity};
use crate::light::checks::card_missing;
use crate::reading::ladder::{TabInPhoto, Tabs, has_ladder, ladders};
use crate::reading::{Ladder, RegionReading};
use crate::scene::{Axis, Point, Region, RegionKind, Scene};
use crate::stain::{StainAdvice, advise};

/// Regions a scene may have.
const MAX_REGIONS: usize = 200;

pub fn make(engine: &mut Engine, id: u32, scene: &Scene, options: &ReadOptions) -> Result<Report> {
    check_scene(scene)?;
    let mut scene = scene.clone();
    fill_axes(&mut scene)?;

    let desk = engine.desk_mut(id)?;
    let photo = desk.photo.info().clone();
    let mut checks = desk.photo.checks().to_vec();
    if scene.card.is_none() {
        checks.push(card_missing());
    }
    let mut partner_checks = Vec::new();
    let (partner, measured) = measured(engine, id, &scene, &mut checks, &mut partner_checks)?;
    let desk = engine.desk_mut(id)?;
    let mut readings = match &measured {
        Some(measured) => measured.read(desk, &scene, &mut checks),
        None => Vec::new(),
    };
    checks.append(&mut partner_checks);
    if let Some((_, polarised)) = partner.as_ref().and_then(|p| p.measured.as_ref()) {
        pair::give_values(&mut readings, polarised);
    }
    let light = measured.as_ref().map(light::report);
    let ladders = all_ladders(engine, &scene, &readings, &mut checks);
    let advice = all_advice(&scene, &readings, options);
    // The gravest first; within one severity in the order they were found.
    let checks = [Severity::Retake, Severity::Care, Severity::Note]
        .into_iter()
        .flat_map(|s| checks.iter().filter(move |c| c.severity == s).cloned())
        .collect();
    Ok(Report {
        version: env!("CARGO_PKG_VERSION").to_owned(),
        photo,
        checks,
        scene,
        light,
        readings,
        ladders,
        advice,
        pair: partner.map(|p| p.pair),
    })
}

/// The photo of a sound scene measured, with its partner.
pub fn measured(
    engine: &mut Engine,
    id: u32,
    scene: &Scene,
    checks: &mut Vec<LightCheck>,
    partner_checks: &mut Vec<LightCheck>,
) -> Result<(Option<Partner>, Option<Measured>)> {
    let partner = pair::partner(engine, id, scene, partner_checks)?;
    let sheen = match &partner {
        Some(partner) => pair::sheen(engine, id, scene, partner)?,
        None => None,
    };
    let guide = engine.guide.clone();
    let with = With {
        scene,
        guide: &guide,
        polarised: scene.cross_polarised,
        sheen: sheen.as_deref(),
    };
    let desk = engine.desk_mut(id)?;
    let measured = measure(desk, with, checks)?;
    desk.trim(2 * scene.regions.len() + 8);
    Ok((partner, measured))
}

/// Refuses a scene that cannot be read.
pub fn check_scene(scene: &Scene) -> Result<()> {
    if scene.regions.len() > MAX_REGIONS {
        return Err(Error::input(
            format!(
                "The scene has {} regions; at most {MAX_REGIONS} are taken.",
                scene.regions.len()
            ),
            "Remove the regions that are not needed.",
        ));
    }
    for (i, region) in scene.regions.iter().enumerate() {
        if region.id.is_empty()
            || region.id.chars().count() > 100
            || region.name.chars().count() > 200
        {
            return Err(Error::input(
                format!(
                    "Region {} has no id, or an id or name that is too long.",
                    i + 1
                ),
                "Give each region an id of its own, up to 100 characters.",
            ));
        }
        if let Some(borders) = region.borders
            && !Axis::borders_are_sound(borders)
        {
            return Err(Error::input(
                format!(
                    "The borders between the thirds of “{}” cannot be {} and {}.",
                    region.id, borders[0], borders[1]
                ),
                "Give two rising places along the axis between 0 and 1 that leave each third a tenth of it, or none for even thirds.",
            ));
        }
        if scene.regions.iter().take(i).any(|r| r.id == region.id) {
            return Err(Error::input(
                format!("Two regions have the id “{}”.", region.id),
                "Give each region an id of its own.",
            ));
        }
    }
    Ok(())
}

fn fill_axes(scene: &mut Scene) -> Result<()> {
    for region in &mut scene.regions {
        let (_, axis) = shape_of(region)?;
        region.cervical = Some(axis.cervical);
        region.incisal = Some(axis.incisal);
    }
    Ok(())
}

fn all_ladders(
    engine: &Engine,
    scene: &Scene,
    readings: &[RegionReading],
    checks: &mut Vec<LightCheck>,
) -> Vec<Ladder> {
    let pairs: Vec<TabInPhoto<'_>> = scene
        .regions
        .iter()
        .zip(readings)
        .filter(|(region, _)| region.kind == RegionKind::Tab)
        .map(|(region, reading)| TabInPhoto { region, reading })
        .collect();
    let tabs = Tabs {
        in_photo: &pairs,
        guide: (pairs.is_empty() || engine.guide_chosen).then_some(&engine.guide),
    };
    let out: Vec<Ladder> = scene
        .regions
        .iter()
        .zip(readings)
        .filter(|(region, _)| has_ladder(region))
        .flat_map(|(_, reading)| ladders(reading, tabs))
        .collect();
    if pairs.is_empty() && !engine.guide_chosen && !out.is_empty() {
        checks.push(LightCheck::new(
            CheckCode::PublishedAverages,
            Severity::Care,
            "There is no tab in the photo, so the ladder stands on published averages, which your \
             own tabs may differ from by more than is acceptable.",
            "Photograph the tooth together with your own tabs, in one plane, and outline them.",
        ));
    }
    out
}

fn all_advice(
    scene: &Scene,
    readings: &[RegionReading],
    options: &ReadOptions,
) -> Vec<StainAdvice> {
    let regions: Vec<(&Region, &RegionReading)> = scene.regions.iter().zip(readings).collect();
    regions
        .iter()
        .filter(|(region, _)| region.kind == RegionKind::Restoration)
        .filter_map(|(region, reading)| {
            let chosen = regions
                .iter()
                .find(|(r, _)| Some(&r.id) == options.target.as_ref() && r.id != region.id);
            let target = chosen.or_else(|| nearest_tooth(region, &regions))?;
            Some(advise(reading, target.1))
        })
        .collect()
}

fn nearest_tooth<'a, 'b>(
    region: &Region,
    regions: &'b [(&'a Region, &'a RegionReading)],
) -> Option<&'b (&'a Region, &'a RegionReading)> {
    let distance = |other: &Region| middle_of(region).distance_px(&middle_of(other));
    regions
        .iter()
        .filter(|(r, _)| r.kind == RegionKind::Tooth)
        .min_by(|a, b| distance(a.0).total_cmp(&distance(b.0)))
}

/// Half-way along the axis (filled in by now).
fn middle_of(region: &Region) -> Point {
    match (region.cervical, region.incisal) {
        (Some(a), Some(b)) => Point::new((a.x() + b.x()) / 2.0, (a.y() + b.y()) / 2.0),
        _ => Point::new(0.0, 0.0),
    }
}
