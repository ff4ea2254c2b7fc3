//! What is painted on: opaque bodies, by their internal reflectance.

use super::grid::Fine;
use super::layer::{Surface, infinite};
use crate::material::{Family, lift_d65};
use crate::rng::Rng;

/// Lowest L* of a light base.
pub const LIGHT_L: f64 = 76.0;

/// A body with or without coats, as the light under its surface meets it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Base {
    /// Reflectance under the surface, 0–1.
    pub internal: Fine,
}

impl Base {
    /// CIELAB (D65, 2°) as read from outside.
    pub fn lab(&self, surface: Surface) -> [f64; 3] {
        self.internal.map(|r| surface.outside(r)).lab_d65()
    }

    /// A material of the crate's pictures, its colour as read without the outer reflection.
    pub fn of_family(family: Family, lab: [f64; 3]) -> Self {
        Self {
            internal: Fine::from_coarse(&lift_d65(family, lab))
                .map(|r| Surface::Excluded.inside(r)),
        }
    }

    /// One of the random bases: three in four a [`Ceramic`], the others lifted teeth and ceramics.
    pub fn random(rng: &mut Rng, light: bool) -> Self {
        let l = if light {
            rng.range(LIGHT_L + 0.2, 82.0)
        } else {
            rng.range(62.0, LIGHT_L - 0.2)
        };
        if rng.chance(0.75) {
            return Ceramic::random(rng, l).base();
        }
        let family = rng.pick(&[Family::Tooth, Family::Ceramic]);
        // Usual chroma at that value, and its usual spread.
        let b = (16.0 + 0.55 * (74.0 - l) + 2.5 * rng.normal()).clamp(8.5, 25.5);
        let a = (0.25 * (b - 14.0) + 0.7 * rng.normal()).clamp(-1.8, 4.5);
        Self::of_family(family, [l, a, b])
    }
}

/// An infinitely thick dental ceramic.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ceramic {
    /// Absorption that falls from the violet, and the wavelengths over which it falls to 1/e.
    pub violet: f64,
    /// In nanometres.
    pub reach_nm: f64,
    /// A yellow pigment's hump: middle and standard deviation in nanometres, amount.
    pub yellow: [f64; 3],
    /// A pink one's.
    pub pink: [f64; 3],
    /// The same everywhere.
    pub flat: f64,
    /// Scattering falls as (λ/550 nm)^−power.
    pub power: f64,
}

impl Ceramic {
    /// K/S at a wavelength.
    fn k_over_s(&self, nm: f64) -> f64 {
        let hump =
            |[at, wide, amount]: [f64; 3]| amount * (-0.5 * ((nm - at) / wide).powi(2)).exp();
        let k = self.violet * (-(nm - 400.0) / self.reach_nm).exp()
            + hump(self.yellow)
            + hump(self.pink)
            + self.flat;
        k / (nm / 550.0).powf(-self.power)
    }

    /// As a base.
    pub fn base(&self) -> Base {
        Base {
            internal: Fine::from_fn(|nm| infinite(self.k_over_s(nm))),
        }
    }

    /// All absorption times `by`.
    fn stronger(self, by: f64) -> Self {
        let more = |[at, wide, amount]: [f64; 3]| [at, wide, amount * by];
        Self {
            violet: self.violet * by,
            yellow: more(self.yellow),
            pink: more(self.pink),
            flat: self.flat * by,
            ..self
        }
    }

    /// A random one of this L* (glare dropped), within a* −2…5 and b* 8–26.
    pub fn random(rng: &mut Rng, l: f64) -> Self {
        for _ in 0..500 {
            let shape = Self {
                violet: rng.range(0.3, 1.0),
                reach_nm: rng.range(45.0, 110.0),
                yellow: [
                    rng.range(440.0, 472.0),
                    rng.range(18.0, 34.0),
                    rng.range(0.0, 0.45),
                ],
                pink: [
                    rng.range(512.0, 548.0),
                    rng.range(18.0, 34.0),
                    rng.range(0.0, 0.2),
                ],
                flat: rng.range(0.0, 0.12),
                power: rng.range(0.3, 1.4),
            };
            let found = shape.of_l(l);
            let lab = found.base().lab(Surface::Excluded);
            // Darker tabs are the more chromatic ones; pale dark grey is nobody's tooth.
            let usual = 16.0 + 0.55 * (74.0 - l);
            if (-2.0..5.0).contains(&lab[1])
                && (8.0..26.0).contains(&lab[2])
                && (lab[2] - usual).abs() < 7.0
            {
                return found;
            }
        }
        Self::plain().of_l(l)
    }

    /// A usual one.
    pub fn plain() -> Self {
        Self {
            violet: 0.08,
            reach_nm: 70.0,
            yellow: [455.0, 28.0, 0.02],
            pink: [525.0, 30.0, 0.006],
            flat: 0.004,
            power: 0.8,
        }
    }

    /// The same pigments, more or fewer, so that L* without the outer reflection is `l`.
    pub fn of_l(self, l: f64) -> Self {
        let (mut low, mut high) = (-9.0_f64, 5.0_f64);
        for _ in 0..60 {
            let mid = 0.5 * (low + high);
            if self.stronger(mid.exp()).base().lab(Surface::Excluded)[0] > l {
                low = mid;
            } else {
                high = mid;
            }
        }
        self.stronger((0.5 * (low + high)).exp())
    }
}
