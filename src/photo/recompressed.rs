//! Traces in the pixels: of an earlier, stronger JPEG compression, and of a curve laid over codes.
//!
//! A JPEG keeps each frequency of its 8 × 8 blocks (ITU-T T.81) as a whole multiple of a step.
//! When a finer compression follows on the same grid, the coarse multiples stay visible: values
//! in between are missing. A curve laid over 8-bit codes leaves gaps and double codes in the
//! histogram at even distances, where a picture developed from more bits has none.

/// Block rows that are looked at, spread over the picture.
const BLOCK_ROWS: usize = 40;
/// Blocks that are looked at in each.
const BLOCKS: usize = 60;
/// Frequencies that are looked at: the first five after the mean, in zigzag order.
const FREQUENCIES: usize = 5;
/// Largest step of an earlier compression that is tried.
const MAX_STEP: u16 = 48;
/// Smallest that matters: about quality 78 of the usual tables.
const MIN_STEP: u16 = 5;
/// Values away from zero that a frequency needs.
const MIN_VALUES: usize = 150;
/// Share of values at missing places up to which they count as missing; at random it is over 0.4.
const MISSING: f64 = 0.12;

/// Counts that codes to the left and right of a gap need.
const MIN_COUNT: f64 = 60.0;
/// Gaps and doubles a histogram needs.
const MIN_GAPS: usize = 6;
/// Share of the counts that leave the line of their neighbours.
const ROUGH: f64 = 0.08;

/// ½ C(k) cos((2x + 1) k π / 16) for k = 0, 1, 2.
const WAVES: [[f32; 8]; 3] = [
    [0.353_553_4; 8],
    [
        0.490_392_6,
        0.415_734_8,
        0.277_785_1,
        0.097_545_2,
        -0.097_545_2,
        -0.277_785_1,
        -0.415_734_8,
        -0.490_392_6,
    ],
    [
        0.461_939_8,
        0.191_341_7,
        -0.191_341_7,
        -0.461_939_8,
        -0.461_939_8,
        -0.191_341_7,
        0.191_341_7,
        0.461_939_8,
    ],
];

/// What a sample of the pixels shows.
pub struct Traces {
    /// Values of the first frequencies, one list each.
    frequencies: [Vec<f32>; FREQUENCIES],
    /// Counts of the codes of red, green and blue.
    counts: [[u32; 256]; 3],
}

impl Traces {
    /// Takes the sample from 8-bit RGB as stored, so that blocks start at the corner.
    pub fn of(rgb: &[u8], width: usize) -> Self {
        let mut out = Self {
            frequencies: Default::default(),
            counts: [[0; 256]; 3],
        };
        let line = 3 * width;
        let height = rgb.len() / line.max(1);
        let (across, down) = (width / 8, height / 8);
        // Runs of neighbours: each run is in memory together.
        for row in (0..down).step_by(down / BLOCK_ROWS + 1) {
            let first = across.saturating_sub(BLOCKS) * (row % 7) / 6;
            let rows = rgb.get(8 * row * line..).unwrap_or_default();
            for pixel in rows.get(..line).unwrap_or_default().as_chunks::<3>().0 {
                for (counts, code) in out.counts.iter_mut().zip(pixel) {
                    if let Some(n) = counts.get_mut(usize::from(*code)) {
                        *n += 1;
                    }
                }
            }
            for column in first..across.min(first + BLOCKS) {
                out.block(rows, line, column);
            }
        }
        out
    }

    fn block(&mut self, rows: &[u8], line: usize, column: usize) {
        let mut sums = [0.0_f32; FREQUENCIES];
        for (y, row) in rows.chunks(line).take(8).enumerate() {
            let Some(pixels) = row.get(24 * column..24 * column + 24) else {
                return;
            };
            // Clipped blocks were cut after the transform; they tell nothing.
            if pixels.iter().any(|v| matches!(v, 0 | 255)) {
                return;
            }
            let mut across = [0.0_f32; 3];
            for (x, [r, g, b]) in pixels.as_chunks::<3>().0.iter().enumerate() {
                let luma = 0.299 * f32::from(*r) + 0.587 * f32::from(*g) + 0.114 * f32::from(*b);
                for (sum, wave) in across.iter_mut().zip(&WAVES) {
                    *sum += luma * wave.get(x).copied().unwrap_or(0.0);
                }
            }
            let [a0, a1, a2] = across;
            let [d0, d1, d2] = WAVES.map(|wave| wave.get(y).copied().unwrap_or(0.0));
            let here = [a1 * d0, a0 * d1, a0 * d2, a1 * d1, a2 * d0];
            for (sum, v) in sums.iter_mut().zip(here) {
                *sum += v;
            }
        }
        for (list, v) in self.frequencies.iter_mut().zip(sums) {
            list.push(v);
        }
    }

    /// Whether a coarser compression came before this one, of which `table` is the table (none:
    /// the file is no JPEG).
    pub fn compressed_before(&self, table: Option<&[u16; 64]>) -> bool {
        let hits = self.frequencies.iter().enumerate().filter(|(i, values)| {
            let step = table
                .and_then(|t| t.get(i + 1))
                .map_or(0.0, |s| f32::from(*s));
            // Half a step of this compression, and the rounding of the pixels between.
            let reach = (0.5 * step + 0.6).max(1.2);
            let away: Vec<f32> = values
                .iter()
                .map(|v| if step > 0.0 { nearest(*v, step) } else { *v })
                .filter(|v| v.abs() > reach)
                .collect();
            away.len() >= MIN_VALUES
                && (MIN_STEP..=MAX_STEP)
                    .map(f32::from)
                    .filter(|earlier| reach <= 0.3 * earlier)
                    .any(|earlier| {
                        let between = |v: &&f32| (**v - nearest(**v, earlier)).abs() > reach;
                        (away.iter().filter(between).count() as f64) < MISSING * away.len() as f64
                    })
        });
        hits.count() >= 2
    }

    /// Whether codes are missing or doubled as after a curve over 8 bits.
    pub fn curve_over_codes(&self) -> bool {
        self.counts.iter().any(|counts| {
            let (mut rough, mut all, mut gaps) = (0.0, 0.0, 0);
            for w in counts.windows(3).filter_map(|w| w.as_array::<3>()) {
                let [a, b, c] = w.map(f64::from);
                if a.min(c) < MIN_COUNT {
                    continue;
                }
                rough += (2.0 * b - a - c).abs();
                all += a + 2.0 * b + c;
                gaps += usize::from(b < 0.5 * a.min(c) || b > 1.6 * a.max(c));
            }
            gaps >= MIN_GAPS && rough > ROUGH * all
        })
    }
}

/// The nearest multiple of a step. (Half up: other roundings are slow calls in WebAssembly.)
fn nearest(v: f32, step: f32) -> f32 {
    step * (v / step + 0.5).floor()
}
