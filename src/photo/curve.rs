//! ICC tone curves, evaluated in f64 (ICC.1:2022 10.6 curveType, 10.18 parametricCurveType).

use moxcms::ToneReprCurve;

/// Linear light from an encoded value 0–1. `None` for a curve that is no curve.
pub fn evaluate(curve: &ToneReprCurve, v: f64) -> Option<f64> {
    match curve {
        ToneReprCurve::Lut(samples) => sampled(samples, v),
        ToneReprCurve::Parametric(p) => parametric(p, v),
    }
}

/// No samples: identity. One: a gamma, in 8.8 fixed point. More: linear in between.
fn sampled(samples: &[u16], v: f64) -> Option<f64> {
    match samples {
        [] => Some(v),
        [gamma] => Some(libm::pow(v.max(0.0), f64::from(*gamma) / 256.0)),
        _ => {
            let at = v.clamp(0.0, 1.0) * (samples.len() - 1) as f64;
            let below = (at as usize).min(samples.len() - 2);
            let share = at - below as f64;
            let (a, b) = (
                f64::from(*samples.get(below)?),
                f64::from(*samples.get(below + 1)?),
            );
            Some((a + (b - a) * share) / 65_535.0)
        }
    }
}

/// The five function types, told apart by the number of parameters.
fn parametric(p: &[f32], x: f64) -> Option<f64> {
    let p: Vec<f64> = p.iter().copied().map(f64::from).collect();
    // Y = (aX + b)^g + e for X ≥ d, else cX + f.
    let (g, a, b, c, d, e, f) = match *p.as_slice() {
        [g] => (g, 1.0, 0.0, 0.0, f64::NEG_INFINITY, 0.0, 0.0),
        [g, a, b] => (g, a, b, 0.0, -b / a, 0.0, 0.0),
        [g, a, b, c] => (g, a, b, 0.0, -b / a, c, c),
        [g, a, b, c, d] => (g, a, b, c, d, 0.0, 0.0),
        [g, a, b, c, d, e, f] => (g, a, b, c, d, e, f),
        _ => return None,
    };
    Some(if x >= d {
        libm::pow((a * x + b).max(0.0), g) + e
    } else {
        c * x + f
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::colour::TransferCurve;

    /// The sRGB curve as profiles carry it (type 3), against IEC 61966-2-1.
    #[test]
    fn parametric_srgb() {
        let curve =
            ToneReprCurve::Parametric(vec![2.4, 1.0 / 1.055, 0.055 / 1.055, 1.0 / 12.92, 0.04045]);
        for i in 0..=100 {
            let v = f64::from(i) / 100.0;
            let want = TransferCurve::Srgb.linear_from_encoded(v);
            assert!(
                (evaluate(&curve, v).unwrap_or(9.0) - want).abs() < 1e-6,
                "{v}"
            );
        }
    }

    #[test]
    fn sampled_and_gamma() {
        let curve = ToneReprCurve::Lut(vec![0, 16_384, 65_535]);
        assert!((evaluate(&curve, 0.25).unwrap_or(9.0) - 0.125).abs() < 1e-4);
        assert!((evaluate(&curve, 1.0).unwrap_or(9.0) - 1.0).abs() < 1e-12);
        let gamma = ToneReprCurve::Lut(vec![(1.8 * 256.0) as u16]);
        assert!(
            (evaluate(&gamma, 0.5).unwrap_or(9.0) - libm::pow(0.5, 460.0 / 256.0)).abs() < 1e-12
        );
        assert_eq!(evaluate(&ToneReprCurve::Lut(vec![]), 0.3), Some(0.3));
        assert_eq!(
            evaluate(&ToneReprCurve::Parametric(vec![1.0, 2.0]), 0.3),
            None
        );
    }
}
