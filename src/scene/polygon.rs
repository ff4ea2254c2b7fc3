//! An outline as a checked polygon: area, moments, axis, and which pixels of a row lie inside.
//!
//! Coordinates are upright photo pixels. All results are in pixels.

use super::ring;
use super::types::Point;
use crate::colour::order::insertion_sort;
use crate::error::{Error, Result};

/// Corners an outline may have at most; a hand-drawn one has dozens.
pub const MAX_CORNERS: usize = 5_000;

/// A closed outline with at least three finite corners and an area.
#[derive(Debug, Clone, PartialEq)]
pub struct Polygon {
    corners: Vec<Point>,
    area_px: f64,
    centroid: Point,
}

/// A run of pixels on one row: `x0..x1`, half open.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Span {
    /// First pixel.
    pub x0: u32,
    /// One past the last pixel.
    pub x1: u32,
}

impl Polygon {
    /// Checks an outline. `what` names it in the error ("The card's outline").
    pub fn new(outline: &[Point], what: &str) -> Result<Self> {
        let remedy = "Draw the outline again, with at least three corners around an area.";
        if outline.len() < 3 {
            return Err(Error::input(
                format!(
                    "{what} has {} corners; at least three are needed.",
                    outline.len()
                ),
                remedy,
            ));
        }
        if outline.len() > MAX_CORNERS {
            return Err(Error::input(
                format!(
                    "{what} has {} corners; at most {MAX_CORNERS} are taken.",
                    outline.len()
                ),
                "Draw it with fewer corners.",
            ));
        }
        if !outline.iter().all(Point::is_in_a_photo) {
            return Err(Error::input(
                format!("{what} has a corner that is not a place in a photo."),
                remedy,
            ));
        }
        let (area_px, centroid) = ring::area_and_centroid(outline);
        if area_px < 1.0 {
            return Err(Error::input(format!("{what} encloses no area."), remedy));
        }
        Ok(Self {
            corners: outline.to_vec(),
            area_px,
            centroid: Point(centroid),
        })
    }

    /// The corners, as given.
    pub fn corners(&self) -> &[Point] {
        &self.corners
    }

    /// Enclosed area in square pixels.
    pub const fn area_px(&self) -> f64 {
        self.area_px
    }

    /// Centre of the enclosed area.
    pub const fn centroid(&self) -> Point {
        self.centroid
    }

    /// Bounds: smallest x, smallest y, largest x, largest y.
    pub fn bounds(&self) -> [f64; 4] {
        self.corners.iter().fold(
            [
                f64::INFINITY,
                f64::INFINITY,
                f64::NEG_INFINITY,
                f64::NEG_INFINITY,
            ],
            |[x0, y0, x1, y1], p| [x0.min(p.x()), y0.min(p.y()), x1.max(p.x()), y1.max(p.y())],
        )
    }

