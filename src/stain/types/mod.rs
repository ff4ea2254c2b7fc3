//! The plain data of stains: swatches in; strengths, predictions, plans, reviews out.

mod book;
mod direction;
mod pass;
mod plan;
mod practice;

pub use book::{
    FiredShift, FittedBook, Mix, StainInfo, Strength, Swatch, SwatchBook, SwatchCheck,
    SwatchCheckCode,
};
pub use direction::{StainAdvice, StainDirection, ZoneAdvice};
pub use pass::{
    Pass, PassAdvice, PassReview, PassZone, PassZoneReview, UnfiredAdvice, UnfiredLook,
    UnfiredRequest, UnfiredZone, UnfiredZoneLook,
};
pub use plan::{
    Feather, Paint, Plan, PlanLimits, PlanRequest, PlanStep, PlanZone, PredictRequest, Predicted,
    Prediction, Share, Shortfall, ShortfallCode, StepKind, ZonePlan,
};
pub use practice::{PracticeRequest, PracticeScore, PracticeZone, PracticeZoneScore};
