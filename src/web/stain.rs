//! The page's door to the stains: more calls of the same engine, apart from those about photos.

use super::engine::{
    PatchJs, PreviewJs, SceneJs, WebEngine, give, give_patch, give_preview, scene_of, take,
};
use super::throw;
use crate::scene::Scene;
use crate::stain::{
    FittedBook, Pass, PlanRequest, PracticeScore, PredictRequest, Prediction, UnfiredLook,
};
use crate::stain::{PassReview, Plan, PracticeRequest, SwatchBook, UnfiredRequest, ZonePlan};
use wasm_bindgen::prelude::*;

#[wasm_bindgen]
extern "C" {
    /// Values whose TypeScript types are given in the signatures.
    #[wasm_bindgen(typescript_type = "SwatchBook")]
    pub type SwatchBookJs;
    #[wasm_bindgen(typescript_type = "FittedBook")]
    pub type FittedBookJs;
    #[wasm_bindgen(typescript_type = "PredictRequest[]")]
    pub type PredictRequestsJs;
    #[wasm_bindgen(typescript_type = "Prediction[]")]
    pub type PredictionsJs;
    #[wasm_bindgen(typescript_type = "PlanRequest")]
    pub type PlanRequestJs;
    #[wasm_bindgen(typescript_type = "Plan")]
    pub type PlanJs;
    #[wasm_bindgen(typescript_type = "Pass")]
    pub type PassJs;
    #[wasm_bindgen(typescript_type = "PassReview")]
    pub type PassReviewJs;
    #[wasm_bindgen(typescript_type = "UnfiredRequest")]
    pub type UnfiredRequestJs;
    #[wasm_bindgen(typescript_type = "UnfiredLook")]
    pub type UnfiredLookJs;
    #[wasm_bindgen(typescript_type = "PracticeRequest")]
    pub type PracticeRequestJs;
    #[wasm_bindgen(typescript_type = "PracticeScore")]
    pub type PracticeScoreJs;
    #[wasm_bindgen(typescript_type = "ZonePlan[]")]
    pub type ZonePlansJs;
}

// One copy of each reader serves all calls: they are most of this file's size.
#[inline(never)]
fn book_of(book: SwatchBookJs) -> Result<SwatchBook, JsValue> {
    take(book, "swatch book")
}

/// What a picture of a plan is made of.
struct Planned {
    scene: Scene,
    book: SwatchBook,
    zones: Vec<ZonePlan>,
}

#[inline(never)]
fn planned_of(scene: SceneJs, book: SwatchBookJs, zones: ZonePlansJs) -> Result<Planned, JsValue> {
    Ok(Planned {
        scene: scene_of(scene)?,
        book: book_of(book)?,
        zones: take(zones, "plan")?,
    })
}

#[wasm_bindgen(js_class = Engine)]
impl WebEngine {
    /// The strengths that a book of swatches shows.
    pub fn fit_swatches(&mut self, book: SwatchBookJs) -> Result<FittedBookJs, JsValue> {
        let book = book_of(book)?;
        let fitted: FittedBook = self.0.fit_swatches(&book).map_err(|e| throw(&e))?;
        give(&fitted)
    }

    /// Colours under coats.
    pub fn predict(
        &mut self,
        book: SwatchBookJs,
        requests: PredictRequestsJs,
    ) -> Result<PredictionsJs, JsValue> {
        let book = book_of(book)?;
        let requests: Vec<PredictRequest> = take(requests, "requests")?;
        let answers: Vec<Prediction> = self.0.predict(&book, &requests).map_err(|e| throw(&e))?;
        give(&answers)
    }

    /// What to paint.
    pub fn plan(&mut self, book: SwatchBookJs, request: PlanRequestJs) -> Result<PlanJs, JsValue> {
        let book = book_of(book)?;
        let request: PlanRequest = take(request, "plan's request")?;
        let plan: Plan = self.0.plan(&book, &request).map_err(|e| throw(&e))?;
        give(&plan)
    }

    /// A fired pass looked back at.
    pub fn review_pass(
        &mut self,
        book: SwatchBookJs,
        pass: PassJs,
    ) -> Result<PassReviewJs, JsValue> {
        let book = book_of(book)?;
        let pass: Pass = take(pass, "pass")?;
        let review: PassReview = self.0.review_pass(&book, &pass).map_err(|e| throw(&e))?;
        give(&review)
    }

    /// A look before firing.
    pub fn look_unfired(
        &mut self,
        book: SwatchBookJs,
        request: UnfiredRequestJs,
    ) -> Result<UnfiredLookJs, JsValue> {
        let book = book_of(book)?;
        let request: UnfiredRequest = take(request, "look")?;
        let look: UnfiredLook = self
            .0
            .look_unfired(&book, &request)
            .map_err(|e| throw(&e))?;
        give(&look)
    }

    /// How close an exercise came.
    pub fn score_practice(&self, request: PracticeRequestJs) -> Result<PracticeScoreJs, JsValue> {
        let request: PracticeRequest = take(request, "exercise")?;
        let score: PracticeScore = self.0.score_practice(&request).map_err(|e| throw(&e))?;
        give(&score)
    }

    /// A region turned upright, as a plan predicts it.
    pub fn planned_picture(
        &mut self,
        id: u32,
        scene: SceneJs,
        region: &str,
        book: SwatchBookJs,
        zones: ZonePlansJs,
        height_px: u32,
    ) -> Result<PreviewJs, JsValue> {
        let asked = planned_of(scene, book, zones)?;
        let made = self.0.planned_picture(
            id,
            &asked.scene,
            region,
            &asked.book,
            &asked.zones,
            height_px,
        );
        give_preview(made)
    }

    /// The same as a patch to lay over the photo.
    pub fn planned_patch(
        &mut self,
        id: u32,
        scene: SceneJs,
        region: &str,
        book: SwatchBookJs,
        zones: ZonePlansJs,
        max_px: u32,
    ) -> Result<PatchJs, JsValue> {
        let asked = planned_of(scene, book, zones)?;
        let made = self.0.planned_patch(
            id,
            &asked.scene,
            region,
            &asked.book,
            &asked.zones,
            max_px as usize,
        );
        give_patch(made)
    }

    /// Where a region is uneven, as a patch to lay over the photo.
    pub fn evenness_map(
        &mut self,
        id: u32,
        scene: SceneJs,
        region: &str,
        max_px: u32,
    ) -> Result<PatchJs, JsValue> {
        let scene = scene_of(scene)?;
        let made = self.0.evenness_map(id, &scene, region, max_px as usize);
        give_patch(made)
    }

    /// Where a region differs from a target, as a patch to lay over the photo.
    pub fn difference_map(
        &mut self,
        id: u32,
        scene: SceneJs,
        region: &str,
        target: &str,
        max_px: u32,
    ) -> Result<PatchJs, JsValue> {
        let scene = scene_of(scene)?;
        let made = self
            .0
            .difference_map(id, &scene, region, target, max_px as usize);
        give_patch(made)
    }
}
