//! ΔE00 between two rows without an angle being worked out.
//!
//! CIEDE2000 (ISO/CIE 11664-6) asks for hue angles only to take sines and cosines of them. All of
//! these follow from the vectors (a′, b′): with P = C₁′C₂′, their dot product d and cross product
//! x, ΔH′ = x ∕ √((P + d)∕2), or ±√(2(P − d)) where hues are more than 90° apart; the mean hue
//! points along C₂′v₁ + C₁′v₂, or there across C₂′v₁ − C₁′v₂, both √(2P(P + |d|)) long; the cosines
//! of its multiples are polynomials. Only Δθ needs an angle, that from 275°: its square is a
//! polynomial in 1 − cos, good where the exponential is not yet 0.
//!
//! Coefficients are our own least-squares fits; what they are good for is in the tests.

use super::{BLOCK, LabRow};

/// 50⁷: 25⁷ for twice the chroma.
const POW50_7: f32 = 781_250_000_000.0;
/// Cosine and sine of 30°, 6°, 63°, 275°.
const AT_30: [f32; 2] = [0.866_025_4, 0.5];
const AT_6: [f32; 2] = [0.994_521_9, 0.104_528_464];
const AT_63: [f32; 2] = [0.453_990_5, 0.891_006_5];
const AT_275: [f32; 2] = [0.087_155_744, -0.996_194_7];
/// (angle ∕ 25°)² ∕ q in powers of q = 1 − cos(angle).
const SQUARE: [f32; 4] = [10.504_886, 1.753_695_2, 0.442_563_98, 0.221_114_71];
/// 2^x in powers of x, −½ ≤ x ≤ ½.
const TWO_TO: [f32; 6] = [
    1.0,
    std::f32::consts::LN_2,
    0.240_222_11,
    0.055_503_406,
    0.009_670_815,
    0.001_339_534,
];
/// sin x ∕ x in powers of x², 0 ≤ x ≤ π∕3.
const SINE: [f32; 4] = [1.0, -0.166_665_96, 0.008_329_786, -0.000_192_813_5];
/// 1½ · 2²³ and the exponent of 1: a number added to it is rounded into the last bits.
const WHOLE: f32 = 12_582_912.0 + 127.0;
/// Less than any chroma that matters, and its square is a number still.
const TINY: f32 = 1e-18;

/// ΔE00 (1:1:1) of each pixel of two rows; as many as the shortest of the rows holds.
pub fn delta_e_00_rows(first: LabRow<'_>, second: LabRow<'_>, out: &mut [f32]) {
    let rows = [first, second];
    for (place, out) in out.chunks_mut(BLOCK).enumerate() {
        let own = rows.map(|rows| rows.map(|row| row.chunks(BLOCK).nth(place).unwrap_or_default()));
        let [[l1, a1, b1], [l2, a2, b2]] = own.map(|rows| rows.map(|row| row.as_array()));
        if let (Some(l1), Some(a1), Some(b1)) = (l1, a1, b1)
            && let (Some(l2), Some(a2), Some(b2)) = (l2, a2, b2)
            && let Some(out) = out.as_mut_array()
        {
            delta_e_00_block([l1, a1, b1], [l2, a2, b2], out);
            continue;
        }
        let shortest = own.iter().flatten().map(|row| row.len()).min();
        let [[l1, a1, b1], [l2, a2, b2]] = own.map(|rows| rows.map(padded));
        let mut last = [0.0; BLOCK];
        delta_e_00_block([&l1, &a1, &b1], [&l2, &a2, &b2], &mut last);
        for (to, from) in out.iter_mut().zip(last).take(shortest.unwrap_or(0)) {
            *to = from;
        }
    }
}

fn padded(row: &[f32]) -> Numbers {
    let mut out = [0.0; BLOCK];
    for (to, from) in out.iter_mut().zip(row) {
        *to = *from;
    }
    out
}

/// One number per pixel of a block.
type Numbers = [f32; BLOCK];

