//! Patches of known light: their means, what is dropped, and what is said of their evenness.

use super::*;
use crate::light::tests::grey_photo;
use crate::scene::Point;

const SIDE: u32 = 120;

/// Linear light of a code of sRGB (IEC 61966-2-1).
fn linear(code: u8) -> f64 {
    let v = f64::from(code) / 255.0;
    if v <= 0.040_45 {
        v / 12.92
    } else {
        libm::pow((v + 0.055) / 1.055, 2.4)
    }
}

fn grey(code: impl Fn(u32, u32) -> u8) -> (Option<Patch>, f64) {
    let outline =
        [[9.5, 9.5], [109.5, 9.5], [109.5, 109.5], [9.5, 109.5]].map(|[x, y]| Point::new(x, y));
    let polygon = Polygon::new(&outline, "The card's outline").expect("an outline");
    measure(&grey_photo(SIDE, SIDE, code), &polygon)
}

fn close(got: f64, want: f64, within: f64) {
    assert!((got - want).abs() <= within, "{got} should be {want}");
}

/// A tenth of the side stays out all around: 80 by 80 pixels are left.
#[test]
fn an_even_patch_is_read_within_its_edge() {
    let (patch, clipped) = grey(|x, y| {
        let inside = (20..100).contains(&x) && (20..100).contains(&y);
        if inside { 119 } else { 10 }
    });
    let patch = patch.expect("a patch");
    assert_eq!((patch.pixels, clipped), (6400, 0.0));
    for v in patch.linear_rgb {
        close(v, linear(119), 1e-5);
    }
    for none in [
        patch.clipped,
        patch.outliers,
        patch.unevenness,
        patch.texture,
    ] {
        assert_eq!(none, 0.0);
    }
    close(patch.inside, 1.0, 1e-9);
}

/// Print one code lighter is within the rounding of the file; nine codes lighter it is none of the
/// card. Every eighth column has it.
#[test]
fn what_is_far_from_the_rest_is_dropped() {
    let with = |print: u8| grey(|x, _| if x % 8 == 0 { print } else { 119 }).0;
    let far = with(128).expect("a patch");
    assert_eq!(far.pixels, 5600);
    close(far.outliers, 0.125, 1e-9);
    close(far.linear_rgb[1], linear(119), 1e-5);
    let near = with(120).expect("a patch");
    assert_eq!((near.pixels, near.outliers), (6400, 0.0));
    close(
        near.linear_rgb[1],
        0.875 * linear(119) + 0.125 * linear(120),
        1e-5,
    );
}

#[test]
fn what_is_too_bright_is_counted_and_left_out() {
    let (patch, clipped) = grey(|x, _| if x % 4 == 0 { 250 } else { 249 });
    let patch = patch.expect("a patch");
    assert_eq!((patch.pixels, clipped, patch.clipped), (4800, 0.25, 0.25));
    close(patch.linear_rgb[0], linear(249), 1e-5);
    let (none, clipped) = grey(|_, _| 255);
    assert!(none.is_none());
    assert_eq!(clipped, 1.0);
}

/// Lighter by a quarter from one side to the other, in either direction: the tenths lie in the outer
/// of six rows of cells, of which the inner two thirds are seen whole.
#[test]
fn light_that_runs_across_is_unevenness() {
    let code = |at: u32| 110 + (at / 6) as u8;
    for (patch, _) in [grey(|x, _| code(x)), grey(|_, y| code(y))] {
        let patch = patch.expect("a patch");
        let mean = |from: u32, to: u32| {
            (from..to).map(|at| linear(code(at))).sum::<f64>() / f64::from(to - from)
        };
        // The outer cells reach from 9.5 to 26.2 and from 92.8 on; what is read begins at 20.
        let want = (mean(93, 100) - mean(20, 27)) / linear(120);
        close(patch.unevenness, want, 0.004);
        assert!(patch.texture > 0.02 && patch.outliers == 0.0, "{patch:?}");
    }
}

#[test]
fn luminance_is_the_weighted_sum() {
    close(
        f64::from(dot([0.2, 0.7, 0.1], [0.5, 0.25, 1.0])),
        0.375,
        1e-6,
    );
}

/// 1.4826 times the median of the distances from the median; cells of few pixels do not count.
#[test]
fn spreads_are_robust() {
    let kept: Vec<(f32, [f32; 3], usize)> = [0.1_f32, 0.2, 0.2, 0.3, 9.0]
        .map(|y| (y, [y; 3], 0))
        .to_vec();
    let (middle, sigma) = middle_and_sigma(&kept).expect("values");
    close(middle, 0.2, 1e-6);
    close(sigma, 0.148_26, 1e-6);
    assert!(middle_and_sigma(&[]).is_none());
    let mut cells: Vec<(f64, u32)> = (0..11).map(|i| (12.0 * f64::from(i), 12)).collect();
    cells.push((1100.0, 11));
    close(spread(&cells), 8.0, 1e-6);
    assert_eq!(spread(&[]), 0.0);
}
