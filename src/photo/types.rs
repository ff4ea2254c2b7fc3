//! The plain data that a photo gives.

use serde::{Deserialize, Serialize};

/// One pixel as it is measured.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Sample {
    /// Linear light in the photo's own RGB space, 0–1 where the file does not exceed it.
    pub linear_rgb: [f32; 3],
    /// The largest of the three encoded values, 0–1: 1 is clipped for certain.
    pub peak: f32,
}

/// Where the colour space of a photo was learned from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub enum SpaceSource {
    /// An ICC profile inside the file.
    Icc,
    /// The EXIF colour space (and interoperability) tags.
    Exif,
    /// Other marks of the file format (PNG's sRGB, cICP, gAMA and cHRM).
    Format,
    /// Nothing said it; sRGB is assumed.
    Assumed,
}

/// The colour space of a photo.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct SpaceInfo {
    /// Its name: the profile's description or the standard's.
    pub name: String,
    /// Where it was learned from.
    pub source: SpaceSource,
    /// Bits per channel in the file: 8 or 16.
    pub bits: u8,
}

/// Capture facts from the metadata. Position, serial numbers and owner names are never read.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct Facts {
    /// File format: "JPEG", "PNG", "TIFF" or "WebP".
    pub format: String,
    /// Camera maker and model.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub camera: Option<String>,
    /// Exposure time in seconds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub exposure_s: Option<f64>,
    /// Aperture as f-number.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub f_number: Option<f64>,
    /// ISO speed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub iso: Option<u32>,
    /// Whether the flash fired.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub flash_fired: Option<bool>,
    /// White balance: true when the camera chose it by itself.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub white_balance_auto: Option<bool>,
    /// Digital zoom ratio, when above 1.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub digital_zoom: Option<f64>,
    /// Local date and time of capture, "2026-05-17 10:32:05".
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub taken: Option<String>,
    /// Software that last wrote the file.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub software: Option<String>,
    /// The EXIF orientation 1–8 that was applied (1 when none was stated).
    pub orientation: u8,
}

/// What is said about a photo.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct PhotoInfo {
    /// Width upright, in pixels.
    pub width: u32,
    /// Height upright, in pixels.
    pub height: u32,
    /// Its colour space.
    pub space: SpaceInfo,
    /// Capture facts.
    pub facts: Facts,
}

/// A reduced copy for the eye, never for measuring: sRGB, 8 bits, RGBA, rows top down.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Preview {
    /// Width in pixels.
    pub width: u32,
    /// Height in pixels.
    pub height: u32,
    /// `width · height · 4` bytes.
    pub rgba: Vec<u8>,
}
