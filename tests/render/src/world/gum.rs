//! The gum of a jaw: scalloped around the necks, papillae between, bulging over the roots,
//! with a frenulum on the midline. Own axes have the teeth hanging down (+y), so the lower
//! jaw's gum is the same thing turned by π.

use super::arch::Stand;
use super::body::{Body, Place};
use super::grid::Grid;
use crate::noise::{fbm, smooth, value};
use crate::spec::Tissue;

/// A tooth as the gum sees it, in the gum's own axes.
struct Neck {
    x: f32,
    zenith: f32,
    half: f32,
    length: f32,
    z: f32,
    slope: f32,
    missing: bool,
}

/// Builds form and field; `upper` picks the jaw, `midline` is where the frenulum hangs. `None` without teeth there.
pub fn gum(
    stands: &[Stand],
    tissue: &Tissue,
    upper: bool,
    seed: u32,
    pitch: f64,
    midline: f32,
) -> Option<(Place, Grid<4>, Grid<4>)> {
    let place = Place::new([0.0, 0.0], if upper { 0.0 } else { std::f64::consts::PI });
    let mut necks: Vec<Neck> = stands
        .iter()
        .filter(|s| (s.tooth.fdi < 30) == upper)
        .map(|s| {
            let [x, y] = place.own(s.origin[0] as f32, s.origin[1] as f32);
            let turn = (s.angle as f32) - if upper { 0.0 } else { std::f32::consts::PI };
            // Where the axis meets the neck; a zenith a little distal of the middle.
            Neck {
                x: x + 0.05 * s.form.half_width * x.signum() + 0.3 * turn.sin(),
                zenith: y - tissue.recession_mm as f32
                    + 0.25 * value(f32::from(s.tooth.fdi), 0.5, seed).v,
                half: s.form.half_width,
                length: s.form.length,
                z: s.z as f32,
                slope: s.yaw_slope as f32,
                missing: s.tooth.missing,
            }
        })
        .collect();
    if necks.is_empty() {
        return None;
    }
    necks.sort_by(|a, b| a.x.total_cmp(&b.x));
    let n = necks.len();
    // Borders between teeth, and the papilla tips on them.
    let mut borders = vec![necks[0].x - necks[0].half];
    for p in necks.windows(2) {
        borders.push(((p[0].x + p[0].half) + (p[1].x - p[1].half)) / 2.0);
    }
    borders.push(necks[n - 1].x + necks[n - 1].half);
    let tips: Vec<f32> = (0..=n)
        .map(|i| {
            let sides: Vec<&Neck> = [i.checked_sub(1), Some(i)]
                .into_iter()
                .flatten()
                .filter_map(|k| necks.get(k))
                .collect();
            let low = sides.iter().map(|s| s.zenith).sum::<f32>() / sides.len() as f32;
            let reach = sides
                .iter()
                .map(|s| if s.missing { 0.08 } else { 0.57 } * s.length)
                .fold(f32::INFINITY, f32::min);
            low + reach
                * tissue.papilla as f32
                * (1.0 + 0.10 * value(i as f32 * 1.7, 4.0, seed ^ 3).v)
        })
        .collect();

    let locate = |x: f32| {
        let mut k = 0;
        while k + 1 < n && x > borders[k + 1] {
            k += 1;
        }
        let s = if x < necks[k].x {
            (x - necks[k].x) / (necks[k].x - borders[k])
        } else {
            (x - necks[k].x) / (borders[k + 1] - necks[k].x)
        };
        (k, s.clamp(-1.6, 1.6))
    };
    let line = |x: f32| {
        let (k, s) = locate(x);
        let tip = if s < 0.0 { tips[k] } else { tips[k + 1] };
        let base = if necks[k].missing { 2.6 } else { 2.45 };
        let y = necks[k].zenith + (tip - necks[k].zenith) * s.abs().min(1.0).powf(base);
        y + 0.07 * value(x * 0.8, 1.0, seed ^ 8).v
    };
    let (x0, x1) = (borders[0] - 26.0, borders[n] + 26.0);
    let top = necks.iter().map(|k| k.zenith).fold(f32::INFINITY, f32::min) - 16.0;
    let bottom = tips.iter().copied().fold(f32::NEG_INFINITY, f32::max) + 1.0;

    // The gum line as a polyline, blunted by averaging.
    let step = 0.06_f32;
    let count = ((x1 - x0) / step) as usize;
    let raw: Vec<f32> = (0..=count).map(|i| line(x0 + i as f32 * step)).collect();
    let blunt = |i: usize| {
        let r = 8usize;
        let (a, b) = (i.saturating_sub(r), (i + r).min(count));
        raw[a..=b].iter().sum::<f32>() / (b - a + 1) as f32
    };
    let curve: Vec<f32> = (0..=count).map(blunt).collect();
    let highest = curve.iter().copied().fold(f32::INFINITY, f32::min);
    let signed = |x: f32, y: f32| {
        if y < highest - 6.0 {
            return -6.0;
        }
        let at = ((x - x0) / step) as isize;
        let window = 70isize;
        let (mut best, lo, hi) = (
            f32::INFINITY,
            (at - window).max(0),
            (at + window).min(count as isize - 1),
        );
        let mut i = lo;
        while i < hi {
            let (ax, ay, by) = (
                x0 + i as f32 * step,
                curve[i as usize],
                curve[i as usize + 1],
            );
            let (dx, dy) = (step, by - ay);
            let t = (((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy)).clamp(0.0, 1.0);
            best = best.min((x - ax - t * dx).powi(2) + (y - ay - t * dy).powi(2));
            i += 1;
        }
        let along = ((x - x0) / step).clamp(0.0, count as f32 - 1.001);
        let (i, u) = (along as usize, along.fract());
        let here = curve[i] * (1.0 - u) + curve[i + 1] * u;
        best.sqrt().min(6.0) * if y < here { -1.0 } else { 1.0 }
    };
    // Smooth zenith line and height of the teeth's faces along x.
    let weighed = |x: f32, width: f32, of: &dyn Fn(&Neck) -> f32| {
        let (mut sum, mut weight) = (0.0, 0.0);
        for k in &necks {
            let w = (-((x - k.x) / width).powi(2)).exp() + 1e-6;
            sum += w * of(k);
            weight += w;
        }
        sum / weight
    };
    let follow = |x: f32, of: &dyn Fn(&Neck) -> f32| weighed(x, 5.5, of);
    let arch = tissue.arch_per_mm as f32;

    let mut form = Grid::<4>::covering(
        [
            f64::from(x0),
            f64::from(top),
            f64::from(x1),
            f64::from(bottom),
        ],
        pitch,
    );
    // What depends on x alone: (s, zenith line, near face, far face).
    let columns: Vec<[f32; 4]> = (0..form.w)
        .map(|i| {
            let x = form.at_cell(i, 0)[0];
            let near = weighed(x, 2.4, &|n| {
                n.z + n.slope * (x - n.x).clamp(-2.0 * n.half, 2.0 * n.half)
            });
            [
                locate(x).1,
                follow(x, &|n| n.zenith),
                near,
                follow(x, &|n| n.z) - arch * 4.0,
            ]
        })
        .collect();
    form.fill(|[x, y]| {
        let d = signed(x, y);
        let depth = (-d).max(0.0);
        let [s, zenith, near, far] =
            columns[(((x - x0) / pitch as f32).round() as usize).min(columns.len() - 1)];
        let up = zenith - y;
        // The face under the gum: the tooth's own, giving way to the arch above.
        let soft_up = (up + (up * up + 1.0).sqrt()) / 2.0;
        let blend = smooth(0.8, 4.5, depth);
        let groove = (1.0 - (std::f32::consts::PI * s.clamp(-1.0, 1.0)).cos()) / 2.0;
        let roots = -groove * (0.55 + 0.75 * (-soft_up / 2.5).exp());
        let lip = 0.06 + 0.36 * (1.0 - (-depth / 0.34).exp()) + 0.42 * (1.0 - (-depth / 1.4).exp());
        let back = 0.012 * (up - 3.0).max(0.0).powi(2);
        let frenulum = 0.9
            * (-(x - midline + 0.25 * (y * 0.5).sin()).powi(2) / 0.5).exp()
            * smooth(4.0, 7.5, up);
        let soft = 0.30 * fbm(x * 0.26 + 3.0, y * 0.26, 2, seed ^ 31).v * smooth(0.2, 2.0, depth);
        let z =
            near * (1.0 - blend) + far * blend - 0.75 * (1.0 - blend) - 0.15 * blend + roots + lip
                - back
                + frenulum
                + soft;
        [d, z, 0.0, 0.0]
    });
    Body::slope_from_height(&mut form);
    let mut field = Grid::<4>::covering(
        [
            f64::from(x0),
            f64::from(top),
            f64::from(x1),
            f64::from(bottom),
        ],
        0.3,
    );
    field.fill(|[x, y]| {
        let (_, s) = locate(x);
        let up = follow(x, &|n| n.zenith) - y;
        [
            s.abs(),
            up,
            smooth(0.6, 1.0, s.abs()) * smooth(1.0, -1.5, up),
            0.0,
        ]
    });
    Some((place, form, field))
}
