//! What a card says of itself before anything is balanced on it.

use super::*;
use crate::scene::CardStep;

fn square(at: f64) -> Vec<Point> {
    [[0.0, 0.0], [9.0, 0.0], [9.0, 9.0], [0.0, 9.0]]
        .map(|[x, y]| Point::new(at + x, at + y))
        .to_vec()
}

fn step(l: f64, a: f64, b: f64) -> CardStep {
    CardStep {
        outline: square(l),
        lab: Lab::new(l, a, b),
    }
}

#[test]
fn steps_stand_in_for_the_single_patch() {
    let card = Card {
        outline: square(0.0),
        ..Card::default()
    };
    let wanted = wanted_steps(&card).expect("a card");
    assert_eq!(
        wanted,
        vec![(square(0.0), Lab::neutral_from_y(DEFAULT_CARD_Y))]
    );
    let with_steps = Card {
        steps: vec![step(30.0, 0.0, 0.0), step(70.0, 0.5, -0.5)],
        ..card
    };
    let wanted = wanted_steps(&with_steps).expect("steps");
    assert_eq!(
        wanted,
        vec![
            (square(30.0), Lab::new(30.0, 0.0, 0.0)),
            (square(70.0), Lab::new(70.0, 0.5, -0.5)),
        ]
    );
    let none = wanted_steps(&Card::default()).expect_err("nothing to measure");
    assert!(none.to_string().contains("no outline"), "{none}");
}

#[test]
fn a_cards_colour_is_one_of_a_grey() {
    let of = |lab: Option<[f64; 3]>, reflectance: Option<f64>| {
        let card = Card {
            outline: square(0.0),
            lab: lab.map(Lab),
            reflectance,
            steps: Vec::new(),
        };
        wanted_steps(&card).ok().map(|w| w[0].1)
    };
    for lab in [[5.0, 20.0, -20.0], [99.5, -20.0, 20.0], [50.0, 0.0, 0.0]] {
        assert_eq!(of(Some(lab), None), Some(Lab(lab)));
        // What is printed on it goes before what it reflects.
        assert_eq!(of(Some(lab), Some(0.5)), Some(Lab(lab)));
    }
    for lab in [
        [4.9, 0.0, 0.0],
        [99.6, 0.0, 0.0],
        [50.0, 20.1, 0.0],
        [50.0, 0.0, -20.1],
        [f64::NAN, 0.0, 0.0],
    ] {
        assert_eq!(of(Some(lab), None), None);
    }
    for y in [0.02, 0.18, 0.98] {
        assert_eq!(of(None, Some(y)), Some(Lab::neutral_from_y(y)));
    }
    for y in [0.019, 0.981, f64::NAN] {
        assert_eq!(of(None, Some(y)), None);
    }
}

#[test]
fn steps_are_greys_and_not_too_many() {
    let of = |steps: Vec<CardStep>| {
        wanted_steps(&Card {
            steps,
            ..Card::default()
        })
    };
    assert_eq!(
        of(vec![step(50.0, 0.0, 0.0); MAX_STEPS])
            .expect("steps")
            .len(),
        MAX_STEPS
    );
    assert!(of(vec![step(50.0, 0.0, 0.0); MAX_STEPS + 1]).is_err());
    assert!(of(vec![step(50.0, 0.0, 0.0), step(50.0, 30.0, 0.0)]).is_err());
}

/// Codes and severities of what a card showed, usable or not.
fn said(seen: Seen, unusable: bool) -> Vec<(CheckCode, Severity)> {
    let mut checks = Vec::new();
    seen.report(unusable, &mut checks);
    checks.iter().map(|c| (c.code, c.severity)).collect()
}

fn sound() -> Seen {
    Seen {
        pixels: 5000,
        brightest: 0.2,
        ..Seen::default()
    }
}

#[test]
fn a_sound_card_has_nothing_to_say() {
    assert_eq!(said(sound(), false), vec![]);
    let nearly = Seen {
        clipped: 0.02,
        inside: 0.999,
        unevenness: 0.10,
        texture: 0.15,
        outliers: PRINTED,
        brightest: DARK_LINEAR,
        pixels: MIN_CARD_PIXELS,
    };
    assert_eq!(said(nearly, false), vec![]);
}

#[test]
fn each_fault_is_told_as_what_it_is() {
    use CheckCode as C;
    use Severity::{Care, Retake};
    for (seen, want) in [
        (
            Seen {
                inside: 0.9,
                ..sound()
            },
            vec![(C::CardOutside, Care)],
        ),
        (
            Seen {
                clipped: 0.03,
                ..sound()
            },
            vec![(C::CardClipped, Care)],
        ),
        // At the edge of a retake it is care still.
        (
            Seen {
                clipped: 0.3,
                ..sound()
            },
            vec![(C::CardClipped, Care)],
        ),
        (
            Seen {
                clipped: 0.31,
                ..sound()
            },
            vec![(C::CardClipped, Retake)],
        ),
        (
            Seen {
                brightest: 0.9 * DARK_LINEAR,
                ..sound()
            },
            vec![(C::CardDark, Retake)],
        ),
        (
            Seen {
                outliers: 1.1 * PRINTED,
                ..sound()
            },
            vec![(C::CardTextured, Care)],
        ),
        (
            Seen {
                unevenness: 0.11,
                ..sound()
            },
            vec![(C::CardTextured, Care)],
        ),
        (
            Seen {
                unevenness: 0.35,
                ..sound()
            },
            vec![(C::CardTextured, Care)],
        ),
        (
            Seen {
                unevenness: 0.36,
                ..sound()
            },
            vec![(C::CardTextured, Retake)],
        ),
        (
            Seen {
                texture: 0.16,
                ..sound()
            },
            vec![(C::CardTextured, Care)],
        ),
        // Uneven and printed is one fault.
        (
            Seen {
                texture: 0.16,
                outliers: 0.9,
                ..sound()
            },
            vec![(C::CardTextured, Care)],
        ),
        (
            Seen {
                unevenness: 0.11,
                outliers: 0.9,
                ..sound()
            },
            vec![(C::CardTextured, Care)],
        ),
    ] {
        assert_eq!(said(seen, false), want);
    }
}

#[test]
fn a_card_that_cannot_be_used_says_why() {
    use CheckCode as C;
    use Severity::Retake;
    let dark = |seen: Seen| Seen {
        brightest: 0.0,
        unevenness: 0.9,
        ..seen
    };
    for (seen, want) in [
        (dark(sound()), vec![(C::CardSmall, Retake)]),
        (
            dark(Seen {
                clipped: 0.03,
                ..sound()
            }),
            vec![(C::CardClipped, Retake)],
        ),
        (
            dark(Seen {
                inside: 0.5,
                ..sound()
            }),
            vec![(C::CardOutside, Retake), (C::CardSmall, Retake)],
        ),
        (
            dark(Seen {
                inside: 0.0,
                ..sound()
            }),
            vec![(C::CardOutside, Retake)],
        ),
    ] {
        assert_eq!(said(seen, true), want);
    }
}
