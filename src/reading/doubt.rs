//! The doubt of a zone reading: ± in ΔE00, about 95 %.
//!
//! Everything that may be off is gathered as one covariance of the logarithms of linear RGB: what
//! the light model leaves open after card and tabs (correlated between channels), the zone's own
//! shading and sheen, the camera's spectral errors, pixel noise (neighbours share theirs), and
//! the steps of an 8-bit file. It is carried to ΔE00 at the zone's own colour by the quadratic
//! form that ΔE00 is for small differences; about two root mean squares are given. The same
//! covariance gives the doubt of L* and of C*ab alone, by how they change with each channel.

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

/// The same for L* and C*ab alone, inside a photo and whatever the light stands on: it is shared
/// there. Wider than for ΔE00, whose hue part is given more than it mostly needs. Set on rendered
/// scenes so that each holds 90 to 98 % of the true differences between teeth and restorations.
const PARTS_COVER: [f64; 2] = [2.2, 2.1];

/// What glare that was not found may add: this share of the share that was dropped.
const HIDDEN_GLARE: f64 = 0.05;

/// A covariance of ln rgb, or a form of its changes.
type Square = [[f64; 3]; 3];

/// Change of ln rgb that slopes are taken by.
const SMALL: f64 = 1e-3;

/// The doubts of a zone, about 95 %.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ZoneDoubt {
    /// On the colour itself, ΔE00.
    pub absolute: f64,
    /// When it is compared inside the photo, ΔE00.
    pub in_photo: f64,
    /// Of L* and C*ab when they are compared inside the photo, in their own units.
    pub parts_in_photo: [f64; 2],
}

/// What a zone's doubt is made of.
#[derive(Debug, Clone, Copy)]
pub struct Sources<'a> {
    /// Corrected linear RGB.
    pub rgb: Vec3,
    /// What the light model leaves open: covariance of ln rgb.
    pub light: Square,
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
    let own = own(&from);
    let spectral = match from.trust {
        Trust::CardAndOwnTabs => SPECTRAL_ANCHORED,
        Trust::Card | Trust::CardSteps | Trust::CardAndTabs => SPECTRAL_CARD,
    };
    let size = |form: &Square, extra: f64, with_light: f64| {
        let mut square = 0.0;
        for (i, ((m, o), l)) in form.iter().zip(&own).zip(&from.light).enumerate() {
            for (j, ((g, a), b)) in m.iter().zip(o).zip(l).enumerate() {
                let independent = if i == j { extra * extra } else { 0.0 };
                square += g * (a + with_light * b + independent);
            }
        }
        let residual = with_light * LEFT_OUT * from.left_out_delta_e_00;
        (square.max(0.0) + residual * residual).sqrt()
    };
    let cover = cover(from.trust);
    let [metric, value, chroma] = forms(from.rgb, xyz_from_rgb);
    let [in_photo, value, chroma] =
        [metric, value, chroma].map(|form| size(&form, SPECTRAL_IN_PHOTO, 0.0));
    let [of_value, of_chroma] = PARTS_COVER;
    ZoneDoubt {
        absolute: cover * size(&metric, spectral, 1.0),
        in_photo: cover * in_photo,
        parts_in_photo: [of_value * value, of_chroma * chroma],
    }
}

/// The zone's own covariance: shading moves all channels together, sheen adds the same light to
/// each, noise is each channel's own.
fn own(from: &Sources<'_>) -> Square {
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

/// ΔE00², ΔL*² and ΔC*ab² as quadratic forms of small changes of ln rgb.
fn forms(rgb: Vec3, xyz_from_rgb: &Matrix3) -> [Square; 3] {
    let lab = |rgb: Vec3| Lab::from_xyz_d65(xyz_from_rgb.apply(rgb));
    let at = lab(rgb);
    let moved = |i: usize, j: usize| {
        let mut moved = rgb;
        for k in [i, j] {
            if let Some(v) = moved.get_mut(k) {
                *v *= 1.0 + SMALL;
            }
            if i == j {
                break;
            }
        }
        lab(moved)
    };
    let square = |there: Lab| {
        let d = delta_e_00(at, there) / SMALL;
        d * d
    };
    let alone = [0, 1, 2].map(|i| moved(i, i));
    let own = alone.map(square);
    let metric = [0, 1, 2].map(|i: usize| {
        [0, 1, 2].map(|j: usize| {
            let at = |k: usize| own.get(k).copied().unwrap_or(0.0);
            if i == j {
                at(i)
            } else {
                (square(moved(i, j)) - at(i) - at(j)) / 2.0
            }
        })
    });
    let outer = |slopes: Vec3| slopes.map(|a| slopes.map(|b| a * b));
    [
        metric,
        outer(alone.map(|lab| (lab.l() - at.l()) / SMALL)),
        outer(alone.map(|lab| (lab.chroma() - at.chroma()) / SMALL)),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::colour::rgb_space::SRGB;

    /// The forms of L* and C*ab give their small changes, and never more than ΔE00 does with
    /// their weights (SL and SC; hue takes no part in them).
    #[test]
    fn parts_are_parts_of_delta_e_00() {
        let m = SRGB.xyz_d65_from_linear_rgb();
        for rgb in [[0.6, 0.5, 0.37], [0.35, 0.27, 0.16], [0.75, 0.7, 0.62]] {
            let forms = forms(rgb, &m);
            for change in [
                [0.01, 0.01, 0.01],
                [0.01, 0.0, -0.005],
                [-0.004, 0.003, 0.008],
            ] {
                let moved = [0, 1, 2].map(|i: usize| rgb[i] * (1.0 + change[i]));
                let lab = |v: Vec3| Lab::from_xyz_d65(m.apply(v));
                let (a, b) = (lab(rgb), lab(moved));
                let [whole, value, chroma] = forms.map(|g| {
                    let mut square = 0.0;
                    for i in 0..3 {
                        for j in 0..3 {
                            square += g[i][j] * change[i] * change[j];
                        }
                    }
                    square.max(0.0).sqrt()
                });
                assert!((value - (b.l() - a.l()).abs()).abs() < 0.02, "{value}");
                assert!(
                    (chroma - (b.chroma() - a.chroma()).abs()).abs() < 0.02,
                    "{chroma}"
                );
                let parts = crate::colour::delta_e_00_parts(a, b);
                let weight = |part: f64, plain: f64| (part / plain).abs();
                let s_l = weight(parts.delta_l, b.l() - a.l());
                let s_c = weight(parts.delta_c, b.chroma() - a.chroma());
                for part in [value * s_l, chroma * s_c] {
                    assert!(part < 1.03 * whole + 0.01, "{part} of {whole}");
                }
            }
        }
    }

    /// The form gives what ΔE00 itself gives for a small change in all channels.
    #[test]
    fn metric_is_delta_e_00() {
        let m = SRGB.xyz_d65_from_linear_rgb();
        let rgb = [0.6, 0.5, 0.37];
        let [g, ..] = forms(rgb, &m);
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
