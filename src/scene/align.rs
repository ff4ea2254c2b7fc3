//! Laying a cross-polarised photo over its plain one.
//!
//! A similarity transform (shift up to 5 %, turn up to 5°, scale up to 5 %) is found by the
//! correlation of lightness (highlights capped, as only the plain photo has them) and redness:
//! exhaustively on a small copy, then by refinement on larger ones.

use super::grow::features::{Feature, Features};
use crate::photo::Reduced;

/// 2×3 matrix, row-major: plain pixel (x, y, 1) → cross-polarised pixel.
pub type Transform = [[f64; 3]; 2];

/// Correlation under which the two photos do not show the same. On rendered pairs: 0.85 and more
/// for one mouth, up to 0.65 for two.
const LEAST_CORRELATION: f64 = 0.75;
/// Sample points of the coarse and of the fine search.
const COARSE_SAMPLES: usize = 900;
const FINE_SAMPLES: usize = 6_000;

/// A similarity about the middle of the plain photo, lengths in plain widths.
#[derive(Debug, Clone, Copy)]
struct Similarity {
    angle_rad: f64,
    log_scale: f64,
    shift_x: f64,
    shift_y: f64,
}

/// Finds the transform, or `None` when nothing fits.
pub fn align(plain: &Reduced, polarised: &Reduced) -> Option<Transform> {
    let from = Features::of(plain).ok()?;
    let to = Features::of(polarised).ok()?;
    let pair = Overlay::new(plain, &from, &to);

    let coarse = pair.samples(COARSE_SAMPLES);
    let mut best = Similarity {
        angle_rad: 0.0,
        log_scale: 0.0,
        shift_x: 0.0,
        shift_y: 0.0,
    };
    let mut best_score = f64::NEG_INFINITY;
    for angle in -3..=3 {
        for scale in -2..=2 {
            for x in -6..=6 {
                for y in -6..=6 {
                    let try_this = Similarity {
                        angle_rad: f64::from(angle) * 1.8_f64.to_radians(),
                        log_scale: f64::from(scale) * 0.026,
                        shift_x: f64::from(x) * 0.01,
                        shift_y: f64::from(y) * 0.01,
                    };
                    let score = pair.correlation(&coarse, &try_this);
                    if score > best_score {
                        (best, best_score) = (try_this, score);
                    }
                }
            }
        }
    }
    let fine = pair.samples(FINE_SAMPLES);
    let best = pair.refine(&fine, best);
    if pair.correlation(&fine, &best) < LEAST_CORRELATION {
        return None;
    }
    Some(pair.in_photo_pixels(plain, polarised, &best))
}

struct Overlay<'a> {
    from: &'a Features,
    to: &'a Features,
    width: f64,
    height: f64,
    cap: f32,
}

struct SamplePoint {
    at: [f64; 2],
    feature: [f32; 2],
}

impl<'a> Overlay<'a> {
    fn new(plain: &Reduced, from: &'a Features, to: &'a Features) -> Self {
        Self {
            from,
            to,
            width: f64::from(plain.width),
            height: f64::from(plain.height),
            // Relative to the 98th percentile that the features are scaled by.
            cap: 0.85,
        }
    }

    fn seen(&self, [l, a, _]: Feature) -> [f32; 2] {
        [l.min(self.cap), a]
    }

    /// Points on a grid, away from the frame so that they stay inside after the transform.
    fn samples(&self, count: usize) -> Vec<SamplePoint> {
        let share = 0.84;
        let step = (self.width * self.height * share * share / count as f64)
            .sqrt()
            .max(1.0);
        let mut out = Vec::with_capacity(count + 64);
        let mut y = self.height * (1.0 - share) / 2.0;
        while y < self.height * (1.0 + share) / 2.0 {
            let mut x = self.width * (1.0 - share) / 2.0;
            while x < self.width * (1.0 + share) / 2.0 {
                out.push(SamplePoint {
                    at: [x, y],
                    feature: self.seen(self.from.at([x, y])),
                });
                x += step;
            }
            y += step;
        }
        out
    }

    fn map(&self, [x, y]: [f64; 2], s: &Similarity) -> [f64; 2] {
        let (cx, cy) = (self.width / 2.0, self.height / 2.0);
        let k = libm::exp(s.log_scale);
        let (sin, cos) = (libm::sin(s.angle_rad) * k, libm::cos(s.angle_rad) * k);
        let (dx, dy) = (x - cx, y - cy);
        [
            cx + cos * dx - sin * dy + s.shift_x * self.width,
            cy + sin * dx + cos * dy + s.shift_y * self.width,
        ]
    }

    /// Mean of the correlations of lightness and redness, −1 to 1.
    fn correlation(&self, samples: &[SamplePoint], s: &Similarity) -> f64 {
        let mut sums = [[0.0_f64; 5]; 2];
        for p in samples {
            let other = self.seen(self.to.at(self.map(p.at, s)));
            for ((sum, a), b) in sums.iter_mut().zip(p.feature).zip(other) {
                let (a, b) = (f64::from(a), f64::from(b));
                for (total, v) in sum.iter_mut().zip([a, b, a * a, b * b, a * b]) {
                    *total += v;
                }
            }
        }
        let n = samples.len().max(1) as f64;
        let each = sums.map(|[a, b, aa, bb, ab]| {
            let (va, vb) = (aa / n - a * a / n / n, bb / n - b * b / n / n);
            if va < 1e-9 || vb < 1e-9 {
                0.0
            } else {
                (ab / n - a * b / n / n) / (va * vb).sqrt()
            }
        });
        (each[0] + each[1]) / 2.0
    }

    /// Steps along each parameter, halved when none helps.
    fn refine(&self, samples: &[SamplePoint], start: Similarity) -> Similarity {
        let mut best = start;
        let mut score = self.correlation(samples, &best);
        let mut step = 0.006;
        while step > 2e-5 {
            let mut improved = false;
            for parameter in 0..4 {
                for sign in [1.0, -1.0] {
                    let mut next = best;
                    match parameter {
                        0 => next.angle_rad += 2.0 * sign * step,
                        1 => next.log_scale += 2.0 * sign * step,
                        2 => next.shift_x += sign * step,
                        _ => next.shift_y += sign * step,
                    }
                    let s = self.correlation(samples, &next);
                    if s > score {
                        (best, score, improved) = (next, s, true);
                    }
                }
            }
            if !improved {
                step /= 2.0;
            }
        }
        best
    }

    fn in_photo_pixels(&self, plain: &Reduced, polarised: &Reduced, s: &Similarity) -> Transform {
        // Three corners of the plain photo, in both photos' own pixels, give the matrix.
        let carried = |x: f64, y: f64| {
            polarised.photo_from_reduced(self.map(plain.reduced_from_photo([x, y]), s))
        };
        let far = 1000.0;
        let (o, x, y) = (carried(0.0, 0.0), carried(far, 0.0), carried(0.0, far));
        [
            [(x[0] - o[0]) / far, (y[0] - o[0]) / far, o[0]],
            [(x[1] - o[1]) / far, (y[1] - o[1]) / far, o[1]],
        ]
    }
}
