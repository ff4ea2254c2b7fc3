//! The light checks: a photo, or a file of one, that has what each of them tells.

use crate::refusals::case::{Case, Page, Wanted};
use crate::refusals::doctored::{Shot, box_of, own_guide, scene};
use crate::support::exif::{Exif, Value as Tag, short, text};
use crate::support::files::{Picture, with_chunk};
use serde_json::{Value, json};

const PHOTO: &str = "photo.jpg";
const SCENE: &str = "marks.json";

fn with(code: &'static str, also: &str, cause: &str, photo: Vec<u8>, scene: &Value) -> Case {
    let id = if also.is_empty() {
        format!("check-{code}")
    } else {
        format!("check-{code}-{also}")
    };
    Case::new(
        id,
        "photo and scene",
        cause,
        "read photo.jpg --scene marks.json",
        Wanted::Finding(code),
    )
    .file(PHOTO, photo)
    .file(SCENE, serde_json::to_vec(scene).expect("JSON"))
    .page(Page::Read)
}

fn shot(code: &'static str, cause: &str, shot: &Shot) -> Case {
    with(code, "", cause, shot.jpeg(), &scene())
}

fn marked(code: &'static str, cause: &str, change: impl FnOnce(&mut Value)) -> Case {
    let mut own = scene();
    change(&mut own);
    with(code, "", cause, Shot::demo().jpeg(), &own)
}

/// All of them.
pub fn cases() -> Vec<Case> {
    let mut out = cards();
    out.extend(teeth());
    out.extend(lights());
    out.extend(files());
    out.extend(pairs());
    out
}

fn square([x0, y0, x1, y1]: [f64; 4]) -> Value {
    json!([[x0, y0], [x1, y0], [x1, y1], [x0, y1]])
}

fn cards() -> Vec<Case> {
    let [x0, y0, x1, _] = box_of(&scene(), "card");
    let (left, top) = (f64::from(x0) + 60.0, f64::from(y0) + 60.0);
    let half = f64::from(x0 + x1) / 2.0 / 900.0;
    let demo = Shot::demo;
    vec![
        marked("card-missing", "no card is marked", |s| s["card"] = Value::Null)
            .page(Page::ReadSays("The reading appears here as soon as the card and a tooth, restoration or tab are marked.")),
        shot("card-clipped", "a card that shines", &demo().on("card", |_, _| [1.0; 3])),
        shot("card-dark", "a card in the dark", &demo().on("card", |_, c| c.map(|v| v * 0.02))),
        shot("card-textured", "a card half in a shadow", &demo().on("card", move |[x, _], c| if x < half { c.map(|v| v * 0.7) } else { c })),
        with_guide(shot("card-tilted", "a card that is turned away from the light", &demo().on("card", |_, c| c.map(|v| v * 0.72))), &own_guide()),
        shot("card-not-neutral", "a card that is not grey", &demo().on("card", |_, [r, g, b]| [r * 1.3, g, b * 0.75])),
        marked("card-small", "ten pixels of the card", move |s| s["card"]["outline"] = square([left, top, left + 10.0, top + 10.0])),
        marked("card-outside", "an outline beyond the photo", move |s| s["card"]["outline"] = square([left, top, 1000.0, 700.0])),
    ]
}

fn region<'a>(scene: &'a mut Value, id: &str) -> &'a mut Value {
    let all = scene["regions"].as_array_mut().expect("regions");
    all.iter_mut().find(|r| r["id"] == id).expect("the region")
}

fn without_axis(region: &mut Value) {
    let fields = region.as_object_mut().expect("fields");
    fields.remove("cervical");
    fields.remove("incisal");
}

fn teeth() -> Vec<Case> {
    let demo = Shot::demo;
    vec![
        shot(
            "tooth-clipped",
            "a tooth that shines all over",
            &demo().on("tooth-11", |_, _| [1.0; 3]),
        ),
        shot(
            "tooth-dark",
            "a tooth in the dark",
            &demo().on("tooth-11", |_, c| c.map(|v| v * 0.03)),
        ),
        marked("tooth-small", "an outline of five pixels", |s| {
            let r = region(s, "tooth-11");
            without_axis(r);
            r["outline"] = square([370.0, 150.0, 375.0, 156.0]);
        }),
        marked("region-outside", "an outline beyond the photo", |s| {
            let r = region(s, "tooth-11");
            without_axis(r);
            r["outline"] = square([330.0, -90.0, 430.0, 230.0]);
        }),
        shot(
            "reading-unusual",
            "a green tooth",
            &demo().on("tooth-11", |_, [r, g, b]| [r * 0.5, g, b * 0.6]),
        ),
        marked("published-averages", "no tab in the photo", |s| {
            let all = s["regions"].as_array_mut().expect("regions");
            all.retain(|r| r["kind"] != "tab");
        }),
        marked("tab-contradicts", "a tab under another's name", |s| {
            region(s, "tab-B2")["name"] = json!("C4")
        }),
        impossible_tab(),
        shot("surface-unlike", "wet teeth and dull tabs", &matt()),
    ]
}

