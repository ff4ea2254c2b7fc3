//! Blurs: the lens, places out of focus, light spreading around highlights, sharpening.

use super::Picture;
use rayon::prelude::*;

/// Gaussian of σ `s` pixels (nothing below 0.2).
pub fn gaussian(p: &mut Picture, s: f32) {
    if s < 0.2 {
        return;
    }
    let r = (s * 3.0).ceil() as isize;
    let raw: Vec<f32> = (-r..=r)
        .map(|i| (-0.5 * (i as f32 / s).powi(2)).exp())
        .collect();
    let sum: f32 = raw.iter().sum();
    convolve(p, &raw.iter().map(|v| v / sum).collect::<Vec<_>>());
}

/// Kernel (side, 1 − 2 side, side).
pub fn three(p: &mut Picture, side: f32) {
    convolve(p, &[side, 1.0 - 2.0 * side, side]);
}

fn convolve(p: &mut Picture, kernel: &[f32]) {
    let (w, h) = (p.w, p.h);
    let r = kernel.len() / 2;
    let mut across = vec![[0.0_f32; 3]; w * h];
    across
        .par_chunks_mut(w)
        .zip(p.rgb.par_chunks(w))
        .for_each(|(out, row)| {
            for (x, o) in out.iter_mut().enumerate() {
                let mut sum = [0.0; 3];
                for (k, weight) in kernel.iter().enumerate() {
                    let i = (x + k).saturating_sub(r).min(w - 1);
                    for c in 0..3 {
                        sum[c] += weight * row[i][c];
                    }
                }
                *o = sum;
            }
        });
    p.rgb.par_chunks_mut(w).enumerate().for_each(|(y, out)| {
        out.fill([0.0; 3]);
        for (k, weight) in kernel.iter().enumerate() {
            let j = (y + k).saturating_sub(r).min(h - 1);
            for (o, v) in out.iter_mut().zip(&across[j * w..(j + 1) * w]) {
                for c in 0..3 {
                    o[c] += weight * v[c];
                }
            }
        }
    });
}

/// The camera moves evenly along a straight path of `length` pixels.
pub fn motion(p: &mut Picture, length: f32, direction: f32) {
    let n = (length * 2.0).ceil().max(1.0) as usize;
    let (s, c) = direction.sin_cos();
    let (w, h) = (p.w, p.h);
    let from = p.clone();
    let steps: Vec<[f32; 2]> = (0..=n)
        .map(|i| {
            let t = (i as f32 / n as f32 - 0.5) * length;
            [t * c, t * s]
        })
        .collect();
    p.rgb.par_chunks_mut(w).enumerate().for_each(|(y, row)| {
        for (x, o) in row.iter_mut().enumerate() {
            let mut sum = [0.0_f32; 3];
            for [dx, dy] in &steps {
                let u = (x as f32 + dx).clamp(0.0, (w - 1) as f32);
                let v = (y as f32 + dy).clamp(0.0, (h - 1) as f32);
                let (i, j) = ((u as usize).min(w - 2), (v as usize).min(h - 2));
                let (a, b) = (u - i as f32, v - j as f32);
                let k = j * w + i;
                for (ch, total) in sum.iter_mut().enumerate() {
                    let q = |k: usize| from.rgb[k][ch];
                    *total += (q(k) * (1.0 - a) + q(k + 1) * a) * (1.0 - b)
                        + (q(k + w) * (1.0 - a) + q(k + w + 1) * a) * b;
                }
            }
            *o = sum.map(|v| v / steps.len() as f32);
        }
    });
}

/// Mean of square blocks of `f` pixels, with a weight per pixel.
fn shrink(
    p: &Picture,
    f: usize,
    weight: impl Fn(usize, &[f32; 3]) -> f32 + Sync,
    value: impl Fn(&[f32; 3]) -> [f32; 3] + Sync,
) -> (usize, usize, Vec<[f32; 4]>) {
    let (w, h) = (p.w.div_ceil(f), p.h.div_ceil(f));
    let mut out = vec![[0.0_f32; 4]; w * h];
    out.par_chunks_mut(w).enumerate().for_each(|(j, row)| {
        for y in j * f..((j + 1) * f).min(p.h) {
            for x in 0..p.w {
                let k = y * p.w + x;
                let px = &p.rgb[k];
                let m = weight(k, px);
                let v = value(px);
                let o = &mut row[x / f];
                for c in 0..3 {
                    o[c] += m * v[c];
                }
                o[3] += m;
            }
        }
        for (i, o) in row.iter_mut().enumerate() {
            let n = (f.min(p.w - i * f) * f.min(p.h - j * f)) as f32;
            *o = o.map(|v| v / n);
        }
    });
    (w, h, out)
}

