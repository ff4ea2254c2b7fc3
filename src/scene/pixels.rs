//! Walking the pixels of an outline, row by row, in linear light.

use super::polygon::{Polygon, RowScratch};
use super::ring;
use crate::photo::{Photo, Sample};

/// Visits every pixel whose centre lies inside `polygon` and at least `inset_px` from its
/// edges: `visit(x, y, sample)`. With `stride` 2 every second pixel of every second row is
/// taken, and so on. Pixels outside the photo are skipped.
pub fn for_each_sample(
    photo: &Photo,
    polygon: &Polygon,
    inset_px: f64,
    stride: u32,
    mut visit: impl FnMut(u32, u32, Sample),
) {
    let stride = stride.max(1);
    let [x_min, y_min, x_max, y_max] = polygon.bounds();
    let within = |v: f64, count: u32| v.clamp(0.0, f64::from(count)) as u32;
    let (width, height) = (photo.width_px(), photo.height_px());
    let first = within(y_min.ceil(), height);
    let last = within(y_max.floor() + 1.0, height);
    photo.announce(
        within(x_min.ceil(), width)..within(x_max.floor() + 1.0, width),
        first..last,
    );
    let mut scratch = RowScratch::default();
    let mut spans = Vec::new();
    let mut row = Vec::new();
    for y in (first..last).filter(|y| y % stride == 0) {
        polygon.row_spans(y, inset_px, photo.width_px(), &mut scratch, &mut spans);
        for span in &spans {
            row.clear();
            row.resize((span.x1 - span.x0) as usize, Sample::default());
            if photo.read_row(span.x0, y, &mut row).is_none() {
                continue;
            }
            for (x, sample) in (span.x0..span.x1).zip(&row) {
                if x % stride == 0 {
                    visit(x, y, *sample);
                }
            }
        }
    }
}

/// The share of an outline's area that lies inside the photo, 0–1.
pub fn share_inside(polygon: &Polygon, width_px: u32, height_px: u32) -> f64 {
    let [x0, y0, x1, y1] = polygon.bounds();
    let (w, h) = (f64::from(width_px), f64::from(height_px));
    if x0 >= -0.5 && y0 >= -0.5 && x1 <= w - 0.5 && y1 <= h - 0.5 {
        return 1.0;
    }
    // Clip against the four sides of the photo (Sutherland–Hodgman) and compare areas.
    let mut corners: Vec<[f64; 2]> = polygon.corners().iter().map(|p| p.0).collect();
    for (axis, limit, keep_above) in [
        (0, -0.5, true),
        (0, w - 0.5, false),
        (1, -0.5, true),
        (1, h - 0.5, false),
    ] {
        corners = clip(&corners, axis, limit, keep_above);
    }
    (ring::area(&corners) / polygon.area_px()).min(1.0)
}

fn clip(corners: &[[f64; 2]], axis: usize, limit: f64, keep_above: bool) -> Vec<[f64; 2]> {
    let coordinate = |p: &[f64; 2]| if axis == 0 { p[0] } else { p[1] };
    let inside = |p: &[f64; 2]| (coordinate(p) >= limit) == keep_above;
    let mut out = Vec::with_capacity(corners.len() + 4);
    for (a, b) in ring::sides(corners) {
        if inside(&a) {
            out.push(a);
        }
        if inside(&a) != inside(&b) {
            let t = (limit - coordinate(&a)) / (coordinate(&b) - coordinate(&a));
            out.push([a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])]);
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::super::types::Point;
    use super::*;

    #[test]
    fn share() {
        let square = |x: f64, y: f64| {
            let o = [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)]
                .map(|(dx, dy)| Point::new(x + dx, y + dy));
            Polygon::new(&o, "The outline").expect("good")
        };
        assert_eq!(share_inside(&square(5.0, 5.0), 100, 100), 1.0);
        assert!((share_inside(&square(-5.5, 5.0), 100, 100) - 0.5).abs() < 1e-9);
        assert!((share_inside(&square(94.5, 94.5), 100, 100) - 0.25).abs() < 1e-9);
        assert_eq!(share_inside(&square(200.0, 5.0), 100, 100), 0.0);
    }
}
