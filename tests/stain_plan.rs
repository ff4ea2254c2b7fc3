//! The planner against a search of its own kind, and what it does with odd requests.

use proptest::prelude::*;
use std::collections::BTreeMap;
use tabside::Error;
use tabside::colour::{Lab, delta_e_00};
use tabside::scene::Zone;
use tabside::stain::{
    Mix, Plan, PlanLimits, PlanRequest, PlanZone, ShortfallCode, StepKind, StrengthBook,
    SwatchBook, plan,
};

fn demo() -> SwatchBook {
    serde_json::from_str(include_str!("../fixtures/demo/demo.swatches.json")).unwrap()
}

fn zone(zone: Zone, from: [f64; 3], to: [f64; 3]) -> PlanZone {
    PlanZone {
        zone,
        from: Lab(from),
        to: Lab(to),
        doubt: 0.0,
    }
}

fn three_thirds() -> Vec<PlanZone> {
    vec![
        zone(Zone::Cervical, [76.5, 0.3, 15.0], [72.5, 2.2, 19.5]),
        zone(Zone::Middle, [78.0, -0.5, 13.0], [75.5, 0.8, 16.5]),
        zone(Zone::Incisal, [77.5, -1.0, 10.5], [73.5, -0.6, 12.0]),
    ]
}

fn asked(zones: Vec<PlanZone>, limits: PlanLimits) -> Plan {
    let book = StrengthBook::of(&demo()).unwrap();
    plan(&book, &PlanRequest { zones, limits }).unwrap()
}

const FOUR: [&str; 4] = ["heath copper", "rain slate", "dusk clay", "tide edge"];

fn four_stains() -> PlanLimits {
    PlanLimits {
        stains: FOUR.map(str::to_owned).to_vec(),
        foundation: false,
        ..PlanLimits::default()
    }
}

/// Every allowed mix and number of coats by single predictions, as a user would try them.
fn best_of_all(book: &StrengthBook, z: &PlanZone, quarters: u32) -> f64 {
    let mut best = delta_e_00(z.to, z.from);
    let mut mixes: Vec<Mix> = FOUR
        .iter()
        .map(|s| BTreeMap::from([((*s).to_owned(), 1.0)]))
        .collect();
    for (i, one) in FOUR.iter().enumerate() {
        for other in FOUR.iter().skip(i + 1) {
            for tenths in 1..10 {
                let share = f64::from(tenths) / 10.0;
                mixes.push(BTreeMap::from([
                    ((*one).to_owned(), share),
                    ((*other).to_owned(), 1.0 - share),
                ]));
            }
        }
    }
    for mix in mixes {
        let mut before = z.from;
        for q in 1..=quarters {
            let lab = book.predict(z.from, &mix, f64::from(q) / 4.0).unwrap().lab;
            let half_a_step = (lab.chroma() - before.chroma()).abs() / 2.0;
            before = lab;
            let too_much = lab.chroma() > z.to.chroma().max(z.from.chroma()) + half_a_step;
            if !too_much && lab.l() <= z.from.l() + 0.1 {
                best = best.min(delta_e_00(z.to, lab));
            }
        }
    }
    best
}

/// Single predictions know nothing of the planner's shortcuts; the plan is within 0.3 of the best
/// of them.
#[test]
fn no_allowed_plan_is_nearer_by_more_than_0_3() {
    let book = StrengthBook::of(&demo()).unwrap();
    let made = asked(three_thirds(), four_stains());
    for (z, planned) in three_thirds().iter().zip(&made.zones) {
        let best = best_of_all(&book, z, 24);
        println!(
            "{:?}: planned {:.3}, best {best:.3}",
            z.zone, planned.after_delta_e_00
        );
        assert!(planned.after_delta_e_00 <= best + 0.3);
        assert!(
            planned.after_delta_e_00 >= best - 1e-6,
            "the plan breaks a rule"
        );
    }
}

#[test]
fn the_same_request_gives_the_same_plan() {
    let one = asked(three_thirds(), PlanLimits::default());
    assert_eq!(one, asked(three_thirds(), PlanLimits::default()));
    let kinds: Vec<StepKind> = one.steps.iter().map(|s| s.kind).collect();
    assert_eq!(kinds.first(), Some(&StepKind::Foundation));
    assert_eq!(
        kinds.iter().rev().take(3).collect::<Vec<_>>(),
        [&StepKind::Photograph, &StepKind::Fire, &StepKind::Look]
    );
    let painted: Vec<Zone> = one.steps.iter().flat_map(|s| s.zones.clone()).collect();
    assert_eq!(painted, [Zone::Cervical, Zone::Middle, Zone::Incisal]);
    assert_eq!(one.cautions.len(), 5);
}

