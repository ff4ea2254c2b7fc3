//! The page's door to the engine: photos, scenes, readings. Every call takes and gives plain data.

use super::throw;
use crate::colour::Lab;
use crate::engine::{Engine, Opened, Patch, ReadOptions, Report};
use crate::error::Error;
use crate::photo::Preview;
use crate::reading::{Colour, ColourPair, Difference, Guide};
use crate::scene::find::{Found, FoundRegion};
use crate::scene::{Point, Rect, Scene};
use serde::Serialize;
use serde::de::DeserializeOwned;
use wasm_bindgen::prelude::*;

#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = r#"
/** What a failed call throws. */
export interface EngineError { kind: "file-damaged" | "unsupported" | "too-large" | "input" | "internal"; message: string; }
/** Pixels for the eye, sRGB RGBA. */
export interface PreviewPixels { width: number; height: number; rgba: Uint8Array; }
/**
 * A picture to lay over a part of a photo: `place` is left, top, width, height in upright photo pixels. A map of
 * differences tells the ΔE00 from which it is as opaque as it gets (alpha 200); alpha is proportional below.
 */
export interface PatchPixels extends PreviewPixels { place: [number, number, number, number]; full_delta_e_00?: number; }
"#;

#[wasm_bindgen]
extern "C" {
    /// Values whose TypeScript types are given in the signatures.
    #[wasm_bindgen(typescript_type = "Opened")]
    pub type OpenedJs;
    #[wasm_bindgen(typescript_type = "PreviewPixels")]
    pub type PreviewJs;
    #[wasm_bindgen(typescript_type = "Point")]
    pub type PointJs;
    #[wasm_bindgen(typescript_type = "Point[]")]
    pub type PointsJs;
    #[wasm_bindgen(typescript_type = "Rect")]
    pub type RectJs;
    #[wasm_bindgen(typescript_type = "Found")]
    pub type FoundJs;
    #[wasm_bindgen(typescript_type = "FoundRegion[]")]
    pub type FoundRegionsJs;
    #[wasm_bindgen(typescript_type = "Guide")]
    pub type GuideJs;
    #[wasm_bindgen(typescript_type = "Scene")]
    pub type SceneJs;
    #[wasm_bindgen(typescript_type = "ReadOptions")]
    pub type ReadOptionsJs;
    #[wasm_bindgen(typescript_type = "Report")]
    pub type ReportJs;
    #[wasm_bindgen(typescript_type = "Difference[]")]
    pub type DifferencesJs;
    #[wasm_bindgen(typescript_type = "PatchPixels")]
    pub type PatchJs;
}

pub(super) fn give<T: Serialize, J: JsCast>(value: &T) -> Result<J, JsValue> {
    let serializer = serde_wasm_bindgen::Serializer::json_compatible();
    value
        .serialize(&serializer)
        .map(JsCast::unchecked_into)
        .map_err(|e| throw(&Error::internal(e.to_string())))
}

pub(super) fn take<T: DeserializeOwned>(
    value: impl Into<JsValue>,
    what: &str,
) -> Result<T, JsValue> {
    serde_wasm_bindgen::from_value(value.into()).map_err(|e| {
        throw(&Error::input(
            format!("The {what} could not be read: {e}."),
            "Check the file or the numbers.",
        ))
    })
}

// One copy of each serves all calls.
#[inline(never)]
pub(super) fn give_preview(made: crate::Result<Preview>) -> Result<PreviewJs, JsValue> {
    let preview = made.map_err(|e| throw(&e))?;
    let object = js_sys::Object::new();
    let set = |key: &str, value: &JsValue| js_sys::Reflect::set(&object, &key.into(), value);
    set("width", &preview.width.into())?;
    set("height", &preview.height.into())?;
    set("rgba", &js_sys::Uint8Array::from(preview.rgba.as_slice()))?;
    Ok(object.unchecked_into())
}

/// One copy of the reader serves all calls.
#[inline(never)]
pub(super) fn scene_of(scene: SceneJs) -> Result<Scene, JsValue> {
    take(scene, "scene")
}

#[inline(never)]
pub(super) fn give_patch(made: crate::Result<Patch>) -> Result<PatchJs, JsValue> {
    let patch = made.map_err(|e| throw(&e))?;
    let object: JsValue = give_preview(Ok(patch.picture))?.into();
    let place = js_sys::Array::from_iter(patch.place.map(JsValue::from_f64));
    js_sys::Reflect::set(&object, &"place".into(), &place)?;
    if let Some(full) = patch.full_delta_e_00 {
        js_sys::Reflect::set(&object, &"full_delta_e_00".into(), &full.into())?;
    }
    Ok(object.unchecked_into())
}

/// The engine, as the page's worker holds it.
#[wasm_bindgen(js_name = Engine)]
pub struct WebEngine(pub(super) Engine);

#[wasm_bindgen(js_class = Engine)]
impl WebEngine {
    /// An empty desk.
    #[wasm_bindgen(constructor)]
    pub fn new() -> Result<Self, JsValue> {
        console_error_panic_hook::set_once();
        Engine::new().map(Self).map_err(|e| throw(&e))
    }

    /// Opens a photo from its file's bytes.
    pub fn open(&mut self, bytes: &[u8]) -> Result<OpenedJs, JsValue> {
        let opened: Opened = self.0.open(bytes).map_err(|e| throw(&e))?;
        give(&opened)
    }

