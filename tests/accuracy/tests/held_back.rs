//! Scenes whose seeds are used for nothing else: readings, taps and pairs stay as good as the
//! accuracy run says. The bounds leave room for a handful of scenes; the run prints the figures.

use accuracy::table::{median, percent, percentile};
use accuracy::{finding, reading};
use scene_render::spec::Variety;

const SEEDS: std::ops::Range<u64> = 9_000..9_004;

#[test]
fn readings_by_the_card_alone() {
    let mut errors = Vec::new();
    let mut covered = Vec::new();
    for seed in SEEDS {
        let one = reading::score_random(seed, &Variety::accuracy()).expect("a scene");
        assert_eq!(one.missing, 0, "seed {seed}");
        errors.extend(one.zones.iter().map(|z| z.delta_e_00));
        covered.extend(one.zones.iter().map(|z| z.delta_e_00 <= z.doubt));
    }
    assert!(errors.len() >= 30);
    assert!(median(&errors) < 1.9, "median {:.2}", median(&errors));
    assert!(
        percentile(&errors, 0.95) < 3.6,
        "95 % {:.2}",
        percentile(&errors, 0.95)
    );
    assert!(
        percent(&covered) >= 88.0,
        "{:.0} % within the doubt",
        percent(&covered)
    );
}

#[test]
fn one_tap_each() {
    let mut taps = Vec::new();
    for seed in SEEDS {
        taps.extend(finding::score_random(seed, &Variety::accuracy()).expect("a scene"));
    }
    let of = |kind: &str| -> Vec<f64> {
        taps.iter()
            .filter(|t| t.kind == kind)
            .map(|t| t.overlap)
            .collect()
    };
    let (teeth, tabs, cards) = (of("tooth"), of("tab"), of("card"));
    assert!(median(&teeth) > 0.9, "teeth {:.3}", median(&teeth));
    assert!(
        percentile(&tabs, 0.05) > 0.85,
        "tabs {:.3}",
        percentile(&tabs, 0.05)
    );
    assert!(median(&cards) > 0.9, "cards {:.3}", median(&cards));
}

#[test]
fn pairs_are_laid_over_each_other() {
    let variety = Variety {
        pair: true,
        ..Variety::accuracy()
    };
    for seed in SEEDS.take(2) {
        let one = reading::score_random(seed, &variety).expect("a scene");
        let off = one.pair_error_px.expect("the pair is aligned");
        assert!(off < 6.0, "seed {seed}: {off:.1} px at a corner");
        assert!(one.zones.iter().all(|z| z.polarised_delta_l.is_some()));
    }
}
