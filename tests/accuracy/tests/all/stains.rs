//! How well stained colours are predicted, on sets of stains that nothing was tuned on, and that
//! the scoring itself can tell right from wrong. The full figures: `cargo xtask accuracy --stains`.

use accuracy::stains::{HELD_BACK, Model, Outcome, Prediction, score, score_trade};
use accuracy::stains_baselines::{LabPerCoat, ThreeBands};
use accuracy::stains_model::Strengths;
use accuracy::table::{median, percent, percentile};
use scene_render::stains::job::{Request, Swatch};
use scene_render::stains::{Handling, Job, Surface};

const SEEDS: std::ops::Range<u64> = HELD_BACK..HELD_BACK + 20;

const EXACT: Handling = Handling {
    noise_delta_e_00: 0.0,
    uneven: 0.0,
};
const READ: Handling = Handling {
    noise_delta_e_00: 0.3,
    uneven: 0.0,
};
const THREE_BANDS: ThreeBands = ThreeBands { scattering: true };

fn spread(outcomes: &[Outcome]) -> (f64, f64) {
    let d: Vec<f64> = outcomes.iter().map(|o| o.delta_e_00).collect();
    (median(&d), percentile(&d, 0.95))
}

/// Says something about each request without a look at the swatches.
struct Fixed<F: Fn(&Request) -> Prediction>(F);

impl<F: Fn(&Request) -> Prediction> Model for Fixed<F> {
    fn name(&self) -> &str {
        "fixed"
    }

    fn predict(&self, _: &[Swatch], requests: &[Request]) -> Result<Vec<Prediction>, String> {
        Ok(requests.iter().map(&self.0).collect())
    }
}

#[test]
fn the_scoring_tells_right_from_wrong() {
    let seed = 7;
    let job = Job::random(seed, READ, Surface::Excluded).unwrap();
    let known = |r: &Request, off: f64, doubt: f64| {
        let i = job
            .requests
            .iter()
            .position(|q| q == r)
            .expect("a known request");
        let [l, a, b] = job.truth[i].lab;
        Prediction {
            lab: [l + off, a, b],
            doubt: Some(doubt),
        }
    };
    let outcomes = |model: &dyn Model| score(model, seed..seed + 1, READ, Surface::Excluded);

    let right = outcomes(&Fixed(|r| known(r, 0.0, 0.0))).unwrap();
    assert_eq!(right.len(), 40);
    assert!(
        right
            .iter()
            .all(|o| o.delta_e_00 == 0.0 && o.within() == Some(true))
    );
    assert_eq!(right.iter().filter(|o| o.light()).count(), 20);
    assert_eq!(right.iter().filter(|o| o.single()).count(), 20);

    // ΔL* of 1 is ΔE00 0.7–0.9 here.
    let off = outcomes(&Fixed(|r| known(r, 1.0, 0.6))).unwrap();
    assert!(off.iter().all(|o| o.within() == Some(false)));
    let honest = outcomes(&Fixed(|r| known(r, 1.0, 1.0))).unwrap();
    assert!(honest.iter().all(|o| o.within() == Some(true)));

    let idle = outcomes(&Fixed(|r| Prediction {
        lab: r.base,
        doubt: None,
    }))
    .unwrap();
    assert!(
        idle.iter()
            .all(|o| o.delta_e_00 == o.shift() && o.within().is_none())
    );
    assert!(median(&idle.iter().map(|o| o.delta_e_00).collect::<Vec<_>>()) > 1.0);
}

#[test]
fn answers_that_are_no_answers_are_refused() {
    let nan = Fixed(|r: &Request| Prediction {
        lab: [f64::NAN, r.coats, 0.0],
        doubt: None,
    });
    assert!(score(&nan, 1..2, EXACT, Surface::Excluded).is_err());
    let endless = Fixed(|r: &Request| Prediction {
        lab: r.base,
        doubt: Some(f64::INFINITY),
    });
    assert!(score(&endless, 1..2, EXACT, Surface::Excluded).is_err());

    struct Silent;
    impl Model for Silent {
        fn name(&self) -> &str {
            "silent"
        }
        fn predict(&self, _: &[Swatch], _: &[Request]) -> Result<Vec<Prediction>, String> {
            Ok(Vec::new())
        }
    }
    assert!(score(&Silent, 1..2, EXACT, Surface::Excluded).is_err());
}

