//! What is found in a photo by itself, and by one tap, against the true outlines.

use crate::middle_of;
use scene_render::spec::{SceneSpec, Variety};
use scene_render::truth::Truth;
use tabside::engine::Engine;
use tabside::photo::Preview;
use tabside::scene::find::{Found, FoundRegion};
use tabside::scene::polygon::{RowScratch, Span};
use tabside::scene::{Point, Polygon, RegionKind};

/// Overlap from which a thing counts as found.
pub const FOUND: f64 = 0.7;
/// Below this a found outline lies on nothing.
const NOTHING: f64 = 0.4;
/// Crowns smaller than this share of the photo, or less visible, are not asked for.
const LEAST_AREA: f64 = 0.002;
const LEAST_VISIBLE: f64 = 0.45;
/// Pixels of the picture on the contact sheet.
const PREVIEW_PX: usize = 400_000;

/// One crown or tab that is really there.
#[derive(Debug, Clone)]
pub struct CrownScore {
    /// Which scene and region.
    pub what: String,
    /// Tooth, restoration or tab.
    pub kind: String,
    /// How much of it is seen, 0–1.
    pub visible: f64,
    /// Area in both outlines ÷ area in either, of the best one found without a tap.
    pub found: f64,
    /// The same of the first outline offered for a tap in its middle.
    pub tapped: f64,
    /// The same of the best outline offered for that tap.
    pub offered: f64,
    /// Angle between found and true axis, degrees (0–180), where found.
    pub axis_deg: Option<f64>,
    /// Whether a tab was taken for a tab and a tooth for a tooth, where found.
    pub kind_right: Option<bool>,
}

/// What was said about the card.
#[derive(Debug, Clone, Copy, Default)]
pub struct CardScore {
    /// One is there, and enough of it.
    pub there: bool,
    /// Only a little of one is seen: neither asked for nor held against the search.
    pub sliver: bool,
    /// Overlap of the claimed card with the true one; none when none was claimed.
    pub claimed: Option<f64>,
    /// True and found number of neutral steps.
    pub steps: [usize; 2],
    /// Overlap of the outline grown from a tap in its middle.
    pub tapped: Option<f64>,
}

/// What was proposed for the one restoration of a photo.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Proposal {
    /// Nothing.
    None,
    /// The restoration.
    Right,
    /// A tooth.
    Wrong,
}

/// One photo.
pub struct SceneScore {
    /// Its seed.
    pub seed: u64,
    /// What is there.
    pub crowns: Vec<CrownScore>,
    /// Its card.
    pub card: CardScore,
    /// Where one restoration is there: what was proposed.
    pub proposal: Option<Proposal>,
    /// Outlines found that lie on no crown or tab.
    pub false_outlines: usize,
    /// All outlines found.
    pub outlines: usize,
    /// For the contact sheet: the photo, with its scale, what was found, and the middles of what
    /// was missed.
    pub picture: Picture,
}

/// A small picture with what was found in it.
pub struct Picture {
    /// The photo.
    pub preview: Preview,
    /// Preview pixels per photo pixel.
    pub scale: f64,
    /// Outlines in photo pixels, and whether each is right.
    pub outlines: Vec<(Vec<Point>, bool)>,
    /// Middles of what was missed, in photo pixels.
    pub missed: Vec<Point>,
}

impl SceneScore {
    /// How bad the photo went, larger is worse: share missed, false outlines, a card missed.
    pub fn badness(&self) -> f64 {
        let missed = self.crowns.iter().filter(|c| c.found < FOUND).count();
        let card = match (self.card.there, self.card.claimed) {
            (true, Some(o)) => f64::from(u8::from(o < FOUND)),
            (true, None) => 1.0,
            (false, Some(_)) if !self.card.sliver => 1.0,
            (false, _) => 0.0,
        };
        missed as f64 + self.false_outlines as f64 + 2.0 * card
    }
}

