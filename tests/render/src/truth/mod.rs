//! What is really there: outlines, axes and colours, computed from the bodies, not from the
//! picture. Coordinates are upright photo pixels, the centre of the first pixel is (0, 0).
//!
//! Zones: a pixel is projected on the line cervical→incisal; thirds are [0, ⅓), [⅓, ⅔), [⅔, 1];
//! pixels within 0.08·√area of the outline are left out. Colours are averaged as XYZ.

pub mod outline;
mod share;
mod types;
mod zones;

use crate::spec::SceneSpec;
use crate::world::World;
use crate::world::body::{Body, Kind};
use outline::Polygon;
use std::collections::BTreeMap;

pub use types::{Card, CardStep, PairTruth, Region, SceneTruth, Truth, ZoneTruth};
pub use zones::{INSET, zone_of, zone_pixels};

/// Scene and zones of a world.
pub struct Found {
    /// Card and measured regions.
    pub scene: SceneTruth,
    /// All crowns.
    pub crowns: Vec<Region>,
    /// Colours of all crowns.
    pub zones: BTreeMap<String, BTreeMap<String, ZoneTruth>>,
    /// Whole card.
    pub card_outline: Option<Polygon>,
    /// Visible part of the card.
    pub card_visible_share: f64,
}

/// Finds the truth of a built world.
pub fn find(spec: &SceneSpec, world: &World) -> Found {
    let mut out = Found {
        scene: SceneTruth {
            card: None,
            regions: Vec::new(),
        },
        crowns: Vec::new(),
        zones: BTreeMap::new(),
        card_outline: None,
        card_visible_share: 1.0,
    };
    for (i, body) in world.bodies.iter().enumerate() {
        match &body.kind {
            Kind::Crown(look) => {
                let Some((region, measured)) = region(spec, world, i, body, look) else {
                    continue;
                };
                out.zones
                    .insert(region.id.clone(), zones::zones(world, body, &region));
                if measured {
                    out.scene.regions.push(region.clone());
                }
                out.crowns.push(region);
            }
            Kind::Card {
                half_width, steps, ..
            } => {
                let Some(whole) = visible(spec, world, i, None) else {
                    continue;
                };
                let steps = (*steps).clamp(1, 6);
                let card = if steps == 1 {
                    let lab = zones::mean_lab(world, body, &whole);
                    Card {
                        outline: whole.clone(),
                        lab: Some(lab),
                        steps: Vec::new(),
                    }
                } else {
                    let w = f64::from(*half_width) * 2.0 / steps as f64;
                    let steps = (0..steps)
                        .filter_map(|k| {
                            let x0 = -f64::from(*half_width) + w * k as f64;
                            let outline =
                                visible(spec, world, i, Some([x0 + 0.06 * w, x0 + 0.94 * w]))?;
                            let lab = zones::mean_lab(world, body, &outline);
                            Some(CardStep { outline, lab })
                        })
                        .collect();
                    Card {
                        outline: Vec::new(),
                        lab: None,
                        steps,
                    }
                };
                out.scene.card = Some(card);
                out.card_visible_share = share::visible_share(world, i, &whole);
                out.card_outline = Some(whole);
            }
            _ => {}
        }
    }
    let rank = |r: &Region| (r.kind == "tab", r.id.clone());
    out.scene.regions.sort_by_key(rank);
    out.crowns.sort_by_key(rank);
    out
}

/// Visible outline of a body in pixels; `within` limits it to own x in millimetres.
fn visible(
    spec: &SceneSpec,
    world: &World,
    index: usize,
    within: Option<[f64; 2]>,
) -> Option<Polygon> {
    let body = &world.bodies[index];
    let px = world.mm_per_px;
    let step = (2.5_f64).max(f64::from(spec.width_px) / 1400.0);
    let b = body.bounds.map(f64::from);
    let corners =
        [[b[0], b[1]], [b[2], b[1]], [b[0], b[3]], [b[2], b[3]]].map(|[x, y]| world.px(x, y));
    let lo: [f64; 2] = std::array::from_fn(|k| {
        corners
            .iter()
            .map(|c| c[k])
            .fold(f64::INFINITY, f64::min)
            .max(-0.5)
            - 2.0 * step
    });
    let top = [
        f64::from(spec.width_px) - 0.5,
        f64::from(spec.height_px) - 0.5,
    ];
    let hi: [f64; 2] = std::array::from_fn(|k| {
        corners
            .iter()
            .map(|c| c[k])
            .fold(f64::NEG_INFINITY, f64::max)
            .min(top[k])
            + 2.0 * step
    });
    if hi[0] <= lo[0] + 4.0 * step || hi[1] <= lo[1] + 4.0 * step {
        return None;
    }
    let n = |k: usize| ((hi[k] - lo[k]) / step).ceil() as usize + 2;
    let field = |x: f64, y: f64| {
        let [mx, my] = world.mm(x, y);
        let mut d = distance(body, mx, my, within);
        for front in world.bodies[..index].iter().filter(|b| b.occludes) {
            let o = front.bounds;
            if (mx as f32) < o[0] || (my as f32) < o[1] || (mx as f32) > o[2] || (my as f32) > o[3]
            {
                continue;
            }
            d = d.max(-distance(front, mx, my, None));
        }
        let frame = (-0.5 - x).max(-0.5 - y).max(x - top[0]).max(y - top[1]) * px;
        d.max(frame) / px
    };
    let traced = outline::largest_contour(lo, step, n(0), n(1), field)?;
    Some(
        outline::simplify(&traced, 0.35)
            .iter()
            .map(|p| p.map(|v| (v * 100.0).round() / 100.0))
            .collect(),
    )
}

