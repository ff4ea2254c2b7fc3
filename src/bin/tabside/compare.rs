//! `compare`: regions of two reports against each other, zone by zone, as JSON.

use super::stains::{Paths, parsed, paths};
use super::{Failure, HELP, json, named};
use serde::Serialize;
use std::path::Path;
use tabside::Error;
use tabside::engine::{Engine, Report};
use tabside::reading::{Colour, ColourPair, Difference, RegionReading, ZoneReading};
use tabside::scene::Zone;

/// What `compare` prints: how region B differs from region A, B − A.
#[derive(Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Comparison {
    /// Region A, the reference.
    from: Side,
    /// Region B, described against it.
    to: Side,
    /// Zones that were read on both, cervical first.
    zones: Vec<ComparedZone>,
    /// Zones that only one of the two has.
    missing: Vec<Zone>,
    /// What the doubts stand on.
    note: String,
}

/// One side of a comparison.
#[derive(Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Side {
    /// The region's id in its report.
    region: String,
    /// Its name, where it has one.
    name: String,
}

/// How one zone of B differs from the same zone of A.
#[derive(Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ComparedZone {
    /// The zone.
    zone: Zone,
    /// Its colour on A, with its doubt.
    from: Colour,
    /// Its colour on B, with its doubt.
    to: Colour,
    /// The difference, with its doubt.
    #[serde(flatten)]
    difference: Difference,
}

const REPORT_FORM: &str = "Give a report that `tabside read` printed.";
const OWN_CARDS: &str = "Each photo stands on its own card: the doubt holds the errors of both photos, taken for \
                         independent. Two things in one photo compare more closely.";
const ONE_PHOTO: &str =
    "Both stand in one photo and on one card: the doubt is that of comparing within it.";

pub fn compare_command(parser: &mut lexopt::Parser) -> Result<String, Failure> {
    let given = match paths(parser, 4)? {
        Paths::Help => return Ok(HELP.to_owned()),
        Paths::These(given) => given,
    };
    let [path_a, a, path_b, b] = given.as_slice() else {
        return Err(Failure::Usage(
            "compare needs REPORT_A REGION_A REPORT_B REGION_B.".to_owned(),
        ));
    };
    let first: Report = parsed(path_a, "report", REPORT_FORM)?;
    let second: Report = parsed(path_b, "report", REPORT_FORM)?;
    let (from, a) = side(&first, path_a, &a.to_string_lossy())?;
    let (to, b) = side(&second, path_b, &b.to_string_lossy())?;
    let one_photo = first == second;
    let colour = |z: &ZoneReading| Colour {
        lab: z.lab,
        doubt: Some(if one_photo { z.doubt_in_photo } else { z.doubt }),
    };
    let (mut both, mut pairs, mut missing) = (Vec::new(), Vec::new(), Vec::new());
    for zone in Zone::ALL {
        match (a.zones.get(zone), b.zones.get(zone)) {
            (Some(a), Some(b)) => {
                both.push(zone);
                pairs.push(ColourPair {
                    from: colour(a),
                    to: colour(b),
                });
            }
            (None, None) => {}
            _ => missing.push(zone),
        }
    }
    if both.is_empty() {
        return Err(Failure::Work(Error::input(
            format!(
                "“{}” and “{}” have no zone in common that was read.",
                from.region, to.region
            ),
            "The checks in the reports say why; take those photos again.",
        )));
    }
    let found = Engine::new()?.differences(&pairs)?;
    let zones = both.into_iter().zip(pairs).zip(found);
    json(&Comparison {
        from,
        to,
        zones: zones
            .map(|((zone, pair), difference)| ComparedZone {
                zone,
                from: pair.from,
                to: pair.to,
                difference,
            })
            .collect(),
        missing,
        note: if one_photo { ONE_PHOTO } else { OWN_CARDS }.to_owned(),
    })
}

/// A region of a report by its id, or by a name that only one region has.
fn side<'a>(
    report: &'a Report,
    path: &Path,
    region: &str,
) -> Result<(Side, &'a RegionReading), Failure> {
    let refuse =
        |what: String, remedy: String| Failure::Work(named(path, Error::input(what, remedy)));
    let regions = &report.scene.regions;
    let mut by_name = regions.iter().filter(|r| r.name == region);
    let by_id = regions.iter().find(|r| r.id == region);
    let found = by_id.or_else(|| by_name.next().filter(|_| by_name.next().is_none()));
    let found = found.ok_or_else(|| {
        let ids: Vec<&str> = regions.iter().map(|r| r.id.as_str()).collect();
        refuse(
            format!("the report has no region “{region}”."),
            format!("Its regions are: {}.", ids.join(", ")),
        )
    })?;
    let reading = report.readings.iter().find(|r| r.region == found.id);
    let reading = reading.ok_or_else(|| {
        refuse(
            format!("“{region}” was not read."),
            "The checks in the report say why.".to_owned(),
        )
    })?;
    let side = Side {
        region: found.id.clone(),
        name: found.name.clone(),
    };
    Ok((side, reading))
}
