//! How open each place is to the room and to each lamp, from one height map of the whole scene.

use super::body::Body;
use super::grid::Grid;
use super::lamps::Lamp;
use rayon::prelude::*;

/// Highest surface at each place of the frame (with a margin).
/// `ordered`: only the front body counts where several overlap.
pub fn height_map(bodies: &[Body], frame: [f64; 4], pitch: f64, ordered: bool) -> Grid<1> {
    let mut map = Grid::<1>::covering(frame, pitch);
    map.fill(|[x, y]| {
        let mut top = -30.0_f32;
        for b in bodies {
            if b.opacity < 0.5 {
                continue;
            }
            if x < b.bounds[0] || y < b.bounds[1] || x > b.bounds[2] || y > b.bounds[3] {
                continue;
            }
            let [u, v] = b.place.own(x, y);
            let f = b.form.read(u, v);
            if f[0] < 0.0 {
                top = top.max(f[1]);
                // What is in front hides what lies behind, whatever its height: no shadow comes
                // from there.
                if ordered {
                    break;
                }
            }
        }
        [top]
    });
    // Softened a little: steps of the lattice would show as notches along the gum.
    let raw = map.clone();
    let p = raw.pitch;
    map.fill(|[x, y]| {
        let mut sum = 0.0;
        for (dx, dy, w) in [
            (0.0, 0.0, 2.0),
            (p, 0.0, 1.0),
            (-p, 0.0, 1.0),
            (0.0, p, 1.0),
            (0.0, -p, 1.0),
            (p, p, 0.5),
            (-p, p, 0.5),
            (p, -p, 0.5),
            (-p, -p, 0.5),
        ] {
            sum += w * raw.read(x + dx, y + dy)[0];
        }
        [sum / 8.0]
    });
    map
}

const REACH_MM: [f32; 8] = [0.25, 0.5, 0.95, 1.7, 3.0, 5.2, 8.5, 13.0];
const DIRECTIONS: usize = 10;

/// Fills `light` of every body.
pub fn fill(bodies: &mut [Body], map: &Grid<1>, lamps: &[Lamp]) {
    bodies.par_iter_mut().for_each(|b| {
        let place = b.place;
        let form = &b.form;
        b.light.fill(|[x, y]| {
            let f = form.read(x, y);
            let [wx, wy] = place.world(x, y);
            let z = f[1];
            let beyond = wx < map.origin[0]
                || wy < map.origin[1]
                || wx > map.origin[0] + map.pitch * map.w as f32
                || wy > map.origin[1] + map.pitch * map.h as f32;
            // Nobody looks there.
            if f[0] > 0.9 || beyond {
                return [1.0; 4];
            }
            let mut out = [open_to_room(map, wx, wy, z), 1.0, 1.0, 1.0];
            for (k, lamp) in lamps.iter().enumerate().take(3) {
                out[k + 1] = open_to_lamp(map, lamp, [wx, wy, z]);
            }
            out
        });
        soften(&mut b.light);
    });
}

/// Binomial smoothing, twice: light does not change in steps of the lattice.
fn soften(grid: &mut Grid<4>) {
    let (w, h) = (grid.w, grid.h);
    for _ in 0..2 {
        let from = grid.cells.clone();
        for j in 0..h {
            for i in 0..w {
                let mut sum = [0.0; 4];
                for (dj, wj) in [(0usize, 1.0_f32), (1, 2.0), (2, 1.0)] {
                    for (di, wi) in [(0usize, 1.0_f32), (1, 2.0), (2, 1.0)] {
                        let (a, b) = (
                            (i + di).saturating_sub(1).min(w - 1),
                            (j + dj).saturating_sub(1).min(h - 1),
                        );
                        for (s, v) in sum.iter_mut().zip(from[b * w + a]) {
                            *s += wi * wj * v / 16.0;
                        }
                    }
                }
                grid.cells[j * w + i] = sum;
            }
        }
    }
}

/// Cosine-weighted share of the front hemisphere that is free.
fn open_to_room(map: &Grid<1>, x: f32, y: f32, z: f32) -> f32 {
    let mut sum = 0.0;
    for k in 0..DIRECTIONS {
        let a = (k as f32 + 0.5) * std::f32::consts::TAU / DIRECTIONS as f32;
        let (s, c) = a.sin_cos();
        let mut rise = 0.0_f32;
        for r in REACH_MM {
            rise = rise.max((map.read(x + c * r, y + s * r)[0] - z - 0.04) / r);
        }
        sum += 1.0 / (1.0 + rise * rise);
    }
    sum / DIRECTIONS as f32
}

/// Share of a lamp that is seen: the smallest angle between it and what stands in the way,
/// against its half size.
fn open_to_lamp(map: &Grid<1>, lamp: &Lamp, p: [f32; 3]) -> f32 {
    let (l, _) = lamp.from(p);
    let level = l[0].hypot(l[1]);
    if level < 1e-3 {
        return 1.0;
    }
    let (dx, dy, rise) = (l[0] / level, l[1] / level, l[2] / level);
    let height = rise.atan();
    let spread = lamp.spread + 0.03;
    let mut clear = 1.0_f32;
    let mut r = 0.25;
    while r < 26.0 {
        let top = map.read(p[0] + dx * r, p[1] + dy * r)[0];
        let horizon = ((top - p[2] - 0.06) / r).atan();
        clear = clear.min((height - horizon) / spread);
        if clear < -1.0 {
            return 0.0;
        }
        r *= 1.26;
    }
    let t = ((clear + 1.0) / 2.0).clamp(0.0, 1.0);
    t * t * (3.0 - 2.0 * t)
}
