//! Plain models of the stains, to stand beside the engine's: differences of CIELAB added up, and
//! Kubelka–Munk in the three bands of linear sRGB, with and without scattering. The fit with
//! scattering has nothing that holds it back: two swatches hardly tell scattering from
//! absorption, so that a small error of reading throws it far.

use crate::stains::{Model, Prediction};
use scene_render::colour::{
    Matrix, apply, inverse, lab_from_xyz, white_d65, xyz_from_lab, xyz_from_rgb,
};
use scene_render::stains::job::{Request, Swatch};
use std::collections::BTreeMap;

/// Each stain's change of CIELAB per coat by least squares; shares × coats are added up.
pub struct LabPerCoat;

impl Model for LabPerCoat {
    fn name(&self) -> &str {
        "Lab difference per coat, added"
    }

    fn predict(
        &self,
        swatches: &[Swatch],
        requests: &[Request],
    ) -> Result<Vec<Prediction>, String> {
        let mut sums: BTreeMap<&str, ([f64; 3], f64)> = BTreeMap::new();
        for s in swatches {
            let (change, weight) = sums.entry(&s.stain).or_default();
            for (c, (after, base)) in change.iter_mut().zip(s.after.iter().zip(&s.base)) {
                *c += s.coats * (after - base);
            }
            *weight += s.coats * s.coats;
        }
        requests
            .iter()
            .map(|r| {
                let mut lab = r.base;
                for (name, share) in &r.mix {
                    let (change, weight) = sums
                        .get(name.as_str())
                        .ok_or_else(|| format!("no swatch of {name}"))?;
                    for (l, c) in lab.iter_mut().zip(change) {
                        *l += share * r.coats * c / weight;
                    }
                }
                Ok(Prediction { lab, doubt: None })
            })
            .collect()
    }
}

/// Absorption and scattering of one coat in each of linear sRGB's three bands, fitted to the
/// swatches; Saunderson's surface with k1 = 0.04, k2 = 0.6, outer reflection dropped.
#[derive(Debug, Clone, Copy)]
pub struct ThreeBands {
    /// Fitted too; otherwise none.
    pub scattering: bool,
}

/// Coats, and internal reflectances of the bands before and after.
type Fired = (f64, [f64; 3], [f64; 3]);

/// Absorption and scattering of one coat, in one band.
type Band = [f64; 2];

impl Model for ThreeBands {
    fn name(&self) -> &str {
        if self.scattering {
            "Kubelka–Munk in three bands of sRGB"
        } else {
            "the same without scattering"
        }
    }

    fn predict(
        &self,
        swatches: &[Swatch],
        requests: &[Request],
    ) -> Result<Vec<Prediction>, String> {
        let srgb = Srgb::new();
        let mut seen: BTreeMap<&str, Vec<Fired>> = BTreeMap::new();
        for s in swatches {
            seen.entry(&s.stain).or_default().push((
                s.coats,
                srgb.internal(s.base),
                srgb.internal(s.after),
            ));
        }
        let fitted: BTreeMap<&str, [Band; 3]> = seen
            .into_iter()
            .map(|(name, list)| {
                let bands = [0, 1, 2].map(|band: usize| {
                    let points: Vec<[f64; 3]> = list
                        .iter()
                        .map(|(n, base, after)| [*n, base[band], after[band]])
                        .collect();
                    fit(&points, self.scattering)
                });
                (name, bands)
            })
            .collect();
        requests
            .iter()
            .map(|r| {
                let mut bands = [[0.0; 2]; 3];
                for (name, share) in &r.mix {
                    let one = fitted
                        .get(name.as_str())
                        .ok_or_else(|| format!("no swatch of {name}"))?;
                    for (sum, add) in bands.iter_mut().zip(one) {
                        *sum = [sum[0] + share * add[0], sum[1] + share * add[1]];
                    }
                }
                let base = srgb.internal(r.base);
                let after = [0, 1, 2].map(|i: usize| coated(bands[i], r.coats, base[i]));
                Ok(Prediction {
                    lab: srgb.lab(after),
                    doubt: None,
                })
            })
            .collect()
    }
}

/// Kubelka–Munk's layer over a backing in closed form.
fn coated([k, s]: Band, coats: f64, backing: f64) -> f64 {
    if s < 1e-9 {
        return backing * (-2.0 * k * coats).exp();
    }
    let a = 1.0 + k / s;
    let b = (a * a - 1.0).sqrt();
    let x = b * s * coats;
    // b·coth(bSd), and its limit.
    let t = if x < 1e-9 {
        1.0 / (s * coats)
    } else {
        b / x.tanh()
    };
    (1.0 - backing * (a - t)) / (a - backing + t)
}

