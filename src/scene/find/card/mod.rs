//! The grey card: a patch of one chromaticity with straight sides, smooth, and less coloured
//! than the teeth.

pub mod patches;
pub mod quad;
pub mod strip;
mod weights;

use super::arrange::Crown;
use super::candidate::Shape;
use super::likely::logistic;
use crate::colour::order::{self, insertion_sort};
use crate::scene::grow::features::{Features, chromaticity};
use crate::scene::ring;
use patches::{BLOCK, Chroma, Patch, of_one_chroma, of_one_piece};
use weights::{CONSTANT, WEIGHTS};

/// What is known of a patch.
pub const TRAITS: usize = 19;

/// A patch that may be the card.
#[derive(Debug, Clone)]
pub struct CardGuess {
    /// Its straight-sided outline, in reduced pixels.
    pub outline: Vec<[f64; 2]>,
    /// Its neutral steps with their lightness, the lightest first, where it has three or more.
    pub steps: Vec<(f32, Vec<[f64; 2]>)>,
    /// 0–1.
    pub sure: f64,
}

/// All patches and strips of patches with what speaks for them, for judging.
pub fn guesses(features: &Features, crowns: &[Crown]) -> Vec<CardGuess> {
    let chroma = Chroma::of(features);
    let whole: Vec<Piece> = pieces(&chroma, of_one_chroma(&chroma));
    let parts: Vec<Piece> = pieces(&chroma, of_one_piece(&chroma));
    let quiet = quiet(&chroma);
    let strips = strip::strips(&parts);
    let singles = whole.iter().chain(&parts).map(|p| vec![p]);
    let joined = strips
        .iter()
        .map(|s| s.iter().filter_map(|i| parts.get(*i)).collect::<Vec<_>>());
    singles
        .chain(joined)
        .filter_map(|members| guess(features, &chroma, &members, crowns, quiet))
        .collect()
}

/// The card among the guesses: the surest, or a larger one that holds it and is nearly as sure.
pub fn card_among(guesses: &[CardGuess]) -> Option<CardGuess> {
    let top = guesses
        .iter()
        .filter(|g| g.sure > LEAST_SURE)
        .max_by(|a, b| a.sure.total_cmp(&b.sure))?;
    let mut card = guesses
        .iter()
        .filter(|g| g.sure > LEAST_SURE && g.sure > 0.5 * top.sure)
        .filter(|g| ring::contains(&g.outline, middle(&top.outline)))
        .max_by(|a, b| ring::area(&a.outline).total_cmp(&ring::area(&b.outline)))?
        .clone();
    // Its steps, where a row of patches fills the same outline: the row that fills it best.
    let area = ring::area(&card.outline);
    let filled = |g: &CardGuess| -> f64 {
        let own = g
            .steps
            .iter()
            .filter(|(_, o)| ring::contains(&card.outline, middle(o)));
        own.map(|(_, o)| ring::area(o)).sum::<f64>() / area
    };
    let best = guesses
        .iter()
        .filter(|g| g.steps.len() >= LEAST_STEPS)
        .map(|g| (filled(g), g))
        .filter(|(share, _)| (LEAST_FILLED..1.1).contains(share))
        .max_by(|a, b| a.0.total_cmp(&b.0));
    if let Some((_, row)) = best {
        card.steps.clone_from(&row.steps);
    }
    Some(card)
}

/// The guess under a tap: the smallest that is not much less sure than the surest. A card may lie
/// on a plate, and a step in a card is what is read.
pub fn card_at(guesses: &[CardGuess], at: [f64; 2]) -> Option<&CardGuess> {
    let here = || guesses.iter().filter(|g| ring::contains(&g.outline, at));
    let top = here().map(|g| g.sure).fold(0.0, f64::max);
    here()
        .filter(|g| g.sure > TAPPED && g.sure > 0.4 * top)
        .min_by(|a, b| ring::area(&a.outline).total_cmp(&ring::area(&b.outline)))
}

/// A patch that the user says is the card needs less to speak for it.
const TAPPED: f64 = 0.15;

/// Fewer patches in a row may be a shadow's edge.
const LEAST_STEPS: usize = 3;
/// Share of the card that its steps fill at least.
const LEAST_FILLED: f64 = 0.7;

