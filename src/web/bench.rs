//! Kernels of `colour::block` over a whole picture, for `www/bench/colour.mjs`. Not in the page's
//! build.

use crate::colour::block::{LabFromSrgb8, delta_e_00_rows};
use wasm_bindgen::prelude::*;

/// Pixels that are handed to a kernel at once.
const ROW_PX: usize = 4000;

/// Two pictures of 8-bit sRGB codes, CIELAB of both, and ΔE00 between them.
#[wasm_bindgen]
pub struct ColourBench {
    codes: [Vec<u8>; 2],
    lab: [[Vec<f32>; 3]; 2],
    difference: Vec<f32>,
}

#[wasm_bindgen]
impl ColourBench {
    /// Pictures of so many pixels, whose codes are the upper 8 bits of a linear congruential
    /// generator (Numerical Recipes' constants) started at 1 and at 2.
    #[wasm_bindgen(constructor)]
    pub fn new(pixels: usize) -> Self {
        let codes = |seed: u32| {
            let mut state = seed;
            let next = || {
                state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
                (state >> 24) as u8
            };
            std::iter::repeat_with(next).take(3 * pixels).collect()
        };
        let rows = || [(); 3].map(|()| vec![0.0; pixels]);
        Self {
            codes: [codes(1), codes(2)],
            lab: [rows(), rows()],
            difference: vec![0.0; pixels],
        }
    }

    /// CIELAB of the first (0) or second (1) picture.
    pub fn srgb8_to_lab(&mut self, which: usize) {
        let kernel = LabFromSrgb8::new();
        if let (Some(codes), Some([l, a, b])) = (self.codes.get(which), self.lab.get_mut(which)) {
            let rows = l
                .chunks_mut(ROW_PX)
                .zip(a.chunks_mut(ROW_PX))
                .zip(b.chunks_mut(ROW_PX));
            for (codes, ((l, a), b)) in codes.chunks(3 * ROW_PX).zip(rows) {
                kernel.row(codes, [l, a, b]);
            }
        }
    }

    /// ΔE00 between both.
    pub fn delta_e_00(&mut self) {
        let [first, second] = self
            .lab
            .each_ref()
            .map(|[l, a, b]| [&l[..], &a[..], &b[..]]);
        delta_e_00_rows(first, second, &mut self.difference);
    }

    /// Mean L* of the first picture and mean ΔE00.
    pub fn means(&self) -> Vec<f64> {
        let mean = |v: &[f32]| v.iter().map(|v| f64::from(*v)).sum::<f64>() / v.len() as f64;
        let [[l, _, _], _] = &self.lab;
        vec![mean(l), mean(&self.difference)]
    }
}
