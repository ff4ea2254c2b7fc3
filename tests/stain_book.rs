//! Swatches that are few, odd or wrong; what fired passes teach; the looks before and after.

use std::collections::BTreeMap;
use tabside::colour::{Lab, delta_e_00};
use tabside::scene::Zone;
use tabside::stain::{
    Paint, Pass, PassAdvice, PassZone, PlanLimits, Share, StrengthBook, Swatch, SwatchBook,
    SwatchCheckCode as Code, UnfiredAdvice, UnfiredRequest, UnfiredZone, look_unfired, review,
};

const BASE: [f64; 3] = [78.0, 0.0, 13.0];

fn demo() -> SwatchBook {
    serde_json::from_str(include_str!("../fixtures/demo/demo.swatches.json")).unwrap()
}

fn swatch(stain: &str, coats: f64, after: [f64; 3]) -> Swatch {
    Swatch::new(stain, coats, Lab(BASE), Lab(after))
}

fn codes(swatches: &[Swatch]) -> Vec<Code> {
    let book = StrengthBook::fit(swatches).unwrap();
    book.fitted().checks.iter().map(|c| c.code).collect()
}

const BROWN: [[f64; 3]; 3] = [[75.9, 1.5, 16.1], [73.9, 2.9, 18.9], [72.1, 4.1, 21.4]];

#[test]
fn few_swatches_are_said_to_be_few() {
    assert!(codes(&[swatch("umber", 1.0, BROWN[0])]).contains(&Code::OneSwatch));
    let two = [
        swatch("umber", 1.0, BROWN[0]),
        swatch("umber", 1.0, [75.8, 1.6, 16.0]),
    ];
    assert!(codes(&two).contains(&Code::OneCoatCount));
    let sound = [
        swatch("umber", 1.0, BROWN[0]),
        swatch("umber", 2.0, BROWN[1]),
    ];
    assert!(codes(&sound).is_empty(), "{:?}", codes(&sound));
}

/// One swatch leans on the prior: its doubt is larger than that of two.
#[test]
fn doubt_shrinks_with_swatches() {
    let dark = Lab::new(66.0, 2.0, 19.0);
    let doubt = |n: usize| {
        let all: Vec<Swatch> = BROWN
            .iter()
            .take(n)
            .enumerate()
            .map(|(i, after)| swatch("umber", i as f64 + 1.0, *after))
            .collect();
        let book = StrengthBook::fit(&all).unwrap();
        let mix = BTreeMap::from([("umber".to_owned(), 1.0)]);
        book.predict(dark, &mix, 3.0).unwrap().doubt
    };
    let [one, two, three] = [1, 2, 3].map(doubt);
    assert!(one > two && two > three, "{one} {two} {three}");
}

#[test]
fn nonsense_is_left_out_and_named() {
    let good = [
        swatch("umber", 1.0, BROWN[0]),
        swatch("umber", 2.0, BROWN[1]),
    ];
    let with = |odd: Swatch| {
        let mut all = good.to_vec();
        all.push(odd);
        let book = StrengthBook::fit(&all).unwrap();
        let found = book.fitted().checks.first().cloned().unwrap();
        assert_eq!(found.swatch, Some(2));
        assert!(!found.text.is_empty() && !found.remedy.is_empty());
        // What can be used is used as before.
        let mix = BTreeMap::from([("umber".to_owned(), 1.0)]);
        let plain = StrengthBook::fit(&good).unwrap();
        let base = Lab::new(70.0, 1.0, 18.0);
        assert_eq!(
            book.predict(base, &mix, 1.0).unwrap(),
            plain.predict(base, &mix, 1.0).unwrap()
        );
        found.code
    };
    assert_eq!(with(swatch("umber", 0.0, BROWN[0])), Code::Unusable);
    assert_eq!(with(swatch("umber", f64::NAN, BROWN[0])), Code::Unusable);
    assert_eq!(with(swatch("", 1.0, BROWN[0])), Code::Unusable);
    assert_eq!(
        with(swatch("umber", 1.0, [f64::INFINITY, 0.0, 0.0])),
        Code::Unusable
    );
    let mut odd = swatch("umber", 1.0, BROWN[0]);
    odd.base = Lab::new(20.0, 40.0, 0.0);
    assert_eq!(with(odd), Code::BaseUnlike);
    let mut mixed = swatch("", 1.0, BROWN[0]);
    mixed.mix = Some(BTreeMap::from([
        ("umber".to_owned(), 0.5),
        ("slate".to_owned(), 0.2),
    ]));
    assert_eq!(with(mixed), Code::Unusable);
}

#[test]
fn nothing_usable_is_an_error_in_words() {
    let error = StrengthBook::fit(&[swatch("umber", 0.0, BROWN[0])])
        .unwrap_err()
        .to_string();
    assert!(error.contains("0 coats"), "{error}");
    assert!(StrengthBook::fit(&[]).is_err());
}

