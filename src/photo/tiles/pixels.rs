//! Blocks to pixels, for a part of a JPEG: the integer arithmetic of the decoder that reads whole
//! files, so that a part has the very bits of the whole (its tests compare them).
//!
//! The transform is that of Loeffler, Ligtenberg and Moschytz (1989) with constants of 12 bits;
//! colours at half size are interpolated 3 : 1 between neighbours; YCbCr is that of ITU-T T.871
//! with constants of 14 bits.

use super::code::{Bits, Codes};
use super::frame::{Component, Frame, zigzag};
use super::scan::Index;

/// MCUs from, to (not included), across and down.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Part {
    pub x0: usize,
    pub x1: usize,
    pub y0: usize,
    pub y1: usize,
}

/// One component of a part, at its own size.
struct Plane<'a> {
    component: Component,
    codes: Codes<'a>,
    width: usize,
    pixels: Vec<u8>,
    /// Multipliers of the coefficients in stored order, and where each belongs.
    steps: [(i32, u8); 64],
    mean: i32,
}

/// One line of the transform: eight coefficients to eight sums, before they are scaled down.
#[inline(always)]
const fn line(c: [i32; 8], bias: i32) -> [i32; 8] {
    const fn times(a: i32, b: i32) -> i32 {
        a.wrapping_mul(b)
    }
    const fn plus(a: i32, b: i32) -> i32 {
        a.wrapping_add(b)
    }
    const fn less(a: i32, b: i32) -> i32 {
        a.wrapping_sub(b)
    }
    let [c0, c1, c2, c3, c4, c5, c6, c7] = c;
    // Even coefficients.
    let both = times(plus(c2, c6), 2217);
    let (t2, t3) = (plus(both, times(c6, -7567)), plus(both, times(c2, 3135)));
    let (t0, t1) = (times(plus(c0, c4), 4096), times(less(c0, c4), 4096));
    let (x0, x3) = (plus(plus(t0, t3), bias), plus(less(t0, t3), bias));
    let (x1, x2) = (plus(plus(t1, t2), bias), plus(less(t1, t2), bias));
    // Odd ones.
    let all = times(plus(plus(c7, c3), plus(c5, c1)), 4816);
    let p1 = plus(all, times(plus(c7, c1), -3685));
    let p2 = plus(all, times(plus(c5, c3), -10_497));
    let p3 = times(plus(c7, c3), -8034);
    let p4 = times(plus(c5, c1), -1597);
    let o3 = plus(times(c1, 6149), plus(p1, p4));
    let o2 = plus(times(c3, 12_586), plus(p2, p3));
    let o1 = plus(times(c5, 8410), plus(p2, p4));
    let o0 = plus(times(c7, 1223), plus(p1, p3));
    [
        plus(x0, o3),
        plus(x1, o2),
        plus(x2, o1),
        plus(x3, o0),
        less(x3, o0),
        less(x2, o1),
        less(x1, o2),
        less(x0, o3),
    ]
}

/// All eight lines across the rows of a block.
#[inline(always)]
fn lines(rows: &[[i32; 8]; 8], bias: i32, shift: u32) -> [[i32; 8]; 8] {
    let mut out = [[0; 8]; 8];
    for i in 0..8 {
        let [r0, r1, r2, r3, r4, r5, r6, r7] = rows;
        let made = line(
            [r0[i], r1[i], r2[i], r3[i], r4[i], r5[i], r6[i], r7[i]],
            bias,
        );
        for k in 0..8 {
            out[k][i] = made[k] >> shift;
        }
    }
    out
}

#[inline(always)]
fn transposed(rows: &[[i32; 8]; 8]) -> [[i32; 8]; 8] {
    let mut out = [[0; 8]; 8];
    for i in 0..8 {
        for k in 0..8 {
            out[i][k] = rows[k][i];
        }
    }
    out
}

/// Rounding of the second pass, and 128 for the middle level.
const LAST_BIAS: i32 = 512 + (1 << 16) + (128 << 17);

