//! `predict` and `plan`: stains on the command line, from JSON files.

use super::{Failure, HELP, json, named, text};
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use std::path::{Path, PathBuf};
use tabside::Error;
use tabside::engine::Engine;
use tabside::stain::{FittedBook, Plan, PlanRequest, PredictRequest, Prediction, SwatchBook};

/// What `predict` is asked.
#[derive(Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Requests {
    /// The questions.
    requests: Vec<PredictRequest>,
}

/// What `predict` prints.
#[derive(Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Predictions {
    /// The answers, in the order of the questions.
    predictions: Vec<Prediction>,
    /// What the swatches show, and what is wrong with some of them.
    book: FittedBook,
}

/// What `plan` reads: a swatch book with the zones and limits beside it.
#[derive(Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct PlanFile {
    #[serde(flatten)]
    book: SwatchBook,
    #[serde(flatten)]
    request: PlanRequest,
}

/// What `plan` prints.
#[derive(Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Planned {
    /// The plan.
    plan: Plan,
    /// What the swatches show, and what is wrong with some of them.
    book: FittedBook,
}

pub const SWATCHES_FORM: &str = "Swatches are JSON: {\"swatches\": [{\"stain\": \"…\", \"coats\": 1, \"base\": [L, a, b], \
                             \"after\": [L, a, b]}, …]}.";
const REQUESTS_FORM: &str = "Requests are JSON: {\"requests\": [{\"id\": \"…\", \"base\": [L, a, b], \"mix\": \
                             {\"one\": 0.6, \"other\": 0.4}, \"coats\": 1.5}, …]}.";
const PLAN_FORM: &str = "A request is JSON: {\"swatches\": […], \"zones\": [{\"zone\": \"cervical\", \"from\": [L, a, b], \
                         \"to\": [L, a, b]}, …], \"limits\": {\"coats_per_firing\": 3}}.";

pub fn predict_command(parser: &mut lexopt::Parser) -> Result<String, Failure> {
    let [swatches, requests] = match paths(parser, 2)? {
        Paths::Help => return Ok(HELP.to_owned()),
        Paths::These(paths) => <[PathBuf; 2]>::try_from(paths)
            .map_err(|_| Failure::Usage("predict needs SWATCHES and REQUESTS.".to_owned()))?,
    };
    let book: SwatchBook = parsed(&swatches, "swatches", SWATCHES_FORM)?;
    let asked: Requests = parsed(&requests, "requests", REQUESTS_FORM)?;
    let mut engine = Engine::new()?;
    let fitted = engine
        .fit_swatches(&book)
        .map_err(|e| named(&swatches, e))?;
    let predictions = engine
        .predict(&book, &asked.requests)
        .map_err(|e| named(&requests, e))?;
    json(&Predictions {
        predictions,
        book: fitted,
    })
}

pub fn plan_command(parser: &mut lexopt::Parser) -> Result<String, Failure> {
    let request = match paths(parser, 1)? {
        Paths::Help => return Ok(HELP.to_owned()),
        Paths::These(paths) => paths
            .into_iter()
            .next()
            .ok_or_else(|| Failure::Usage("plan needs a REQUEST.".to_owned()))?,
    };
    let written: Value = parsed(&request, "plan's request", PLAN_FORM)?;
    let asked: PlanFile = serde_json::from_value(zones_as_list(written)).map_err(|e| {
        Failure::Work(named(
            &request,
            Error::input(
                format!("the plan's request could not be read: {e}."),
                PLAN_FORM,
            ),
        ))
    })?;
    let mut engine = Engine::new()?;
    let book = engine
        .fit_swatches(&asked.book)
        .map_err(|e| named(&request, e))?;
    let plan = engine
        .plan(&asked.book, &asked.request)
        .map_err(|e| named(&request, e))?;
    json(&Planned { plan, book })
}

/// Zones may also be written by name: `"zones": {"middle": {"from": …, "to": …}}`, or
/// `"from": {"middle": …}, "to": {"middle": …}`.
fn zones_as_list(mut request: Value) -> Value {
    let by_name = match (request.get("zones"), request.get("from"), request.get("to")) {
        (Some(Value::Object(zones)), _, _) => zones.clone(),
        (None, Some(Value::Object(from)), Some(Value::Object(to))) => from
            .iter()
            .filter_map(|(zone, lab)| {
                let both = serde_json::json!({"from": lab, "to": to.get(zone)?});
                Some((zone.clone(), both))
            })
            .collect(),
        _ => return request,
    };
    let list = by_name.into_iter().map(|(zone, mut one)| {
        if let Some(one) = one.as_object_mut() {
            one.insert("zone".to_owned(), Value::String(zone));
        }
        one
    });
    let list: Vec<Value> = list.collect();
    if let Some(request) = request.as_object_mut() {
        request.insert("zones".to_owned(), Value::Array(list));
    }
    request
}

/// What was given after a command.
pub enum Paths {
    /// The help was asked for.
    Help,
    /// Files and words, in their order.
    These(Vec<PathBuf>),
}

/// What was given after a command, at most so many.
pub fn paths(parser: &mut lexopt::Parser, most: usize) -> Result<Paths, Failure> {
    use lexopt::prelude::*;
    let mut out = Vec::new();
    while let Some(argument) = parser.next()? {
        match argument {
            Long("help") | Short('h') => return Ok(Paths::Help),
            Value(path) if out.len() < most => out.push(PathBuf::from(path)),
            other => return Err(other.unexpected().into()),
        }
    }
    Ok(Paths::These(out))
}

/// A JSON file as plain data.
pub fn parsed<T: DeserializeOwned>(path: &Path, what: &str, form: &str) -> Result<T, Failure> {
    serde_json::from_str(&text(path)?).map_err(|e| {
        Failure::Work(named(
            path,
            Error::input(format!("the {what} could not be read: {e}."), form),
        ))
    })
}
