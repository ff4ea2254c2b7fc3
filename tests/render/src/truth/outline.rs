//! Outlines of what is visible: the zero line of a signed field, traced by marching squares
//! (linear interpolation, so finer than the lattice), simplified within a third of a pixel.

use std::collections::HashMap;

/// A crossing of the lattice: cell and direction (0 to the right, 1 downward).
type Crossing = (usize, usize, u8);

/// A closed polygon.
pub type Polygon = Vec<[f64; 2]>;

/// Largest closed contour of `field` < 0 over a lattice of `nx` × `ny` points `step` apart from
/// `origin`. The field must be positive on the lattice's border.
pub fn largest_contour(
    origin: [f64; 2],
    step: f64,
    nx: usize,
    ny: usize,
    field: impl Fn(f64, f64) -> f64 + Sync,
) -> Option<Polygon> {
    use rayon::prelude::*;
    let mut v = vec![0.0_f64; nx * ny];
    v.par_chunks_mut(nx).enumerate().for_each(|(j, row)| {
        for (i, cell) in row.iter_mut().enumerate() {
            let border = i == 0 || j == 0 || i + 1 == nx || j + 1 == ny;
            let d = field(origin[0] + i as f64 * step, origin[1] + j as f64 * step);
            // Never exactly zero, so that every crossing is a proper one.
            *cell = if border {
                d.max(1e-9)
            } else if d == 0.0 {
                1e-12
            } else {
                d
            };
        }
    });
    // Edges: (i, j, 0) to the right, (i, j, 1) downward. Each cell links its crossing edges.
    let mut links: HashMap<Crossing, Vec<Crossing>> = HashMap::new();
    for j in 0..ny - 1 {
        for i in 0..nx - 1 {
            let inside = |a: usize, b: usize| v[b * nx + a] < 0.0;
            let (tl, tr, br, bl) = (
                inside(i, j),
                inside(i + 1, j),
                inside(i + 1, j + 1),
                inside(i, j + 1),
            );
            let mut cut = Vec::with_capacity(4);
            if tl != tr {
                cut.push((i, j, 0));
            }
            if tr != br {
                cut.push((i + 1, j, 1));
            }
            if bl != br {
                cut.push((i, j + 1, 0));
            }
            if tl != bl {
                cut.push((i, j, 1));
            }
            let mut pair = |a: Crossing, b: Crossing| {
                links.entry(a).or_default().push(b);
                links.entry(b).or_default().push(a);
            };
            match cut.len() {
                2 => pair(cut[0], cut[1]),
                // A saddle: keep the two inside corners apart.
                4 if tl => {
                    pair(cut[0], cut[3]);
                    pair(cut[1], cut[2]);
                }
                4 => {
                    pair(cut[0], cut[1]);
                    pair(cut[2], cut[3]);
                }
                _ => {}
            }
        }
    }
    let point = |(i, j, d): Crossing| {
        let (i2, j2) = if d == 0 { (i + 1, j) } else { (i, j + 1) };
        let (a, b) = (v[j * nx + i], v[j2 * nx + i2]);
        let t = a / (a - b);
        [
            origin[0] + step * (i as f64 + t * (i2 - i) as f64),
            origin[1] + step * (j as f64 + t * (j2 - j) as f64),
        ]
    };
    let mut starts: Vec<_> = links.keys().copied().collect();
    starts.sort_unstable();
    let mut used = std::collections::HashSet::new();
    let mut best: Option<(f64, Polygon)> = None;
    for s in starts {
        if !used.insert(s) {
            continue;
        }
        let mut line = vec![point(s)];
        let mut at = s;
        while let Some(next) = links[&at].iter().find(|n| !used.contains(*n)).copied() {
            used.insert(next);
            line.push(point(next));
            at = next;
        }
        let size = area(&line).abs();
        if best.as_ref().is_none_or(|(b, _)| size > *b) {
            best = Some((size, line));
        }
    }
    best.filter(|(size, p)| p.len() > 8 && *size > 0.0)
        .map(|(_, p)| p)
}

/// Signed area (positive: clockwise on screen).
pub fn area(p: &[[f64; 2]]) -> f64 {
    (0..p.len())
        .map(|i| {
            let (a, b) = (p[i], p[(i + 1) % p.len()]);
            a[0] * b[1] - b[0] * a[1]
        })
        .sum::<f64>()
        / 2.0
}