/// The inverse transform of a block whose rows are vertical frequencies; gives rows of pixels.
fn inverse(block: &[[i32; 8]; 8]) -> [[u8; 8]; 8] {
    let down = lines(block, 512, 10);
    let across = transposed(&lines(&transposed(&down), LAST_BIAS, 17));
    let mut out = [[0; 8]; 8];
    for (to, from) in out.as_flattened_mut().iter_mut().zip(across.as_flattened()) {
        *to = (*from).clamp(0, 255) as u8;
    }
    out
}

impl Plane<'_> {
    /// The next block of this component, to a place of the plane.
    #[inline(always)]
    fn block(&mut self, bits: &mut Bits<'_>, x: usize, y: usize) -> Option<()> {
        let mut block = [[0_i32; 8]; 8];
        let mut last = 0;
        let steps = &self.steps;
        self.codes.block(bits, &mut self.mean, |k, value| {
            last = k;
            if let Some((step, place)) = steps.get(k)
                && let Some(c) = block.as_flattened_mut().get_mut(usize::from(*place))
            {
                *c = value.wrapping_mul(*step);
            }
        })?;
        let pixels = if last > 0 {
            inverse(&block)
        } else {
            // The same with the mean alone.
            let [[mean, ..], ..] = block;
            [[(mean.wrapping_add(4 + 1024) >> 3).clamp(0, 255) as u8; 8]; 8]
        };
        let lines = self.pixels.chunks_exact_mut(self.width).skip(y);
        for (to, row) in lines.zip(&pixels) {
            to.get_mut(x..x + 8)?.copy_from_slice(row);
        }
        Some(())
    }
}

/// The pixels of a part, row by row, three codes each, as they are stored; with the MCUs that the
/// file has beyond its edges.
pub fn pixels(frame: &Frame, index: &Index, part: Part) -> Option<Vec<u8>> {
    let (columns, rows) = (part.x1.checked_sub(part.x0)?, part.y1.checked_sub(part.y0)?);
    let order = zigzag();
    let mut planes = Vec::with_capacity(3);
    for component in frame.components {
        let (codes, table) = frame.written(&component)?;
        let mut steps = [(0, 0); 64];
        for ((to, step), (u, v)) in steps.iter_mut().zip(table).zip(order) {
            *to = (i32::from(*step), (8 * v + u) as u8);
        }
        let width = columns * component.across * 8;
        planes.push(Plane {
            component,
            codes,
            width,
            pixels: vec![0; width * rows * component.down * 8],
            steps,
            mean: 0,
        });
    }
    let (all_columns, _) = frame.mcus();
    for row in part.y0..part.y1 {
        let mut bits = Bits::at(&index.words, 0);
        for column in part.x0..part.x1 {
            // The first of a row, and the first after each restart, begins where the walk saw it.
            if column == part.x0 || frame.restart > 0 {
                let mcu = row * all_columns + column;
                bits = Bits::at(&index.words, u64::from(*index.starts.get(mcu)?));
                for (plane, mean) in planes.iter_mut().zip(index.means.get(mcu)?) {
                    plane.mean = i32::from(*mean);
                }
            }
            for plane in &mut planes {
                let (across, down) = (plane.component.across, plane.component.down);
                for block in 0..across * down {
                    let x = ((column - part.x0) * across + block % across) * 8;
                    let y = ((row - part.y0) * down + block / across) * 8;
                    plane.block(&mut bits, x, y)?;
                }
            }
        }
    }
    let [y, cb, cr] = planes.as_slice() else {
        return None;
    };
    let mut out = vec![0; 3 * y.pixels.len()];
    let mut colours = [Chroma::new(y, cb), Chroma::new(y, cr)];
    let lines = y
        .pixels
        .chunks_exact(y.width)
        .zip(out.chunks_exact_mut(3 * y.width));
    for (at, (luma, to)) in lines.enumerate() {
        let [cb, cr] = &mut colours;
        rgb(luma, cb.line(at)?, cr.line(at)?, to);
    }
    Some(out)
}

/// A colour plane at the size of the luma plane, line by line.
struct Chroma<'a> {
    plane: &'a Plane<'a>,
    /// Twice as many columns, twice as many lines.
    double: (bool, bool),
    /// The line between two lines, with its ends repeated; and the finished one.
    between: Vec<u16>,
    line: Vec<u8>,
}

