//! What is expected before any tab, and what each kind of evidence settles.

use super::*;

const CENTRE: [f64; 2] = [500.0, 400.0];
/// Half a half diagonal right of the middle, and 0.2 below it.
const CARD: [f64; 2] = [750.0, 500.0];
const HALF_DIAGONAL_PX: f64 = 500.0;

fn before(processed: bool, steps: bool) -> LightModel {
    let frame = Frame {
        centre: CENTRE,
        half_diagonal_px: HALF_DIAGONAL_PX,
        card: CARD,
        card_level: 0.18,
    };
    LightModel::before_tabs(
        frame,
        Before {
            card_uncertainty: 0.03,
            steps,
            processed,
            polarised: true,
        },
    )
}

fn close(got: f64, want: f64) {
    assert!((got - want).abs() < 1e-9, "{got} should be {want}");
}

fn zone(linear_rgb: Vec3, place: [f64; 2], tilt: f64) -> Seen {
    Seen {
        linear_rgb,
        place,
        tilt,
    }
}

#[test]
fn files_that_were_processed_leave_more_open() {
    for (processed, steps, gain, contrast) in [
        (false, false, 0.04, 0.02),
        (false, true, 0.03, 0.02),
        (true, true, 0.03, 0.03),
        (true, false, 0.15, 0.15),
    ] {
        let model = before(processed, steps);
        close(model.gain()[0], -0.012);
        close(model.gain()[1], libm::hypot(gain, 0.03));
        close(model.contrast()[0], 0.0);
        close(model.contrast()[1], contrast);
        assert_eq!(model.card_colour(), [0.0, 0.0]);
    }
}

#[test]
fn tabs_free_as_much_as_they_can_settle() {
    use Freedom::{Gain, Matrix, Offset};
    let of: Vec<Freedom> = (0..6).map(Freedom::of_tabs).collect();
    assert_eq!(of, [Gain, Gain, Offset, Offset, Matrix, Matrix]);
}

/// Light falls off towards the corners, counted from the card.
#[test]
fn the_middle_gets_more_light_than_the_card() {
    let model = before(false, false);
    assert_eq!(model.light_at(CARD), [0.0, 0.0]);
    // Radial 0.10 · (0.5² + 0.2²) between middle and card; slopes ± 0.03 over 0.5 and 0.2.
    let [lighter, doubt] = model.light_at(CENTRE);
    close(lighter, 0.10 * 0.29);
    let variance = [0.03 * 0.5, 0.03 * 0.2, 0.04 * 0.29].map(|v| v * v);
    close(doubt, variance.iter().sum::<f64>().sqrt());
    let corner = model.light_at([100.0, 700.0]);
    close(corner[0], 0.10 * (0.29 - 1.0));
    // Beyond it nothing was photographed.
    let beyond = model.light_at([-300.0, 1000.0]);
    close(beyond[0], corner[0]);
    close(beyond[1], corner[1]);
}

/// Tabs under wrong names, of colours that none has: what they ask for has an end.
#[test]
fn a_correction_is_never_without_end() {
    let mut model = before(true, false);
    model.set_freedom(Freedom::Matrix);
    for (seen, target) in [
        ([0.9, 1e-9, 0.9], [1e-9, 0.9, 1e-9]),
        ([1e-9, 0.9, 0.2], [0.9, 1e-9, 0.9]),
        ([0.9, 0.9, 1e-9], [0.1, 0.2, 0.9]),
        ([0.5, 0.4, 0.3], [0.5, 0.4, 0.3]),
    ] {
        model.observe_zone(&zone(seen, CARD, 0.0), target, [0.01, 0.004], false);
    }
    for seen in [[1.0, 1e-9, 1.0], [1e-9, 1.0, 1e-9], [1e-9, 1e-9, 1.0]] {
        let (rgb, covariance) = model.correct(&zone(seen, CARD, 0.0));
        for (got, was) in rgb.into_iter().zip(seen) {
            let ratio = got / was;
            assert!((1e-4..1e4).contains(&ratio), "{rgb:?}");
        }
        assert!(covariance.iter().flatten().all(|v| v.is_finite()));
    }
}

#[test]
fn a_second_card_tells_of_the_light_at_its_place() {
    let place = [250.0, 300.0];
    for lighter in [0.2, -0.15] {
        let mut model = before(false, false);
        model.observe_second_card(place, lighter, 1e-4);
        let [got, doubt] = model.light_at(place);
        assert!(
            (got - lighter).abs() < 1e-3 && doubt < 1e-3,
            "{got} {doubt}"
        );
        assert_eq!(model.light_at(CARD)[0], 0.0);
        // A vague one says little.
        let mut vague = before(false, false);
        vague.observe_second_card(place, lighter, 1.0);
        let [apart, _] = vague.light_at(place);
        assert!((apart - before(false, false).light_at(place)[0]).abs() < 0.01);
    }
}

