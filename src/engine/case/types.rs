//! What verifying a case says.

use crate::case::CaseNote;
use serde::Serialize;
use serde_json::Value;

/// How the numbers that are kept and those derived again compare, the best first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub enum Outcome {
    /// The same numbers, bit for bit.
    Same,
    /// The same for every use: decoders of JPEG round differently on different machines.
    Rounded,
    /// They could not be compared.
    NotCompared,
    /// Other numbers.
    Different,
}

/// The stable words of why numbers are not the same.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub enum ReasonCode {
    /// Another version of the program made the kept numbers.
    ProgramVersion,
    /// A region was changed, added or removed after the reading.
    RegionEdited,
    /// The card was changed after the reading.
    CardEdited,
    /// Nothing of the scene and no version explains it.
    Unexplained,
    /// No reading was kept.
    NoReading,
    /// The photo is not in the file.
    PhotoMissing,
    /// Only a reduced copy is in the file.
    PhotoReduced,
    /// The photo or its scene cannot be read.
    CannotRead,
}

/// Why numbers are not the same.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Reason {
    /// Stable word for programs.
    pub code: ReasonCode,
    /// The same in plain words.
    pub text: String,
}

impl Reason {
    /// A reason.
    pub fn new(code: ReasonCode, text: impl Into<String>) -> Self {
        Self {
            code,
            text: text.into(),
        }
    }
}

/// One number (or word) that is another one.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Difference {
    /// Its place in the report: "readings/tooth-11/zones/middle/lab/0".
    pub place: String,
    /// As kept; null when it was not there.
    pub kept: Value,
    /// As derived now; null when it is not there.
    pub now: Value,
}

/// One photo (or pair) of a case.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct PhotoVerification {
    /// Its id in the case.
    pub photo: String,
    /// The name of its file.
    pub name: String,
    /// How its numbers compare.
    pub outcome: Outcome,
    /// The largest ΔE00 between a zone's colour as kept and as derived, when both are there.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub largest_delta_e_00: Option<f64>,
    /// Why they are not the same.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub reasons: Vec<Reason>,
    /// The first differences, in the order of the report.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub differences: Vec<Difference>,
    /// How many more there are.
    pub further: u32,
}

/// Everything that is said about the numbers of a case.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Verification {
    /// The worst of the photos.
    pub outcome: Outcome,
    /// Version of the program that derived the numbers again.
    pub program: String,
    /// Version of the program that wrote the case.
    pub written_by: String,
    /// One per photo with a scene.
    pub photos: Vec<PhotoVerification>,
    /// Notes about the file.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub notes: Vec<CaseNote>,
}
