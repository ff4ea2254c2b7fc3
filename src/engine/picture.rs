//! Pictures of a plan and of unevenness, for the eye. Nothing is measured on them.

use super::desk::{region_in, shape_of};
use super::recolour::Recolour;
use super::straighten::{srgb_from_linear, straighten};
use super::{Engine, Patch};
use crate::colour::delta_e_00;
use crate::error::{Error, Result};
use crate::light::Correction;
use crate::photo::{Photo, Preview, srgb_encoder};
use crate::reading::RegionStatistics;
use crate::reading::smooth::unevenness;
use crate::reading::statistics::BLOTCH_CELLS;
use crate::scene::polygon::RowScratch;
use crate::scene::{Axis, Point, Polygon, Region, Scene};
use crate::stain::{AlongAxis, SwatchBook, ZonePlan};
use std::rc::Rc;

/// The map of unevenness is full at this difference.
const FULL_DELTA_E_00: f64 = 3.0;
/// How much of the photo a full map still lets through.
const MAP_ALPHA: f64 = 200.0;
/// Pixels of a cell that count.
const CELL_MIN_PIXELS: u32 = 24;
/// Patches are made up to this many pixels.
const MAX_PATCH_PIXELS: usize = 4_000_000;
/// Photo samples per side of a patch pixel at most.
const MAX_SUPERSAMPLES: u32 = 3;

/// A region with what was measured on it.
pub struct Subject {
    region: Region,
    polygon: Polygon,
    /// Its long axis.
    pub axis: Axis,
    correction: Correction,
    /// What was measured on it.
    pub measured: Rc<RegionStatistics>,
}

/// A region of a scene, measured.
pub fn subject(engine: &mut Engine, id: u32, scene: &Scene, region: &str) -> Result<Subject> {
    let region = region_in(scene, region)?;
    let (polygon, axis) = shape_of(region)?;
    let desk = engine.desk_mut(id)?;
    let correction = desk
        .correction(scene.card.as_ref(), &mut Vec::new())?
        .ok_or_else(|| {
            Error::input(
                "Without a usable card there is no picture of colours.",
                "Mark the grey card, or take the photo again with one.",
            )
        })?;
    Ok(Subject {
        measured: desk.statistics(&polygon, axis),
        region: region.clone(),
        polygon,
        axis,
        correction,
    })
}

/// The region upright, as planned.
pub fn planned(
    engine: &mut Engine,
    id: u32,
    scene: &Scene,
    region: &str,
    (book, zones): (&SwatchBook, &[ZonePlan]),
    height_px: u32,
) -> Result<Preview> {
    let s = subject(engine, id, scene, region)?;
    let plan = AlongAxis::of(engine.strengths(book)?, zones, s.axis.borders)?;
    let recolour = Recolour::new(&s.correction, plan, &s.measured);
    let photo = &engine.desk(id)?.photo;
    straighten(
        photo,
        Some(&s.correction),
        &s.region,
        height_px,
        Some(&recolour),
    )
}

/// The region in the photo's own frame and colours, as planned.
pub fn patch(
    engine: &mut Engine,
    id: u32,
    scene: &Scene,
    region: &str,
    (book, zones): (&SwatchBook, &[ZonePlan]),
    max_px: usize,
) -> Result<Patch> {
    let s = subject(engine, id, scene, region)?;
    let plan = AlongAxis::of(engine.strengths(book)?, zones, s.axis.borders)?;
    let recolour = Recolour::new(&s.correction, plan, &s.measured);
    let photo = &engine.desk(id)?.photo;
    let srgb = srgb_from_linear(photo, None);
    let encode = srgb_encoder();
    lay(photo, &s, max_px, &|along, across, rgb| {
        let mut shown = srgb.apply(rgb);
        for (c, ratio) in shown.iter_mut().zip(recolour.ratio(along, across, rgb)) {
            *c *= ratio;
        }
        let [r, g, b] = shown.map(|c| encode(c as f32));
        [r, g, b, u8::MAX]
    })
}

/// Where the region is lighter or darker than its own smooth change.
pub fn evenness(
    engine: &mut Engine,
    id: u32,
    scene: &Scene,
    region: &str,
    max_px: usize,
) -> Result<Patch> {
    let s = subject(engine, id, scene, region)?;
    let cells = &s.measured.cells;
    let lab_of = |mean| s.correction.lab(mean);
    let uneven = unevenness(cells, &|_, mean| Some(lab_of(mean))).ok_or_else(too_few_pixels)?;
    let off: Vec<Off> = cells
        .iter()
        .map(|c| match c.sums.mean() {
            Some(mean) if c.sums.used >= CELL_MIN_PIXELS => {
                let (is, smooth) = (lab_of(mean), uneven.smooth.at(c.along, c.across));
                let signed = delta_e_00(smooth, is).copysign(is.l() - smooth.l());
                [signed, signed]
            }
            _ => [0.0; 2],
        })
        .collect();
    map(engine, id, &s, max_px, &off, FULL_DELTA_E_00)
}

/// What is said of a region that no map can be made of.
pub fn too_few_pixels() -> Error {
    Error::input(
        "The region has too few usable pixels for a map.",
        "Take the photo nearer, or choose a larger region.",
    )
}

/// How far a cell is off in ΔE00 (its sign does not count), and above 0 where it is lighter.
pub type Off = [f64; 2];

