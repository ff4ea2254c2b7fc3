//! Stains through the façade: the book comes with every call and is fitted again only when it
//! changed, so that a worker that was lost has nothing to be told.

use super::Engine;
use crate::error::Result;
use crate::stain::{
    self, FittedBook, Pass, PassReview, Plan, PlanRequest, PracticeRequest, PracticeScore,
    PredictRequest, Prediction, StrengthBook, SwatchBook, UnfiredLook, UnfiredRequest,
};

impl Engine {
    /// The strengths that a book of swatches shows.
    pub fn fit_swatches(&mut self, book: &SwatchBook) -> Result<FittedBook> {
        Ok(self.strengths(book)?.fitted().clone())
    }

    /// Colours under coats, each with its doubt.
    pub fn predict(
        &mut self,
        book: &SwatchBook,
        requests: &[PredictRequest],
    ) -> Result<Vec<Prediction>> {
        stain::predict_all(self.strengths(book)?, requests)
    }

    /// What to paint to get from a restoration to its target.
    pub fn plan(&mut self, book: &SwatchBook, request: &PlanRequest) -> Result<Plan> {
        stain::plan(self.strengths(book)?, request)
    }

    /// A fired pass looked back at; with the book that already knows it.
    pub fn review_pass(&mut self, book: &SwatchBook, pass: &Pass) -> Result<PassReview> {
        stain::review(self.strengths(book)?, pass)
    }

    /// A look at what is painted and not fired yet.
    pub fn look_unfired(
        &mut self,
        book: &SwatchBook,
        request: &UnfiredRequest,
    ) -> Result<UnfiredLook> {
        stain::look_unfired(self.strengths(book)?, request)
    }

    /// How close an exercise came.
    pub fn score_practice(&self, request: &PracticeRequest) -> Result<PracticeScore> {
        stain::score(request)
    }

    pub(super) fn strengths(&mut self, book: &SwatchBook) -> Result<&StrengthBook> {
        let known = self.stains.as_ref().is_some_and(|(b, _)| b == book);
        if !known {
            let fitted = StrengthBook::of(book)?;
            self.stains = Some((book.clone(), fitted));
        }
        self.stains
            .as_ref()
            .map(|(_, fitted)| fitted)
            .ok_or_else(|| crate::error::Error::internal("the strengths were not kept"))
    }
}
