//! Books of swatches, and questions about them, that cannot be answered; and what swatches and plans
//! find in those that can.

use crate::refusals::case::{Case, Page, Wanted};
use serde_json::{Value, json};

const BOOK: &str = "own.swatches.json";

fn bytes(value: &Value) -> Vec<u8> {
    serde_json::to_vec(value).expect("JSON")
}

fn swatch(also: &Value) -> Value {
    let mut out = json!({"stain": "umber", "coats": 1, "base": [75, 1, 16], "after": [72, 2, 18]});
    for (key, value) in also.as_object().expect("fields") {
        out[key] = value.clone();
    }
    out
}

fn book(swatches: &[Value]) -> Value {
    json!({"name": "b", "stains": [], "swatches": swatches})
}

/// A book that is sound: one stain at one and two coats.
pub fn sound() -> Value {
    book(&[
        swatch(&json!({})),
        swatch(&json!({"coats": 2, "after": [69.2, 2.9, 19.8]})),
    ])
}

fn ask(id: &str, cause: &str, book: &Value, requests: &Value, wanted: Wanted) -> Case {
    Case::new(
        id,
        "swatches",
        cause,
        "predict own.swatches.json ask.json",
        wanted,
    )
    .file(BOOK, bytes(book))
    .file("ask.json", bytes(&json!({ "requests": requests })))
    .page(Page::Call("predict", json!([book, requests])))
}

fn request(also: &Value) -> Value {
    let mut out = json!({"id": "q", "base": [75, 1, 16], "mix": {"umber": 1}, "coats": 1});
    for (key, value) in also.as_object().expect("fields") {
        out[key] = value.clone();
    }
    out
}

/// The refusals.
pub fn cases() -> Vec<Case> {
    let mut out = books();
    out.extend(questions());
    out.extend(plans());
    out
}

fn books() -> Vec<Case> {
    let none = json!([]);
    let refused = |id: &str, cause: &str, book: &Value, words| {
        ask(id, cause, book, &none, Wanted::Refused(words))
            .page(Page::Call("fit_swatches", json!([book])))
    };
    let many: Vec<Value> = (0..1001).map(|_| swatch(&json!({}))).collect();
    let stains: Vec<Value> = (0..61)
        .map(|i| swatch(&json!({"stain": format!("s{i}")})))
        .collect();
    let mut unread = ask(
        "swatches-json",
        "a book without swatches",
        &json!({"name": "b"}),
        &none,
        Wanted::Refused("the swatches could not be read"),
    );
    unread.page = Page::OwnWords(
        BOOK,
        "The part “swatches” is missing or not as it should be.",
    );
    vec![
        unread,
        refused(
            "swatches-many",
            "1001 swatches",
            &book(&many),
            "at most 1000 and 60 are taken",
        ),
        refused(
            "swatches-stains",
            "swatches of 61 stains",
            &book(&stains),
            "The swatches name 61 stains",
        ),
        refused(
            "swatches-none",
            "no swatch that can be used",
            &book(&[swatch(&json!({"coats": 0}))]),
            "None of the swatches can be used",
        ),
    ]
}

fn questions() -> Vec<Case> {
    let of = |id: &str, cause: &str, also: Value, words| {
        ask(
            id,
            cause,
            &sound(),
            &json!([request(&also)]),
            Wanted::Refused(words),
        )
    };
    let many: Vec<Value> = (0..100_001).map(|_| request(&json!({}))).collect();
    let mut greedy = ask(
        "ask-many",
        "100 001 questions at once",
        &sound(),
        &Value::Array(many),
        Wanted::Refused("100001 predictions are asked for"),
    );
    greedy.page = Page::Not("the page asks for a few at a time");
    let mut unread = ask(
        "ask-json",
        "a question without a mix",
        &sound(),
        &json!([{"id": "q"}]),
        Wanted::Refused("the requests could not be read"),
    );
    unread.page = Page::CallSays(
        "predict",
        json!([sound(), [{"id": "q"}]]),
        "The requests could not be read",
    );
    vec![
        greedy,
        unread,
        of(
            "ask-coats",
            "13 coats",
            json!({"coats": 13}),
            "13 coats cannot be predicted",
        ),
        of(
            "ask-shares",
            "shares that sum to 0.7",
            json!({"mix": {"umber": 0.7}}),
            "sum to 0.700",
        ),
        of(
            "ask-unknown",
            "a stain without a swatch",
            json!({"mix": {"slate": 1}}),
            "what the stain “slate” does",
        ),
        of(
            "ask-base",
            "a black base",
            json!({"base": [10, 1, 1]}),
            "is no colour of a dental ceramic",
        ),
    ]
}

