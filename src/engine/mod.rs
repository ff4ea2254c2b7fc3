//! The façade: holds photos by handle, recomputes only what a change touches, and gives plain
//! data. Knows neither the DOM nor how its data is carried.

#[cfg(feature = "case")]
pub mod case;
mod desk;
mod difference_map;
mod known;
mod light;
mod measure;
mod overlay;
mod pair;
mod picture;
mod recolour;
mod report;
mod stain;
mod straighten;
pub mod types;

pub use types::{Opened, Pair, Patch, ReadOptions, Report};

use crate::error::{Error, Result};
use crate::photo::{Photo, Preview};
use crate::reading::{ColourPair, Difference, Guide, difference};
use crate::scene::find::{self, Found, FoundRegion};
use crate::scene::{Point, Rect, Scene, cut, grow};
use crate::stain::{StrengthBook, SwatchBook, ZonePlan};
use desk::{Desk, region_in};
use std::collections::BTreeMap;

/// Photos that may be open at once.
const MAX_OPEN: usize = 64;

/// Everything that is open.
pub struct Engine {
    desks: BTreeMap<u32, Desk>,
    next_id: u32,
    guide: Guide,
    /// The user replaced the default guide.
    guide_chosen: bool,
    /// The last book of swatches and its strengths.
    stains: Option<(SwatchBook, StrengthBook)>,
}

impl Engine {
    /// An empty desk with the default guide.
    pub fn new() -> Result<Self> {
        Ok(Self {
            desks: BTreeMap::new(),
            next_id: 1,
            guide: Guide::classical_sixteen()?,
            guide_chosen: false,
            stains: None,
        })
    }

    /// Opens a photo. What is open already stays as it is, also when this fails.
    pub fn open(&mut self, bytes: &[u8]) -> Result<Opened> {
        if self.desks.len() >= MAX_OPEN {
            return Err(Error::input(
                format!("{MAX_OPEN} photos are open."),
                "Close one before opening another.",
            ));
        }
        let photo = Photo::decode(bytes)?;
        let id = self.next_id;
        self.next_id = self.next_id.wrapping_add(1);
        let opened = Opened {
            id,
            info: photo.info().clone(),
            checks: photo.checks().to_vec(),
        };
        self.desks.insert(id, Desk::new(photo));
        Ok(opened)
    }

    /// Closes a photo and frees its memory.
    pub fn close(&mut self, id: u32) {
        self.desks.remove(&id);
        for desk in self.desks.values_mut() {
            desk.forget_partner(id);
        }
    }

    /// A reduced copy for the eye, at most `max_px` pixels.
    pub fn preview(&self, id: u32, max_px: usize) -> Result<Preview> {
        Ok(self.desk(id)?.photo.preview(max_px))
    }

    /// What there is at once for the eye: of a large JPEG its reduced picture, else the preview.
    pub fn glimpse(&self, id: u32, max_px: usize) -> Result<Preview> {
        Ok(self.desk(id)?.photo.glimpse(max_px))
    }

    /// One strip of a preview, from above; `None` after the last.
    pub fn preview_strip(&self, id: u32, max_px: usize, strip: u32) -> Result<Option<Preview>> {
        Ok(self.desk(id)?.photo.preview_strip(max_px, strip))
    }

    /// Card, tabs and crowns, without a tap.
    pub fn find(&mut self, id: u32) -> Result<Found> {
        let desk = self.desk_mut(id)?;
        let (reduced, search) = (desk.reduced(), desk.search()?);
        Ok(find::found(&search, &reduced))
    }

    /// The outlines that a tap can mean, the likeliest first.
    pub fn outline_choices(&mut self, id: u32, tap: Point) -> Result<Vec<FoundRegion>> {
        let desk = self.desk_mut(id)?;
        let (reduced, search) = (desk.reduced(), desk.search()?);
        find::choices(&search, &reduced, tap)
    }

    /// The pieces that a stroke cuts an outline into, the largest first, with their axes; empty
    /// when it does not cross the outline.
    pub fn cut_outline(
        &mut self,
        id: u32,
        outline: &[Point],
        stroke: &[Point],
    ) -> Result<Vec<FoundRegion>> {
        let desk = self.desk_mut(id)?;
        let (reduced, search) = (desk.reduced(), desk.search()?);
        let pieces = cut::cut(outline, stroke);
        Ok(find::described(&search, &reduced, pieces))
    }

    /// The outline of the card, or of one of its steps, under a tap.
    pub fn outline_card(&mut self, id: u32, tap: Point) -> Result<Vec<Point>> {
        let desk = self.desk_mut(id)?;
        let (reduced, search) = (desk.reduced(), desk.search()?);
        match find::card_at(&search, &reduced, tap) {
            Some(outline) => Ok(outline),
            None => grow::outline_card(&search.features, &reduced, tap),
        }
    }