fn distance(body: &Body, x: f64, y: f64, within: Option<[f64; 2]>) -> f64 {
    let own = body.place.own(x as f32, y as f32);
    let d = f64::from(body.form.read(own[0], own[1])[0]);
    within.map_or(d, |[a, b]| {
        d.max(a - f64::from(own[0])).max(f64::from(own[0]) - b)
    })
}

fn region(
    spec: &SceneSpec,
    world: &World,
    index: usize,
    body: &Body,
    look: &crate::world::body::CrownLook,
) -> Option<(Region, bool)> {
    let outline = visible(spec, world, index, None)?;
    // Slivers at the frame or behind others are no regions.
    let whole = f64::from(look.form.half_width) * f64::from(look.form.length) * 2.0
        / (world.mm_per_px * world.mm_per_px);
    let least = if spec.scenery.is_some() { 0.01 } else { 0.25 };
    if outline::area(&outline).abs() < least * whole {
        return None;
    }
    let visible_share = share::visible_share(world, index, &outline);
    let at = |x: f32, y: f32| {
        let [wx, wy] = body.place.world(x, y);
        world.px(f64::from(wx), f64::from(wy))
    };
    let (a, b) = (
        at(0.0, -0.35 * look.form.length),
        at(0.0, 1.1 * look.form.length),
    );
    let steps = 600;
    let line = (0..=steps).map(|k| {
        let t = f64::from(k) / f64::from(steps);
        [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])]
    });
    let inside: Vec<[f64; 2]> = line.filter(|p| outline::contains(&outline, *p)).collect();
    let (cervical, incisal) = match (inside.first(), inside.last()) {
        (Some(c), Some(i)) => (*c, *i),
        // What is left lies beside the axis: its ends in the axis's direction.
        _ if spec.scenery.is_some() => share::ends(&outline, a, b)?,
        _ => return None,
    };
    let (kind, name, measured) = match (&look.tooth, &look.tab) {
        (Some(t), _) => (
            if t.restoration {
                "restoration"
            } else {
                "tooth"
            },
            t.fdi.to_string(),
            t.measured,
        ),
        (_, Some(t)) => ("tab", t.name.clone(), true),
        _ => return None,
    };
    Some((
        Region {
            id: body.id.clone(),
            kind: kind.to_owned(),
            name,
            outline,
            cervical,
            incisal,
            visible_share,
        },
        measured,
    ))
}

/// JSON with one line per innermost list.
///
/// # Errors
/// When serialising fails (its own words).
pub fn to_json(truth: &Truth) -> Result<String, String> {
    let long = serde_json::to_string_pretty(truth).map_err(|e| e.to_string())?;
    let mut out = String::with_capacity(long.len() / 2);
    let mut rest = long.as_str();
    while let Some(open) = rest.find('[') {
        let (before, from) = rest.split_at(open);
        out.push_str(before);
        let inner = from[1..].find(['[', ']', '{', '"']).map(|k| k + 1);
        match inner {
            Some(k) if from.as_bytes()[k] == b']' => {
                out.push('[');
                let list: Vec<&str> = from[1..k].split(',').map(str::trim).collect();
                out.push_str(&list.join(", "));
                out.push(']');
                rest = &from[k + 1..];
            }
            _ => {
                out.push('[');
                rest = &from[1..];
            }
        }
    }
    out.push_str(rest);
    out.push('\n');
    Ok(out)
}
