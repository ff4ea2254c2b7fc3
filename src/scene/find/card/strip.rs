//! Patches that lie in a row and fill one straight-sided outline: the steps of a card, or a card
//! half in shadow.

use super::Piece;
use crate::colour::order::insertion_sort;
use crate::colour::root::hypot;
use crate::scene::ring;

/// Patches joined at most.
const MOST: usize = 8;
/// Share of the common outline that the patches fill at least.
const FILL: f64 = 0.74;
/// One step may be missing between two: a dark one drowns in noise. In roots of their area.
const GAP: f64 = 0.8;
/// Their sizes differ by this factor at most.
const UNEVEN: f64 = 3.5;
/// Their chromaticities differ by this at most: a tone curve bends the colour of the lightest.
const APART: f32 = 0.5;

/// Groups of two and more, as places in `parts`.
pub fn strips(parts: &[Piece]) -> Vec<Vec<usize>> {
    // Every pair is looked at once: whether they go together and, if so, whether they are near.
    let pairs: Vec<Vec<Option<bool>>> = parts
        .iter()
        .map(|p| parts.iter().map(|m| paired(p, m)).collect())
        .collect();
    let mut out: Vec<Vec<usize>> = Vec::new();
    for start in 0..parts.len() {
        let mut group = vec![start];
        while group.len() < MOST {
            let next = (0..parts.len())
                .filter(|i| !group.contains(i))
                .filter_map(|i| Some((joined(parts, &group, i, pairs.get(i)?)?, i)))
                .max_by(|a, b| a.0.total_cmp(&b.0));
            let Some((_, i)) = next else { break };
            group.push(i);
            let mut sorted = group.clone();
            insertion_sort(&mut sorted, |a, b| a < b);
            if !out.contains(&sorted) {
                out.push(sorted);
            }
        }
    }
    out
}

/// Whether a piece is near another that it may go with; `None` when it may not.
fn paired(piece: &Piece, member: &Piece) -> Option<bool> {
    let ratio = member.area / piece.area.max(1.0);
    let apart = libm::hypotf(
        member.patch.chroma[0] - piece.patch.chroma[0],
        member.patch.chroma[1] - piece.patch.chroma[1],
    );
    let alike = (1.0 / UNEVEN..UNEVEN).contains(&ratio) && apart <= APART;
    alike.then(|| distance(&member.hull, &piece.hull) < GAP * piece.area.sqrt())
}

/// The share of the common outline that is filled, if the piece belongs to the group.
fn joined(parts: &[Piece], group: &[usize], with: usize, pairs: &[Option<bool>]) -> Option<f64> {
    let mut near = false;
    for i in group {
        near |= (*pairs.get(*i)?)?;
    }
    if !near {
        return None;
    }
    let piece = parts.get(with)?;
    let mut corners = piece.hull.clone();
    let mut filled = piece.area;
    for i in group {
        let member = parts.get(*i)?;
        corners.extend(&member.hull);
        filled += member.area;
    }
    let share = filled / ring::area(&ring::hull(&corners)).max(1.0);
    (FILL..1.05).contains(&share).then_some(share)
}

/// The least distance between corners of two hulls.
fn distance(a: &[[f64; 2]], b: &[[f64; 2]]) -> f64 {
    a.iter()
        .flat_map(|p| b.iter().map(|q| hypot(p[0] - q[0], p[1] - q[1])))
        .fold(f64::INFINITY, f64::min)
}
