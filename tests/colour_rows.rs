//! Rows of pixels in `f32` against the same colours one by one in `f64`.

use proptest::prelude::*;
use tabside::colour::block::{BLOCK, LabFromSrgb8, delta_e_00_rows};
use tabside::colour::rgb_space::SRGB;
use tabside::colour::{Lab, delta_e_00};

type Rows = [Vec<f32>; 3];

fn lab_rows(codes: &[u8]) -> Rows {
    let mut rows = [(); 3].map(|()| vec![0.0; codes.len() / 3]);
    let [l, a, b] = &mut rows;
    LabFromSrgb8::new().row(codes, [l, a, b]);
    rows
}

/// The largest errors of L*, a*, b* over every so-many-th code.
fn largest_errors(stride: usize) -> [f64; 3] {
    let matrix = SRGB.xyz_d65_from_linear_rgb();
    let linear: Vec<f64> = (0..256)
        .map(|code| SRGB.transfer.linear_from_encoded(f64::from(code) / 255.0))
        .collect();
    let mut largest = [0.0_f64; 3];
    let all: Vec<usize> = (0..1 << 24).step_by(stride).collect();
    for some in all.chunks(1 << 16) {
        let codes: Vec<u8> = some
            .iter()
            .flat_map(|c| [(c >> 16) as u8, (c >> 8) as u8, *c as u8])
            .collect();
        let rows = lab_rows(&codes);
        for (i, code) in codes.chunks(3).enumerate() {
            let rgb = [0, 1, 2].map(|k: usize| linear[usize::from(code[k])]);
            let want = Lab::from_xyz_d65(matrix.apply(rgb));
            for ((most, row), want) in largest.iter_mut().zip(&rows).zip(want.0) {
                *most = most.max((f64::from(row[i]) - want).abs());
            }
        }
    }
    largest
}

/// 0.002 is a fifth of the last digit that is ever shown. 251 is prime: all codes of each channel
/// occur.
#[test]
fn lab_of_8_bit_codes() {
    let off = largest_errors(251);
    assert!(off.iter().all(|v| *v <= 0.002), "{off:?}");
    assert!(off.iter().all(|v| *v > 0.0), "nothing was compared");
}

/// All 16.7 million; seconds in a release build.
#[test]
#[ignore = "takes seconds; `cargo test --release --test colour_rows -- --ignored --nocapture`"]
fn lab_of_all_8_bit_codes() {
    let off = largest_errors(1);
    println!("largest errors of L*, a*, b*: {off:?}");
    assert!(off.iter().all(|v| *v <= 0.002), "{off:?}");
}

#[test]
fn rows_of_any_length() {
    let codes: Vec<u8> = (0..3 * (2 * BLOCK + 7)).map(|i| (i * 37) as u8).collect();
    let whole = lab_rows(&codes);
    for pixels in [0, 1, BLOCK - 1, BLOCK, BLOCK + 1, 2 * BLOCK + 7] {
        let rows = lab_rows(&codes[..3 * pixels]);
        let mut out = vec![-1.0; pixels + 1];
        let [l, a, b] = &rows;
        delta_e_00_rows([l, a, b], [b, l, a], &mut out);
        assert_eq!(out[pixels], -1.0, "beyond the rows nothing is written");
        for i in 0..pixels {
            let at = [l[i], a[i], b[i]];
            assert_eq!(at, [whole[0][i], whole[1][i], whole[2][i]], "{pixels}: {i}");
            assert_eq!(out[i], one([l[i], a[i], b[i]], [b[i], l[i], a[i]]));
        }
    }
}

fn one(first: [f32; 3], second: [f32; 3]) -> f32 {
    let ([l1, a1, b1], [l2, a2, b2]) = (first.map(|v| [v]), second.map(|v| [v]));
    let mut out = [0.0];
    delta_e_00_rows([&l1, &a1, &b1], [&l2, &a2, &b2], &mut out);
    out[0]
}

/// How far a pair's ΔE00 is off. Where hues are opposite to 0.01°, the mean hue flips: either side
/// will do.
fn off(first: [f32; 3], second: [f32; 3]) -> f64 {
    let [from, to] = [first, second].map(|v| Lab(v.map(f64::from)));
    let got = f64::from(one(first, second));
    [0.0, 1e-4, -1e-4]
        .into_iter()
        .filter(|turn| *turn == 0.0 || opposite(from, to))
        .map(|turn| {
            let to = Lab::new(to.l(), to.a() - turn * to.b(), to.b() + turn * to.a());
            (got - delta_e_00(from, to)).abs()
        })
        .fold(f64::INFINITY, f64::min)
}

fn opposite(from: Lab, to: Lab) -> bool {
    let cross = from.a() * to.b() - from.b() * to.a();
    let dot = from.a() * to.a() + from.b() * to.b();
    dot < 0.0 && cross.abs() < 2e-4 * dot.abs()
}

#[test]
fn the_34_published_pairs() {
    let mut pairs = 0;
    for line in include_str!("../fixtures/reference/ciede2000_34_pairs.csv").lines() {
        let Ok([l1, a1, b1, l2, a2, b2, want]) = <[f32; 7]>::try_from(
            line.split(',')
                .filter_map(|n| n.trim().parse().ok())
                .collect::<Vec<f32>>(),
        ) else {
            continue;
        };
        let (first, second) = ([l1, a1, b1], [l2, a2, b2]);
        pairs += 1;
        for (first, second) in [(first, second), (second, first)] {
            let off = off(first, second);
            assert!(off <= 0.001, "{first:?} {second:?}, printed {want}: {off}");
        }
    }
    assert_eq!(pairs, 34);
}

/// Any colour, neutrals and nearly neutral ones among them.
fn colour() -> impl Strategy<Value = [f32; 3]> {
    let l = 0.0_f32..100.0;
    prop_oneof![
        4 => (l.clone(), -110.0_f32..110.0, -110.0_f32..110.0),
        1 => (l.clone(), Just(0.0), Just(0.0)),
        1 => (l.clone(), -0.01_f32..0.01, -0.01_f32..0.01),
        1 => (l, -1.0_f32..30.0, Just(0.0)),
    ]
    .prop_map(|(l, a, b)| [l, a, b])
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(4000))]

    #[test]
    fn any_pair(first in colour(), second in colour()) {
        let off = off(first, second);
        prop_assert!(off <= 0.001, "{off}");
    }

    /// As between two pictures of one thing.
    #[test]
    fn close_pairs(first in colour(), by in prop::array::uniform3(-3.0_f32..3.0)) {
        let second = [0, 1, 2].map(|k: usize| first[k] + by[k]);
        let off = off(first, second);
        prop_assert!(off <= 0.001, "{off}");
    }

    /// Hues on both sides of 0°, around 180° from each other, and about 275°, where hue and chroma
    /// turn into each other.
    #[test]
    fn around_the_hue_circle(
        l in 0.0_f32..100.0,
        chroma in prop::array::uniform2(0.0_f32..120.0),
        start in prop_oneof![Just(0.0_f32), Just(180.0), Just(275.0), Just(95.0)],
        by in prop::array::uniform2(-20.0_f32..20.0),
        turned in prop_oneof![Just(0.0_f32), Just(180.0), Just(90.0)],
    ) {
        let at = |c: f32, degrees: f32| {
            let h = degrees.to_radians();
            [l, c * h.cos(), c * h.sin()]
        };
        let off = off(at(chroma[0], start + by[0]), at(chroma[1], start + by[1] + turned));
        prop_assert!(off <= 0.001, "{off}");
    }
}
