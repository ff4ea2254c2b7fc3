//! A swipe across an outline cuts it.

use super::polygon::Polygon;
use super::ring;
use super::types::Point;
use crate::colour::order::{insertion_sort, sorted_by_key};

/// Pieces smaller than this share of the outline are dropped: a swipe near an edge trims it.
const LEAST_SHARE: f64 = 0.12;
/// Points of a swipe that are looked at.
const MOST_POINTS: usize = 400;

/// The pieces that a stroke cuts an outline into, the largest first. Empty when the stroke does
/// not cross the outline at two places at least.
pub fn cut(outline: &[Point], stroke: &[Point]) -> Vec<Vec<Point>> {
    let n = outline.len();
    if n < 3 || stroke.len() < 2 || !outline.iter().chain(stroke).all(Point::is_finite) {
        return Vec::new();
    }
    let stroke: Vec<Point> = thinned(stroke);
    // The first place where the stroke enters and the next where it leaves.
    let mut crossings: Vec<(f64, usize, Point)> = Vec::new();
    for (k, (a, b)) in stroke.iter().zip(stroke.iter().skip(1)).enumerate() {
        for (i, (p, q)) in ring::sides(outline).enumerate() {
            if let Some((t, at)) = crossing(*a, *b, Point(p), Point(q)) {
                crossings.push((k as f64 + t, i, at));
            }
        }
    }
    let crossings = sorted_by_key(crossings, |c| c.0);
    let [(t0, i0, p0), (t1, i1, p1), ..] = crossings.as_slice() else {
        return Vec::new();
    };
    // In and out through one side: nothing lies between.
    if i0 == i1 {
        return Vec::new();
    }
    // What the stroke does between the two crossings becomes the new border.
    let between: Vec<Point> = stroke
        .iter()
        .enumerate()
        .filter(|(k, _)| (*k as f64) > *t0 && (*k as f64) < *t1)
        .map(|(_, p)| *p)
        .collect();
    let walk = |from: usize, to: usize| -> Vec<Point> {
        // Corners after edge `from` up to the start of edge `to`.
        let count = (to + n - from) % n;
        (1..=count)
            .filter_map(|k| outline.get((from + k) % n).copied())
            .collect()
    };
    let mut first = vec![*p0];
    first.extend(&between);
    first.push(*p1);
    let mut second = first.clone();
    second.reverse();
    first.extend(walk(*i1, *i0));
    second.extend(walk(*i0, *i1));
    let whole = Polygon::new(outline, "The outline").map_or(0.0, |p| p.area_px());
    let mut pieces: Vec<(f64, Vec<Point>)> = [first, second]
        .into_iter()
        .filter_map(|piece| {
            let area = Polygon::new(&piece, "The outline").ok()?.area_px();
            (area >= LEAST_SHARE * whole).then_some((area, piece))
        })
        .collect();
    insertion_sort(&mut pieces, |a, b| a.0 > b.0);
    pieces.into_iter().map(|(_, piece)| piece).collect()
}

fn thinned(stroke: &[Point]) -> Vec<Point> {
    let step = stroke.len().div_ceil(MOST_POINTS).max(1);
    let mut out: Vec<Point> = stroke.iter().step_by(step).copied().collect();
    if let Some(last) = stroke.last()
        && out.last() != Some(last)
    {
        out.push(*last);
    }
    out
}

/// Where a→b crosses p→q: the share of the way along a→b, and the place.
fn crossing(a: Point, b: Point, p: Point, q: Point) -> Option<(f64, Point)> {
    let (dx, dy) = (b.x() - a.x(), b.y() - a.y());
    let (ex, ey) = (q.x() - p.x(), q.y() - p.y());
    let cross = dx * ey - dy * ex;
    if cross.abs() < 1e-12 {
        return None;
    }
    let (fx, fy) = (p.x() - a.x(), p.y() - a.y());
    let t = (fx * ey - fy * ex) / cross;
    let u = (fx * dy - fy * dx) / cross;
    // Half open, so that a corner is crossed once.
    let hit = (0.0..=1.0).contains(&t) && (0.0..1.0).contains(&u);
    hit.then(|| (t, Point::new(a.x() + t * dx, a.y() + t * dy)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square() -> Vec<Point> {
        [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)]
            .map(|(x, y)| Point::new(x, y))
            .to_vec()
    }

    fn area(outline: &[Point]) -> f64 {
        Polygon::new(outline, "piece").expect("good").area_px()
    }

    #[test]
    fn a_stroke_through_the_middle_gives_two_halves() {
        let pieces = cut(&square(), &[Point::new(4.0, -3.0), Point::new(4.0, 13.0)]);
        let areas: Vec<f64> = pieces.iter().map(|p| area(p)).collect();
        assert_eq!(areas, [60.0, 40.0]);
    }

    #[test]
    fn a_bent_stroke_becomes_the_border() {
        let stroke = [(-1.0, 5.0), (5.0, 5.0), (5.0, -1.0)].map(|(x, y)| Point::new(x, y));
        let pieces = cut(&square(), &stroke);
        let areas: Vec<f64> = pieces.iter().map(|p| area(p)).collect();
        assert_eq!(areas, [75.0, 25.0]);
    }

    #[test]
    fn a_sliver_is_dropped_and_a_miss_cuts_nothing() {
        let trim = cut(&square(), &[Point::new(9.5, -3.0), Point::new(9.5, 13.0)]);
        assert_eq!(trim.len(), 1);
        assert_eq!(area(&trim[0]), 95.0);
        assert!(cut(&square(), &[Point::new(20.0, 0.0), Point::new(20.0, 9.0)]).is_empty());
        // In, but not out again.
        assert!(cut(&square(), &[Point::new(5.0, -5.0), Point::new(5.0, 5.0)]).is_empty());
        assert!(cut(&[], &[]).is_empty());
    }
}