/// The truth is as hard as it is meant to be: neither so tame that adding differences is enough,
/// nor so wild that three bands are no use.
#[test]
fn the_plain_models_are_as_far_off_as_is_known() {
    let (middle, far) = spread(&score(&LabPerCoat, SEEDS, EXACT, Surface::Excluded).unwrap());
    assert!((0.3..0.7).contains(&middle), "{middle:.2}");
    assert!((1.4..2.8).contains(&far), "{far:.2}");
    let (middle, far) = spread(&score(&THREE_BANDS, SEEDS, EXACT, Surface::Excluded).unwrap());
    assert!((0.03..0.15).contains(&middle), "{middle:.2}");
    assert!((0.3..1.1).contains(&far), "{far:.2}");
    let (middle, _) = spread(&score(&LabPerCoat, SEEDS, READ, Surface::Excluded).unwrap());
    assert!((0.4..0.8).contains(&middle), "{middle:.2}");
}

#[test]
fn the_trades_targets_are_scored() {
    let outcomes = score_trade(&THREE_BANDS).unwrap();
    assert_eq!(outcomes.len(), 14);
    let (middle, _) = spread(&outcomes);
    assert!(middle < 0.4, "{middle:.2}");
    let (plain, _) = spread(&score_trade(&LabPerCoat).unwrap());
    assert!(plain > middle, "{plain:.2} {middle:.2}");
}

fn covered(outcomes: &[Outcome]) -> f64 {
    percent(
        &outcomes
            .iter()
            .map(|o| o.within().expect("a doubt"))
            .collect::<Vec<_>>(),
    )
}

/// Exact swatches leave only what the engine's model gets wrong, also when it is read with an
/// outer reflection that it does not know of.
#[test]
fn the_engine_predicts_from_exact_swatches() {
    let (_, plain) = spread(&score(&THREE_BANDS, SEEDS, EXACT, Surface::Excluded).unwrap());
    for (surface, middle_most, far_most) in [
        (Surface::Excluded, 0.10, 0.35),
        (Surface::Included, 0.12, 0.45),
    ] {
        let outcomes = score(&Strengths, SEEDS, EXACT, surface).unwrap();
        let (middle, far) = spread(&outcomes);
        assert!(
            middle < middle_most && far < far_most,
            "{surface:?}: {middle:.2} {far:.2}"
        );
        if surface == Surface::Excluded {
            assert!(far < plain, "{far:.2}, three bands {plain:.2}");
        }
        let share = covered(&outcomes);
        assert!(share >= 88.0, "{surface:?}: {share:.1} % within the doubt");
    }
}

/// Swatches as photos read them: better than every plain model where it matters, far out.
#[test]
fn the_engine_predicts_from_swatches_with_errors() {
    let outcomes = score(&Strengths, SEEDS, READ, Surface::Excluded).unwrap();
    let (middle, far) = spread(&outcomes);
    assert!(middle < 0.4 && far < 1.0, "{middle:.2} {far:.2}");
    let absorbing = ThreeBands { scattering: false };
    for plain in [&LabPerCoat as &dyn Model, &THREE_BANDS, &absorbing] {
        let (plain_middle, plain_far) =
            spread(&score(plain, SEEDS, READ, Surface::Excluded).unwrap());
        assert!(far < plain_far, "{far:.2}, {} {plain_far:.2}", plain.name());
        assert!(
            middle < 1.4 * plain_middle,
            "{middle:.2}, {} {plain_middle:.2}",
            plain.name()
        );
    }
    let share = covered(&outcomes);
    assert!(share >= 92.0, "{share:.1} % within the doubt");
    // A doubt is not to be had by saying "anything".
    let doubts: Vec<f64> = outcomes.iter().filter_map(|o| o.prediction.doubt).collect();
    assert!(median(&doubts) < 1.3, "{:.2}", median(&doubts));
}

#[test]
fn the_engine_predicts_the_trades_targets() {
    let outcomes = score_trade(&Strengths).unwrap();
    for o in &outcomes {
        assert!(o.delta_e_00 < 0.25, "{}: {:.2}", o.request.id, o.delta_e_00);
    }
}