impl<'a> Chroma<'a> {
    fn new(luma: &Plane<'_>, plane: &'a Plane<'a>) -> Self {
        Self {
            plane,
            double: (
                luma.component.across > plane.component.across,
                luma.component.down > plane.component.down,
            ),
            between: vec![0; plane.width + 2],
            line: vec![0; luma.width],
        }
    }

    fn line(&mut self, at: usize) -> Option<&[u8]> {
        let width = self.plane.width;
        let lines = self.plane.pixels.len() / width.max(1);
        let of = |line: usize| self.plane.pixels.get(line * width..(line + 1) * width);
        let (across, down) = self.double;
        let near = of(if down { at / 2 } else { at })?;
        let far = if !down {
            near
        } else if at.is_multiple_of(2) {
            of((at / 2).saturating_sub(1))?
        } else {
            of((at / 2 + 1).min(lines - 1))?
        };
        let inner = self.between.get_mut(1..=width)?;
        for ((to, near), far) in inner.iter_mut().zip(near).zip(far) {
            *to = (3 * u16::from(*near) + 2 + u16::from(*far)) >> 2;
        }
        if !across {
            for (to, from) in self.line.iter_mut().zip(inner) {
                *to = *from as u8;
            }
            return Some(&self.line);
        }
        if let [first, inner @ .., last] = self.between.as_mut_slice() {
            (*first, *last) = (*inner.first()?, *inner.last()?);
        }
        let pairs = self.line.as_chunks_mut::<2>().0;
        for (to, three) in pairs.iter_mut().zip(self.between.windows(3)) {
            let [before, here, after] = three else {
                continue;
            };
            *to = [(3 * here + 2 + before) >> 2, (3 * here + 2 + after) >> 2].map(|v| v as u8);
        }
        Some(&self.line)
    }
}

/// Pixels that are made side by side.
const LANES: usize = 16;

/// One line of YCbCr to RGB.
fn rgb(luma: &[u8], cb: &[u8], cr: &[u8], out: &mut [u8]) {
    let byte = |v: i32| (v >> 14).clamp(0, 255) as u32;
    let (luma, luma_rest) = luma.as_chunks::<LANES>();
    let (cb, cb_rest) = cb.as_chunks::<LANES>();
    let (cr, cr_rest) = cr.as_chunks::<LANES>();
    // A line is made of whole blocks of eight.
    let mut last = [[0; LANES]; 3];
    for (to, from) in last.iter_mut().zip([luma_rest, cb_rest, cr_rest]) {
        for (t, f) in to.iter_mut().zip(from) {
            *t = *f;
        }
    }
    let [last_y, last_cb, last_cr] = &last;
    let luma = luma.iter().chain([last_y]);
    let cb = cb.iter().chain([last_cb]);
    let cr = cr.iter().chain([last_cr]);
    for (((y, cb), cr), to) in luma.zip(cb).zip(cr).zip(out.chunks_mut(3 * LANES)) {
        // Three bytes of each number, the lowest first.
        let mut pixels = [0_u32; LANES];
        for i in 0..LANES {
            let light = i32::from(y[i]) * 16_384 + 8191;
            let (cb, cr) = (i32::from(cb[i]) - 128, i32::from(cr[i]) - 128);
            let r = byte(light + cr * 22_970);
            let g = byte(light - cr * 11_700 - cb * 5638);
            let b = byte(light + cb * 29_032);
            pixels[i] = r | g << 8 | b << 16;
        }
        // Four of them make three whole ones; bytes one by one take long.
        let whole = to.as_chunks_mut::<12>().0;
        for (to, [a, b, c, d]) in whole.iter_mut().zip(pixels.as_chunks::<4>().0) {
            let words = [a | b << 24, b >> 8 | c << 16, c >> 16 | d << 8];
            for (to, word) in to.as_chunks_mut::<4>().0.iter_mut().zip(words) {
                *to = word.to_le_bytes();
            }
        }
    }
}
