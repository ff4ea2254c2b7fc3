//! LUT profiles (ICC.1:2022 10.10 lut8Type, 10.11 lut16Type, 10.12 lutAToBType): device RGB to
//! XYZ of the profile connection space, in floating point.
//!
//! `moxcms` parses and bounds the tables; evaluating them here costs a few kilobytes of the
//! page, where its general transforms cost a hundred. Interpolation is tetrahedral, as in
//! LittleCMS, which the tests compare with.

use super::curve;
use crate::colour::adaptation::WHITE_ICC_PCS;
use crate::colour::order::insertion_sort;
use crate::colour::{Lab, Matrix3, Vec3};
use moxcms::{
    ColorProfile, DataColorSpace, LutDataType, LutMultidimensionalType, LutStore, LutType,
    LutWarehouse, ToneReprCurve,
};

/// Points of a one-dimensional table that a curve is sampled to.
const CURVE_POINTS: usize = 1024;

/// A pipeline from encoded RGB to PCS XYZ (D50, Y = 1 for the perfect diffuser).
pub struct Lut {
    input: [Vec<f64>; 3],
    grid: Grid,
    middle: Option<([Vec<f64>; 3], Matrix3, Vec3)>,
    output: [Vec<f64>; 3],
    pcs: Pcs,
}

/// How the last three numbers are to be read.
#[derive(Clone, Copy)]
enum Pcs {
    /// XYZ, 1 stands for 1 + 32767/32768.
    Xyz,
    /// Lab, 8-bit and v4: L* 0–100, a* and b* −128–127.
    Lab,
    /// Lab as lut16Type has it: L* 100 is 0xFF00.
    LabLegacy16,
}

/// A cube of RGB → three numbers, 0–1.
struct Grid {
    /// Points along red, green, blue.
    points: [usize; 3],
    values: Vec<f32>,
}

impl Lut {
    /// From a profile with an A2B table; the reason in words when it cannot be used.
    pub fn new(profile: &ColorProfile) -> Result<Self, String> {
        let table = profile
            .lut_a_to_b_colorimetric
            .as_ref()
            .or(profile.lut_a_to_b_perceptual.as_ref())
            .ok_or("its tables are missing")?;
        let lab = match profile.pcs {
            DataColorSpace::Lab => true,
            DataColorSpace::Xyz => false,
            _ => return Err("it connects through an unknown space".to_owned()),
        };
        let bad = || "its tables are damaged".to_owned();
        match table {
            LutWarehouse::Lut(t) => from_lut(t, lab).ok_or_else(bad),
            LutWarehouse::Multidimensional(t) => from_a_to_b(t, lab).ok_or_else(bad),
        }
    }

    /// XYZ in the connection space of one encoded RGB.
    pub fn xyz_pcs(&self, rgb: [f64; 3]) -> Vec3 {
        let mut v = each(&self.input, rgb);
        v = self.grid.at(v);
        if let Some((curves, matrix, bias)) = &self.middle {
            v = each(curves, v);
            let m = matrix.apply(v);
            v = [m[0] + bias[0], m[1] + bias[1], m[2] + bias[2]];
        }
        let [x, y, z] = each(&self.output, v);
        let full = 1.0 + 32_767.0 / 32_768.0;
        match self.pcs {
            Pcs::Xyz => [x * full, y * full, z * full],
            Pcs::Lab => {
                Lab::new(x * 100.0, y * 255.0 - 128.0, z * 255.0 - 128.0).to_xyz(WHITE_ICC_PCS)
            }
            Pcs::LabLegacy16 => {
                let wide = 65_535.0 / 256.0;
                Lab::new(x * 65_535.0 / 652.80, y * wide - 128.0, z * wide - 128.0)
                    .to_xyz(WHITE_ICC_PCS)
            }
        }
    }
}

fn from_lut(t: &LutDataType, lab: bool) -> Option<Lut> {
    if t.num_input_channels != 3 || t.num_output_channels != 3 {
        return None;
    }
    let tables = |store: &LutStore, entries: u16| {
        let all = unit(store);
        let mut parts = all.chunks_exact(usize::from(entries)).map(<[f64]>::to_vec);
        Some([parts.next()?, parts.next()?, parts.next()?])
    };
    let points = usize::from(t.num_clut_grid_points);
    Some(Lut {
        input: tables(&t.input_table, t.num_input_table_entries)?,
        grid: Grid::new([points; 3], &t.clut_table)?,
        middle: None,
        output: tables(&t.output_table, t.num_output_table_entries)?,
        pcs: match (lab, t.lut_type) {
            (false, _) => Pcs::Xyz,
            (true, LutType::Lut16) => Pcs::LabLegacy16,
            (true, _) => Pcs::Lab,
        },
    })
}

