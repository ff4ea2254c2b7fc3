//! Pixels at their own depth, and turning them upright.

use super::tiles::Tiles;
use std::ops::Range;

/// Pixels of a photo, row by row.
pub enum Pixels {
    /// One 8-bit value each.
    Grey8(Vec<u8>),
    /// One 16-bit value each.
    Grey16(Vec<u16>),
    /// Three 8-bit values each.
    Rgb8(Vec<u8>),
    /// Three 16-bit values each.
    Rgb16(Vec<u16>),
    /// Three 8-bit values each, made where they are looked at.
    Tiled(Box<Tiles>),
}

impl Pixels {
    /// Bits per channel.
    pub const fn bits(&self) -> u8 {
        match self {
            Self::Grey8(_) | Self::Rgb8(_) | Self::Tiled(_) => 8,
            Self::Grey16(_) | Self::Rgb16(_) => 16,
        }
    }

    /// One value per pixel.
    pub const fn is_grey(&self) -> bool {
        matches!(self, Self::Grey8(_) | Self::Grey16(_))
    }

    /// From 8-bit values with 1 to 4 channels; a fourth or second channel (alpha) is left out.
    pub fn from_u8(values: Vec<u8>, channels: usize) -> Option<Self> {
        Some(match channels {
            1 => Self::Grey8(values),
            2 => Self::Grey8(without_alpha::<u8, 2, 1>(&values)),
            3 => Self::Rgb8(values),
            4 => Self::Rgb8(without_alpha::<u8, 4, 3>(&values)),
            _ => return None,
        })
    }

    /// From 16-bit values with 1 to 4 channels.
    pub fn from_u16(values: Vec<u16>, channels: usize) -> Option<Self> {
        Some(match channels {
            1 => Self::Grey16(values),
            2 => Self::Grey16(without_alpha::<u16, 2, 1>(&values)),
            3 => Self::Rgb16(values),
            4 => Self::Rgb16(without_alpha::<u16, 4, 3>(&values)),
            _ => return None,
        })
    }

    /// Means of the codes over the square blocks of some block rows, row by row, grey as three equal
    /// codes.
    pub fn block_means(
        &self,
        width: u32,
        rows: Range<u32>,
        block: u32,
        columns: u32,
    ) -> Vec<[u16; 3]> {
        let (line, size, count) = (width as usize, block as usize, columns as usize);
        let px = |row: u32| row as usize * size;
        let each = |row: &dyn Fn(usize) -> Vec<[u16; 3]>| {
            let mut all = Vec::with_capacity(rows.len() * count);
            for r in rows.clone() {
                all.extend(row(r as usize));
            }
            all
        };
        match self {
            Self::Rgb8(v) => each(&|row| means_of_bytes(v, line, row, size, count)),
            Self::Rgb16(v) => {
                each(&|row| across::<3>(&down(v, 3 * line, row, size, 3 * count * size), size))
            }
            Self::Grey8(v) => {
                each(&|row| across::<1>(&down(v, line, row, size, count * size), size))
            }
            Self::Grey16(v) => {
                each(&|row| across::<1>(&down(v, line, row, size, count * size), size))
            }
            Self::Tiled(tiles) => {
                // All rows in one go. What cannot be made is black.
                let pixels = px(rows.start)..px(rows.end);
                let band = tiles.band(pixels.clone());
                let band = band.unwrap_or_else(|| vec![0; 3 * line * pixels.len()]);
                Self::Rgb8(band).block_means(width, 0..rows.end - rows.start, block, columns)
            }
        }
    }

    /// Turns and mirrors by an EXIF orientation (1–8); gives the upright width and height.
    pub fn upright(self, width: u32, height: u32, orientation: u8) -> (Self, u32, u32) {
        let (w, h) = (width as usize, height as usize);
        let turned = match self {
            Self::Grey8(v) => Self::Grey8(turn::<u8, 1>(v, w, h, orientation)),
            Self::Grey16(v) => Self::Grey16(turn::<u16, 1>(v, w, h, orientation)),
            Self::Rgb8(v) => Self::Rgb8(turn::<u8, 3>(v, w, h, orientation)),
            Self::Rgb16(v) => Self::Rgb16(turn::<u16, 3>(v, w, h, orientation)),
            Self::Tiled(tiles) => Self::Tiled(Box::new(tiles.upright(orientation))),
        };
        if orientation >= 5 {
            (turned, height, width)
        } else {
            (turned, width, height)
        }
    }
}