#[test]
fn contradictions_are_named() {
    let lighter = [
        swatch("umber", 1.0, BROWN[0]),
        swatch("umber", 2.0, BROWN[1]),
        swatch("umber", 2.0, [80.5, -0.5, 11.0]),
    ];
    let found = codes(&lighter);
    assert!(
        found.contains(&Code::Lighter) && found.contains(&Code::Contradicts),
        "{found:?}"
    );
    let exchanged = [
        swatch("umber", 1.0, BROWN[1]),
        swatch("umber", 2.0, BROWN[0]),
    ];
    assert!(codes(&exchanged).contains(&Code::Contradicts));
    let faint = [
        swatch("water", 1.0, [77.98, 0.0, 13.02]),
        swatch("water", 2.0, [78.03, 0.01, 13.0]),
    ];
    assert!(codes(&faint).contains(&Code::Faint));
}

#[test]
fn only_a_stain_that_is_shown_to_lighten_lightens() {
    let book = StrengthBook::fit(&[
        swatch("umber", 1.0, BROWN[0]),
        swatch("umber", 2.0, BROWN[1]),
        swatch("mist", 1.0, [79.2, -0.4, 11.0]),
        swatch("mist", 2.0, [80.3, -0.7, 9.4]),
    ])
    .unwrap();
    let lightens: Vec<bool> = book.fitted().strengths.iter().map(|s| s.lightens).collect();
    assert_eq!(lightens, [false, true]);
}

#[test]
fn mixes_that_do_not_sum_to_one_are_refused() {
    let book = StrengthBook::of(&demo()).unwrap();
    let ask = |mix: &[(&str, f64)], coats: f64| {
        let mix = mix.iter().map(|(n, s)| ((*n).to_owned(), *s)).collect();
        book.predict(Lab(BASE), &mix, coats)
            .map_err(|e| e.to_string())
    };
    assert!(ask(&[("heath copper", 0.6), ("rain slate", 0.4)], 1.0).is_ok());
    assert!(
        ask(&[("heath copper", 0.6), ("rain slate", 0.6)], 1.0)
            .unwrap_err()
            .contains("1.200")
    );
    assert!(ask(&[], 1.0).is_err());
    assert!(ask(&[("heath copper", f64::NAN)], 1.0).is_err());
    assert!(
        ask(&[("nowhere", 1.0)], 1.0)
            .unwrap_err()
            .contains("nowhere")
    );
    assert!(ask(&[("heath copper", 1.0)], -1.0).is_err());
    assert!(ask(&[("heath copper", 1.0)], 1e12).is_err());
}

/// A pass that did 60 % of what was predicted makes the next prediction weaker, and narrower.
#[test]
fn a_fired_pass_teaches_the_strengths() {
    let mut book = SwatchBook {
        swatches: vec![
            Swatch {
                doubt: Some(1.0),
                ..swatch("umber", 1.0, BROWN[0])
            },
            Swatch {
                doubt: Some(1.0),
                ..swatch("slate", 1.0, [75.5, -0.4, 12.0])
            },
        ],
        ..SwatchBook::default()
    };
    let mix = BTreeMap::from([("umber".to_owned(), 0.6), ("slate".to_owned(), 0.4)]);
    let before = StrengthBook::of(&book)
        .unwrap()
        .predict(Lab(BASE), &mix, 2.0)
        .unwrap();
    let got = Lab([0, 1, 2].map(|i: usize| BASE[i] + 0.6 * (before.lab.0[i] - BASE[i])));
    for _ in 0..2 {
        book.swatches.push(Swatch {
            mix: Some(mix.clone()),
            doubt: Some(0.4),
            note: "pass 1".to_owned(),
            ..Swatch::new("", 2.0, Lab(BASE), got)
        });
    }
    let after = StrengthBook::of(&book)
        .unwrap()
        .predict(Lab(BASE), &mix, 2.0)
        .unwrap();
    assert!(
        delta_e_00(after.lab, got) < 0.5 * delta_e_00(before.lab, got),
        "{before:?} {after:?} {got:?}"
    );
    assert!(after.doubt < before.doubt);
}

fn fired(got: [f64; 3], target: [f64; 3], doubt: f64) -> Pass {
    Pass {
        foundation: false,
        limits: PlanLimits::default(),
        zones: vec![PassZone {
            zone: Zone::Cervical,
            paint: Paint {
                mix: vec![Share {
                    stain: "heath copper".to_owned(),
                    parts: 10,
                }],
                coats: 2.0,
            },
            before: Lab(BASE),
            predicted: Lab::new(74.0, 2.0, 18.0),
            predicted_doubt: 0.3,
            got: Lab(got),
            target: Lab(target),
            doubt,
        }],
    }
}