/// In several loops, each with few enough constants and numbers at hand for the registers.
#[inline(never)]
fn delta_e_00_block([l1, a1, b1]: [&Numbers; 3], [l2, a2, b2]: [&Numbers; 3], out: &mut Numbers) {
    let [mut c1, mut c2, mut a1_stretched, mut a2_stretched] = [[0.0; BLOCK]; 4];
    for i in 0..BLOCK {
        let (a1, b1, a2, b2) = (a1[i], b1[i], a2[i], b2[i]);
        let (b1_square, b2_square) = (b1 * b1, b2 * b2);
        let sum = (a1 * a1 + b1_square).sqrt() + (a2 * a2 + b2_square).sqrt();
        let stretch = 1.5 - 0.5 * share_of_chroma(sum);
        let (a1, a2) = (a1 * stretch, a2 * stretch);
        c1[i] = (a1 * a1 + b1_square).sqrt();
        c2[i] = (a2 * a2 + b2_square).sqrt();
        (a1_stretched[i], a2_stretched[i]) = (a1, a2);
    }
    let [mut d_h, mut cos, mut sin] = [[0.0; BLOCK]; 3];
    for i in 0..BLOCK {
        let (c1, a1, b1) = (c1[i], a1_stretched[i], b1[i]);
        let (c2, a2, b2) = (c2[i], a2_stretched[i], b2[i]);
        let product = c1 * c2 + TINY;
        let dot = a1 * a2 + b1 * b2;
        let cross = a1 * (b2 - b1) - b1 * (a2 - a1);
        // Both ways from one root: 1 ∕ √(2P(P + |d|)).
        let sum = product + dot.abs();
        let shorter = 1.0 / (2.0 * product * sum).sqrt();
        let is_near = dot > 0.0;
        // Opposite hues: which side the mean lies on is the sign of the cross product; where that
        // is 0, the mean of the two angles has no cosine above 0.
        let (from_1, from_2) = (c2 * shorter, c1 * shorter);
        let (a1, b1, a2, b2) = (a1 * from_1, b1 * from_1, a2 * from_2, b2 * from_2);
        let (across_a, across_b) = (a1 - a2, b1 - b2);
        let side = 1.0_f32.copysign(if cross == 0.0 { across_b } else { cross });
        cos[i] = if is_near { a1 + a2 } else { -side * across_b };
        sin[i] = if is_near { b1 + b2 } else { side * across_a };
        d_h[i] = 2.0 * product.sqrt() * shorter * if is_near { cross } else { side * sum };
    }
    let mut sine = [0.0; BLOCK];
    for i in 0..BLOCK {
        sine[i] = fading(1.0 - (cos[i] * AT_275[0] + sin[i] * AT_275[1]));
    }
    for turn in &mut sine {
        *turn = sine_of(*turn);
    }
    let mut weight = [0.0; BLOCK];
    for i in 0..BLOCK {
        weight[i] = hue_weight(cos[i], sin[i]);
    }
    for i in 0..BLOCK {
        let (c_sum, d_c) = (c1[i] + c2[i], c2[i] - c1[i]);
        let r_t = -2.0 * sine[i] * share_of_chroma(c_sum);
        let from_50 = 0.5 * (l1[i] + l2[i]) - 50.0;
        let l_50 = from_50 * from_50;
        let root = (20.0 + l_50).sqrt();
        // ΔL′∕SL, ΔC′∕SC, ΔH′∕SH over one denominator.
        let s_l = root + 0.015 * l_50;
        let s_c = 1.0 + 0.0225 * c_sum;
        let s_h = 1.0 + 0.0075 * c_sum * weight[i];
        let one = 1.0 / (s_l * s_c * s_h);
        let d_l = (l2[i] - l1[i]) * root * (s_c * s_h) * one;
        let d_c = d_c * (s_l * s_h) * one;
        let d_h = d_h[i] * (s_l * s_c) * one;
        let squared = d_l * d_l + d_c * d_c + d_h * d_h + r_t * d_c * d_h;
        out[i] = (if squared > 0.0 { squared } else { 0.0 }).sqrt();
    }
}

/// √(c⁷ ∕ (c⁷ + 25⁷)) of a mean c, given twice that.
#[inline]
fn share_of_chroma(twice: f32) -> f32 {
    let square = twice * twice;
    let seventh = square * square * square * twice;
    (seventh / (seventh + POW50_7)).sqrt()
}

/// T of CIEDE2000 by cosine and sine of the mean hue.
#[inline]
fn hue_weight(cos: f32, sin: f32) -> f32 {
    let twice = cos + cos;
    let (cos2, sin2) = (twice * cos - 1.0, twice * sin);
    let (cos3, sin3) = (twice * cos2 - cos, twice * sin2 - sin);
    let (cos4, sin4) = (twice * cos3 - cos2, twice * sin3 - sin2);
    1.0 - (0.17 * AT_30[0]) * cos - (0.17 * AT_30[1]) * sin + 0.24 * cos2 + (0.32 * AT_6[0]) * cos3
        - (0.32 * AT_6[1]) * sin3
        - (0.20 * AT_63[0]) * cos4
        - (0.20 * AT_63[1]) * sin4
}

/// 2Δθ, by 1 − cos of the angle between the mean hue and 275°.
#[inline]
fn fading(q: f32) -> f32 {
    let [s0, s1, s2, s3] = SQUARE;
    let square = q * (s0 + q * (s1 + q * (s2 + q * s3)));
    // 2 Δθ = 60° · e^−square.
    let power = square * -std::f32::consts::LOG2_E;
    let whole = power + WHOLE;
    let x = power - (whole - WHOLE);
    let [e0, e1, e2, e3, e4, e5] = TWO_TO;
    let fraction = e0 + x * (e1 + x * (e2 + x * (e3 + x * (e4 + x * e5))));
    std::f32::consts::FRAC_PI_3 * fraction * f32::from_bits(whole.to_bits() << 23)
}

/// Its sine.
#[inline]
fn sine_of(turn: f32) -> f32 {
    let turn_2 = turn * turn;
    let [n0, n1, n2, n3] = SINE;
    turn * (n0 + turn_2 * (n1 + turn_2 * (n2 + turn_2 * n3)))
}
