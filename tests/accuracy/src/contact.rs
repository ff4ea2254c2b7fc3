//! A contact sheet: small pictures side by side with what was found drawn over them.

use crate::finding::{Picture, SceneScore};
use image::{Rgb, RgbImage};

/// Width and height of a field.
const FIELD: [u32; 2] = [480, 420];
/// Fields in a row.
const ACROSS: u32 = 4;
/// Right outlines; wrong ones; what was missed.
const RIGHT: [u8; 3] = [240, 240, 240];
const WRONG: [u8; 3] = [255, 80, 200];
const MISSED: [u8; 3] = [80, 200, 255];

/// The sheet of some photos: right outlines white, wrong ones pink, a blue cross on what was
/// missed.
pub fn sheet(scores: &[&SceneScore]) -> RgbImage {
    let rows = (scores.len() as u32).div_ceil(ACROSS).max(1);
    let mut out = RgbImage::from_pixel(ACROSS * FIELD[0], rows * FIELD[1], Rgb([119; 3]));
    for (i, score) in (0..).zip(scores) {
        let corner = [i % ACROSS * FIELD[0], i / ACROSS * FIELD[1]];
        field(&mut out, corner, &score.picture);
    }
    out
}

fn field(out: &mut RgbImage, corner: [u32; 2], picture: &Picture) {
    let p = &picture.preview;
    let room = [FIELD[0] - 8, FIELD[1] - 8];
    let fit = (f64::from(room[0]) / f64::from(p.width))
        .min(f64::from(room[1]) / f64::from(p.height))
        .min(1.0);
    let (w, h) = (
        (f64::from(p.width) * fit) as u32,
        (f64::from(p.height) * fit) as u32,
    );
    for y in 0..h {
        for x in 0..w {
            let (sx, sy) = ((f64::from(x) / fit) as u32, (f64::from(y) / fit) as u32);
            let at = ((sy.min(p.height - 1) * p.width + sx.min(p.width - 1)) * 4) as usize;
            if let Some(&[r, g, b]) = p.rgba.get(at..at + 3).and_then(|v| v.first_chunk()) {
                out.put_pixel(corner[0] + x, corner[1] + y, Rgb([r, g, b]));
            }
        }
    }
    let scale = picture.scale * fit;
    let place = |v: [f64; 2]| v.map(|c| c * scale);
    let mut line = |a: [f64; 2], b: [f64; 2], ink: [u8; 3]| {
        let steps = (b[0] - a[0]).abs().max((b[1] - a[1]).abs()).ceil().max(1.0) as u32;
        for k in 0..=steps {
            let t = f64::from(k) / f64::from(steps);
            let (x, y) = (a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]));
            if x >= 0.0 && y >= 0.0 && (x as u32) < w && (y as u32) < h {
                out.put_pixel(corner[0] + x as u32, corner[1] + y as u32, Rgb(ink));
            }
        }
    };
    for (outline, right) in &picture.outlines {
        let ink = if *right { RIGHT } else { WRONG };
        for (a, b) in outline.iter().zip(outline.iter().cycle().skip(1)) {
            line(place(a.0), place(b.0), ink);
        }
    }
    for m in &picture.missed {
        let [x, y] = place(m.0);
        line([x - 5.0, y], [x + 5.0, y], MISSED);
        line([x, y - 5.0], [x, y + 5.0], MISSED);
    }
}