/// Searches and taps a seed's scene.
///
/// # Errors
/// When rendering or opening fails.
pub fn score_random(seed: u64, variety: &Variety) -> Result<SceneScore, String> {
    let rendered = scene_render::render(&SceneSpec::random(seed, variety))?;
    score_photo(seed, &rendered.plain.bytes, &rendered.truth)
}

/// Searches and taps a photo with known truth.
///
/// # Errors
/// When opening fails.
pub fn score_photo(seed: u64, bytes: &[u8], truth: &Truth) -> Result<SceneScore, String> {
    let mut engine = Engine::new().map_err(|e| e.to_string())?;
    let photo = engine.open(bytes).map_err(|e| e.to_string())?;
    let size = [photo.info.width, photo.info.height];
    let found = engine.find(photo.id).map_err(|e| e.to_string())?;
    let area = f64::from(size[0]) * f64::from(size[1]);
    let mut best_of_found = vec![0.0_f64; found.regions.len()];
    let mut crowns = Vec::new();
    let mut missed = Vec::new();
    for region in &truth.crowns {
        let outline = points(&region.outline);
        let overlaps: Vec<f64> = found
            .regions
            .iter()
            .map(|f| overlap(&f.outline, &outline, size))
            .collect();
        for (best, o) in best_of_found.iter_mut().zip(&overlaps) {
            *best = best.max(*o);
        }
        let own = Polygon::new(&outline, "crown").map_or(0.0, |p| p.area_px());
        let [x, y] = middle_of(region);
        let inside = x > 0.0 && y > 0.0 && x < f64::from(size[0]) && y < f64::from(size[1]);
        // A sliver at the frame or behind a holder is nothing that anybody would tap.
        if own < LEAST_AREA * area || region.visible_share < LEAST_VISIBLE || !inside {
            continue;
        }
        let tap = inner_place(&outline, Point::new(x, y));
        let choices = engine.outline_choices(photo.id, tap).unwrap_or_default();
        let of = |r: &FoundRegion| overlap(&r.outline, &outline, size);
        let top = (0..overlaps.len()).max_by(|a, b| overlaps[*a].total_cmp(&overlaps[*b]));
        let matched = top
            .filter(|i| overlaps[*i] >= FOUND)
            .map(|i| &found.regions[i]);
        if matched.is_none() {
            missed.push(tap);
        }
        crowns.push(CrownScore {
            what: format!("seed {seed} {}", region.id),
            kind: region.kind.clone(),
            visible: region.visible_share,
            found: top.map_or(0.0, |i| overlaps[i]),
            tapped: choices.first().map_or(0.0, of),
            offered: choices.iter().map(of).fold(0.0, f64::max),
            axis_deg: matched.map(|m| axis_off_deg(m, region.cervical, region.incisal)),
            kind_right: matched.map(|m| (m.kind == RegionKind::Tab) == (region.kind == "tab")),
        });
    }
    let card = card_score(&mut engine, photo.id, &found, truth, size);
    let preview = engine
        .preview(photo.id, PREVIEW_PX)
        .map_err(|e| e.to_string())?;
    let scale = f64::from(preview.width) / f64::from(size[0]);
    let mut outlines: Vec<(Vec<Point>, bool)> = found
        .regions
        .iter()
        .zip(&best_of_found)
        .map(|(r, o)| (r.outline.clone(), *o >= FOUND))
        .collect();
    if let Some(claimed) = &found.card {
        outlines.push((
            claimed.whole.clone(),
            card.claimed.is_some_and(|o| o >= FOUND),
        ));
    }
    Ok(SceneScore {
        seed,
        crowns,
        card,
        proposal: proposal(&found, truth, size),
        false_outlines: best_of_found.iter().filter(|o| **o < NOTHING).count(),
        outlines: found.regions.len(),
        picture: Picture {
            preview,
            scale,
            outlines,
            missed,
        },
    })
}

