//! The page's door to files of cases. Plain data crosses as JSON text in the forms of the published
//! schemas; photos cross as bytes.

mod tables;

use super::throw;
use crate::case::{self, Case, OpenedCase, PhotoBytes};
use crate::engine::case::compare_photo;
use crate::error::Error;
use crate::photo::scrub;
use serde::Serialize;
use serde::de::DeserializeOwned;
use wasm_bindgen::prelude::*;

fn text_of<T: Serialize>(value: &T) -> Result<String, JsValue> {
    serde_json::to_string(value).map_err(|e| throw(&Error::internal(e.to_string())))
}

fn from_text<T: DeserializeOwned>(text: &str) -> Result<T, JsValue> {
    // The page wrote it: what does not fit is a fault of the program.
    serde_json::from_str(text).map_err(|e| throw(&Error::internal(e.to_string())))
}

/// Frees a photo's file of position, serial numbers and names; its pixels stay as they are.
#[wasm_bindgen]
pub fn scrub_photo(bytes: &[u8]) -> Result<Vec<u8>, JsValue> {
    console_error_panic_hook::set_once();
    scrub::scrub(bytes).map(|s| s.bytes).map_err(|e| throw(&e))
}

/// A case file that is being made.
#[wasm_bindgen(js_name = CaseWriter)]
#[derive(Default)]
pub struct WebWriter {
    photos: Vec<(String, Vec<u8>)>,
    case: Option<Case>,
}

#[wasm_bindgen(js_class = CaseWriter)]
impl WebWriter {
    /// Without photos.
    #[wasm_bindgen(constructor)]
    pub fn new() -> Self {
        console_error_panic_hook::set_once();
        Self::default()
    }

    /// The bytes of a photo by its id in the case.
    pub fn add(&mut self, id: String, bytes: Vec<u8>) {
        self.photos.push((id, bytes));
    }

    /// The file, of a case in the form of the schema.
    pub fn write(&mut self, case: &str) -> Result<Vec<u8>, JsValue> {
        let case: Case = from_text(case)?;
        let photos: Vec<PhotoBytes<'_>> = self
            .photos
            .iter()
            .map(|(id, bytes)| PhotoBytes { id, bytes })
            .collect();
        let written = case::write(&case, &photos).map_err(|e| throw(&e))?;
        self.case = Some(written.case);
        Ok(written.bytes)
    }

    /// The case as it stands in the file that was written: with checksums and what was removed.
    pub fn written(&self) -> Result<Option<String>, JsValue> {
        self.case.as_ref().map(text_of).transpose()
    }
}

/// A case file that was opened.
#[wasm_bindgen(js_name = CaseReader)]
pub struct WebReader(OpenedCase);

#[wasm_bindgen(js_class = CaseReader)]
impl WebReader {
    /// Reads a file, or says what is wrong with it.
    #[wasm_bindgen(constructor)]
    pub fn new(bytes: &[u8]) -> Result<Self, JsValue> {
        console_error_panic_hook::set_once();
        case::read(bytes).map(Self).map_err(|e| throw(&e))
    }

    /// The case in the form of the schema.
    pub fn case(&self) -> Result<String, JsValue> {
        text_of(&self.0.case)
    }

    /// The bytes of a photo, once; nothing for one that is not in the file.
    pub fn take_photo(&mut self, id: &str) -> Option<Vec<u8>> {
        self.0.photos.remove(id)
    }

    /// A newer program wrote it: it must not be written here.
    pub fn read_only(&self) -> bool {
        self.0.read_only
    }

    /// What is worth a word, as a list of `{code, text, remedy}`.
    pub fn notes(&self) -> Result<String, JsValue> {
        text_of(&self.0.notes)
    }
}

/// The kept numbers of a photo against a report that was derived again (or against nothing): one
/// `PhotoVerification` of the published schema.
#[wasm_bindgen]
pub fn compare_reading(case: &str, photo: &str, now: Option<String>) -> Result<String, JsValue> {
    let case: Case = from_text(case)?;
    let kept = case
        .photos
        .iter()
        .find(|p| p.id == photo)
        .ok_or_else(|| throw(&Error::internal("no such photo in the case.")))?;
    let now = now.map(|text| from_text(&text)).transpose()?;
    let fresh = || now.ok_or_else(|| Error::internal("the photo was not read."));
    text_of(&compare_photo(&case, kept, fresh))
}
