//! A region turned upright for the eye: axis vertical, cervical on top, balanced by the card.
//! Nothing is measured on these pictures.

use super::desk::shape_of;
use crate::colour::Matrix3;
use crate::colour::rgb_space::SRGB;
use crate::error::{Error, Result};
use crate::light::Correction;
use crate::photo::{Photo, Preview, srgb_encoder};
use crate::scene::{Point, Polygon, Region};

/// Heights that are made.
const HEIGHTS_PX: std::ops::RangeInclusive<u32> = 16..=2000;
/// Width may exceed height by this factor at most.
const MAX_ASPECT: f64 = 4.0;
/// Samples per side of an output pixel at most.
const MAX_SUPERSAMPLES: u32 = 4;

pub fn straighten(
    photo: &Photo,
    correction: Option<&Correction>,
    region: &Region,
    height_px: u32,
) -> Result<Preview> {
    if !HEIGHTS_PX.contains(&height_px) {
        return Err(Error::input(
            format!("A straightened picture can be 16 to 2000 pixels high, not {height_px}."),
            "Ask for another height.",
        ));
    }
    let (polygon, axis) = shape_of(region)?;
    let ([_, tx, ty], length) = (axis.along(), axis.length_px());
    let along_unit = [tx * length, ty * length];
    // Across, to the right when cervical is up.
    let across_unit = [-along_unit[1], along_unit[0]];
    let origin = axis.cervical;
    let project =
        |p: &Point| (p.x() - origin.x()) * across_unit[0] + (p.y() - origin.y()) * across_unit[1];
    let [left, right] = polygon
        .corners()
        .iter()
        .map(&project)
        .fold([0.0_f64; 2], |[l, r], u| [l.min(u), r.max(u)]);
    let scale = length / f64::from(height_px);
    let width_px = ((right - left) / scale)
        .ceil()
        .clamp(1.0, f64::from(height_px) * MAX_ASPECT) as u32;
    let srgb = srgb_from_linear(photo, correction);
    let samples = (scale.ceil() as u32).clamp(1, MAX_SUPERSAMPLES);
    let encode = srgb_encoder();

    let mut rgba = Vec::with_capacity(width_px as usize * height_px as usize * 4);
    for row in 0..height_px {
        for column in 0..width_px {
            let (mut sum, mut hits, mut tries) = ([0.0_f64; 3], 0_u32, 0_u32);
            for i in 0..samples {
                for j in 0..samples {
                    let part = |k: u32| (f64::from(k) + 0.5) / f64::from(samples);
                    let v = (f64::from(row) + part(i)) * scale;
                    // Mirrored across so that the picture is turned, not flipped.
                    let u = right - (f64::from(column) + part(j)) * scale;
                    let at = Point::new(
                        origin.x() + v * along_unit[0] + u * across_unit[0],
                        origin.y() + v * along_unit[1] + u * across_unit[1],
                    );
                    tries += 1;
                    if let Some(rgb) = sample_inside(photo, &polygon, at) {
                        for (s, c) in sum.iter_mut().zip(srgb.apply(rgb)) {
                            *s += c;
                        }
                        hits += 1;
                    }
                }
            }
            let n = f64::from(hits.max(1));
            rgba.extend(sum.map(|s| encode((s / n) as f32)));
            rgba.push((255 * hits / tries.max(1)) as u8);
        }
    }
    Ok(Preview {
        width: width_px,
        height: height_px,
        rgba,
    })
}

fn sample_inside(photo: &Photo, polygon: &Polygon, at: Point) -> Option<[f64; 3]> {
    if at.x() < -0.5 || at.y() < -0.5 || !polygon.contains(at) {
        return None;
    }
    let sample = photo.sample(at.x().round() as u32, at.y().round() as u32)?;
    Some(sample.linear_rgb.map(f64::from))
}

/// The matrix from the photo's linear RGB to linear sRGB, with the card's gains when known.
fn srgb_from_linear(photo: &Photo, correction: Option<&Correction>) -> Matrix3 {
    let xyz = photo.xyz_d65_from_linear_rgb();
    let srgb_from_xyz = SRGB
        .xyz_d65_from_linear_rgb()
        .inverse()
        .unwrap_or(Matrix3::IDENTITY);
    let matrix = srgb_from_xyz.times(&xyz);
    correction.map_or(matrix, |c| matrix.times(&Matrix3::diagonal(c.gains)))
}
