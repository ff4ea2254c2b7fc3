//! Thirty photos of every kind of file with their scenes, written to `target/bit_for_bit` together with
//! what is read of each here: `www/e2e/engines/bit_for_bit.e2e.ts` has browsers read them too, and
//! compares to the last bit.
//!
//! What is compared is every number and word of the report, as lines of `place value` with each number
//! as the sixteen hexadecimal digits of its double; the hash is SHA-256 over them.

mod support;

#[path = "properties/photo_files.rs"]
mod photo_files;

use jpeg_encoder::SamplingFactor::{self, F_1_1, F_1_2, F_2_1, F_2_2};
use photo_files::{Form, Tagged, file};
use scene_render::Rendered;
use scene_render::develop::resized;
use scene_render::spec::{SceneSpec, Space, Variety};
use serde_json::{Value, json};
use sha2::{Digest, Sha256};
use std::collections::BTreeSet;
use std::path::PathBuf;
use support::own_tabs::own_tabs;
use tabside::colour::Lab;
use tabside::engine::{Engine, ReadOptions};
use tabside::reading::Guide;
use tabside::scene::Scene;

use Tagged::{Cube, Matrix, Nothing, Stages};

/// One photo of the set.
struct Kind {
    name: &'static str,
    form: Form,
    tagged: Tagged,
    space: Space,
    orientation: u8,
    /// Rendered width; the height is two thirds of it.
    width: u32,
    /// Made so many times larger after rendering.
    times: u32,
    /// With a cross-polarised photo.
    pair: bool,
    /// With a camera's tone curve.
    toned: bool,
    /// The tabs' own measured colours are the guide.
    own: bool,
}

const fn kind(name: &'static str, form: Form) -> Kind {
    Kind {
        name,
        form,
        tagged: Nothing,
        space: Space::Srgb,
        orientation: 1,
        width: 600,
        times: 1,
        pair: false,
        toned: false,
        own: false,
    }
}

const fn jpeg(name: &'static str, sampling: SamplingFactor, every: u16) -> Kind {
    kind(name, Form::Jpeg(sampling, every))
}

fn set() -> Vec<Kind> {
    let (p3, adobe) = (Space::DisplayP3, Space::AdobeRgb);
    let turned = |orientation, kind| Kind {
        orientation,
        ..kind
    };
    let wide = |space, kind| Kind {
        space,
        tagged: Matrix,
        ..kind
    };
    let own = |kind| Kind { own: true, ..kind };
    let toned = |kind| Kind {
        toned: true,
        ..kind
    };
    let large = |kind| Kind {
        width: 800,
        times: 3,
        ..kind
    };
    let paired = |kind| Kind { pair: true, ..kind };
    vec![
        jpeg("jpeg-444", F_1_1, 0),
        own(jpeg("jpeg-420", F_2_2, 0)),
        jpeg("jpeg-422", F_2_1, 0),
        jpeg("jpeg-440", F_1_2, 0),
        own(jpeg("jpeg-420-restart-7", F_2_2, 7)),
        toned(jpeg("jpeg-444-restart-1", F_1_1, 1)),
        kind("jpeg-progressive-420", Form::Progressive(F_2_2)),
        wide(
            p3,
            own(kind("jpeg-progressive-444-p3", Form::Progressive(F_1_1))),
        ),
        kind("jpeg-grey", Form::GreyJpeg),
        wide(p3, turned(6, jpeg("jpeg-p3-orientation-6", F_2_2, 0))),
        wide(
            adobe,
            turned(8, own(jpeg("jpeg-adobe-orientation-8", F_1_1, 0))),
        ),
        turned(2, toned(jpeg("jpeg-orientation-2", F_2_2, 0))),
        turned(3, own(jpeg("jpeg-orientation-3", F_2_1, 0))),
        turned(4, jpeg("jpeg-orientation-4", F_2_2, 0)),
        turned(5, jpeg("jpeg-orientation-5", F_2_2, 5)),
        turned(7, jpeg("jpeg-orientation-7", F_1_1, 0)),
        Kind {
            tagged: Stages,
            ..own(jpeg("jpeg-icc-stages", F_2_2, 0))
        },
        kind("png-8", Form::Png(8)),
        own(kind("png-16", Form::Png(16))),
        wide(p3, toned(kind("png-16-p3", Form::Png(16)))),
        kind("png-grey-16", Form::GreyPng(16)),
        Kind {
            tagged: Cube,
            ..own(kind("png-16-icc-cube", Form::Png(16)))
        },
        kind("tiff-8-lzw", Form::TiffLzw),
        kind("webp-lossy", Form::KeptWebp),
        wide(adobe, own(kind("tiff-16-adobe", Form::Tiff(16, false)))),
        turned(
            6,
            kind("tiff-8-big-endian-orientation-6", Form::Tiff(8, true)),
        ),
        wide(p3, kind("webp-lossless-p3", Form::Webp)),
        turned(
            6,
            own(large(jpeg("large-jpeg-420-orientation-6", F_2_2, 0))),
        ),
        paired(wide(p3, jpeg("pair-jpeg-420-p3", F_2_2, 0))),
        paired(own(large(jpeg("large-pair-jpeg-444-restart", F_1_1, 40)))),
    ]
}

