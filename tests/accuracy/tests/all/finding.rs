//! What is found in photos that nothing was tuned on. Few and small ones, so that the test is
//! quick; `cargo xtask accuracy --finding` prints the figures over many.

use accuracy::finding::{CrownScore, FOUND, SceneScore, score_random};
use accuracy::table::{median, percent};
use scene_render::spec::Variety;

fn scores(variety: &Variety, seeds: std::ops::Range<u64>) -> Vec<SceneScore> {
    seeds
        .map(|seed| score_random(seed, variety).expect("a scene"))
        .collect()
}

fn crowns(scores: &[SceneScore], is_in: impl Fn(&CrownScore) -> bool) -> Vec<&CrownScore> {
    scores
        .iter()
        .flat_map(|s| &s.crowns)
        .filter(|c| is_in(c))
        .collect()
}

fn share(of: &[&CrownScore], is: impl Fn(&CrownScore) -> bool) -> f64 {
    percent(&of.iter().map(|c| is(c)).collect::<Vec<bool>>())
}

/// Usual photos: nearly everything, well outlined, the right way round, nothing invented.
#[test]
fn usual_photos() {
    let scores = scores(&Variety::trust(), 9500..9506);
    let whole = crowns(&scores, |c| c.visible >= 0.8);
    assert!(whole.len() > 40);
    let found = share(&whole, |c| c.found >= FOUND);
    assert!(found >= 95.0, "{found:.1} % found");
    let overlaps: Vec<f64> = whole.iter().map(|c| c.found).collect();
    assert!(
        median(&overlaps) >= 0.94,
        "overlap {:.3}",
        median(&overlaps)
    );
    let near = share(&whole, |c| c.axis_deg.is_some_and(|a| a <= 5.0));
    assert!(near >= 85.0, "{near:.1} % of the axes within 5°");
    let kinds = share(&whole, |c| c.kind_right != Some(false));
    assert!(kinds >= 98.0, "{kinds:.1} % of the kinds right");
    let taps = share(&whole, |c| c.tapped >= 0.8);
    assert!(taps >= 95.0, "{taps:.1} % of the taps right");
    let false_outlines: usize = scores.iter().map(|s| s.false_outlines).sum();
    assert!(false_outlines <= 1, "{false_outlines} outlines on nothing");
    for s in &scores {
        let overlap = s.card.claimed.expect("a card");
        assert!(overlap > 0.9, "seed {}: card {overlap:.2}", s.seed);
    }
}

/// Varied photos – retractors, gloves, braces, turned heads, dark, strong casts: one tap is right
/// for most, another outline for nearly all, and little is invented.
#[test]
fn varied_photos() {
    let scores = scores(&Variety::finding(), 9500..9508);
    let whole = crowns(&scores, |c| c.visible >= 0.8);
    assert!(whole.len() > 30);
    let taps: Vec<f64> = whole.iter().map(|c| c.tapped).collect();
    assert!(median(&taps) >= 0.9, "one tap {:.3}", median(&taps));
    let offered = share(&whole, |c| c.offered >= 0.8);
    assert!(offered >= 80.0, "{offered:.1} % among those offered");
    let all: usize = scores.iter().map(|s| s.outlines).sum();
    let wrong: usize = scores.iter().map(|s| s.false_outlines).sum();
    assert!(wrong * 10 <= all, "{wrong} of {all} outlines on nothing");
}