/// Fewer points, none of the dropped farther than `tolerance` from the kept line.
pub fn simplify(p: &[[f64; 2]], tolerance: f64) -> Polygon {
    if p.len() < 8 {
        return p.to_vec();
    }
    // Split at the two points farthest apart from the first, then halve by distance.
    let far = |from: [f64; 2]| {
        (0..p.len())
            .max_by(|a, b| gap(p[*a], from).total_cmp(&gap(p[*b], from)))
            .unwrap_or(0)
    };
    let a = far(p[0]);
    let b = far(p[a]);
    let (lo, hi) = (a.min(b), a.max(b));
    let mut out = Vec::new();
    keep(&p[lo..=hi], tolerance, &mut out);
    let rest: Vec<[f64; 2]> = p[hi..].iter().chain(&p[..=lo]).copied().collect();
    out.pop();
    keep(&rest, tolerance, &mut out);
    out.pop();
    out
}

fn gap(a: [f64; 2], b: [f64; 2]) -> f64 {
    (a[0] - b[0]).hypot(a[1] - b[1])
}

fn keep(line: &[[f64; 2]], tolerance: f64, out: &mut Polygon) {
    let (first, last) = (line[0], line[line.len() - 1]);
    let (mut worst, mut at) = (0.0, 0);
    for (i, p) in line.iter().enumerate() {
        let d = to_segment(*p, first, last);
        if d > worst {
            (worst, at) = (d, i);
        }
    }
    if worst > tolerance && line.len() > 2 {
        keep(&line[..=at], tolerance, out);
        out.pop();
        keep(&line[at..], tolerance, out);
    } else {
        out.push(first);
        out.push(last);
    }
}

/// Distance of a point to a segment.
pub fn to_segment(p: [f64; 2], a: [f64; 2], b: [f64; 2]) -> f64 {
    let (dx, dy) = (b[0] - a[0], b[1] - a[1]);
    let q = dx * dx + dy * dy;
    let t = if q > 0.0 {
        (((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / q).clamp(0.0, 1.0)
    } else {
        0.0
    };
    (p[0] - a[0] - t * dx).hypot(p[1] - a[1] - t * dy)
}

/// Inside by the even–odd rule.
pub fn contains(poly: &[[f64; 2]], p: [f64; 2]) -> bool {
    let mut inside = false;
    for i in 0..poly.len() {
        let (a, b) = (poly[i], poly[(i + 1) % poly.len()]);
        if (a[1] > p[1]) != (b[1] > p[1])
            && p[0] < a[0] + (p[1] - a[1]) * (b[0] - a[0]) / (b[1] - a[1])
        {
            inside = !inside;
        }
    }
    inside
}

/// Distance to the outline.
pub fn to_outline(poly: &[[f64; 2]], p: [f64; 2]) -> f64 {
    (0..poly.len())
        .map(|i| to_segment(p, poly[i], poly[(i + 1) % poly.len()]))
        .fold(f64::INFINITY, f64::min)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_disc_is_traced_to_a_fraction_of_the_lattice() {
        let disc = largest_contour([-20.0, -20.0], 1.0, 41, 41, |x, y| x.hypot(y) - 12.3).unwrap();
        for p in &disc {
            assert!((p[0].hypot(p[1]) - 12.3).abs() < 0.02);
        }
        let few = simplify(&disc, 0.1);
        assert!(few.len() < disc.len() / 2);
        assert!((area(&few).abs() / (std::f64::consts::PI * 12.3 * 12.3) - 1.0).abs() < 0.015);
        assert!(contains(&few, [0.0, 0.0]) && !contains(&few, [12.5, 0.0]));
    }

    #[test]
    fn the_larger_of_two_discs_is_taken() {
        let p = largest_contour([-20.0, -20.0], 0.7, 60, 60, |x, y| {
            ((x - 8.0).hypot(y) - 5.0).min((x + 10.0).hypot(y) - 3.0)
        })
        .unwrap();
        assert!(contains(&p, [8.0, 0.0]) && !contains(&p, [-10.0, 0.0]));
    }
}