#[test]
fn a_zone_is_put_right_by_gain_place_and_tilt() {
    let model = before(false, false);
    let seen = zone([0.5, 0.4, 0.3], CARD, 0.0);
    let (flat, covariance) = model.correct(&seen);
    for (got, was) in flat.iter().zip(seen.linear_rgb) {
        close(*got, was * libm::exp(-0.012));
    }
    let gain = 0.04 * 0.04 + 0.03 * 0.03;
    close(covariance[1][1], gain);
    close(covariance[0][2], gain);
    close(covariance[0][0], gain + 0.015 * 0.015);
    // A surface that looks up catches light from above: it is put darker.
    let (up, _) = model.correct(&zone([0.5, 0.4, 0.3], CARD, 1.0));
    close(up[1] / flat[1], libm::exp(-0.0325));
    // In the middle there is more light than at the card.
    let (middle, _) = model.correct(&zone([0.5, 0.4, 0.3], CENTRE, 0.0));
    close(middle[1] / flat[1], libm::exp(-0.10 * 0.29));
}

/// What the tabs may settle: one gain per channel; a bent tone curve; a mixing of channels that
/// leaves grey as it is.
#[test]
fn zones_of_known_colour_settle_gain_curve_and_mixing() {
    let learn = |freedom: Freedom, distort: &dyn Fn(Vec3) -> Vec3| {
        let mut model = before(true, false);
        model.set_freedom(freedom);
        for target in [
            [0.6, 0.5, 0.35],
            [0.5, 0.4, 0.2],
            [0.3, 0.3, 0.3],
            [0.2, 0.1, 0.05],
        ] {
            for _ in 0..30 {
                model.observe_zone(
                    &zone(distort(target), CARD, 0.0),
                    target,
                    [0.01, 0.004],
                    false,
                );
            }
        }
        model
    };
    let off = |model: &LightModel, distort: &dyn Fn(Vec3) -> Vec3| {
        let target = [0.45, 0.35, 0.22];
        let (got, _) = model.correct(&zone(distort(target), CARD, 0.0));
        let worst = got.iter().zip(target).map(|(g, t)| libm::log(g / t).abs());
        worst.fold(0.0, f64::max)
    };
    let cast = |v: Vec3| [v[0] * 0.93, v[1] * 0.97, v[2] * 1.02];
    assert!(off(&learn(Freedom::Gain, &cast), &cast) < 0.005);
    let bent = |v: Vec3| v.map(|x| 0.18 * libm::pow(x / 0.18, 0.85));
    assert!(off(&learn(Freedom::Offset, &bent), &bent) < 0.02);
    assert!(off(&learn(Freedom::Gain, &bent), &bent) > 0.03);
    let contrast = learn(Freedom::Offset, &bent).contrast()[0];
    assert!((contrast - (1.0 / 0.85 - 1.0)).abs() < 0.03, "{contrast}");
    let mixed = |[r, g, b]: Vec3| {
        [
            0.97 * r + 0.03 * g,
            0.02 * r + 0.96 * g + 0.02 * b,
            0.04 * g + 0.96 * b,
        ]
    };
    let matrix = off(&learn(Freedom::Matrix, &mixed), &mixed);
    assert!(matrix < 0.01, "{matrix}");
    assert!(off(&learn(Freedom::Gain, &mixed), &mixed) > 2.0 * matrix);
}

/// With the same zone twenty times, whose colour is known.
fn told(mut model: LightModel, linear_rgb: Vec3, published: bool) -> LightModel {
    for _ in 0..20 {
        let seen = zone(linear_rgb, CARD, 0.0);
        model.observe_zone(&seen, [0.5, 0.4, 0.3], [0.04, 0.02], published);
    }
    model
}

/// A published colour is of the guide, not of this tab: its bias is not taken for the light.
#[test]
fn a_guides_own_bias_is_no_light() {
    let [own, published] = [false, true]
        .map(|published| told(before(false, false), [0.45, 0.36, 0.27], published).gain()[0]);
    assert!(
        own > 0.08 && published < 0.06 && published > 0.0,
        "{own} {published}"
    );
}

/// Nor is a hue of the guide's: neither channel's share of it.
#[test]
fn a_guides_own_hue_is_not_the_cards() {
    let [own, published] = [false, true].map(|published| {
        let seen = [0.5 * 0.95, 0.4, 0.3 * 1.05];
        told(before(true, false), seen, published).card_colour()
    });
    // By the variances: 0.04² of the card's hue beside 0.02² and 0.03² of the guide's.
    for ((own, published), share) in own.into_iter().zip(published).zip([0.8, 0.64]) {
        assert!(
            own.abs() > 0.045 && (published / own - share).abs() < 0.01,
            "{own} {published}"
        );
    }
}
