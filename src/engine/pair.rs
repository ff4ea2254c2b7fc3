//! The cross-polarised partner of a plain photo: laid over it, measured on its own card, and
//! what the two together say about glare.

use super::Engine;
use super::desk::shape_of;
use super::measure::{Measured, With, measure};
use super::types::Pair;
use crate::error::{CheckCode, LightCheck, Result, Severity};
use crate::reading::RegionReading;
use crate::scene::{Card, Point, Region, Scene, Zone, align};

/// Minutes between the two photos from which teeth may have dried visibly: after two minutes the
/// mean change passes the perceptibility threshold (J Dent 2021;105:103560).
const MAX_MINUTES: i64 = 2;

/// The partner, measured.
pub struct Partner {
    pub pair: Pair,
    pub measured: Option<(Measured, Vec<RegionReading>)>,
}

/// Lays the partner over the plain photo and measures it. `None` when there is no partner or it
/// does not fit; a check then says so.
pub fn partner(
    engine: &mut Engine,
    id: u32,
    scene: &Scene,
    checks: &mut Vec<LightCheck>,
) -> Result<Option<Partner>> {
    if engine.desk(id)?.partner().is_none() {
        return Ok(None);
    }
    let found = transform_of(engine, id, scene)?;
    let Some((other, transform)) = found else {
        checks.push(LightCheck::new(
            CheckCode::PairMisaligned,
            Severity::Retake,
            "The cross-polarised photo could not be laid over the plain one.",
            "Check that both show the same teeth from the same place; take the pair from a tripod \
             or with the head supported, or lay them over each other by hand.",
        ));
        return Ok(None);
    };
    check_times(engine, id, other, checks)?;
    let carried = carried(scene, &transform);
    let guide = engine.guide.clone();
    let desk = engine.desk_mut(other)?;
    let [[a, _, _], [b, _, _]] = transform;
    let pair = Pair {
        photo: desk.photo.info().clone(),
        transform,
        turn_deg: libm::atan2(b, a).to_degrees(),
        scale: libm::hypot(a, b),
        by_hand: scene.pair_transform.is_some(),
    };
    let with = With {
        scene: &carried,
        guide: &guide,
        polarised: true,
        sheen: None,
    };
    let mut found = Vec::new();
    let measured = measure(desk, with, &mut found)?;
    let mut unheard = Vec::new();
    let measured = measured.map(|m| {
        let readings = m.read(desk, &carried, &mut unheard);
        (m, readings)
    });
    desk.trim(2 * carried.regions.len() + 8);
    checks.extend(found.into_iter().map(|mut c| {
        c.text = format!("In the cross-polarised photo: {}", c.text);
        // The plain photo's own readings still stand.
        c.severity = c.severity.max(Severity::Care);
        c
    }));
    Ok(Some(Partner { pair, measured }))
}

/// The partner of a photo and how it lies over it: as the user laid it, or as it is found.
pub fn transform_of(
    engine: &mut Engine,
    id: u32,
    scene: &Scene,
) -> Result<Option<(u32, align::Transform)>> {
    let Some(partner) = engine.desk(id)?.partner() else {
        return Ok(None);
    };
    let found = match (scene.pair_transform, partner.transform) {
        (Some(by_hand), _) => Some(by_hand),
        (None, Some(known)) => known,
        (None, None) => {
            let plain = engine.desk_mut(id)?.reduced();
            let polarised = engine.desk_mut(partner.id)?.reduced();
            let found = align::align(&plain, &polarised);
            engine.desk_mut(id)?.set_transform(found);
            found
        }
    };
    Ok(found.map(|transform| (partner.id, transform)))
}

/// A scene carried over to the cross-polarised photo.
pub fn carried(scene: &Scene, transform: &align::Transform) -> Scene {
    let card = |c: &Option<Card>| c.as_ref().map(|c| carry_card(c, transform));
    Scene {
        card: card(&scene.card),
        second_card: card(&scene.second_card),
        regions: scene
            .regions
            .iter()
            .map(|r| carry_region(r, transform))
            .collect(),
        cross_polarised: true,
        pair_transform: None,
    }
}

/// The sheen of each region's thirds: plain less cross-polarised, each balanced on its own card.
pub fn sheen(
    engine: &mut Engine,
    id: u32,
    scene: &Scene,
    partner: &Partner,
) -> Result<Option<Vec<[Option<f64>; 3]>>> {
    let Some((polarised, _)) = &partner.measured else {
        return Ok(None);
    };
    let desk = engine.desk_mut(id)?;
    let Some(plain) = desk.correction(scene.card.as_ref(), &mut Vec::new())? else {
        return Ok(None);
    };
    let mut out = Vec::with_capacity(scene.regions.len());
    for (region, other) in scene.regions.iter().zip(&polarised.regions) {
        let (polygon, axis) = shape_of(region)?;
        let statistics = desk.statistics(&polygon, axis);
        out.push(Zone::THIRDS.map(|zone| {
            let level = |mean: Option<[f64; 3]>, by: &crate::light::Correction| {
                mean.map(|m| by.luminance(by.balanced(m)))
            };
            let with = level(statistics.zone(zone).mean(), &plain)?;
            let without = level(other.statistics.zone(zone).mean(), &polarised.correction)?;
            Some(with - without)
        }));
    }
    Ok(Some(out))
}

/// Value from the cross-polarised photo into the plain one's readings.
pub fn give_values(readings: &mut [RegionReading], polarised: &[RegionReading]) {
    for (own, other) in readings.iter_mut().zip(polarised) {
        for zone in Zone::ALL {
            if let (Some(own), Some(other)) = (own.zones.get_mut(zone), other.zones.get(zone)) {
                own.value_polarised = Some(other.lab.l());
            }
        }
    }
}

fn check_times(
    engine: &Engine,
    plain: u32,
    polarised: u32,
    checks: &mut Vec<LightCheck>,
) -> Result<()> {
    let taken = |id: u32| -> Result<Option<i64>> {
        let facts = &engine.desk(id)?.photo.info().facts;
        Ok(facts.taken.as_deref().and_then(minutes))
    };
    if let (Some(a), Some(b)) = (taken(plain)?, taken(polarised)?) {
        let apart = (a - b).abs();
        if apart > MAX_MINUTES {
            let severity = if apart > 10 {
                Severity::Retake
            } else {
                Severity::Care
            };
            checks.push(LightCheck::new(
                CheckCode::PairTimes,
                severity,
                format!("The two photos of the pair were taken {apart} minutes apart."),
                "Teeth dry and get lighter within minutes: take both photos of a pair one right \
                 after the other.",
            ));
        }
    }
    Ok(())
}

/// Minutes since some day, of a date as EXIF and ISO 8601 write it: year, month, day, hour,
/// minute in digits. Months count 31 days, which does for telling minutes from hours.
fn minutes(taken: &str) -> Option<i64> {
    let mut fields = taken
        .split(|c: char| !c.is_ascii_digit())
        .filter(|f| !f.is_empty())
        .map(|f| f.parse::<i64>().ok());
    let mut next = || fields.next()?.filter(|v| *v < 10_000);
    let (year, month, day, hour, minute) = (next()?, next()?, next()?, next()?, next()?);
    Some((((year * 12 + month) * 31 + day) * 24 + hour) * 60 + minute)
}

fn carry(points: &[Point], m: &[[f64; 3]; 2]) -> Vec<Point> {
    points.iter().map(|p| carry_point(*p, m)).collect()
}

/// A place of the plain photo in the cross-polarised one.
pub fn carry_point(p: Point, [[a, b, c], [d, e, f]]: &[[f64; 3]; 2]) -> Point {
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
