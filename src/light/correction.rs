//! The correction from a photo's linear RGB to XYZ under D65.
//!
//! Von Kries in linear light: one gain per channel, chosen so that the card comes out with its
//! known colour, which sets white balance and exposure together; a tone curve where several
//! steps show one; then the matrix of the photo's colour space.

use super::card::{CardReading, StepReading};
use super::tone::ToneCurve;
use crate::colour::{Lab, Matrix3, Vec3, delta_e_00};

/// The correction of one photo.
#[derive(Debug, Clone, PartialEq)]
pub struct Correction {
    /// Gain per linear channel.
    pub gains: Vec3,
    /// XYZ D65 from the photo's linear RGB, before the gains.
    pub xyz_d65_from_linear_rgb: Matrix3,
    /// ΔE00 of each step after the correction; empty with a single patch, which fits exactly.
    pub step_residuals: Vec<f64>,
    /// Standard uncertainty of the common gain, relative (evenness and noise of the card).
    pub gain_uncertainty: f64,
    /// What is undone after the gains: a tone curve, when several steps show one.
    pub tone: ToneCurve,
    /// How many neutral steps it stands on.
    pub steps: usize,
    /// Linear level of the card (its lightest step) after balancing.
    pub card_level: f64,
}

impl Correction {
    /// From the card's steps: gains by least squares in relative terms, so that a dark step
    /// counts as much as a light one. `None` when no step carries light in all channels.
    pub fn from_card(card: &CardReading, xyz_d65_from_linear_rgb: Matrix3) -> Option<Self> {
        let rgb_from_xyz = xyz_d65_from_linear_rgb.inverse()?;
        let mut log_sum = [0.0; 3];
        let mut weight_sum = 0.0;
        for step in &card.steps {
            let target = rgb_from_xyz.apply(step.known.to_xyz_d65());
            let weight = f64::from(step.patch.pixels).sqrt();
            let measured = step.patch.linear_rgb;
            if measured
                .iter()
                .chain(&target)
                .any(|v| !v.is_finite() || *v <= 1e-5)
            {
                continue;
            }
            for ((sum, t), m) in log_sum.iter_mut().zip(target).zip(measured) {
                *sum += weight * libm::log(t / m);
            }
            weight_sum += weight;
        }
        if weight_sum <= 0.0 {
            return None;
        }
        let gains = log_sum.map(|s| libm::exp(s / weight_sum));
        let several = card.steps.len() > 1;
        let [_, y_row, _] = xyz_d65_from_linear_rgb.0;
        let luminance = |rgb: Vec3| -> f64 {
            rgb.iter()
                .zip(y_row)
                .zip(gains)
                .map(|((v, w), g)| v * w * g)
                .sum()
        };
        let levels: Vec<(f64, f64)> = card
            .steps
            .iter()
            .map(|s| {
                let [_, known, _] = s.known.to_xyz_d65();
                (luminance(s.patch.linear_rgb), known)
            })
            .collect();
        let mut correction = Self {
            gains,
            xyz_d65_from_linear_rgb,
            step_residuals: Vec::new(),
            gain_uncertainty: gain_uncertainty(&card.steps),
            tone: ToneCurve::from_steps(&levels),
            steps: card.steps.len(),
            card_level: levels.iter().map(|l| l.1).fold(1e-3, f64::max),
        };
        if several {
            correction.step_residuals = card
                .steps
                .iter()
                .map(|s| delta_e_00(s.known, correction.lab(s.patch.linear_rgb)))
                .collect();
        }
        Some(correction)
    }

    /// A linear RGB mean of this photo with the card's cast, exposure and tone curve undone.
    pub fn balanced(&self, linear_rgb: Vec3) -> Vec3 {
        let [r, g, b] = linear_rgb;
        let [gr, gg, gb] = self.gains;
        [r * gr, g * gg, b * gb].map(|v| self.tone.undo(v))
    }

    /// Luminance (Y = 1 for the perfect diffuser) of balanced linear RGB.
    pub fn luminance(&self, balanced_rgb: Vec3) -> f64 {
        let [_, y_row, _] = self.xyz_d65_from_linear_rgb.0;
        y_row.iter().zip(balanced_rgb).map(|(w, v)| w * v).sum()
    }

    /// XYZ D65 (Y = 1 for the perfect diffuser) of a linear RGB mean of this photo, by the card
    /// alone.
    pub fn xyz_d65(&self, linear_rgb: Vec3) -> Vec3 {
        self.xyz_d65_from_linear_rgb
            .apply(self.balanced(linear_rgb))
    }

    /// L*a*b* (D65) of a linear RGB mean of this photo.
    pub fn lab(&self, linear_rgb: Vec3) -> Lab {
        Lab::from_xyz_d65(self.xyz_d65(linear_rgb))
    }

    /// The exposure part of the gains: how many times brighter the photo is made.
    pub fn exposure_gain(&self) -> f64 {
        let [_, y_row, _] = self.xyz_d65_from_linear_rgb.0;
        let grey: f64 = y_row.iter().zip(self.gains).map(|(w, g)| w * g).sum();
        grey / y_row.iter().sum::<f64>().max(1e-9)
    }

    /// The strength of the cast: largest over smallest gain.
    pub fn cast_ratio(&self) -> f64 {
        let [a, b, c] = self.gains;
        a.max(b).max(c) / a.min(b).min(c).max(1e-12)
    }
}

