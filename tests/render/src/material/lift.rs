//! From a CIELAB to a spectrum of a family.

use super::Family;
use crate::colour::{lab_from_xyz, xyz_under};
use crate::illuminant::Illuminant;
use crate::spectrum::Spectrum;

/// The spectrum of `family` whose CIELAB under `light` (2°, that light's white) is `lab`.
///
/// # Errors
/// When the family cannot reach the colour: says how near it came.
pub fn lift(family: Family, light: Illuminant, lab: [f64; 3]) -> Result<Spectrum, String> {
    let power = light.spectrum();
    let white = xyz_under(&power, &Spectrum::flat(1.0));
    let seen = |p: [f64; 3]| lab_from_xyz(xyz_under(&power, &family.reflectance(p)), white);
    let miss = |p: [f64; 3]| {
        let got = seen(p);
        [got[0] - lab[0], got[1] - lab[1], got[2] - lab[2]]
    };
    let size = |e: [f64; 3]| e.iter().map(|v| v * v).sum::<f64>().sqrt();

    let mut p = family.start();
    let mut e = miss(p);
    let mut damping = 1e-2;
    for _ in 0..200 {
        if size(e) < 1e-7 {
            break;
        }
        let mut j = [[0.0; 3]; 3];
        for k in 0..3 {
            let mut q = p;
            q[k] += 1e-5;
            let d = miss(q);
            for i in 0..3 {
                j[i][k] = (d[i] - e[i]) / 1e-5;
            }
        }
        // Levenberg–Marquardt on (JᵀJ + damping·diag) step = −Jᵀe.
        let mut a = [[0.0; 3]; 3];
        let mut rhs = [0.0; 3];
        for r in 0..3 {
            for c in 0..3 {
                a[r][c] = (0..3).map(|i| j[i][r] * j[i][c]).sum();
            }
            rhs[r] = -(0..3).map(|i| j[i][r] * e[i]).sum::<f64>();
        }
        for (r, row) in a.iter_mut().enumerate() {
            row[r] += damping * (row[r] + 1e-6);
        }
        let step = crate::colour::apply(&crate::colour::inverse(&a), rhs);
        let next: [f64; 3] = std::array::from_fn(|i| p[i] + step[i].clamp(-1.0, 1.0));
        let trial = miss(next);
        if size(trial) < size(e) {
            (p, e) = (next, trial);
            damping = (damping * 0.3).max(1e-12);
        } else {
            damping *= 8.0;
            if damping > 1e9 {
                break;
            }
        }
    }
    if size(e) < 0.05 {
        Ok(family.reflectance(p))
    } else {
        Err(format!(
            "{family:?} cannot be {lab:?} under {light:?}: the nearest is {:?}",
            seen(p)
        ))
    }
}

/// As [`lift`] under D65; a colour out of reach is drawn toward the family's usual hue in small
/// steps until it is reached (the truth is computed from the spectrum, never from the wish).
pub fn lift_d65(family: Family, lab: [f64; 3]) -> Spectrum {
    let home = match family {
        Family::Tooth => [74.0, 1.2, 16.0],
        Family::Ceramic => [74.0, 0.3, 16.0],
        Family::Mucosa => [53.0, 23.3, 14.9],
    };
    for step in 0..=20 {
        let t = f64::from(step) / 20.0;
        let wish = std::array::from_fn(|i| lab[i] * (1.0 - t) + home[i] * t);
        if let Ok(found) = lift(family, Illuminant::D65, wish) {
            return found;
        }
    }
    Spectrum::flat(0.5)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::colour::lab_d65;
    use crate::guide::CLASSICAL_16;

    #[test]
    fn every_tab_colour_is_met_by_ceramic_and_its_spectrum_stays_within_0_and_1() {
        let white = xyz_under(&Illuminant::C.spectrum(), &Spectrum::flat(1.0));
        for (name, lab) in CLASSICAL_16 {
            let r =
                lift(Family::Ceramic, Illuminant::C, lab).unwrap_or_else(|e| panic!("{name}: {e}"));
            let back = lab_from_xyz(xyz_under(&Illuminant::C.spectrum(), &r), white);
            for i in 0..3 {
                assert!((back[i] - lab[i]).abs() < 0.1, "{name} {back:?}");
            }
            let (lo, hi) = r.range();
            assert!(lo > 0.0 && hi < 1.0, "{name} {lo} {hi}");
        }
    }

    #[test]
    fn tooth_colours_across_the_usual_range_are_met() {
        for l in [60.0, 68.0, 76.0, 82.0] {
            for (a, b) in [
                (-1.0, 8.0),
                (0.0, 12.0),
                (1.0, 16.0),
                (2.0, 20.0),
                (3.0, 24.0),
            ] {
                let lab = [l, a, b];
                let r = lift(Family::Tooth, Illuminant::D65, lab).unwrap_or_else(|e| panic!("{e}"));
                let back = lab_d65(&r);
                for i in 0..3 {
                    assert!((back[i] - lab[i]).abs() < 0.1, "{lab:?} {back:?}");
                }
                assert!(r.range().0 > 0.0 && r.range().1 < 1.0);
                // A tooth rises from violet to red.
                assert!(r.0[3] < r.0[20] && r.0[20] < r.0[28] + 0.02, "{:?}", r.0);
            }
        }
    }

    #[test]
    fn tooth_and_ceramic_of_one_colour_differ_under_tungsten_mildly() {
        let lab = [74.0, 1.0, 17.0];
        let a = Illuminant::A.spectrum();
        let white = xyz_under(&a, &Spectrum::flat(1.0));
        let under_a = |f| {
            lab_from_xyz(
                xyz_under(&a, &lift(f, Illuminant::D65, lab).unwrap()),
                white,
            )
        };
        let d = crate::colour::delta_e_00(under_a(Family::Tooth), under_a(Family::Ceramic));
        assert!(d > 0.2 && d < 3.0, "{d}");
    }

    #[test]
    fn gum_colours_are_met() {
        for lab in [
            [52.9, 23.3, 14.9],
            [45.0, 27.0, 15.0],
            [62.0, 17.0, 12.0],
            [38.0, 24.0, 11.0],
        ] {
            lift(Family::Mucosa, Illuminant::D65, lab).unwrap_or_else(|e| panic!("{e}"));
        }
    }
}
