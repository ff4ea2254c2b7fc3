//! The doubt of a zone reading: ± in ΔE00, about 95 %.
//!
//! Everything that may be off is gathered as one covariance of the logarithms of linear RGB: what
//! the light model leaves open after card and tabs (correlated between channels), the zone's own
//! shading and sheen, the camera's spectral errors, pixel noise (neighbours share theirs), and
//! the steps of an 8-bit file. It is carried to ΔE00 at the zone's own colour by the quadratic
//! form that ΔE00 is for small differences; about two root mean squares are given.

use super::form::{SHADING_UNCERTAINTY, ZoneForm};
use super::statistics::Sums;
use crate::colour::{Lab, Matrix3, Vec3, delta_e_00};
use crate::light::Trust;
use crate::light::correction::CORRELATED_PIXELS;

/// Standard deviation per channel (ln) of the camera's spectral error between materials: enamel
/// against the ceramic of tabs where tabs anchor the colours, everything against grey where only
/// the card does. Set on rendered scenes so that the doubt covers about 95 %.
const SPECTRAL_ANCHORED: f64 = 0.007;
const SPECTRAL_CARD: f64 = 0.010;
/// The part that two tooth colours in one photo do not share.
const SPECTRAL_IN_PHOTO: f64 = 0.006;
/// Share of what the tabs put each other off by that a tooth is off by as well: the rest is
/// their own form and sheen.
const LEFT_OUT: f64 = 0.35;
/// How many root mean squares about 95 % of the errors stay within. Tabs leave less than two:
/// the priors of card and guide are a little wider than what they leave open together.
const fn cover(trust: Trust) -> f64 {
    match trust {
        Trust::Card | Trust::CardSteps => 2.0,
        Trust::CardAndTabs => 1.7,
        Trust::CardAndOwnTabs => 1.85,
    }
}

/// What glare that was not found may add: this share of the share that was dropped.
const HIDDEN_GLARE: f64 = 0.05;

/// The two doubts of a zone, in ΔE00, about 95 %.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ZoneDoubt {
    /// On the colour itself.
    pub absolute: f64,
    /// When it is compared inside the photo.
    pub in_photo: f64,
}

/// What a zone's doubt is made of.
#[derive(Debug, Clone, Copy)]
pub struct Sources<'a> {
    /// Corrected linear RGB.
    pub rgb: Vec3,
    /// What the light model leaves open: covariance of ln rgb.
    pub light: [[f64; 3]; 3],
    /// Its sheen and shading.
    pub form: &'a ZoneForm,
    /// Its pixels.
    pub sums: &'a Sums,
    /// One code of the file, in linear light.
    pub quantisation_linear: f64,
    /// What the light stands on.
    pub trust: Trust,
    /// How far the tabs put each other from their known colours (ΔE00, median).
    pub left_out_delta_e_00: f64,
}

/// The doubts of a zone.
pub fn zone_doubt(from: Sources<'_>, xyz_from_rgb: &Matrix3) -> ZoneDoubt {
    let metric = metric(from.rgb, xyz_from_rgb);
    let own = own(&from);
    let spectral = match from.trust {
        Trust::CardAndOwnTabs => SPECTRAL_ANCHORED,
        Trust::Card | Trust::CardSteps | Trust::CardAndTabs => SPECTRAL_CARD,
    };
    let size = |extra: f64, with_light: f64| {
        let mut square = 0.0;
        for (i, ((m, o), l)) in metric.iter().zip(&own).zip(&from.light).enumerate() {
            for (j, ((g, a), b)) in m.iter().zip(o).zip(l).enumerate() {
                let independent = if i == j { extra * extra } else { 0.0 };
                square += g * (a + with_light * b + independent);
            }
        }
        let residual = with_light * LEFT_OUT * from.left_out_delta_e_00;
        cover(from.trust) * (square.max(0.0) + residual * residual).sqrt()
    };
    ZoneDoubt {
        absolute: size(spectral, 1.0),
        in_photo: size(SPECTRAL_IN_PHOTO, 0.0),
    }
}

/// The zone's own covariance: shading moves all channels together, sheen adds the same light to
/// each, noise is each channel's own.
fn own(from: &Sources<'_>) -> [[f64; 3]; 3] {
    let sheen = libm::hypot(
        from.form.sheen_uncertainty,
        HIDDEN_GLARE * from.sums.dropped_share() * from.rgb[1],
    );
    let by_sheen = from.rgb.map(|v| sheen / v.max(0.02));
    let independent = (f64::from(from.sums.used) / CORRELATED_PIXELS).max(1.0);
    let mean = from.sums.mean().unwrap_or([1.0; 3]);
    let step = from.quantisation_linear;
    let mut noise = [0.0; 3];
    for ((n, d), m) in noise.iter_mut().zip(from.sums.deviation()).zip(mean) {
        *n = (d * d + step * step / 12.0) / independent / (m * m).max(1e-8);
    }
    let mut out = [[0.0; 3]; 3];
    for (i, ((row, a), n)) in out.iter_mut().zip(by_sheen).zip(noise).enumerate() {
        for (j, (v, b)) in row.iter_mut().zip(by_sheen).enumerate() {
            let diagonal = if i == j { n } else { 0.0 };
            *v = SHADING_UNCERTAINTY * SHADING_UNCERTAINTY + a * b + diagonal;
        }
    }
    out
}

/// ΔE00² as a quadratic form of small changes of ln rgb.
fn metric(rgb: Vec3, xyz_from_rgb: &Matrix3) -> [[f64; 3]; 3] {
    const SMALL: f64 = 1e-3;
    let lab = |rgb: Vec3| Lab::from_xyz_d65(xyz_from_rgb.apply(rgb));
    let at = lab(rgb);
    let square = |i: usize, j: usize| {
        let mut moved = rgb;
        for k in [i, j] {
            if let Some(v) = moved.get_mut(k) {
                *v *= 1.0 + SMALL;
            }
            if i == j {
                break;
            }
        }
        let d = delta_e_00(at, lab(moved)) / SMALL;
        d * d
    };
    let own = [0, 1, 2].map(|i| square(i, i));
    [0, 1, 2].map(|i: usize| {
        [0, 1, 2].map(|j: usize| {
            let at = |k: usize| own.get(k).copied().unwrap_or(0.0);
            if i == j {
                at(i)
            } else {
                (square(i, j) - at(i) - at(j)) / 2.0
            }
        })
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::colour::rgb_space::SRGB;

    /// The form gives what ΔE00 itself gives for a small change in all channels.
    #[test]
    fn metric_is_delta_e_00() {
        let m = SRGB.xyz_d65_from_linear_rgb();
        let rgb = [0.6, 0.5, 0.37];
        let g = metric(rgb, &m);
        for change in [
            [0.01, 0.01, 0.01],
            [0.01, 0.0, -0.005],
            [-0.004, 0.003, 0.008],
        ] {
            let moved = [0, 1, 2].map(|i: usize| rgb[i] * (1.0 + change[i]));
            let lab = |v: Vec3| Lab::from_xyz_d65(m.apply(v));
            let want = delta_e_00(lab(rgb), lab(moved));
            let mut square = 0.0;
            for i in 0..3 {
                for j in 0..3 {
                    square += g[i][j] * change[i] * change[j];
                }
            }
            assert!((square.sqrt() / want - 1.0).abs() < 0.05, "{want}");
        }
    }
}
