//! Swatches, the book that keeps them, and the strengths fitted from it.

use crate::colour::Lab;
use crate::error::Severity;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// Stains in proportion by volume: name → share, 0–1; the shares sum to 1.
pub type Mix = BTreeMap<String, f64>;

/// A fired test: a known base, one stain (or one mix), a known number of coats, the colour
/// before and after. All colours L*a*b*, D65, 2° observer.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct Swatch {
    /// The stain; empty when `mix` says what was painted.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub stain: String,
    /// A painted mix: the zones of a fired pass come back as such swatches.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(target_arch = "wasm32", tsify(type = "Record<string, number>"))]
    pub mix: Option<Mix>,
    /// Coats painted and fired, more than 0, up to 12; quarters are meant.
    pub coats: f64,
    /// The base before.
    pub base: Lab,
    /// The same place after firing.
    pub after: Lab,
    /// The painted place before firing, when it was read: teaches what firing does.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub unfired: Option<Lab>,
    /// ± on each reading in ΔE00 (about 95 %), when it is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub doubt: Option<f64>,
    /// Where it comes from, in the user's words: "tab 3", "typed", "first pass".
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

impl Swatch {
    /// A swatch of one stain.
    pub fn new(stain: impl Into<String>, coats: f64, base: Lab, after: Lab) -> Self {
        Self {
            stain: stain.into(),
            mix: None,
            coats,
            base,
            after,
            unfired: None,
            doubt: None,
            note: String::new(),
        }
    }
}

/// What is known of a stain beside its swatches.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct StainInfo {
    /// The name on its jar, as the user writes it.
    pub name: String,
    /// It is the glaze: painted as the foundation, never mixed in.
    #[serde(default)]
    pub glaze: bool,
    /// Free words.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
    /// It is kept in the book and not used for plans (the jar is empty).
    #[serde(default)]
    pub resting: bool,
}

/// The user's stains: a file of its own that can be carried from place to place.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct SwatchBook {
    /// The user's name for it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub name: String,
    /// Invented values that show how the tool works: never for a patient.
    #[serde(default)]
    pub demo: bool,
    /// What is known of the stains; a stain with swatches need not be here.
    #[serde(default)]
    pub stains: Vec<StainInfo>,
    /// The fired tests.
    pub swatches: Vec<Swatch>,
}

/// What one coat of a stain does, fitted from its swatches.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct Strength {
    /// The stain.
    pub stain: String,
    /// It is the glaze.
    pub glaze: bool,
    /// Swatches that speak of it.
    pub swatches: u32,
    /// The base that the next two speak of: the mean base of its swatches.
    pub base: Lab,
    /// That base after one coat, as predicted.
    pub one_coat: Lab,
    /// ± on that in ΔE00 (about 95 %).
    pub doubt: f64,
    /// Its own swatches show that it lightens, beyond their doubt.
    pub lightens: bool,
    /// How much of what lies below one coat hides, 0–1.
    pub opacity: f64,
    /// In words: "lowers value, adds chroma, towards red".
    pub words: String,
    /// rms ΔE00 between its swatches and what the fit makes of them.
    pub residual: f64,
}

/// The shift from unfired to fired that the user's own pairs show.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct FiredShift {
    /// Pairs it was learned from.
    pub pairs: u32,
    /// Fired − unfired: ΔL*, Δa*, Δb* on average.
    pub shift: [f64; 3],
    /// ± on a fired colour predicted by it, ΔE00 (about 95 %).
    pub doubt: f64,
    /// Enough pairs that agree: it may be used for numbers, not for directions only.
    pub usable: bool,
}

/// A book with its strengths.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct FittedBook {
    /// Values are invented.
    pub demo: bool,
    /// One per stain, in the order of the book.
    pub strengths: Vec<Strength>,
    /// What the swatches' own disagreement says that a reading is uncertain by, ΔE00 (rms).
    pub reading_noise: f64,
    /// Learned from swatches with an unfired reading; missing without any.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fired_shift: Option<FiredShift>,
    /// Findings about the swatches, the gravest first.
    pub checks: Vec<SwatchCheck>,
}

/// The stable words of the findings about swatches.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub enum SwatchCheckCode {
    /// A swatch says nothing that can be used (coats of 0, a colour that is none): it is left out.
    Unusable,
    /// The base is outside anything a ceramic looks like: it is left out.
    BaseUnlike,
    /// One swatch only: its strength leans on what stains usually do.
    OneSwatch,
    /// All swatches of the stain have the same number of coats.
    OneCoatCount,
    /// The swatch got lighter with a stain that else takes light away.
    Lighter,
    /// The swatch contradicts the others of its stain.
    Contradicts,
    /// The stain does hardly anything beyond the doubt of its readings.
    Faint,
    /// A stain of the book has no swatch: it cannot be used.
    NoSwatch,
    /// A name stands twice, or nearly so.
    NameTwice,
}

/// One finding about a swatch or a stain.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct SwatchCheck {
    /// Stable word for programs.
    pub code: SwatchCheckCode,
    /// How much it matters: `retake` – the swatch is left out; `care`; `note`.
    pub severity: Severity,
    /// What was found.
    pub text: String,
    /// What to do about it.
    pub remedy: String,
    /// The stain it concerns.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stain: Option<String>,
    /// The place of the swatch in the book, from 0.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub swatch: Option<u32>,
}