/// A scene of the kind, rendered: light, camera, mouth, tabs and card vary with its place.
fn rendered(place: usize, kind: &Kind) -> (SceneSpec, Rendered) {
    let variety = Variety {
        size_px: [kind.width, kind.width * 2 / 3],
        pair: kind.pair,
        ..if kind.toned {
            Variety::toned()
        } else {
            Variety::trust()
        }
    };
    let mut spec = SceneSpec::random(30_100 + place as u64, &variety);
    spec.output.space = kind.space;
    spec.output.orientation = kind.orientation;
    let rendered = scene_render::render(&spec).expect("a scene");
    (spec, rendered)
}

/// A scene on the kept picture of 48 × 32 pixels: its left half for a card, its right for a tooth.
fn on_the_kept_one() -> Value {
    let side = |x0: f64, x1: f64| json!([[x0, 1.0], [x1, 1.0], [x1, 30.0], [x0, 30.0]]);
    let tooth = json!({"id": "t", "kind": "tooth", "outline": side(22.3, 46.2)});
    json!({"card": {"outline": side(1.1, 19.9)}, "regions": [tooth]})
}

/// A scene on a picture that was made larger.
fn enlarged(scene: &mut Value, times: u32) {
    let times = f64::from(times);
    let to = |v: f64| (v + 0.5) * times - 0.5;
    match scene {
        Value::Array(all) if all.len() == 2 && all.iter().all(Value::is_number) => {
            for v in all {
                *v = to(v.as_f64().expect("a number")).into();
            }
        }
        Value::Array(all) => all.iter_mut().for_each(|v| enlarged(v, times as u32)),
        // Colours of the card have three numbers; names and kinds are no numbers.
        Value::Object(all) => all.values_mut().for_each(|v| enlarged(v, times as u32)),
        _ => {}
    }
}

fn guide(rendered: &Rendered, scene: &Scene) -> Guide {
    let lab = |id: &str, zone: &str| Lab(rendered.truth.zones[id][zone].lab);
    own_tabs(&scene.regions, lab)
}

/// A line for each number and word, by places in their order; what is missing has none.
fn lines(place: &str, value: &Value, out: &mut Vec<String>) {
    match value {
        Value::Null => {}
        Value::Array(all) => {
            for (i, v) in all.iter().enumerate() {
                lines(&format!("{place}/{i}"), v, out);
            }
        }
        Value::Object(all) => {
            let sorted: BTreeSet<&String> = all.keys().collect();
            for key in sorted {
                lines(&format!("{place}/{key}"), &all[key], out);
            }
        }
        Value::Number(n) => {
            let bits = n.as_f64().expect("a double").to_bits();
            out.push(format!("{place} {bits:016x}"));
        }
        Value::Bool(b) => out.push(format!("{place} {b}")),
        Value::String(s) => out.push(format!("{place} {}", Value::from(s.as_str()))),
    }
}

