//! Colorimetry of the renderer, in f64: XYZ by 10 nm sums with the CIE 1931 2° observer, scaled
//! so that a perfect white under the light has Y = 1; CIELAB against *that light's own* white as
//! summed here, so that a perfect white is L* 100, a* 0, b* 0 exactly. Formulas: CIE 015:2018
//! (CIELAB), Sharma, Wu & Dalal 2005 (CIEDE2000). This is written apart from the project's own
//! colour module on purpose.

use crate::illuminant::Illuminant;
use crate::spectrum::Spectrum;
use crate::tables::observer::observer_2deg;
use std::sync::OnceLock;

/// Sum of power times ȳ: what a light has to be divided by for Y = 1.
pub fn xyz_per_y(light: &Spectrum) -> f64 {
    light.dot(&observer_2deg()[1])
}

/// Chromaticity of a light.
pub fn xy_of_light(light: &Spectrum) -> (f64, f64) {
    let [x, y, z] = xyz_under(light, &Spectrum::flat(1.0));
    (x / (x + y + z), y / (x + y + z))
}

/// XYZ of a reflectance under a light whose white has Y = 1.
pub fn xyz_under(light: &Spectrum, reflectance: &Spectrum) -> [f64; 3] {
    let seen = light.times(reflectance);
    let k = 1.0 / xyz_per_y(light);
    observer_2deg().map(|bar| k * seen.dot(&bar))
}

/// XYZ of a perfect white under D65, as summed here.
pub fn white_d65() -> [f64; 3] {
    static WHITE: OnceLock<[f64; 3]> = OnceLock::new();
    *WHITE.get_or_init(|| xyz_under(&Illuminant::D65.spectrum(), &Spectrum::flat(1.0)))
}

/// CIELAB of an XYZ against a white.
pub fn lab_from_xyz(xyz: [f64; 3], white: [f64; 3]) -> [f64; 3] {
    let f = |t: f64| {
        if t > 216.0 / 24389.0 {
            t.cbrt()
        } else {
            (24389.0 / 27.0 * t + 16.0) / 116.0
        }
    };
    let [x, y, z] = std::array::from_fn(|i| f(xyz[i] / white[i]));
    [116.0 * y - 16.0, 500.0 * (x - y), 200.0 * (y - z)]
}

/// XYZ of a CIELAB against a white.
pub fn xyz_from_lab(lab: [f64; 3], white: [f64; 3]) -> [f64; 3] {
    let y = (lab[0] + 16.0) / 116.0;
    let g = |t: f64| {
        if t.powi(3) > 216.0 / 24389.0 {
            t.powi(3)
        } else {
            (116.0 * t - 16.0) * 27.0 / 24389.0
        }
    };
    [
        white[0] * g(y + lab[1] / 500.0),
        white[1] * g(y),
        white[2] * g(y - lab[2] / 200.0),
    ]
}

/// CIELAB (D65, 2°) of a reflectance.
pub fn lab_d65(reflectance: &Spectrum) -> [f64; 3] {
    lab_from_xyz(
        xyz_under(&Illuminant::D65.spectrum(), reflectance),
        white_d65(),
    )
}

/// CIEDE2000, 1:1:1.
pub fn delta_e_00(one: [f64; 3], two: [f64; 3]) -> f64 {
    let c_ab = |l: [f64; 3]| l[1].hypot(l[2]);
    let mean7 = ((c_ab(one) + c_ab(two)) / 2.0).powi(7);
    let g = 0.5 * (1.0 - (mean7 / (mean7 + 25f64.powi(7))).sqrt());
    let polar = |l: [f64; 3]| {
        let a = l[1] * (1.0 + g);
        let h = if a == 0.0 && l[2] == 0.0 {
            0.0
        } else {
            l[2].atan2(a).to_degrees().rem_euclid(360.0)
        };
        (a.hypot(l[2]), h)
    };
    let ((c1, h1), (c2, h2)) = (polar(one), polar(two));
    let d_l = two[0] - one[0];
    let d_c = c2 - c1;
    let mut d_h = h2 - h1;
    if c1 * c2 == 0.0 {
        d_h = 0.0;
    } else if d_h > 180.0 {
        d_h -= 360.0;
    } else if d_h < -180.0 {
        d_h += 360.0;
    }
    let d_hh = 2.0 * (c1 * c2).sqrt() * (d_h / 2.0).to_radians().sin();
    let l_mean = (one[0] + two[0]) / 2.0;
    let c_mean = (c1 + c2) / 2.0;
    let mut h_mean = h1 + h2;
    if c1 * c2 != 0.0 {
        if (h1 - h2).abs() > 180.0 {
            h_mean += if h_mean < 360.0 { 360.0 } else { -360.0 };
        }
        h_mean /= 2.0;
    }
    let cosd = |d: f64| d.to_radians().cos();
    let t = 1.0 - 0.17 * cosd(h_mean - 30.0)
        + 0.24 * cosd(2.0 * h_mean)
        + 0.32 * cosd(3.0 * h_mean + 6.0)
        - 0.20 * cosd(4.0 * h_mean - 63.0);
    let l50 = (l_mean - 50.0).powi(2);
    let s_l = 1.0 + 0.015 * l50 / (20.0 + l50).sqrt();
    let s_c = 1.0 + 0.045 * c_mean;
    let s_h = 1.0 + 0.015 * c_mean * t;
    let turn = 30.0 * (-((h_mean - 275.0) / 25.0).powi(2)).exp();
    let c7 = c_mean.powi(7);
    let r_t = -(2.0 * turn).to_radians().sin() * 2.0 * (c7 / (c7 + 25f64.powi(7))).sqrt();
    let (l, c, h) = (d_l / s_l, d_c / s_c, d_hh / s_h);
    (l * l + c * c + h * h + r_t * c * h).sqrt()
}

