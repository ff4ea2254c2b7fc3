//! Tabs as anchors: what they settle, which of them is left out, when all of them are strained.

use super::*;
use crate::colour::rgb_space::SRGB;
use crate::light::model::{Before, Frame};

const CARD: [f64; 2] = [600.0, 400.0];
/// What the card alone expects of a zone beside it (`LightModel::before_tabs`).
const PRIOR_GAIN: f64 = -0.012;
const KNOWN: [[f64; 3]; 6] = [
    [78.0, 0.5, 13.0],
    [74.0, 1.8, 19.0],
    [70.0, 3.0, 24.0],
    [76.0, 0.2, 15.0],
    [68.0, 1.0, 14.0],
    [72.0, 2.2, 21.0],
];

fn before() -> LightModel {
    LightModel::before_tabs(
        Frame {
            centre: [500.0, 350.0],
            half_diagonal_px: 610.0,
            card: CARD,
            card_level: 0.18,
        },
        Before {
            card_uncertainty: 0.0,
            steps: false,
            processed: false,
            polarised: true,
        },
    )
}

/// A tab at the card's own place that shows `shown` times (per channel) what its colour is, with
/// `known` said of it.
fn tab(tab: usize, colour: Lab, known: Lab, shown: Vec3) -> Anchor {
    let target = SRGB
        .xyz_d65_from_linear_rgb()
        .inverse()
        .expect("regular")
        .apply(colour.to_xyz_d65());
    let mut linear_rgb = shown;
    for (v, t) in linear_rgb.iter_mut().zip(target) {
        *v *= t * libm::exp(-PRIOR_GAIN);
    }
    Anchor {
        tab,
        seen: Seen {
            linear_rgb,
            place: CARD,
            tilt: 0.0,
        },
        known,
        published: false,
        whole: true,
    }
}

fn tabs(n: usize, shown: Vec3) -> Vec<Anchor> {
    KNOWN
        .iter()
        .take(n)
        .enumerate()
        .map(|(i, lab)| tab(i, Lab(*lab), Lab(*lab), shown))
        .collect()
}

fn anchored(anchors: &[Anchor]) -> Anchored {
    anchor(&before(), anchors, &SRGB.xyz_d65_from_linear_rgb())
}

fn left_out_tabs(of: &Anchored) -> Vec<usize> {
    let unused = of.tabs.iter().filter(|t| !t.used);
    unused.map(|t| t.tab).collect()
}

#[test]
fn tabs_as_they_are_known_change_nothing() {
    let found = anchored(&tabs(5, [1.0; 3]));
    assert_eq!(found.tabs.len(), 5);
    assert!(found.tabs.iter().all(|t| t.used));
    assert!(found.left_out() < 1e-6, "{}", found.left_out());
    assert!((found.light.gain()[0] - PRIOR_GAIN).abs() < 1e-9);
    assert!(!found.is_strained());
}

/// Tabs that agree with each other, but not with the card: darker or lighter alike.
#[test]
fn a_gain_beside_the_cards_strains_them_either_way() {
    for (shown, gain) in [(0.8, 0.2), (1.25, -0.2)] {
        let found = anchored(&tabs(5, [shown; 3]));
        assert!(found.left_out() < STRAINED, "{}", found.left_out());
        let [got, _] = found.light.gain();
        assert!(got * gain > 0.0 && got.abs() > STRAINED_GAIN, "{got}");
        assert!(found.is_strained());
    }
    let found = anchored(&tabs(5, [0.96; 3]));
    assert!(!found.is_strained(), "{:?}", found.light.gain());
}

/// Tabs that contradict each other, half to one side and half to the other, while the gain stays.
#[test]
fn contradiction_strains_them() {
    let mut anchors = tabs(6, [1.0; 3]);
    for (i, a) in anchors.iter_mut().enumerate() {
        let way = if i % 2 == 0 { 1.0 } else { -1.0 };
        let [l, c, b] = a.known.0;
        a.known = Lab([l + 4.0 * way, c, b]);
    }
    let found = anchored(&anchors);
    assert!(found.light.gain()[0].abs() < STRAINED_GAIN);
    assert!(found.left_out() > STRAINED, "{}", found.left_out());
    assert!(found.is_strained());
}

#[test]
fn the_one_that_the_others_contradict_is_left_out() {
    for wrong in 0..5 {
        let mut anchors = tabs(5, [1.0; 3]);
        let [l, a, b] = anchors[wrong].known.0;
        anchors[wrong].known = Lab([l - 9.0, a, b]);
        let found = anchored(&anchors);
        assert_eq!(left_out_tabs(&found), vec![wrong]);
        let judged = found.tabs[wrong].left_out_delta_e_00;
        assert!((5.0..12.0).contains(&judged), "{judged}");
        // By the four others it is as if the fifth were not there.
        assert!((found.light.gain()[0] - PRIOR_GAIN).abs() < 1e-6);
        assert!(found.left_out() < 0.01, "{}", found.left_out());
    }
}

/// A third of them at most, and two cannot outvote each other.
#[test]
fn no_more_than_a_third_is_left_out() {
    let spoilt = |n: usize, wrong: usize| {
        let mut anchors = tabs(n, [1.0; 3]);
        for a in anchors.iter_mut().take(wrong) {
            let [l, g, b] = a.known.0;
            a.known = Lab([l - 9.0, g + 6.0 * a.tab as f64, b]);
        }
        left_out_tabs(&anchored(&anchors))
    };
    assert_eq!(spoilt(6, 2), vec![0, 1]);
    assert_eq!(spoilt(3, 1), vec![0]);
    assert_eq!(spoilt(2, 1), Vec::<usize>::new());
    assert!(spoilt(5, 2).len() <= 1);
}

/// Every channel has its own gain from one tab on; two zones of a tab are one tab.
#[test]
fn a_tab_with_zones_is_one() {
    let mut anchors = tabs(1, [1.0; 3]);
    anchors.push(Anchor {
        whole: false,
        ..anchors[0]
    });
    let found = anchored(&anchors);
    assert_eq!(found.tabs.len(), 1);
    let tinted = anchored(&tabs(6, [1.1, 1.0, 0.9]));
    let [red, blue] = tinted.light.card_colour();
    assert!(red < -0.02 && blue > 0.02, "{red} {blue}");
}

/// No more zones than are worth the time: the rest is not looked at.
#[test]
fn zones_beyond_the_most_are_not_looked_at() {
    let lab = Lab(KNOWN[0]);
    let mut anchors = vec![tab(0, lab, lab, [1.0; 3]); MAX_ANCHORS];
    anchors.push(tab(7, lab, lab, [1.0; 3]));
    assert_eq!(anchored(&anchors).tabs.len(), 1);
}

/// How far what is known of a tab is trusted: own whole tabs most, published colours least.
#[test]
fn own_tabs_pull_more_than_published_ones() {
    let pull = |published: bool, whole: bool| {
        let mut anchors = tabs(1, [0.9; 3]);
        anchors[0].published = published;
        anchors[0].whole = whole;
        anchored(&anchors).light.gain()[0]
    };
    let (own, third, published) = (pull(false, true), pull(false, false), pull(true, true));
    assert!(own > third && third > published && published > PRIOR_GAIN);
}
