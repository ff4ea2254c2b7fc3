//! The tables of how well stained colours are predicted.

use crate::stains::{HELD_BACK, Model, Outcome, score, score_trade};
use crate::stains_baselines::{LabPerCoat, ThreeBands};
use crate::stains_model::Strengths;
use crate::table::{Table, median, percent, percentile};
use scene_render::stains::{Handling, Surface};
use std::collections::BTreeMap;
use std::fmt::Write as _;

const EXACT: Handling = Handling {
    noise_delta_e_00: 0.0,
    uneven: 0.0,
};
const READ: Handling = Handling {
    noise_delta_e_00: 0.3,
    uneven: 0.0,
};
const PAINTED: Handling = Handling {
    noise_delta_e_00: 0.3,
    uneven: 0.1,
};

/// How swatches are made and how colours are read.
const CONDITIONS: [(Handling, Surface); 5] = [
    (EXACT, Surface::Excluded),
    (EXACT, Surface::Included),
    (READ, Surface::Excluded),
    (READ, Surface::Included),
    (PAINTED, Surface::Excluded),
];

fn title(handling: Handling) -> String {
    let Handling {
        noise_delta_e_00: noise,
        uneven,
    } = handling;
    let read = if noise == 0.0 {
        "Swatches read exactly".to_owned()
    } else {
        format!("Swatches read to ΔE00 {noise} rms")
    };
    if uneven == 0.0 {
        read
    } else {
        format!(
            "{read}, their coats {:.0} % too thick or thin (rms)",
            100.0 * uneven
        )
    }
}

/// Which outcomes a column is about.
type Group = fn(&Outcome) -> bool;

/// Every model against the truth, over that many sets of stains that nothing was tuned on.
///
/// # Errors
/// When a model fails.
pub fn stains(sets: u64, worst: bool) -> Result<String, String> {
    let models: [&dyn Model; 4] = [
        &LabPerCoat,
        &ThreeBands { scattering: true },
        &ThreeBands { scattering: false },
        &Strengths,
    ];
    let seeds = HELD_BACK..HELD_BACK + sets;
    let mut text = String::new();
    for (handling, surface) in CONDITIONS {
        let mut table = Table::new(&HEADING);
        let mut own = Vec::new();
        for model in models {
            let outcomes = score(model, seeds.clone(), handling, surface)?;
            table.row(row(model.name(), &outcomes));
            own = outcomes;
        }
        let shifts: Vec<f64> = own.iter().map(Outcome::shift).collect();
        let _ = write!(
            text,
            "## {}, outer reflection {}\n\n{sets} sets, {} colours; the coats move them by ΔE00 {:.1} (median), {:.1} (95th percentile).\n\n{table}\n",
            title(handling),
            surface.word(),
            own.len(),
            median(&shifts),
            percentile(&shifts, 0.95)
        );
        if surface == Surface::Excluded {
            let table = by_stain(&own);
            let _ = writeln!(text, "The engine, stain by stain (alone):\n\n{table}");
        }
        if worst {
            text.push_str(&worst_list(own));
        }
    }
    let mut table = Table::new(&[
        "model",
        "ΔE00 (median / largest), exact swatches",
        "worst target",
        "truth within the doubt",
    ]);
    for model in models {
        table.row(trade_row(model)?);
    }
    let _ = write!(
        text,
        "## The trade's walk down the tabs\n\nThe expected mix and coats of every target of the trade's set (common practice, no source), outer reflection excluded.\n\n{table}\n"
    );
    Ok(text)
}

const HEADING: [&str; 9] = [
    "model",
    "all",
    "one stain",
    "mixes of two",
    "light bases",
    "dark bases",
    "truth within the doubt",
    "… light; dark bases",
    "median doubt",
];

fn spread(outcomes: &[Outcome], of: Group) -> String {
    let d: Vec<f64> = outcomes
        .iter()
        .filter(|o| of(o))
        .map(|o| o.delta_e_00)
        .collect();
    format!("{:.2} / {:.2}", median(&d), percentile(&d, 0.95))
}

/// The share of truths within the doubt, among some; a dash for a model without doubts.
fn within(outcomes: &[Outcome], of: Group) -> String {
    let hits: Option<Vec<bool>> = outcomes
        .iter()
        .filter(|o| of(o))
        .map(Outcome::within)
        .collect();
    hits.map_or("–".to_owned(), |h| format!("{:.1} %", percent(&h)))
}

fn row(name: &str, outcomes: &[Outcome]) -> Vec<String> {
    let doubts: Option<Vec<f64>> = outcomes.iter().map(|o| o.prediction.doubt).collect();
    let light_dark = match within(outcomes, Outcome::light) {
        light if light == "–" => light,
        light => format!("{light}; {}", within(outcomes, |o| !o.light())),
    };
    vec![
        name.to_owned(),
        spread(outcomes, |_| true),
        spread(outcomes, Outcome::single),
        spread(outcomes, |o| !o.single()),
        spread(outcomes, Outcome::light),
        spread(outcomes, |o| !o.light()),
        within(outcomes, |_| true),
        light_dark,
        doubts.map_or("–".to_owned(), |d| format!("{:.2}", median(&d))),
    ]
}

fn by_stain(outcomes: &[Outcome]) -> Table {
    let mut groups: BTreeMap<&str, Vec<Outcome>> = BTreeMap::new();
    for o in outcomes.iter().filter(|o| o.single()) {
        for name in o.request.mix.keys() {
            groups.entry(name).or_default().push(o.clone());
        }
    }
    let mut table = Table::new(&["stain", "colours", "ΔE00", "truth within the doubt"]);
    for (name, some) in groups {
        table.row(vec![
            name.to_owned(),
            some.len().to_string(),
            spread(&some, |_| true),
            within(&some, |_| true),
        ]);
    }
    table
}

fn trade_row(model: &dyn Model) -> Result<Vec<String>, String> {
    let outcomes = score_trade(model)?;
    let d: Vec<f64> = outcomes.iter().map(|o| o.delta_e_00).collect();
    let far = outcomes
        .iter()
        .max_by(|a, b| a.delta_e_00.total_cmp(&b.delta_e_00));
    Ok(vec![
        model.name().to_owned(),
        format!("{:.2} / {:.2}", median(&d), percentile(&d, 1.0)),
        far.map_or(String::new(), |o| o.request.id.clone()),
        within(&outcomes, |_| true),
    ])
}

fn worst_list(mut outcomes: Vec<Outcome>) -> String {
    outcomes.sort_by(|a, b| b.delta_e_00.total_cmp(&a.delta_e_00));
    let mut out = String::new();
    for o in outcomes.iter().take(12) {
        let _ = writeln!(
            out,
            "- set {} {}: {:?} × {}, base {:.1?}, true {:.1?}, said {:.1?} ± {:.1?}, off by {:.2}",
            o.seed,
            o.request.id,
            o.request.mix,
            o.request.coats,
            o.request.base,
            o.truth,
            o.prediction.lab,
            o.prediction.doubt,
            o.delta_e_00
        );
    }
    out + "\n"
}
