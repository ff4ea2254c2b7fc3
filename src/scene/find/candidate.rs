//! One guess: a closed curve, and what speaks for it being a crown.

use super::seeds::Seed;
use crate::colour::order::quantile;
use crate::colour::root::hypot;
use crate::scene::grow::features::{Features, Model};
use crate::scene::grow::radial::{Closed, Fan, How, best_curve, border_between, direction};
use crate::scene::ring;

/// What is known of a candidate; see [`Candidate::traits`].
pub const TRAITS: usize = 16;

/// A guess.
#[derive(Debug, Clone)]
pub struct Candidate {
    /// Its outline.
    pub curve: Closed,
    /// The colour inside.
    pub model: Model,
    /// Numbers that speak for or against it.
    pub traits: [f32; TRAITS],
    /// How likely it is a crown or tab, 0–1.
    pub likely: f32,
}

impl Candidate {
    /// From a drawn outline, as seen from its middle.
    pub fn drawn(features: &Features, outline: &[[f64; 2]]) -> Option<Self> {
        let lie = super::axis::Form::of(outline)?.lie(None)?;
        let radii = super::axis::about(outline, lie.middle, Fan::QUICK.directions);
        let curve = Closed::new(lie.middle, radii);
        let model = Model::within(features, lie.middle, &curve.shrunk(0.8), &How::CROWN)?;
        Some(Self {
            curve,
            model,
            traits: [0.0; TRAITS],
            likely: 1.0,
        })
    }
}

/// The colour around a seed, for searching from it.
pub fn colour_at(features: &Features, seed: &Seed) -> Model {
    Model::around(features, seed.at, 0.55 * seed.radius, &How::CROWN)
}

/// Searches around a seed, its size and colour being roughly known.
pub fn around(features: &Features, seed: &Seed, colour: &Model, reach: f64) -> Option<Candidate> {
    let how = How::CROWN;
    let limits = [0.45 * seed.radius, reach * seed.radius];
    let first = best_curve(features, seed.at, colour, limits, &how, &Fan::QUICK);
    // Once more, from the middle of what was found and with the colour inside it.
    let middle = first.middle();
    let apart = hypot(middle[0] - seed.at[0], middle[1] - seed.at[1]);
    let centre = if first.contains(middle) && apart < 1.2 * seed.radius {
        middle
    } else {
        seed.at
    };
    let model = Model::within(features, first.centre(), &first.shrunk(0.75), &how)?;
    let curve = best_curve(features, centre, &model, limits, &how, &Fan::QUICK);
    let traits = traits(features, &curve, &model, seed)?;
    Some(Candidate {
        curve,
        model,
        traits,
        likely: 0.0,
    })
}

/// Mean, over the directions, of what is seen just inside and just outside.
fn traits(
    features: &Features,
    curve: &Closed,
    model: &Model,
    seed: &Seed,
) -> Option<[f32; TRAITS]> {
    let n = curve.radii().len();
    let centre = curve.centre();
    let mut borders = Vec::with_capacity(n);
    let (mut dl, mut da, mut clear, mut frame, mut alike) = (0.0, 0.0, 0.0, 0.0, 0.0);
    let mut texture = 0.0;
    for (i, r) in curve.radii().iter().enumerate() {
        let (s, c) = direction(i, n);
        let place = |r: f64| [centre[0] + r * c, centre[1] + r * s];
        let look = |r: f64| model.without_highlight(features.at(place(r)));
        let half = 1.2 + 0.02 * r;
        if features.is_inside(place(r + half)) {
            borders.push(border_between(
                look(r - half),
                look(*r),
                look(r + half),
                &How::CROWN,
            ));
        } else {
            frame += 1.0;
        }
        let (inner, outer) = (look(0.85 * r), look(1.1 * r + 2.0));
        let (l, a) = (inner[0] - outer[0], outer[1] - inner[1]);
        dl += l.clamp(-0.5, 0.5);
        da += a.clamp(-0.5, 0.5);
        clear += if l > 0.05 || a > 0.06 { 1.0 } else { 0.0 };
        let mut before: Option<[f32; 3]> = None;
        for k in 1..=6 {
            let here = look(r * f64::from(k) / 7.0);
            alike += if model.distance(here) < 2.0 {
                1.0 / 6.0
            } else {
                0.0
            };
            if let Some(b) = before {
                texture += (here[0] - b[0]).abs() / 5.0;
            }
            before = Some(here);
        }
    }
    let count = n.max(1) as f32;
    let weakest = quantile(&mut borders, 0.2).unwrap_or(0.0);
    let mean = borders.iter().sum::<f32>() / borders.len().max(1) as f32;
    let shape = Shape::of(&curve.outline())?;
    let [l, a, b] = model.middle();
    Some([
        mean,
        weakest,
        dl / count,
        da / count,
        clear / count,
        frame / count,
        alike / count,
        shape.solidity as f32,
        shape.slenderness as f32,
        seed.steadiness as f32,
        (shape.mean_radius / seed.radius) as f32,
        l,
        a,
        b,
        texture / count,
        libm::log(shape.area / (features.longest_side() * features.longest_side())) as f32,
    ])
}

/// The form of a closed outline.
#[derive(Debug, Clone, Copy)]
pub struct Shape {
    /// Enclosed area.
    pub area: f64,
    /// Its share of the convex hull's.
    pub solidity: f64,
    /// Width ÷ length of the ellipse with the same moments.
    pub slenderness: f64,
    /// √(area/π).
    pub mean_radius: f64,
}

impl Shape {
    /// Measures an outline.
    pub fn of(outline: &[[f64; 2]]) -> Option<Self> {
        let area = ring::area(outline);
        if area < 4.0 {
            return None;
        }
        let hull = ring::area(&ring::hull(outline)).max(area);
        let n = outline.len() as f64;
        let mean = outline
            .iter()
            .fold([0.0, 0.0], |m, p| [m[0] + p[0] / n, m[1] + p[1] / n]);
        let (mut xx, mut xy, mut yy) = (0.0, 0.0, 0.0);
        for p in outline {
            let (x, y) = (p[0] - mean[0], p[1] - mean[1]);
            xx += x * x;
            xy += x * y;
            yy += y * y;
        }
        let root = hypot(xx - yy, 2.0 * xy);
        let (large, small) = (xx + yy + root, (xx + yy - root).max(0.0));
        Some(Self {
            area,
            solidity: area / hull,
            slenderness: (small / large.max(1e-9)).sqrt(),
            mean_radius: (area / std::f64::consts::PI).sqrt(),
        })
    }
}
