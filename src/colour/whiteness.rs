//! The whiteness index for dentistry, WID.

use super::lab::Lab;

/// WID = 0.511 L* − 2.324 a* − 1.100 b* (Pérez et al. 2016, Dent Mater 32:461–7). Larger is
/// whiter. It leans hard on a*, so it means nothing on a badly balanced photo.
pub fn whiteness_wid(lab: Lab) -> f64 {
    0.511 * lab.l() - 2.324 * lab.a() - 1.100 * lab.b()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Worked by hand from the published coefficients.
    #[test]
    fn worked_values() {
        for (lab, want) in [
            ([75.0, 1.0, 18.0], 16.201),
            ([80.0, 0.0, 12.0], 27.680),
            ([70.0, 3.0, 24.0], 2.398),
        ] {
            assert!((whiteness_wid(Lab(lab)) - want).abs() < 5e-4);
        }
    }
}