fn plan(id: &str, cause: &str, zones: &Value, limits: &Value, wanted: Wanted) -> Case {
    plan_of(id, cause, &sound(), zones, limits, wanted)
}

fn plan_of(
    id: &str,
    cause: &str,
    book: &Value,
    zones: &Value,
    limits: &Value,
    wanted: Wanted,
) -> Case {
    let mut file = book.clone();
    file["zones"] = zones.clone();
    file["limits"] = limits.clone();
    Case::new(id, "plan", cause, "plan ask.json", wanted)
        .file("ask.json", bytes(&file))
        .page(Page::Call(
            "plan",
            json!([book, {"zones": zones, "limits": limits}]),
        ))
}

fn zone(also: &Value) -> Value {
    let mut out = json!({"zone": "middle", "from": [76, 0, 14], "to": [73, 1.5, 17]});
    for (key, value) in also.as_object().expect("fields") {
        out[key] = value.clone();
    }
    out
}

fn plans() -> Vec<Case> {
    let of = |id: &str, cause: &str, zones: Value, limits: Value, words| {
        plan(id, cause, &zones, &limits, Wanted::Refused(words))
    };
    let one = || json!([zone(&json!({}))]);
    let mut no_json = of(
        "plan-json",
        "a request that breaks off",
        json!([]),
        json!({}),
        "the plan's request could not be read",
    );
    no_json.files = Vec::new();
    let no_json = no_json
        .file("ask.json", *b"{\"zones\": [")
        .page(Page::Not("the page asks by itself, from no file"));
    let mut formless = of(
        "plan-form",
        "a request whose swatches are none",
        json!([]),
        json!({}),
        "the plan's request could not be read",
    );
    formless.files = Vec::new();
    let formless = formless
        .file("ask.json", *b"{\"swatches\": 5, \"zones\": []}")
        .page(Page::CallSays(
            "plan",
            json!([{"swatches": 5}, {"zones": []}]),
            "The swatch book could not be read",
        ));
    vec![
        no_json,
        formless,
        of(
            "plan-none",
            "a plan of no third",
            json!([]),
            json!({}),
            "asked for 0 thirds",
        ),
        of(
            "plan-twice",
            "one third twice",
            json!([zone(&json!({})), zone(&json!({}))]),
            json!({}),
            "A third stands twice",
        ),
        of(
            "plan-doubt",
            "a doubt below 0",
            json!([zone(&json!({"doubt": -1}))]),
            json!({}),
            "The doubt of the middle third is no number",
        ),
        of(
            "plan-coats",
            "nine coats in a firing",
            one(),
            json!({"coats_per_firing": 9}),
            "9 coats in each of 2 firings are not planned",
        ),
        of(
            "plan-mix",
            "three stains in a mix",
            one(),
            json!({"stains_per_mix": 3}),
            "3 stains in one mix",
        ),
        of(
            "plan-stain",
            "a stain without a swatch",
            one(),
            json!({"stains": ["slate"]}),
            "what the stain “slate” does",
        ),
        of(
            "plan-base",
            "a black restoration",
            json!([zone(&json!({"from": [10, 1, 1]}))]),
            json!({}),
            "Middle third: The base",
        ),
    ]
}

