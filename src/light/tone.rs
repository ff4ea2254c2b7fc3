//! A tone curve on top of the file's own transfer curve, from neutral steps of known value.
//!
//! A camera or phone that bends tones sends each channel through one curve after the balance.
//! Steps of known value show it: in logarithms, the curve through (measured, known) is drawn as
//! a monotone cubic (slopes by the harmonic mean, F. N. Fritsch and J. Butland, SIAM J. Sci.
//! Stat. Comput. 5 (1984) 300–304) and prolonged straight beyond the outer steps.

use crate::colour::order::insertion_sort;

/// Steps that a curve needs; two could not tell a curve from a shine on one of them.
const MIN_STEPS: usize = 3;
/// Natural logarithm of linear light: departures of all steps below this are paper and noise,
/// and no curve is drawn.
const STRAIGHT: f64 = 0.03;
/// Slopes beyond the outer steps.
const OUTER: [f64; 2] = [0.6, 1.5];
/// Steps closer together than this are taken for one.
const APART: f64 = 0.05;

/// The curve, or none.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ToneCurve {
    /// Measured and known level (natural logarithms) and slope, in rising order.
    knots: Vec<[f64; 3]>,
}

impl ToneCurve {
    /// From balanced and known luminance of each step. Straight when the steps leave nothing to
    /// mend, when there are too few, or when they do not rise together.
    pub fn from_steps(steps: &[(f64, f64)]) -> Self {
        let mut points: Vec<[f64; 2]> = steps
            .iter()
            .filter(|(seen, known)| *seen > 1e-5 && *known > 1e-5)
            .map(|(seen, known)| [libm::log(*seen), libm::log(*known)])
            .collect();
        insertion_sort(&mut points, |a, b| a[0] < b[0]);
        points.dedup_by(|b, a| b[0] - a[0] < APART);
        let bent = points.iter().any(|p| (p[1] - p[0]).abs() > STRAIGHT);
        let rising = points
            .windows(2)
            .all(|w| matches!(w, [a, b] if b[1] > a[1]));
        if points.len() < MIN_STEPS || !bent || !rising {
            return Self::default();
        }
        let chords: Vec<f64> = points
            .windows(2)
            .filter_map(|w| match w {
                [a, b] => Some((b[1] - a[1]) / (b[0] - a[0])),
                _ => None,
            })
            .collect();
        let last = points.len() - 1;
        let knots = points
            .iter()
            .enumerate()
            .map(|(i, p)| {
                let before = i.checked_sub(1).and_then(|j| chords.get(j)).copied();
                let slope = match (before, chords.get(i).copied()) {
                    (Some(a), Some(b)) => 2.0 * a * b / (a + b),
                    (Some(a), None) | (None, Some(a)) => a,
                    (None, None) => 1.0,
                };
                // Where light rolls off, the last chord is steep; further out it would run away.
                let outer = i == 0 || i == last;
                let slope = if outer {
                    slope.clamp(OUTER[0], OUTER[1])
                } else {
                    slope
                };
                [p[0], p[1], slope]
            })
            .collect();
        Self { knots }
    }

    /// Whether there is anything to undo.
    pub const fn is_straight(&self) -> bool {
        self.knots.is_empty()
    }

    /// The light that a balanced level stands for.
    pub fn undo(&self, level: f64) -> f64 {
        let (Some(first), Some(last)) = (self.knots.first(), self.knots.last()) else {
            return level;
        };
        if level <= 1e-6 {
            return level;
        }
        let x = libm::log(level);
        let straight = |k: &[f64; 3]| k[1] + k[2] * (x - k[0]);
        let y = if x <= first[0] {
            straight(first)
        } else if x >= last[0] {
            straight(last)
        } else {
            self.knots
                .windows(2)
                .find_map(|w| match w {
                    [a, b] if x <= b[0] => Some(between(a, b, x)),
                    _ => None,
                })
                .unwrap_or(x)
        };
        libm::exp(y)
    }
}

/// The cubic with the given ends and slopes.
fn between(a: &[f64; 3], b: &[f64; 3], x: f64) -> f64 {
    let width = b[0] - a[0];
    let t = (x - a[0]) / width;
    let s = 1.0 - t;
    a[1] * (1.0 + 2.0 * t) * s * s + width * a[2] * t * s * s + b[1] * (3.0 - 2.0 * t) * t * t
        - width * b[2] * t * t * s
}

#[cfg(test)]
mod tests {
    use super::*;

    const LEVELS: [f64; 5] = [0.06, 0.18, 0.4, 0.6, 0.76];

    /// An S-shaped bend in the logarithm, as picture styles have.
    fn bent(level: f64) -> f64 {
        level * (1.0 + 0.15 * libm::sin(3.0 * level) - 0.05 / (level + 0.2))
    }

    #[test]
    fn undoes_a_bend_and_rises_everywhere() {
        let steps: Vec<_> = LEVELS.iter().map(|l| (bent(*l), *l)).collect();
        let curve = ToneCurve::from_steps(&steps);
        assert!(!curve.is_straight());
        let mut before = 0.0;
        for i in 1..=100 {
            let level = f64::from(i) * 0.01;
            let back = curve.undo(bent(level));
            assert!(back > before, "falls at {level}");
            before = back;
            if (0.06..=0.76).contains(&level) {
                assert!((back / level - 1.0).abs() < 0.02, "{level}: {back}");
            }
        }
    }

    /// Beyond the steps the curve goes on straight, no steeper and no flatter than curves of cameras.
    #[test]
    fn goes_on_within_bounds_beyond_the_steps() {
        // In the logarithm: flat at the dark end, steep at the light one.
        let steps = [
            (0.05, 0.1),
            (0.1, 0.11),
            (0.3, 0.3),
            (0.5, 0.45),
            (0.55, 0.8),
        ];
        let curve = ToneCurve::from_steps(&steps);
        assert!(!curve.is_straight());
        let slope = |from: f64, to: f64| {
            libm::log(curve.undo(to) / curve.undo(from)) / libm::log(to / from)
        };
        assert!((slope(0.01, 0.04) - OUTER[0]).abs() < 1e-9);
        assert!((slope(0.6, 0.9) - OUTER[1]).abs() < 1e-9);
        // Within, it goes through the steps as they are.
        for (level, known) in steps {
            assert!((curve.undo(level) / known - 1.0).abs() < 1e-9);
        }
    }

    #[test]
    fn leaves_good_steps_few_steps_and_nonsense_alone() {
        let good: Vec<_> = LEVELS.iter().map(|l| (l * 1.01, *l)).collect();
        let falling: Vec<_> = LEVELS.iter().map(|l| (*l, 0.8 - l)).collect();
        for steps in [&good[..], &[(0.1, 0.2), (0.5, 0.4)], &falling, &[]] {
            let curve = ToneCurve::from_steps(steps);
            assert!(curve.is_straight());
            assert_eq!(curve.undo(0.3), 0.3);
        }
    }
}
