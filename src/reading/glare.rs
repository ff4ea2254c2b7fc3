//! Finding glare in a plain photo: pixels clearly brighter than the enamel around them.
//!
//! A grid over the region learns the diffuse level of each cell as a median, made robust
//! against highlights that fill a cell by the median of its neighbours; a pixel far above the
//! level at its place is glare. Shading by the tooth's curvature is slower than the grid and
//! stays.

use crate::colour::order::median;

/// One pixel of a region, as gathered.
#[derive(Debug, Clone, Copy, Default)]
pub struct Pixel {
    /// Place along the axis, 0–1 between its ends.
    pub along: f32,
    /// Place across the axis, in axis lengths.
    pub across: f32,
    /// Linear light.
    pub linear_rgb: [f32; 3],
    /// Luminance in the same units.
    pub luminance: f32,
    /// A channel is clipped.
    pub clipped: bool,
}

/// Rows (along) and columns (across) of the grid.
const ROWS: usize = 10;
const COLUMNS: usize = 6;
/// Excess over the local level that is glare whatever the noise: 12 % is about 4 L*.
const EXCESS: f32 = 0.05;
/// And at least this many standard deviations of the pixel noise.
const SIGMAS: f32 = 2.5;
/// Pixels a cell needs to have a level of its own.
const CELL_MIN: usize = 16;

/// Cells with one more on each side, which repeats the outermost.
const FRAMED_COLUMNS: usize = COLUMNS + 2;
const FRAMED: usize = (ROWS + 2) * FRAMED_COLUMNS;

/// The diffuse level of each cell of a region, and how far its pixels lie above.
#[derive(Debug)]
pub struct GlareGrid {
    /// Level, and 1; nought and nought where there is none.
    levels: [[f32; 2]; FRAMED],
    /// Of each pixel, relative to the level at its place; not a number where there is none.
    excess: Vec<f32>,
    /// Relative excess from which a pixel is glare.
    reach: f32,
}

impl GlareGrid {
    /// Learns the levels. `half_width` is the largest distance from the axis.
    pub fn learn(pixels: &[Pixel], half_width: f32) -> Self {
        let mut per_cell: Vec<Vec<f32>> = vec![Vec::new(); ROWS * COLUMNS];
        for p in pixels {
            let (row, column) = place(p.along, p.across / half_width);
            if let Some(cell) = per_cell.get_mut(row * COLUMNS + column) {
                // A clipped pixel counts as what it is at least.
                cell.push(p.luminance);
            }
        }
        let mut raw = [None; ROWS * COLUMNS];
        for (level, cell) in raw.iter_mut().zip(&mut per_cell) {
            if cell.len() >= CELL_MIN {
                *level = median(cell);
            }
        }
        let mut grid = Self {
            levels: framed(&smooth(&raw)),
            excess: Vec::new(),
            reach: f32::INFINITY,
        };
        grid.excess = pixels
            .iter()
            .map(|p| grid.excess(p, p.across / half_width))
            .collect();
        // Noise from the lower half, which glare does not touch: the median distance below the
        // level of the pixels below it is 0.6745 σ.
        let mut below: Vec<f32> = grid
            .excess
            .iter()
            .filter(|e| **e < 0.0)
            .map(|e| -e)
            .collect();
        let sigma = median(&mut below).unwrap_or(0.0) * 1.4826;
        grid.reach = EXCESS.max(SIGMAS * sigma);
        grid
    }

    /// For each of the pixels, in their order: whether it is glare.
    pub fn is_glare(&self) -> impl Iterator<Item = bool> {
        self.excess.iter().map(|e| *e > self.reach)
    }

    /// How far above the local level, relative to it. `across` is in half widths.
    fn excess(&self, pixel: &Pixel, across: f32) -> f32 {
        let [sum, weight] = self.level_at(pixel.along, across);
        let level = sum / weight;
        if weight > 1e-3 && level > 1e-6 {
            pixel.luminance / level - 1.0
        } else {
            f32::NAN
        }
    }

    /// The level at a place, blended between the middles of the cells around it: a weighted sum
    /// and its weight.
    fn level_at(&self, along: f32, across: f32) -> [f32; 2] {
        let v = along.clamp(0.0, 1.0) * ROWS as f32 - 0.5;
        let u = ((across + 1.0) / 2.0).clamp(0.0, 1.0) * COLUMNS as f32 - 0.5;
        let ((row, fv), (column, fu)) = (below(v), below(u));
        let upper = self.levels.get(row * FRAMED_COLUMNS + column..);
        let lower = self.levels.get((row + 1) * FRAMED_COLUMNS + column..);
        let two = |part: Option<&[[f32; 2]]>| {
            part.and_then(|p| p.first_chunk::<2>().copied())
                .unwrap_or_default()
        };
        let (mut sum, mut weight) = (0.0, 0.0);
        for (line, wv) in [(two(upper), 1.0 - fv), (two(lower), fv)] {
            for ([level, there], wu) in line.into_iter().zip([1.0 - fu, fu]) {
                sum += level * wv * wu;
                weight += there * (wv * wu);
            }
        }
        [sum, weight]
    }
}