fn soften(w: usize, h: usize, cells: &mut [[f32; 4]], s: f32) {
    let r = (s * 2.6).ceil().max(1.0) as isize;
    let kernel: Vec<f32> = (-r..=r)
        .map(|i| (-0.5 * (i as f32 / s).powi(2)).exp())
        .collect();
    let sum: f32 = kernel.iter().sum();
    let pass = |from: &[[f32; 4]], across: bool| {
        let mut out = vec![[0.0_f32; 4]; w * h];
        out.par_chunks_mut(w).enumerate().for_each(|(y, row)| {
            for (x, o) in row.iter_mut().enumerate() {
                for (k, weight) in kernel.iter().enumerate() {
                    let d = k as isize - r;
                    let (i, j) = if across {
                        (x as isize + d, y as isize)
                    } else {
                        (x as isize, y as isize + d)
                    };
                    let i = i.clamp(0, w as isize - 1) as usize;
                    let j = j.clamp(0, h as isize - 1) as usize;
                    for c in 0..4 {
                        o[c] += weight / sum * from[j * w + i][c];
                    }
                }
            }
        });
        out
    };
    let first = pass(cells, true);
    cells.copy_from_slice(&pass(&first, false));
}

fn enlarged(w: usize, h: usize, cells: &[[f32; 4]], f: usize, x: usize, y: usize) -> [f32; 4] {
    let at = |v: usize, n: usize| {
        let t = ((v as f32 + 0.5) / f as f32 - 0.5).clamp(0.0, (n - 1) as f32);
        let i = (t as usize).min(n.saturating_sub(2));
        (i, t - i as f32)
    };
    let ((i, u), (j, v)) = (at(x, w), at(y, h));
    let (i1, j1) = ((i + 1).min(w - 1), (j + 1).min(h - 1));
    std::array::from_fn(|c| {
        let top = cells[j * w + i][c] * (1.0 - u) + cells[j * w + i1][c] * u;
        let low = cells[j1 * w + i][c] * (1.0 - u) + cells[j1 * w + i1][c] * u;
        top * (1.0 - v) + low * v
    })
}

/// Softens what lies out of the plane of focus; what is far gathers light only from what is far.
pub fn defocus(p: &mut Picture, z: &[f32], focus: f32, px_per_mm: f32) {
    // Two depths: premolars, lips (8 mm) and the back of the mouth (22 mm).
    for (near, far, at) in [(4.0_f32, 10.0_f32, 7.0_f32), (11.0, 18.0, 22.0)] {
        let s = px_per_mm * at;
        if s < 0.7 {
            continue;
        }
        let share = |d: f32| ((d - near) / (far - near)).clamp(0.0, 1.0);
        let f = ((s / 1.6) as usize).clamp(1, 16);
        let (w, h, mut cells) = shrink(p, f, |k, _| share((z[k] - focus).abs()) + 1e-5, |v| *v);
        soften(w, h, &mut cells, s / f as f32);
        let width = p.w;
        p.rgb
            .par_chunks_mut(width)
            .enumerate()
            .for_each(|(y, row)| {
                for (x, px) in row.iter_mut().enumerate() {
                    let m = share((z[y * width + x] - focus).abs());
                    if m > 0.0 {
                        let e = enlarged(w, h, &cells, f, x, y);
                        for c in 0..3 {
                            px[c] = px[c] * (1.0 - m) + m * e[c] / e[3].max(1e-6);
                        }
                    }
                }
            });
    }
}

/// Light of strong highlights spread by lens and sensor: 1.5 % over a wide spot.
pub fn bloom(p: &mut Picture) {
    let f = (p.w / 450).clamp(2, 16);
    let (w, h, mut cells) = shrink(p, f, |_, _| 1.0, |v| v.map(|c| (c - 0.9).clamp(0.0, 6.0)));
    let narrow = {
        let mut c = cells.clone();
        soften(w, h, &mut c, 1.3);
        c
    };
    soften(w, h, &mut cells, 5.0);
    let width = p.w;
    p.rgb
        .par_chunks_mut(width)
        .enumerate()
        .for_each(|(y, row)| {
            for (x, px) in row.iter_mut().enumerate() {
                let (a, b) = (
                    enlarged(w, h, &narrow, f, x, y),
                    enlarged(w, h, &cells, f, x, y),
                );
                for c in 0..3 {
                    px[c] += 0.010 * a[c] + 0.008 * b[c];
                }
            }
        });
}

/// Unsharp masking of the brightness.
pub fn sharpen(p: &mut Picture, amount: f32) {
    let mut soft = p.clone();
    gaussian(&mut soft, 1.1);
    p.rgb
        .par_iter_mut()
        .zip(soft.rgb.par_iter())
        .for_each(|(v, s)| {
            let y = |c: &[f32; 3]| 0.25 * c[0] + 0.6 * c[1] + 0.15 * c[2];
            let d = amount * (y(v) - y(s)).clamp(-0.08, 0.08);
            *v = v.map(|c| (c + d).clamp(0.0, 1.0));
        });
}
