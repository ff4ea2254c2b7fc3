//! A layer over a backing, solved step by step, and the surface above it.
//!
//! Two diffuse fluxes (Kubelka & Munk 1931): with K the absorption and S the scattering of one
//! unit of thickness, the reflectance grows with the thickness x as
//! dR/dx = S (1 − R)² − 2 K R, from the backing's reflectance at x = 0. It is integrated by
//! fourth-order Runge–Kutta steps; nothing here is the closed form. The surface follows Saunderson
//! (J Opt Soc Am 1942;32:727): k1 of the light is thrown back before it enters, k2 of what comes
//! from below is thrown back down.

/// Reflected at the outside: normal incidence on n = 1.5.
pub const K1: f64 = 0.04;
/// Reflected back down at the inside: near the diffuse value of n = 1.5.
pub const K2: f64 = 0.60;

/// Largest change of the exponent in one step.
const STEP: f64 = 0.02;

/// What a reading holds of the outer reflection.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Surface {
    /// Nothing: a photo whose glare has been dropped.
    #[default]
    Excluded,
    /// All of it: an instrument with an integrating sphere.
    Included,
}

impl Surface {
    /// What is seen from outside of an internal reflectance.
    pub fn outside(self, internal: f64) -> f64 {
        let leaving = (1.0 - K1) * (1.0 - K2) * internal / (1.0 - K2 * internal);
        match self {
            Self::Excluded => leaving,
            Self::Included => K1 + leaving,
        }
    }

    /// The internal reflectance of what is seen from outside.
    pub fn inside(self, seen: f64) -> f64 {
        let leaving = match self {
            Self::Excluded => seen,
            Self::Included => seen - K1,
        };
        leaving / ((1.0 - K1) * (1.0 - K2) + K2 * leaving)
    }

    /// A word for tables.
    pub fn word(self) -> &'static str {
        match self {
            Self::Excluded => "excluded",
            Self::Included => "included",
        }
    }
}

/// Reflectance of a layer of thickness `d` (absorption `k`, scattering `s` of one unit) over a
/// backing.
pub fn over(k: f64, s: f64, d: f64, backing: f64) -> f64 {
    let slope = |r: f64| s * (1.0 - r).powi(2) - 2.0 * k * r;
    let steps = (2.0 * (k + s) * d / STEP).ceil().max(2.0) as usize;
    let h = d / steps as f64;
    (0..steps).fold(backing, |r, _| {
        let a = slope(r);
        let b = slope(r + 0.5 * h * a);
        let c = slope(r + 0.5 * h * b);
        let e = slope(r + h * c);
        r + h / 6.0 * (a + 2.0 * b + 2.0 * c + e)
    })
}

/// Reflectance at which more of the same changes nothing: S (1 − R)² = 2 K R.
pub fn infinite(k_over_s: f64) -> f64 {
    1.0 / (1.0 + k_over_s + (k_over_s * k_over_s + 2.0 * k_over_s).sqrt())
}

/// K/S of an infinitely thick layer of this reflectance.
pub fn k_over_s(infinite: f64) -> f64 {
    (1.0 - infinite).powi(2) / (2.0 * infinite)
}