    /// The edges, each as its two ends, the closing one included.
    pub fn edges(&self) -> impl Iterator<Item = (Point, Point)> + '_ {
        ring::sides(&self.corners).map(|(a, b)| (Point(a), Point(b)))
    }

    /// Whether a place lies inside (even-odd rule).
    pub fn contains(&self, p: Point) -> bool {
        ring::contains(&self.corners, p.0)
    }

    /// Unit vector of the longest extent (major axis of the second moments).
    pub fn major_axis(&self) -> [f64; 2] {
        // Second moments of a polygon about its centroid (Green's theorem).
        let c = self.centroid;
        let (mut xx, mut yy, mut xy) = (0.0, 0.0, 0.0);
        for (a, b) in self.edges() {
            let (ax, ay, bx, by) = (a.x() - c.x(), a.y() - c.y(), b.x() - c.x(), b.y() - c.y());
            let cross = ax * by - bx * ay;
            xx += cross * (ax * ax + ax * bx + bx * bx);
            yy += cross * (ay * ay + ay * by + by * by);
            xy += cross * (ax * by + 2.0 * ax * ay + 2.0 * bx * by + bx * ay) / 2.0;
        }
        // The sign of the running sums follows the direction of the outline.
        let sign = if xx + yy < 0.0 { -1.0 } else { 1.0 };
        let angle = 0.5 * libm::atan2(2.0 * xy * sign, (xx - yy) * sign);
        [libm::cos(angle), libm::sin(angle)]
    }

    /// Smallest and largest projection of the corners on a unit vector from the centroid.
    pub fn extent_along(&self, axis: [f64; 2]) -> [f64; 2] {
        let c = self.centroid;
        self.corners
            .iter()
            .map(|p| (p.x() - c.x()) * axis[0] + (p.y() - c.y()) * axis[1])
            .fold([f64::INFINITY, f64::NEG_INFINITY], |[lo, hi], t| {
                [lo.min(t), hi.max(t)]
            })
    }

    /// The runs of pixels on row `y` whose centres lie inside and at least `inset_px` away from
    /// every edge, within a photo `width_px` wide. `scratch` is reused between rows.
    pub fn row_spans(
        &self,
        y: u32,
        inset_px: f64,
        width_px: u32,
        scratch: &mut RowScratch,
        out: &mut Vec<Span>,
    ) {
        out.clear();
        let yc = f64::from(y);
        scratch.crossings.clear();
        scratch.blocked.clear();
        for (a, b) in self.edges() {
            if (a.y() > yc) != (b.y() > yc) {
                let t = (yc - a.y()) / (b.y() - a.y());
                scratch.crossings.push(a.x() + t * (b.x() - a.x()));
            }
            if inset_px > 0.0
                && let Some(interval) = capsule_on_row(a, b, inset_px, yc)
            {
                scratch.blocked.push(interval);
            }
        }
        insertion_sort(&mut scratch.crossings, |a, b| a < b);
        insertion_sort(&mut scratch.blocked, |p, q| p.0 < q.0);
        let limit = f64::from(width_px);
        for pair in scratch.crossings.chunks_exact(2) {
            let &[start, end] = pair else { continue };
            let mut from = start;
            // Walk the blocked intervals from the left and keep what is between them.
            for &(b0, b1) in &scratch.blocked {
                if b0 >= end {
                    break;
                }
                if b1 <= from {
                    continue;
                }
                push_span(from, b0.min(end), limit, out);
                from = from.max(b1);
            }
            push_span(from, end, limit, out);
        }
    }
}

/// Buffers that [`Polygon::row_spans`] reuses.
#[derive(Debug, Default)]
pub struct RowScratch {
    crossings: Vec<f64>,
    blocked: Vec<(f64, f64)>,
}

/// Pixels whose centres lie in `from..to`.
fn push_span(from: f64, to: f64, limit: f64, out: &mut Vec<Span>) {
    let x0 = from.ceil().clamp(0.0, limit);
    let x1 = to.ceil().clamp(0.0, limit);
    if x1 > x0 {
        // Both are whole numbers within 0..=limit, which came from a u32.
        out.push(Span {
            x0: x0 as u32,
            x1: x1 as u32,
        });
    }
}

/// Where row `y` passes within `radius` of the segment `a`–`b`: one interval, as the set of
/// places near a segment is convex.
fn capsule_on_row(a: Point, b: Point, radius: f64, y: f64) -> Option<(f64, f64)> {
    let (y0, y1) = (a.y().min(b.y()), a.y().max(b.y()));
    if y < y0 - radius || y > y1 + radius {
        return None;
    }
    let mut interval: Option<(f64, f64)> = None;
    let mut widen = |lo: f64, hi: f64| {
        interval = Some(interval.map_or((lo, hi), |(l, h)| (l.min(lo), h.max(hi))));
    };
    for end in [a, b] {
        let dy = y - end.y();
        let half_squared = radius * radius - dy * dy;
        if half_squared >= 0.0 {
            let half = half_squared.sqrt();
            widen(end.x() - half, end.x() + half);
        }
    }
    // The two long sides of the capsule, where the row crosses them.
    let (dx, dy) = (b.x() - a.x(), b.y() - a.y());
    let length = libm::hypot(dx, dy);
    if length > 0.0 {
        let (nx, ny) = (-dy / length * radius, dx / length * radius);
        for side in [1.0, -1.0] {
            let (p, q) = (a.y() + side * ny, b.y() + side * ny);
            if (p <= y) != (q <= y) {
                let t = (y - p) / (q - p);
                let x = a.x() + side * nx + t * dx;
                widen(x, x);
            }
        }
    }
    interval
}

