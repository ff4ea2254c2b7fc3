//! Repeatable random numbers: splitmix64 (Steele, Lea & Flood 2014, public algorithm) as a
//! stream, and as a hash of positions so that pixels can be drawn in any order.

/// A stream of random numbers from a seed.
#[derive(Debug, Clone)]
pub struct Rng(u64);

impl Rng {
    /// A stream of its own for each seed and purpose.
    pub fn new(seed: u64, purpose: u64) -> Self {
        Self(mix(
            seed ^ mix(purpose.wrapping_add(0x51_7c_c1_b7_27_22_0a_95))
        ))
    }

    /// 64 random bits.
    pub fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        mix(self.0)
    }

    /// Uniform in 0..1.
    pub fn unit(&mut self) -> f64 {
        (self.bits() >> 11) as f64 / (1u64 << 53) as f64
    }

    /// Uniform in `lo..hi`.
    pub fn range(&mut self, lo: f64, hi: f64) -> f64 {
        lo + (hi - lo) * self.unit()
    }

    /// `true` with probability `p`.
    pub fn chance(&mut self, p: f64) -> bool {
        self.unit() < p
    }

    /// 0..n.
    pub fn below(&mut self, n: usize) -> usize {
        ((self.unit() * n as f64) as usize).min(n.saturating_sub(1))
    }

    /// Normal, mean 0, standard deviation 1, cut at ±2.5.
    pub fn normal(&mut self) -> f64 {
        let r = (-2.0 * self.unit().max(1e-12).ln()).sqrt();
        (r * (std::f64::consts::TAU * self.unit()).cos()).clamp(-2.5, 2.5)
    }

    /// One of the choices.
    pub fn pick<T: Copy>(&mut self, choices: &[T]) -> T {
        choices[self.below(choices.len())]
    }
}

/// The splitmix64 finaliser.
pub fn mix(mut z: u64) -> u64 {
    z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^ (z >> 31)
}

/// 32 well-mixed bits of a lattice point.
#[inline]
pub fn hash2(x: i32, y: i32, seed: u32) -> u32 {
    let mut h = (x as u32).wrapping_mul(0x9e37_79b1)
        ^ (y as u32).wrapping_mul(0x85eb_ca77)
        ^ seed.wrapping_mul(0xc2b2_ae3d);
    h ^= h >> 15;
    h = h.wrapping_mul(0x2c1b_3c6d);
    h ^= h >> 12;
    h = h.wrapping_mul(0x297a_2d39);
    h ^ (h >> 15)
}

/// Uniform 0..1 of a lattice point.
#[inline]
pub fn unit2(x: i32, y: i32, seed: u32) -> f32 {
    (hash2(x, y, seed) >> 8) as f32 * (1.0 / 16_777_216.0)
}

/// Two normals (Box–Muller) for a pixel.
#[inline]
pub fn normals2(x: i32, y: i32, seed: u32) -> (f32, f32) {
    let u = unit2(x, y, seed).max(1e-7);
    let v = unit2(x, y, seed ^ 0xa511_e9b3);
    let r = (-2.0 * u.ln()).sqrt();
    let (s, c) = (std::f32::consts::TAU * v).sin_cos();
    (r * c, r * s)
}
