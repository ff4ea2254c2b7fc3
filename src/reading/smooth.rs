//! The smooth gradient of a region, and the blotch that is left after it.

use super::statistics::Cell;
use crate::colour::{Lab, delta_e_00};
use crate::light::correction::{CORRELATED_PIXELS, Correction};
use nalgebra::{Cholesky, SMatrix, SVector};

/// Terms of the smooth surface: cubic along the axis, quadratic across, and one twist.
pub const TERMS: usize = 7;
/// Pixels a cell needs to count.
const CELL_MIN_PIXELS: u32 = 24;
/// Cells needed for a fit.
const MIN_CELLS: usize = 20;

/// The terms at a place along (0–1) and across (−1–1) the axis.
pub fn terms(along: f64, across: f64) -> SVector<f64, TERMS> {
    let (t, u) = (along * 2.0 - 1.0, across);
    SVector::from([1.0, t, t * t, t * t * t, u, u * u, t * u])
}

/// Least squares of three values at once over weighted places.
pub fn fit_surface(
    points: impl Iterator<Item = (SVector<f64, TERMS>, [f64; 3], f64)>,
) -> Option<SMatrix<f64, TERMS, 3>> {
    let mut normal = SMatrix::<f64, TERMS, TERMS>::identity() * 1e-6;
    let mut right = SMatrix::<f64, TERMS, 3>::zeros();
    for (x, values, weight) in points {
        normal += x * x.transpose() * weight;
        right += x * SMatrix::<f64, 1, 3>::from(values) * weight;
    }
    Some(Cholesky::new(normal)?.solve(&right))
}

/// The rms ΔE00 between the cells of a region and a smooth surface through them, weighted by
/// pixels, with the part that pixel noise alone would leave taken out. `None` with too few
/// cells.
pub fn blotch(correction: &Correction, cells: &[Cell]) -> Option<f64> {
    let usable: Vec<(SVector<f64, TERMS>, Lab, f64, f64)> = cells
        .iter()
        .filter(|c| c.sums.used >= CELL_MIN_PIXELS && c.sums.dropped_share() < 0.5)
        .filter_map(|c| {
            let mean = c.sums.mean()?;
            let lab = correction.lab(mean);
            let independent = (f64::from(c.sums.used) / CORRELATED_PIXELS).max(1.0);
            let mut noisy = mean;
            for (v, d) in noisy.iter_mut().zip(c.sums.deviation()) {
                *v += d / independent.sqrt();
            }
            let noise = delta_e_00(lab, correction.lab(noisy));
            Some((
                terms(c.along, c.across),
                lab,
                f64::from(c.sums.used),
                noise * noise,
            ))
        })
        .collect();
    if usable.len() < MIN_CELLS {
        return None;
    }
    let fit = fit_surface(
        usable
            .iter()
            .map(|(x, lab, weight, _)| (*x, lab.0, *weight)),
    )?;
    let (mut squares, mut noise, mut weights) = (0.0, 0.0, 0.0);
    for (x, lab, weight, noise_square) in &usable {
        let smooth = x.transpose() * fit;
        let [l, a, b] = [0, 1, 2].map(|i: usize| smooth.get(i).copied().unwrap_or(0.0));
        let left = delta_e_00(Lab::new(l, a, b), *lab);
        squares += weight * left * left;
        noise += weight * noise_square;
        weights += weight;
    }
    Some(((squares - noise) / weights).max(0.0).sqrt())
}