/// The means of 8-bit RGB.
fn means_of_bytes(
    rgb: &[u8],
    width: usize,
    row: usize,
    block: usize,
    columns: usize,
) -> Vec<[u16; 3]> {
    if block == 1 {
        let line = rgb.get(row * width * 3..).unwrap_or_default();
        let pixels = line.as_chunks::<3>().0.iter().take(columns);
        return pixels.map(|p| p.map(u16::from)).collect();
    }
    let wanted = columns * block * 3;
    // A column of up to 256 8-bit codes fits into 16 bits, which adds twice as fast.
    let sums = if block <= 256 {
        down_8(rgb, width * 3, row, block, wanted)
    } else {
        down(rgb, width * 3, row, block, wanted)
    };
    across::<3>(&sums, block)
}

/// Sums of `block` rows of `line` values each, for the first `wanted` places.
fn down<T: Copy + Into<u32>>(
    values: &[T],
    line: usize,
    row: usize,
    block: usize,
    wanted: usize,
) -> Vec<u32> {
    let mut sums = vec![0_u32; wanted];
    for y in row * block..(row + 1) * block {
        for (s, v) in sums
            .iter_mut()
            .zip(values.get(y * line..).unwrap_or_default())
        {
            *s += (*v).into();
        }
    }
    sums
}

/// The same for bytes, eight at a time: even and odd bytes are added as 16-bit lanes of a word,
/// which hold up to 257 rows.
fn down_8(values: &[u8], line: usize, row: usize, block: usize, wanted: usize) -> Vec<u32> {
    const LANES: u64 = 0x00FF_00FF_00FF_00FF;
    let mut words = vec![[0_u64; 2]; wanted.div_ceil(8)];
    for y in row * block..(row + 1) * block {
        let from = (y * line).min(values.len());
        let bytes = values
            .get(from..(from + wanted).min(values.len()))
            .unwrap_or_default();
        let (chunks, rest) = bytes.as_chunks::<8>();
        let mut last = [0_u8; 8];
        for (to, from) in last.iter_mut().zip(rest) {
            *to = *from;
        }
        for ([even, odd], chunk) in words.iter_mut().zip(chunks.iter().chain([&last])) {
            let word = u64::from_le_bytes(*chunk);
            *even += word & LANES;
            *odd += (word >> 8) & LANES;
        }
    }
    let mut sums = vec![0_u32; words.len() * 8];
    for (out, [even, odd]) in sums.as_chunks_mut::<8>().0.iter_mut().zip(words) {
        let lane = |word: u64, shift: u32| u32::from((word >> shift) as u16);
        *out = [
            lane(even, 0),
            lane(odd, 0),
            lane(even, 16),
            lane(odd, 16),
            lane(even, 32),
            lane(odd, 32),
            lane(even, 48),
            lane(odd, 48),
        ];
    }
    sums.truncate(wanted);
    sums
}

/// Sums of `block` rows to means over whole blocks.
fn across<const N: usize>(sums: &[u32], block: usize) -> Vec<[u16; 3]> {
    // A block of 257² 16-bit codes no longer fits into 32 bits.
    let count = (block * block) as u64;
    sums.chunks_exact(block * N)
        .map(|pixels| {
            let mut sum = [0_u64; N];
            for pixel in pixels.as_chunks::<N>().0 {
                for (s, v) in sum.iter_mut().zip(pixel) {
                    *s += u64::from(*v);
                }
            }
            let mean = sum.map(|s| ((s + count / 2) / count) as u16);
            // One value stands for all three.
            let [first, ..] = mean.as_slice() else {
                return [0; 3];
            };
            mean.as_slice()
                .as_array::<3>()
                .copied()
                .unwrap_or([*first; 3])
        })
        .collect()
}

/// Whether a second or fourth channel is anywhere less than opaque.
pub fn has_transparency<T: Copy + PartialEq>(values: &[T], channels: usize, opaque: T) -> bool {
    matches!(channels, 2 | 4)
        && values
            .chunks_exact(channels)
            .any(|p| p.last().is_some_and(|a| *a != opaque))
}

fn without_alpha<T: Copy, const FROM: usize, const TO: usize>(values: &[T]) -> Vec<T> {
    values
        .as_chunks::<FROM>()
        .0
        .iter()
        .flat_map(|p| p.iter().copied().take(TO))
        .collect()
}