/// Below this nothing is taken for the card.
const LEAST_SURE: f64 = 0.5;

/// A patch with its hull, in blocks.
pub struct Piece {
    patch: Patch,
    hull: Vec<[f64; 2]>,
    area: f64,
    /// Share of the patch's own hull that it fills.
    fill: f64,
}

/// Blocks by which a patch ends short of its border, on each side.
const SHORT_BY: f64 = 1.0;

fn pieces(chroma: &Chroma, patches: Vec<Patch>) -> Vec<Piece> {
    patches
        .into_iter()
        .filter_map(|patch| {
            let hull = quad::hull(&patch.pixels, chroma.width);
            let fill = patch.pixels.len() as f64 / ring::area(&hull).max(1.0);
            if fill < 0.6 || hull.len() < 3 {
                return None;
            }
            let hull = grown(&hull, SHORT_BY);
            let area = ring::area(&hull);
            Some(Piece {
                patch,
                hull,
                area,
                fill,
            })
        })
        .collect()
}

fn guess(
    features: &Features,
    chroma: &Chroma,
    members: &[&Piece],
    crowns: &[Crown],
    quiet: f64,
) -> Option<CardGuess> {
    let corners: Vec<[f64; 2]> = members
        .iter()
        .flat_map(|m| m.hull.iter().copied())
        .collect();
    let hull = ring::hull(&corners);
    let hull_area = ring::area(&hull);
    let pixels: usize = members.iter().map(|m| m.patch.pixels.len()).sum();
    let filled: f64 = members.iter().map(|m| m.area * m.fill).sum();
    let fill = filled / hull_area.max(1.0);
    let few = quad::few_sided(&hull, 6);
    let sides = few.len();
    if fill < 0.7 || sides > 6 || pixels < 30 {
        return None;
    }
    let full = |o: &[[f64; 2]]| -> Vec<[f64; 2]> {
        // Blocks to pixels.
        let (k, half) = (BLOCK as f64, (BLOCK as f64 - 1.0) / 2.0);
        o.iter().map(|p| p.map(|v| k * v + half)).collect()
    };
    let rough = full(&few);
    let (outline, borders) = quad::to_borders(features, &rough);
    let shape = Shape::of(&outline)?;
    let lies_in = |p: [f64; 2]| ring::contains(&outline, p);
    // A crown is no card.
    let on_crown = crowns
        .iter()
        .filter(|c| lies_in(middle(&c.outline)))
        .count();
    let under_crown = crowns
        .iter()
        .any(|c| c.sure > 0.8 && ring::contains(&c.outline, middle(&outline)));
    let [tu, tv] = teeth_chroma(crowns);
    let (mut texture, mut light, mut spread, mut count) = (0.0, 0.0, 0.0, 0.0);
    let (mut u, mut v) = (0.0, 0.0);
    for member in members {
        let patch = &member.patch;
        for i in patch.pixels.iter().step_by(3) {
            let (x, y) = (*i as usize % chroma.width, *i as usize / chroma.width);
            let (a, b, c) = (chroma.at(x, y), chroma.at(x + 1, y), chroma.at(x, y + 1));
            let change = (a[0] - b[0]).abs().min(0.06) + (a[0] - c[0]).abs().min(0.06);
            texture += f64::from(change / a[0].max(0.1));
            light += f64::from(a[0]);
            u += f64::from(a[1]);
            v += f64::from(a[2]);
            spread += f64::from(libm::hypotf(a[1] - patch.chroma[0], a[2] - patch.chroma[1]));
            count += 1.0;
        }
    }
    let count = f64::max(count, 1.0);
    let longest = features.longest_side();
    let (du, dv) = (u / count - tu, v / count - tv);
    let traits = [
        fill,
        sides as f64,
        shape.area / ring::area(&rough).max(1.0),
        libm::log((texture / count).max(1e-4) / quiet),
        spread / count,
        light / count,
        du,
        dv,
        libm::log(shape.area / (longest * longest)),
        squareness(&outline),
        holder_like(&outline, crowns),
        on_crown as f64,
        f64::from(u8::from(under_crown)),
        members.len().min(4) as f64,
        borders.support,
        borders.weakest,
        borders.bent,
        borders.step,
        borders.frame,
    ];
    let mut steps: Vec<(f32, Vec<[f64; 2]>)> = members
        .iter()
        .filter(|_| members.len() >= LEAST_STEPS)
        .map(|m| (m.patch.lightness, full(&quad::few_sided(&m.hull, 5))))
        .collect();
    insertion_sort(&mut steps, |a, b| a.0 > b.0);
    Some(CardGuess {
        outline,
        steps,
        sure: logistic(traits, &WEIGHTS, CONSTANT),
    })
}

