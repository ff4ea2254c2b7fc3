//! Exponentials of all bands at once, with the very bits of the `libm` crate.
//!
//! Fitting strengths is exponentials for the greater part. `libm` takes one number and branches;
//! here every band takes the same steps and keeps what its size asks for, so that the compiler
//! can work on several bands together. Method and coefficients are those of FreeBSD's `e_exp.c`
//! and `s_expm1.c` (Sun Microsystems 1993, 2004), which `libm` follows too: x = k ln 2 + r with
//! |r| ≤ ½ ln 2, then a rational function of r. The tests hold the bits against `libm`.

use super::spectrum::Spectrum;

/// ln 2, so short that whole multiples of it are exact, and what it lacks.
const LN_2: [f64; 2] = [6.931_471_803_691_238e-1, 1.908_214_929_270_587_7e-10];
/// ½ ln 2 and 1½ ln 2, as `libm` tells them from the first 32 bits of a number.
const HALF_LN_2: f64 = f64::from_bits(0x3fd6_2e43_0000_0000);
const MORE_LN_2: f64 = f64::from_bits(0x3ff0_a2b2_0000_0000);
/// 1½ · 2⁵²: added to a small number it leaves the nearest whole one in the last bits.
const WHOLE: f64 = 6_755_399_441_055_744.0;

/// The whole number nearest to a small one in the direction of 0.
#[inline]
fn towards_zero(v: f64) -> f64 {
    let size = v.abs();
    let near = (size + WHOLE) - WHOLE;
    let below = if near > size { near - 1.0 } else { near };
    below.copysign(v)
}

/// 2^k of a small whole k.
#[inline]
fn power_of_two(k: f64) -> f64 {
    f64::from_bits((k + (WHOLE + 1023.0)).to_bits() << 52)
}

/// e^x, for −700 < x < 700.
#[inline]
fn exp(x: f64) -> f64 {
    const P: [f64; 5] = [
        1.666_666_666_666_660_2e-1,
        -2.777_777_777_701_559_3e-3,
        6.613_756_321_437_934e-5,
        -1.653_390_220_546_525_2e-6,
        4.138_136_797_057_238_5e-8,
    ];
    let size = x.abs();
    let far = towards_zero(std::f64::consts::LOG2_E * x + 0.5_f64.copysign(x));
    let beyond = if size < MORE_LN_2 {
        1.0_f64.copysign(x)
    } else {
        far
    };
    let k = if size < HALF_LN_2 { 0.0 } else { beyond };
    let (high, low) = (x - k * LN_2[0], k * LN_2[1]);
    let r = high - low;
    let square = r * r;
    let c =
        r - square * (P[0] + square * (P[1] + square * (P[2] + square * (P[3] + square * P[4]))));
    let out = (1.0 + (r * c / (2.0 - c) - low + high)) * power_of_two(k);
    if size < f64::from_bits(0x3e30_0001_0000_0000) {
        1.0 + x
    } else {
        out
    }
}

/// x − k ln 2 in two parts, and k: for −700 < x < 0.
#[inline]
fn reduced(x: f64) -> [f64; 3] {
    let size = x.abs();
    let far = towards_zero(std::f64::consts::LOG2_E * x - 0.5);
    let beyond = if size < MORE_LN_2 { -1.0 } else { far };
    let k = if size < HALF_LN_2 { 0.0 } else { beyond };
    let (high, low) = (x - k * LN_2[0], k * LN_2[1]);
    let r = high - low;
    [r, (high - r) - low, k]
}

/// e^(r + lost) − 1, |r| ≤ ½ ln 2.
#[inline]
fn near_1(r: f64, lost: f64) -> f64 {
    const Q: [f64; 5] = [
        -3.333_333_333_333_313e-2,
        1.587_301_587_254_814_6e-3,
        -7.936_507_578_674_88e-5,
        4.008_217_827_329_362e-6,
        -2.010_992_181_836_243_7e-7,
    ];
    let half = 0.5 * r;
    let square = r * half;
    let r1 =
        1.0 + square * (Q[0] + square * (Q[1] + square * (Q[2] + square * (Q[3] + square * Q[4]))));
    let t = 3.0 - r1 * half;
    let e = square * ((r1 - t) / (6.0 - r * t));
    r - ((r * (e - lost) - lost) - square)
}

/// 2^k (near + 1) − 1.
#[inline]
fn raised(near: f64, k: f64) -> f64 {
    let two = if k == -1.0 {
        0.5 * near - 0.5
    } else {
        (near + 1.0) * power_of_two(k) - 1.0
    };
    if k == 0.0 { near } else { two }
}

/// e^x per band, for −700 < x < 700.
#[inline(never)]
pub fn exp_of(x: &Spectrum) -> Spectrum {
    let mut out = *x;
    for v in &mut out {
        *v = exp(*v);
    }
    out
}

/// 1 − e^x per band, for −700 < x < 0. In three loops: each has its constants at hand.
#[inline]
pub fn lost_of(x: &Spectrum) -> Spectrum {
    let (mut near, mut lost, mut k) = (*x, *x, *x);
    for ((near, lost), k) in near.iter_mut().zip(&mut lost).zip(&mut k) {
        [*near, *lost, *k] = reduced(*near);
    }
    for (near, lost) in near.iter_mut().zip(&lost) {
        *near = near_1(*near, *lost);
    }
    for (near, k) in near.iter_mut().zip(&k) {
        *near = -raised(*near, *k);
    }
    near
}

#[cfg(test)]
mod tests {
    use super::super::spectrum::BANDS;
    use super::*;

    /// Sizes from 2^−80 to 512, close together, and both sides of every seam.
    fn sizes() -> impl Iterator<Item = f64> {
        let seams = [
            HALF_LN_2,
            MORE_LN_2,
            3.725_290_298_461_914e-9,
            38.816,
            libm::pow(2.0, -54.0),
        ];
        let wide = (0..900_000_u64).map(|i| {
            let exponent = 1023 - 80 + i % 89;
            f64::from_bits(i.wrapping_mul(0x9e37_79b9_7f4a_7c15) >> 12 | exponent << 52)
        });
        let halves = (0..1200).map(|i| (f64::from(i) + 0.5) * std::f64::consts::LN_2);
        let close = seams
            .into_iter()
            .chain(halves)
            .flat_map(|s| (0..400_u64).map(move |i| f64::from_bits(s.to_bits() - 200 + i)));
        wide.chain(close).filter(|v| *v < 700.0)
    }

    #[test]
    fn the_bits_are_those_of_libm() {
        for size in sizes() {
            for x in [size, -size] {
                assert_eq!(exp(x).to_bits(), libm::exp(x).to_bits(), "e^{x:e}");
            }
            let ([got, ..], want) = (lost_of(&[-size; BANDS]), -libm::expm1(-size));
            assert_eq!(got.to_bits(), want.to_bits(), "e^-{size:e} − 1");
        }
    }
}
