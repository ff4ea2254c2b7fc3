//! What `Variety::finding` promises.

use scene_render::illuminant::Illuminant;
use scene_render::render;
use scene_render::spec::scenery::{Braces, Filling, Layer, Prop, PropKind, Scenery};
use scene_render::spec::{LightShape, SceneSpec, Space, Tone, Variety, WhiteBalance};
use scene_render::truth::Region;
use std::collections::BTreeMap;

fn small() -> Variety {
    Variety {
        size_px: [360, 240],
        ..Variety::finding()
    }
}

/// FNV-1a of a text.
fn hash(text: &str) -> u64 {
    text.bytes().fold(0xcbf2_9ce4_8422_2325, |h, b| {
        (h ^ u64::from(b)).wrapping_mul(0x0100_0000_01b3)
    })
}

#[test]
fn one_seed_gives_one_scene_and_one_picture() {
    let (a, b) = (
        SceneSpec::random(5, &small()),
        SceneSpec::random(5, &small()),
    );
    assert_eq!(a, b);
    assert_ne!(a.teeth, SceneSpec::random(6, &small()).teeth);
    let (p, q) = (render(&a).unwrap(), render(&b).unwrap());
    assert!(p.plain.bytes == q.plain.bytes);
    assert_eq!(
        serde_json::to_string(&p.truth).unwrap(),
        serde_json::to_string(&q.truth).unwrap()
    );
}

/// As written, numbers to six places: other machines' last bits may differ.
fn written(spec: &SceneSpec) -> String {
    fn round(v: &mut serde_json::Value) {
        match v {
            serde_json::Value::Number(n) if n.is_f64() => {
                *v = format!("{:.6}", n.as_f64().unwrap()).into();
            }
            serde_json::Value::Array(list) => list.iter_mut().for_each(round),
            serde_json::Value::Object(map) => map.values_mut().for_each(round),
            _ => {}
        }
    }
    let mut value = serde_json::to_value(spec).unwrap();
    round(&mut value);
    value.to_string()
}

#[test]
fn a_scene_survives_being_written_down() {
    for seed in 1..=40 {
        let spec = SceneSpec::random(seed, &small());
        let text = serde_json::to_string(&spec).unwrap();
        let back: SceneSpec = serde_json::from_str(&text).unwrap();
        assert!(written(&back) == written(&spec), "{seed}");
    }
}

/// Hashes of scenes as they were written before this variety was there.
#[test]
fn the_other_varieties_are_what_they_were() {
    for (variety, seed, want) in [
        (Variety::accuracy(), 7, 0x2583_bf31_2ead_e5cf_u64),
        (Variety::wild(), 7, 0x8d7f_247f_357d_7c2c),
        (Variety::trust(), 7, 0x870b_22c3_2166_cfa3),
        (Variety::toned(), 7, 0xa632_1fbb_2522_5ddf),
    ] {
        let text = written(&SceneSpec::random(seed, &variety));
        let got = hash(&text);
        assert_eq!(got, want, "{got:#x} {variety:?}");
    }
}

