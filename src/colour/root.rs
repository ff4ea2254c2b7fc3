//! Cube root and hypotenuse with the very bits of the `libm` crate, without its software fused
//! multiply-add and square root, which WebAssembly has to work out in integers.
//!
//! Both of `libm`'s are fixed by their definition: its cube root is the correctly rounded one, and
//! its hypotenuse is the square root of a sum of two exact squares. So each is worked out here in
//! twice the digits by Dekker's exact product (Numer. Math. 18 (1971) 224), and `libm` is asked
//! only where that cannot settle the last bit, or far outside the sizes that colours have.

/// Splits a number in two halves of 26 bits: 2²⁷ + 1.
const SPLIT: f64 = 134_217_729.0;
/// Sizes between which no product here gets near the ends of the range.
const ORDINARY: std::ops::Range<f64> = 1e-90..1e90;
/// Bits of the first guess for x^(−1∕3), chosen for the smallest error (3.4 %).
const GUESS: u64 = 0x553e_f0ff_289d_d796;
/// The bits of a number's exponent.
const EXPONENT: u64 = 0x7ff0_0000_0000_0000;

/// `a · b` as the rounded product and what rounding took away, exactly.
fn product(a: f64, b: f64) -> (f64, f64) {
    let halves = |v: f64| {
        let far = v * SPLIT;
        let high = far - (far - v);
        (high, v - high)
    };
    let ((ah, al), (bh, bl)) = (halves(a), halves(b));
    let rounded = a * b;
    (rounded, ((ah * bh - rounded) + ah * bl + al * bh) + al * bl)
}

/// The cube root, as `libm::cbrt` gives it.
#[inline(never)]
pub fn cbrt(x: f64) -> f64 {
    if !ORDINARY.contains(&x) {
        return libm::cbrt(x);
    }
    // z ≈ x^(−1∕3) to 12 digits: no division.
    let mut z = f64::from_bits(GUESS - x.to_bits() / 3);
    for _ in 0..2 {
        let off = 1.0 - x * z * z * z;
        z += z * off * (1.0 / 3.0 + off * (2.0 / 9.0));
    }
    let near = x * z * z;
    // One step of Newton's from there, its error taken from an exact cube.
    let (square, square_rest) = product(near, near);
    let (cube, cube_rest) = product(square, near);
    let off = (cube - x) + (cube_rest + square_rest * near);
    let step = off * z * z * (1.0 / 3.0);
    let root = near - step;
    let rest = (near - root) - step;
    // Settled unless what is left lies half-way between two numbers. Below a power of two they
    // lie closer.
    let bits = root.to_bits();
    let half_a_bit = f64::from_bits((bits & EXPONENT) - (53 << 52));
    if bits & !EXPONENT == 0 || rest.abs() > half_a_bit * (1.0 - 1.0 / 1024.0) {
        return libm::cbrt(x);
    }
    root
}

/// √(x² + y²), as `libm::hypot` gives it.
#[inline(never)]
pub fn hypot(x: f64, y: f64) -> f64 {
    let (x, y) = (x.abs(), y.abs());
    let (long, short) = if x < y { (y, x) } else { (x, y) };
    if short == 0.0 {
        return long;
    }
    // Beyond 2⁶⁴ times as long `libm` adds them.
    if !(ORDINARY.contains(&long) && short > long * 1e-18) {
        return libm::hypot(x, y);
    }
    let (long, long_rest) = product(long, long);
    let (short, short_rest) = product(short, short);
    (short_rest + long_rest + short + long).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Numbers that look random, of sizes from 2^−70 to 2^70.
    fn numbers(count: u64) -> impl Iterator<Item = f64> {
        (0..count).map(|i| {
            let bits = i.wrapping_mul(0x9e37_79b9_7f4a_7c15);
            let bits = (bits ^ (bits >> 29)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
            let exponent = 1023 - 70 + (bits >> 40) % 141;
            f64::from_bits((bits & ((1 << 52) - 1)) | (exponent << 52))
        })
    }

    #[test]
    fn cube_roots_have_the_bits_of_libm() {
        for x in numbers(400_000) {
            assert_eq!(cbrt(x).to_bits(), libm::cbrt(x).to_bits(), "{x:e}");
        }
        // Cubes and their neighbours, ends and signs.
        for i in 1..4000_u32 {
            let cube = f64::from(i) * f64::from(i) * f64::from(i) / 4096.0;
            for x in [cube, cube.next_up(), cube.next_down(), -cube] {
                assert_eq!(cbrt(x).to_bits(), libm::cbrt(x).to_bits(), "{x:e}");
            }
        }
        for x in [0.0, -0.0, 1e-300, 1e300, 5e-324, f64::INFINITY] {
            assert_eq!(cbrt(x).to_bits(), libm::cbrt(x).to_bits(), "{x:e}");
        }
        assert!(cbrt(f64::NAN).is_nan());
    }

    #[test]
    fn hypotenuses_have_the_bits_of_libm() {
        let all: Vec<f64> = numbers(200_001).collect();
        for pair in all.windows(2) {
            let (x, y) = (pair[0], pair[1]);
            for (x, y) in [(x, y), (-x, y), (x, x * 0.3), (x * 1.7, -x)] {
                assert_eq!(
                    hypot(x, y).to_bits(),
                    libm::hypot(x, y).to_bits(),
                    "{x:e} {y:e}"
                );
            }
        }
        let odd = [
            0.0,
            -0.0,
            1.0,
            1e-18,
            5.4e-20,
            5.5e-20,
            1e-300,
            1e300,
            f64::INFINITY,
        ];
        for x in odd {
            for y in odd {
                assert_eq!(
                    hypot(x, y).to_bits(),
                    libm::hypot(x, y).to_bits(),
                    "{x:e} {y:e}"
                );
            }
        }
        assert!(hypot(f64::NAN, 1.0).is_nan() && hypot(1.0, f64::NAN).is_nan());
    }

    #[test]
    fn lengths_are_those_of_the_library() {
        let mut x = 1.0e-9;
        while x < 1.0e9 {
            for y in [
                0.0,
                -0.3 * x,
                1.7 * x,
                0.999 * x,
                7.1,
                1.0e-3,
                1.0e300,
                1.0e-300,
            ] {
                assert_eq!(hypot(x, y).to_bits(), libm::hypot(x, y).to_bits());
                assert_eq!(hypot(y, -x).to_bits(), libm::hypot(x, y).to_bits());
            }
            x *= 1.37;
        }
        assert!(hypot(f64::NAN, 1.0).is_nan() && hypot(0.0, 0.0) == 0.0);
    }
}
