//! Making the report of a scene: card, readings, ladders, advice, pair, checks.

use super::Engine;
use super::desk::shape_of;
use super::types::{Pair, ReadOptions, Report};
use crate::colour::Lab;
use crate::error::{CheckCode, Error, LightCheck, Result, Severity};
use crate::light::Correction;
use crate::light::checks::card_missing;
use crate::reading::ladder::{TabInPhoto, Tabs, has_ladder, ladders};
use crate::reading::{Ladder, RegionReading, read_region};
use crate::scene::{Card, Point, Region, RegionKind, Scene, Zone, align};
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
    let correction = desk.correction(scene.card.as_ref(), &mut checks)?;
    if scene.card.is_none() {
        checks.push(card_missing());
    }
    let mut readings = match &correction {
        Some(correction) => read_all(engine, id, &scene, correction, &mut checks)?,
        None => Vec::new(),
    };
    let pair = read_pair(engine, id, &scene, &mut readings, &mut checks)?;
    let ladders = all_ladders(engine, &scene, &readings, &mut checks);
    let advice = all_advice(&scene, &readings, options);
    engine.desk_mut(id)?.trim(2 * scene.regions.len() + 8);
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
        readings,
        ladders,
        advice,
        pair,
    })
}

fn check_scene(scene: &Scene) -> Result<()> {
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

fn read_all(
    engine: &mut Engine,
    id: u32,
    scene: &Scene,
    correction: &Correction,
    checks: &mut Vec<LightCheck>,
) -> Result<Vec<RegionReading>> {
    let desk = engine.desk_mut(id)?;
    let mut readings = Vec::with_capacity(scene.regions.len());
    for region in &scene.regions {
        let (polygon, axis) = shape_of(region)?;
        let statistics = desk.statistics(&polygon, axis);
        readings.push(read_region(
            &desk.photo,
            region,
            &statistics,
            correction,
            checks,
        ));
    }
    Ok(readings)
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

/// Reads the cross-polarised partner, when there is one: regions and card are carried over,
/// the partner is balanced on its own card.
fn read_pair(
    engine: &mut Engine,
    id: u32,
    scene: &Scene,
    readings: &mut [RegionReading],
    checks: &mut Vec<LightCheck>,
) -> Result<Option<Pair>> {
    let Some(partner) = engine.desk(id)?.partner() else {
        return Ok(None);
    };
    let transform = match partner.transform {
        Some(known) => known,
        None => {
            let plain = engine.desk_mut(id)?.reduced();
            let polarised = engine.desk_mut(partner.id)?.reduced();
            let found = align::align(&plain, &polarised);
            engine.desk_mut(id)?.set_transform(found);
            found
        }
    };
    let Some(transform) = transform else {
        checks.push(LightCheck::new(
            CheckCode::PairMisaligned,
            Severity::Retake,
            "The cross-polarised photo could not be laid over the plain one.",
            "Check that both show the same teeth from the same place; take the pair from a tripod \
             or with the head supported.",
        ));
        return Ok(None);
    };
    let desk = engine.desk_mut(partner.id)?;
    let pair = Pair {
        photo: desk.photo.info().clone(),
        transform,
    };
    let card = scene.card.as_ref().map(|card| carry_card(card, &transform));
    let mut found = Vec::new();
    let correction = desk.correction(card.as_ref(), &mut found)?;
    checks.extend(found.into_iter().map(|mut c| {
        c.text = format!("In the cross-polarised photo: {}", c.text);
        c
    }));
    let Some(correction) = correction else {
        return Ok(Some(pair));
    };
    for (region, reading) in scene.regions.iter().zip(readings) {
        let carried = carry_region(region, &transform);
        let (polygon, axis) = shape_of(&carried)?;
        let statistics = desk.statistics(&polygon, axis);
        for zone in Zone::ALL {
            if let (Some(own), Some(mean)) =
                (reading.zones.get_mut(zone), statistics.zone(zone).mean())
            {
                let lab: Lab = correction.lab(mean);
                own.value_polarised = Some(lab.l());
            }
        }
    }
    desk.trim(2 * scene.regions.len() + 8);
    Ok(Some(pair))
}

fn carry(points: &[Point], m: &[[f64; 3]; 2]) -> Vec<Point> {
    points.iter().map(|p| carry_point(*p, m)).collect()
}

fn carry_point(p: Point, [[a, b, c], [d, e, f]]: &[[f64; 3]; 2]) -> Point {
    Point::new(a * p.x() + b * p.y() + c, d * p.x() + e * p.y() + f)
}

fn carry_card(card: &Card, m: &[[f64; 3]; 2]) -> Card {
    let mut out = card.clone();
    out.outline = carry(&card.outline, m);
    for step in &mut out.steps {
        step.outline = carry(&step.outline, m);
    }
    out
}

fn carry_region(region: &Region, m: &[[f64; 3]; 2]) -> Region {
    let mut out = region.clone();
    out.outline = carry(&region.outline, m);
    out.cervical = region.cervical.map(|p| carry_point(p, m));
    out.incisal = region.incisal.map(|p| carry_point(p, m));
    out
}
