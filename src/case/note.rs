//! What is worth a word about a case that could be opened all the same.

use serde::{Deserialize, Serialize};

/// The stable words of the notes about a case.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub enum CaseNoteCode {
    /// A newer program wrote the file; it is open for reading only.
    NewerVersion,
    /// A part of a newer file is not understood and was left out.
    PartNotUnderstood,
    /// The file was of an older version and was brought forward.
    BroughtForward,
    /// A photo of the file is no picture; it was left out.
    PhotoNoPicture,
}

/// One note about a case.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct CaseNote {
    /// Stable word for programs.
    pub code: CaseNoteCode,
    /// What was found, in plain words.
    pub text: String,
    /// What to do about it, in plain words.
    pub remedy: String,
}

impl CaseNote {
    /// A note.
    pub fn new(code: CaseNoteCode, text: impl Into<String>, remedy: impl Into<String>) -> Self {
        Self {
            code,
            text: text.into(),
            remedy: remedy.into(),
        }
    }
}
