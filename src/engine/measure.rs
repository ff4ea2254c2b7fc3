//! One photo measured: card, tabs as anchors, light, readings of its regions.

use super::desk::{Desk, shape_of};
use super::known::{anchors, name_of, patches};
use crate::error::{CheckCode, LightCheck, Result, Severity};
use crate::light::anchor::{Judged, anchor};
use crate::light::evenness;
use crate::light::model::{Before, Frame, LightModel};
use crate::light::{AnchorTab, Correction, Trust, checks, read_card};
use crate::reading::form::{Form, Sheen};
use crate::reading::guide::{Guide, GuideSource};
use crate::reading::read::{Light, Outlined, read_region};
use crate::reading::{RegionReading, RegionStatistics, surface};
use crate::scene::{Card, Point, Scene};
use std::rc::Rc;

/// A freer fit has to bring what the tabs put each other off by under this share of it.
const SETTLES: f64 = 1.05;
/// Contrast that a picture without a tone curve does not ask for.
const BENT: f64 = 0.08;
/// Where it does, teeth lighter or darker than all tabs are off by about as much as tabs that put
/// each other off by this much (ΔE00).
const BENT_DOUBT: f64 = 4.0;
/// Relative uncertainty of what a second card says beside the first.
const SECOND_CARD: f64 = 0.012;

/// A region measured, before the light is known for good.
pub struct Gathered {
    pub statistics: Rc<RegionStatistics>,
    pub form: Form,
}

/// A photo measured.
pub struct Measured {
    pub correction: Correction,
    pub regions: Vec<Gathered>,
    pub model: LightModel,
    pub tabs: Vec<AnchorTab>,
    pub trust: Trust,
    pub left_out: f64,
    pub sheen_measured: bool,
}

/// What is measured with.
#[derive(Clone, Copy)]
pub struct With<'a> {
    pub scene: &'a Scene,
    pub guide: &'a Guide,
    pub polarised: bool,
    /// Sheen of each region's thirds, from the pair.
    pub sheen: Option<&'a [[Option<f64>; 3]]>,
}

/// Measures a photo; `None` without a usable card, with the checks that say why.
pub fn measure(
    desk: &mut Desk,
    with: With<'_>,
    checks: &mut Vec<LightCheck>,
) -> Result<Option<Measured>> {
    let scene = with.scene;
    let Some(correction) = desk.correction(scene.card.as_ref(), checks)? else {
        return Ok(None);
    };
    let mut regions = Vec::with_capacity(scene.regions.len());
    let mut polygons = Vec::with_capacity(scene.regions.len());
    for (i, region) in scene.regions.iter().enumerate() {
        let (polygon, axis) = shape_of(region)?;
        let statistics = desk.statistics(&polygon, axis);
        let sheen = match with.sheen.and_then(|s| s.get(i)) {
            _ if with.polarised => Sheen::None,
            Some(known) => Sheen::Known(*known),
            None => Sheen::Find,
        };
        let form = Form::of(&statistics, &correction, &axis, sheen);
        regions.push(Gathered { statistics, form });
        polygons.push(polygon);
    }
    checks.extend(desk.sharpness(polygons));
    let frame = frame(desk, scene, &correction);
    let processed = desk
        .photo
        .checks()
        .iter()
        .any(|c| c.code == CheckCode::Processed && c.severity != Severity::Note);
    let known = Before {
        card_uncertainty: correction.gain_uncertainty,
        steps: correction.steps > 1,
        processed,
        polarised: with.polarised,
    };
    let second = match &scene.second_card {
        Some(second) => second_card(desk, second, &correction, checks)?,
        None => None,
    };
    let model = |known: Before| {
        let mut model = LightModel::before_tabs(frame, known);
        if let Some((place, lighter_log)) = second {
            model.observe_second_card(place, lighter_log, SECOND_CARD);
        }
        model
    };
    let anchors = anchors(scene, &regions, with.guide, checks);
    let matrix = &correction.xyz_d65_from_linear_rgb;
    let mut anchored = anchor(&model(known), &anchors, matrix);
    let mut bent_tone = false;
    if !processed && anchored.is_strained() {
        // Card and tabs disagree: a tone curve that nothing else told of would do that.
        let bent = Before {
            processed: true,
            ..known
        };
        let freer = anchor(&model(bent), &anchors, matrix);
        if freer.left_out() < SETTLES * anchored.left_out() {
            let [contrast, sd] = freer.light.contrast();
            if contrast.abs() > BENT && contrast.abs() > 2.0 * sd {
                checks.push(checks::tone_by_tabs());
                bent_tone = true;
            }
            anchored = freer;
        }
    }
    let tabs = named(scene, &anchored.tabs);
    let used = tabs.iter().any(|t| t.used);
    let trust = match (used, with.guide.source, correction.steps > 1) {
        (true, GuideSource::Measured, _) => Trust::CardAndOwnTabs,
        (true, GuideSource::Published, _) => Trust::CardAndTabs,
        (false, _, true) => Trust::CardSteps,
        (false, _, false) => Trust::Card,
    };
    let own = with.guide.source == GuideSource::Measured;
    checks::check_tabs(&tabs, own, checks);
    if used {
        checks::check_card_by_tabs(&anchored.light, own, checks);
    }
    let patches = patches(scene, &regions, &anchors, &correction);
    if let Some(trend) = evenness::trend(&patches) {
        evenness::check_trend(&trend, checks);
    }
    if !with.polarised {
        let pairs = scene.regions.iter().zip(&regions);
        let sides = pairs.map(|(region, g)| (region.kind, &*g.statistics, &g.form));
        surface::check_surfaces(sides, checks);
    }
    Ok(Some(Measured {
        left_out: anchored
            .left_out()
            .max(if bent_tone { BENT_DOUBT } else { 0.0 }),
        correction,
        regions,
        model: anchored.light,
        tabs,
        trust,
        sheen_measured: with.sheen.is_some(),
    }))
}

