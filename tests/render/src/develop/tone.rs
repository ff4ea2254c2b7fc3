//! Tone curves and the encodings of the colour spaces.

use crate::spec::{Space, Tone};

/// Linear 0–1 to encoded 0–1.
pub fn encode(space: Space, v: f32) -> f32 {
    match space {
        Space::AdobeRgb => v.max(0.0).powf(256.0 / 563.0),
        _ => {
            if v <= 0.003_130_8 {
                12.92 * v.max(0.0)
            } else {
                1.055 * v.powf(1.0 / 2.4) - 0.055
            }
        }
    }
}

/// Encoded to linear, f64.
pub fn decode(space: Space, v: f64) -> f64 {
    match space {
        Space::AdobeRgb => v.powf(563.0 / 256.0),
        _ => {
            if v <= 0.04045 {
                v / 12.92
            } else {
                ((v + 0.055) / 1.055).powf(2.4)
            }
        }
    }
}

/// Curve and encoding of linear output RGB with luminance row `y`.
pub fn finish(rgb: [f32; 3], y: [f32; 3], tone: Tone, space: Space) -> [f32; 3] {
    let luma = y[0] * rgb[0] + y[1] * rgb[1] + y[2] * rgb[2];
    let saturated = |k: f32| rgb.map(|v| luma + (v - luma) * k);
    match tone {
        Tone::Tagged => rgb.map(|v| encode(space, v.clamp(0.0, 1.0))),
        Tone::Punchy => saturated(1.16).map(|v| {
            let e = encode(space, v.clamp(0.0, 1.0));
            // An S around the middle, then a shoulder.
            let s = e + 0.10
                * (std::f32::consts::TAU * (e - 0.5)).sin()
                * if e < 0.5 { 0.8 } else { 1.0 };
            s.clamp(0.0, 1.0)
        }),
        Tone::Lifted => saturated(1.06).map(|v| {
            let e = encode(space, v.clamp(0.0, 1.0));
            let lifted = e + 0.09 * (1.0 - e).powi(3) * (e * 4.0).min(1.0);
            let over = (lifted - 0.72).max(0.0);
            (lifted - 0.55 * over * over).clamp(0.0, 1.0)
        }),
        Tone::Filmic => rgb.map(|v| {
            let e = encode(space, v.clamp(0.0, 1.0));
            let s = e + 0.035 * (std::f32::consts::TAU * (e - 0.5)).sin();
            let over = (s - 0.65).max(0.0);
            (s - 0.25 * over * over).clamp(0.0, 1.0)
        }),
    }
}