/// What is found in books and plans that are used all the same.
pub fn findings() -> Vec<Case> {
    let of = |code: &'static str, cause: &str, swatches: Vec<Value>| {
        let book = book(&swatches);
        let mut one = ask(
            &format!("swatch-{code}"),
            cause,
            &book,
            &json!([]),
            Wanted::Finding(code),
        );
        one.door = "swatches";
        one.page(Page::Call("fit_swatches", json!([book])))
    };
    let two = |also: Value| {
        swatch(&json!({"coats": 2, "after": [69.2, 2.9, 19.8]}))
            .as_object()
            .map(|_| {
                let mut out = swatch(&json!({"coats": 2, "after": [69.2, 2.9, 19.8]}));
                for (key, value) in also.as_object().expect("fields") {
                    out[key] = value.clone();
                }
                out
            })
            .expect("a swatch")
    };
    let plain = || swatch(&json!({}));
    let mut listed = sound();
    listed["stains"] = json!([{"name": "slate"}]);
    let mut no_swatch = ask(
        "swatch-no-swatch",
        "a stain of the list without a swatch",
        &listed,
        &json!([]),
        Wanted::Finding("no-swatch"),
    );
    no_swatch.page = Page::Call("fit_swatches", json!([listed]));
    let mut out = vec![
        of(
            "unusable",
            "a swatch of no coats",
            vec![plain(), swatch(&json!({"coats": 0}))],
        ),
        of(
            "base-unlike",
            "a swatch on black",
            vec![plain(), swatch(&json!({"base": [10, 1, 1]}))],
        ),
        of("one-swatch", "one swatch of a stain", vec![plain()]),
        of("one-coat-count", "twice one coat", vec![plain(), plain()]),
        of(
            "lighter",
            "one swatch that got lighter",
            vec![
                plain(),
                two(json!({})),
                swatch(&json!({"after": [80, 1, 12]})),
            ],
        ),
        of(
            "contradicts",
            "one swatch unlike the others",
            vec![
                plain(),
                plain(),
                swatch(&json!({"after": [80, 1, 12]})),
                two(json!({})),
            ],
        ),
        of(
            "faint",
            "a stain that does hardly anything",
            vec![
                swatch(&json!({"after": [75, 1, 16.1], "doubt": 4})),
                two(json!({"after": [75, 1, 16.15], "doubt": 4})),
            ],
        ),
        of(
            "name-twice",
            "one stain written in two ways",
            vec![plain(), swatch(&json!({"stain": "Umber "}))],
        ),
        no_swatch,
    ];
    out.extend(shortfalls());
    out
}

fn shortfalls() -> Vec<Case> {
    let demo: Value = serde_json::from_slice(
        &std::fs::read(crate::cli::fixture("demo/demo.swatches.json")).expect("the demo's book"),
    )
    .expect("JSON");
    let of = |code: &'static str, cause: &str, from: [f64; 3], to: [f64; 3], limits: Value| {
        let zones = json!([{"zone": "middle", "from": from, "to": to}]);
        plan_of(
            &format!("short-{code}"),
            cause,
            &demo,
            &zones,
            &limits,
            Wanted::Finding(code),
        )
    };
    let name = |at: usize| demo["stains"][at]["name"].clone();
    vec![
        of(
            "target-lighter",
            "a target lighter than the restoration",
            [72.0, 1.0, 16.0],
            [80.0, 0.0, 14.0],
            json!({"may_lighten": false}),
        ),
        of(
            "target-darker",
            "a target far darker",
            [78.0, 0.0, 14.0],
            [52.0, 1.0, 14.0],
            json!({"coats_per_firing": 1, "firings": 1}),
        ),
        of(
            "lightened-at-a-price",
            "a lighter target, and a stain that lightens",
            [72.0, 1.0, 16.0],
            [80.0, 0.0, 12.0],
            json!({}),
        ),
        of(
            "chroma-too-high",
            "a target of less chroma",
            [78.0, 1.0, 24.0],
            [78.0, 0.0, 8.0],
            json!({"may_lighten": false}),
        ),
        of(
            "hue-not-at-hand",
            "a target of another hue",
            [76.0, 0.0, 14.0],
            [76.0, -8.0, 14.0],
            json!({}),
        ),
        of(
            "coat-limit",
            "one coat where three are needed",
            [78.0, 0.0, 14.0],
            [70.0, 3.0, 26.0],
            json!({"coats_per_firing": 0.5, "firings": 1}),
        ),
        of(
            "left-out",
            "a stain that the limits leave out",
            [78.0, 0.0, 14.0],
            [70.0, 3.0, 26.0],
            json!({"stains": [name(1)]}),
        ),
        of(
            "no-nearer",
            "a target slightly off every mix",
            [66.1, 3.8, 19.1],
            [65.1, 4.8, 27.2],
            json!({}),
        ),
        of(
            "opaque",
            "many coats of a hiding stain",
            [60.9, -0.6, 23.3],
            [62.7, 4.2, 24.1],
            json!({"coats_per_firing": 6, "firings": 2}),
        ),
    ]
}