    /// The outline of the card within a dragged box.
    pub fn outline_card_in(&mut self, id: u32, area: Rect) -> Result<Vec<Point>> {
        let reduced = self.desk_mut(id)?.reduced();
        grow::outline_card_in(&reduced, area)
    }

    /// The shade guide in use.
    pub const fn guide(&self) -> &Guide {
        &self.guide
    }

    /// Replaces the shade guide; `None` brings the default back.
    pub fn set_guide(&mut self, guide: Option<Guide>) -> Result<()> {
        if let Some(guide) = guide {
            guide.check()?;
            self.guide = guide;
            self.guide_chosen = true;
        } else {
            self.guide = Guide::classical_sixteen()?;
            self.guide_chosen = false;
        }
        Ok(())
    }

    /// Makes one open photo the cross-polarised partner of another.
    pub fn set_pair(&mut self, id: u32, polarised: Option<u32>) -> Result<()> {
        if let Some(partner) = polarised {
            self.desk(partner)?;
            if partner == id {
                return Err(Error::input(
                    "A photo cannot be its own cross-polarised partner.",
                    "Choose the other photo of the pair.",
                ));
            }
        }
        self.desk_mut(id)?.set_partner(polarised);
        Ok(())
    }

    /// Reads the scene of a photo.
    pub fn read(&mut self, id: u32, scene: &Scene, options: &ReadOptions) -> Result<Report> {
        report::make(self, id, scene, options)
    }

    /// How plain colours differ, pair by pair, `to − from`: for colours of several photos, or tab
    /// against tab. At most 4096 pairs.
    pub fn differences(&self, pairs: &[ColourPair]) -> Result<Vec<Difference>> {
        difference::differences(pairs)
    }

    /// A region turned so that its axis is vertical, cervical on top, `height_px` high along
    /// the axis, balanced by the card; transparent outside the outline. For the eye only.
    pub fn straightened(
        &mut self,
        id: u32,
        scene: &Scene,
        region: &str,
        height_px: u32,
    ) -> Result<Preview> {
        let region = region_in(scene, region)?;
        let desk = self.desk_mut(id)?;
        let correction = desk
            .correction(scene.card.as_ref(), &mut Vec::new())
            .unwrap_or(None);
        straighten::straighten(&desk.photo, correction.as_ref(), region, height_px, None)
    }

    /// Where and how much glare the plain photo shows against its cross-polarised partner: dark
    /// grey for none, white for 30 % of a perfect diffuser's light and more. For the eye only.
    pub fn glare_map(&mut self, id: u32, scene: &Scene, max_px: usize) -> Result<Preview> {
        overlay::glare_map(self, id, scene, max_px)
    }

    /// A region as [`Engine::straightened`] shows it, with each pixel as a plan predicts it and
    /// the glare kept. For the eye only.
    pub fn planned_picture(
        &mut self,
        id: u32,
        scene: &Scene,
        region: &str,
        book: &SwatchBook,
        zones: &[ZonePlan],
        height_px: u32,
    ) -> Result<Preview> {
        picture::planned(self, id, scene, region, (book, zones), height_px)
    }

    /// The same in the photo's own frame and colours: a patch to lay over it.
    pub fn planned_patch(
        &mut self,
        id: u32,
        scene: &Scene,
        region: &str,
        book: &SwatchBook,
        zones: &[ZonePlan],
        max_px: usize,
    ) -> Result<Patch> {
        picture::patch(self, id, scene, region, (book, zones), max_px)
    }

    /// Where a region differs from its own smooth change from neck to edge: a patch to lay over
    /// the photo, clear where it is even, black where it is darker, white where it is lighter,
    /// full at a difference of ΔE00 3. For the eye only.
    pub fn evenness_map(
        &mut self,
        id: u32,
        scene: &Scene,
        region: &str,
        max_px: usize,
    ) -> Result<Patch> {
        picture::evenness(self, id, scene, region, max_px)
    }

    /// Where a region differs from a target in the same photo: a patch to lay over the photo,
    /// white where the region is lighter than the target at the same place of the same third,
    /// black where it is darker, clear where they agree, full at a difference of ΔE00 6. For the
    /// eye only.
    pub fn difference_map(
        &mut self,
        id: u32,
        scene: &Scene,
        region: &str,
        target: &str,
        max_px: usize,
    ) -> Result<Patch> {
        difference_map::difference(self, id, scene, (region, target), max_px)
    }

    fn desk(&self, id: u32) -> Result<&Desk> {
        self.desks.get(&id).ok_or_else(not_open)
    }

    fn desk_mut(&mut self, id: u32) -> Result<&mut Desk> {
        self.desks.get_mut(&id).ok_or_else(not_open)
    }
}

fn not_open() -> Error {
    Error::input("That photo is no longer open.", "Open the photo again.")
}