/// An even card pins the light where the teeth are; the unevenness across it says how far that
/// may be wrong. A uniform spread u has the standard deviation u/√12.
fn gain_uncertainty(steps: &[StepReading]) -> f64 {
    let worst = steps.iter().map(|s| s.patch.unevenness).fold(0.0, f64::max);
    let noise = steps
        .iter()
        .map(|s| {
            let independent = f64::from(s.patch.pixels) / CORRELATED_PIXELS;
            s.patch.texture / independent.max(1.0).sqrt()
        })
        .fold(0.0, f64::max);
    libm::hypot(worst / 12.0_f64.sqrt(), noise)
}

/// Neighbouring pixels share their noise (demosaicing, JPEG blocks): about this many count as
/// one. Common practice, no source; the noise part of the doubt is small beside the others.
pub const CORRELATED_PIXELS: f64 = 16.0;

#[cfg(test)]
mod tests {
    use super::super::patch::Patch;
    use super::*;
    use crate::colour::rgb_space::SRGB;

    fn step(known: Lab, linear_rgb: Vec3) -> StepReading {
        StepReading {
            known,
            patch: Patch {
                linear_rgb,
                pixels: 10_000,
                clipped: 0.0,
                outliers: 0.0,
                unevenness: 0.0,
                texture: 0.0,
                inside: 1.0,
            },
        }
    }

    /// A cast and a wrong exposure on everything, seen by the card, are undone exactly.
    #[test]
    fn cast_and_exposure_are_undone() {
        let m = SRGB.xyz_d65_from_linear_rgb();
        let to_rgb = m.inverse().expect("regular");
        let cast = [1.7, 0.8, 0.4];
        let through = |lab: Lab| {
            let rgb = to_rgb.apply(lab.to_xyz_d65());
            [0, 1, 2].map(|i: usize| rgb[i] * cast[i])
        };
        for known in [Lab::new(50.0, 0.0, 0.0), Lab::new(52.0, -1.0, 2.5)] {
            let card = CardReading {
                steps: vec![step(known, through(known))],
            };
            let c = Correction::from_card(&card, m).expect("a correction");
            let tooth = Lab::new(74.0, 2.0, 19.0);
            assert!(delta_e_00(tooth, c.lab(through(tooth))) < 1e-9);
            assert!(c.step_residuals.is_empty());
        }
    }

    /// Exposure is what the gains do to luminance; the cast what they do to each other.
    #[test]
    fn gains_are_told_as_exposure_and_cast() {
        let m = SRGB.xyz_d65_from_linear_rgb();
        let grey = Lab::new(50.0, 0.0, 0.0);
        let card = CardReading {
            steps: vec![step(grey, [0.1; 3])],
        };
        let mut c = Correction::from_card(&card, m).expect("a correction");
        // Y of L* 50 is 0.184187.
        assert!((c.exposure_gain() - 1.841_87).abs() < 1e-4);
        assert!((c.cast_ratio() - 1.0).abs() < 1e-3);
        // The shares of red, green and blue in the luminance of sRGB (IEC 61966-2-1).
        for (gains, want, cast) in [
            ([2.0, 1.0, 1.0], 1.212_6, 2.0),
            ([1.0, 2.0, 1.0], 1.715_2, 2.0),
            ([1.0, 1.0, 0.25], 0.945_85, 4.0),
        ] {
            c.gains = gains;
            assert!(
                (c.exposure_gain() - want).abs() < 1e-3,
                "{}",
                c.exposure_gain()
            );
            assert!((c.cast_ratio() - cast).abs() < 1e-12);
        }
    }

    /// Steps that contradict each other leave a residual that says so.
    #[test]
    fn contradicting_steps_show() {
        let m = SRGB.xyz_d65_from_linear_rgb();
        let to_rgb = m.inverse().expect("regular");
        let rgb = |l: f64| to_rgb.apply(Lab::new(l, 0.0, 0.0).to_xyz_d65());
        let card = CardReading {
            steps: vec![
                step(Lab::new(30.0, 0.0, 0.0), rgb(30.0)),
                step(Lab::new(70.0, 0.0, 0.0), rgb(80.0)),
            ],
        };
        let c = Correction::from_card(&card, m).expect("a correction");
        assert_eq!(c.step_residuals.len(), 2);
        assert!(
            c.step_residuals.iter().all(|d| *d > 1.5),
            "{:?}",
            c.step_residuals
        );
    }

    /// The worst step counts: its unevenness u as u/√12, its texture as the noise of its mean, of
    /// which sixteen pixels count as one.
    #[test]
    fn the_gain_is_as_uncertain_as_the_worst_step() {
        let with = |unevenness: f64, texture: f64, pixels: u32| {
            let mut one = step(Lab::new(50.0, 0.0, 0.0), [0.18; 3]);
            one.patch.unevenness = unevenness;
            one.patch.texture = texture;
            one.patch.pixels = pixels;
            one
        };
        for (steps, want) in [
            (vec![with(0.0, 0.1, 1600)], 0.01),
            (vec![with(0.0, 0.1, 8)], 0.1),
            (vec![with(0.12, 0.0, 1600)], 0.034_641_016),
            (
                vec![with(0.12, 0.05, 1600), with(0.03, 0.2, 6400)],
                0.036_055_513,
            ),
        ] {
            let got = gain_uncertainty(&steps);
            assert!((got - want).abs() < 1e-8, "{got} should be {want}");
        }
    }

    #[test]
    fn black_card_gives_none() {
        let m = SRGB.xyz_d65_from_linear_rgb();
        let card = CardReading {
            steps: vec![step(Lab::new(50.0, 0.0, 0.0), [0.0; 3])],
        };
        assert!(Correction::from_card(&card, m).is_none());
    }
}
