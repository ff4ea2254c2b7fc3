//! The last fraction of a pixel: a found curve is moved, direction by direction, to where the
//! border is steepest nearby. The search before it steps by a few per cent of the radius.

use super::features::{Features, Model};
use super::path::closed_path;
use super::radial::{Closed, How, direction, steepness_between};

/// Distance between the places looked at, in reduced pixels.
const STEP_PX: f64 = 0.5;
/// Places to either side at most.
const MOST: usize = 12;
/// Half of the width that a border is looked for across, in reduced pixels.
const HALF_PX: f64 = 1.4;
/// A border fainter than this counts for less than a full one.
const FAINT: f32 = 0.05;
/// What a place at the far end loses against the middle one.
const FAR: f32 = 0.12;
/// Cost of neighbouring directions being moved differently, per step, squared for more.
const STIFFNESS: f32 = 0.025;

/// The curve, moved by up to some per cent of its mean radius.
pub fn refined(features: &Features, curve: &Closed, model: &Model, how: &How) -> Closed {
    let n = curve.radii().len();
    let mean = curve.radii().iter().sum::<f64>() / n.max(1) as f64;
    let side = ((0.07 * mean / STEP_PX).round() as usize).clamp(2, MOST);
    let width = 2 * side + 1;
    let centre = curve.centre();
    let mut scores = Vec::with_capacity(n * width);
    for (i, radius) in curve.radii().iter().enumerate() {
        let (s, c) = direction(i, n);
        let look = |r: f64| {
            let place = [centre[0] + r * c, centre[1] + r * s];
            model.without_highlight(features.at(place))
        };
        let steep: Vec<f32> = (0..width)
            .map(|k| {
                let r = radius + (k as f64 - side as f64) * STEP_PX;
                steepness_between(look(r - HALF_PX), look(r), look(r + HALF_PX), how)
            })
            .collect();
        let most = steep.iter().copied().fold(FAINT, f32::max);
        for (k, s) in steep.iter().enumerate() {
            let far = ((k as f64 - side as f64) / side as f64) as f32;
            scores.push(s / most - FAR * far * far);
        }
    }
    let path = closed_path(&scores, width, 3, STIFFNESS);
    let radii = curve
        .radii()
        .iter()
        .zip(path)
        .map(|(r, k)| (r + (k as f64 - side as f64) * STEP_PX).max(1.0))
        .collect();
    curve.with_radii(radii)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::photo::Reduced;

    /// A light disc on a dark red ground: a rough curve is drawn to its border.
    #[test]
    fn a_rough_circle_finds_the_border() {
        let (size, middle, radius) = (120_u32, 59.5, 31.3);
        let mut linear_rgb = Vec::new();
        for y in 0..size {
            for x in 0..size {
                let r = libm::hypot(f64::from(x) - middle, f64::from(y) - middle);
                let share = (radius - r + 0.5).clamp(0.0, 1.0) as f32;
                linear_rgb.push([0.25, 0.06, 0.05].map(|v: f32| v + (0.7 - v) * share));
            }
        }
        let features = Features::of(&Reduced {
            width: size,
            height: size,
            scale_x: 1.0,
            scale_y: 1.0,
            linear_rgb,
        })
        .expect("large enough");
        let how = How::CROWN;
        let model = Model::around(&features, [middle, middle], 15.0, &how);
        for off in [0.96, 1.04] {
            let rough = Closed::new([middle, middle], vec![radius * off; 64]);
            let fine = refined(&features, &rough, &model, &how);
            let mean = fine.radii().iter().sum::<f64>() / 64.0;
            assert!((mean - radius).abs() < 0.5, "{mean} from {off}");
            assert!(fine.radii().iter().all(|r| (r - radius).abs() < 1.1));
        }
    }
}
