//! A picture of a pair for the eye, in the plain photo's frame: the glare that the plain photo
//! shows against the cross-polarised one. Nothing is measured on it.

use super::Engine;
use super::pair::{carry_point, transform_of};
use crate::error::{Error, Result};
use crate::light::Correction;
use crate::photo::{Preview, Reduced, srgb_encoder};
use crate::scene::{Point, Scene};

/// Linear light of a perfect diffuser that shows as white on the glare map.
const WHITE_GLARE: f64 = 0.3;
/// Grey of no glare on the map, linear.
const NO_GLARE: f64 = 0.05;

/// Plain less cross-polarised: dark grey for none, white for much.
pub fn glare_map(engine: &mut Engine, id: u32, scene: &Scene, max_px: usize) -> Result<Preview> {
    let no_pair = || {
        Error::input(
            "There is no cross-polarised photo that lies over this one.",
            "Open the cross-polarised photo of the same scene, or lay it over by hand.",
        )
    };
    let (partner, transform) = transform_of(engine, id, scene)?.ok_or_else(no_pair)?;
    let carried = super::pair::carried(scene, &transform);
    let other = engine.desk_mut(partner)?;
    let over = other.reduced();
    let over_card = other.correction(carried.card.as_ref(), &mut Vec::new())?;
    let desk = engine.desk_mut(id)?;
    let plain = desk.reduced();
    let plain_card = desk.correction(scene.card.as_ref(), &mut Vec::new())?;
    let pixels = plain.width as usize * plain.height as usize;
    let step = (pixels as f64 / max_px.max(1) as f64)
        .sqrt()
        .ceil()
        .max(1.0) as u32;
    let (width, height) = ((plain.width / step).max(1), (plain.height / step).max(1));
    let encode = srgb_encoder();
    let mut rgba = Vec::with_capacity(width as usize * height as usize * 4);
    for y in 0..height {
        for x in 0..width {
            let (rx, ry) = (x * step, y * step);
            let at = Point(plain.photo_from_reduced([f64::from(rx), f64::from(ry)]));
            let there = carry_point(at, &transform);
            let below = over_pixel(&over, there);
            let pixel = below.map_or([0; 4], |rgb| {
                let own = plain
                    .linear_rgb
                    .get((ry * plain.width + rx) as usize)
                    .map_or([0.0; 3], |v| v.map(f64::from));
                let level = |rgb: [f64; 3], by: Option<&Correction>| {
                    by.map_or(rgb[1], |c| c.luminance(c.balanced(rgb)))
                };
                let glare = level(own, plain_card.as_ref()) - level(rgb, over_card.as_ref());
                let share = (glare / WHITE_GLARE).clamp(0.0, 1.0);
                let code = encode((NO_GLARE + (1.0 - NO_GLARE) * share) as f32);
                [code, code, code, u8::MAX]
            });
            rgba.extend(pixel);
        }
    }
    Ok(Preview {
        width,
        height,
        rgba,
    })
}

/// The reduced pixel at a place of the photo, between its four neighbours.
fn over_pixel(from: &Reduced, at: Point) -> Option<[f64; 3]> {
    let [x, y] = from.reduced_from_photo(at.0);
    let inside = x >= 0.0
        && y >= 0.0
        && x <= f64::from(from.width) - 1.0
        && y <= f64::from(from.height) - 1.0;
    if !inside {
        return None;
    }
    let (x0, y0) = (x as u32, y as u32);
    let (fx, fy) = (x - f64::from(x0), y - f64::from(y0));
    let mut sum = [0.0; 3];
    for (dx, wx) in [(0, 1.0 - fx), (1, fx)] {
        for (dy, wy) in [(0, 1.0 - fy), (1, fy)] {
            let (px, py) = (
                (x0 + dx).min(from.width - 1),
                (y0 + dy).min(from.height - 1),
            );
            let rgb = from.linear_rgb.get((py * from.width + px) as usize)?;
            for (s, v) in sum.iter_mut().zip(rgb) {
                *s += wx * wy * f64::from(*v);
            }
        }
    }
    Some(sum)
}
