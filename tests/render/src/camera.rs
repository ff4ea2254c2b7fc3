//! The camera between raw numbers and linear RGB: sensitivities, white-balance gains, and a 3×3
//! matrix fitted (least squares, white kept) on a set of smooth invented reflectances under D55,
//! as a maker would do for a general-purpose camera. It knows nothing of teeth.

use crate::colour::{Matrix, apply, inverse, xyz_under};
use crate::illuminant::Illuminant;
use crate::spec::{Camera, Space};
use crate::spectrum::{N, Spectrum};
use crate::tables::cameras::{SENSITIVITY_ONE, SENSITIVITY_THREE, SENSITIVITY_TWO};

/// Red, green, blue rows.
pub fn sensitivities(camera: Camera) -> [Spectrum; 3] {
    let rows: [[f64; N]; 3] = match camera {
        Camera::One => SENSITIVITY_ONE,
        Camera::Two => SENSITIVITY_TWO,
        Camera::Three => SENSITIVITY_THREE,
    };
    rows.map(Spectrum)
}

/// Raw numbers of a reflectance under a light, white of that light = 1 in each channel.
fn balanced(rows: &[Spectrum; 3], light: &Spectrum, r: &Spectrum) -> [f64; 3] {
    std::array::from_fn(|c| rows[c].dot(&light.times(r)) / rows[c].dot(light))
}

/// Invented everyday reflectances: bumps, edges and dips of many places and depths.
fn everyday() -> Vec<Spectrum> {
    let mut out = Vec::new();
    for mid in [430.0, 470.0, 510.0, 550.0, 590.0, 630.0, 670.0] {
        for (width, high) in [(35.0, 0.55), (60.0, 0.45), (90.0, 0.6)] {
            let bump = move |nm: f64| (-0.5 * ((nm - mid) / width).powi(2)).exp();
            out.push(Spectrum::from_fn(|nm| 0.08 + high * bump(nm)));
            out.push(Spectrum::from_fn(|nm| 0.70 - 0.8 * high * bump(nm)));
        }
        for soft in [12.0, 30.0] {
            out.push(Spectrum::from_fn(|nm| {
                0.06 + 0.6 / (1.0 + (-(nm - mid) / soft).exp())
            }));
            out.push(Spectrum::from_fn(|nm| {
                0.25 + 0.4 / (1.0 + (-(nm - mid) / soft).exp())
            }));
            out.push(Spectrum::from_fn(|nm| {
                0.10 + 0.45 / (1.0 + ((nm - mid) / soft).exp())
            }));
        }
    }
    out
}

/// XYZ(D65) of linear RGB of an output space.
pub fn xyz_from_space(space: Space) -> Matrix {
    let white = [0.3127, 0.3290];
    let primaries = match space {
        Space::Srgb => [[0.64, 0.33], [0.30, 0.60], [0.15, 0.06]],
        Space::DisplayP3 => [[0.68, 0.32], [0.265, 0.69], [0.15, 0.06]],
        Space::AdobeRgb => [[0.64, 0.33], [0.21, 0.71], [0.15, 0.06]],
    };
    crate::colour::xyz_from_rgb(primaries, white)
}

/// Output linear RGB from balanced raw numbers; each row sums to 1, so grey stays grey.
pub fn output_from_balanced(camera: Camera, space: Space) -> Matrix {
    let rows = sensitivities(camera);
    let learn = Illuminant::D55.spectrum();
    let d65 = Illuminant::D65.spectrum();
    let rgb_from_xyz = inverse(&xyz_from_space(space));
    let white = crate::colour::white_d65();
    let named = apply(&xyz_from_space(space), [1.0; 3]);
    // Least squares for a row (a, 1 − a − b, b): target − g = a (r − g) + b (b − g).
    let mut n = [[0.0; 2]; 2];
    let mut rhs = [[0.0; 2]; 3];
    for r in everyday() {
        let raw = balanced(&rows, &learn, &r);
        let xyz = xyz_under(&d65, &r);
        // The white as summed here onto the white that the space names.
        let target = apply(
            &rgb_from_xyz,
            std::array::from_fn(|i| xyz[i] * named[i] / white[i]),
        );
        // Errors count by lightness: weight by 1/(Y + 0.05).
        let w = 1.0 / (xyz[1] + 0.05);
        let d = [raw[0] - raw[1], raw[2] - raw[1]];
        for i in 0..2 {
            for j in 0..2 {
                n[i][j] += w * d[i] * d[j];
            }
            for (k, row) in rhs.iter_mut().enumerate() {
                row[i] += w * d[i] * (target[k] - raw[1]);
            }
        }
    }
    let det = n[0][0] * n[1][1] - n[0][1] * n[1][0];
    std::array::from_fn(|k| {
        let a = (rhs[k][0] * n[1][1] - rhs[k][1] * n[0][1]) / det;
        let b = (n[0][0] * rhs[k][1] - n[1][0] * rhs[k][0]) / det;
        [a, 1.0 - a - b, b]
    })
}

/// Gains that make the white of a light grey: 1/raw white, green = 1.
pub fn gains_for(camera: Camera, light: &Spectrum) -> [f64; 3] {
    let rows = sensitivities(camera);
    let green = rows[1].dot(light);
    std::array::from_fn(|c| green / rows[c].dot(light))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn grey_stays_grey_through_the_matrix() {
        for camera in [Camera::One, Camera::Two, Camera::Three] {
            for space in [Space::Srgb, Space::DisplayP3, Space::AdobeRgb] {
                let m = output_from_balanced(camera, space);
                for row in m {
                    assert!((row.iter().sum::<f64>() - 1.0).abs() < 1e-12);
                }
            }
        }
    }

    #[test]
    fn the_matrix_errs_as_a_real_camera_does_on_tooth_colours() {
        use crate::material::{Family, lift_d65};
        for camera in [Camera::One, Camera::Two, Camera::Three] {
            let rows = sensitivities(camera);
            let m = output_from_balanced(camera, Space::Srgb);
            for family in [Family::Tooth, Family::Ceramic] {
                let r = lift_d65(family, [74.0, 1.0, 17.0]);
                let rgb = apply(&m, balanced(&rows, &Illuminant::D55.spectrum(), &r));
                let xyz = apply(&xyz_from_space(Space::Srgb), rgb);
                let lab =
                    crate::colour::lab_from_xyz(xyz, apply(&xyz_from_space(Space::Srgb), [1.0; 3]));
                let d = crate::colour::delta_e_00(lab, crate::colour::lab_d65(&r));
                println!("{camera:?} {family:?} {lab:?} {d}");
                assert!(d < 3.5, "{camera:?} {family:?} {d}");
            }
        }
    }
}
