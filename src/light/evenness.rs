//! Whether light and its colour are the same on the left and on the right of the outlined teeth
//! and tabs.
//!
//! Every region gives the logarithm of its light and of its red over blue. Tabs of known colour
//! count as what they lack from it; others are set against the mean of their own kind, with the
//! spread that teeth or tabs have among themselves. A weighted straight line across the photo
//! then says how much light and colour change over the row.

use crate::error::{CheckCode, LightCheck, Severity};

/// What kind of thing a region is here; each kind has a level of its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// A tab whose colour is known: its residual.
    Known,
    /// A tab of unknown colour.
    Tab,
    /// A tooth or restoration.
    Tooth,
}

/// One region.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Patch {
    /// Its kind.
    pub kind: Kind,
    /// Its place across the photo, pixels.
    pub x_px: f64,
    /// ln of its light; for a known tab ln of light over known.
    pub light_log: f64,
    /// ln of red over blue, likewise.
    pub colour_log: f64,
}

/// Natural spread of light and of colour within a kind, ln: form for known tabs; shade steps
/// for others (a step of a shade guide is about 3 L*, and 3 b*).
const fn spread(kind: Kind) -> [f64; 2] {
    match kind {
        Kind::Known => [0.025, 0.015],
        Kind::Tab => [0.12, 0.12],
        Kind::Tooth => [0.06, 0.04],
    }
}

/// Change over the row, ln, from which light is uneven, and very uneven.
const UNEVEN: f64 = 0.13;
const VERY_UNEVEN: f64 = 0.30;
/// Change of red over blue, ln, from which lights of different colour meet: 3 b*.
const MIXED: f64 = 0.08;
/// Standard uncertainties that a change has to stand out by.
const SURE: f64 = 2.5;

/// How light and colour change from the left end of the row to the right.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Trend {
    /// ln of light: change and its standard uncertainty.
    pub light: [f64; 2],
    /// ln of red over blue: change and its standard uncertainty.
    pub colour: [f64; 2],
}

/// The trend; `None` with too few regions or no width.
pub fn trend(patches: &[Patch]) -> Option<Trend> {
    let xs = patches.iter().map(|p| p.x_px);
    let (low, high) = xs.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), x| {
        (l.min(x), h.max(x))
    });
    if patches.len() < 3 || high - low < 1.0 {
        return None;
    }
    let slope = |of: fn(&Patch) -> f64, which: usize| -> [f64; 2] {
        let (mut xy, mut xx) = (0.0, 0.0);
        for kind in [Kind::Known, Kind::Tab, Kind::Tooth] {
            let sd = spread(kind).get(which).copied().unwrap_or(1.0);
            let own = || patches.iter().filter(|p| p.kind == kind);
            let n = own().count().max(1) as f64;
            let mean = |f: &dyn Fn(&Patch) -> f64| own().map(f).sum::<f64>() / n;
            let (mx, my) = (mean(&|p| p.x_px), mean(&of));
            for p in own() {
                xy += (p.x_px - mx) * (of(p) - my) / (sd * sd);
                xx += (p.x_px - mx) * (p.x_px - mx) / (sd * sd);
            }
        }
        let width = high - low;
        if xx <= 0.0 {
            return [0.0, f64::INFINITY];
        }
        [xy / xx * width, width / xx.sqrt()]
    };
    Some(Trend {
        light: slope(|p| p.light_log, 0),
        colour: slope(|p| p.colour_log, 1),
    })
}

/// What the trend means for the reading.
pub fn check_trend(trend: &Trend, checks: &mut Vec<LightCheck>) {
    let [light, light_sd] = trend.light;
    if light.abs() > UNEVEN && light.abs() > SURE * light_sd {
        let side = if light > 0.0 { "right" } else { "left" };
        checks.push(LightCheck::new(
            CheckCode::LightUneven,
            if light.abs() > VERY_UNEVEN {
                Severity::Retake
            } else {
                Severity::Care
            },
            format!(
                "The light is uneven: about {:.0} % stronger on the {side} of the row of teeth and tabs.",
                100.0 * (libm::exp(light.abs()) - 1.0)
            ),
            "Light from both sides of the lens, or hold the light further away and in the middle; \
             then take the photo again. A second card beside the teeth helps to correct the rest.",
        ));
    }
    let [colour, colour_sd] = trend.colour;
    if colour.abs() > MIXED && colour.abs() > SURE * colour_sd {
        let side = if colour > 0.0 { "right" } else { "left" };
        checks.push(LightCheck::new(
            CheckCode::LightMixed,
            Severity::Retake,
            format!(
                "Lights of different colour meet on the teeth: it is warmer on the {side}, by {:.0} %.",
                100.0 * (libm::exp(colour.abs()) - 1.0)
            ),
            "Switch off or shade one of the lights (a lamp, the window), so that one kind of \
             light is left, and take the photo again.",
        ));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn row(light: f64, colour: f64, kind: Kind, wiggle: f64) -> Vec<Patch> {
        (0..6)
            .map(|i| {
                let t = f64::from(i) / 5.0;
                let odd = if i % 2 == 0 { wiggle } else { -wiggle };
                Patch {
                    kind,
                    x_px: 100.0 + 800.0 * t,
                    light_log: light * t + odd,
                    colour_log: colour * t + odd,
                }
            })
            .collect()
    }

    fn codes(patches: &[Patch]) -> Vec<CheckCode> {
        let mut checks = Vec::new();
        check_trend(&trend(patches).expect("a row"), &mut checks);
        checks.iter().map(|c| c.code).collect()
    }

    #[test]
    fn uneven_and_mixed_light_are_told() {
        assert_eq!(
            codes(&row(0.25, 0.0, Kind::Known, 0.01)),
            [CheckCode::LightUneven]
        );
        assert_eq!(
            codes(&row(0.0, -0.2, Kind::Known, 0.01)),
            [CheckCode::LightMixed]
        );
        assert_eq!(
            codes(&row(0.3, 0.0, Kind::Tooth, 0.02)),
            [CheckCode::LightUneven]
        );
    }

    #[test]
    fn even_light_and_a_row_of_many_shades_are_left_in_peace() {
        assert!(codes(&row(0.05, 0.03, Kind::Known, 0.02)).is_empty());
        assert!(codes(&row(0.15, 0.1, Kind::Tab, 0.1)).is_empty());
        assert!(trend(&row(0.3, 0.3, Kind::Known, 0.0)[..2]).is_none());
    }
}
