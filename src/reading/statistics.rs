//! Statistics of a region in the photo's own linear light.
//!
//! They depend on the photo and the region's outline and axis alone, not on the card, so they
//! are kept while the card is moved, and a correction turns them into colours at no cost.

use super::glare::{GlareGrid, Pixel};
use crate::colour::order::quantile;
use crate::light::patch::{CLIPPED_PEAK, luminance_weights};
use crate::photo::Photo;
use crate::scene::pixels::{for_each_sample, share_inside};
use crate::scene::{Axis, Polygon, Zone};
use std::borrow::Cow;

/// Pixels nearer to the outline than this share of √area are left out: the edge is blurred,
/// turned away from the light, and tinted by what lies beside it.
pub const INSET_SHARE: f64 = 0.08;
/// Pixels that are enough for a region; larger regions are read in strides.
const ENOUGH_PIXELS: f64 = 80_000.0;
/// Bins along the axis for the gradient.
pub const GRADIENT_BINS: usize = 24;
/// Cells along and across the axis for blotch.
pub const BLOTCH_CELLS: [usize; 2] = [18, 12];
/// Rank, among all cells by their pixels, of one that the outline does not cut.
const INNER_SHARE: f32 = 0.75;
/// Usable pixels a zone needs at least.
pub const MIN_ZONE_PIXELS: u32 = 200;

/// Sums over pixels in linear RGB.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Sums {
    /// Pixels used.
    pub used: u32,
    /// Pixels dropped as glare or clipped.
    pub dropped: u32,
    /// Of red, green and blue, then of their squares: added together, two at a time.
    sums: [f64; 6],
}

impl Sums {
    /// One pixel: its three values and their squares.
    fn add(&mut self, values: &[f64; 6]) {
        self.used += 1;
        for (s, v) in self.sums.iter_mut().zip(values) {
            *s += v;
        }
    }

    fn take_in(&mut self, other: &Self) {
        self.used += other.used;
        self.dropped += other.dropped;
        for (s, v) in self.sums.iter_mut().zip(other.sums) {
            *s += v;
        }
    }

    /// Mean linear RGB, when any pixel was used.
    pub fn mean(&self) -> Option<[f64; 3]> {
        let [r, g, b, ..] = self.sums;
        (self.used > 0).then(|| [r, g, b].map(|s| s / f64::from(self.used)))
    }

    /// Standard deviation of one pixel, per channel.
    pub fn deviation(&self) -> [f64; 3] {
        let n = f64::from(self.used.max(1));
        let mut out = [0.0; 3];
        let (sums, squares) = self.sums.split_at(3);
        for ((o, s), q) in out.iter_mut().zip(sums).zip(squares) {
            *o = (q / n - (s / n) * (s / n)).max(0.0).sqrt();
        }
        out
    }

    /// Share dropped, 0–1.
    pub fn dropped_share(&self) -> f64 {
        let all = f64::from(self.used) + f64::from(self.dropped);
        if all > 0.0 {
            f64::from(self.dropped) / all
        } else {
            0.0
        }
    }
}

/// A small patch of a region.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Cell {
    /// Place of its middle along the axis, 0–1.
    pub along: f64,
    /// Place of its middle across the axis, in half widths, −1–1.
    pub across: f64,
    /// The third it lies in: 0 is the cervical one.
    pub third: usize,
    /// Its pixels.
    pub sums: Sums,
}

/// Everything that is measured on a region before the light is known.
#[derive(Debug, Clone, PartialEq)]
pub struct RegionStatistics {
    /// Cervical, middle, incisal, whole.
    pub zones: [Sums; 4],
    /// Along the axis, cervical first.
    pub bins: Vec<Sums>,
    /// For blotch.
    pub cells: Vec<Cell>,
    /// Share of the region's pixels (inset) with a clipped channel.
    pub clipped: f64,
    /// Share of the outline's area inside the photo.
    pub inside: f64,
    /// Photo pixels that each used pixel stands for (1, or more for large regions).
    pub pixels_per_sample: u32,
    /// What a cell's `across` is measured in: the largest distance from the axis, in axis lengths.
    pub half_width: f64,
}

impl RegionStatistics {
    /// Measures a region.
    pub fn measure(photo: &Photo, polygon: &Polygon, axis: &Axis) -> Self {
        let area = polygon.area_px();
        let stride = (area / ENOUGH_PIXELS).sqrt().ceil().clamp(1.0, 64.0) as u32;
        let weights = luminance_weights(photo);
        let ([t0, tx, ty], [u0, ux, uy]) = (axis.along(), axis.across());
        let mut pixels: Vec<Pixel> = Vec::new();
        for_each_sample(
            photo,
            polygon,
            INSET_SHARE * area.sqrt(),
            stride,
            |x, y, s| {
                let (x, y) = (f64::from(x), f64::from(y));
                let [r, g, b] = s.linear_rgb;
                pixels.push(Pixel {
                    along: (t0 + tx * x + ty * y) as f32,
                    across: (u0 + ux * x + uy * y) as f32,
                    linear_rgb: s.linear_rgb,
                    luminance: weights[0] * r + weights[1] * g + weights[2] * b,
                    clipped: s.peak >= CLIPPED_PEAK,
                });
            },
        );
        let mut out = Self::sort_in(&pixels, axis);
        out.inside = share_inside(polygon, photo.width_px(), photo.height_px());
        out.pixels_per_sample = stride * stride;
        out
    }

