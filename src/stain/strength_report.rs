//! What one coat of a stain does, as plain data and in words.

use super::book::{Seen, Stain, StrengthBook};
use super::layer::Layer;
use super::lift::internal_from_lab;
use super::types::{Predicted, Strength};
use crate::colour::{DeltaE00Parts, Lab, delta_e_00_parts};

/// Parts of one coat smaller than this have no word: half of what people see.
const WORDLESS: f64 = 0.4;

/// The report of one stain.
pub fn of(book: &StrengthBook, stain: &Stain, all: &[Seen<'_>]) -> Strength {
    let eye = &book.eye;
    let own: Vec<&Seen<'_>> = all.iter().filter(|s| s.is_of(&stain.info.name)).collect();
    let base = mean_base(&own);
    let coat = Layer::of(&stain.matter, 1.0);
    let one = internal_from_lab(eye, base).map_or(
        Predicted {
            lab: base,
            doubt: 0.0,
        },
        |inside| book.predict_parts(&inside, &vec![(stain, 1.0)], 1.0),
    );
    let squares: f64 = own
        .iter()
        .map(|s| s.observation.miss(eye, &stain.matter).norm_squared())
        .sum();
    let touched = all
        .iter()
        .filter(|s| {
            s.is_of(&stain.info.name)
                || s.swatch
                    .mix
                    .as_ref()
                    .is_some_and(|m| m.contains_key(&stain.info.name))
        })
        .count();
    Strength {
        stain: stain.info.name.clone(),
        glaze: stain.info.glaze,
        swatches: touched as u32,
        base,
        one_coat: one.lab,
        doubt: one.doubt,
        lightens: stain.lightens,
        opacity: eye.luminance(coat.over_black()),
        words: words(&delta_e_00_parts(base, one.lab)),
        residual: (squares / (own.len() as f64).max(1.0)).sqrt(),
    }
}

fn mean_base(own: &[&Seen<'_>]) -> Lab {
    let n = own.len() as f64;
    let mut sum = [0.0; 3];
    for s in own {
        for (v, b) in sum.iter_mut().zip(s.swatch.base.0) {
            *v += b / n;
        }
    }
    Lab(sum)
}

/// "lowers value, adds chroma, towards red".
fn words(coat: &DeltaE00Parts) -> String {
    let mut said = Vec::new();
    for (part, up, down) in [
        (coat.delta_l, "raises value", "lowers value"),
        (coat.delta_c, "adds chroma", "takes chroma away"),
        (coat.delta_h, "towards yellow", "towards red"),
    ] {
        if part.abs() >= WORDLESS {
            said.push(if part > 0.0 { up } else { down });
        }
    }
    if said.is_empty() {
        return "hardly a change".to_owned();
    }
    said.join(", ")
}
