//! One walk through the entropy-coded data of a baseline JPEG: where each block lies, its mean,
//! and a reduced picture on the way.
//!
//! The reduced picture is made of box means of the blocks, straight from their coefficients: the
//! mean of a cosine over a box is a constant, so each coefficient that is met adds its share to
//! the boxes (ITU-T T.81, A.3.3, summed over pixels). No pixel is made for it.

use super::super::jpeg::next_mark;
use super::code::{Bits, Codes};
use super::frame::{Component, Frame, zigzag};

/// The data without stuffed bytes and restart marks, and where each MCU begins.
pub struct Index {
    /// The bits, highest first.
    pub words: Vec<u32>,
    /// First bit of each MCU.
    pub starts: Vec<u32>,
    /// The quantised means, one per component, that those of the MCU are told apart from.
    pub means: Vec<[i16; 3]>,
}

/// Steps of a reduced picture's codes within one code of the photo.
pub const FINE: u16 = 128;

/// A reduced picture in the file's own colours: whole cells of the stored picture.
pub struct Small {
    /// Three codes per cell, in steps of one [`FINE`]th: whole codes are too coarse for what is
    /// dark and even.
    pub codes: Vec<u16>,
    pub width: usize,
    pub height: usize,
    /// Pixels per cell, across and down.
    pub cell_px: usize,
}

impl Small {
    /// How many cells there are.
    pub const fn count(&self) -> usize {
        self.width * self.height
    }
}

/// Clean data: bytes per restart interval one after another, as words; where each begins, with the
/// end; and the marker after the scan, if there is one.
pub fn clean(scan: &[u8]) -> Option<(Vec<u32>, Vec<usize>, Option<u8>)> {
    let mut bytes = Vec::with_capacity(scan.len() + 8);
    let mut starts = vec![0];
    let mut rest = scan;
    let marker = loop {
        let Some(at) = next_mark(rest) else {
            bytes.extend_from_slice(rest);
            break None;
        };
        let (before, after) = rest.split_at_checked(at)?;
        bytes.extend_from_slice(before);
        match after {
            [_, 0, more @ ..] => {
                bytes.push(0xFF);
                rest = more;
            }
            [_, 0xD0..=0xD7, more @ ..] => {
                starts.push(bytes.len());
                rest = more;
            }
            // Fill bytes may stand before a marker.
            [_, 0xFF, ..] => rest = after.get(1..)?,
            [_, other, ..] => break Some(*other),
            _ => break None,
        }
    };
    starts.push(bytes.len());
    bytes.resize(bytes.len().next_multiple_of(4), 0);
    let words = bytes.as_chunks::<4>().0;
    Some((
        words.iter().map(|w| u32::from_be_bytes(*w)).collect(),
        starts,
        marker,
    ))
}

/// Mean over box `i` of `boxes` of the one-dimensional basis function `u`, with its norm.
fn box_mean(u: usize, i: usize, boxes: usize) -> f64 {
    let side = 8 / boxes;
    let norm = if u == 0 { libm::sqrt(0.125) } else { 0.5 };
    let sum: f64 = (i * side..(i + 1) * side)
        .map(|x| libm::cos((2 * x + 1) as f64 * u as f64 * std::f64::consts::PI / 16.0))
        .sum();
    norm * sum / side as f64
}

/// What one quantised coefficient, in stored order, adds to each of the boxes of its block.
fn shares<const N: usize>(table: &[u16; 64], across: usize, down: usize) -> Box<[[f32; N]; 64]> {
    let mut out = Box::new([[0.0; N]; 64]);
    for ((share, (u, v)), step) in out.iter_mut().zip(zigzag()).zip(table) {
        for (b, s) in share.iter_mut().take(across * down).enumerate() {
            let (x, y) = (b % across, b / across);
            *s = (f64::from(*step) * box_mean(u, x, across) * box_mean(v, y, down)) as f32;
        }
    }
    out
}

/// The boxes of the next block.
#[inline(always)]
fn block<const N: usize>(
    bits: &mut Bits<'_>,
    codes: Codes<'_>,
    shares: &[[f32; N]; 64],
    mean: &mut i32,
) -> Option<[f32; N]> {
    let mut boxes = [0.0; N];
    codes.block(bits, mean, |k, value| {
        // One box is the mean of all.
        if (N > 1 || k == 0)
            && let Some(share) = shares.get(k)
        {
            for (b, s) in boxes.iter_mut().zip(share) {
                *b += value as f32 * s;
            }
        }
    })?;
    Some(boxes)
}

/// One component's tables and its row of boxes.
struct Lane<'a> {
    component: Component,
    codes: Codes<'a>,
    shares: Shares,
    /// Boxes per block, across and down.
    boxes: (usize, usize),
    /// Boxes of one row of MCUs.
    plane: Vec<f32>,
    mean: i32,
}

/// The shares in the size that is used.
enum Shares {
    One(Box<[[f32; 1]; 64]>),
    Four(Box<[[f32; 4]; 64]>),
    Sixteen(Box<[[f32; 16]; 64]>),
}

