//! A large JPEG that is decoded where it is looked at.
//!
//! A reading looks at teeth, tabs and card: a third of the photo or less. Opening walks through
//! the file once, which tells where each block lies and gives a reduced picture for the stage and
//! for finding; pixels are made per tile, when they are first asked for ([`pixels`]): they are
//! those that decoding the whole gives, bit for bit.
//!
//! Files of another kind than cameras write (progressive, grey, several scans, damaged) are not
//! taken here, and decoded whole.

mod code;
mod frame;
mod grid;
mod pixels;
mod scan;
mod sound;
mod words;

use super::pixels::turn;
use frame::Frame;
use grid::Axis;
use pixels::{Part, pixels};
pub use scan::{FINE, Small};
use scan::{Index, walk};
pub use sound::sound;
use std::ops::Range;
use std::sync::OnceLock;

/// Photos up to this size are decoded whole: their reduced copies are made from single pixels.
const WHOLE_UP_TO_PIXELS: usize = if cfg!(fuzzing) { 1_000 } else { 3_600_000 };
/// From this size on the reduced picture has one cell per block.
const ONE_CELL_FROM_PIXELS: usize = 19_600_000;
/// Side of a tile, a multiple of every MCU's.
const TILE_PX: usize = 64;
/// Tiles along the side of what is made around a tile that nobody announced.
const AROUND: usize = 4;
/// Pixels that are decoded in one go at most (and not less than one row of tiles).
const MAX_PART_PIXELS: usize = 1_500_000;
/// Rows of MCUs that stand for the picture when its traces are looked for.
const STRIPS: usize = 12;

type Tile = OnceLock<Option<Vec<u8>>>;

/// A JPEG with the tiles that were made so far. Places are upright.
pub struct Tiles {
    frame: Frame,
    index: Index,
    small: Small,
    orientation: u8,
    /// Along the upright picture's width and height.
    x: Axis,
    y: Axis,
    /// Row by row in the upright picture.
    tiles: Vec<Tile>,
}

impl Tiles {
    /// Walks through a JPEG file. `None` when it is larger than `max_pixels` or not of the plain
    /// kind.
    pub fn new(bytes: &[u8], max_pixels: u64) -> Option<Self> {
        let frame = Frame::read(bytes)?;
        let pixels = frame.width * frame.height;
        if pixels as u64 > max_pixels {
            return None;
        }
        // Of a photo that is decoded at once the reduced picture is not used.
        let fine = (WHOLE_UP_TO_PIXELS..ONE_CELL_FROM_PIXELS).contains(&pixels);
        let cells = if fine { 2 } else { 1 };
        let (index, small) = walk(&frame, bytes.get(frame.scan..)?, cells)?;
        let (x, y) = (
            Axis::new(frame.width, TILE_PX, false),
            Axis::new(frame.height, TILE_PX, false),
        );
        let tiles = std::iter::repeat_with(Tile::new)
            .take(x.count() * y.count())
            .collect();
        Some(Self {
            frame,
            index,
            small,
            orientation: 1,
            x,
            y,
            tiles,
        })
    }

    /// All pixels as stored, of a photo that is small enough to be decoded at once; `None` of a
    /// larger one, and when it cannot be.
    pub fn whole(&self) -> Option<Vec<u8>> {
        let (width, height) = self.size();
        (width * height <= WHOLE_UP_TO_PIXELS).then(|| self.band(0..height))?
    }

    /// Width and height as they are now.
    pub const fn size(&self) -> (usize, usize) {
        (self.x.length(), self.y.length())
    }

