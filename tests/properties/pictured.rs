//! Small rendered photos with their scenes: as pixels that a property can change, and read.

use crate::support::files::Picture;
use crate::support::own_tabs::own_tabs;
use scene_render::develop::{decode, encode};
use scene_render::spec::{SceneSpec, Space, Variety};
use std::collections::BTreeMap;
use tabside::colour::{Lab, delta_e_00};
use tabside::engine::{Engine, ReadOptions, Report};
use tabside::reading::{Guide, ZoneReading};
use tabside::scene::{Card, Point, Scene, Zone};

/// Width and height: at half the size a tooth is still some 120 px wide.
pub const SIZE_PX: [u32; 2] = [1620, 1080];

/// A photo as pixels, with what is outlined on it.
#[derive(Clone)]
pub struct Pictured {
    /// Width in pixels.
    pub width: u32,
    /// Height in pixels.
    pub height: u32,
    /// Light, 0–1, row by row.
    pub linear: Vec<[f32; 3]>,
    /// Card and regions.
    pub scene: Scene,
    /// The tabs as their owner would have measured them.
    pub own_tabs: Guide,
}

/// A rendered photo of a sound kind: light, camera, mouth, card and tabs vary by seed.
pub fn rendered(seed: u64, size_px: [u32; 2]) -> Pictured {
    let variety = Variety {
        size_px,
        ..Variety::trust()
    };
    let mut spec = SceneSpec::random(seed, &variety);
    spec.output.space = Space::Srgb;
    // At this size a photo has less noise: many pixels of a sensor lie under each of its own.
    spec.optics.full_well_electrons *= 4.0;
    let rendered = scene_render::render(&spec).expect("a scene");
    let truth = rendered.truth;
    let text = serde_json::to_string(&truth.scene).expect("JSON");
    let mut scene: Scene = serde_json::from_str(&text).expect("a scene");
    // The truth's corners are round numbers. No pixel's centre shall lie just on an outline or a
    // border of thirds, where a mirror image may put it on the other side.
    move_points(&mut scene, |[x, y]| [x + 0.013_7, y - 0.011_3]);
    let lab = |id: &str, zone: &str| Lab(truth.zones[id][zone].lab);
    let own_tabs = own_tabs(&scene.regions, lab);
    let picture = rendered.plain.picture;
    Pictured {
        width: size_px[0],
        height: size_px[1],
        linear: picture
            .rgb
            .iter()
            .map(|p| p.map(|v| decode(Space::Srgb, f64::from(v.clamp(0.0, 1.0))) as f32))
            .collect(),
        scene,
        own_tabs,
    }
}

/// Every place of a scene as another.
pub fn move_points(scene: &mut Scene, to: impl Fn([f64; 2]) -> [f64; 2]) {
    let cards = scene.card.iter_mut().chain(&mut scene.second_card);
    let outlines = cards.flat_map(|Card { outline, steps, .. }| {
        std::iter::once(outline).chain(steps.iter_mut().map(|s| &mut s.outline))
    });
    let moved = |p: &mut Point| *p = Point(to(p.0));
    outlines.flatten().for_each(moved);
    for r in &mut scene.regions {
        r.outline.iter_mut().for_each(moved);
        r.cervical.iter_mut().chain(&mut r.incisal).for_each(moved);
    }
}

impl Pictured {
    /// The pixel at a place; outside, the nearest one.
    pub fn at(&self, x: i64, y: i64) -> [f32; 3] {
        let inside = |v: i64, n: u32| v.clamp(0, i64::from(n) - 1) as usize;
        self.linear[inside(y, self.height) * self.width as usize + inside(x, self.width)]
    }

    /// Another picture of the same scene: each pixel from this one, each point moved.
    pub fn other(
        &self,
        [width, height]: [u32; 2],
        pixel: impl Fn(i64, i64) -> [f32; 3],
        point: impl Fn([f64; 2]) -> [f64; 2],
    ) -> Self {
        let places =
            (0..i64::from(height)).flat_map(|y| (0..i64::from(width)).map(move |x| (x, y)));
        let mut out = Self {
            width,
            height,
            linear: places.map(|(x, y)| pixel(x, y)).collect(),
            ..self.clone()
        };
        move_points(&mut out.scene, point);
        out
    }

    /// The picture as a file's pixels, sRGB at 8 or 16 bits.
    pub fn picture(&self, bits: u8) -> Picture {
        let full = if bits == 8 { 255.0 } else { 65_535.0 };
        let code = |v: f32| (encode(Space::Srgb, v) * full + 0.5) as u16;
        Picture {
            width: self.width,
            height: self.height,
            channels: 3,
            bits,
            codes: self.linear.iter().flat_map(|p| p.map(code)).collect(),
            icc: None,
            exif: None,
        }
    }

    /// What the engine reads on it, at 16 bits.
    pub fn read(&self, guide: Option<&Guide>) -> Report {
        read(&self.picture(16).png(), &self.scene, guide)
    }
}

/// What the engine reads on a file.
pub fn read(file: &[u8], scene: &Scene, guide: Option<&Guide>) -> Report {
    let mut engine = Engine::new().expect("an engine");
    engine.set_guide(guide.cloned()).expect("a guide");
    let id = engine.open(file).expect("a photo").id;
    engine
        .read(id, scene, &ReadOptions::default())
        .expect("a report")
}

/// The readings of all zones, by region and zone. None is missing: nothing would be compared then.
pub fn zones(report: &Report) -> BTreeMap<(String, usize), ZoneReading> {
    let all: BTreeMap<_, _> = report
        .readings
        .iter()
        .flat_map(|r| {
            let zones = Zone::ALL.into_iter().enumerate();
            zones.filter_map(|(i, z)| Some(((r.region.clone(), i), r.zones.get(z)?.clone())))
        })
        .collect();
    assert_eq!(
        all.len(),
        4 * report.scene.regions.len(),
        "{:?}",
        report.checks
    );
    all
}

/// How two readings of one scene differ.
#[derive(Debug, Clone, Copy, Default)]
pub struct Apart {
    /// The largest ΔE00 of any zone.
    pub delta_e_00: f64,
    /// The largest share of its own doubt that a zone moved by.
    pub of_doubt: f64,
    /// The largest difference of any doubt.
    pub doubt: f64,
}

/// Compares zone by zone.
pub fn apart(before: &Report, after: &Report) -> Apart {
    let (before, after) = (zones(before), zones(after));
    assert!(before.keys().eq(after.keys()));
    let mut out = Apart::default();
    for (a, b) in before.values().zip(after.values()) {
        let moved = delta_e_00(a.lab, b.lab);
        out.delta_e_00 = out.delta_e_00.max(moved);
        out.of_doubt = out.of_doubt.max(moved / a.doubt.min(b.doubt));
        out.doubt = out.doubt.max((a.doubt - b.doubt).abs());
    }
    out
}
