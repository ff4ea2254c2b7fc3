//! Rows of pixels at once, in `f32`: 8-bit sRGB → CIELAB (D65, 2°), and ΔE00 between two rows.
//!
//! For pictures, where a thousandth of a ΔE00 is nothing and every pixel costs; readings stay with
//! the `f64` code. L*, a*, b* lie in a row each. Pixels go in blocks of [`BLOCK`] through loops
//! without a branch or a call, so that the compiler takes several at once; only additions,
//! multiplications, divisions and square roots occur, so that bits are the same natively and in
//! every browser.
//!
//! The cube root's first guess comes from the bits of the number. One polynomial takes it to the
//! root: with u = t·z³ near 1 for z ≈ t^(−1∕3), t^(1∕3) = t·z²·u^(−2∕3). Coefficients are least
//! squares on Chebyshev's points of 0.896 ≤ u ≤ 1.103, relative error 5·10⁻⁷: our own.

mod difference;

pub use difference::delta_e_00_rows;

use super::adaptation::WHITE_D65;
use super::rgb_space::SRGB;

/// Pixels of a block.
pub const BLOCK: usize = 64;

/// (6∕29)³, below which the cube root is replaced by a line, and that line: slope and offset.
const EPSILON: f32 = 216.0 / 24389.0;
const LINE: [f32; 2] = [24389.0 / 27.0 / 116.0, 16.0 / 116.0];
/// Bits of the guess for t^(−1∕3), chosen for the smallest error of u between (6∕29)³ and 1.1.
const GUESS: u32 = 0x549c_ccb0;
/// u^(−2∕3) in powers of u − 1.
const POWER: [f32; 5] = [1.0, -0.666_646_2, 0.555_539_7, -0.500_269_5, 0.458_541_75];

/// A row of L*, one of a*, one of b*.
pub type LabRow<'a> = [&'a [f32]; 3];
/// The same, to be written.
pub type LabRowMut<'a> = [&'a mut [f32]; 3];

/// 8-bit sRGB codes → CIELAB: the curve as a table, and the matrix, relative to white.
#[derive(Debug, Clone)]
pub struct LabFromSrgb8 {
    linear: [f32; 256],
    relative_xyz_from_rgb: [[f32; 3]; 3],
}

impl LabFromSrgb8 {
    /// Works out the table.
    pub fn new() -> Self {
        let linear = |code: usize| SRGB.transfer.linear_from_encoded(code as f64 / 255.0) as f32;
        let [x, y, z] = SRGB.xyz_d65_from_linear_rgb().0;
        let [white_x, white_y, white_z] = WHITE_D65;
        Self {
            linear: std::array::from_fn(linear),
            relative_xyz_from_rgb: [
                x.map(|v| (v / white_x) as f32),
                y.map(|v| (v / white_y) as f32),
                z.map(|v| (v / white_z) as f32),
            ],
        }
    }

    /// L*, a*, b* of a row of R, G, B codes; as many as the shortest of the rows holds.
    pub fn row(&self, codes: &[u8], lab: LabRowMut<'_>) {
        let [l, a, b] = lab;
        let (pixels, _) = codes.as_chunks::<3>();
        let l = l.chunks_mut(BLOCK);
        let ab = a.chunks_mut(BLOCK).zip(b.chunks_mut(BLOCK));
        for ((pixels, l), (a, b)) in pixels.chunks(BLOCK).zip(l).zip(ab) {
            let whole = (
                pixels.as_array(),
                l.as_mut_array(),
                a.as_mut_array(),
                b.as_mut_array(),
            );
            if let (Some(pixels), Some(l), Some(a), Some(b)) = whole {
                self.block(pixels, [l, a, b]);
                continue;
            }
            let mut last = ([[0; 3]; BLOCK], [[0.0; BLOCK]; 3]);
            for (to, from) in last.0.iter_mut().zip(pixels) {
                *to = *from;
            }
            let [last_l, last_a, last_b] = &mut last.1;
            self.block(&last.0, [last_l, last_a, last_b]);
            for (to, from) in [(l, last_l), (a, last_a), (b, last_b)] {
                for (to, from) in to.iter_mut().zip(from.iter()).take(pixels.len()) {
                    *to = *from;
                }
            }
        }
    }

    #[inline]
    fn block(&self, pixels: &[[u8; 3]; BLOCK], [l, a, b]: [&mut [f32; BLOCK]; 3]) {
        let mut rgb = [[0.0_f32; BLOCK]; 3];
        let [red, green, blue] = &mut rgb;
        for (((p, r), g), b) in pixels.iter().zip(red).zip(green).zip(blue) {
            let [pr, pg, pb] = *p;
            *r = self.linear[pr as usize];
            *g = self.linear[pg as usize];
            *b = self.linear[pb as usize];
        }
        let [red, green, blue] = &rgb;
        let m = &self.relative_xyz_from_rgb;
        for i in 0..BLOCK {
            let (r, g, bl) = (red[i], green[i], blue[i]);
            let [x, y, z] =
                [0, 1, 2].map(|k: usize| root_or_line(m[k][0] * r + m[k][1] * g + m[k][2] * bl));
            l[i] = 116.0 * y - 16.0;
            a[i] = 500.0 * (x - y);
            b[i] = 200.0 * (y - z);
        }
    }
}

impl Default for LabFromSrgb8 {
    fn default() -> Self {
        Self::new()
    }
}

/// CIELAB's f(t), 0 ≤ t ≤ 1.1.
#[inline]
fn root_or_line(t: f32) -> f32 {
    // A third of the bits as 341∕1024 of them: multiplying keeps within 32 bits.
    let z = f32::from_bits(GUESS.wrapping_sub((t.to_bits() >> 10).wrapping_mul(341)));
    let near = t * (z * z);
    let off = near * z - 1.0;
    let [p0, p1, p2, p3, p4] = POWER;
    let root = near * (p0 + off * (p1 + off * (p2 + off * (p3 + off * p4))));
    if t > EPSILON {
        root
    } else {
        LINE[0] * t + LINE[1]
    }
}