    /// Turns and mirrors by an EXIF orientation (1–8), before anything was asked for.
    pub fn upright(mut self, orientation: u8) -> Self {
        let along = Axis::new(
            self.frame.width,
            TILE_PX,
            matches!(orientation, 2 | 3 | 7 | 8),
        );
        let down = Axis::new(
            self.frame.height,
            TILE_PX,
            matches!(orientation, 3 | 4 | 6 | 7),
        );
        let small = &mut self.small;
        let codes = std::mem::take(&mut small.codes);
        small.codes = turn::<u16, 3>(codes, small.width, small.height, orientation);
        (self.x, self.y) = (along, down);
        if orientation >= 5 {
            std::mem::swap(&mut self.x, &mut self.y);
            std::mem::swap(&mut small.width, &mut small.height);
        }
        self.orientation = orientation;
        self
    }

    /// The reduced picture, upright, and the pixel of the photo where its first cell begins.
    pub fn small(&self) -> (&Small, [usize; 2]) {
        let cell = self.small.cell_px;
        (&self.small, [self.x.rest(cell), self.y.rest(cell)])
    }

    /// Visits the codes of `count` pixels of row `y` from `x0` on, part by part.
    pub fn visit(
        &self,
        x0: usize,
        y: usize,
        count: usize,
        mut part: impl FnMut(&[u8]) -> Option<()>,
    ) -> Option<()> {
        let end = x0 + count;
        let row = self.y.tile(y);
        let (top, _) = self.y.span(row, row);
        let mut from = x0;
        while from < end {
            let column = self.x.tile(from);
            let (left, right) = self.x.span(column, column);
            let codes = self.tile(column, row)?;
            let line = (y - top) * (right - left);
            let to = right.min(end);
            part(codes.get(3 * (line + from - left)..3 * (line + to - left))?)?;
            from = to;
        }
        Some(())
    }

    /// The codes of some whole rows, made for this once: tiles are not kept for what is only looked
    /// at. `None` when there are no such rows.
    pub fn band(&self, rows: Range<usize>) -> Option<Vec<u8>> {
        let (width, height) = self.size();
        if rows.is_empty() || rows.end > height {
            return None;
        }
        self.part((0, width), (rows.start, rows.end))
    }

    /// Decodes a box of upright pixels, from and to (not included), and turns it upright.
    fn part(&self, x: (usize, usize), y: (usize, usize)) -> Option<Vec<u8>> {
        let (x, y) = (self.x.stored(x), self.y.stored(y));
        let (x, y) = if self.orientation >= 5 {
            (y, x)
        } else {
            (x, y)
        };
        let (mcu_w, mcu_h) = self.frame.mcu_px();
        let (mcu_columns, mcu_rows) = self.frame.mcus();
        // Colours beside a border are interpolated from the next block.
        let part = Part {
            x0: (x.0 / mcu_w).saturating_sub(1),
            x1: (x.1.div_ceil(mcu_w) + 1).min(mcu_columns),
            y0: (y.0 / mcu_h).saturating_sub(1),
            y1: (y.1.div_ceil(mcu_h) + 1).min(mcu_rows),
        };
        let (pixels, line) = self.decode(part)?;
        let (left, top) = (x.0 - part.x0 * mcu_w, y.0 - part.y0 * mcu_h);
        let (w, h) = (x.1 - x.0, y.1 - y.0);
        let mut codes = Vec::with_capacity(3 * w * h);
        for line in pixels.chunks_exact(3 * line).skip(top).take(h) {
            codes.extend_from_slice(line.get(3 * left..3 * (left + w))?);
        }
        let whole = codes.len() == 3 * w * h;
        whole.then(|| turn::<u8, 3>(codes, w, h, self.orientation))
    }

    /// Some rows of MCUs, spread over the stored picture, one below the other: enough to look for
    /// traces of an earlier compression.
    pub fn strips(&self) -> Vec<u8> {
        let (columns, rows) = self.frame.mcus();
        // The last row may be cut by the edge.
        let whole = rows.saturating_sub(1).max(1);
        let mut out = Vec::new();
        for i in 0..STRIPS.min(whole) {
            let y0 = (2 * i + 1) * whole / (2 * STRIPS.min(whole));
            let part = Part {
                x0: 0,
                x1: columns,
                y0,
                y1: y0 + 1,
            };
            if let Some((strip, width)) = self.decode(part) {
                for line in strip.chunks_exact(3 * width) {
                    out.extend_from_slice(line.get(..3 * self.frame.width).unwrap_or_default());
                }
            }
        }
        out
    }

