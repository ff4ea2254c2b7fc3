//! What a picture is made of: plain data, all lengths in millimetres in the plane of the upper
//! incisors (x to the right, y down, z toward the camera; the origin is on the midline at the
//! edge of the central incisors), all colours CIELAB under D65, 2°.

mod extra;
pub mod fault;
mod presets;
mod random;
mod random_camera;
mod random_finding;
mod random_trust;
pub mod scenery;

pub use extra::{CardFace, Filter, Shadow, Shake, Treatment, Words};
pub use presets::{demo, other};
pub use random::Variety;

use crate::illuminant::Illuminant;
use serde::{Deserialize, Serialize};

/// One picture (or a plain and cross-polarised pair of one mouth).
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct SceneSpec {
    /// Textures, noise and small irregularities follow from this.
    pub seed: u64,
    /// Upright size.
    pub width_px: u32,
    /// Upright size.
    pub height_px: u32,
    /// What part of the plane is seen.
    pub frame: Frame,
    /// Which sensitivities.
    pub camera: Camera,
    /// One to three lights that can cast shadows and make highlights.
    pub lights: Vec<Light>,
    /// Light from all around, without highlights of its own.
    pub ambient: Option<Ambient>,
    /// 0 puts a perfect white in the card plane at 0.90 of the sensor's range.
    pub exposure_ev: f64,
    /// Gains before the camera matrix.
    pub white_balance: WhiteBalance,
    /// Curve after the output matrix.
    pub tone: Tone,
    /// Lens, sensor and sharpening.
    pub optics: Optics,
    /// File.
    pub output: Output,
    /// Upper (11–28) and lower (31–48) teeth by FDI number.
    pub teeth: Vec<Tooth>,
    /// Gums, lips, tongue.
    pub tissue: Tissue,
    /// Shade tabs.
    pub tabs: Vec<Tab>,
    /// Grey reference.
    pub card: Option<Card>,
    /// Strength of surface reflections, 1 = wet enamel.
    pub glare: f64,
    /// A cross-polarised second picture of the same mouth.
    pub pair: Option<Pair>,
    /// Wetness and polish of the teeth against the usual.
    #[serde(default = "extra::one", skip_serializing_if = "extra::is_one")]
    pub teeth_gloss: f64,
    /// Shadows of things outside the picture.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub shadows: Vec<Shadow>,
    /// What happened to the picture after the camera.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub treatment: Option<Treatment>,
    /// Lips, skin, hands and tools around and before the mouth.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub scenery: Option<scenery::Scenery>,
}

/// The seen part of the plane.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Frame {
    /// Middle of the picture.
    pub centre_mm: [f64; 2],
    /// Width of the picture.
    pub width_mm: f64,
    /// Turn of the camera, clockwise picture content.
    pub roll_deg: f64,
}

/// Sensitivities of `tables::cameras`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Camera {
    /// `SENSITIVITY_ONE`.
    One,
    /// `SENSITIVITY_TWO`.
    Two,
    /// `SENSITIVITY_THREE`.
    Three,
}

/// A light of some size.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Light {
    /// Its spectrum.
    pub illuminant: Illuminant,
    /// Toward the right of the picture.
    pub azimuth_deg: f64,
    /// Above the camera.
    pub elevation_deg: f64,
    /// From the teeth.
    pub distance_mm: f64,
    /// What the highlights look like.
    pub shape: LightShape,
    /// Share of the light (shares are scaled to sum to 1 with the ambient).
    pub power: f64,
}

/// Form of a light as seen in a highlight.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LightShape {
    /// Half width and half height.
    Panel([f64; 2]),
    /// Inner and outer radius (around the lens).
    Ring([f64; 2]),
}

/// Even light from the front hemisphere.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Ambient {
    /// Its spectrum.
    pub illuminant: Illuminant,
    /// Share of all light on the card plane.
    pub share: f64,
}

/// How the camera was balanced.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WhiteBalance {
    /// Right for the sum of the lights.
    Right,
    /// Preset for another light.
    Preset(Illuminant),
    /// Makes the average of the picture partly grey: strength 0–1.
    GreyWorld(f64),
    /// Right, then multiplied (r, g, b).
    OffBy([f64; 3]),
}

/// Tone curve.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Tone {
    /// The curve of the tagged colour space and nothing else.
    Tagged,
    /// A camera's picture style: more contrast and saturation, highlights rolled off.
    Punchy,
    /// A phone's: shadows lifted, highlights rolled off.
    Lifted,
    /// Milder: a soft S of small height and a long shoulder, colours as they come.
    Filmic,
}

/// Lens, sensor, sharpening.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Optics {
    /// Gaussian σ of the lens.
    pub blur_px: f64,
    /// Circle of confusion (σ) per millimetre out of the plane of focus.
    pub defocus_px_per_mm: f64,
    /// Plane of focus.
    pub focus_z_mm: f64,
    /// Light lost in the corners, 0–1.
    pub vignetting: f64,
    /// Stray light as a share of the mean.
    pub veil: f64,
    /// Electrons at the top of the sensor's range.
    pub full_well_electrons: f64,
    /// Read noise in electrons.
    pub read_noise_electrons: f64,
    /// Unsharp masking amount, 0 = none.
    pub sharpening: f64,
    /// Motion during the exposure.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shake: Option<Shake>,
}

