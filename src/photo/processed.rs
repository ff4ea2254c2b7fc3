//! Signs that a file does not show what the camera saw: treatments that it says itself, a curve
//! laid over its codes, strong or repeated compression, a picture of a screen.

use super::pixels::Pixels;
use super::recompressed::Traces;
use super::sniff::Kind;
use super::types::Facts;
use crate::error::{CheckCode, LightCheck, Severity};

/// Digital zoom from which pixels are noticeably invented.
const ZOOM: f64 = 1.05;
/// Sum of the luminance table of ITU-T T.81, K.1: quality 50 by the usual scale.
const SUM_AT_50: f64 = 3688.0;
/// Quality below which even a camera's own file loses tones.
const POOR: f64 = 58.0;
/// Quality up to which a file without a word of a camera has been through a messenger or the
/// like, and the same for one not larger than they send. (Common practice, no source.)
const SENT: f64 = 75.5;
const SENT_SMALL: f64 = 82.0;
const SENT_SIDE_PX: u32 = 2048;
/// Quality from which the compression itself leaves no gaps in the histogram.
const FINE: f64 = 84.0;
/// Pixels that a histogram needs.
const MIN_PIXELS: usize = 150_000;

const OWN_FILE: &str = "Send the camera's own file (as a document, by cable or card), not a picture from a chat, an \
                        album or a screen.";
const NO_TREATMENT: &str = "Switch off filters, portrait, HDR and night modes and digital zoom, and send the camera's own \
                            file.";

/// What the signs are looked for in: the picture as stored.
pub struct Signs<'a> {
    pub kind: Kind,
    pub facts: &'a Facts,
    pub treatments: &'a [&'static str],
    pub hints: &'a [&'static str],
    pub table: Option<&'a [u16; 64]>,
    pub pixels: &'a Pixels,
    pub width: u32,
    pub height: u32,
}

impl Signs<'_> {
    /// Adds a check for what is found.
    pub fn check(&self, checks: &mut Vec<LightCheck>) {
        let mut say = |code, severity, text: String, remedy: &str| {
            checks.push(LightCheck::new(code, severity, text, remedy));
        };
        if self.pixels.is_grey() {
            say(
                CheckCode::Processed,
                Severity::Retake,
                "The photo is black and white: it holds no colours that could be read.".into(),
                "Open the colour photo, or take it again in colour.",
            );
        }
        let mut treatments: Vec<String> = self.treatments.iter().map(|t| (*t).into()).collect();
        if let Some(zoom) = self.facts.digital_zoom.filter(|z| *z > ZOOM) {
            treatments.push(format!("a digital zoom of {zoom:.1}, which invents pixels"));
        }
        let (before, curve) = self.traces();
        if curve {
            treatments.push("a tone curve over the finished picture".into());
        }
        if !treatments.is_empty() {
            say(
                CheckCode::Processed,
                Severity::Care,
                format!(
                    "The photo was processed: {}. That changes value and chroma in ways that the card cannot undo.",
                    treatments.join(", ")
                ),
                NO_TREATMENT,
            );
        } else if !self.hints.is_empty() {
            say(
                CheckCode::Processed,
                Severity::Note,
                format!(
                    "The photo may have been processed: {}.",
                    self.hints.join(", ")
                ),
                "Use the camera's own file if this is not it.",
            );
        }
        let quality = self.quality();
        let known = self.facts.camera.is_some()
            || self.facts.exposure_s.is_some()
            || self.facts.taken.is_some();
        let small = self.width.max(self.height) <= SENT_SIDE_PX;
        let sent = !known && (quality <= SENT || (small && quality <= SENT_SMALL));
        if before || sent {
            say(
                CheckCode::Recompressed,
                Severity::Care,
                format!(
                    "The picture {}: colours are coarser than the camera saw them.",
                    if before {
                        "was compressed strongly before and saved again"
                    } else {
                        "is compressed strongly and says nothing of a camera, as after a messenger"
                    }
                ),
                OWN_FILE,
            );
        } else if quality < POOR {
            say(
                CheckCode::Recompressed,
                Severity::Note,
                format!("The JPEG is compressed strongly (about quality {quality:.0} of 100)."),
                "Set the camera to its finest JPEG.",
            );
        } else if !known && self.kind == Kind::Png && self.is_screen() {
            say(
                CheckCode::Recompressed,
                Severity::Note,
                "The picture has the shape of a screen and says nothing of a camera; it may be a picture of a screen."
                    .into(),
                OWN_FILE,
            );
        }
    }

    /// By the usual scale of the usual tables; 100 for what is no JPEG.
    fn quality(&self) -> f64 {
        let Some(table) = self.table else {
            return 100.0;
        };
        let sum: u32 = table.iter().copied().map(u32::from).sum();
        let scale = f64::from(sum) / SUM_AT_50;
        if scale <= 1.0 {
            100.0 - 50.0 * scale
        } else {
            50.0 / scale
        }
    }

    /// An earlier compression, and a curve over the codes.
    fn traces(&self) -> (bool, bool) {
        let width = self.width as usize;
        let traces = match self.pixels {
            Pixels::Rgb8(rgb) => Traces::of(rgb, width),
            Pixels::Tiled(tiles) => Traces::of(&tiles.strips(), width),
            _ => return (false, false),
        };
        (
            traces.compressed_before(self.table),
            width * self.height as usize >= MIN_PIXELS
                && self.quality() >= FINE
                && traces.curve_over_codes(),
        )
    }

    /// 16:9, 16:10 or long like a telephone, within a row or two.
    fn is_screen(&self) -> bool {
        let (long, short) = (
            f64::from(self.width.max(self.height)),
            f64::from(self.width.min(self.height)),
        );
        let ratio = long / short.max(1.0);
        short >= 640.0
            && ([16.0 / 9.0, 1.6].iter().any(|r| (ratio - r).abs() < 0.004) || ratio > 1.95)
    }
}