    fn sort_in(pixels: &[Pixel], axis: &Axis) -> Self {
        let [rows, columns] = BLOTCH_CELLS;
        let half_width = pixels.iter().map(|p| p.across.abs()).fold(1e-6, f32::max);
        let glare = GlareGrid::learn(pixels, half_width);
        let mut zones = [Sums::default(); 4];
        let mut bins = vec![Sums::default(); GRADIENT_BINS];
        let mut cells = places(axis, rows, columns);
        let mut clipped = 0_u32;
        for (p, is_glare) in pixels.iter().zip(glare.is_glare()) {
            let along = p.along.clamp(0.0, 0.999_999);
            let across = p.across / half_width;
            let third = third_of(axis, f64::from(p.along));
            clipped += u32::from(p.clipped);
            let dropped = p.clipped || is_glare;
            let bin = bins.get_mut((along * GRADIENT_BINS as f32) as usize);
            let row = (along * rows as f32) as usize;
            let column = (((across + 1.0) / 2.0).clamp(0.0, 0.999_999) * columns as f32) as usize;
            let cell = cells.get_mut(row * columns + column).map(|c| &mut c.sums);
            let [r, g, b] = p.linear_rgb.map(f64::from);
            let values = [r, g, b, r * r, g * g, b * b];
            let (thirds, whole) = zones.split_at_mut(3);
            for sums in thirds
                .get_mut(third)
                .into_iter()
                .chain(whole)
                .chain(bin)
                .chain(cell)
            {
                if dropped {
                    sums.dropped += 1;
                } else {
                    sums.add(&values);
                }
            }
        }
        Self {
            zones,
            bins,
            cells,
            clipped: f64::from(clipped) / (pixels.len() as f64).max(1.0),
            inside: 1.0,
            pixels_per_sample: 1,
            half_width: f64::from(half_width),
        }
    }

    /// The cells, or where the inner ones hold fewer than `enough` pixels, blocks of two by two or of
    /// three by three of them: a small region has as much in each, and fewer.
    pub fn cells_of(&self, axis: &Axis, enough: u32) -> Cow<'_, [Cell]> {
        let mut held: Vec<f32> = self.cells.iter().map(|c| c.sums.used as f32).collect();
        let inner = quantile(&mut held, INNER_SHARE).unwrap_or(0.0);
        let holds = |by: &usize| inner * (by * by) as f32 >= enough as f32;
        match [1, 2].into_iter().find(holds).unwrap_or(3) {
            1 => Cow::Borrowed(&self.cells),
            by => Cow::Owned(self.blocks(axis, by)),
        }
    }

    fn blocks(&self, axis: &Axis, by: usize) -> Vec<Cell> {
        let [rows, columns] = BLOTCH_CELLS.map(|n| n / by);
        let mut blocks = places(axis, rows, columns);
        for (i, cell) in self.cells.iter().enumerate() {
            let (row, column) = (i / BLOTCH_CELLS[1] / by, i % BLOTCH_CELLS[1] / by);
            if let Some(block) = blocks.get_mut(row * columns + column) {
                block.sums.take_in(&cell.sums);
            }
        }
        blocks
    }

    /// The sums of one zone.
    pub const fn zone(&self, zone: Zone) -> &Sums {
        let [cervical, middle, incisal, whole] = &self.zones;
        match zone {
            Zone::Cervical => cervical,
            Zone::Middle => middle,
            Zone::Incisal => incisal,
            Zone::Whole => whole,
        }
    }
}

/// Empty cells, row by row.
fn places(axis: &Axis, rows: usize, columns: usize) -> Vec<Cell> {
    (0..rows * columns)
        .map(|i| {
            let along = ((i / columns) as f64 + 0.5) / rows as f64;
            Cell {
                along,
                across: ((i % columns) as f64 + 0.5) / columns as f64 * 2.0 - 1.0,
                third: third_of(axis, along),
                sums: Sums::default(),
            }
        })
        .collect()
}

fn third_of(axis: &Axis, along: f64) -> usize {
    match axis.third_at(along) {
        Zone::Cervical => 0,
        Zone::Middle => 1,
        _ => 2,
    }
}
