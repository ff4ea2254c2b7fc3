//! From a tap to the outline of a card, and what all outlines are grown with.
//!
//! Works on a reduced copy in linear light. The outline is the best closed curve around the
//! tap, found as a whole (see [`radial`]), so that a weak stretch of border – the contact with
//! a neighbouring tooth – does not let it leak.

pub mod features;
pub mod outline;
pub mod path;
pub mod radial;
pub mod rays;
pub mod refine;

use super::polygon::Polygon;
use super::types::{Point, Rect};
use crate::error::{Error, Result};
use crate::photo::Reduced;
use features::{Features, Model};
use radial::{Closed, Fan, How};

/// Rounds of learning the colour inside and searching again.
const ROUNDS: usize = 4;

/// The outline of the card under a tap, as a quadrilateral where it is one.
pub fn outline_card(features: &Features, reduced: &Reduced, tap: Point) -> Result<Vec<Point>> {
    let seed = features
        .reduced_from_photo(reduced, tap)
        .ok_or_else(outside)?;
    let limit = features.longest_side() * 0.6;
    let curve = search(features, seed, limit, How::CARD);
    let photo = to_photo(reduced, &outline::corners(&curve.outline(), true));
    checked(photo, "card")
}

/// The outline of the card within a dragged box: the curve around the box's middle, kept
/// inside the box; the box itself when nothing in it stands out.
pub fn outline_card_in(reduced: &Reduced, area: Rect) -> Result<Vec<Point>> {
    let sane = [area.x, area.y, area.width, area.height]
        .iter()
        .all(|v| v.is_finite());
    if !sane || area.width < 1.0 || area.height < 1.0 {
        return Err(Error::input(
            "The box encloses nothing.",
            "Drag a box over the grey card.",
        ));
    }
    let features = Features::of(reduced)?;
    let middle = Point::new(area.x + area.width / 2.0, area.y + area.height / 2.0);
    let seed = features
        .reduced_from_photo(reduced, middle)
        .ok_or_else(outside)?;
    let limit = libm::hypot(area.width / reduced.scale_x, area.height / reduced.scale_y) / 2.0;
    let curve = search(&features, seed, limit.max(4.0), How::CARD);
    let (x1, y1) = (area.x + area.width, area.y + area.height);
    let photo: Vec<Point> = to_photo(reduced, &outline::corners(&curve.outline(), true))
        .into_iter()
        .map(|p| Point::new(p.x().clamp(area.x, x1), p.y().clamp(area.y, y1)))
        .collect();
    let fills = |o: &[Point]| Polygon::new(o, "The card's outline").map_or(0.0, |p| p.area_px());
    if fills(&photo) >= 0.3 * area.width * area.height {
        return Ok(photo);
    }
    Ok(vec![
        Point::new(area.x, area.y),
        Point::new(x1, area.y),
        Point::new(x1, y1),
        Point::new(area.x, y1),
    ])
}

/// Sizes of the disc around the tap that the first colour is learned from, in longest sides. A
/// small one may lie wholly on a highlight or a stain; the best curve of all sizes is taken.
const FIRST_DISCS: [f64; 3] = [0.012, 0.028, 0.05];

/// The best curve of several first guesses.
fn search(features: &Features, seed: [f64; 2], limit: f64, how: How) -> Closed {
    let from_disc = |share: f64| {
        let radius = (features.longest_side() * share).max(2.0);
        let first = Model::around(features, seed, radius, &how);
        settle(features, seed, first, limit, how)
    };
    let [small, larger @ ..] = FIRST_DISCS;
    larger.into_iter().fold(from_disc(small), |best, share| {
        let next = from_disc(share);
        if next.score() > best.score() {
            next
        } else {
            best
        }
    })
}

/// Searches, learns the colour inside what was found, and searches again from its middle.
fn settle(features: &Features, seed: [f64; 2], first: Model, limit: f64, how: How) -> Closed {
    let mut model = first;
    let mut centre = seed;
    let mut best = radial::best_curve(features, centre, &model, [0.0, limit], &how, &Fan::FINE);
    for _ in 1..ROUNDS {
        let inner = best.shrunk(0.75);
        model = Model::within(features, centre, &inner, &how).unwrap_or(model);
        let middle = best.middle();
        // A middle outside the curve would be a broken curve; the tap stays inside for certain.
        let next = if best.contains(middle) {
            middle
        } else {
            centre
        };
        let curve = radial::best_curve(features, next, &model, [0.0, limit], &how, &Fan::FINE);
        if !curve.contains(seed) {
            break;
        }
        centre = next;
        best = curve;
    }
    refine::refined(features, &best, &model, &how)
}

fn to_photo(reduced: &Reduced, outline: &[[f64; 2]]) -> Vec<Point> {
    let photo = |p: &[f64; 2]| Point(reduced.photo_from_reduced(*p));
    outline.iter().map(photo).collect()
}

fn checked(outline: Vec<Point>, what: &str) -> Result<Vec<Point>> {
    Polygon::new(&outline, "The outline").map_err(|_| {
        Error::input(
            format!("No {what} stands out at that place."),
            "Tap nearer to its middle, or draw the outline by its corners.",
        )
    })?;
    Ok(outline)
}

fn outside() -> Error {
    Error::input("That place is not in the photo.", "Tap inside the photo.")
}