/// Each thing that is promised, and the least share of scenes that has it.
fn promises(s: &SceneSpec) -> Vec<(&'static str, bool, f64)> {
    let scenery = s.scenery.as_ref().expect("always");
    let upper = |p: &dyn Fn(&&scene_render::spec::Tooth) -> bool| {
        s.teeth
            .iter()
            .filter(|t| t.fdi < 30)
            .filter(|t| p(t))
            .count()
    };
    let lower = s.teeth.iter().any(|t| t.fdi > 30);
    let width = s.frame.width_mm;
    let body = s.teeth[0].colour.body;
    let card = s.card.as_ref();
    let steps = card.map_or(0, |c| c.steps_y.len());
    let plain = card.filter(|c| c.steps_y.len() == 1).map(|c| c.steps_y[0]);
    let held_down = |t: &scene_render::spec::Tab| (t.turn_deg - 180.0).abs() < 30.0;
    let ordered = |c: &scene_render::spec::Card| {
        c.steps_y.windows(2).all(|p| p[0] > p[1]) || c.steps_y.windows(2).all(|p| p[0] < p[1])
    };
    let gum = s.tissue.gum;
    let prop = |kind: PropKind| scenery.props.iter().any(|p| p.kind == kind);
    vec![
        ("close-up", width <= 30.0, 0.10),
        ("usual frame", (42.0..=62.0).contains(&width), 0.30),
        ("whole smile", width >= 75.0, 0.15),
        ("strong roll", s.frame.roll_deg.abs() > 8.0, 0.08),
        ("upright picture", s.height_px > s.width_px, 0.08),
        ("no card", card.is_none(), 0.18),
        ("no tabs", s.tabs.is_empty(), 0.18),
        ("one tab", s.tabs.len() == 1, 0.04),
        ("six tabs or more", s.tabs.len() >= 6, 0.04),
        (
            "tabs from above",
            s.tabs.iter().filter(|t| held_down(t)).count() > 0,
            0.04,
        ),
        ("biting", lower && s.tissue.opening_mm <= 0.5, 0.20),
        ("wide open", lower && s.tissue.opening_mm > 9.0, 0.10),
        (
            "lower jaw in the frame",
            s.frame.centre_mm[1] > s.tissue.opening_mm - 4.0 && lower && s.tissue.opening_mm > 15.0,
            0.04,
        ),
        ("a missing tooth", s.teeth.iter().any(|t| t.missing), 0.08),
        (
            "a turned tooth",
            s.teeth.iter().any(|t| t.rotation_deg.abs() > 18.0),
            0.08,
        ),
        ("worn teeth", upper(&|t| t.scale[1] < 0.8) > 3, 0.06),
        ("recession", s.tissue.recession_mm > 1.1, 0.10),
        ("grey or brown teeth", body[0] < 66.5, 0.10),
        ("bleached teeth", body[0] > 83.0, 0.06),
        (
            "one dark tooth",
            upper(&|t| t.colour.body[0] < body[0] - 8.0) == 1 && body[0] > 66.0,
            0.02,
        ),
        ("a restoration", s.teeth.iter().any(|t| t.restoration), 0.20),
        ("pale gum", gum[0] > 58.0, 0.10),
        ("red gum", gum[1] > 27.0, 0.08),
        ("bluish gum", gum[2] < 8.0 && gum[1] > 16.5, 0.04),
        ("pigmented gum", gum[1] < 13.0, 0.06),
        ("lips and skin", scenery.opening.is_some(), 0.35),
        (
            "plain grey card",
            plain.is_some_and(|y| (0.16..=0.32).contains(&y)),
            0.20,
        ),
        ("white tile", plain.is_some_and(|y| y > 0.7), 0.03),
        ("dark tile", plain.is_some_and(|y| y < 0.09), 0.02),
        (
            "steps in order",
            card.is_some_and(|c| steps >= 3 && ordered(c)),
            0.10,
        ),
        (
            "shuffled steps",
            card.is_some_and(|c| steps >= 3 && !ordered(c)),
            0.04,
        ),
        ("card behind tabs", scenery.card_behind, 0.04),
        ("head turned", scenery.view_yaw_deg.abs() > 20.0, 0.10),
        ("brown patches", scenery.pigment > 0.1, 0.08),
        ("tongue forward", scenery.tongue_mm > 3.0, 0.12),
        ("molars", s.teeth.iter().any(|t| t.fdi == 16), 0.9),
        ("gloved finger", prop(PropKind::Finger), 0.25),
        ("gloved palm", prop(PropKind::Palm), 0.03),
        ("mirror", prop(PropKind::Mirror), 0.03),
        ("steel band", prop(PropKind::SteelBand), 0.03),
        ("plate", prop(PropKind::Plate), 0.06),
        ("black plate", prop(PropKind::BlackPlate), 0.06),
        ("napkin", prop(PropKind::Napkin), 0.06),
        ("cotton roll", prop(PropKind::CottonRoll), 0.03),
        ("retractor rims", scenery.rims.is_some(), 0.08),
        ("braces", scenery.braces.is_some(), 0.05),
        ("metal crown", !scenery.metals.is_empty(), 0.05),
        ("filling", !scenery.fillings.is_empty(), 0.10),
        ("saliva", scenery.saliva > 0.1, 0.15),
        ("a shadow", !s.shadows.is_empty(), 0.15),
        (
            "close ring flash",
            s.lights
                .iter()
                .any(|l| matches!(l.shape, LightShape::Ring(_)) && l.distance_mm < 150.0),
            0.08,
        ),
        ("two panels", s.lights.len() == 2, 0.20),
        ("wet gloss", s.teeth_gloss > 1.5, 0.10),
        ("dark photo", s.exposure_ev < -1.5, 0.07),
        (
            "tungsten as daylight",
            s.lights[0].illuminant == Illuminant::A
                && s.white_balance == WhiteBalance::Preset(Illuminant::D55),
            0.01,
        ),
        ("vignetting", s.optics.vignetting > 0.2, 0.08),
        (
            "blur",
            s.optics.blur_px > 1.4 * f64::from(s.width_px.max(s.height_px)) / 1500.0,
            0.10,
        ),
        ("strong compression", s.output.quality < 65, 0.10),
        ("a tone curve", s.tone != Tone::Tagged, 0.5),
        ("display P3", s.output.space == Space::DisplayP3, 0.2),
        ("turned file", s.output.orientation > 1, 0.6),
    ]
}