/// The cell, in the framed grid, whose middle lies at or before a place (−0.5 and more), and the
/// share of the way to the next.
fn below(place: f32) -> (usize, f32) {
    // A cast is a floor above nought; a call for it is slow natively.
    let cell = if place < 0.0 { -1 } else { place as i32 };
    ((cell + 1) as usize, place - cell as f32)
}

fn framed(levels: &[Option<f32>; ROWS * COLUMNS]) -> [[f32; 2]; FRAMED] {
    let mut out = [[0.0; 2]; FRAMED];
    for (i, cell) in out.iter_mut().enumerate() {
        let row = (i / FRAMED_COLUMNS).clamp(1, ROWS) - 1;
        let column = (i % FRAMED_COLUMNS).clamp(1, COLUMNS) - 1;
        if let Some(level) = levels.get(row * COLUMNS + column).copied().flatten() {
            *cell = [level, 1.0];
        }
    }
    out
}

fn place(along: f32, across: f32) -> (usize, usize) {
    let row = (along.clamp(0.0, 0.999_999) * ROWS as f32) as usize;
    let column = (((across + 1.0) / 2.0).clamp(0.0, 0.999_999) * COLUMNS as f32) as usize;
    (row, column)
}

/// Each level becomes the smaller of itself and the median of its neighbourhood: a highlight
/// lifts single cells, never a neighbourhood.
fn smooth(raw: &[Option<f32>; ROWS * COLUMNS]) -> [Option<f32>; ROWS * COLUMNS] {
    let mut out = *raw;
    for (i, level) in out.iter_mut().enumerate() {
        let Some(own) = *level else { continue };
        let (row, column) = (i / COLUMNS, i % COLUMNS);
        let mut around: Vec<f32> = Vec::with_capacity(9);
        for r in row.saturating_sub(1)..=(row + 1).min(ROWS - 1) {
            for c in column.saturating_sub(1)..=(column + 1).min(COLUMNS - 1) {
                around.extend(raw.get(r * COLUMNS + c).copied().flatten());
            }
        }
        if around.len() >= 4 {
            *level = median(&mut around).map(|m| own.min(m * 1.05));
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A curved, noisy surface with a highlight on 4 % of it.
    fn surface(with_glare: bool) -> Vec<Pixel> {
        let mut state = 7_u32;
        let mut noise = || {
            state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            (state >> 8) as f32 / (1 << 24) as f32 - 0.5
        };
        let mut out = Vec::new();
        for i in 0..120 {
            for j in 0..80 {
                let (along, across) = (i as f32 / 120.0, j as f32 / 40.0 - 1.0);
                let shading = 0.5 * (1.0 - 0.15 * across * across) * (1.0 - 0.1 * along);
                let on = (along - 0.4).abs() < 0.1 && (across + 0.3).abs() < 0.2;
                let glare = if with_glare && on { 0.25 } else { 0.0 };
                out.push(Pixel {
                    along,
                    across,
                    linear_rgb: [0.0; 3],
                    luminance: shading * (1.0 + 0.04 * noise()) + glare,
                    clipped: false,
                });
            }
        }
        out
    }

    #[test]
    fn highlight_is_found_and_the_rest_kept() {
        let pixels = surface(true);
        let clean = surface(false);
        let grid = GlareGrid::learn(&pixels, 1.0);
        let (mut hit, mut missed, mut wrong) = (0, 0, 0);
        for ((p, c), glare) in pixels.iter().zip(&clean).zip(grid.is_glare()) {
            match (glare, p.luminance > c.luminance) {
                (true, true) => hit += 1,
                (false, true) => missed += 1,
                (true, false) => wrong += 1,
                (false, false) => {}
            }
        }
        assert!(hit > 300 && missed == 0, "hit {hit}, missed {missed}");
        assert!(wrong < pixels.len() / 200, "{wrong} diffuse pixels dropped");
    }

    #[test]
    fn shading_alone_is_no_glare() {
        let pixels = surface(false);
        let grid = GlareGrid::learn(&pixels, 1.0);
        let wrong = grid.is_glare().filter(|g| *g).count();
        assert!(wrong < pixels.len() / 500, "{wrong}");
    }
}