fn hash(text: &str) -> String {
    Sha256::digest(text)
        .iter()
        .map(|b| format!("{b:02x}"))
        .collect()
}

/// The set is written, every photo of it can be read, and no two readings are the same. About 20 s.
#[test]
fn the_set_is_written() {
    let folder: PathBuf = [env!("CARGO_MANIFEST_DIR"), "target", "bit_for_bit"]
        .iter()
        .collect();
    std::fs::create_dir_all(&folder).expect("a folder");
    let put = |name: &str, bytes: &[u8]| std::fs::write(folder.join(name), bytes).expect("a file");
    let (mut listed, mut hashes) = (Vec::new(), BTreeSet::new());
    let kinds = set();
    assert_eq!(kinds.len(), 30);
    for (place, kind) in kinds.iter().enumerate() {
        let (spec, rendered) = rendered(place, kind);
        let mut scene = serde_json::to_value(&rendered.truth.scene).expect("JSON");
        let photo = |p: &scene_render::Photo| {
            let size = [p.picture.w, p.picture.h].map(|v| v * kind.times as usize);
            let picture = if kind.times == 1 {
                p.picture.clone()
            } else {
                resized(&p.picture, size)
            };
            file(&spec, &picture, kind.form, kind.tagged)
        };
        let plain = photo(&rendered.plain);
        let polarised = rendered.polarised.as_ref().map(photo);
        if matches!(kind.form, Form::KeptWebp) {
            scene = on_the_kept_one();
        }
        if kind.times > 1 {
            enlarged(&mut scene, kind.times);
        }
        let typed: Scene = serde_json::from_value(scene.clone()).expect("a scene");
        let own = kind.own.then(|| guide(&rendered, &typed));

        let mut engine = Engine::new().expect("an engine");
        engine.set_guide(own.clone()).expect("a guide");
        let opened = engine
            .open(&plain)
            .unwrap_or_else(|e| panic!("{}: {e}", kind.name));
        if let Some(second) = &polarised {
            let second = engine.open(second).expect("the second photo");
            engine.set_pair(opened.id, Some(second.id)).expect("a pair");
        }
        let report = engine
            .read(opened.id, &typed, &ReadOptions::default())
            .expect("a report");
        // Each is a reading of something: all of its zones, but where a photo is grey.
        assert_eq!(
            report.readings.len(),
            typed.regions.len(),
            "{}: {:?}",
            kind.name,
            report.checks
        );
        assert_eq!(
            report.pair.is_some(),
            kind.pair,
            "{}: {:?}",
            kind.name,
            report.checks
        );
        let large = plain.starts_with(&[0xff, 0xd8]) && kind.times > 1;
        assert_eq!(
            large,
            report.photo.width * report.photo.height > 3_600_000,
            "{}",
            kind.name
        );

        let mut all = Vec::new();
        let said = json!({"checks": opened.checks, "report": report});
        lines("", &said, &mut all);
        let text = all.join("\n");
        let hash = hash(&text);
        println!(
            "{:32} {:5} × {:4} {:7} bytes {} {:.16}…",
            kind.name,
            report.photo.width,
            report.photo.height,
            plain.len(),
            all.len(),
            hash
        );
        assert!(hashes.insert(hash.clone()), "{}: as another one", kind.name);
        put(&format!("{}.photo", kind.name), &plain);
        if let Some(bytes) = &polarised {
            put(&format!("{}.polarised", kind.name), bytes);
        }
        put(&format!("{}.lines", kind.name), text.as_bytes());
        listed.push(json!({"name": kind.name, "pair": kind.pair, "scene": scene, "guide": own, "sha256": hash}));
    }
    // Last: who finds the list finds all that is on it.
    put("set.json", &serde_json::to_vec(&listed).expect("JSON"));
}
