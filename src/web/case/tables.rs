//! The page's door to tables of colours. Plain data crosses as JSON text.

use super::{from_text, text_of, throw};
use crate::case::table::{self, Colours};
use wasm_bindgen::prelude::*;

/// A reading (`{photo, version, created, scene, readings, checks}`) as CGATS text.
#[wasm_bindgen]
pub fn write_cgats(colours: &str) -> Result<String, JsValue> {
    console_error_panic_hook::set_once();
    let colours: Colours = from_text(colours)?;
    table::cgats(&colours).map_err(|e| throw(&e))
}

/// A shade guide from the bytes of a file (JSON, CSV, CGATS): `{guide, remarks}`. The guide is called
/// `name` where the file does not say.
#[wasm_bindgen]
pub fn read_guide(bytes: &[u8], name: &str) -> Result<String, JsValue> {
    console_error_panic_hook::set_once();
    let read = table::guide_from(bytes, name).map_err(|e| throw(&e))?;
    text_of(&read)
}