/// EXIF 2.32, tag 0x0112: where row 0 and column 0 of the stored picture belong.
pub fn turn<T: Copy + Default, const N: usize>(
    stored: Vec<T>,
    width: usize,
    height: usize,
    orientation: u8,
) -> Vec<T> {
    if !(2..=8).contains(&orientation) {
        return stored;
    }
    let pixels = stored.as_chunks::<N>().0;
    let sideways = orientation >= 5;
    let (out_width, out_height) = if sideways {
        (height, width)
    } else {
        (width, height)
    };
    let mut out = Vec::with_capacity(stored.len());
    for y in 0..out_height {
        for x in 0..out_width {
            let (from_x, from_y) = match orientation {
                2 => (width - 1 - x, y),
                3 => (width - 1 - x, height - 1 - y),
                4 => (x, height - 1 - y),
                5 => (y, x),
                6 => (y, height - 1 - x),
                7 => (width - 1 - y, height - 1 - x),
                _ => (width - 1 - y, x),
            };
            let pixel = pixels.get(from_y * width + from_x).copied();
            out.extend(pixel.unwrap_or([T::default(); N]));
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Stored pictures that all show the same upright 2×3 picture (1 2 / 3 4 / 5 6), one per
    /// orientation, written down by hand from the definition.
    #[test]
    fn all_orientations_come_upright() {
        let stored: [(u8, u32, u32, [u8; 6]); 8] = [
            (1, 2, 3, [1, 2, 3, 4, 5, 6]),
            (2, 2, 3, [2, 1, 4, 3, 6, 5]),
            (3, 2, 3, [6, 5, 4, 3, 2, 1]),
            (4, 2, 3, [5, 6, 3, 4, 1, 2]),
            (5, 3, 2, [1, 3, 5, 2, 4, 6]),
            (6, 3, 2, [2, 4, 6, 1, 3, 5]),
            (7, 3, 2, [6, 4, 2, 5, 3, 1]),
            (8, 3, 2, [5, 3, 1, 6, 4, 2]),
        ];
        for (orientation, width, height, values) in stored {
            let pixels = Pixels::Grey8(values.to_vec());
            let (pixels, w, h) = pixels.upright(width, height, orientation);
            assert_eq!((w, h), (2, 3), "orientation {orientation}");
            let Pixels::Grey8(v) = pixels else {
                panic!("grey stays grey")
            };
            assert_eq!(v, [1, 2, 3, 4, 5, 6], "orientation {orientation}");
        }
    }

    /// Eight bytes at a time gives what one at a time gives, also at the ragged end.
    #[test]
    fn block_means_agree() {
        for (width, block) in [(7_usize, 2_usize), (16, 3), (33, 5), (11, 1)] {
            let values: Vec<u8> = (0..width * block * 3 * 2)
                .map(|i| (i * 89 % 256) as u8)
                .collect();
            let columns = width / block;
            for row in 0..2 {
                let wanted = columns * block * 3;
                let plain: Vec<u32> = down(&values, width * 3, row, block, wanted);
                assert_eq!(down_8(&values, width * 3, row, block, wanted), plain);
                let means = Pixels::Rgb8(values.clone()).block_means(
                    width as u32,
                    row as u32..row as u32 + 1,
                    block as u32,
                    columns as u32,
                );
                let first: u32 = (0..block)
                    .flat_map(|y| (0..block).map(move |x| (y, x)))
                    .map(|(y, x)| u32::from(values[((row * block + y) * width + x) * 3]))
                    .sum();
                let n = (block * block) as u32;
                assert_eq!(u32::from(means[0][0]), (first + n / 2) / n);
            }
        }
    }

    /// White stays white however large the blocks are.
    #[test]
    fn large_blocks_do_not_overflow() {
        let white = Pixels::Rgb16(vec![u16::MAX; 300 * 300 * 3]);
        assert_eq!(white.block_means(300, 0..1, 300, 1), [[u16::MAX; 3]]);
    }

    #[test]
    fn transparency_is_seen() {
        assert!(!has_transparency(&[1_u8, 2, 3, 255], 4, 255));
        assert!(has_transparency(&[1_u8, 2, 3, 254], 4, 255));
        assert!(!has_transparency(&[1_u8, 2, 3], 3, 255));
    }

    #[test]
    fn alpha_is_left_out() {
        let Some(Pixels::Rgb8(v)) = Pixels::from_u8(vec![1, 2, 3, 9, 4, 5, 6, 9], 4) else {
            panic!("RGB")
        };
        assert_eq!(v, [1, 2, 3, 4, 5, 6]);
        let Some(Pixels::Grey16(v)) = Pixels::from_u16(vec![1, 9, 2, 9], 2) else {
            panic!("grey")
        };
        assert_eq!(v, [1, 2]);
    }
}
