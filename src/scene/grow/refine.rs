//! The last fraction of a pixel: a found curve is moved, direction by direction, to where the
//! border is steepest nearby. The search before it steps by a few per cent of the radius.

use super::features::{Features, Model};
use super::path::closed_path;
use super::radial::{Closed, Search, border_between, direction};

/// Distance between the places looked at, in reduced pixels.
const STEP_PX: f64 = 0.5;
/// Places to either side at most.
const MOST: usize = 12;
/// Half of the width that a border is looked for across, in reduced pixels.
const HALF_PX: f64 = 1.4;
/// What a place at the far end loses against the middle one.
const FAR: f32 = 0.12;
/// Cost of neighbouring directions being moved differently, per step, squared for more.
const STIFFNESS: f32 = 0.025;

/// The curve, moved by up to `share` of its radius.
pub fn refined(features: &Features, curve: &Closed, model: &Model, how: &Search) -> Closed {
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
        for k in 0..width {
            let off = k as f64 - side as f64;
            let r = radius + off * STEP_PX;
            let border = border_between(look(r - HALF_PX), look(r), look(r + HALF_PX), how);
            let far = (off / side as f64) as f32;
            scores.push(border - FAR * far * far);
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
