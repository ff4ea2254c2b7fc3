//! The whole way from a specification to a file and its truth.

use crate::develop::{self, Picture};
use crate::spec::{Pair, SceneSpec};
use crate::truth::{self, PairTruth, Truth};
use crate::world::World;
use crate::world::build::invert;
use rayon::prelude::*;
use std::collections::BTreeMap;

/// One file.
#[derive(Clone)]
pub struct Photo {
    /// Encoded, stored orientation.
    pub bytes: Vec<u8>,
    /// Upright encoded pixels, 0–1, before rounding and compression.
    pub picture: Picture,
}

/// A rendered scene.
pub struct Rendered {
    /// The plain photo.
    pub plain: Photo,
    /// Its cross-polarised twin.
    pub polarised: Option<Photo>,
    /// What is really there.
    pub truth: Truth,
}

/// Renders a scene.
///
/// # Errors
/// When the file's encoder refuses.
pub fn render(spec: &SceneSpec) -> Result<Rendered, String> {
    let world = World::build(spec, None);
    let plain = photo(spec, &world, spec.exposure_ev, [1.0; 3])?;
    let found = truth::find(spec, &world);
    drop(world);
    let (mut polarised, mut pair) = (None, None);
    if let Some(p) = &spec.pair {
        let matrix = polarised_from_plain(spec, p);
        let second = second_spec(spec, p);
        let world = World::build(&second, Some(invert(&matrix)));
        polarised = Some(photo(&second, &world, p.exposure_ev, p.filter_gains)?);
        let found = truth::find(&second, &world);
        pair = Some(PairTruth {
            polarised_from_plain: matrix,
            scene: found.scene,
            zones: found.zones,
        });
    }
    let truth = Truth {
        scene: found.scene,
        zones: found.zones,
        crowns: found.crowns,
        card_outline: found.card_outline,
        card_visible_share: found.card_visible_share,
        pair,
        misnamed: None,
        guide: BTreeMap::new(),
        spec: spec.clone(),
    };
    Ok(Rendered {
        plain,
        polarised,
        truth,
    })
}

/// The matrix plain pixel → cross-polarised pixel.
pub fn polarised_from_plain(spec: &SceneSpec, p: &Pair) -> [[f64; 3]; 2] {
    let (s, c) = p.turn_deg.to_radians().sin_cos();
    let (a, b) = (p.scale * c, p.scale * s);
    let mid = [
        (f64::from(spec.width_px) - 1.0) / 2.0,
        (f64::from(spec.height_px) - 1.0) / 2.0,
    ];
    [
        [a, -b, mid[0] + p.shift_px[0] - a * mid[0] + b * mid[1]],
        [b, a, mid[1] + p.shift_px[1] - b * mid[0] - a * mid[1]],
    ]
}

fn second_spec(spec: &SceneSpec, p: &Pair) -> SceneSpec {
    let mut out = spec.clone();
    out.glare = spec.glare * p.residual_glare;
    if let Some(date) = &p.date {
        out.output.date.clone_from(date);
    }
    if let Some(card) = &mut out.card {
        card.centre_mm[0] += p.card_shift_mm[0];
        card.centre_mm[1] += p.card_shift_mm[1];
    }
    out
}

fn photo(
    spec: &SceneSpec,
    world: &World,
    exposure_ev: f64,
    filter: [f64; 3],
) -> Result<Photo, String> {
    let picture = match &spec.treatment {
        None => picture(spec, world, exposure_ev, filter),
        Some(t) => {
            let size = [spec.width_px, spec.height_px];
            let captured = if t.capture_scale == 1.0 {
                picture(spec, world, exposure_ev, filter)
            } else {
                // The same view on fewer or more pixels of the sensor.
                let mut other = spec.clone();
                let scaled = |v: u32| (f64::from(v) * t.capture_scale).round().max(16.0) as u32;
                (other.width_px, other.height_px) = (scaled(size[0]), scaled(size[1]));
                other.optics.defocus_px_per_mm *= t.capture_scale;
                let world = World::build(&other, None);
                picture(&other, &world, exposure_ev, filter)
            };
            let px_per_mm = f64::from(spec.width_px) / spec.frame.width_mm;
            develop::treat(&captured, t, size, px_per_mm)?
        }
    };
    let bytes = crate::file::encode(spec, &picture)?;
    Ok(Photo { bytes, picture })
}

/// Encoded upright numbers as the camera makes them.
fn picture(spec: &SceneSpec, world: &World, exposure_ev: f64, filter: [f64; 3]) -> Picture {
    let (mut raw, z) = expose(world, spec);
    develop::expose(spec, &mut raw, &z, exposure_ev, filter);
    let shares: Vec<f64> = world
        .lamps
        .iter()
        .map(|l| f64::from(l.power * l.toward[2]))
        .collect();
    let gains = develop::gains(spec, &world.viewer, &shares, f64::from(world.ambient), &raw);
    develop::develop(spec, &mut raw, gains);
    raw
}

/// The light on the sensor and the height of what is seen.
fn expose(world: &World, spec: &SceneSpec) -> (Picture, Vec<f32>) {
    const TILE: usize = 48;
    const BAND: usize = 16;
    let (w, h) = (spec.width_px as usize, spec.height_px as usize);
    let mut rgb = vec![[0.0_f32; 3]; w * h];
    let mut z = vec![0.0_f32; w * h];
    rgb.par_chunks_mut(w * BAND)
        .zip(z.par_chunks_mut(w * BAND))
        .enumerate()
        .for_each(|(band, (rows, heights))| {
            let y0 = band * BAND;
            let count = rows.len() / w;
            for x0 in (0..w).step_by(TILE) {
                let x1 = (x0 + TILE).min(w);
                let among = near(world, x0, x1, y0, y0 + count);
                for j in 0..count {
                    for x in x0..x1 {
                        let [mx, my] = world.mm(x as f64, (y0 + j) as f64);
                        let look = world.see(&among, mx as f32, my as f32);
                        rows[j * w + x] = look.raw;
                        heights[j * w + x] = look.z;
                    }
                }
            }
        });
    (Picture { w, h, rgb }, z)
}

/// Bodies whose box touches a tile.
fn near(world: &World, x0: usize, x1: usize, y0: usize, y1: usize) -> Vec<u16> {
    let mut b = [
        f64::INFINITY,
        f64::INFINITY,
        f64::NEG_INFINITY,
        f64::NEG_INFINITY,
    ];
    for (x, y) in [(x0, y0), (x1, y0), (x0, y1), (x1, y1)] {
        let [mx, my] = world.mm(x as f64, y as f64);
        b = [b[0].min(mx), b[1].min(my), b[2].max(mx), b[3].max(my)];
    }
    let b = b.map(|v| v as f32);
    (0..world.bodies.len() as u16)
        .filter(|&i| {
            let o = &world.bodies[i as usize].bounds;
            o[0] <= b[2] && o[2] >= b[0] && o[1] <= b[3] && o[3] >= b[1]
        })
        .collect()
}
