//! What correction and tabs have to say, at the edges of each rule.

use super::*;
use crate::colour::Vec3;
use crate::colour::rgb_space::SRGB;
use crate::light::model::{Before, Frame, Freedom, Seen};
use crate::light::tone::ToneCurve;

fn codes(checks: &[LightCheck]) -> Vec<CheckCode> {
    checks.iter().map(|c| c.code).collect()
}

fn of_correction(gains: Vec3, step_residuals: Vec<f64>) -> Vec<LightCheck> {
    let correction = Correction {
        gains,
        xyz_d65_from_linear_rgb: SRGB.xyz_d65_from_linear_rgb(),
        step_residuals,
        gain_uncertainty: 0.0,
        tone: ToneCurve::from_steps(&[]),
        steps: 1,
        card_level: 0.18,
    };
    let mut checks = Vec::new();
    check_correction(&correction, &mut checks);
    checks
}

#[test]
fn a_correction_tells_of_cast_exposure_and_steps() {
    use CheckCode as C;
    for (gains, residuals, want) in [
        ([1.0, 1.0, 1.0], vec![], vec![]),
        ([1.0, 2.0, 3.0], vec![], vec![]),
        ([1.0, 2.0, 3.01], vec![], vec![C::CastStrong]),
        ([3.01, 2.0, 1.0], vec![], vec![C::CastStrong]),
        ([5.59; 3], vec![], vec![]),
        ([5.61; 3], vec![], vec![C::UnderExposed]),
        ([0.1; 3], vec![], vec![]),
        ([1.0; 3], vec![0.1, 2.0, 1.0], vec![]),
        ([1.0; 3], vec![0.1, 2.01, 1.0], vec![C::CardNotNeutral]),
    ] {
        assert_eq!(
            codes(&of_correction(gains, residuals.clone())),
            want,
            "{gains:?} {residuals:?}"
        );
    }
    let dark = of_correction([8.0; 3], vec![]);
    assert!(dark[0].text.contains("3.0 stops"), "{}", dark[0].text);
    let cast = of_correction([0.5, 1.0, 2.0], vec![]);
    assert!(cast[0].text.contains("4.0 times"), "{}", cast[0].text);
}

#[test]
fn colours_of_tabs_lie_where_teeth_do() {
    for edge in [[35.0, -10.0, -5.0], [100.0, 15.0, 50.0]] {
        assert!(is_tab_colour(Lab(edge)));
        for i in 0..3 {
            let mut beyond = edge;
            beyond[i] += if edge[0] < 50.0 { -0.1 } else { 0.1 };
            assert!(!is_tab_colour(Lab(beyond)), "{beyond:?}");
        }
    }
    let check = tab_impossible("A2", "tab 1", Lab([20.4, 1.0, 70.0]));
    assert_eq!(check.code, CheckCode::TabContradicts);
    assert!(
        check.text.contains("“A2” is given as L* 20, a* 1, b* 70"),
        "{}",
        check.text
    );
}

#[test]
fn only_tabs_left_out_are_told_of() {
    let tab = |name: &str, used: bool| AnchorTab {
        region: format!("region of {name}"),
        name: name.into(),
        left_out_delta_e_00: 6.25,
        used,
    };
    for (measured, word) in [
        (true, "given for it in the guide"),
        (false, "published averages"),
    ] {
        let mut checks = Vec::new();
        check_tabs(&[tab("A1", true), tab("B2", false)], measured, &mut checks);
        assert_eq!(codes(&checks), vec![CheckCode::TabContradicts]);
        assert!(
            checks[0].text.contains("“B2”") && checks[0].text.contains("ΔE00 6.2"),
            "{}",
            checks[0].text
        );
        assert!(checks[0].remedy.contains(word), "{}", checks[0].remedy);
    }
}

/// A model that tabs at the card's place, `shown` times as light as they are known, have settled.
fn settled(shown: Vec3, tabs: usize) -> LightModel {
    let place = [300.0, 200.0];
    let frame = Frame {
        centre: place,
        half_diagonal_px: 360.0,
        card: place,
        card_level: 0.18,
    };
    let before = Before {
        card_uncertainty: 0.0,
        steps: false,
        processed: true,
        polarised: true,
    };
    let mut model = LightModel::before_tabs(frame, before);
    model.set_freedom(Freedom::Gain);
    let target = [0.5, 0.42, 0.3];
    let mut linear_rgb = target;
    for (v, s) in linear_rgb.iter_mut().zip(shown) {
        *v *= s;
    }
    let seen = Seen {
        linear_rgb,
        place,
        tilt: 0.0,
    };
    for _ in 0..tabs {
        model.observe_zone(&seen, target, [0.024, 0.006], false);
    }
    model
}

fn by_tabs(shown: Vec3, tabs: usize, measured: bool) -> Vec<LightCheck> {
    let mut checks = Vec::new();
    check_card_by_tabs(&settled(shown, tabs), measured, &mut checks);
    checks
}

#[test]
fn a_tilted_card_is_told_by_the_tabs() {
    // Tabs that show too much light: the card gets less of it.
    let less = by_tabs([1.0 / 0.86; 3], 20, true);
    assert_eq!(codes(&less), vec![CheckCode::CardTilted]);
    assert!(less[0].text.contains("14 % less light"), "{}", less[0].text);
    let more = by_tabs([0.86; 3], 20, true);
    assert_eq!(codes(&more), vec![CheckCode::CardTilted]);
    assert!(more[0].text.contains("14 % more light"), "{}", more[0].text);
    // Less than the least, and what published colours leave open.
    assert_eq!(codes(&by_tabs([0.94; 3], 20, true)), vec![]);
    assert_eq!(
        codes(&by_tabs([0.90; 3], 20, true)),
        vec![CheckCode::CardTilted]
    );
    assert_eq!(codes(&by_tabs([0.90; 3], 20, false)), vec![]);
    // The gain must stand out from its own uncertainty.
    let mut unsure = settled([0.9; 3], 0);
    unsure.set_freedom(Freedom::Gain);
    assert!(unsure.gain()[1] > 0.1);
    let mut checks = Vec::new();
    check_card_by_tabs(&unsure, true, &mut checks);
    assert_eq!(codes(&checks), vec![]);
}

#[test]
fn a_tinted_card_is_told_by_the_tabs() {
    for shown in [
        [1.08, 1.0, 1.0],
        [1.0, 1.0, 1.08],
        [0.92, 1.0, 1.0],
        [1.0, 1.0, 0.92],
    ] {
        let told = by_tabs(shown, 20, true);
        assert_eq!(codes(&told), vec![CheckCode::CardNotNeutral], "{shown:?}");
        assert!(
            told[0].text.contains("off by 7 %") || told[0].text.contains("off by 8 %"),
            "{}",
            told[0].text
        );
        assert_eq!(codes(&by_tabs(shown, 20, false)), vec![], "{shown:?}");
    }
    assert_eq!(codes(&by_tabs([1.04, 1.0, 1.0], 20, true)), vec![]);
    assert_eq!(
        codes(&by_tabs([1.15, 1.0, 1.0], 20, false)),
        vec![CheckCode::CardNotNeutral]
    );
}
