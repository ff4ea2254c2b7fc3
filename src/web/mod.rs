//! The page's door: the only place that names wasm-bindgen and JavaScript types. An error crosses as
//! `{kind, message}`.
//!
//! The page loads two modules made of this crate. One reads photos and is there at once; the other,
//! with the feature `case`, reads and writes files of cases and tables and comes when it is wanted:
//! its readers and writers of text weigh a hundred kilobytes.

#[cfg(feature = "bench")]
mod bench;
#[cfg(feature = "case")]
mod case;
#[cfg(not(feature = "case"))]
mod engine;
#[cfg(not(feature = "case"))]
mod stain;

use crate::error::Error;
use serde::Serialize;
use wasm_bindgen::prelude::*;

#[derive(Serialize)]
struct Thrown {
    kind: &'static str,
    message: String,
}

fn throw(error: &Error) -> JsValue {
    let thrown = Thrown {
        kind: error.kind(),
        message: error.to_string(),
    };
    serde_wasm_bindgen::to_value(&thrown).unwrap_or_else(|_| JsValue::from_str(&thrown.message))
}
