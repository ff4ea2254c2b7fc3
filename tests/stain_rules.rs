//! The planner's rules, each where breaking it would bring a plan nearer.

use std::collections::BTreeMap;
use tabside::colour::Lab;
use tabside::scene::Zone;
use tabside::stain::{
    Plan, PlanLimits, PlanRequest, PlanZone, ShortfallCode, StepKind, StrengthBook, SwatchBook,
    plan,
};

fn demo() -> SwatchBook {
    serde_json::from_str(include_str!("../fixtures/demo/demo.swatches.json")).unwrap()
}

fn only(stains: &[&str]) -> PlanLimits {
    PlanLimits {
        stains: stains.iter().map(|s| (*s).to_owned()).collect(),
        foundation: false,
        ..PlanLimits::default()
    }
}

fn asked(book: &SwatchBook, from: [f64; 3], to: [f64; 3], limits: PlanLimits) -> Plan {
    let zones = vec![PlanZone {
        zone: Zone::Middle,
        from: Lab(from),
        to: Lab(to),
        doubt: 0.0,
    }];
    let book = StrengthBook::of(book).unwrap();
    plan(&book, &PlanRequest { zones, limits }).unwrap()
}

/// Value is too high, chroma nearly right: more coats would come nearer, past the target's chroma.
#[test]
fn chroma_does_not_pass_the_target() {
    let made = asked(
        &demo(),
        [78.0, 0.5, 14.0],
        [73.5, 1.2, 16.0],
        only(&["heath copper"]),
    );
    let z = &made.zones[0];
    assert!(z.paint.coats > 0.0);
    assert!(z.predicted.lab.chroma() <= z.to.chroma() + 0.5, "{z:?}");
}

#[test]
fn lightening_needs_leave_and_proof() {
    let (dark, lighter) = ([70.0, 1.0, 17.0], [75.0, 0.3, 14.0]);
    let rises = |plan: &Plan| plan.zones[0].predicted.lab.l() - plan.zones[0].from.l();
    assert!(rises(&asked(&demo(), dark, lighter, only(&["chalk breath"]))) > 0.5);
    let forbidden = PlanLimits {
        may_lighten: false,
        ..only(&["chalk breath"])
    };
    assert!(rises(&asked(&demo(), dark, lighter, forbidden)) <= 0.1);
    // Far lighter than any base on which it was shown.
    let white = asked(
        &demo(),
        [88.0, -1.0, 8.0],
        [92.0, -1.0, 6.0],
        only(&["chalk breath"]),
    );
    assert!(rises(&white) <= 0.1);
    // The same paint, whose swatches show no lightening.
    let mut unproven = demo();
    unproven
        .swatches
        .retain(|s| s.stain != "chalk breath" || s.base.l() > 75.0);
    for s in unproven
        .swatches
        .iter_mut()
        .filter(|s| s.stain == "chalk breath")
    {
        s.after.0[0] = s.base.l() - 0.05 * s.coats;
    }
    let fitted = StrengthBook::of(&unproven).unwrap();
    let strength = fitted
        .fitted()
        .strengths
        .iter()
        .find(|s| s.stain == "chalk breath");
    assert!(!strength.unwrap().lightens);
    assert!(rises(&asked(&unproven, dark, lighter, only(&["chalk breath"]))) <= 0.1);
}

#[test]
fn glaze_is_not_mixed_in_and_a_resting_stain_rests() {
    let (from, to) = ([77.0, 0.0, 14.0], [74.0, 1.9, 18.5]);
    let used = |book: &SwatchBook| {
        let made = asked(book, from, to, only(&[]));
        let mix = made.zones[0].paint.mix.clone();
        mix.into_iter().map(|s| s.stain).collect::<Vec<_>>()
    };
    assert!(used(&demo()).contains(&"heath copper".to_owned()));
    let mut resting = demo();
    for info in &mut resting.stains {
        info.resting = info.name == "heath copper";
    }
    assert!(!used(&resting).contains(&"heath copper".to_owned()));
    let glaze = asked(&demo(), from, to, only(&["clear glaze"]));
    assert!(glaze.zones[0].paint.mix.is_empty());
}

/// Nearly as near in one firing, or with one stain: the simpler plan.
#[test]
fn the_simpler_plan_is_taken_when_it_is_as_near() {
    let book = StrengthBook::of(&demo()).unwrap();
    let base = Lab::new(78.0, 0.5, 14.0);
    let under = |mix: &[(&str, f64)], coats: f64| {
        let mix: BTreeMap<String, f64> = mix.iter().map(|(n, s)| ((*n).to_owned(), *s)).collect();
        book.predict(base, &mix, coats).unwrap().lab.0
    };
    let firings = asked(
        &demo(),
        base.0,
        under(&[("tide edge", 1.0)], 3.15),
        only(&["tide edge"]),
    );
    assert_eq!((firings.firings, firings.zones[0].paint.coats), (1, 3.0));
    let nearly_one = under(&[("heath copper", 0.95), ("dusk clay", 0.05)], 1.0);
    let stains = asked(
        &demo(),
        base.0,
        nearly_one,
        only(&["heath copper", "dusk clay"]),
    );
    assert_eq!(stains.zones[0].paint.mix.len(), 1, "{:?}", stains.zones);
}

#[test]
fn hue_is_named_the_right_way_round() {
    let said = |to: [f64; 3], stain: &str| {
        let made = asked(&demo(), [77.0, 1.0, 16.0], to, only(&[stain]));
        let hue = made
            .shortfalls
            .iter()
            .find(|s| s.code == ShortfallCode::HueNotAtHand);
        hue.map(|s| s.text.clone()).unwrap_or_default()
    };
    assert!(said([74.0, 4.5, 17.5], "barley husk").contains("redder"));
    assert!(said([74.0, -2.0, 20.0], "heath copper").contains("yellower"));
}

/// Coats are thinned out into the third beside them.
#[test]
fn feathers_go_into_the_neighbours() {
    let zone = |zone, from, to| PlanZone {
        zone,
        from: Lab(from),
        to: Lab(to),
        doubt: 0.0,
    };
    let request = PlanRequest {
        zones: vec![
            zone(Zone::Cervical, [77.0, 0.3, 15.0], [72.5, 2.6, 20.0]),
            zone(Zone::Middle, [78.0, -0.5, 13.0], [76.5, 0.0, 14.5]),
            zone(Zone::Incisal, [77.5, -1.0, 10.5], [72.5, -1.0, 10.0]),
        ],
        limits: PlanLimits::default(),
    };
    let made = plan(&StrengthBook::of(&demo()).unwrap(), &request).unwrap();
    let into: Vec<Vec<Zone>> = made
        .steps
        .iter()
        .filter(|s| s.kind == StepKind::Paint)
        .map(|s| s.feather.iter().map(|f| f.into).collect())
        .collect();
    assert_eq!(
        into,
        [
            vec![Zone::Middle],
            vec![Zone::Cervical, Zone::Incisal],
            vec![Zone::Middle]
        ]
    );
}

#[test]
fn strengths_are_said_in_words_that_fit() {
    let book = StrengthBook::of(&demo()).unwrap();
    let fitted = book.fitted();
    let words = |stain: &str| {
        let s = fitted.strengths.iter().find(|s| s.stain == stain).unwrap();
        s.words.clone()
    };
    assert!(words("heath copper").starts_with("lowers value, adds chroma"));
    assert!(words("tide edge").contains("takes chroma away"));
    assert!(words("barley husk").ends_with("towards yellow"));
    // Two decimals of rounding are all the noise there is.
    assert!(fitted.reading_noise < 0.06, "{}", fitted.reading_noise);
}
