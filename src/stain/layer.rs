//! Coats of paint on ceramic: two-constant Kubelka–Munk layers under a glazed surface.
//!
//! A coat absorbs K and scatters S per unit of thickness (one coat). Over a base of reflectance
//! Rg a layer of d coats reflects R = R0 + T²·Rg ∕ (1 − R0·Rg), where with a = 1 + K∕S,
//! b = √(a² − 1): R0 = sinh bSd ∕ (a·sinh bSd + b·cosh bSd), T = b ∕ (the same). In mixtures K
//! and S add by volume; n coats of one mix are one layer n times as thick.
//!
//! Sources: Kubelka & Munk, Z. techn. Phys. 12 (1931) 593; Kubelka, J. Opt. Soc. Am. 38 (1948)
//! 448; Duncan, Proc. Phys. Soc. 52 (1940) 390 for mixtures. The surface: Saunderson, J. Opt.
//! Soc. Am. 32 (1942) 727, k1 = 0.04 for glaze (n = 1.5) from outside, k2 = 0.6 from inside. A
//! reading leaves mirrored light out, so the leading k1 is dropped.

use super::exponential::lost_of;
use super::spectrum::{BANDS, Spectrum};

/// Share that the surface mirrors from outside.
const K1: f64 = 0.04;
/// Share that it throws back from inside.
const K2: f64 = 0.6;
/// K∕S below which a layer counts as clear.
const LEAST_RATIO: f64 = 1e-7;
/// Scattering below which there is none.
const LEAST_SCATTERING: f64 = 1e-9;

/// What is seen from what comes back inside: Saunderson without the mirrored part.
pub fn seen_from_internal(internal: f64) -> f64 {
    (1.0 - K1) * (1.0 - K2) * internal / (1.0 - K2 * internal)
}

/// The inverse of [`seen_from_internal`].
#[cfg(test)]
pub fn internal_from_seen(seen: f64) -> f64 {
    seen / ((1.0 - K1) * (1.0 - K2) + K2 * seen)
}

/// The same for every band.
pub fn seen(internal: &Spectrum) -> Spectrum {
    internal.map(seen_from_internal)
}

/// Reflectance of an endlessly thick body by K∕S.
pub fn endless(k_over_s: f64) -> f64 {
    1.0 + k_over_s - (k_over_s * k_over_s + 2.0 * k_over_s).sqrt()
}

/// What absorbs and scatters, per coat.
#[derive(Debug, Clone, PartialEq)]
pub struct Matter {
    /// Absorption per coat.
    pub k: Spectrum,
    /// Scattering per coat.
    pub s: Spectrum,
}

impl Matter {
    /// Nothing at all.
    pub const NONE: Self = Self {
        k: [0.0; BANDS],
        s: [0.0; BANDS],
    };

    /// Adds a share of another by volume.
    pub fn add(&mut self, other: &Self, share: f64) {
        for (a, b) in self.k.iter_mut().zip(&other.k) {
            *a += share * b;
        }
        for (a, b) in self.s.iter_mut().zip(&other.s) {
            *a += share * b;
        }
    }
}

/// A layer of given thickness: what it reflects over black, and what it lets through, squared.
#[derive(Debug, Clone, PartialEq)]
pub struct Layer {
    over_black: Spectrum,
    through_twice: Spectrum,
}

/// The larger of two numbers, neither of them NaN: `max` costs WebAssembly a detour for it.
fn at_least(v: f64, least: f64) -> f64 {
    if v > least { v } else { least }
}

/// What all layers of one matter share, however thick: a, b and the optical depth of a coat.
pub struct Coat {
    a: Spectrum,
    b: Spectrum,
    depth: Spectrum,
}

impl Coat {
    /// One coat of a matter.
    pub fn of(matter: &Matter) -> Self {
        let mut out = Self {
            a: [0.0; BANDS],
            b: [0.0; BANDS],
            depth: [0.0; BANDS],
        };
        let own = out.a.iter_mut().zip(&mut out.b).zip(&mut out.depth);
        for (((a, b), depth), (k, s)) in own.zip(matter.k.iter().zip(&matter.s)) {
            let s = at_least(*s, LEAST_SCATTERING);
            let ratio = at_least(k / s, LEAST_RATIO);
            *a = 1.0 + ratio;
            *b = (ratio * (2.0 + ratio)).sqrt();
            *depth = *b * s;
        }
        out
    }
}

impl Layer {
    /// So many coats of a matter.
    pub fn of(matter: &Matter, coats: f64) -> Self {
        Self::thick(&Coat::of(matter), coats)
    }

