//! Edges of known blur, measured; outlines walked; and what is said of them.

use super::*;
use crate::light::tests::grey_photo;

const SIDE: u32 = 240;
const RADIUS: f64 = 70.0;
/// 10 % to 90 % of a Gaussian edge, in σ; what is measured stands for it
/// within an eighth on a straight edge, since profiles are taken in whole samples, and within a quarter on a round one.
const RISE_OF_SIGMA: f64 = 2.563;

/// Share of a normal spread below x.
fn below(x: f64) -> f64 {
    0.5 * (1.0 + libm::erf(x * std::f64::consts::FRAC_1_SQRT_2))
}

/// The code of sRGB for linear light.
fn code(linear: f64) -> u8 {
    let v = if linear <= 0.003_130_8 {
        12.92 * linear
    } else {
        1.055 * libm::pow(linear, 1.0 / 2.4) - 0.055
    };
    (255.0 * v).round() as u8
}

fn photo(width: u32, height: u32, root: impl Fn(f64, f64) -> f64) -> Photo {
    grey_photo(width, height, |x, y| {
        let root = root(f64::from(x), f64::from(y));
        code(root * root)
    })
}

/// A light disc on a dark ground, blurred by σx and σy.
fn disc(sigma_x: f64, sigma_y: f64) -> Photo {
    let middle = f64::from(SIDE) / 2.0;
    photo(SIDE, SIDE, |x, y| {
        let (dx, dy) = (x - middle, y - middle);
        let r = libm::hypot(dx, dy).max(1e-9);
        let sigma = libm::hypot(sigma_x * dx / r, sigma_y * dy / r);
        0.35 + 0.4 * below((RADIUS - r) / sigma)
    })
}

fn circle(radius: f64) -> Polygon {
    let middle = f64::from(SIDE) / 2.0;
    let corners: Vec<Point> = (0..120)
        .map(|i| {
            let (s, c) = (f64::from(i) * std::f64::consts::TAU / 120.0).sin_cos();
            Point::new(middle + radius * c, middle + radius * s)
        })
        .collect();
    Polygon::new(&corners, "The circle").expect("a polygon")
}

/// Drawn four times, not quite on the edge, as by hand: one circle alone has too few edges of a direction.
fn circles() -> Vec<Polygon> {
    [-1.0, 0.0, 1.0, 2.0].map(|off| circle(RADIUS + off)).into()
}

#[test]
fn blur_is_measured_as_it_is() {
    for sigma in [2.0, 3.0, 4.0, 6.0] {
        let found = measure_sharpness(&disc(sigma, sigma), &circles()).expect("edges");
        let want = RISE_OF_SIGMA * sigma;
        assert!(
            (found.rise_px / want - 1.0).abs() < 0.25,
            "σ {sigma}: {found:?}"
        );
        assert!((found.share_of_width * 2.0 * (RADIUS + 0.5) / found.rise_px - 1.0).abs() < 0.02);
        assert!(found.unlikeness < 1.15, "{found:?}");
        assert!(found.edges >= 12, "{found:?}");
    }
}

#[test]
fn a_shake_is_told_by_its_direction() {
    for (x, y) in [(7.0, 2.0), (2.0, 7.0)] {
        let found = measure_sharpness(&disc(x, y), &circles()).expect("edges");
        assert!(
            found.unlikeness > SHAKE_RATIO && found.unlikeness < 3.5,
            "{found:?}"
        );
        assert!(
            (found.rise_px / (RISE_OF_SIGMA * 7.0) - 1.0).abs() < 0.25,
            "{found:?}"
        );
    }
}

#[test]
fn nothing_is_measured_where_there_is_no_edge() {
    let flat = photo(SIDE, SIDE, |_, _| 0.5);
    assert_eq!(measure_sharpness(&flat, &[circle(RADIUS)]), None);
    assert_eq!(measure_sharpness(&flat, &[]), None);
    // An outline that hangs out of the photo has no whole profile beyond its side.
    let half = measure_sharpness(
        &disc(2.0, 2.0),
        &[circles(), vec![circle(4.0 * RADIUS)]].concat(),
    )
    .expect("edges");
    assert!(
        (half.rise_px / (RISE_OF_SIGMA * 2.0) - 1.0).abs() < 0.25,
        "{half:?}"
    );
}

fn profile(sigma: f64, contrast: f64) -> impl Fn(f64, f64) -> Option<f32> {
    move |x: f64, _: f64| Some((0.4 + contrast * below(x / sigma)) as f32)
}

#[test]
fn an_edge_is_found_beside_its_outline() {
    let width = 200.0;
    for off in [-8.0, -3.0, 0.0, 3.0, 8.0] {
        for (normal, sign) in [([1.0, 0.0], 1.0), ([-1.0, 0.0], -1.0)] {
            let found = rise(
                &profile(4.0, 0.3),
                Point::new(sign * off, 50.0),
                normal,
                width,
            )
            .expect("an edge");
            assert!(
                (f64::from(found) / (RISE_OF_SIGMA * 4.0) - 1.0).abs() < 0.12,
                "{off}: {found}"
            );
        }
    }
    // Along the edge nothing rises.
    assert_eq!(
        rise(&profile(4.0, 0.3), Point::new(0.0, 0.0), [0.0, 1.0], width),
        None
    );
    // Outside the photo there is nothing.
    let inside = |x: f64, y: f64| profile(4.0, 0.3)(x, y).filter(|_| x < 20.0);
    assert_eq!(rise(&inside, Point::new(0.0, 0.0), [1.0, 0.0], width), None);
}