fn from_a_to_b(t: &LutMultidimensionalType, lab: bool) -> Option<Lut> {
    if t.num_input_channels != 3 || t.num_output_channels != 3 {
        return None;
    }
    let curves = |c: &[ToneReprCurve]| match c {
        [] => Some(identity()),
        [r, g, b] => Some([sample(r)?, sample(g)?, sample(b)?]),
        _ => None,
    };
    let grid = match &t.clut {
        Some(store) => {
            let [r, g, b, ..] = t.grid_points;
            Grid::new([r, g, b].map(usize::from), store)?
        }
        None => Grid::identity(),
    };
    let [x, y, z] = t.matrix.v;
    let bias = [t.bias.v[0], t.bias.v[1], t.bias.v[2]];
    Some(Lut {
        input: curves(&t.a_curves)?,
        grid,
        middle: Some((curves(&t.m_curves)?, Matrix3([x, y, z]), bias)),
        output: curves(&t.b_curves)?,
        pcs: if lab { Pcs::Lab } else { Pcs::Xyz },
    })
}

fn identity() -> [Vec<f64>; 3] {
    [vec![0.0, 1.0], vec![0.0, 1.0], vec![0.0, 1.0]]
}

fn sample(c: &ToneReprCurve) -> Option<Vec<f64>> {
    (0..CURVE_POINTS)
        .map(|i| curve::evaluate(c, i as f64 / (CURVE_POINTS - 1) as f64).filter(|v| v.abs() < 4.0))
        .collect()
}

fn unit(store: &LutStore) -> Vec<f64> {
    match store {
        LutStore::Store8(v) => v.iter().map(|c| f64::from(*c) / 255.0).collect(),
        LutStore::Store16(v) => v.iter().map(|c| f64::from(*c) / 65_535.0).collect(),
    }
}

fn each(tables: &[Vec<f64>; 3], v: Vec3) -> Vec3 {
    let [a, b, c] = tables;
    [look_up(a, v[0]), look_up(b, v[1]), look_up(c, v[2])]
}

fn look_up(table: &[f64], v: f64) -> f64 {
    let at = v.clamp(0.0, 1.0) * table.len().saturating_sub(1) as f64;
    let below = (at as usize).min(table.len().saturating_sub(2));
    let get = |i: usize| table.get(i).copied().unwrap_or(0.0);
    let (a, b) = (get(below), get(below + 1));
    a + (b - a) * (at - below as f64)
}

impl Grid {
    fn new(points: [usize; 3], store: &LutStore) -> Option<Self> {
        let values: Vec<f32> = unit(store).into_iter().map(|v| v as f32).collect();
        let fits =
            points.iter().all(|p| *p >= 2) && values.len() >= points.iter().product::<usize>() * 3;
        fits.then_some(Self { points, values })
    }

    /// The cube that changes nothing.
    fn identity() -> Self {
        let values = (0..8_u8)
            .flat_map(|i| [i >> 2 & 1, i >> 1 & 1, i & 1])
            .map(f32::from)
            .collect();
        Self {
            points: [2; 3],
            values,
        }
    }

    /// Tetrahedral interpolation: along the axes in the order of their shares.
    fn at(&self, v: Vec3) -> Vec3 {
        let [_, ng, nb] = self.points;
        let strides = [ng * nb * 3, nb * 3, 3];
        let mut corner = 0;
        let mut shares = [(0.0, 0_usize); 3];
        for (((share, value), n), stride) in shares.iter_mut().zip(v).zip(self.points).zip(strides)
        {
            let at = value.clamp(0.0, 1.0) * (n - 1) as f64;
            let below = (at as usize).min(n - 2);
            corner += below * stride;
            *share = (at - below as f64, stride);
        }
        insertion_sort(&mut shares, |a, b| a.0 > b.0);
        let node = |offset: usize| {
            let n = self
                .values
                .get(offset..offset + 3)
                .and_then(|n| n.as_array::<3>())
                .copied();
            n.unwrap_or_default().map(f64::from)
        };
        let mut out = node(corner);
        let mut previous = out;
        let mut offset = corner;
        for (share, stride) in shares {
            offset += stride;
            let next = node(offset);
            for ((o, n), p) in out.iter_mut().zip(next).zip(previous) {
                *o += share * (n - p);
            }
            previous = next;
        }
        out
    }
}
