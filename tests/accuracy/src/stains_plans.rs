//! Plans against every allowed plan: random sets, restorations and targets; the best is looked for
//! by single predictions, which know nothing of the planner's shortcuts.

use crate::stains::HELD_BACK;
use crate::table::{median, percentile};
use scene_render::rng::Rng;
use scene_render::stains::{Base, Handling, Kind, StainSet, job};
use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::time::Instant;
use tabside::colour::{Lab, delta_e_00};
use tabside::scene::Zone;
use tabside::stain::{
    Mix, PlanLimits, PlanRequest, PlanZone, StrengthBook, Swatch, SwatchBook, plan,
};

/// What the best found by single predictions and the plan leave, and how long the plan took.
struct Outcome {
    gap: f64,
    left: f64,
    truth_left: f64,
    milliseconds: f64,
}

/// The table of plans over that many sets.
///
/// # Errors
/// When a set or a plan fails.
pub fn plans(sets: u64) -> Result<String, String> {
    let outcomes: Vec<Outcome> = (0..sets)
        .map(|i| one(HELD_BACK + i))
        .collect::<Result<_, _>>()?;
    let of = |pick: fn(&Outcome) -> f64| outcomes.iter().map(pick).collect::<Vec<f64>>();
    let (gap, left, truth) = (of(|o| o.gap), of(|o| o.left), of(|o| o.truth_left));
    let mut text = String::from("## Plans against every allowed plan\n\n");
    let _ = writeln!(
        text,
        "{sets} sets of stains from exact swatches, one third each: a random restoration, a target two to four coats of a random mix away and 0.5 beside it in L*, a*, b*; limits 3 coats, 2 firings, no foundation. \
         The planned colour is further from its target than the best allowed one by ΔE00 {:.2} (median), {:.2} (most; bound 0.3: simpler plans are preferred within 0.25). \
         Left to the target as predicted: {:.2} (median), {:.2} (95th percentile); painted by the truth: {:.2}, {:.2}. \
         A plan for three thirds took {:.1} ms (median), {:.1} ms (most), natively.\n",
        median(&gap),
        percentile(&gap, 1.0),
        median(&left),
        percentile(&left, 0.95),
        median(&truth),
        percentile(&truth, 0.95),
        median(&of(|o| o.milliseconds)),
        percentile(&of(|o| o.milliseconds), 1.0),
    );
    Ok(text)
}

fn one(seed: u64) -> Result<Outcome, String> {
    let set = StainSet::random(seed);
    let swatches: Vec<Swatch> = job::swatches(&set, seed, Handling::default())?
        .into_iter()
        .map(|s| Swatch::new(s.stain, s.coats, Lab(s.base), Lab(s.after)))
        .collect();
    let names: Vec<String> = set
        .stains
        .iter()
        .filter(|s| s.kind != Kind::Glaze && s.kind != Kind::Light)
        .map(|s| s.name.clone())
        .collect();
    let mut rng = Rng::new(seed, 0x9147);
    let base = Base::random(&mut rng, true);
    let first = rng.below(names.len());
    let other = (first + 1 + rng.below(names.len() - 1)) % names.len();
    let share = (1 + rng.below(9)) as f64 / 10.0;
    let mix = [
        (names[first].as_str(), share),
        (names[other].as_str(), 1.0 - share),
    ];
    let coats = 2.0 + 0.25 * rng.below(9) as f64;
    let aim = set.after(&base, &mix, coats)?;
    let to = Lab(aim.map(|v| v + if rng.below(2) == 0 { 0.5 } else { -0.5 }));
    let from = Lab(set.read(&base));
    let limits = PlanLimits {
        stains: names.clone(),
        foundation: false,
        may_lighten: false,
        ..PlanLimits::default()
    };
    let book = StrengthBook::of(&SwatchBook {
        swatches,
        ..SwatchBook::default()
    })
    .map_err(|e| e.to_string())?;
    let zone = |zone| PlanZone {
        zone,
        from,
        to,
        doubt: 0.0,
    };
    let ask = |zones: Vec<PlanZone>| {
        plan(
            &book,
            &PlanRequest {
                zones,
                limits: limits.clone(),
            },
        )
        .map_err(|e| e.to_string())
    };
    let made = ask(vec![zone(Zone::Middle)])?;
    let start = Instant::now();
    ask(Zone::THIRDS.map(zone).to_vec())?;
    let milliseconds = start.elapsed().as_secs_f64() * 1000.0;
    let planned = made.zones.first().ok_or("a plan without a third")?;
    let painted: Vec<(&str, f64)> = planned
        .paint
        .mix
        .iter()
        .map(|s| (s.stain.as_str(), f64::from(s.parts) / 10.0))
        .collect();
    let came_out = if painted.is_empty() {
        from
    } else {
        Lab(set.after(&base, &painted, planned.paint.coats)?)
    };
    Ok(Outcome {
        gap: planned.after_delta_e_00 - best(&book, &names, from, to)?,
        left: planned.after_delta_e_00,
        truth_left: delta_e_00(to, came_out),
        milliseconds,
    })
}

/// The nearest of all allowed plans: every stain and pair in tenths, every quarter up to two
/// firings of three coats, without lightening and without too much chroma.
fn best(book: &StrengthBook, names: &[String], from: Lab, to: Lab) -> Result<f64, String> {
    let mut mixes: Vec<Mix> = Vec::new();
    for (i, one) in names.iter().enumerate() {
        mixes.push(BTreeMap::from([(one.clone(), 1.0)]));
        for other in &names[i + 1..] {
            for tenths in 1..10 {
                let share = f64::from(tenths) / 10.0;
                mixes.push(BTreeMap::from([
                    (one.clone(), share),
                    (other.clone(), 1.0 - share),
                ]));
            }
        }
    }
    let ceiling = to.chroma().max(from.chroma());
    let mut best = delta_e_00(to, from);
    for mix in &mixes {
        let mut before = from.chroma();
        for quarters in 1..=24_u8 {
            let lab = book
                .predict(from, mix, f64::from(quarters) / 4.0)
                .map_err(|e| e.to_string())?
                .lab;
            let half_a_step = (lab.chroma() - before).abs() / 2.0;
            before = lab.chroma();
            if lab.chroma() <= ceiling + half_a_step && lab.l() <= from.l() + 0.1 {
                best = best.min(delta_e_00(to, lab));
            }
        }
    }
    Ok(best)
}
