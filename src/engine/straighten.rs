//! A region turned upright for the eye: axis vertical, cervical on top, balanced by the card.
//! Nothing is measured on these pictures.

use super::desk::shape_of;
use super::recolour::Recolour;
use crate::colour::Matrix3;
use crate::colour::rgb_space::SRGB;
use crate::error::{Error, Result};
use crate::light::Correction;
use crate::photo::{Photo, Preview, srgb_encoder};
use crate::scene::polygon::RowScratch;
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
    recolour: Option<&Recolour<'_>>,
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

    // The outline on the grid of samples, so that each row of samples is a few spans.
    let per_sample = scale / f64::from(samples);
    let upright: Vec<Point> = polygon
        .corners()
        .iter()
        .map(|p| {
            let (dx, dy) = (p.x() - origin.x(), p.y() - origin.y());
            let v = dx * along_unit[0] + dy * along_unit[1];
            Point::new(
                (right - project(p)) / per_sample - 0.5,
                v / per_sample - 0.5,
            )
        })
        .collect();
    let grid = Polygon::new(&upright, "The straightened outline")?;
    let (mut scratch, mut spans) = (RowScratch::default(), Vec::new());

    let mut rgba = vec![0_u8; width_px as usize * height_px as usize * 4];
    let mut sums = vec![([0.0_f64; 3], 0_u32); width_px as usize];
    for (row, line) in (0..height_px).zip(rgba.chunks_exact_mut(width_px as usize * 4)) {
        sums.fill(([0.0; 3], 0));
        for i in row * samples..(row + 1) * samples {
            grid.row_spans(i, 0.0, width_px * samples, &mut scratch, &mut spans);
            let v = (f64::from(i) + 0.5) * per_sample;
            for j in spans.iter().flat_map(|s| s.x0..s.x1) {
                // Counted from the right so that the picture is turned, not mirrored.
                let u = right - (f64::from(j) + 0.5) * per_sample;
                let x = origin.x() + v * along_unit[0] + u * across_unit[0];
                let y = origin.y() + v * along_unit[1] + u * across_unit[1];
                if x < -0.5 || y < -0.5 {
                    continue;
                }
                // Half up: both are at least −0.5 here.
                let sample = photo.sample((x + 0.5) as u32, (y + 0.5) as u32);
                if let (Some(sample), Some((sum, hits))) =
                    (sample, sums.get_mut((j / samples) as usize))
                {
                    for (s, c) in sum.iter_mut().zip(sample.linear_rgb) {
                        *s += f64::from(c);
                    }
                    *hits += 1;
                }
            }
        }
        let along = (f64::from(row) + 0.5) / f64::from(height_px);
        for (column, (pixel, (sum, hits))) in line
            .as_chunks_mut::<4>()
            .0
            .iter_mut()
            .zip(&sums)
            .enumerate()
        {
            let n = f64::from((*hits).max(1));
            let mean = sum.map(|s| s / n);
            let mut shown = srgb.apply(mean);
            if let Some(recolour) = recolour.filter(|_| *hits > 0) {
                let across = (right - (column as f64 + 0.5) * scale) / length;
                for (c, ratio) in shown.iter_mut().zip(recolour.ratio(along, across, mean)) {
                    *c *= ratio;
                }
            }
            let [r, g, b] = shown.map(|c| encode(c as f32));
            *pixel = [r, g, b, (255 * hits / (samples * samples)).min(255) as u8];
        }
    }
    Ok(Preview {
        width: width_px,
        height: height_px,
        rgba,
    })
}

/// The matrix from the photo's linear RGB to linear sRGB, with the card's gains when known.
pub fn srgb_from_linear(photo: &Photo, correction: Option<&Correction>) -> Matrix3 {
    let xyz = photo.xyz_d65_from_linear_rgb();
    let srgb_from_xyz = SRGB
        .xyz_d65_from_linear_rgb()
        .inverse()
        .unwrap_or(Matrix3::IDENTITY);
    let matrix = srgb_from_xyz.times(&xyz);
    correction.map_or(matrix, |c| matrix.times(&Matrix3::diagonal(c.gains)))
}