/// The steps of all firings add up to the plan, none holds more than the limit, and the last
/// expected colour is the predicted one.
#[test]
fn firings_hold_what_the_limit_allows() {
    let limits = PlanLimits {
        coats_per_firing: 1.0,
        firings: 3,
        foundation: false,
        ..PlanLimits::default()
    };
    let made = asked(three_thirds(), limits);
    assert!(made.firings > 1, "the request needs more than one coat");
    for z in &made.zones {
        let own: Vec<_> = made
            .steps
            .iter()
            .filter(|s| s.kind == StepKind::Paint && s.zones.contains(&z.zone))
            .collect();
        let coats = |s: &&tabside::stain::PlanStep| s.paint.as_ref().map_or(0.0, |p| p.coats);
        assert!(own.iter().all(|s| coats(s) <= 1.0));
        let sum: f64 = own.iter().map(coats).sum();
        assert!((sum - z.paint.coats).abs() < 1e-9);
        let last = own.last().unwrap();
        let place = last.zones.iter().position(|zone| *zone == z.zone).unwrap();
        assert!(delta_e_00(last.expect[place].lab, z.predicted.lab) < 1e-6);
    }
}

/// Stain does not lighten: the darker restoration stays, and the plan says so and by how much.
#[test]
fn a_lighter_target_is_said_to_be_out_of_reach() {
    let limits = PlanLimits {
        may_lighten: false,
        ..four_stains()
    };
    let made = asked(
        vec![zone(Zone::Middle, [70.0, 1.0, 17.0], [77.0, 0.5, 15.0])],
        limits,
    );
    let short = made.shortfalls.first().unwrap();
    assert_eq!(short.code, ShortfallCode::TargetLighter);
    assert!(
        short.text.contains("7.0") && !short.instead.is_empty(),
        "{short:?}"
    );
    assert!(made.zones[0].predicted.lab.l() <= 70.1);
    assert!(made.leave.is_some(), "nothing to gain");
}

/// A stain whose swatches show that it lightens may be used, and its price is named.
#[test]
fn lightening_has_its_price_named() {
    let made = asked(
        vec![zone(Zone::Middle, [70.0, 1.0, 17.0], [73.0, 0.3, 14.5])],
        PlanLimits {
            stains: vec!["chalk breath".to_owned()],
            ..PlanLimits::default()
        },
    );
    assert!(
        made.zones[0].predicted.lab.l() > 70.3,
        "{:?}",
        made.zones[0]
    );
    let codes: Vec<_> = made.shortfalls.iter().map(|s| s.code).collect();
    assert!(
        codes.contains(&ShortfallCode::LightenedAtAPrice),
        "{codes:?}"
    );
}

#[test]
fn chroma_that_must_go_and_too_few_coats_are_named() {
    let chroma = asked(
        vec![zone(Zone::Cervical, [75.0, 2.0, 24.0], [74.5, 0.5, 15.0])],
        PlanLimits {
            stains: vec!["heath copper".to_owned()],
            ..PlanLimits::default()
        },
    );
    assert!(
        chroma
            .shortfalls
            .iter()
            .any(|s| s.code == ShortfallCode::ChromaTooHigh)
    );
    let coats = asked(
        vec![zone(Zone::Cervical, [79.0, 3.0, 16.8], [71.0, 8.0, 28.0])],
        PlanLimits {
            coats_per_firing: 1.0,
            firings: 1,
            ..PlanLimits::default()
        },
    );
    assert!(
        coats
            .shortfalls
            .iter()
            .any(|s| s.code == ShortfallCode::CoatLimit),
        "{:?}",
        coats.shortfalls
    );
}

#[test]
fn what_is_not_seen_is_left_alone() {
    let near = asked(
        vec![zone(Zone::Middle, [75.0, 1.0, 18.0], [74.6, 1.1, 18.2])],
        PlanLimits::default(),
    );
    assert!(near.leave.unwrap().contains("0.8"));
    let doubtful = PlanZone {
        doubt: 3.0,
        ..zone(Zone::Middle, [75.0, 1.0, 18.0], [73.2, 1.1, 18.2])
    };
    assert!(
        asked(vec![doubtful], PlanLimits::default())
            .leave
            .unwrap()
            .contains("doubt")
    );
}

/// Third by third: what lies within its doubt is left, what is seen is painted; and no third is
/// painted for less than ΔE00 0.3.
#[test]
fn each_third_is_painted_only_for_a_gain() {
    let mut zones = three_thirds();
    zones[1] = PlanZone {
        doubt: 2.0,
        ..zone(Zone::Middle, [76.0, 0.6, 15.8], [75.0, 0.8, 16.5])
    };
    let made = asked(zones, PlanLimits::default());
    let coats: Vec<f64> = made.zones.iter().map(|z| z.paint.coats).collect();
    assert!(
        coats[0] > 0.0 && coats[1] == 0.0 && coats[2] > 0.0,
        "{coats:?}"
    );
    assert!(made.leave.is_none() && made.shortfalls.iter().all(|s| s.zone != Zone::Middle));
    // Only a stain of the wrong hue is allowed: it is not used just to lower value.
    let wrong = asked(
        vec![zone(Zone::Middle, [76.0, 0.5, 15.0], [75.0, 2.5, 19.0])],
        PlanLimits {
            stains: vec!["sloe veil".to_owned()],
            ..PlanLimits::default()
        },
    );
    let z = &wrong.zones[0];
    assert!(z.paint.coats == 0.0 && z.after_delta_e_00 <= z.before_delta_e_00);
    assert_eq!(z.predicted.lab, z.from, "no paint, no foundation");
    assert!(wrong.leave.is_some() && wrong.steps.is_empty() && wrong.firings == 0);
}

