//! Nearly neutral things: the card's paper and the metal of the tab holders.

use crate::spectrum::Spectrum;

/// Grey paper of luminous reflectance `y`, not perfectly neutral: ±`waviness` (0.01 is a good
/// card) in a slow wave whose place is set by `phase_rad`.
pub fn grey(y: f64, waviness: f64, phase_rad: f64) -> Spectrum {
    let raw = Spectrum::from_fn(|nm| {
        1.0 + waviness
            * (0.7 * ((nm - 380.0) / 350.0 * 5.5 + phase_rad).sin()
                + 0.3 * ((nm - 380.0) / 350.0 * 11.0 + 2.0 * phase_rad).cos())
    });
    let d65 = crate::illuminant::Illuminant::D65.spectrum();
    let have = crate::colour::xyz_under(&d65, &raw)[1];
    raw.scaled(y / have)
}

/// Brushed steel: grey, a little higher toward the red.
pub fn stainless() -> Spectrum {
    Spectrum::from_fn(|nm| 0.55 + 0.06 * (nm - 550.0) / 170.0)
}

/// Paper with a tint: its a* and b* (D65, 2°) become `ab`, its luminous reflectance stays. Yellow
/// takes from the blue end, green adds to the middle; the amounts are solved by Newton steps.
pub fn tinted(paper: &Spectrum, ab: [f64; 2]) -> Spectrum {
    let d65 = crate::illuminant::Illuminant::D65.spectrum();
    let y = crate::colour::xyz_under(&d65, paper)[1];
    let dyed = |p: [f64; 2]| {
        let raw = paper.times(&Spectrum::from_fn(|nm| {
            let blue = 1.0 / (1.0 + ((nm - 495.0) / 18.0).exp());
            let green = (-0.5 * ((nm - 545.0) / 38.0).powi(2)).exp();
            (p[0] * blue + p[1] * green).exp()
        }));
        raw.scaled(y / crate::colour::xyz_under(&d65, &raw)[1])
    };
    let miss = |p: [f64; 2]| {
        let lab = crate::colour::lab_d65(&dyed(p));
        [lab[1] - ab[0], lab[2] - ab[1]]
    };
    let mut p = [0.0; 2];
    for _ in 0..12 {
        let e = miss(p);
        let h = 1e-4;
        let (u, v) = (miss([p[0] + h, p[1]]), miss([p[0], p[1] + h]));
        let j = [
            [(u[0] - e[0]) / h, (v[0] - e[0]) / h],
            [(u[1] - e[1]) / h, (v[1] - e[1]) / h],
        ];
        let det = j[0][0] * j[1][1] - j[0][1] * j[1][0];
        p[0] -= ((j[1][1] * e[0] - j[0][1] * e[1]) / det).clamp(-0.5, 0.5);
        p[1] -= ((j[0][0] * e[1] - j[1][0] * e[0]) / det).clamp(-0.5, 0.5);
    }
    dyed(p)
}

/// Rubber, plastic or metal near a CIELAB (D65); a colour out of reach is drawn toward grey.
pub fn dyed(lab: [f64; 3]) -> Spectrum {
    let white = crate::colour::white_d65();
    let y = crate::colour::xyz_from_lab([lab[0], 0.0, 0.0], white)[1];
    let paper = grey(y.clamp(0.005, 0.9), 0.004, 0.0);
    (0..10)
        .map(|k| 1.0 - f64::from(k) / 10.0)
        .map(|s| (s, tinted(&paper, [lab[1] * s, lab[2] * s])))
        .find(|(s, r)| {
            let (lo, hi) = r.range();
            let got = crate::colour::lab_d65(r);
            lo > 0.0
                && hi < 0.97
                && (got[1] - lab[1] * s).abs() < 0.5
                && (got[2] - lab[2] * s).abs() < 0.5
        })
        .map_or(paper, |(_, r)| r)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tint_is_met_and_keeps_the_brightness() {
        for y in [0.0624, 0.184, 0.763] {
            for ab in [[0.0, 8.0], [-6.0, 0.0], [4.0, 9.0], [3.0, -7.0]] {
                let r = tinted(&grey(y, 0.008, 1.0), ab);
                let lab = crate::colour::lab_d65(&r);
                assert!(
                    (lab[1] - ab[0]).abs() < 1e-3 && (lab[2] - ab[1]).abs() < 1e-3,
                    "{y} {ab:?} {lab:?}"
                );
                assert!(r.range().0 > 0.0 && r.range().1 < 1.0, "{y} {ab:?}");
            }
        }
    }
}