#[test]
fn a_pass_is_stopped_or_continued_for_a_reason() {
    let book = StrengthBook::of(&demo()).unwrap();
    let advice = |got, target, doubt| review(&book, &fired(got, target, doubt)).unwrap();
    let hit = advice([74.1, 2.0, 18.0], [74.0, 2.0, 18.1], 0.5);
    assert_eq!(hit.advice, PassAdvice::StopBelowPerceptibility);
    assert!(hit.zones[0].as_predicted);
    let within = advice([75.4, 2.0, 18.0], [74.0, 2.0, 18.1], 1.6);
    assert_eq!(within.advice, PassAdvice::StopWithinDoubt);
    let weak = advice([76.2, 1.0, 15.4], [74.0, 2.0, 18.0], 0.3);
    assert_eq!(weak.advice, PassAdvice::Go);
    assert!(
        !weak.zones[0].as_predicted && weak.zones[0].words.contains('%'),
        "{:?}",
        weak.zones
    );
    // Darker than the target: only a lighter base would help. The light stain at hand costs more
    // than it gains here.
    let dark = advice([68.0, 4.0, 26.0], [76.0, 0.0, 14.0], 0.3);
    assert!(dark.zones[0].left_delta_e_00 > 5.0);
    assert!(review(&book, &Pass::default()).is_err());
}

fn painted(zone: Zone, share: f64, blotch: Option<f64>) -> UnfiredZone {
    let (before, predicted) = (BASE, [74.0, 2.0, 18.0]);
    UnfiredZone {
        zone,
        before: Lab(before),
        // Unfired paint looks paler and greyer here: −0.5, −0.5, −1 on the way.
        unfired: Lab([0, 1, 2]
            .map(|i: usize| before[i] + share * (predicted[i] - before[i]) - [0.5, 0.5, 1.0][i])),
        predicted: Lab(predicted),
        predicted_doubt: 0.2,
        doubt: 0.3,
        blotch_before: Some(0.5),
        blotch,
    }
}

#[test]
fn the_look_before_firing_gives_directions_until_pairs_are_known() {
    let book = StrengthBook::of(&demo()).unwrap();
    let request = UnfiredRequest {
        zones: vec![
            painted(Zone::Cervical, 1.0, Some(0.6)),
            painted(Zone::Middle, 1.9, Some(0.6)),
            painted(Zone::Incisal, 1.0, Some(1.9)),
        ],
    };
    let look = look_unfired(&book, &request).unwrap();
    assert!(look.directions_only && look.zones.iter().all(|z| z.fired.is_none()));
    let advice: Vec<&UnfiredAdvice> = look.zones.iter().filter_map(|z| z.advice.first()).collect();
    assert_eq!(advice[1], &UnfiredAdvice::Thin);
    assert_eq!(advice[2], &UnfiredAdvice::Spread);
    assert!(look_unfired(&book, &UnfiredRequest::default()).is_err());
}

#[test]
fn pairs_of_ones_own_predict_the_fired_colour() {
    let mut known = demo();
    for s in known.swatches.iter_mut().take(5) {
        let [l, a, b] = s.after.0;
        s.unfired = Some(Lab::new(l - 0.5, a - 0.5, b - 1.0));
    }
    let book = StrengthBook::of(&known).unwrap();
    let look = |share| {
        let request = UnfiredRequest {
            zones: vec![painted(Zone::Middle, share, None)],
        };
        let look = look_unfired(&book, &request).unwrap();
        assert!(!look.directions_only);
        let z = &look.zones[0];
        (z.advice[0], z.share_of_coats.unwrap())
    };
    let (right, share) = look(1.0);
    assert!(
        right == UnfiredAdvice::Leave && (share - 1.0).abs() < 0.05,
        "{right:?} {share}"
    );
    assert_eq!(look(1.5).0, UnfiredAdvice::Thin);
    assert_eq!(look(0.5).0, UnfiredAdvice::Add);
}

/// A stain whose swatches contradict each other does not look certain because others agree.
#[test]
fn disagreement_widens_the_stains_own_doubt() {
    let sound = [
        swatch("umber", 1.0, BROWN[0]),
        swatch("umber", 2.0, BROWN[1]),
    ];
    let of = |amber: [[f64; 3]; 2]| {
        let mut all = sound.to_vec();
        all.extend(amber.map(|after| swatch("amber", 1.0, after)));
        let book = StrengthBook::fit(&all).unwrap();
        let doubts: Vec<f64> = book.fitted().strengths.iter().map(|s| s.doubt).collect();
        (doubts[0], doubts[1], book.fitted().reading_noise)
    };
    let (_, agreed, _) = of([[74.0, 3.0, 20.0], [74.1, 3.0, 19.9]]);
    let (_, apart, noise) = of([[74.0, 3.0, 20.0], [77.0, -3.0, 11.0]]);
    assert!(agreed < 1.5 && apart > 3.0, "{agreed} {apart} {noise}");
}

/// One swatch cannot show how well its coat was laid, whatever others say.
#[test]
fn one_swatch_keeps_a_floor() {
    let mut all = vec![
        swatch("umber", 1.0, BROWN[0]),
        swatch("umber", 2.0, BROWN[1]),
    ];
    for _ in 0..3 {
        all.push(swatch("slate", 1.0, [75.0, -0.4, 12.0]));
    }
    let book = StrengthBook::fit(&all).unwrap();
    let slate = &book.fitted().strengths[1];
    let shift = delta_e_00(slate.base, slate.one_coat);
    assert!(slate.doubt > 0.1 * shift, "{slate:?}");
}