    /// Pixels that were made so far.
    #[cfg(test)]
    fn made(&self) -> usize {
        self.tiles
            .iter()
            .filter_map(|t| t.get()?.as_ref())
            .map(|t| t.len() / 3)
            .sum()
    }

    /// Makes the tiles of a box that will be looked at, in as few goes as can be: what surrounds a
    /// part has to be decoded with it. Pixels from, to (not included); what lies outside is left.
    pub fn announce(&self, x: Range<usize>, y: Range<usize>) {
        let (width, height) = self.size();
        let (x, y) = (x.start..x.end.min(width), y.start..y.end.min(height));
        if x.is_empty() || y.is_empty() {
            return;
        }
        let columns = self.x.tile(x.start)..self.x.tile(x.end - 1) + 1;
        let rows = self.y.tile(y.start)..self.y.tile(y.end - 1) + 1;
        let high = (MAX_PART_PIXELS / (columns.len() * TILE_PX * TILE_PX)).max(1);
        for row in rows.clone().step_by(high) {
            self.make(columns.clone(), row..(row + high).min(rows.end));
        }
    }

    fn tile(&self, column: usize, row: usize) -> Option<&[u8]> {
        let tile = self.tiles.get(row * self.x.count() + column)?;
        if tile.get().is_none() {
            let around = |at: usize, count: usize| {
                let from = at / AROUND * AROUND;
                from..(from + AROUND).min(count)
            };
            self.make(around(column, self.x.count()), around(row, self.y.count()));
        }
        tile.get()?.as_deref()
    }

    /// Decodes those of a box of tiles that are not there yet, in one go.
    /// Tiles that cannot be made are marked so.
    fn make(&self, columns: Range<usize>, rows: Range<usize>) {
        let missing = |column: usize, row: usize| {
            let tile = self.tiles.get(row * self.x.count() + column);
            tile.is_some_and(|t| t.get().is_none())
        };
        let mut wanted: Option<[usize; 4]> = None;
        for row in rows {
            for column in columns.clone().filter(|c| missing(*c, row)) {
                let [c0, r0, c1, r1] = wanted.unwrap_or([column, row, column, row]);
                wanted = Some([c0.min(column), r0, c1.max(column), r1.max(row)]);
            }
        }
        let Some([c0, r0, c1, r1]) = wanted else {
            return;
        };
        let ((left, right), (top, bottom)) = (self.x.span(c0, c1), self.y.span(r0, r1));
        let line = 3 * (right - left);
        let made = self.part((left, right), (top, bottom));
        for row in r0..=r1 {
            for column in c0..=c1 {
                let Some(tile) = self.tiles.get(row * self.x.count() + column) else {
                    continue;
                };
                let ((x0, x1), (y0, y1)) = (self.x.span(column, column), self.y.span(row, row));
                tile.get_or_init(|| {
                    let mut codes = Vec::with_capacity(3 * (x1 - x0) * (y1 - y0));
                    for y in y0 - top..y1 - top {
                        let from = y * line + 3 * (x0 - left);
                        codes.extend_from_slice(made.as_ref()?.get(from..from + 3 * (x1 - x0))?);
                    }
                    Some(codes)
                });
            }
        }
    }

    /// The pixels of a part as stored, with their width.
    fn decode(&self, part: Part) -> Option<(Vec<u8>, usize)> {
        let width = (part.x1 - part.x0) * self.frame.mcu_px().0;
        Some((pixels(&self.frame, &self.index, part)?, width))
    }
}

#[cfg(test)]
mod tests;
