//! What the surface of each body is like at a place: shares of its inks, brightness, fine
//! slopes, gloss.

mod around;
mod crown;
mod props;
mod things;
mod tissue;

use super::body::{Body, Kind};
use crate::noise::value;

/// Surface at a place (own axes).
#[derive(Debug, Clone, Copy)]
pub struct Paint {
    /// Shares of the inks.
    pub ink: [f32; 6],
    /// Brightness factor of the diffuse reflectance.
    pub k: f32,
    /// Fine slope to add to the form's.
    pub slope: [f32; 2],
    /// Fine slope seen by the gloss alone.
    pub gloss_slope: [f32; 2],
    /// Surface reflectance at normal incidence.
    pub f0: f32,
    /// Softness of the gloss, radians.
    pub soft: f32,
    /// How far light wraps around (translucency), 0–1.
    pub wrap: f32,
}

impl Default for Paint {
    fn default() -> Self {
        Self {
            ink: [1.0, 0.0, 0.0, 0.0, 0.0, 0.0],
            k: 1.0,
            slope: [0.0; 2],
            gloss_slope: [0.0; 2],
            f0: 0.04,
            soft: 0.08,
            wrap: 0.2,
        }
    }
}

/// Surface of `body` at own place (x, y) with form (distance, z, slopes).
pub fn paint(body: &Body, x: f32, y: f32, form: [f32; 4]) -> Paint {
    match &body.kind {
        Kind::Crown(look) if look.metal => props::metal(look.gloss, body.seed, x, y, form),
        Kind::Crown(look) => crown::crown(look, body.seed, x, y, form),
        Kind::Stem {
            steel,
            label,
            length,
        } => things::stem(*steel, label.as_deref(), *length, body.seed, x, y),
        Kind::Gum {
            field,
            stipple,
            inflammation,
            pigment,
        } => tissue::gum(
            field.read(x, y),
            *stipple,
            [*inflammation, *pigment],
            body.seed,
            x,
            y,
            form,
        ),
        Kind::Lip => tissue::lip(body.seed, x, y, form),
        Kind::Face { red, half_width } => {
            let width = crate::world::around::red_width(*red, x / half_width, y);
            around::face(width, body.seed, x, y, form)
        }
        Kind::Prop { surface, half } => props::prop(*surface, *half, body.seed, x, y, form),
        Kind::Tongue => tissue::tongue(body.seed, x, y),
        Kind::Cavity => Paint {
            ink: [0.2, 0.0, 0.4, 0.0, 0.4, 0.0],
            k: 0.30 + 0.12 * value(x * 0.1, y * 0.1, body.seed).v,
            f0: 0.0,
            ..Paint::default()
        },
        Kind::Card {
            half_width,
            steps,
            face,
        } => things::face(
            *face,
            things::card(*half_width, *steps, body.seed, x, y),
            body.seed,
            x,
            y,
        ),
    }
}
