//! Fields of a body on a regular grid in its own coordinates (millimetres), read bilinearly.

/// `C` numbers per cell.
#[derive(Debug, Clone)]
pub struct Grid<const C: usize> {
    /// Place of cell (0, 0).
    pub origin: [f32; 2],
    /// Distance of cells.
    pub pitch: f32,
    /// Cells per row.
    pub w: usize,
    /// Rows.
    pub h: usize,
    /// Row-major.
    pub cells: Vec<[f32; C]>,
}

impl<const C: usize> Grid<C> {
    /// Covers a box (x0, y0, x1, y1).
    pub fn covering(bounds: [f64; 4], pitch: f64) -> Self {
        let w = (((bounds[2] - bounds[0]) / pitch).ceil() as usize + 2).clamp(2, 8000);
        let h = (((bounds[3] - bounds[1]) / pitch).ceil() as usize + 2).clamp(2, 8000);
        Self {
            origin: [bounds[0] as f32, bounds[1] as f32],
            pitch: pitch as f32,
            w,
            h,
            cells: vec![[0.0; C]; w * h],
        }
    }

    /// Place of a cell.
    pub fn at_cell(&self, i: usize, j: usize) -> [f32; 2] {
        [
            self.origin[0] + i as f32 * self.pitch,
            self.origin[1] + j as f32 * self.pitch,
        ]
    }

    /// Fills every cell from its place, rows in parallel.
    pub fn fill(&mut self, f: impl Fn([f32; 2]) -> [f32; C] + Sync) {
        use rayon::prelude::*;
        let (w, origin, pitch) = (self.w, self.origin, self.pitch);
        self.cells
            .par_chunks_mut(w)
            .enumerate()
            .for_each(|(j, row)| {
                for (i, cell) in row.iter_mut().enumerate() {
                    *cell = f([origin[0] + i as f32 * pitch, origin[1] + j as f32 * pitch]);
                }
            });
    }

    /// Value at a place; outside, the nearest edge.
    #[inline]
    pub fn read(&self, x: f32, y: f32) -> [f32; C] {
        let fx = ((x - self.origin[0]) / self.pitch).clamp(0.0, (self.w - 1) as f32 - 1e-3);
        let fy = ((y - self.origin[1]) / self.pitch).clamp(0.0, (self.h - 1) as f32 - 1e-3);
        let (i, j) = (fx as usize, fy as usize);
        let (u, v) = (fx - i as f32, fy - j as f32);
        let k = j * self.w + i;
        let (a, b, c, d) = (
            &self.cells[k],
            &self.cells[k + 1],
            &self.cells[k + self.w],
            &self.cells[k + self.w + 1],
        );
        std::array::from_fn(|n| {
            let top = a[n] + (b[n] - a[n]) * u;
            let bottom = c[n] + (d[n] - c[n]) * u;
            top + (bottom - top) * v
        })
    }
}