impl Measured {
    /// What turns what is seen into colours.
    pub const fn light(&self) -> Light<'_> {
        Light {
            left_out_delta_e_00: self.left_out,
            correction: &self.correction,
            model: &self.model,
            trust: self.trust,
            sheen_measured: self.sheen_measured,
        }
    }

    /// The readings of all regions.
    pub fn read(
        &self,
        desk: &Desk,
        scene: &Scene,
        checks: &mut Vec<LightCheck>,
    ) -> Vec<RegionReading> {
        let light = self.light();
        let pairs = scene.regions.iter().zip(&self.regions);
        pairs
            .map(|(region, gathered)| {
                let outlined = Outlined {
                    region,
                    statistics: &gathered.statistics,
                    form: &gathered.form,
                };
                read_region(&desk.photo, outlined, light, checks)
            })
            .collect()
    }

    /// Largest over smallest light on the outlined regions, less one.
    pub fn falloff(&self) -> f64 {
        let places = self
            .regions
            .iter()
            .flat_map(|r| r.form.zones.iter().flatten());
        let [low, high] = places
            .map(|z| self.model.light_at(z.seen.place)[0])
            .fold([f64::INFINITY, f64::NEG_INFINITY], |[l, h], v| {
                [l.min(v), h.max(v)]
            });
        if high > low {
            libm::exp(high - low) - 1.0
        } else {
            0.0
        }
    }
}

fn frame(desk: &Desk, scene: &Scene, correction: &Correction) -> Frame {
    let (w, h) = (
        f64::from(desk.photo.width_px()),
        f64::from(desk.photo.height_px()),
    );
    let centre = [(w - 1.0) / 2.0, (h - 1.0) / 2.0];
    Frame {
        centre,
        half_diagonal_px: libm::hypot(w, h) / 2.0,
        card: scene.card.as_ref().and_then(middle).unwrap_or(centre),
        card_level: correction.card_level,
    }
}

/// The middle of a card or of its steps.
fn middle(card: &Card) -> Option<[f64; 2]> {
    let steps = card.steps.iter().map(|s| &s.outline);
    let outlines: Vec<&Vec<Point>> = if card.steps.is_empty() {
        vec![&card.outline]
    } else {
        steps.collect()
    };
    let corners: Vec<&Point> = outlines.into_iter().flatten().collect();
    let n = corners.len() as f64;
    (n > 0.0).then(|| {
        [
            corners.iter().map(|p| p.x()).sum::<f64>() / n,
            corners.iter().map(|p| p.y()).sum::<f64>() / n,
        ]
    })
}

/// The place of a second card, and how much lighter (ln) it reads there than it should.
fn second_card(
    desk: &Desk,
    card: &Card,
    correction: &Correction,
    checks: &mut Vec<LightCheck>,
) -> Result<Option<([f64; 2], f64)>> {
    let mut own = Vec::new();
    let reading = read_card(&desk.photo, card, &mut own)?;
    checks.extend(own.into_iter().map(|mut c| {
        c.text = format!("At the card's second place: {}", c.text);
        // The first card still balances.
        c.severity = c.severity.max(Severity::Care);
        c
    }));
    let (Some(reading), Some(place)) = (reading, middle(card)) else {
        return Ok(None);
    };
    let (mut sum, mut n) = (0.0, 0.0);
    for step in &reading.steps {
        let seen = correction.luminance(correction.balanced(step.patch.linear_rgb));
        let [_, known, _] = step.known.to_xyz_d65();
        if seen > 1e-5 && known > 1e-5 {
            sum += libm::log(seen / known);
            n += 1.0;
        }
    }
    Ok((n > 0.0).then(|| (place, sum / n)))
}

fn named(scene: &Scene, tabs: &[Judged]) -> Vec<AnchorTab> {
    tabs.iter()
        .filter_map(|judged| {
            let region = scene.regions.get(judged.tab)?;
            Some(AnchorTab {
                region: region.id.clone(),
                name: name_of(region).to_owned(),
                left_out_delta_e_00: judged.left_out_delta_e_00,
                used: judged.used,
            })
        })
        .collect()
}