/// Absorption and scattering, neither negative, that best meet `[coats, before, after]` by least
/// squares: for each scattering the best absorption, and of those pairs the best.
fn fit(points: &[[f64; 3]], scattering: bool) -> Band {
    let miss = |k: f64, s: f64| -> f64 {
        points
            .iter()
            .map(|[n, before, after]| (coated([k, s], *n, *before) - after).powi(2))
            .sum()
    };
    // In units that are even near zero: k = u², s = v².
    let best_u = |v: f64| smallest(0.0, 1.5, &|u| miss(u * u, v * v));
    if !scattering {
        return [best_u(0.0).powi(2), 0.0];
    }
    let along = |v: f64| miss(best_u(v).powi(2), v * v);
    let steps = 40;
    let coarse = (0..=steps)
        .map(|i| f64::from(i) / f64::from(steps))
        .min_by(|a, b| along(*a).total_cmp(&along(*b)))
        .unwrap_or(0.0);
    let step = 1.0 / f64::from(steps);
    let v = smallest((coarse - step).max(0.0), coarse + step, &along);
    [best_u(v).powi(2), v * v]
}

/// Where a function with one valley is least, by golden section.
fn smallest(mut low: f64, mut high: f64, f: &dyn Fn(f64) -> f64) -> f64 {
    let golden = 0.5 * (5.0_f64.sqrt() - 1.0);
    let (mut a, mut b) = (high - golden * (high - low), low + golden * (high - low));
    let (mut fa, mut fb) = (f(a), f(b));
    for _ in 0..50 {
        if fa < fb {
            (high, b, fb) = (b, a, fa);
            a = high - golden * (high - low);
            fa = f(a);
        } else {
            (low, a, fa) = (a, b, fb);
            b = low + golden * (high - low);
            fb = f(b);
        }
    }
    0.5 * (low + high)
}

/// Between CIELAB and internal reflectances in linear sRGB (IEC 61966-2-1 primaries).
struct Srgb {
    to_xyz: Matrix,
    from_xyz: Matrix,
    white: [f64; 3],
}

const K1: f64 = 0.04;
const K2: f64 = 0.6;

impl Srgb {
    fn new() -> Self {
        let white = white_d65();
        let sum: f64 = white.iter().sum();
        let to_xyz = xyz_from_rgb(
            [[0.64, 0.33], [0.30, 0.60], [0.15, 0.06]],
            [white[0] / sum, white[1] / sum],
        );
        Self {
            from_xyz: inverse(&to_xyz),
            to_xyz,
            white,
        }
    }

    fn internal(&self, lab: [f64; 3]) -> [f64; 3] {
        apply(&self.from_xyz, xyz_from_lab(lab, self.white))
            .map(|seen| (seen / ((1.0 - K1) * (1.0 - K2) + K2 * seen)).clamp(1e-4, 0.9999))
    }

    fn lab(&self, internal: [f64; 3]) -> [f64; 3] {
        let seen = internal.map(|r| (1.0 - K1) * (1.0 - K2) * r / (1.0 - K2 * r));
        lab_from_xyz(apply(&self.to_xyz, seen), self.white)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The layer's closed form against published equations' values (Kubelka & Munk 1931).
    #[test]
    fn layers_and_their_fit() {
        for (k, s, d, backing, want) in [
            (0.1, 1.0, 1.0, 0.5, 0.589_872_1),
            (0.5, 2.0, 0.5, 0.6, 0.523_531_8),
            (0.0, 1.0, 1.0, 0.5, 0.666_666_7),
            (0.5, 0.0, 0.1, 0.5, 0.452_418_7),
        ] {
            assert!((coated([k, s], d, backing) - want).abs() < 1e-6, "{k} {s}");
        }
        let made: Vec<[f64; 3]> = [1.0, 2.0]
            .iter()
            .map(|n| [*n, 0.7, coated([0.03, 0.012], *n, 0.7)])
            .collect();
        let [k, s] = fit(&made, true);
        assert!(
            (k - 0.03).abs() < 2e-4 && (s - 0.012).abs() < 1e-3,
            "{k} {s}"
        );
    }

    #[test]
    fn srgb_goes_there_and_back() {
        let srgb = Srgb::new();
        let back = srgb.lab(srgb.internal([75.0, 2.0, 18.0]));
        assert!((back[0] - 75.0).abs() < 1e-9 && (back[2] - 18.0).abs() < 1e-9);
    }
}
