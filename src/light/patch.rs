//! One grey patch of a photo: its mean in linear light, and how fit it is to balance on.

use crate::colour::order::{median, quantile};
use crate::photo::Photo;
use crate::scene::pixels::{for_each_sample, share_inside};
use crate::scene::polygon::Polygon;

/// Encoded value from which a channel counts as clipped (250 of 255).
pub const CLIPPED_PEAK: f32 = 250.0 / 255.0;
/// The patch is read inside this share of √area from its outline, away from its edge, the
/// shadow there, and an outline drawn a little too wide.
const INSET_SHARE: f64 = 0.10;
/// Samples that are enough for a patch; larger patches are read in strides.
const ENOUGH_SAMPLES: f64 = 150_000.0;
/// Cells along each side for judging evenness.
const CELLS: usize = 6;
/// Pixels a cell needs to count.
const CELL_MIN_PIXELS: u32 = 12;

/// What was measured on one grey patch.
#[derive(Debug, Clone, PartialEq)]
pub struct Patch {
    /// Mean of the used pixels, linear RGB of the photo.
    pub linear_rgb: [f64; 3],
    /// Pixels used.
    pub pixels: u32,
    /// Share of its pixels dropped because a channel was clipped.
    pub clipped: f64,
    /// Share dropped as glare, dirt or print (far from the middle of the rest).
    pub outliers: f64,
    /// Spread between the darkest and the lightest tenth of its cells, relative to the mean.
    pub unevenness: f64,
    /// Pixel-to-pixel spread (robust standard deviation) relative to the mean.
    pub texture: f64,
    /// Share of the outline's area that lies in the photo.
    pub inside: f64,
}

/// Measures a patch. `None` when no usable pixel is left; the second value then still says how
/// much was clipped.
pub fn measure(photo: &Photo, polygon: &Polygon) -> (Option<Patch>, f64) {
    let inset_px = INSET_SHARE * polygon.area_px().sqrt();
    let stride = (polygon.area_px() / ENOUGH_SAMPLES)
        .sqrt()
        .ceil()
        .clamp(1.0, 64.0) as u32;
    let luminance = luminance_weights(photo);
    let [x0, y0, x1, y1] = polygon.bounds();
    let cell_of = |x: u32, y: u32| {
        let place = |v: f64, lo: f64, hi: f64| {
            (((v - lo) / (hi - lo).max(1e-9) * CELLS as f64) as usize).min(CELLS - 1)
        };
        place(f64::from(y), y0, y1) * CELLS + place(f64::from(x), x0, x1)
    };

    let mut kept: Vec<(f32, [f32; 3], usize)> = Vec::new();
    let mut clipped = 0_u32;
    for_each_sample(photo, polygon, inset_px, stride, |x, y, s| {
        if s.peak >= CLIPPED_PEAK {
            clipped += 1;
        } else {
            let y_lin = dot(luminance, s.linear_rgb);
            kept.push((y_lin, s.linear_rgb, cell_of(x, y)));
        }
    });
    let total = kept.len() as f64 + f64::from(clipped);
    let clipped_share = if total > 0.0 {
        f64::from(clipped) / total
    } else {
        0.0
    };
    let Some((middle, sigma)) = middle_and_sigma(&kept) else {
        return (None, clipped_share);
    };

    // Pixels far from the middle are glare, dirt, print or a drawn edge. On a dark, even step most
    // pixels share one code of the file, and the next code is no outlier.
    let reach = (3.0 * sigma)
        .max(0.02 * middle)
        .max(2.0 * photo.code_step_linear(middle));
    let mut sum = [0.0_f64; 3];
    let mut used = 0_u32;
    let mut cells = [(0.0_f64, 0_u32); CELLS * CELLS];
    for (y_lin, rgb, cell) in &kept {
        if (f64::from(*y_lin) - middle).abs() > reach {
            continue;
        }
        for (s, v) in sum.iter_mut().zip(rgb) {
            *s += f64::from(*v);
        }
        used += 1;
        if let Some((cell_sum, n)) = cells.get_mut(*cell) {
            *cell_sum += f64::from(*y_lin);
            *n += 1;
        }
    }
    if used == 0 {
        return (None, clipped_share);
    }
    let mean = sum.map(|s| s / f64::from(used));
    let patch = Patch {
        linear_rgb: mean,
        pixels: used.saturating_mul(stride.saturating_mul(stride)),
        clipped: clipped_share,
        outliers: 1.0 - f64::from(used) / kept.len() as f64,
        unevenness: spread(&cells) / middle.max(1e-9),
        texture: sigma / middle.max(1e-9),
        inside: share_inside(polygon, photo.width_px(), photo.height_px()),
    };
    (Some(patch), clipped_share)
}

/// Weights that turn the photo's linear RGB into luminance.
pub fn luminance_weights(photo: &Photo) -> [f32; 3] {
    let [_, y_row, _] = photo.xyz_d65_from_linear_rgb().0;
    y_row.map(|w| w as f32)
}

fn dot(w: [f32; 3], v: [f32; 3]) -> f32 {
    w[0] * v[0] + w[1] * v[1] + w[2] * v[2]
}

/// Median and robust standard deviation (1.4826 · median absolute deviation).
fn middle_and_sigma(kept: &[(f32, [f32; 3], usize)]) -> Option<(f64, f64)> {
    let mut values: Vec<f32> = kept.iter().map(|k| k.0).collect();
    let middle = median(&mut values)?;
    for v in &mut values {
        *v = (*v - middle).abs();
    }
    let deviation = median(&mut values)?;
    Some((f64::from(middle), 1.4826 * f64::from(deviation)))
}

/// Lightest minus darkest tenth of the cells' means.
fn spread(cells: &[(f64, u32)]) -> f64 {
    let mut means: Vec<f32> = cells
        .iter()
        .filter(|(_, n)| *n >= CELL_MIN_PIXELS)
        .map(|(sum, n)| (sum / f64::from(*n)) as f32)
        .collect();
    let (low, high) = (quantile(&mut means, 0.1), quantile(&mut means, 0.9));
    low.zip(high)
        .map_or(0.0, |(low, high)| f64::from(high - low))
}

#[cfg(test)]
mod tests;
