//! A plan along the axis of its restoration: what coats do to a colour at each place between neck
//! and edge, the paints fading into each other around the borders of the thirds.
//!
//! Takes and gives XYZ relative to D65. The layer model is worked out at places along the axis
//! and, around each place's own colour, taken as linear: what one restoration varies by is small.

use super::book::StrengthBook;
use super::layer::{Layer, Matter, seen};
use super::types::{Mix, ZonePlan};
use crate::colour::{Lab, Matrix3};
use crate::error::{Error, Result};
use crate::scene::Zone;

/// Places along the axis.
const PLACES: usize = 25;
/// Half of the length over which two paints fade into each other, in axis lengths.
const FADE: f64 = 0.1;
/// Step of the slopes, as a share.
const STEP: f64 = 0.02;

/// What the plan does at one place.
#[derive(Debug, Clone, PartialEq)]
struct Place {
    from: [f64; 3],
    to: [f64; 3],
    slopes: Matrix3,
}

/// The whole axis, cervical first.
#[derive(Debug, Clone, PartialEq)]
pub struct AlongAxis(Vec<Place>);

impl AlongAxis {
    /// From the plans of one to three thirds and the borders of the restoration. A third without
    /// a plan stays as it is.
    pub fn of(book: &StrengthBook, zones: &[ZonePlan], borders: [f64; 2]) -> Result<Self> {
        let first = zones
            .first()
            .ok_or_else(|| Error::input("The plan has no third.", "Plan at least one third."))?;
        let mut thirds: Vec<(&ZonePlan, Matter, [f64; 3])> = Vec::with_capacity(3);
        for zone in Zone::THIRDS {
            let own = zones.iter().find(|z| z.zone == zone);
            let plan = own.unwrap_or(first);
            let paint = own.filter(|z| !z.paint.mix.is_empty());
            let matter = paint.map_or(Ok(Matter::NONE), |z| coats_of(book, z))?;
            thirds.push((
                plan,
                matter.clone(),
                correction(book, plan, &matter, own.is_some())?,
            ));
        }
        (0..PLACES)
            .map(|i| {
                let along = i as f64 / (PLACES - 1) as f64;
                place(book, &thirds, weights(along, borders))
            })
            .collect::<Result<_>>()
            .map(Self)
    }

    /// A colour at a place along the axis (0–1), after the plan.
    pub fn after(&self, along: f64, xyz: [f64; 3]) -> [f64; 3] {
        let (one, other, share) = self.between(along);
        let (Some(one), Some(other)) = (one, other) else {
            return xyz;
        };
        let [a, b] = [one, other].map(|p| {
            let off = [0, 1, 2].map(|i: usize| xyz[i] - p.from[i]);
            let moved = p.slopes.apply(off);
            [0, 1, 2].map(|i: usize| (p.to[i] + moved[i]).max(0.0))
        });
        [0, 1, 2].map(|i: usize| a[i] + share * (b[i] - a[i]))
    }

    /// The bare restoration's colour at a place, as the plan was given it.
    pub fn before(&self, along: f64) -> [f64; 3] {
        let (one, other, share) = self.between(along);
        match (one, other) {
            (Some(a), Some(b)) => {
                [0, 1, 2].map(|i: usize| a.from[i] + share * (b.from[i] - a.from[i]))
            }
            _ => [0.0; 3],
        }
    }

    fn between(&self, along: f64) -> (Option<&Place>, Option<&Place>, f64) {
        let at = along.clamp(0.0, 1.0) * (PLACES - 1) as f64;
        let low = (at as usize).min(PLACES - 2);
        (self.0.get(low), self.0.get(low + 1), at - low as f64)
    }
}

/// K and S of all coats of a third.
fn coats_of(book: &StrengthBook, zone: &ZonePlan) -> Result<Matter> {
    let mix: Mix = zone
        .paint
        .mix
        .iter()
        .map(|s| (s.stain.clone(), f64::from(s.parts) / 10.0))
        .collect();
    let mut sum = Matter::NONE;
    for (stain, share) in book.parts(&mix)? {
        sum.add(&stain.matter, share * zone.paint.coats);
    }
    Ok(sum)
}

/// What the plan's own prediction has beyond its coats (the foundation), per X, Y, Z.
fn correction(
    book: &StrengthBook,
    zone: &ZonePlan,
    coats: &Matter,
    planned: bool,
) -> Result<[f64; 3]> {
    if !planned {
        return Ok([1.0; 3]);
    }
    let base = book.internal(zone.from)?;
    let painted = book.seen_under(&base, coats, 1.0).to_xyz_d65();
    let wanted = zone.predicted.lab.to_xyz_d65();
    Ok([0, 1, 2].map(|i: usize| wanted[i] / painted[i].max(1e-9)))
}

