//! The engine's own model of the stains, behind [`Model`]: the only file here that knows its form.

use crate::stains::{Model, Prediction};
use scene_render::stains::job::{Request, Swatch};
use tabside::colour::Lab;
use tabside::stain::{StrengthBook, Swatch as OwnSwatch};

/// The engine's strengths, fitted from the swatches alone; it is not told how well they were read.
pub struct Strengths;

impl Model for Strengths {
    fn name(&self) -> &str {
        "strengths (the engine)"
    }

    fn predict(
        &self,
        swatches: &[Swatch],
        requests: &[Request],
    ) -> Result<Vec<Prediction>, String> {
        let own: Vec<OwnSwatch> = swatches
            .iter()
            .map(|s| OwnSwatch::new(&s.stain, s.coats, Lab(s.base), Lab(s.after)))
            .collect();
        let book = StrengthBook::fit(&own).map_err(|e| e.to_string())?;
        requests
            .iter()
            .map(|r| {
                let said = book
                    .predict(Lab(r.base), &r.mix, r.coats)
                    .map_err(|e| format!("{}: {e}", r.id))?;
                Ok(Prediction {
                    lab: said.lab.0,
                    doubt: Some(said.doubt),
                })
            })
            .collect()
    }
}