fn impossible_tab() -> Case {
    let guide = json!({"name": "Own", "source": "measured", "tabs": [{"name": "A1", "lab": [20, 1, 3]}, {"name": "A2", "lab": [70, 0, 10]}]});
    with_guide(
        with(
            "tab-contradicts",
            "impossible",
            "a tab whose known colour no tooth has",
            Shot::demo().jpeg(),
            &scene(),
        ),
        &guide,
    )
}

fn with_guide(case: Case, guide: &Value) -> Case {
    let mut out = case.file("own.guide.json", serde_json::to_vec(guide).expect("JSON"));
    out.arguments
        .extend(["--guide", "own.guide.json"].map(str::to_owned));
    out
}

/// Tabs without any sheen or form, as if of felt.
fn matt() -> Shot {
    let mut out = Shot::demo();
    for id in ["tab-A1", "tab-A2", "tab-A3", "tab-B2", "tab-C1"] {
        out = out.on(id, |_, [r, g, b]| {
            if r > 0.2 && b > 0.08 && g < r {
                [0.42, 0.36, 0.26]
            } else {
                [r, g, b]
            }
        });
    }
    out
}

fn lights() -> Vec<Case> {
    let demo = Shot::demo;
    vec![
        shot(
            "cast-strong",
            "a photo balanced for another light",
            &demo().all(|_, [r, g, b]| [r, g * 0.7, b * 0.22]),
        ),
        shot(
            "under-exposed",
            "a photo three stops too dark",
            &demo().all(|_, c| c.map(|v| v * 0.1)),
        ),
        shot("blur", "a photo out of focus", &demo().blurred(5.0)),
        shot(
            "light-uneven",
            "a lamp at the side",
            &demo().all(|[x, _], c| c.map(|v| v * (0.35 + 0.65 * x))),
        ),
        shot(
            "light-mixed",
            "a warm lamp at one side",
            &demo().all(|[x, _], [r, g, b]| [r * (0.6 + 0.4 * x), g * 0.8, b * (1.0 - 0.5 * x)]),
        ),
    ]
}

/// A file that is read, with what is told of it.
fn file(code: &'static str, cause: &str, bytes: Vec<u8>) -> Case {
    Case::new(
        format!("check-{code}"),
        "photo",
        cause,
        "read photo.jpg",
        Wanted::Finding(code),
    )
    .file(PHOTO, bytes)
    .page(Page::Read)
}

fn files() -> Vec<Case> {
    let small = Picture::scene();
    let mut frame = vec![0, 0, 0, 0];
    frame.extend(48_u32.to_be_bytes());
    frame.extend(32_u32.to_be_bytes());
    frame.extend([0; 14]);
    let moving = with_chunk(&small.png(), b"fcTL", &frame);
    let moving = with_chunk(&moving, b"acTL", &[0, 0, 0, 1, 0, 0, 0, 0]);
    let codes: Vec<u16> = (0..64 * 16 * 4_u32)
        .map(|i| if i % 4 == 3 { 85 } else { 128 })
        .collect();
    let lying = Exif::default()
        .main(0x011A, Tag::Lie(5, 1, 900_000))
        .block();
    let zoomed = Exif::default()
        .main(0x0110, text("Ferncourt FC-6"))
        .exif(0xA401, short(1))
        .exif(0xA404, Tag::Rational(vec![[2, 1]]))
        .block();
    vec![
        file(
            "space-assumed",
            "a picture that names no colour space",
            small.png(),
        ),
        file(
            "profile-unusable",
            "a picture with a broken profile",
            small.clone().icc(vec![7; 200]).png(),
        ),
        file(
            "processed",
            "a photo with digital zoom",
            Shot::demo().with_exif(&zoomed),
        ),
        file(
            "recompressed",
            "a photo as after a messenger",
            Shot::demo().bare(60),
        ),
        file("first-of-several", "a moving picture", moving),
        file(
            "transparency-ignored",
            "a picture that one can see through",
            Picture::from_codes(8, 4, &codes).png(),
        ),
        file(
            "metadata-damaged",
            "metadata that lead nowhere",
            small.exif(lying).jpeg(),
        ),
    ]
}

fn pairs() -> Vec<Case> {
    let pair = |code: &'static str, cause: &str, plain: Vec<u8>, polarised: Vec<u8>| {
        let mut out = with(code, "", cause, plain, &scene()).file("polarised.jpg", polarised);
        out.arguments
            .extend(["--polarised", "polarised.jpg"].map(str::to_owned));
        out
    };
    let demo = Shot::demo();
    let taken = |time: &str| {
        demo.with_exif(
            &Exif::default()
                .main(0x0110, text("Ferncourt FC-6"))
                .exif(0x9003, text(time))
                .block(),
        )
    };
    let noise = Picture::rgb8(900, 600, |x, y| {
        let v = (x.wrapping_mul(2_654_435_761) ^ y.wrapping_mul(40_503_173)) >> 9;
        [v as u8, (v >> 3) as u8, (v >> 6) as u8]
    });
    vec![
        pair(
            "pair-misaligned",
            "a second photo of something else",
            demo.jpeg(),
            noise.jpeg(),
        ),
        pair(
            "pair-times",
            "a second photo an hour later",
            taken("2031:05:14 10:12:30"),
            taken("2031:05:14 11:12:30"),
        ),
    ]
}
