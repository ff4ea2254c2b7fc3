//! Scenes that cannot be meant.

use crate::refusals::case::{Case, Page, Wanted};
use crate::refusals::photos::sound;
use serde_json::{Value, json};

const NAME: &str = "marks.json";
const PHOTO: &str = "photo.png";

fn one(id: &str, cause: &str, scene: impl Into<Vec<u8>>, words: &'static str) -> Case {
    Case::new(
        format!("scene-{id}"),
        "scene",
        cause,
        "read photo.png --scene marks.json",
        Wanted::Refused(words),
    )
    .file(PHOTO, sound())
    .file(NAME, scene)
    .page(Page::Drop(NAME))
}

/// The page looks at the form of a scene before the engine does.
fn own(case: Case, words: &'static str) -> Case {
    case.page(Page::OwnWords(NAME, words))
}

fn region(also: &Value) -> Value {
    let mut out = json!({"id": "t1", "kind": "tooth", "name": "11", "outline": [[2, 2], [30, 2], [30, 28], [2, 28]]});
    for (key, value) in also.as_object().expect("fields") {
        out[key] = value.clone();
    }
    out
}

fn regions(list: &[Value]) -> Vec<u8> {
    serde_json::to_vec(&json!({ "card": null, "regions": list })).expect("JSON")
}

fn card(card: &Value) -> Vec<u8> {
    serde_json::to_vec(&json!({ "card": card, "regions": [] })).expect("JSON")
}

/// All of them.
pub fn cases() -> Vec<Case> {
    let square = json!([[2, 2], [30, 2], [30, 28], [2, 28]]);
    let many: Vec<Value> = (0..201)
        .map(|i| region(&json!({"id": format!("r{i}")})))
        .collect();
    let corners: Vec<[f64; 2]> = (0..5001)
        .map(|i| [f64::from(i) / 200.0, f64::from(i % 7)])
        .collect();
    let steps =
        |n: usize, lab: [i32; 3]| json!({"steps": vec![json!({"outline": square, "lab": lab}); n]});
    let with = |also: Value| regions(&[region(&also)]);
    vec![
        own(
            one(
                "binary",
                "a file that is no text",
                sound(),
                "is not a text file",
            ),
            "It is not JSON text.",
        ),
        own(
            one(
                "json",
                "a card that is a number",
                *b"{\"card\": 5}",
                "The scene could not be read",
            ),
            "The card has neither an outline nor steps.",
        ),
        own(
            one(
                "report",
                "a report whose scene is none",
                *b"{\"scene\": 5}",
                "The scene could not be read",
            ),
            "The part “scene” is missing or not as it should be.",
        ),
        own(
            one(
                "other",
                "a file of something else",
                *b"{\"hello\": 5}",
                "neither a card nor regions",
            ),
            "The part “scene” is missing or not as it should be.",
        ),
        own(
            one(
                "many",
                "201 regions",
                regions(&many),
                "at most 200 are taken",
            ),
            "The part “regions” is missing or not as it should be.",
        ),
        own(
            one(
                "no-id",
                "a region without an id",
                with(json!({"id": ""})),
                "has no id",
            ),
            "A region has no id, or two have the same.",
        ),
        own(
            one(
                "twice",
                "two regions with one id",
                regions(&[region(&json!({})), region(&json!({}))]),
                "Two regions have the id",
            ),
            "A region has no id, or two have the same.",
        ),
        own(
            one(
                "borders",
                "thirds out of order",
                with(json!({"borders": [0.7, 0.3]})),
                "cannot be 0.7 and 0.3",
            ),
            "The borders of the thirds are not two rising numbers",
        ),
        own(
            one(
                "two-corners",
                "an outline of two corners",
                with(json!({"outline": [[2, 2], [9, 9]]})),
                "has 2 corners",
            ),
            "An outline has fewer than three points or far too many.",
        ),
        own(
            one(
                "corners",
                "an outline of 5001 corners",
                with(json!({ "outline": corners })),
                "at most 5000 are taken",
            ),
            "An outline has fewer than three points or far too many.",
        ),
        own(
            one(
                "far",
                "a corner two million pixels away",
                with(json!({"outline": [[2, 2], [2e6, 2], [30, 28]]})),
                "not a place in a photo",
            ),
            "A point is not two numbers.",
        ),
        one(
            "flat",
            "an outline that is a line",
            with(json!({"outline": [[2, 2], [9, 9], [20, 20]]})),
            "encloses no area",
        ),
        one(
            "card-steps",
            "a card of 33 steps",
            card(&steps(33, [50, 0, 0])),
            "The card has 33 steps",
        ),
        one(
            "card-colour",
            "a red card",
            card(&json!({"outline": square, "lab": [50, 60, 30]})),
            "cannot be that of a grey card",
        ),
        one(
            "step-colour",
            "a red step",
            card(&steps(2, [50, 60, 30])),
            "a colour that no grey has",
        ),
        own(
            one(
                "card-bare",
                "a card without an outline",
                card(&json!({"outline": []})),
                "The card has no outline",
            ),
            "The card has neither an outline nor steps.",
        ),
    ]
}
