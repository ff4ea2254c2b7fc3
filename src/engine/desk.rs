//! One open photo with what was already measured on it.

use crate::error::{Error, LightCheck, Result};
use crate::light::checks::card_black;
use crate::light::sharpness::{check_sharpness, measure_sharpness};
use crate::light::{Correction, read_card};
use crate::photo::{Photo, Reduced};
use crate::reading::RegionStatistics;
use crate::scene::find::Search;
use crate::scene::{Axis, Card, Polygon, Region, Scene};
use std::rc::Rc;

/// Pixels of the reduced copy that finding and aligning work on.
const REDUCED_PIXELS: usize = 400_000;

/// What was measured for one outline and axis.
struct Measured {
    corners: Vec<crate::scene::Point>,
    axis: Axis,
    statistics: Rc<RegionStatistics>,
}

/// What was measured on one card.
struct CardMeasured {
    card: Card,
    correction: Option<Correction>,
    checks: Vec<LightCheck>,
}

/// An open photo. Measurements are kept as long as what they belong to is unchanged.
pub struct Desk {
    pub photo: Photo,
    reduced: Option<Rc<Reduced>>,
    search: Option<Rc<Search>>,
    measured: Vec<Measured>,
    card: Option<CardMeasured>,
    sharpness: Option<(Vec<Polygon>, Option<LightCheck>)>,
    partner: Option<Partner>,
}

/// The cross-polarised partner of a photo.
#[derive(Clone, Copy)]
pub struct Partner {
    pub id: u32,
    /// `None` before the pair was aligned; `Some(None)` when that failed.
    pub transform: Option<Option<[[f64; 3]; 2]>>,
}

impl Desk {
    pub const fn new(photo: Photo) -> Self {
        Self {
            photo,
            reduced: None,
            search: None,
            measured: Vec::new(),
            card: None,
            sharpness: None,
            partner: None,
        }
    }

    /// The reduced copy, made once.
    pub fn reduced(&mut self) -> Rc<Reduced> {
        let reduced = self
            .reduced
            .get_or_insert_with(|| Rc::new(self.photo.reduced_linear(REDUCED_PIXELS)));
        Rc::clone(reduced)
    }

    /// What a search over the photo found, made once.
    pub fn search(&mut self) -> Result<Rc<Search>> {
        if let Some(search) = &self.search {
            return Ok(Rc::clone(search));
        }
        let search = Rc::new(Search::of(&self.reduced())?);
        self.search = Some(Rc::clone(&search));
        Ok(search)
    }

    /// The statistics of a region, measured unless they are known.
    pub fn statistics(&mut self, polygon: &Polygon, axis: Axis) -> Rc<RegionStatistics> {
        let known = self
            .measured
            .iter()
            .find(|m| m.axis == axis && m.corners == polygon.corners());
        if let Some(known) = known {
            return Rc::clone(&known.statistics);
        }
        let statistics = Rc::new(RegionStatistics::measure(&self.photo, polygon, &axis));
        self.measured.push(Measured {
            corners: polygon.corners().to_vec(),
            axis,
            statistics: Rc::clone(&statistics),
        });
        statistics
    }

    /// What the edges of the outlined regions say about focus and shake; measured unless the
    /// outlines are the same as before.
    pub fn sharpness(&mut self, outlines: Vec<Polygon>) -> Option<LightCheck> {
        if let Some((of, known)) = &self.sharpness
            && *of == outlines
        {
            return known.clone();
        }
        let measured = measure_sharpness(&self.photo, &outlines);
        let check = measured.as_ref().and_then(check_sharpness);
        self.sharpness = Some((outlines, check.clone()));
        check
    }

    /// Forgets all but the newest measurements: a drag makes one per move.
    pub fn trim(&mut self, keep: usize) {
        let surplus = self.measured.len().saturating_sub(keep);
        self.measured.drain(..surplus);
    }

    /// The correction from a card, read unless it is known; its checks are added to `checks`.
    pub fn correction(
        &mut self,
        card: Option<&Card>,
        checks: &mut Vec<LightCheck>,
    ) -> Result<Option<Correction>> {
        let Some(card) = card else {
            return Ok(None);
        };
        if self.card.as_ref().is_none_or(|known| known.card != *card) {
            let mut found = Vec::new();
            let reading = read_card(&self.photo, card, &mut found)?;
            let matrix = self.photo.xyz_d65_from_linear_rgb();
            let correction = reading
                .as_ref()
                .and_then(|r| Correction::from_card(r, matrix));
            if correction.is_none() && reading.is_some() {
                found.push(card_black());
            }
            if let Some(correction) = &correction {
                crate::light::checks::check_correction(correction, &mut found);
            }
            self.card = Some(CardMeasured {
                card: card.clone(),
                correction,
                checks: found,
            });
        }
        let known = self.card.as_ref();
        checks.extend(known.iter().flat_map(|k| k.checks.clone()));
        Ok(known.and_then(|k| k.correction.clone()))
    }

    pub fn set_partner(&mut self, id: Option<u32>) {
        if self.partner.map(|p| p.id) != id {
            self.partner = id.map(|id| Partner {
                id,
                transform: None,
            });
        }
    }

    pub fn forget_partner(&mut self, id: u32) {
        if self.partner.is_some_and(|p| p.id == id) {
            self.partner = None;
        }
    }

    pub const fn partner(&self) -> Option<Partner> {
        self.partner
    }

    /// Keeps what aligning the pair gave.
    pub fn set_transform(&mut self, transform: Option<[[f64; 3]; 2]>) {
        if let Some(partner) = &mut self.partner {
            partner.transform = Some(transform);
        }
    }
}

/// The checked outline and the axis of a region.
pub fn shape_of(region: &Region) -> Result<(Polygon, Axis)> {
    let name = if region.name.is_empty() {
        &region.id
    } else {
        &region.name
    };
    let polygon = Polygon::new(&region.outline, &format!("The outline of “{name}”"))?;
    let axis = Axis::of(region, &polygon);
    Ok((polygon, axis))
}

/// A region of a scene by its id.
pub fn region_in<'a>(scene: &'a Scene, id: &str) -> Result<&'a Region> {
    scene.regions.iter().find(|r| r.id == id).ok_or_else(|| {
        Error::input(
            "That region is not in the scene.",
            "Choose one of the outlined regions.",
        )
    })
}
