//! CIEDE2000 colour difference (ISO/CIE 11664-6, CIE 142:2001) and its parts.
//!
//! Implemented from Sharma, Wu & Dalal, "The CIEDE2000 color-difference formula:
//! implementation notes, supplementary test data, and mathematical observations",
//! Color Res. Appl. 30 (2005) 21–30; tested on all 34 of its pairs.

use super::lab::Lab;

/// The signed parts of a CIEDE2000 difference, `second − first`, each already divided by its
/// weight, so that ΔE00² = ΔL² + ΔC² + ΔH² + (rotation term).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DeltaE00Parts {
    /// The whole difference ΔE00 with kL = kC = kH = 1, ≥ 0.
    pub delta_e_00: f64,
    /// ΔL′ ÷ SL: positive when the second colour is lighter.
    pub delta_l: f64,
    /// ΔC′ ÷ SC: positive when the second colour has more chroma.
    pub delta_c: f64,
    /// ΔH′ ÷ SH: positive when the second colour's hue angle is larger (for tooth colours:
    /// yellower, less red).
    pub delta_h: f64,
}

/// ΔE00 with kL = kC = kH = 1.
pub fn delta_e_00(first: Lab, second: Lab) -> f64 {
    delta_e_00_parts(first, second).delta_e_00
}

/// ΔE00 and its signed parts with kL = kC = kH = 1.
pub fn delta_e_00_parts(first: Lab, second: Lab) -> DeltaE00Parts {
    weighted(first, second, 1.0)
}

/// ΔE00 with kL = 2, kC = kH = 1, which halves the weight of lightness. Never compare this
/// number with the thresholds of the 1:1:1 metric.
pub fn delta_e_00_kl2(first: Lab, second: Lab) -> f64 {
    weighted(first, second, 2.0).delta_e_00
}

/// 25⁷.
const POW25_7: f64 = 6_103_515_625.0;

fn pow7(x: f64) -> f64 {
    let x2 = x * x;
    x2 * x2 * x2 * x
}

fn weighted(first: Lab, second: Lab, k_l: f64) -> DeltaE00Parts {
    let c_mean_7 = pow7((first.chroma() + second.chroma()) / 2.0);
    let g = 0.5 * (1.0 - (c_mean_7 / (c_mean_7 + POW25_7)).sqrt());
    let p1 = Lab::new(first.l(), (1.0 + g) * first.a(), first.b());
    let p2 = Lab::new(second.l(), (1.0 + g) * second.a(), second.b());
    let (c1, c2) = (p1.chroma(), p2.chroma());
    let (h1, h2) = (p1.hue_deg(), p2.hue_deg());

    let d_l = p2.l() - p1.l();
    let d_c = c2 - c1;
    let both_chromatic = c1 * c2 != 0.0;
    let d_hue_deg = if !both_chromatic {
        0.0
    } else {
        match h2 - h1 {
            d if d > 180.0 => d - 360.0,
            d if d < -180.0 => d + 360.0,
            d => d,
        }
    };
    let sin_deg = |deg: f64| libm::sin(deg.to_radians());
    let cos_deg = |deg: f64| libm::cos(deg.to_radians());
    let d_h = 2.0 * (c1 * c2).sqrt() * sin_deg(d_hue_deg / 2.0);

    let l_mean = (p1.l() + p2.l()) / 2.0;
    let c_mean = (c1 + c2) / 2.0;
    let h_mean = if !both_chromatic {
        h1 + h2
    } else if (h1 - h2).abs() <= 180.0 {
        (h1 + h2) / 2.0
    } else if h1 + h2 < 360.0 {
        (h1 + h2 + 360.0) / 2.0
    } else {
        (h1 + h2 - 360.0) / 2.0
    };

    let t = 1.0 - 0.17 * cos_deg(h_mean - 30.0)
        + 0.24 * cos_deg(2.0 * h_mean)
        + 0.32 * cos_deg(3.0 * h_mean + 6.0)
        - 0.20 * cos_deg(4.0 * h_mean - 63.0);
    let away = (h_mean - 275.0) / 25.0;
    let d_theta = 30.0 * libm::exp(-away * away);
    let c_mean_7 = pow7(c_mean);
    let r_c = 2.0 * (c_mean_7 / (c_mean_7 + POW25_7)).sqrt();
    let l_50 = (l_mean - 50.0) * (l_mean - 50.0);
    let s_l = 1.0 + 0.015 * l_50 / (20.0 + l_50).sqrt();
    let s_c = 1.0 + 0.045 * c_mean;
    let s_h = 1.0 + 0.015 * c_mean * t;
    let r_t = -sin_deg(2.0 * d_theta) * r_c;

    let delta_l = d_l / (k_l * s_l);
    let delta_c = d_c / s_c;
    let delta_h = d_h / s_h;
    let squared =
        delta_l * delta_l + delta_c * delta_c + delta_h * delta_h + r_t * delta_c * delta_h;
    DeltaE00Parts {
        delta_e_00: squared.max(0.0).sqrt(),
        delta_l,
        delta_c,
        delta_h,
    }
}
