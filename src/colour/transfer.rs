//! Transfer curves: encoded value 0–1 ↔ linear light 0–1.

/// How a colour space encodes linear light.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum TransferCurve {
    /// IEC 61966-2-1 (sRGB; Display P3 uses the same curve).
    Srgb,
    /// A pure power: Adobe RGB (1998) uses 563/256.
    Gamma(f64),
    /// ROMM RGB (ISO 22028-2): power 1.8 with a linear toe of slope 16 below 1/512.
    Romm,
    /// Already linear.
    Linear,
}

impl TransferCurve {
    /// Linear light from an encoded value. Values outside 0–1 are mirrored about zero or
    /// extrapolated, so that the curve stays monotone.
    pub fn linear_from_encoded(self, v: f64) -> f64 {
        let a = v.abs();
        let y = match self {
            Self::Srgb if a <= 0.04045 => a / 12.92,
            Self::Srgb => libm::pow((a + 0.055) / 1.055, 2.4),
            Self::Gamma(g) => libm::pow(a, g),
            Self::Romm if a < 16.0 / 512.0 => a / 16.0,
            Self::Romm => libm::pow(a, 1.8),
            Self::Linear => a,
        };
        y.copysign(v)
    }

    /// Encoded value from linear light; the inverse of [`Self::linear_from_encoded`].
    pub fn encoded_from_linear(self, y: f64) -> f64 {
        let a = y.abs();
        let v = match self {
            Self::Srgb if a <= 0.003_130_8 => a * 12.92,
            Self::Srgb => 1.055 * libm::pow(a, 1.0 / 2.4) - 0.055,
            Self::Gamma(g) => libm::pow(a, 1.0 / g),
            Self::Romm if a < 1.0 / 512.0 => a * 16.0,
            Self::Romm => libm::pow(a, 1.0 / 1.8),
            Self::Linear => a,
        };
        v.copysign(y)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Codes and linear values of IEC 61966-2-1, computed with an independent script.
    #[test]
    fn srgb_codes() {
        for (code, want) in [
            (128.0, 0.215_860_5),
            (119.0, 0.184_475_0),
            (10.0, 0.003_035_3),
        ] {
            let got = TransferCurve::Srgb.linear_from_encoded(code / 255.0);
            assert!((got - want).abs() < 5e-8, "{code}: {got}");
        }
    }

    /// The linear mean of codes 100 and 200 encodes to 160.20, not to 150.
    #[test]
    fn means_are_taken_in_linear_light() {
        let c = TransferCurve::Srgb;
        let mean =
            (c.linear_from_encoded(100.0 / 255.0) + c.linear_from_encoded(200.0 / 255.0)) / 2.0;
        assert!((c.encoded_from_linear(mean) * 255.0 - 160.20).abs() < 0.005);
    }

    #[test]
    fn round_trips_and_monotone() {
        for curve in [
            TransferCurve::Srgb,
            TransferCurve::Gamma(563.0 / 256.0),
            TransferCurve::Romm,
            TransferCurve::Linear,
        ] {
            let mut last = -1.0;
            for i in 0..=1000 {
                let v = f64::from(i) / 1000.0;
                let y = curve.linear_from_encoded(v);
                assert!(y > last, "{curve:?} falls at {v}");
                last = y;
                assert!(
                    (curve.encoded_from_linear(y) - v).abs() < 2e-5,
                    "{curve:?} at {v}"
                );
            }
        }
    }
}