    /// A reduced copy for the eye.
    pub fn preview(&self, id: u32, max_px: u32) -> Result<PreviewJs, JsValue> {
        give_preview(self.0.preview(id, max_px as usize))
    }

    /// What there is at once for the eye.
    pub fn glimpse(&self, id: u32, max_px: u32) -> Result<PreviewJs, JsValue> {
        give_preview(self.0.glimpse(id, max_px as usize))
    }

    /// One strip of a preview, from above; nothing after the last.
    pub fn preview_strip(
        &self,
        id: u32,
        max_px: u32,
        strip: u32,
    ) -> Result<Option<PreviewJs>, JsValue> {
        let made = self.0.preview_strip(id, max_px as usize, strip);
        let strip = made.map_err(|e| throw(&e))?;
        strip.map(|s| give_preview(Ok(s))).transpose()
    }

    /// Closes a photo.
    pub fn close(&mut self, id: u32) {
        self.0.close(id);
    }

    /// Card, tabs and crowns, without a tap.
    pub fn find(&mut self, id: u32) -> Result<FoundJs, JsValue> {
        let found: Found = self.0.find(id).map_err(|e| throw(&e))?;
        give(&found)
    }

    /// The outlines that a tap can mean, the likeliest first.
    pub fn outline_choices(&mut self, id: u32, tap: PointJs) -> Result<FoundRegionsJs, JsValue> {
        let tap: Point = take(tap, "place")?;
        let choices: Vec<FoundRegion> = self.0.outline_choices(id, tap).map_err(|e| throw(&e))?;
        give(&choices)
    }

    /// The pieces that a stroke cuts an outline into, the largest first.
    pub fn cut_outline(
        &mut self,
        id: u32,
        outline: PointsJs,
        stroke: PointsJs,
    ) -> Result<FoundRegionsJs, JsValue> {
        let outline: Vec<Point> = take(outline, "outline")?;
        let stroke: Vec<Point> = take(stroke, "stroke")?;
        let pieces = self.0.cut_outline(id, &outline, &stroke);
        give(&pieces.map_err(|e| throw(&e))?)
    }

    /// The card's outline under a tap.
    pub fn outline_card(&mut self, id: u32, tap: PointJs) -> Result<PointsJs, JsValue> {
        let tap: Point = take(tap, "place")?;
        give(&self.0.outline_card(id, tap).map_err(|e| throw(&e))?)
    }

    /// The card's outline within a dragged box.
    pub fn outline_card_in(&mut self, id: u32, area: RectJs) -> Result<PointsJs, JsValue> {
        let area: Rect = take(area, "box")?;
        give(&self.0.outline_card_in(id, area).map_err(|e| throw(&e))?)
    }

    /// The shade guide in use.
    pub fn guide(&self) -> Result<GuideJs, JsValue> {
        give(self.0.guide())
    }

    /// Replaces the shade guide; `undefined` brings the default back.
    pub fn set_guide(&mut self, guide: Option<GuideJs>) -> Result<GuideJs, JsValue> {
        let guide: Option<Guide> = guide.map(|g| take(g, "shade guide")).transpose()?;
        self.0.set_guide(guide).map_err(|e| throw(&e))?;
        give(self.0.guide())
    }

    /// Sets the cross-polarised partner of a photo.
    pub fn pair(&mut self, id: u32, polarised: Option<u32>) -> Result<(), JsValue> {
        self.0.set_pair(id, polarised).map_err(|e| throw(&e))
    }

    /// Reads the scene of a photo.
    pub fn read(
        &mut self,
        id: u32,
        scene: SceneJs,
        options: ReadOptionsJs,
    ) -> Result<ReportJs, JsValue> {
        let scene = scene_of(scene)?;
        let options: ReadOptions = take(options, "options")?;
        let report: Report = self.0.read(id, &scene, &options).map_err(|e| throw(&e))?;
        give(&report)
    }

    /// How plain colours differ, pair by pair. Eight numbers each: L*, a*, b* and doubt of `from`,
    /// the same of `to`; not-a-number for a doubt that is not known. (A reader of plain data for
    /// them would weigh a kilobyte.)
    pub fn differences(&self, numbers: &[f64]) -> Result<DifferencesJs, JsValue> {
        let colour = |[l, a, b, doubt]: [f64; 4]| Colour {
            lab: Lab::new(l, a, b),
            doubt: (!doubt.is_nan()).then_some(doubt),
        };
        let (colours, _) = numbers.as_chunks::<4>();
        let pairs: Vec<ColourPair> = colours
            .as_chunks::<2>()
            .0
            .iter()
            .map(|[from, to]| ColourPair {
                from: colour(*from),
                to: colour(*to),
            })
            .collect();
        let found: Vec<Difference> = self.0.differences(&pairs).map_err(|e| throw(&e))?;
        give(&found)
    }

    /// A region turned upright, for the eye.
    pub fn straightened(
        &mut self,
        id: u32,
        scene: SceneJs,
        region: &str,
        height_px: u32,
    ) -> Result<PreviewJs, JsValue> {
        let scene = scene_of(scene)?;
        give_preview(self.0.straightened(id, &scene, region, height_px))
    }

    /// The glare of a pair, for the eye.
    pub fn glare_map(
        &mut self,
        id: u32,
        scene: SceneJs,
        max_px: u32,
    ) -> Result<PreviewJs, JsValue> {
        let scene = scene_of(scene)?;
        let made = self.0.glare_map(id, &scene, max_px as usize);
        give_preview(made)
    }
}
