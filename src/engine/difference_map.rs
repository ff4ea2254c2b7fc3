//! Where a region differs from its target: a map for the eye, in ΔE00 (1:1:1) under D65.
//!
//! Each cell's colour, freed from the photo's light, sheen and shading as readings are, stands
//! against the target's smooth colour at the same place: thirds of the one on thirds of the other
//! by their own borders, and as far across. What lightness does across a crown is mostly its form
//! and how it is turned to the light, so each side's smooth change of it across is taken out; a
//! local change stays. The mean over a third is therefore what readings say of that third.

use super::measure::Measured;
use super::picture::{Off, Subject, map, subject, too_few_pixels};
use super::report::{check_scene, measured};
use super::{Engine, Patch};
use crate::colour::{Lab, Vec3, delta_e_00};
use crate::error::Result;
use crate::reading::form::Form;
use crate::reading::read::Light;
use crate::reading::smooth::{SmoothLab, is_usable, unevenness};
use crate::reading::statistics::Cell;
use crate::scene::Scene;

/// The map is full at this difference: far beyond what is accepted (1.8), so that differences
/// worth a stain still show their steps.
const FULL_DELTA_E_00: f64 = 6.0;
/// Gauss's two places, whose mean is that of a quadratic over −1–1.
const MEAN_ACROSS: f64 = 0.577_350_269_189_625_8;
/// Shading across, as a factor of L* + 16, is not believed beyond this.
const SHADING: [f64; 2] = [0.5, 2.0];

/// The map of a region against a target.
pub fn difference(
    engine: &mut Engine,
    id: u32,
    scene: &Scene,
    names: (&str, &str),
    max_px: usize,
) -> Result<Patch> {
    let (own, pairs) = pairs(engine, id, scene, names)?;
    let off: Vec<Off> = pairs
        .into_iter()
        .map(|[wanted, is]| [delta_e_00(wanted, is), is.l() - wanted.l()])
        .collect();
    map(engine, id, &own, max_px, &off, FULL_DELTA_E_00)
}

/// For each cell of a region: the target's colour at its place, and its own; its smooth one where
/// glare or the outline leave no pixels.
fn pairs(
    engine: &mut Engine,
    id: u32,
    scene: &Scene,
    (region, target): (&str, &str),
) -> Result<(Subject, Vec<[Lab; 2]>)> {
    check_scene(scene)?;
    let (_, measured) = measured(engine, id, scene, &mut Vec::new(), &mut Vec::new())?;
    let is = Side::of(engine, id, scene, measured.as_ref(), region)?;
    let wanted = Side::of(engine, id, scene, measured.as_ref(), target)?;
    let pair = |c: &Cell| {
        let at = is.subject.axis.matched(c.along, &wanted.subject.axis);
        let own = c.sums.mean().filter(|_| is_usable(c));
        let own = own.and_then(|mean| freed(&is.light, is.form, c, mean));
        let own = own.unwrap_or_else(|| is.smooth.at(c.along, c.across));
        [
            wanted.facing(wanted.smooth.at(at, c.across), at, c.across),
            is.facing(own, c.along, c.across),
        ]
    };
    let pairs = is.subject.measured.cells.iter().map(pair).collect();
    Ok((is.subject, pairs))
}

/// A region with what frees its colours from the light.
struct Side<'a> {
    subject: Subject,
    light: Light<'a>,
    form: &'a Form,
    smooth: SmoothLab,
}

impl<'a> Side<'a> {
    // One copy serves both sides.
    #[inline(never)]
    fn of(
        engine: &mut Engine,
        id: u32,
        scene: &Scene,
        measured: Option<&'a Measured>,
        name: &str,
    ) -> Result<Self> {
        let subject = subject(engine, id, scene, name)?;
        let at = scene.regions.iter().position(|r| r.id == name);
        measured
            .zip(at)
            .and_then(|(measured, at)| {
                let (light, form) = (measured.light(), &measured.regions.get(at)?.form);
                let lab = |c: &Cell, mean: Vec3| freed(&light, form, c, mean);
                let smooth = unevenness(&subject.measured.cells, &lab)?.smooth;
                Some(Self {
                    subject,
                    light,
                    form,
                    smooth,
                })
            })
            .ok_or_else(too_few_pixels)
    }

    /// A colour at a place along and across, with the light that its surface has on the mean
    /// across: all of XYZ by one factor, which is one factor of L* + 16, a* and b*.
    fn facing(&self, lab: Lab, along: f64, across: f64) -> Lab {
        let light = |across: f64| self.smooth.at(along, across).l() + 16.0;
        let mean = f64::midpoint(light(-MEAN_ACROSS), light(MEAN_ACROSS));
        let [low, high] = SHADING;
        let by = (mean / light(across).max(1.0)).clamp(low, high);
        let [l, a, b] = lab.0;
        Lab::new((l + 16.0) * by - 16.0, a * by, b * by)
    }
}

/// The colour of a cell's mean, as a reading there would have it.
fn freed(light: &Light<'_>, form: &Form, cell: &Cell, mean: Vec3) -> Option<Lab> {
    let seen = form.free(mean, light.correction, cell.along)?;
    Some(light.lab(&seen))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::ReadOptions;
    use crate::scene::{RegionKind, Zone};

    #[derive(serde::Deserialize)]
    struct Truth {
        scene: Scene,
    }

    /// The cells of each third, taken together, differ as the readings of that third do, in sign
    /// and size: what is left is that readings are means in linear light over all pixels of a
    /// third, and take sheen and shading at its middle.
    #[test]
    fn thirds_differ_as_advice_says() {
        let truth: Truth =
            serde_json::from_str(include_str!("../../fixtures/demo/demo.truth.json")).unwrap();
        let scene = truth.scene;
        let mut engine = Engine::new().unwrap();
        let photo = include_bytes!("../../fixtures/demo/demo.jpg");
        let id = engine.open(photo).unwrap().id;
        let own = scene
            .regions
            .iter()
            .find(|r| r.kind == RegionKind::Restoration);
        let own = own.unwrap().id.as_str();
        for target in scene.regions.iter().filter(|r| r.id != own) {
            let options = ReadOptions {
                target: Some(target.id.clone()),
            };
            let report = engine.read(id, &scene, &options).unwrap();
            let (subject, pairs) = pairs(&mut engine, id, &scene, (own, &target.id)).unwrap();
            for said in &report.advice[0].zones {
                let (mut sums, mut weights) = ([[0.0; 3]; 2], 0.0);
                for (cell, pair) in subject.measured.cells.iter().zip(&pairs) {
                    let third = Zone::THIRDS[cell.third];
                    if third != said.zone {
                        continue;
                    }
                    let weight = f64::from(cell.sums.used);
                    weights += weight;
                    for (sum, lab) in sums.iter_mut().zip(pair) {
                        for (s, v) in sum.iter_mut().zip(lab.0) {
                            *s += weight * v;
                        }
                    }
                }
                let [wanted, is] = sums.map(|s| Lab(s.map(|v| v / weights)));
                let found = crate::colour::delta_e_00_parts(wanted, is);
                let off = [
                    found.delta_e_00 - said.delta_e_00,
                    found.delta_l - said.delta_l,
                    found.delta_c - said.delta_c,
                    found.delta_h - said.delta_h,
                ];
                println!(
                    "{} {:?} {:.2} {off:.2?}",
                    target.id, said.zone, said.delta_e_00
                );
                assert!(
                    off.iter().all(|o| o.abs() < 0.5),
                    "{} {:?}: {off:?}",
                    target.id,
                    said.zone
                );
            }
        }
    }
}
