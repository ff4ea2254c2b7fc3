//! The absorbers of each family, as K/S against wavelength in nanometres.

use crate::spectrum::Spectrum;

/// What a spectrum is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Family {
    /// Enamel over dentine: an absorber falling exponentially from the violet, a flat one, a
    /// trace of blood. The three amounts: violet strength, its reach, flat.
    Tooth,
    /// Dental ceramic: a yellow pigment with an edge near 485 nm, an iron pink with one near
    /// 565 nm, grey. The three amounts are theirs.
    Ceramic,
    /// Gum, lip, tongue: blood (415, 542, 577 nm), a brown falling from the violet, grey.
    Mucosa,
}

impl Family {
    /// Amounts to start the search from (natural logarithms).
    pub(super) fn start(self) -> [f64; 3] {
        match self {
            Self::Tooth => [-1.3, 4.2, -3.0],
            Self::Ceramic => [-1.6, -3.0, -2.7],
            Self::Mucosa => [-1.0, -1.5, -1.5],
        }
    }

    /// The reflectance of these amounts (natural logarithms).
    pub(super) fn reflectance(self, amounts: [f64; 3]) -> Spectrum {
        let [a, b, c] = amounts.map(|v| v.clamp(-14.0, 8.0).exp());
        Spectrum::from_fn(|nm| {
            let k_over_s = match self {
                Self::Tooth => {
                    let reach = b.clamp(18.0, 400.0);
                    // Scattering weakens toward the red, so K/S of a flat absorber rises.
                    (a * (-(nm - 400.0) / reach).exp() + c + 0.004 * blood(nm))
                        * (nm / 550.0).powf(0.7)
                }
                Self::Ceramic => {
                    a * edge(nm, 485.0, 15.0)
                        + b * edge(nm, 565.0, 20.0)
                        + c * (1.0 + 0.10 * (nm - 550.0) / 170.0)
                }
                Self::Mucosa => {
                    (a * blood(nm) + b * (-(nm - 400.0) / 75.0).exp() + c) * (nm / 550.0).powf(1.0)
                }
            };
            1.0 + k_over_s - (k_over_s * k_over_s + 2.0 * k_over_s).sqrt()
        })
    }
}

/// 1 below the edge, 0 above.
fn edge(nm: f64, at: f64, soft: f64) -> f64 {
    1.0 / (1.0 + ((nm - at) / soft).exp())
}

/// Oxygenated blood, 1 at its green bands; the violet band is cut down because vessels that
/// dark hide what lies in them (sieve effect).
fn blood(nm: f64) -> f64 {
    let g = |mid: f64, s: f64| (-0.5 * ((nm - mid) / s).powi(2)).exp();
    2.2 * g(415.0, 17.0)
        + 0.95 * g(542.0, 13.0)
        + 1.0 * g(577.0, 9.5)
        + 0.55 * edge(nm, 520.0, 30.0)
        + 0.30 * edge(nm, 592.0, 6.0)
        + 0.015
}