fn card_score(
    engine: &mut Engine,
    id: u32,
    found: &Found,
    truth: &Truth,
    size: [u32; 2],
) -> CardScore {
    // A sliver of a card is neither asked for nor held against the search.
    let outline = truth.card_outline.as_ref().map(|o| points(o));
    let steps = truth.scene.card.as_ref().map_or(0, |c| c.steps.len());
    let middle = outline
        .as_ref()
        .and_then(|o| Polygon::new(o, "card").ok())
        .map(|p| p.centroid());
    let tapped = middle
        .filter(|_| steps == 0)
        .and_then(|m| engine.outline_card(id, m).ok());
    let of = |o: &[Point]| outline.as_ref().map_or(0.0, |t| overlap(o, t, size));
    CardScore {
        there: outline.is_some() && truth.card_visible_share >= LEAST_VISIBLE,
        sliver: outline.is_some() && truth.card_visible_share < LEAST_VISIBLE,
        claimed: found.card.as_ref().map(|c| of(&c.whole)),
        steps: [steps, found.card.as_ref().map_or(0, |c| c.steps.len())],
        tapped: tapped.map(|o| of(&o)),
    }
}

/// Only where one measured restoration is there: then it is what a person would say.
fn proposal(found: &Found, truth: &Truth, size: [u32; 2]) -> Option<Proposal> {
    let mut there = truth
        .scene
        .regions
        .iter()
        .filter(|r| r.kind == "restoration");
    let (Some(own), None) = (there.next(), there.next()) else {
        return None;
    };
    let Some(proposed) = found.restoration.and_then(|i| found.regions.get(i)) else {
        return Some(Proposal::None);
    };
    let share = overlap(&proposed.outline, &points(&own.outline), size);
    Some(if share >= FOUND {
        Proposal::Right
    } else {
        Proposal::Wrong
    })
}

/// Half-way along the axis, or the middle of the area where something stands before that.
fn inner_place(outline: &[Point], wanted: Point) -> Point {
    match Polygon::new(outline, "crown") {
        Ok(p) if !p.contains(wanted) => p.centroid(),
        _ => wanted,
    }
}

fn axis_off_deg(found: &FoundRegion, cervical: [f64; 2], incisal: [f64; 2]) -> f64 {
    let direction = |a: [f64; 2], b: [f64; 2]| (b[1] - a[1]).atan2(b[0] - a[0]).to_degrees();
    let d = direction(found.cervical.0, found.incisal.0) - direction(cervical, incisal);
    ((d + 180.0).rem_euclid(360.0) - 180.0).abs()
}

fn points(outline: &[[f64; 2]]) -> Vec<Point> {
    outline.iter().map(|p| Point(*p)).collect()
}

/// Intersection over union, counted in pixels.
pub fn overlap(a: &[Point], b: &[Point], [width, height]: [u32; 2]) -> f64 {
    let (Ok(a), Ok(b)) = (Polygon::new(a, "outline"), Polygon::new(b, "outline")) else {
        return 0.0;
    };
    let ([ax0, ay0, ax1, ay1], [bx0, by0, bx1, by1]) = (a.bounds(), b.bounds());
    if ax1 < bx0 || bx1 < ax0 || ay1 < by0 || by1 < ay0 {
        return 0.0;
    }
    let first_row = ay0.min(by0).max(0.0) as u32;
    let last_row = (ay1.max(by1) as u32 + 2).min(height);
    let mut scratch = RowScratch::default();
    let (mut first, mut second) = (Vec::new(), Vec::new());
    let (mut both, mut either) = (0_u64, 0_u64);
    for y in first_row..last_row {
        a.row_spans(y, 0.0, width, &mut scratch, &mut first);
        b.row_spans(y, 0.0, width, &mut scratch, &mut second);
        let length = |s: &[Span]| s.iter().map(|s| u64::from(s.x1 - s.x0)).sum::<u64>();
        let shared: u64 = first
            .iter()
            .flat_map(|p| second.iter().map(move |q| (p.x0.max(q.x0), p.x1.min(q.x1))))
            .map(|(from, to)| u64::from(to.saturating_sub(from)))
            .sum();
        both += shared;
        either += length(&first) + length(&second) - shared;
    }
    both as f64 / either.max(1) as f64
}
