//! Scenes whose seeds are used for nothing else: readings, taps and pairs stay as good as the
//! accuracy run says. The bounds leave room for a handful of scenes; the run prints the figures.

use accuracy::level::Level;
use accuracy::reading;
use accuracy::table::{median, percent, percentile};
use scene_render::spec::Variety;

const SEEDS: std::ops::Range<u64> = 9_000..9_004;

fn of_level(level: Level) -> (Vec<f64>, Vec<bool>) {
    let (mut errors, mut covered) = (Vec::new(), Vec::new());
    for scores in scores() {
        let Some(one) = scores.get(&level) else {
            continue;
        };
        assert_eq!(one.missing, 0);
        errors.extend(one.zones.iter().map(|z| z.delta_e_00));
        covered.extend(one.zones.iter().map(|z| z.delta_e_00 <= z.doubt));
    }
    assert!(errors.len() >= 30);
    (errors, covered)
}

fn scores() -> &'static [reading::Scores] {
    static SCORES: std::sync::OnceLock<Vec<reading::Scores>> = std::sync::OnceLock::new();
    SCORES.get_or_init(|| {
        SEEDS
            .map(|seed| reading::score_random(seed, &Variety::trust()).expect("a scene"))
            .collect()
    })
}

#[test]
fn readings_by_the_card_alone() {
    let (errors, covered) = of_level(Level::Card);
    assert!(median(&errors) < 1.8, "median {:.2}", median(&errors));
    let far = percentile(&errors, 0.95);
    assert!(far < 3.8, "95 % {far:.2}");
    let share = percent(&covered);
    assert!(share >= 85.0, "{share:.0} % within the doubt");
}

/// Anchored by tabs, readings are better than by the plain methods, and know how good they are.
#[test]
fn readings_anchored_by_own_tabs() {
    let (errors, covered) = of_level(Level::OwnTabs);
    let (plain, _) = of_level(Level::VonKries);
    assert!(median(&errors) < 1.1, "median {:.2}", median(&errors));
    assert!(median(&errors) < 0.75 * median(&plain));
    let far = percentile(&errors, 0.95);
    assert!(far < 2.4, "95 % {far:.2}");
    let share = percent(&covered);
    assert!(share >= 88.0, "{share:.0} % within the doubt");
}

#[test]
fn pairs_are_laid_over_each_other() {
    let variety = Variety {
        pair: true,
        ..Variety::accuracy()
    };
    for seed in SEEDS.take(2) {
        let scores = reading::score_random(seed, &variety).expect("a scene");
        let Some(one) = scores.get(&Level::Pair) else {
            continue;
        };
        let off = one.pair_error_px.expect("the pair is aligned");
        assert!(off < 6.0, "seed {seed}: {off:.1} px at a corner");
        assert!(one.zones.iter().all(|z| z.polarised_delta_l.is_some()));
    }
}
