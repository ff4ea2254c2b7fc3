//! What goes wrong with a picture on purpose: shadows, odd cards, treatments after the camera.
//! All of it is absent from a scene unless it is asked for.

use serde::{Deserialize, Serialize};

/// A shadow that falls over part of the plane, whatever throws it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Shadow {
    /// Its middle.
    pub centre_mm: [f64; 2],
    /// Half of its width and height.
    pub half_mm: [f64; 2],
    /// Its turn.
    pub turn_deg: f64,
    /// Width of its edge.
    pub soft_mm: f64,
    /// Share of all lights that still arrives.
    pub passes: f64,
}

/// What a card's face is like.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum CardFace {
    /// Smooth paper.
    #[default]
    Smooth,
    /// Crumpled and flattened again.
    Crumpled,
    /// Printed with dark lines and blocks.
    Printed,
}

impl CardFace {
    pub(super) fn is_smooth(&self) -> bool {
        *self == Self::Smooth
    }
}

/// What happens to the finished picture before the file is written.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Treatment {
    /// Pixels of the sensor per pixel of the file, along a side: below 1 the picture is enlarged
    /// (digital zoom), above 1 it is scaled down (messengers).
    pub capture_scale: f64,
    /// The picture was a JPEG of this quality before.
    pub first_quality: Option<u8>,
    /// A filter over the 8-bit picture.
    pub filter: Option<Filter>,
    /// What the EXIF block says of it.
    pub words: Words,
}

impl Default for Treatment {
    fn default() -> Self {
        Self {
            capture_scale: 1.0,
            first_quality: None,
            filter: None,
            words: Words::default(),
        }
    }
}

/// A filter of an editor, over encoded 8-bit numbers.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Filter {
    /// Strength of an S around the middle, per channel (0.1 is strong).
    pub contrast: f64,
    /// Lift of the middle tones (0.1 is strong).
    pub lift: f64,
    /// Factor on what differs from grey, 1 = none.
    pub saturation: f64,
    /// σ of the smoothing of gentle differences, in millimetres; 0 = none.
    pub smooth_mm: f64,
}

/// EXIF words on treatments (EXIF 2.32); 0 or `None` is not written.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct Words {
    /// Tag 0x0131.
    pub software: Option<String>,
    /// Tag 0xa401, 1 = custom process.
    pub custom_rendered: u16,
    /// Tag 0xa404.
    pub digital_zoom: Option<f64>,
    /// Tag 0xa406: 2 = portrait, 3 = night scene.
    pub scene_capture: u16,
    /// Tag 0xa408, 2 = hard.
    pub contrast: u16,
    /// Tag 0xa409, 2 = high.
    pub saturation: u16,
    /// Tag 0xa40a, 2 = hard.
    pub sharpness: u16,
}

/// Motion of the camera while the picture was taken.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Shake {
    /// Length of the path.
    pub length_mm: f64,
    /// Its direction in the picture.
    pub direction_deg: f64,
}

pub(super) fn one() -> f64 {
    1.0
}

#[allow(clippy::trivially_copy_pass_by_ref)]
pub(super) fn is_one(v: &f64) -> bool {
    *v == 1.0
}