impl Lane<'_> {
    /// All blocks of one MCU.
    #[inline(always)]
    fn mcu(&mut self, bits: &mut Bits<'_>, column: usize, line: usize) -> Option<()> {
        for down in 0..self.component.down {
            for across in 0..self.component.across {
                let x = (column * self.component.across + across) * self.boxes.0;
                let at = down * self.boxes.1 * line + x;
                match &self.shares {
                    Shares::One(s) => {
                        let b = block(bits, self.codes, s, &mut self.mean)?;
                        put(&mut self.plane, &b, at, self.boxes.0, line);
                    }
                    Shares::Four(s) => {
                        let b = block(bits, self.codes, s, &mut self.mean)?;
                        put(&mut self.plane, &b, at, self.boxes.0, line);
                    }
                    Shares::Sixteen(s) => {
                        let b = block(bits, self.codes, s, &mut self.mean)?;
                        put(&mut self.plane, &b, at, self.boxes.0, line);
                    }
                }
            }
        }
        Some(())
    }
}

/// Puts a block's boxes into its plane.
#[inline(always)]
fn put(plane: &mut [f32], boxes: &[f32], at: usize, across: usize, line: usize) {
    for (row, values) in boxes.chunks_exact(across).enumerate() {
        let from = at + row * line;
        if let Some(to) = plane.get_mut(from..from + across) {
            to.copy_from_slice(values);
        }
    }
}

/// Walks through the whole scan, in a function of its own (see the optimiser's arguments in
/// xtask). `cells` per block side: 1 or 2. `None` for anything unusual.
#[inline(never)]
pub fn walk(frame: &Frame, scan: &[u8], cells: usize) -> Option<(Index, Small)> {
    let (words, starts, after) = clean(scan)?;
    // Anything but the end of the picture is unusual.
    if after != Some(0xD9) {
        return None;
    }
    let (columns, rows) = frame.mcus();
    let count = columns * rows;
    // Places of bits are kept in 32 bits; and a block has two words at least, so that nothing is
    // set aside for a picture that is not there.
    if words.len() >= 1 << 26 || 2 * count * frame.blocks() > 32 * words.len() {
        return None;
    }
    let mut index = Index {
        words: Vec::new(),
        starts: Vec::with_capacity(count),
        means: Vec::with_capacity(count),
    };
    let [y, ..] = frame.components;
    let line = columns * y.across * cells;
    let mut lanes = Vec::with_capacity(3);
    for component in frame.components {
        let (codes, table) = frame.written(&component)?;
        let boxes = (
            cells * y.across / component.across,
            cells * y.down / component.down,
        );
        lanes.push(Lane {
            component,
            codes,
            shares: match boxes.0 * boxes.1 {
                1 => Shares::One(shares(table, boxes.0, boxes.1)),
                2..=4 => Shares::Four(shares(table, boxes.0, boxes.1)),
                _ => Shares::Sixteen(shares(table, boxes.0, boxes.1)),
            },
            boxes,
            plane: vec![0.0; line * y.down * cells],
            mean: 0,
        });
    }
    let [first, second, third] = lanes.as_mut_slice() else {
        return None;
    };
    let cell_px = 8 / cells;
    let (width, height) = (frame.width / cell_px, frame.height / cell_px);
    let mut codes = Vec::with_capacity(width * height * 3);
    let mut bits = Bits::at(&words, 0);
    let mut interval = 0;
    let mut left = frame.restart;
    for _ in 0..rows {
        for column in 0..columns {
            if frame.restart > 0 {
                if left == 0 {
                    interval += 1;
                    let start = *starts.get(interval)? as u64 * 8;
                    // Between two intervals are only the bits that fill the last byte.
                    if bits.position().next_multiple_of(8) != start {
                        return None;
                    }
                    bits = Bits::at(&words, start);
                    left = frame.restart;
                    (first.mean, second.mean, third.mean) = (0, 0, 0);
                }
                left -= 1;
            }
            index.starts.push(bits.position() as u32);
            index
                .means
                .push([first.mean, second.mean, third.mean].map(|m| m as i16));
            first.mcu(&mut bits, column, line)?;
            second.mcu(&mut bits, column, line)?;
            third.mcu(&mut bits, column, line)?;
        }
        let planes = first
            .plane
            .chunks_exact(line)
            .zip(second.plane.chunks_exact(line));
        for ((y, cb), cr) in planes.zip(third.plane.chunks_exact(line)) {
            if codes.len() < width * height * 3 {
                colours(&mut codes, [y, cb, cr], width);
            }
        }
    }
    let end = *starts.last()? as u64 * 8;
    if interval + 2 != starts.len() || bits.position().next_multiple_of(8) != end {
        return None;
    }
    index.words = words;
    Some((
        index,
        Small {
            codes,
            width,
            height,
            cell_px,
        },
    ))
}

/// YCbCr (ITU-T T.871, section 7) to fine codes of RGB, for one row of cells.
#[inline(never)]
fn colours(codes: &mut Vec<u16>, [y, cb, cr]: [&[f32]; 3], width: usize) {
    let fine = f32::from(FINE);
    let code = |v: f32| ((v + 128.0) * fine + 0.5).clamp(0.0, 255.0 * fine) as u16;
    for ((y, cb), cr) in y.iter().zip(cb).zip(cr).take(width) {
        codes.extend([
            code(y + 1.402 * cr),
            code(y - 0.344_136 * cb - 0.714_136 * cr),
            code(y + 1.772 * cb),
        ]);
    }
}