#[test]
fn every_promised_ingredient_occurs() {
    const SCENES: u64 = 400;
    let mut met: BTreeMap<&str, (usize, f64)> = BTreeMap::new();
    for seed in 1..=SCENES {
        for (what, there, least) in promises(&SceneSpec::random(seed, &Variety::finding())) {
            let e = met.entry(what).or_insert((0, least));
            e.0 += usize::from(there);
        }
    }
    let short: Vec<_> = met
        .iter()
        .filter(|(_, (n, least))| (*n as f64) < least * SCENES as f64)
        .collect();
    assert!(
        short.is_empty(),
        "too seldom (count, least share): {short:?}"
    );
}

#[test]
fn outlines_lie_in_the_frame_and_shares_are_shares() {
    let mut partial = 0;
    for seed in 1..=14 {
        let spec = SceneSpec::random(seed, &small());
        let truth = render(&spec).unwrap().truth;
        let (w, h) = (f64::from(spec.width_px), f64::from(spec.height_px));
        let outlines = truth.crowns.iter().map(|c| (c.id.as_str(), &c.outline));
        for (id, outline) in outlines.chain(truth.card_outline.iter().map(|o| ("card", o))) {
            assert!(outline.len() >= 3, "{seed} {id}");
            for p in outline {
                assert!(
                    p[0] > -0.6 && p[1] > -0.6 && p[0] < w - 0.4 && p[1] < h - 0.4,
                    "{seed} {id} {p:?}"
                );
            }
        }
        assert_eq!(
            truth.card_outline.is_some(),
            spec.card.is_some(),
            "{seed}: cards are never wholly hidden"
        );
        for c in &truth.crowns {
            assert!(
                c.visible_share > 0.0 && c.visible_share <= 1.0,
                "{seed} {} {}",
                c.id,
                c.visible_share
            );
            partial += usize::from(c.visible_share < 0.6);
        }
        assert!(truth.crowns.len() >= spec.tabs.len().min(1), "{seed}");
    }
    assert!(
        partial > 5,
        "cut off and hidden crowns are listed: {partial}"
    );
}

/// A scene with all kinds of things taken out: upper teeth from the front, lips wide open.
fn bare() -> SceneSpec {
    let v = Variety::finding();
    let mut spec = (1..200)
        .map(|seed| SceneSpec::random(seed, &v))
        .find(|s| {
            s.frame.width_mm > 45.0
                && s.frame.width_mm < 60.0
                && s.tissue.opening_mm > 9.0
                && s.width_px > s.height_px
                && !s.teeth.iter().any(|t| t.missing)
        })
        .expect("such a scene");
    (spec.height_px, spec.width_px) = (400, 600);
    spec.frame.roll_deg = 0.0;
    spec.frame.centre_mm = [0.0, 0.0];
    spec.tabs.clear();
    spec.card = None;
    spec.scenery = Some(Scenery::default());
    (spec.tissue.upper_lip_mm, spec.tissue.lower_lip_mm) = (None, None);
    spec
}

