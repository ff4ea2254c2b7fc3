//! From a tooth-like L*a*b* to a smooth spectrum that looks like it.
//!
//! The body is seen as endlessly thick: its log K∕S is a parabola over the wavelength, added to
//! one that falls towards red, as the absorption of dentine-coloured ceramics does. Three
//! numbers for three: Newton's method finds the parabola whose L*a*b* (D65, 2°) is the given one.
//! Many spectra look alike (metamerism); this is the smooth one of the family. The form is our
//! own choice, tried against spectra of other forms (`cargo xtask accuracy --stains`); that
//! scattering and absorption of dental porcelain vary smoothly and fall with wavelength is from
//! O'Brien, Johnston & Fanian, J. Dent. Res. 64 (1985) 940.

use super::exponential::exp_of;
use super::layer::{endless, seen};
use super::spectrum::{Eye, PLACE, Spectrum};
use crate::colour::{Lab, Matrix3};

/// log K∕S at 550 nm and its fall over 150 nm that the parabola is added to.
const USUAL: [f64; 2] = [-3.0, -1.2];
/// L*a*b* this near is met.
const MET: f64 = 1e-9;
/// Steps at most.
const MAX_STEPS: usize = 60;
/// Step of the derivative.
const PROBE: f64 = 1e-5;

/// What a ceramic surface can look like, with room around it: L*, a*, b*.
pub const CERAMIC: [[f64; 2]; 3] = [[35.0, 97.0], [-12.0, 20.0], [-10.0, 45.0]];

/// Whether a colour can be that of a dental ceramic at all.
pub fn is_ceramic(lab: Lab) -> bool {
    lab.0
        .iter()
        .zip(CERAMIC)
        .all(|(v, [low, high])| *v >= low && *v <= high)
}

/// What comes back inside the body, per band; `None` for a colour that no ceramic has.
pub fn internal_from_lab(eye: &Eye, lab: Lab) -> Option<Spectrum> {
    if !is_ceramic(lab) {
        return None;
    }
    let mut at = [0.0; 3];
    for _ in 0..MAX_STEPS {
        let missed = miss(eye, at, lab);
        if largest(missed) < MET {
            return Some(body(at));
        }
        let mut slopes = [[0.0; 3]; 3];
        for column in 0..3 {
            let mut probe = at;
            probe[column] += PROBE;
            let moved = miss(eye, probe, lab);
            for (line, (m, was)) in slopes.iter_mut().zip(moved.iter().zip(missed)) {
                line[column] = (m - was) / PROBE;
            }
        }
        let step = Matrix3(slopes).inverse()?.apply(missed);
        let shorter = largest(step).max(1.0);
        for (v, s) in at.iter_mut().zip(step) {
            *v -= s / shorter;
        }
    }
    (largest(miss(eye, at, lab)) < 1e-6).then(|| body(at))
}

fn largest(of: [f64; 3]) -> f64 {
    of.iter().fold(0.0, |most, v| v.abs().max(most))
}

fn miss(eye: &Eye, at: [f64; 3], lab: Lab) -> [f64; 3] {
    let got = eye.lab(&seen(&body(at)));
    [0, 1, 2].map(|i: usize| got.0[i] - lab.0[i])
}

fn body([level, slope, curve]: [f64; 3]) -> Spectrum {
    let log_ratio = PLACE.map(|x| {
        let at = USUAL[0] + level + (USUAL[1] + slope) * x + curve * x * x;
        at.clamp(-18.0, 8.0)
    });
    exp_of(&log_ratio).map(endless)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_spectrum_looks_like_the_colour() {
        let eye = Eye::new();
        for lab in [
            [79.6, -1.3, 13.1],
            [64.8, 2.1, 18.7],
            [72.0, 0.5, 22.0],
            [90.0, -2.0, 4.0],
            [50.0, 6.0, 30.0],
        ] {
            let body = internal_from_lab(&eye, Lab(lab)).unwrap();
            let back = eye.lab(&seen(&body));
            for (got, want) in back.0.iter().zip(lab) {
                assert!((got - want).abs() < 1e-6, "{lab:?} came back as {back:?}");
            }
            assert!(body.iter().all(|r| *r > 0.0 && *r < 1.0));
        }
    }

    /// Tooth colours reflect more towards red.
    #[test]
    fn tooth_spectra_rise() {
        let eye = Eye::new();
        let body = internal_from_lab(&eye, Lab::new(75.0, 1.0, 18.0)).unwrap();
        assert!(body.windows(2).all(|w| w[1] >= w[0] - 1e-3), "{body:?}");
    }

    #[test]
    fn no_ceramic_is_refused() {
        let eye = Eye::new();
        for lab in [[10.0, 0.0, 0.0], [75.0, 60.0, 20.0], [75.0, 0.0, f64::NAN]] {
            assert!(internal_from_lab(&eye, Lab(lab)).is_none());
        }
    }
}