#[cfg(test)]
mod tests {
    use super::*;

    fn polygon(points: &[(f64, f64)]) -> Polygon {
        let outline: Vec<Point> = points.iter().map(|&(x, y)| Point::new(x, y)).collect();
        Polygon::new(&outline, "The outline").expect("a good outline")
    }

    fn distance_to_edge(p: Point, polygon: &Polygon) -> f64 {
        polygon
            .edges()
            .map(|(a, b)| {
                let (dx, dy) = (b.x() - a.x(), b.y() - a.y());
                let t = ((p.x() - a.x()) * dx + (p.y() - a.y()) * dy) / (dx * dx + dy * dy);
                p.distance_px(&Point::new(
                    a.x() + t.clamp(0.0, 1.0) * dx,
                    a.y() + t.clamp(0.0, 1.0) * dy,
                ))
            })
            .fold(f64::INFINITY, f64::min)
    }

    #[test]
    fn area_centroid_axis() {
        let p = polygon(&[(10.0, 20.0), (14.0, 20.0), (14.0, 40.0), (10.0, 40.0)]);
        assert!((p.area_px() - 80.0).abs() < 1e-9);
        assert!(p.centroid().distance_px(&Point::new(12.0, 30.0)) < 1e-9);
        let axis = p.major_axis();
        assert!(
            axis[0].abs() < 1e-9 && (axis[1].abs() - 1.0).abs() < 1e-9,
            "{axis:?}"
        );
        // The same outline walked the other way has the same axis.
        let q = polygon(&[(10.0, 40.0), (14.0, 40.0), (14.0, 20.0), (10.0, 20.0)]);
        assert!(q.major_axis()[0].abs() < 1e-9);
    }

    /// The spans agree, pixel by pixel, with the definition: inside, and far from every edge.
    #[test]
    fn spans_match_the_definition() {
        let p = polygon(&[
            (3.2, 2.1),
            (30.7, 5.0),
            (26.0, 33.3),
            (15.3, 20.4),
            (6.4, 36.9),
        ]);
        let (mut scratch, mut spans) = (RowScratch::default(), Vec::new());
        for inset in [0.0, 1.5, 4.0] {
            for y in 0..40 {
                p.row_spans(y, inset, 40, &mut scratch, &mut spans);
                for x in 0..40 {
                    let at = Point::new(f64::from(x), f64::from(y));
                    let want = p.contains(at) && distance_to_edge(at, &p) >= inset;
                    let got = spans.iter().any(|s| s.x0 <= x && x < s.x1);
                    assert_eq!(got, want, "inset {inset} at {x},{y}");
                }
            }
        }
    }

    #[test]
    fn spans_stay_in_the_photo() {
        let p = polygon(&[(-50.0, -50.0), (90.0, -50.0), (90.0, 90.0), (-50.0, 90.0)]);
        let (mut scratch, mut spans) = (RowScratch::default(), Vec::new());
        p.row_spans(0, 0.0, 7, &mut scratch, &mut spans);
        assert_eq!(spans, [Span { x0: 0, x1: 7 }]);
    }

    #[test]
    fn nonsense_is_refused() {
        let p = |points: &[(f64, f64)]| {
            let o: Vec<Point> = points.iter().map(|&(x, y)| Point::new(x, y)).collect();
            Polygon::new(&o, "The outline").map(|_| ())
        };
        assert!(p(&[(0.0, 0.0), (1.0, 1.0)]).is_err());
        assert!(p(&[(0.0, 0.0), (5.0, 5.0), (9.0, 9.0)]).is_err());
        assert!(p(&[(0.0, 0.0), (f64::NAN, 5.0), (9.0, 0.0)]).is_err());
        assert!(p(&[(0.0, 0.0), (1e30, 5.0), (9.0, 0.0)]).is_err());
    }
}
