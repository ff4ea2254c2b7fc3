//! Photos with one fault each, made from the rendered demo photo: a quarter of its size, its own
//! metadata, and light put on it or taken away in linear codes.

use crate::support::files::segment;
use image::{RgbImage, imageops};
use serde_json::{Value, json};
use std::sync::LazyLock;

/// How much smaller.
const BY: u32 = 4;

/// The demo photo, and what of its file stands before the picture.
struct Base {
    picture: RgbImage,
    head: Vec<u8>,
}

static BASE: LazyLock<Base> = LazyLock::new(|| {
    let file = std::fs::read(crate::cli::fixture("demo/demo.jpg")).expect("the demo photo");
    let whole = image::load_from_memory(&file).expect("a photo").to_rgb8();
    let (w, h) = (whole.width() / BY, whole.height() / BY);
    Base {
        picture: imageops::resize(&whole, w, h, imageops::FilterType::Lanczos3),
        head: head_of(&file),
    }
});

/// EXIF and profile, as segments.
fn head_of(file: &[u8]) -> Vec<u8> {
    let (mut out, mut at) = (Vec::new(), 2);
    while file[at] == 0xFF && file[at + 1] != 0xDA {
        let length = usize::from(u16::from_be_bytes([file[at + 2], file[at + 3]]));
        if matches!(file[at + 1], 0xE1..=0xEF) {
            out.extend(&file[at..at + 2 + length]);
        }
        at += 2 + length;
    }
    out
}

/// The scene of the demo, in the smaller photo.
pub fn scene() -> Value {
    let file = std::fs::read(crate::cli::fixture("demo/demo.truth.json")).expect("the truth");
    let truth: Value = serde_json::from_slice(&file).expect("JSON");
    let mut scene = truth["scene"].clone();
    smaller(&mut scene);
    scene
}

/// The colours of the demo's tabs, as their owner would have measured them.
pub fn own_guide() -> Value {
    let file = std::fs::read(crate::cli::fixture("demo/demo.truth.json")).expect("the truth");
    let truth: Value = serde_json::from_slice(&file).expect("JSON");
    let all = truth["scene"]["regions"].as_array().expect("regions");
    let tabs = all.iter().filter(|r| r["kind"] == "tab");
    let tabs: Vec<Value> = tabs
        .map(|r| {
            let zones = &truth["zones"][r["id"].as_str().expect("an id")];
            let lab = |zone: &str| zones[zone]["lab"].clone();
            json!({"name": r["name"], "lab": lab("whole"), "zones": {"cervical": lab("cervical"), "middle": lab("middle"), "incisal": lab("incisal")}})
        })
        .collect();
    json!({"name": "Own", "source": "measured", "tabs": tabs})
}

/// Every point: a list of two numbers.
fn smaller(value: &mut Value) {
    match value {
        Value::Array(list) if list.len() == 2 && list.iter().all(Value::is_number) => {
            for v in list {
                let at = v.as_f64().expect("a number");
                *v = json!((at + 0.5) / f64::from(BY) - 0.5);
            }
        }
        Value::Array(list) => list.iter_mut().for_each(smaller),
        Value::Object(fields) => fields.values_mut().for_each(smaller),
        _ => {}
    }
}

/// A photo that is being made.
#[derive(Clone)]
pub struct Shot(RgbImage);

impl Shot {
    /// The demo.
    pub fn demo() -> Self {
        Self(BASE.picture.clone())
    }

    /// Within a box, light (0–1) by its place (0–1 across the picture).
    pub fn light(
        mut self,
        [x0, y0, x1, y1]: [u32; 4],
        change: impl Fn([f64; 2], [f64; 3]) -> [f64; 3],
    ) -> Self {
        let (w, h) = (f64::from(self.0.width()), f64::from(self.0.height()));
        for y in y0..y1.min(self.0.height()) {
            for x in x0..x1.min(self.0.width()) {
                let p = self.0.get_pixel_mut(x, y);
                let linear = p.0.map(|c| libm::pow(f64::from(c) / 255.0, 2.2));
                let new = change([f64::from(x) / w, f64::from(y) / h], linear);
                p.0 = new.map(|v| (libm::pow(v.clamp(0.0, 1.0), 1.0 / 2.2) * 255.0).round() as u8);
            }
        }
        self
    }

    /// All of it.
    pub fn all(self, change: impl Fn([f64; 2], [f64; 3]) -> [f64; 3]) -> Self {
        self.light([0, 0, u32::MAX, u32::MAX], change)
    }

    /// Within the box around a region of the scene, or the card.
    pub fn on(self, region: &str, change: impl Fn([f64; 2], [f64; 3]) -> [f64; 3]) -> Self {
        self.light(box_of(&scene(), region), change)
    }

    /// Out of focus.
    pub fn blurred(self, sigma: f32) -> Self {
        Self(imageops::blur(&self.0, sigma))
    }

    /// With the camera's metadata.
    pub fn jpeg(&self) -> Vec<u8> {
        self.file(95, &BASE.head)
    }

    /// Without any.
    pub fn bare(&self, quality: u8) -> Vec<u8> {
        self.file(quality, &[])
    }

    /// With an EXIF block of its own.
    pub fn with_exif(&self, block: &[u8]) -> Vec<u8> {
        self.file(95, &segment(0xE1, &[b"Exif\0\0", block].concat()))
    }

    fn file(&self, quality: u8, head: &[u8]) -> Vec<u8> {
        let mut out = Vec::new();
        image::codecs::jpeg::JpegEncoder::new_with_quality(&mut out, quality)
            .encode_image(&self.0)
            .expect("a JPEG");
        out.splice(2..2, head.iter().copied());
        out
    }
}

/// The box around a region, or around the card.
pub fn box_of(scene: &Value, region: &str) -> [u32; 4] {
    let outline = if region == "card" {
        &scene["card"]["outline"]
    } else {
        let mut all = scene["regions"].as_array().expect("regions").iter();
        &all.find(|r| r["id"] == region).expect("the region")["outline"]
    };
    let mut out = [u32::MAX, u32::MAX, 0, 0];
    for p in outline.as_array().expect("points") {
        let [x, y] = [0, 1].map(|i| p[i].as_f64().expect("a number").max(0.0) as u32);
        out = [
            out[0].min(x),
            out[1].min(y),
            out[2].max(x + 1),
            out[3].max(y + 1),
        ];
    }
    out
}