    /// So many coats. Loops without a branch, so that the compiler takes several bands at once.
    #[inline(never)]
    pub fn thick(coat: &Coat, coats: f64) -> Self {
        let mut out = Self {
            over_black: [0.0; BANDS],
            through_twice: [0.0; BANDS],
        };
        // e^−2x − 1 keeps its digits in thin coats.
        let lost = lost_of(&coat.depth.map(|d| at_least(-2.0 * (d * coats), -600.0)));
        let own = out.over_black.iter_mut().zip(&mut out.through_twice);
        for (((r, t), lost), (a, b)) in own.zip(&lost).zip(coat.a.iter().zip(&coat.b)) {
            let below = a * lost + b * (2.0 - lost);
            *r = lost / below;
            *t = 4.0 * b * b * (1.0 - lost) / (below * below);
        }
        out
    }

    /// What comes back inside when the layer lies over a base.
    pub fn over(&self, base: &Spectrum) -> Spectrum {
        let mut out = *base;
        for ((g, r), t) in out
            .iter_mut()
            .zip(&self.over_black)
            .zip(&self.through_twice)
        {
            *g = r + t * *g / (1.0 - r * *g);
        }
        out
    }

    /// What it reflects over black: how much it hides by scattering.
    pub const fn over_black(&self) -> &Spectrum {
        &self.over_black
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn flat(value: f64) -> Spectrum {
        [value; BANDS]
    }

    fn one(k: f64, s: f64, d: f64, base: f64) -> f64 {
        let matter = Matter {
            k: flat(k),
            s: flat(s),
        };
        Layer::of(&matter, d).over(&flat(base))[3]
    }

    fn close(got: f64, want: f64) {
        assert!((got - want).abs() < 5e-8, "{got} should be {want}");
    }

    /// Worked values of the closed form, computed with an independent script.
    #[test]
    fn worked_layers() {
        for (k, s, d, base, want) in [
            (0.1, 1.0, 1.0, 0.0, 0.461_033_6),
            (0.1, 1.0, 1.0, 0.5, 0.589_872_1),
            (0.1, 1.0, 1.0, 1.0, 0.828_919_3),
            (0.5, 2.0, 0.5, 0.6, 0.523_531_8),
            (1.0, 1.0, 0.1, 0.5, 0.435_343_7),
            (0.02, 4.0, 1.0, 0.3, 0.802_981_8),
            (0.02, 4.0, 1000.0, 0.3, 0.904_875_1),
            (0.5, 0.0, 0.1, 0.5, 0.452_418_7),
        ] {
            assert!(
                (one(k, s, d, base) - want).abs() < 1e-7,
                "{k} {s} {d} {base}"
            );
        }
        // Without absorption: Sd ∕ (1 + Sd) over black.
        assert!((one(0.0, 1.0, 1.0, 0.0) - 0.5).abs() < 1e-4);
        assert!((one(0.0, 1.0, 1.0, 0.5) - 2.0 / 3.0).abs() < 1e-4);
    }

    #[test]
    fn coats_add_up() {
        for (n, want) in [
            (1.0, 0.530_302_3),
            (2.0, 0.512_767_6),
            (3.0, 0.497_191_3),
            (4.0, 0.483_380_5),
        ] {
            close(one(1.5, 3.0, 0.02 * n, 0.55), want);
        }
        let matter = Matter {
            k: flat(0.3),
            s: flat(0.2),
        };
        let thin = Layer::of(&matter, 0.25);
        let thick = Layer::of(&matter, 1.0).over(&flat(0.7));
        let step = (0..4).fold(flat(0.7), |base, _| thin.over(&base));
        close(step[7], thick[7]);
    }

    #[test]
    fn endless_bodies_and_the_surface() {
        for (ratio, want) in [
            (0.01, 0.868_225_5),
            (0.1, 0.641_742_4),
            (0.5, 0.381_966_0),
            (4.05, 0.1),
        ] {
            close(endless(ratio), want);
        }
        // With the mirrored 4 % these are the textbook values.
        for (inside, want) in [(0.1, 0.080_851_1), (0.5, 0.314_285_7), (0.9, 0.791_304_3)] {
            close(seen_from_internal(inside) + K1, want);
        }
        for seen in [0.05, 0.3, 0.7, 0.9] {
            close(seen_from_internal(internal_from_seen(seen)), seen);
        }
    }

    /// Half and half by K∕S of bodies that reflect 0.6 and 0.4.
    #[test]
    fn mixtures_add_by_volume() {
        let mut mixed = Matter::NONE;
        for (share, ratio) in [(0.5, 0.133_333_333), (0.5, 0.45)] {
            let matter = Matter {
                k: flat(ratio),
                s: flat(1.0),
            };
            mixed.add(&matter, share);
        }
        close(endless(mixed.k[0] / mixed.s[0]), 0.474_107_6);
    }
}