/// How much each third has to say at a place; they sum to 1.
fn weights(along: f64, [first, second]: [f64; 2]) -> [f64; 3] {
    let past = |border: f64| {
        let s = ((along - border + FADE) / (2.0 * FADE)).clamp(0.0, 1.0);
        s * s * (3.0 - 2.0 * s)
    };
    let (a, b) = (past(first), past(second));
    [1.0 - a, a * (1.0 - b), a * b]
}

fn place(
    book: &StrengthBook,
    thirds: &[(&ZonePlan, Matter, [f64; 3])],
    weights: [f64; 3],
) -> Result<Place> {
    let (mut from, mut factor, mut coats) = ([0.0; 3], [0.0; 3], Matter::NONE);
    for ((plan, matter, beyond), weight) in thirds.iter().zip(weights) {
        coats.add(matter, weight);
        let xyz = plan.from.to_xyz_d65();
        for i in 0..3 {
            from[i] += weight * xyz[i];
            factor[i] += weight * beyond[i];
        }
    }
    let layer = Layer::of(&coats, 1.0);
    let after = |xyz: [f64; 3]| -> Result<[f64; 3]> {
        let base = book.internal(Lab::from_xyz_d65(xyz))?;
        let made = book.eye.xyz_d65(&seen(&layer.over(&base)));
        Ok([0, 1, 2].map(|i: usize| made[i] * factor[i]))
    };
    let to = after(from)?;
    let mut slopes = [[0.0; 3]; 3];
    for column in 0..3 {
        let mut moved = from;
        let step = from[column] * STEP;
        moved[column] += step;
        let changed = after(moved)?;
        for (row, line) in slopes.iter_mut().enumerate() {
            line[column] = (changed[row] - to[row]) / step;
        }
    }
    Ok(Place {
        from,
        to,
        slopes: Matrix3(slopes),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::colour::delta_e_00;
    use crate::stain::plan::plan;
    use crate::stain::types::{PlanLimits, PlanRequest, PlanZone, Swatch};

    fn planned() -> (StrengthBook, Vec<ZonePlan>) {
        let base = Lab::new(78.0, 0.0, 13.0);
        let book = StrengthBook::fit(&[
            Swatch::new("umber", 1.0, base, Lab::new(75.9, 1.5, 16.1)),
            Swatch::new("umber", 2.0, base, Lab::new(73.9, 2.9, 18.9)),
        ])
        .unwrap();
        let zones = [
            (Zone::Cervical, [77.0, 0.2, 14.0], [72.0, 3.0, 20.0]),
            (Zone::Incisal, [79.0, -0.5, 11.0], [77.5, 0.3, 13.0]),
        ];
        let request = PlanRequest {
            zones: zones
                .map(|(zone, from, to)| PlanZone {
                    zone,
                    from: Lab(from),
                    to: Lab(to),
                    doubt: 0.0,
                })
                .to_vec(),
            limits: PlanLimits::default(),
        };
        let zones = plan(&book, &request).unwrap().zones;
        (book, zones)
    }

    /// In the middle of a third its own colour becomes the predicted one; the third without a
    /// plan stays; and colours beside it go where the layer model sends them.
    #[test]
    fn each_third_goes_where_its_plan_says() {
        let (book, zones) = planned();
        let along = AlongAxis::of(&book, &zones, [1.0 / 3.0, 2.0 / 3.0]).unwrap();
        let at = |t: f64, lab: Lab| Lab::from_xyz_d65(along.after(t, lab.to_xyz_d65()));
        for (t, zone) in [(0.1, &zones[0]), (0.95, &zones[1])] {
            assert!(delta_e_00(at(t, zone.from), zone.predicted.lab) < 0.05);
        }
        let middle = zones[0].from;
        assert!(delta_e_00(at(0.5, middle), middle) < 0.05);
        let (mix, coats) = (&zones[0].paint.mix, zones[0].paint.coats);
        let mix: Mix = mix
            .iter()
            .map(|s| (s.stain.clone(), f64::from(s.parts) / 10.0))
            .collect();
        for off in [[2.0, 0.5, -1.0], [-3.0, -0.5, 1.5], [1.0, 1.0, 2.0]] {
            let lab = Lab([0, 1, 2].map(|i: usize| zones[0].from.0[i] + off[i]));
            let exact = book.predict(lab, &mix, coats).unwrap().lab;
            let got = at(0.1, lab);
            assert!(delta_e_00(got, exact) < 0.15, "{off:?}: {got:?} {exact:?}");
        }
    }
}