/// The map of a region whose cells are off by so much, full at a difference.
pub fn map(
    engine: &Engine,
    id: u32,
    s: &Subject,
    max_px: usize,
    off: &[Off],
    full_delta_e_00: f64,
) -> Result<Patch> {
    let half_width = s.measured.half_width.max(1e-9);
    let photo = &engine.desk(id)?.photo;
    let mut patch = lay(photo, s, max_px, &|along, across, _| {
        let [off, lighter] = between_cells(off, along, across / half_width);
        let level = if lighter > 0.0 { u8::MAX } else { 0 };
        let alpha = ((off.abs() / full_delta_e_00).min(1.0) * MAP_ALPHA) as u8;
        [level, level, level, alpha]
    })?;
    patch.full_delta_e_00 = Some(full_delta_e_00);
    Ok(patch)
}

/// The value between the four nearest cells.
fn between_cells(values: &[Off], along: f64, across: f64) -> Off {
    let [rows, columns] = BLOTCH_CELLS;
    let place = |share: f64, count: usize| {
        let at = (share * count as f64 - 0.5).clamp(0.0, count as f64 - 1.0);
        let low = (at as usize).min(count.saturating_sub(2));
        (low, at - low as f64)
    };
    let (row, down) = place(along, rows);
    let (column, right) = place(f64::midpoint(across, 1.0), columns);
    let at = |r: usize, c: usize| values.get(r * columns + c).copied().unwrap_or([0.0; 2]);
    let mix = |a: Off, b: Off, t: f64| [0, 1].map(|i: usize| a[i] * (1.0 - t) + b[i] * t);
    let upper = mix(at(row, column), at(row, column + 1), right);
    let lower = mix(at(row + 1, column), at(row + 1, column + 1), right);
    mix(upper, lower, down)
}

/// A patch over the region's box: `colour` is asked for every pixel inside the outline, with its
/// place along and across the axis and the mean of the photo's linear RGB there. One copy of this
/// serves all pictures.
#[inline(never)]
fn lay(
    photo: &Photo,
    s: &Subject,
    max_px: usize,
    colour: &dyn Fn(f64, f64, [f64; 3]) -> [u8; 4],
) -> Result<Patch> {
    let [x0, y0, x1, y1] = s.polygon.bounds();
    let left = (x0 + 0.5).floor().max(0.0);
    let top = (y0 + 0.5).floor().max(0.0);
    let right = (x1 + 0.5).ceil().min(f64::from(photo.width_px()));
    let bottom = (y1 + 0.5).ceil().min(f64::from(photo.height_px()));
    let (wide, high) = (right - left, bottom - top);
    if !(wide >= 1.0 && high >= 1.0) {
        return Err(Error::input(
            "The region lies outside the photo.",
            "Outline it again.",
        ));
    }
    let most = max_px.clamp(1, MAX_PATCH_PIXELS) as f64;
    let scale = (wide * high / most).sqrt().max(1.0);
    let (width, height) = ((wide / scale).ceil() as u32, (high / scale).ceil() as u32);
    let (per_x, per_y) = (wide / f64::from(width), high / f64::from(height));
    let samples = (scale.ceil() as u32).clamp(1, MAX_SUPERSAMPLES);
    let ([t0, tx, ty], [u0, ux, uy]) = (s.axis.along(), s.axis.across());
    // The outline on the patch's own grid, so that each row is a few spans.
    let own: Vec<Point> = s
        .polygon
        .corners()
        .iter()
        .map(|p| {
            Point::new(
                (p.x() + 0.5 - left) / per_x - 0.5,
                (p.y() + 0.5 - top) / per_y - 0.5,
            )
        })
        .collect();
    let grid = Polygon::new(&own, "The outline on the patch")?;
    let (mut scratch, mut spans) = (RowScratch::default(), Vec::new());
    let mut rgba = vec![0_u8; width as usize * height as usize * 4];
    for (row, line) in (0..height).zip(rgba.chunks_exact_mut(width as usize * 4)) {
        grid.row_spans(row, 0.0, width, &mut scratch, &mut spans);
        for column in spans.iter().flat_map(|s| s.x0..s.x1) {
            let (mut sum, mut hits) = ([0.0; 3], 0.0);
            for i in 0..samples * samples {
                let part = |n: u32| (f64::from(n) + 0.5) / f64::from(samples);
                let x = left + (f64::from(column) + part(i % samples)) * per_x;
                let y = top + (f64::from(row) + part(i / samples)) * per_y;
                if let Some(sample) = photo.sample(x as u32, y as u32) {
                    for (s, c) in sum.iter_mut().zip(sample.linear_rgb) {
                        *s += f64::from(c);
                    }
                    hits += 1.0;
                }
            }
            let x = left + (f64::from(column) + 0.5) * per_x - 0.5;
            let y = top + (f64::from(row) + 0.5) * per_y - 0.5;
            let pixel = line.as_chunks_mut::<4>().0.get_mut(column as usize);
            if let (Some(pixel), true) = (pixel, hits > 0.0) {
                let mean = sum.map(|v| v / hits);
                *pixel = colour(t0 + tx * x + ty * y, u0 + ux * x + uy * y, mean);
            }
        }
    }
    Ok(Patch {
        place: [left, top, wide, high],
        full_delta_e_00: None,
        picture: Preview {
            width,
            height,
            rgba,
        },
    })
}