/// Ruled out by the limits, at hand in the book: the plan says which stain it is.
#[test]
fn a_stain_that_was_left_out_is_named() {
    let made = asked(
        vec![zone(Zone::Incisal, [76.8, -0.1, 13.9], [70.9, 0.2, 14.5])],
        PlanLimits {
            stains: vec!["chalk breath".to_owned()],
            ..PlanLimits::default()
        },
    );
    let codes: Vec<ShortfallCode> = made.shortfalls.iter().map(|s| s.code).collect();
    assert!(codes.contains(&ShortfallCode::TargetDarker), "{codes:?}");
    let left_out = made
        .shortfalls
        .iter()
        .find(|s| s.code == ShortfallCode::LeftOut);
    assert!(
        left_out.unwrap().text.contains("rain slate"),
        "{left_out:?}"
    );
}

#[test]
fn wrong_requests_are_refused_in_words() {
    let book = StrengthBook::of(&demo()).unwrap();
    let good = three_thirds();
    let refused = |zones: Vec<PlanZone>, limits: PlanLimits| {
        let error = plan(&book, &PlanRequest { zones, limits }).unwrap_err();
        assert!(matches!(error, Error::Input { .. }), "{error:?}");
        error.to_string()
    };
    assert!(refused(Vec::new(), PlanLimits::default()).contains("thirds"));
    assert!(
        refused(
            vec![good[0].clone(), good[0].clone()],
            PlanLimits::default()
        )
        .contains("twice")
    );
    let whole = zone(Zone::Whole, [75.0, 1.0, 18.0], [74.0, 1.0, 18.0]);
    assert!(refused(vec![whole], PlanLimits::default()).contains("whole"));
    let black = zone(Zone::Middle, [5.0, 0.0, 0.0], [74.0, 1.0, 18.0]);
    assert!(refused(vec![black], PlanLimits::default()).contains("Middle third"));
    for coats_per_firing in [0.0, -1.0, f64::NAN, 1e9] {
        let limits = PlanLimits {
            coats_per_firing,
            ..PlanLimits::default()
        };
        assert!(refused(good.clone(), limits).contains("coats"));
    }
    let unknown = PlanLimits {
        stains: vec!["moonshine".to_owned()],
        ..PlanLimits::default()
    };
    assert!(refused(good, unknown).contains("moonshine"));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// Stains that are not shown to lighten never raise value, coat by coat, on any base.
    #[test]
    fn another_coat_never_raises_value(
        l in 55.0..85.0_f64, a in -2.0..5.0_f64, b in 8.0..26.0_f64,
        one in 0..6_usize, other in 0..6_usize, share in 0.0..1.0_f64, coats in 0.0..6.0_f64,
    ) {
        let book = StrengthBook::of(&demo()).unwrap();
        let names = ["heath copper", "barley husk", "rain slate", "dusk clay", "tide edge", "sloe veil"];
        let mut mix = BTreeMap::from([(names[one].to_owned(), share)]);
        *mix.entry(names[other].to_owned()).or_insert(0.0) += 1.0 - share;
        let base = Lab::new(l, a, b);
        let less = book.predict(base, &mix, coats).unwrap().lab;
        let more = book.predict(base, &mix, coats + 0.25).unwrap().lab;
        prop_assert!(more.l() <= less.l() + 1e-9, "{less:?} {more:?}");
    }

    /// Two half layers are one, and nothing painted changes nothing.
    #[test]
    fn coats_add_up(l in 60.0..82.0_f64, b in 8.0..24.0_f64, coats in 0.5..4.0_f64) {
        let book = StrengthBook::of(&demo()).unwrap();
        let mix = BTreeMap::from([("heath copper".to_owned(), 1.0)]);
        let base = Lab::new(l, 1.0, b);
        prop_assert!(delta_e_00(base, book.predict(base, &mix, 0.0).unwrap().lab) < 1e-6);
        let first = book.predict(base, &mix, coats).unwrap().lab;
        let again = book.predict(first, &mix, coats).unwrap().lab;
        let once = book.predict(base, &mix, 2.0 * coats).unwrap().lab;
        // The colour between is lifted to a spectrum anew, which costs a little.
        prop_assert!(delta_e_00(again, once) < 0.25, "{again:?} {once:?}");
    }
}
