//! How much of a thing is seen, and the ends of what is seen beside its axis.

use super::outline::{self, Polygon};
use crate::world::World;
use crate::world::body::Kind;

/// Area within the visible outline ÷ area that the gums leave free, rounded to 1/1000.
pub(super) fn visible_share(world: &World, index: usize, seen: &Polygon) -> f64 {
    let body = &world.bodies[index];
    let gums: Vec<_> = if matches!(body.kind, Kind::Crown(_)) {
        world.bodies[..index]
            .iter()
            .filter(|b| matches!(b.kind, Kind::Gum { .. }))
            .collect()
    } else {
        Vec::new()
    };
    let form = &body.form;
    let mut free = 0_usize;
    for j in 0..form.h {
        for i in 0..form.w {
            let [x, y] = form.at_cell(i, j);
            if form.cells[j * form.w + i][0] >= 0.0 {
                continue;
            }
            let [wx, wy] = body.place.world(x, y);
            let hidden = gums.iter().any(|g| {
                let b = g.bounds;
                let [u, v] = g.place.own(wx, wy);
                wx > b[0] && wy > b[1] && wx < b[2] && wy < b[3] && g.form.read(u, v)[0] < 0.0
            });
            free += usize::from(!hidden);
        }
    }
    let whole = free as f64 * f64::from(form.pitch).powi(2);
    let area = outline::area(seen).abs() * world.mm_per_px * world.mm_per_px;
    ((area / whole.max(1e-9)).min(1.0) * 1e3).round() / 1e3
}

/// The outline's farthest points against and along the direction from `a` to `b`.
pub(super) fn ends(outline: &Polygon, a: [f64; 2], b: [f64; 2]) -> Option<([f64; 2], [f64; 2])> {
    let along = |p: &[f64; 2]| p[0] * (b[0] - a[0]) + p[1] * (b[1] - a[1]);
    let by = |p: &&[f64; 2], q: &&[f64; 2]| along(p).total_cmp(&along(q));
    Some((*outline.iter().min_by(by)?, *outline.iter().max_by(by)?))
}
