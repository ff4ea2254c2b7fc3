//! Taps turned into outlines, against the true outlines.

use crate::middle_of;
use scene_render::spec::{SceneSpec, Variety};
use tabside::engine::Engine;
use tabside::scene::polygon::RowScratch;
use tabside::scene::{Point, Polygon, RegionKind};

/// One tap.
#[derive(Debug, Clone)]
pub struct TapScore {
    /// Which scene and region.
    pub what: String,
    /// Tooth, restoration, tab or card.
    pub kind: &'static str,
    /// Area in both outlines ÷ area in either.
    pub overlap: f64,
    /// Angle between the found and the true axis, degrees (0–180); none for a card.
    pub axis_deg: Option<f64>,
}

/// Taps every measured region and the card of a seed's scene.
///
/// # Errors
/// When rendering or opening fails.
pub fn score_random(seed: u64, variety: &Variety) -> Result<Vec<TapScore>, String> {
    let rendered = scene_render::render(&SceneSpec::random(seed, variety))?;
    let mut engine = Engine::new().map_err(|e| e.to_string())?;
    let photo = engine
        .open(&rendered.plain.bytes)
        .map_err(|e| e.to_string())?;
    let size = [photo.info.width, photo.info.height];
    let mut out = Vec::new();
    for region in &rendered.truth.crowns {
        let (kind, words) = match region.kind.as_str() {
            "tab" => (RegionKind::Tab, "tab"),
            "restoration" => (RegionKind::Restoration, "restoration"),
            _ => (RegionKind::Tooth, "tooth"),
        };
        let [x, y] = middle_of(region);
        let inside = x > 0.0 && y > 0.0 && x < f64::from(size[0]) && y < f64::from(size[1]);
        // A sliver at the frame is nothing that anybody would tap.
        let area = Polygon::new(&points(&region.outline), "crown").map_or(0.0, |p| p.area_px());
        if !inside || area < 0.002 * f64::from(size[0]) * f64::from(size[1]) {
            continue;
        }
        let found = engine.outline_region(photo.id, Point::new(x, y), kind).ok();
        let direction = |a: [f64; 2], b: [f64; 2]| (b[1] - a[1]).atan2(b[0] - a[0]).to_degrees();
        let axis_deg = found.as_ref().map(|f| {
            let d =
                direction(f.cervical.0, f.incisal.0) - direction(region.cervical, region.incisal);
            ((d + 180.0).rem_euclid(360.0) - 180.0).abs()
        });
        out.push(TapScore {
            what: format!("seed {seed} {}", region.id),
            kind: words,
            overlap: found.map_or(0.0, |f| overlap(&f.outline, &points(&region.outline), size)),
            axis_deg,
        });
    }
    if let Some(outline) = &rendered.truth.card_outline {
        let truth = points(outline);
        let middle = Polygon::new(&truth, "card").map(|p| p.centroid());
        let steps = rendered
            .truth
            .scene
            .card
            .as_ref()
            .is_some_and(|c| !c.steps.is_empty());
        if let (Ok(middle), false) = (middle, steps) {
            let found = engine.outline_card(photo.id, middle).unwrap_or_default();
            out.push(TapScore {
                what: format!("seed {seed} card"),
                kind: "card",
                overlap: overlap(&found, &truth, size),
                axis_deg: None,
            });
        }
    }
    Ok(out)
}

fn points(outline: &[[f64; 2]]) -> Vec<Point> {
    outline.iter().map(|p| Point(*p)).collect()
}

/// Intersection over union, counted in pixels.
pub fn overlap(a: &[Point], b: &[Point], [width, height]: [u32; 2]) -> f64 {
    let (Ok(a), Ok(b)) = (Polygon::new(a, "outline"), Polygon::new(b, "outline")) else {
        return 0.0;
    };
    let mut scratch = RowScratch::default();
    let (mut first, mut second) = (Vec::new(), Vec::new());
    let (mut both, mut either) = (0_u64, 0_u64);
    for y in 0..height {
        a.row_spans(y, 0.0, width, &mut scratch, &mut first);
        b.row_spans(y, 0.0, width, &mut scratch, &mut second);
        let length = |s: &[tabside::scene::polygon::Span]| {
            s.iter().map(|s| u64::from(s.x1 - s.x0)).sum::<u64>()
        };
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