#[test]
fn a_faint_edge_and_a_noisy_one_do_not_count() {
    let at = Point::new(0.0, 0.0);
    assert!(rise(&profile(3.0, 0.08), at, [1.0, 0.0], 200.0).is_some());
    assert_eq!(rise(&profile(3.0, 0.06), at, [1.0, 0.0], 200.0), None);
    let noisy = |noise: f64| {
        move |x: f64, y: f64| {
            // A fixed scatter that no two places share.
            let wild = (libm::sin(x * 12.989_8 + y * 78.233) * 43_758.545).fract();
            profile(3.0, 0.2)(x, y).map(|v| v + (noise * wild) as f32)
        }
    };
    assert!(rise(&noisy(0.01), at, [1.0, 0.0], 200.0).is_some());
    assert_eq!(rise(&noisy(0.2), at, [1.0, 0.0], 200.0), None);
}

#[test]
fn steepness_is_the_largest_step() {
    // Steps of 3 % of 100 pixels over a ramp of 0.01 per pixel, with a jump of 0.2 at x = 4.
    let ramp = |x: f64, _: f64| Some((0.01 * x + if x > 4.0 { 0.2 } else { 0.0 }) as f32);
    let at = |x: f64| steepness(&ramp, Point::new(x, 0.0), [1.0, 0.0], 100.0).expect("inside");
    assert!((at(0.0) - 0.23).abs() < 1e-5);
    assert!((at(40.0) - 0.03).abs() < 1e-5);
    let inside = |x: f64, _: f64| (x < 11.0).then_some(0.5);
    assert_eq!(
        steepness(&inside, Point::new(0.0, 0.0), [1.0, 0.0], 100.0),
        None
    );
}

#[test]
fn levels_between_pixels_are_drawn_straight() {
    let photo = photo(SIDE, SIDE, |x, y| (0.1 + 0.2 * x + 0.1 * y).min(1.0));
    let weights = luminance_weights(&photo);
    for (x, y) in [
        (0.0, 0.0),
        (0.5, 0.0),
        (0.0, 0.25),
        (1.25, 0.75),
        (0.75, 1.0),
    ] {
        let got = level(&photo, weights, x, y).expect("inside");
        assert!(
            (f64::from(got) - (0.1 + 0.2 * x + 0.1 * y)).abs() < 0.004,
            "{x} {y}: {got}"
        );
    }
    for (x, y) in [
        (-0.1, 0.0),
        (0.0, -0.1),
        (239.0, 0.0),
        (0.0, 239.0),
        (f64::NAN, 0.0),
    ] {
        assert_eq!(level(&photo, weights, x, y), None, "{x} {y}");
    }
}

#[test]
fn an_outline_is_walked_evenly_with_normals() {
    let round = along(&circle(50.0));
    assert_eq!(round.len(), PLACES);
    for (at, [nx, ny]) in &round {
        let (dx, dy) = ((at.x() - 120.0) / 50.0, (at.y() - 120.0) / 50.0);
        assert!((libm::hypot(*nx, *ny) - 1.0).abs() < 1e-9);
        assert!((nx * dx + ny * dy).abs() > 0.999, "{at:?} {nx} {ny}");
    }
    let apart: Vec<f64> = round
        .windows(2)
        .map(|w| w[0].0.distance_px(&w[1].0))
        .collect();
    let (least, most) = (
        apart.iter().copied().fold(f64::MAX, f64::min),
        apart.iter().copied().fold(0.0, f64::max),
    );
    assert!(most / least < 1.01, "{least} {most}");
    // A square: its corners are no edges, its sides have upright and level normals.
    let square = Polygon::new(
        &[[0.0, 0.0], [140.0, 0.0], [140.0, 140.0], [0.0, 140.0]].map(Point),
        "A square",
    )
    .expect("a polygon");
    let sides = along(&square);
    assert_eq!(sides.len(), PLACES - 4);
    assert!(
        sides
            .iter()
            .all(|(_, [nx, ny])| nx.abs().max(ny.abs()) > 1.0 - 1e-9)
    );
    assert_eq!(sides.iter().filter(|(at, _)| at.y() == 0.0).count(), 13);
}

#[test]
fn blur_is_told_by_its_share_and_its_kind() {
    let of = |share_of_width: f64, rise_px: f64, unlikeness: f64| {
        check_sharpness(&Sharpness {
            rise_px,
            share_of_width,
            unlikeness,
            edges: 20,
        })
    };
    assert_eq!(of(0.034, 9.0, 1.0), None);
    assert_eq!(of(0.2, 2.9, 1.0), None);
    assert!(of(0.2, 3.0, 1.0).is_some());
    for (share, unlikeness, severity, words) in [
        (
            0.035,
            1.0,
            Severity::Care,
            "out of focus: edges are 9 pixels wide, 3.5 % of",
        ),
        (0.06, 1.8, Severity::Care, "out of focus"),
        (
            0.061,
            1.81,
            Severity::Retake,
            "shaken: edges are 9 pixels wide, 6.1 % of",
        ),
    ] {
        let check = of(share, 9.0, unlikeness).expect("a check");
        assert_eq!((check.code, check.severity), (CheckCode::Blur, severity));
        assert!(check.text.contains(words), "{}", check.text);
    }
}
