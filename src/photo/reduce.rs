//! A reduced copy in linear light, for finding.

use super::Photo;
use super::pixels::Pixels;
use super::tiles::Tiles;
use super::types::Sample;

/// A reduced copy in the photo's linear RGB.
#[derive(Debug, Clone, PartialEq)]
pub struct Reduced {
    /// Width in reduced pixels.
    pub width: u32,
    /// Height in reduced pixels.
    pub height: u32,
    /// Photo pixels per reduced pixel, across.
    pub scale_x: f64,
    /// Photo pixels per reduced pixel, down.
    pub scale_y: f64,
    /// Means over whole blocks of photo pixels, row by row.
    pub linear_rgb: Vec<[f32; 3]>,
}

impl Reduced {
    /// A place of the reduced copy, in pixels, as a place of the photo.
    pub fn photo_from_reduced(&self, [x, y]: [f64; 2]) -> [f64; 2] {
        [
            (x + 0.5) * self.scale_x - 0.5,
            (y + 0.5) * self.scale_y - 0.5,
        ]
    }

    /// A place of the photo, in pixels, as a place of the reduced copy.
    pub fn reduced_from_photo(&self, [x, y]: [f64; 2]) -> [f64; 2] {
        [
            (x + 0.5) / self.scale_x - 0.5,
            (y + 0.5) / self.scale_y - 0.5,
        ]
    }
}

impl Photo {
    /// A copy of at most `max_px` pixels (at least one block of the photo), averaged in linear
    /// light over square blocks; of large blocks every second or third row, since three rows tell
    /// as much for finding; a rest at the right and lower edge is left out.
    pub fn reduced_linear(&self, max_px: usize) -> Reduced {
        let block = block_for((self.width_px(), self.height_px()), max_px);
        let (columns, rows) = (self.width_px() / block, self.height_px() / block);
        if let Pixels::Tiled(tiles) = &self.pixels
            && tiles.small().0.cell_px <= block as usize
        {
            return self.reduced_from_small(tiles, block, columns, rows);
        }
        let mut row = vec![Sample::default(); (columns * block) as usize];
        let mut linear_rgb = Vec::with_capacity(columns as usize * rows as usize);
        let mut sums = vec![[0.0_f32; 3]; columns as usize];
        let stride = (block / 3).max(1);
        let used = block.div_ceil(stride);
        let scale = 1.0 / (block as f32 * used as f32);
        for r in 0..rows {
            sums.fill([0.0; 3]);
            for y in (r * block..(r + 1) * block).step_by(stride as usize) {
                if self.read_row(0, y, &mut row).is_none() {
                    continue;
                }
                for (sum, samples) in sums.iter_mut().zip(row.chunks_exact(block as usize)) {
                    for s in samples {
                        for (total, v) in sum.iter_mut().zip(s.linear_rgb) {
                            *total += v;
                        }
                    }
                }
            }
            linear_rgb.extend(sums.iter().map(|s| s.map(|v| v * scale)));
        }
        Reduced {
            width: columns,
            height: rows,
            scale_x: f64::from(block),
            scale_y: f64::from(block),
            linear_rgb,
        }
    }

    /// The same from the reduced picture of a large JPEG, whose cells are smaller than the blocks:
    /// each cell counts by how much of it lies in the block.
    fn reduced_from_small(&self, tiles: &Tiles, block: u32, columns: u32, rows: u32) -> Reduced {
        let (small, [left, top]) = tiles.small();
        let across = overlaps(columns, block as usize, left, small.cell_px, small.width);
        let down = overlaps(rows, block as usize, top, small.cell_px, small.height);
        let mut samples = vec![Sample::default(); small.width];
        let lines = small.codes.chunks_exact((3 * small.width).max(1));
        // Means across, of each row of cells once.
        let mut means: Vec<Vec<[f32; 3]>> = Vec::with_capacity(small.height);
        for line in lines {
            if self
                .fill_fine(line.as_chunks::<3>().0, &mut samples)
                .is_none()
            {
                samples.fill(Sample::default());
            }
            means.push(
                across
                    .iter()
                    .map(|o| o.mean(&samples, |s| s.linear_rgb))
                    .collect(),
            );
        }
        let mut linear_rgb = Vec::with_capacity(columns as usize * rows as usize);
        for o in &down {
            for column in 0..columns as usize {
                linear_rgb.push(o.mean(&means, |row| row.get(column).copied().unwrap_or_default()));
            }
        }
        Reduced {
            width: columns,
            height: rows,
            scale_x: f64::from(block),
            scale_y: f64::from(block),
            linear_rgb,
        }
    }
}

/// Side of the square blocks that reduce a picture to at most `max_px` pixels.
pub fn block_for((width, height): (u32, u32), max_px: usize) -> u32 {
    let all = f64::from(width) * f64::from(height);
    let block = (all / max_px.max(1) as f64).sqrt().ceil().max(1.0) as u32;
    block.min(width.min(height).max(1))
}

/// Cells that a block lies over, and how much of the block each of them is.
struct Overlap {
    first: usize,
    shares: Vec<f32>,
}

impl Overlap {
    fn mean<T>(&self, values: &[T], of: impl Fn(&T) -> [f32; 3]) -> [f32; 3] {
        let mut sum = [0.0; 3];
        for (value, share) in values.iter().skip(self.first).zip(&self.shares) {
            for (s, v) in sum.iter_mut().zip(of(value)) {
                *s += share * v;
            }
        }
        sum
    }
}

/// For each of `blocks` blocks of `block_px` pixels: the cells of `cell_px` pixels, of which the
/// first begins at pixel `start`, that it lies over. Beyond the outermost cells these stand in.
fn overlaps(
    blocks: u32,
    block_px: usize,
    start: usize,
    cell_px: usize,
    cells: usize,
) -> Vec<Overlap> {
    let cell_of =
        |pixel: usize| (pixel.saturating_sub(start) / cell_px).min(cells.saturating_sub(1));
    (0..blocks as usize)
        .map(|b| {
            let (from, to) = (b * block_px, (b + 1) * block_px);
            let first = cell_of(from);
            let mut shares = vec![0.0; cell_of(to - 1) + 1 - first];
            for pixel in from..to {
                if let Some(share) = shares.get_mut(cell_of(pixel) - first) {
                    *share += 1.0 / block_px as f32;
                }
            }
            Overlap { first, shares }
        })
        .collect()
}