/// How much lightness changes from place to place where the photo is quiet: its noise.
fn quiet(chroma: &Chroma) -> f64 {
    let mut all = Vec::new();
    for y in (1..chroma.height).step_by(3) {
        for x in (1..chroma.width).step_by(2) {
            let (a, b, c) = (chroma.at(x, y), chroma.at(x - 1, y), chroma.at(x, y - 1));
            if a[0] > 0.1 {
                all.push(((a[0] - b[0]).abs() + (a[0] - c[0]).abs()) / a[0]);
            }
        }
    }
    f64::from(order::quantile(&mut all, 0.25).unwrap_or(0.01)).max(0.004)
}

/// A hull with its sides moved outward by so much: patches end short of their borders.
fn grown(hull: &[[f64; 2]], by: f64) -> Vec<[f64; 2]> {
    const AROUND: [[f64; 2]; 8] = [
        [1.0, 0.0],
        [0.7, 0.7],
        [0.0, 1.0],
        [-0.7, 0.7],
        [-1.0, 0.0],
        [-0.7, -0.7],
        [0.0, -1.0],
        [0.7, -0.7],
    ];
    let moved: Vec<[f64; 2]> = hull
        .iter()
        .flat_map(|p| AROUND.map(|[x, y]| [p[0] + by * x, p[1] + by * y]))
        .collect();
    ring::hull(&moved)
}

/// Chromaticity of the crowns, as of [`Chroma`]: median over them, by sureness; usual values when
/// there are none.
fn teeth_chroma(crowns: &[Crown]) -> [f64; 2] {
    let median = |k: usize| -> Option<f64> {
        let mut values: Vec<f32> = crowns
            .iter()
            .filter(|c| c.sure > 0.6)
            .filter_map(|c| chromaticity(c.colour).get(k).copied())
            .collect();
        order::median(&mut values).map(f64::from)
    };
    [median(0).unwrap_or(0.13), median(1).unwrap_or(0.25)]
}

/// How near the corners are to right angles: mean of |cos|, 0 for a rectangle.
fn squareness(outline: &[[f64; 2]]) -> f64 {
    let n = outline.len();
    let at = |i: usize| outline.get(i % n).copied().unwrap_or_default();
    let sum: f64 = (0..n)
        .map(|i| {
            let (a, b, c) = (at(i), at(i + 1), at(i + 2));
            let (ux, uy, vx, vy) = (a[0] - b[0], a[1] - b[1], c[0] - b[0], c[1] - b[1]);
            let lengths = libm::hypot(ux, uy) * libm::hypot(vx, vy);
            ((ux * vx + uy * vy) / lengths.max(1e-9)).abs()
        })
        .sum();
    sum / n.max(1) as f64
}

/// 1 when a crown's neck points into the outline from near by: then it is the holder.
fn holder_like(outline: &[[f64; 2]], crowns: &[Crown]) -> f64 {
    let hit = crowns.iter().any(|c| {
        let (dx, dy) = (c.cervical[0] - c.incisal[0], c.cervical[1] - c.incisal[1]);
        (2..=8).any(|k| {
            let t = f64::from(k) * 0.1;
            ring::contains(outline, [c.cervical[0] + t * dx, c.cervical[1] + t * dy])
        })
    });
    f64::from(u8::from(hit))
}

fn middle(outline: &[[f64; 2]]) -> [f64; 2] {
    let n = outline.len().max(1) as f64;
    outline
        .iter()
        .fold([0.0, 0.0], |m, p| [m[0] + p[0] / n, m[1] + p[1] / n])
}