/// The file.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Output {
    /// Colour space of the numbers.
    pub space: Space,
    /// Container.
    pub format: Format,
    /// JPEG quality 1–100.
    pub quality: u8,
    /// JPEG colour at half resolution.
    pub chroma_half: bool,
    /// 8 or 16 (PNG, TIFF).
    pub bits: u8,
    /// EXIF orientation 1–8; the stored pixels are turned to match.
    pub orientation: u8,
    /// Embed the ICC profile.
    pub profile: bool,
    /// Embed EXIF.
    pub exif: bool,
    /// `2031-05-14 10:12:30`.
    pub date: String,
}

/// RGB space.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Space {
    /// IEC 61966-2-1.
    Srgb,
    /// SMPTE EG 432-1 primaries, D65, sRGB curve.
    DisplayP3,
    /// Adobe RGB (1998).
    AdobeRgb,
}

/// Container.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Format {
    /// JFIF/EXIF.
    Jpeg,
    /// PNG.
    Png,
    /// TIFF.
    Tiff,
}

impl Format {
    /// Usual ending of the file name.
    pub fn ending(self) -> &'static str {
        match self {
            Self::Jpeg => "jpg",
            Self::Png => "png",
            Self::Tiff => "tif",
        }
    }
}

/// Colours along a crown.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Gradient {
    /// At the gum.
    pub neck: [f64; 3],
    /// Middle.
    pub body: [f64; 3],
    /// At the biting edge.
    pub edge: [f64; 3],
}

/// A tooth.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Tooth {
    /// FDI number.
    pub fdi: u8,
    /// Colours.
    pub colour: Gradient,
    /// Ceramic instead of enamel and dentine.
    pub restoration: bool,
    /// Listed among the regions of the scene (all crowns are among `crowns`).
    pub measured: bool,
    /// Against the usual width and length.
    pub scale: [f64; 2],
    /// In the picture plane.
    pub turn_deg: f64,
    /// Right, down, toward the camera.
    pub shift_mm: [f64; 3],
    /// Turned about its own axis.
    pub rotation_deg: f64,
    /// Glassy biting edge, 0–1.
    pub translucency: f64,
    /// White spots, 0–1.
    pub spots: f64,
    /// Craze lines, 0–1.
    pub crazing: f64,
    /// Unevenness of colour in CIELAB-like percent, 0–1.
    pub blotch: f64,
    /// Missing altogether (a gap).
    pub missing: bool,
}

/// Soft tissue.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Tissue {
    /// Gum colour.
    pub gum: [f64; 3],
    /// Gum line moved toward the root, all teeth.
    pub recession_mm: f64,
    /// Height of the papillae against the usual.
    pub papilla: f64,
    /// Stippling 0–1.
    pub stipple: f64,
    /// Redness of the margins 0–1.
    pub inflammation: f64,
    /// Upper lip's lower edge (y), if seen.
    pub upper_lip_mm: Option<f64>,
    /// Lower lip's upper edge (y), if seen.
    pub lower_lip_mm: Option<f64>,
    /// How far the mouth is open below the upper edges.
    pub opening_mm: f64,
    /// Curvature of the arch (1/mm²): z = −k x².
    pub arch_per_mm: f64,
}

/// A shade tab.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Tab {
    /// Its name in the guide.
    pub name: String,
    /// Colours.
    pub colour: Gradient,
    /// Middle of its biting edge.
    pub edge_mm: [f64; 2],
    /// 0 = its edge up, neck straight down.
    pub turn_deg: f64,
    /// Against the usual size.
    pub scale: f64,
    /// Toward the camera.
    pub z_mm: f64,
    /// Yaw and pitch of its face.
    pub tilt_deg: [f64; 2],
    /// Steel, or grey plastic.
    pub steel: bool,
    /// Its name is on the holder.
    pub label: bool,
    /// Polish against the usual; below 1 also duller.
    #[serde(default = "extra::one", skip_serializing_if = "extra::is_one")]
    pub gloss: f64,
}

/// A grey card.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Card {
    /// Middle.
    pub centre_mm: [f64; 2],
    /// Width and height.
    pub size_mm: [f64; 2],
    /// In the picture plane.
    pub turn_deg: f64,
    /// Yaw and pitch out of it.
    pub tilt_deg: [f64; 2],
    /// Toward the camera.
    pub z_mm: f64,
    /// Luminous reflectances of its steps, left to right; one = a plain card.
    pub steps_y: Vec<f64>,
    /// How far from neutral its paper is (0.01 = ±1 %).
    pub waviness: f64,
    /// a* and b* of the paper, step by step; empty = neutral.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub tints_ab: Vec<[f64; 2]>,
    /// Its face.
    #[serde(default, skip_serializing_if = "CardFace::is_smooth")]
    pub face: CardFace,
}

/// The second picture.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Pair {
    /// Shift in plain pixels, applied last.
    pub shift_px: [f64; 2],
    /// Turn about the middle of the plain picture.
    pub turn_deg: f64,
    /// Enlargement about the middle of the plain picture.
    pub scale: f64,
    /// Exposure against `exposure_ev`.
    pub exposure_ev: f64,
    /// What is left of the surface reflections.
    pub residual_glare: f64,
    /// Colour the filters add (r, g, b gains on the raw numbers).
    pub filter_gains: [f64; 3],
    /// How the card moved in between (mm).
    pub card_shift_mm: [f64; 2],
    /// When it was taken, if not at the same time.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub date: Option<String>,
}