fn crown(spec: &SceneSpec, id: &str) -> Option<Region> {
    let truth = render(spec).unwrap().truth;
    truth.crowns.into_iter().find(|c| c.id == id)
}

fn with(spec: &SceneSpec, change: impl Fn(&mut Scenery)) -> SceneSpec {
    let mut out = spec.clone();
    change(out.scenery.as_mut().unwrap());
    out
}

#[test]
fn brackets_belong_to_crowns_and_fingers_hide_them() {
    let bare = bare();
    let free = crown(&bare, "tooth-11").unwrap();
    assert!(free.visible_share > 0.9, "{}", free.visible_share);
    let braced = with(&bare, |s| {
        s.braces = Some(Braces {
            ceramic: false,
            wire_mm: 0.5,
            lower: true,
        });
        s.saliva = 1.0;
        s.fillings = vec![Filling {
            fdi: 11,
            at: [0.2, 0.5],
            half_mm: [2.0, 2.0],
            off: [5.0, 0.0, 5.0],
        }];
    });
    let same = crown(&braced, "tooth-11").unwrap();
    assert_eq!(same.outline, free.outline);
    let px = |s: &SceneSpec| render(s).unwrap().plain.picture;
    assert!(px(&braced).rgb != px(&bare).rgb, "brackets are seen");

    // Its edge half is behind a finger.
    let held = with(&bare, |s| {
        s.props = vec![Prop {
            kind: PropKind::Finger,
            at_mm: [-12.0, -1.0],
            size_mm: [8.0, 95.0],
            turn_deg: -90.0,
            z_mm: 6.0,
            colour: [45.0, -8.0, -33.0],
            layer: Layer::Front,
        }];
    });
    let part = crown(&held, "tooth-11").unwrap();
    assert!(
        part.visible_share > 0.2 && part.visible_share < free.visible_share - 0.25,
        "{} of {}",
        part.visible_share,
        free.visible_share
    );
}

#[test]
fn a_crown_half_out_of_the_frame_is_half_seen() {
    let mut spec = bare();
    let free = crown(&spec, "tooth-11").unwrap();
    // The frame's left side runs through the middle of the tooth's outline.
    let px = spec.frame.width_mm / f64::from(spec.width_px);
    let middle = free.outline.iter().map(|p| p[0]).sum::<f64>() / free.outline.len() as f64;
    spec.frame.centre_mm[0] += middle * px;
    let cut = crown(&spec, "tooth-11").unwrap();
    assert!(
        (0.35..0.65).contains(&(cut.visible_share / free.visible_share)),
        "{}",
        cut.visible_share
    );
}

#[test]
fn a_turned_head_narrows_the_far_side() {
    let spec = bare();
    let turned = with(&spec, |s| s.view_yaw_deg = 35.0);
    let width = |s: &SceneSpec, id: &str| {
        crown(s, id).map(|c| {
            let x = c.outline.iter().map(|p| p[0]);
            x.clone().fold(f64::NEG_INFINITY, f64::max) - x.fold(f64::INFINITY, f64::min)
        })
    };
    // The canine on the left comes to face the camera, its twin turns away.
    let (near, far) = (width(&turned, "tooth-13"), width(&turned, "tooth-23"));
    let front = width(&spec, "tooth-23").unwrap();
    assert!(near.unwrap() > 1.1 * far.unwrap(), "{near:?} {far:?}");
    assert!(far.unwrap() < 0.85 * front, "{far:?} {front}");
    let before = width(&spec, "tooth-13").unwrap();
    assert!(near.unwrap() > 1.04 * before, "{near:?} {before}");
}