/// 3×3 matrix.
pub type Matrix = [[f64; 3]; 3];

/// Matrix times vector.
pub fn apply(m: &Matrix, v: [f64; 3]) -> [f64; 3] {
    m.map(|r| r[0] * v[0] + r[1] * v[1] + r[2] * v[2])
}

/// Product a·b.
pub fn product(a: &Matrix, b: &Matrix) -> Matrix {
    std::array::from_fn(|i| std::array::from_fn(|j| (0..3).map(|k| a[i][k] * b[k][j]).sum()))
}

/// Inverse by cofactors.
pub fn inverse(m: &Matrix) -> Matrix {
    let c = |a: usize, b: usize, d: usize, e: usize| m[a][d] * m[b][e] - m[a][e] * m[b][d];
    let det = m[0][0] * c(1, 2, 1, 2) - m[0][1] * c(1, 2, 0, 2) + m[0][2] * c(1, 2, 0, 1);
    [
        [
            c(1, 2, 1, 2) / det,
            -c(0, 2, 1, 2) / det,
            c(0, 1, 1, 2) / det,
        ],
        [
            -c(1, 2, 0, 2) / det,
            c(0, 2, 0, 2) / det,
            -c(0, 1, 0, 2) / det,
        ],
        [
            c(1, 2, 0, 1) / det,
            -c(0, 2, 0, 1) / det,
            c(0, 1, 0, 1) / det,
        ],
    ]
}

/// XYZ of linear RGB, from the primaries' and the white's chromaticities.
pub fn xyz_from_rgb(primaries: [[f64; 2]; 3], white: [f64; 2]) -> Matrix {
    let col = |[x, y]: [f64; 2]| [x / y, 1.0, (1.0 - x - y) / y];
    let p = primaries.map(col);
    let m: Matrix = std::array::from_fn(|i| std::array::from_fn(|j| p[j][i]));
    let s = apply(&inverse(&m), col(white));
    std::array::from_fn(|i| std::array::from_fn(|j| m[i][j] * s[j]))
}

/// Bradford adaptation from one white to another (Lam 1985 / ICC.1 annex E matrix).
pub fn bradford(from: [f64; 3], to: [f64; 3]) -> Matrix {
    const B: Matrix = [
        [0.8951, 0.2664, -0.1614],
        [-0.7502, 1.7135, 0.0367],
        [0.0389, -0.0685, 1.0296],
    ];
    let (f, t) = (apply(&B, from), apply(&B, to));
    let mut d = [[0.0; 3]; 3];
    for i in 0..3 {
        d[i][i] = t[i] / f[i];
    }
    product(&inverse(&B), &product(&d, &B))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_perfect_white_is_100_0_0() {
        let lab = lab_d65(&Spectrum::flat(1.0));
        assert!(
            (lab[0] - 100.0).abs() < 1e-9 && lab[1].abs() < 1e-9 && lab[2].abs() < 1e-9,
            "{lab:?}"
        );
        let lab = lab_d65(&Spectrum::flat(0.184_187));
        assert!(
            (lab[0] - 50.0).abs() < 1e-3 && lab[1].abs() < 1e-9 && lab[2].abs() < 1e-9,
            "{lab:?}"
        );
    }

    #[test]
    fn lab_goes_there_and_back() {
        for lab in [[75.0, 1.0, 18.0], [5.0, -3.0, 2.0], [50.0, 40.0, -30.0]] {
            let back = lab_from_xyz(xyz_from_lab(lab, white_d65()), white_d65());
            for i in 0..3 {
                assert!((back[i] - lab[i]).abs() < 1e-9);
            }
        }
    }

    #[test]
    fn delta_e_matches_published_pairs() {
        // Pairs 1, 4, 14 and 25 of Sharma, Wu & Dalal 2005.
        for (a, b, want) in [
            ([50.0, 2.6772, -79.7751], [50.0, 0.0, -82.7485], 2.0425),
            ([50.0, -1.3802, -84.2814], [50.0, 0.0, -82.7485], 1.0),
            (
                [60.2574, -34.0099, 36.2677],
                [60.4626, -34.1751, 39.4387],
                1.2644,
            ),
        ] {
            assert!(
                (delta_e_00(a, b) - want).abs() < 1e-4,
                "{}",
                delta_e_00(a, b)
            );
        }
    }

    #[test]
    fn the_srgb_matrix_is_the_published_one() {
        let m = xyz_from_rgb([[0.64, 0.33], [0.30, 0.60], [0.15, 0.06]], [0.3127, 0.3290]);
        assert!((m[0][0] - 0.412_390_8).abs() < 1e-6 && (m[1][1] - 0.715_168_7).abs() < 1e-6);
    }
}
