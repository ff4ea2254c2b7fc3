//! The smooth gradient of a region, and the blotch that is left after it, whole and per third.

use super::statistics::Cell;
use crate::colour::{Lab, Vec3, delta_e_00};
use crate::light::correction::CORRELATED_PIXELS;
use nalgebra::{Cholesky, SMatrix, SVector};

/// Terms of the smooth surface: cubic along the axis, quadratic across, and one twist.
pub const TERMS: usize = 7;
/// Pixels a cell needs to count.
const CELL_MIN_PIXELS: u32 = 24;
/// Cells needed for a fit.
const MIN_CELLS: usize = 20;
/// Cells that a zone needs for a figure of its own.
const MIN_ZONE_CELLS: usize = 5;

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

/// The smooth change of a region's colour from neck to edge and across.
#[derive(Debug, Clone, PartialEq)]
pub struct SmoothLab(SMatrix<f64, TERMS, 3>);

impl SmoothLab {
    /// The smooth colour at a place along (0–1) and across (−1–1) the axis.
    // One copy serves the many places that ask.
    #[inline(never)]
    pub fn at(&self, along: f64, across: f64) -> Lab {
        let smooth = terms(along, across).transpose() * self.0;
        Lab([0, 1, 2].map(|i: usize| smooth.get(i).copied().unwrap_or(0.0)))
    }
}

/// How uneven a region is: the rms ΔE00 between its cells and a smooth surface through them,
/// weighted by pixels, with the part that pixel noise alone would leave taken out.
#[derive(Debug, Clone, PartialEq)]
pub struct Unevenness {
    /// Over all of it.
    pub whole: f64,
    /// Per third, cervical first; `None` with too few cells.
    pub thirds: [Option<f64>; 3],
    /// The smooth surface.
    pub smooth: SmoothLab,
}

/// Whether a cell shows the surface: it has enough pixels, and glare does not hide most of it.
pub fn is_usable(cell: &Cell) -> bool {
    cell.sums.used >= CELL_MIN_PIXELS && cell.sums.dropped_share() < 0.5
}

/// One cell that can be used.
struct Usable {
    cell: Cell,
    lab: Lab,
    noise_square: f64,
}

/// Unevenness of a region's cells in the colours that `lab` makes of a cell's mean linear RGB in
/// the photo's own light. `None` with too few cells.
pub fn unevenness(
    cells: &[Cell],
    lab_of: &dyn Fn(&Cell, Vec3) -> Option<Lab>,
) -> Option<Unevenness> {
    let usable: Vec<Usable> = cells
        .iter()
        .filter(|c| is_usable(c))
        .filter_map(|c| {
            let mean = c.sums.mean()?;
            let lab = lab_of(c, mean)?;
            let independent = (f64::from(c.sums.used) / CORRELATED_PIXELS).max(1.0);
            let mut noisy = mean;
            for (v, d) in noisy.iter_mut().zip(c.sums.deviation()) {
                *v += d / independent.sqrt();
            }
            let noise = delta_e_00(lab, lab_of(c, noisy)?);
            Some(Usable {
                cell: *c,
                lab,
                noise_square: noise * noise,
            })
        })
        .collect();
    if usable.len() < MIN_CELLS {
        return None;
    }
    let smooth = SmoothLab(fit_surface(usable.iter().map(|u| {
        let c = &u.cell;
        (terms(c.along, c.across), u.lab.0, f64::from(c.sums.used))
    }))?);
    let of = |third: Option<usize>| {
        let (mut squares, mut weights, mut count) = (0.0, 0.0, 0);
        for u in &usable {
            let c = &u.cell;
            if third.is_some_and(|t| t != c.third) {
                continue;
            }
            let left = delta_e_00(smooth.at(c.along, c.across), u.lab);
            let weight = f64::from(c.sums.used);
            squares += weight * (left * left - u.noise_square);
            weights += weight;
            count += 1;
        }
        (count >= MIN_ZONE_CELLS).then(|| (squares / weights).max(0.0).sqrt())
    };
    Some(Unevenness {
        whole: of(None)?,
        thirds: [0, 1, 2].map(|t| of(Some(t))),
        smooth,
    })
}
