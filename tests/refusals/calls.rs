//! Refusals that only the page's calls reach: the command line has no such door, so the engine is called
//! here as the page's worker calls it, with the same arguments.

use crate::refusals::doctored::{Shot, scene};
use crate::refusals::photos::sound;
use crate::refusals::stains;
use serde::de::DeserializeOwned;
use serde_json::{Value, json};
use tabside::case::{self, PhotoBytes};
use tabside::engine::Engine;
use tabside::reading::{Colour, ColourPair};
use tabside::{Error, Result};

/// A call and what it says.
#[derive(Clone)]
pub struct Call {
    pub id: &'static str,
    pub cause: &'static str,
    /// Photos that are open by then: the first has the number 1.
    pub open: Vec<Vec<u8>>,
    pub call: &'static str,
    pub arguments: Value,
    pub words: &'static str,
    /// What only the bindings of the page say cannot be called here.
    pub native: bool,
}

fn call(
    id: &'static str,
    cause: &'static str,
    call: &'static str,
    arguments: Value,
    words: &'static str,
) -> Call {
    Call {
        id,
        cause,
        open: vec![sound()],
        call,
        arguments,
        words,
        native: true,
    }
}

/// All of them.
pub fn calls() -> Vec<Call> {
    let demo = vec![Shot::demo().jpeg()];
    let marks = scene();
    let changed = |change: &dyn Fn(&mut Value)| {
        let mut out = scene();
        change(&mut out);
        out
    };
    let bare = changed(&|s| s["card"] = Value::Null);
    let only = |outline: Value| {
        changed(&|s| s["regions"] = json!([{"id": "t", "kind": "tooth", "outline": outline}]))
    };
    let small = only(json!([[370, 150], [374, 150], [374, 155], [370, 155]]));
    let outside = only(json!([
        [1370, 1150],
        [1470, 1150],
        [1470, 1350],
        [1370, 1350]
    ]));
    let zone = json!({"zone": "middle", "paint": {"mix": [], "coats": 1}, "before": [75, 1, 16], "predicted": [72, 2, 18], "predicted_doubt": 1, "got": [72, 2, 18], "target": [70, 2, 19], "doubt": -1});
    let book = stains::sound();
    let zones = planned(&book);
    let pairs: Vec<f64> = std::iter::repeat_n([75.0, 1.0, 16.0, 1.0], 2 * 4097)
        .flatten()
        .collect();
    let on_demo = |c: Call| Call {
        open: demo.clone(),
        ..c
    };
    let (kept, _) = crate::support::case::small();
    let text = serde_json::to_value(kept).expect("JSON");
    let mut newer = text.clone();
    newer["version"] = json!(2);
    let bound = |c: Call| Call { native: false, ..c };
    vec![
        Call {
            open: vec![sound(); 64],
            ..call(
                "call-full",
                "a 65th photo",
                "open",
                json!([{"$bytes": 1}]),
                "64 photos are open",
            )
        },
        call(
            "call-closed",
            "a photo that was closed",
            "read",
            json!([99, marks, {}]),
            "That photo is no longer open",
        ),
        call(
            "call-own-pair",
            "a photo as its own partner",
            "pair",
            json!([1, 1]),
            "its own cross-polarised partner",
        ),
        call(
            "call-no-pair",
            "glare of one photo alone",
            "glare_map",
            json!([1, marks, 1000]),
            "no cross-polarised photo that lies over",
        ),
        on_demo(call(
            "call-no-card",
            "a map without a card",
            "evenness_map",
            json!([1, bare, "tooth-11", 1000]),
            "Without a usable card",
        )),
        on_demo(call(
            "call-no-region",
            "a map of a region that is none",
            "evenness_map",
            json!([1, marks, "nothing", 1000]),
            "That region is not in the scene",
        )),
        on_demo(call(
            "call-few-pixels",
            "a map of 20 pixels",
            "evenness_map",
            json!([1, small, "t", 1000]),
            "too few usable pixels for a map",
        )),
        on_demo(call(
            "call-outside",
            "a plan's picture beside the photo",
            "planned_patch",
            json!([1, outside, "t", book, zones, 1000]),
            "The region lies outside the photo",
        )),
        on_demo(call(
            "call-no-plan",
            "a picture of no plan",
            "planned_picture",
            json!([1, marks, "tooth-11", book, [], 100]),
            "The plan has no third",
        )),
        on_demo(call(
            "call-height",
            "a picture of 5 pixels",
            "straightened",
            json!([1, marks, "tooth-11", 5]),
            "16 to 2000 pixels high, not 5",
        )),
        call(
            "call-tap",
            "a tap beside the photo",
            "outline_choices",
            json!([1, [-50, -50]]),
            "That place is not in the photo",
        ),
        call(
            "call-tap-card",
            "a tap for the card beside the photo",
            "outline_card",
            json!([1, [-50, -50]]),
            "That place is not in the photo",
        ),
        call(
            "call-box",
            "a box of no size",
            "outline_card_in",
            json!([1, {"x": 5, "y": 5, "width": 0, "height": 0}]),
            "The box encloses nothing",
        ),
        call(
            "call-pass-none",
            "a pass of no third",
            "review_pass",
            json!([book, {"zones": []}]),
            "The pass has no third",
        ),
        call(
            "call-pass-doubt",
            "a pass with a doubt below 0",
            "review_pass",
            json!([book, {"zones": [zone]}]),
            "has a colour or doubt that is no number",
        ),
        call(
            "call-look",
            "a look at no third",
            "look_unfired",
            json!([book, {"zones": []}]),
            "The look has no third",
        ),
        call(
            "call-practice",
            "an exercise of no third",
            "score_practice",
            json!([{"zones": []}]),
            "no third that can be scored",
        ),
        call(
            "call-pairs",
            "4097 pairs of colours",
            "differences",
            json!([{ "$numbers": pairs }]),
            "4097 pairs of colours were given",
        ),
        call(
            "call-pair",
            "a doubt below 0",
            "differences",
            json!([{"$numbers": [75, 1, 16, -1, 72, 2, 18, 1]}]),
            "A colour or doubt of pair 1 cannot be",
        ),
        call(
            "call-newer",
            "a newer case to be written",
            "case:write",
            json!([newer.to_string(), []]),
            "writing it would lose the rest",
        ),
        call(
            "call-no-bytes",
            "a case without the bytes it is to keep",
            "case:write",
            json!([text.to_string(), []]),
            "are to be kept and were not given",
        ),
        bound(call(
            "call-place",
            "a place that is a word",
            "outline_card",
            json!([1, "here"]),
            "The place could not be read: …. Check the file or the numbers.",
        )),
        bound(call(
            "call-no-photo",
            "numbers of a photo that is none",
            "case:compare",
            json!([text.to_string(), "zz", null]),
            "Something went wrong inside Tabside: no such photo in the case. Please report it with the steps that led here.",
        )),
    ]
}

fn planned(book: &Value) -> Value {
    let mut engine = Engine::new().expect("a desk");
    let request = json!({"zones": [{"zone": "middle", "from": [76, 0, 14], "to": [73, 1.5, 17]}]});
    let plan = engine
        .plan(
            &of(book).expect("a book"),
            &of(&request).expect("a request"),
        )
        .expect("a plan");
    serde_json::to_value(plan.zones).expect("JSON")
}

fn of<T: DeserializeOwned>(value: &Value) -> Result<T> {
    serde_json::from_value(value.clone()).map_err(|e| Error::internal(format!("test: {e}")))
}

impl Call {
    /// Calls the engine; an error says what was said instead.
    pub fn run(&self) -> std::result::Result<String, String> {
        let said = self
            .answer()
            .err()
            .map(|e| e.to_string())
            .unwrap_or_default();
        if said.contains(self.words) {
            Ok(said)
        } else {
            Err(format!(
                "{}: {said:?} was said, not {:?}",
                self.id, self.words
            ))
        }
    }

    fn answer(&self) -> Result<()> {
        let mut engine = Engine::new()?;
        for bytes in &self.open {
            engine.open(bytes)?;
        }
        let a = |at: usize| &self.arguments[at];
        let id = a(0).as_u64().unwrap_or(0) as u32;
        let text = |at: usize| a(at).as_str().unwrap_or_default();
        let size = |at: usize| a(at).as_u64().unwrap_or(0);
        match self.call {
            "open" => engine.open(&sound()).map(drop),
            "read" => engine.read(id, &of(a(1))?, &of(a(2))?).map(drop),
            "pair" => engine.set_pair(id, Some(size(1) as u32)),
            "glare_map" => engine.glare_map(id, &of(a(1))?, size(2) as usize).map(drop),
            "evenness_map" => engine
                .evenness_map(id, &of(a(1))?, text(2), size(3) as usize)
                .map(drop),
            "planned_patch" => {
                let zones: Vec<_> = of(a(4))?;
                engine
                    .planned_patch(
                        id,
                        &of(a(1))?,
                        text(2),
                        &of(a(3))?,
                        &zones,
                        size(5) as usize,
                    )
                    .map(drop)
            }
            "planned_picture" => {
                let zones: Vec<_> = of(a(4))?;
                engine
                    .planned_picture(id, &of(a(1))?, text(2), &of(a(3))?, &zones, size(5) as u32)
                    .map(drop)
            }
            "straightened" => engine
                .straightened(id, &of(a(1))?, text(2), size(3) as u32)
                .map(drop),
            "outline_choices" => engine.outline_choices(id, of(a(1))?).map(drop),
            "outline_card" => engine.outline_card(id, of(a(1))?).map(drop),
            "outline_card_in" => engine.outline_card_in(id, of(a(1))?).map(drop),
            "review_pass" => engine.review_pass(&of(a(0))?, &of(a(1))?).map(drop),
            "look_unfired" => engine.look_unfired(&of(a(0))?, &of(a(1))?).map(drop),
            "score_practice" => engine.score_practice(&of(a(0))?).map(drop),
            "differences" => engine.differences(&pairs(&a(0)["$numbers"])).map(drop),
            "case:write" => {
                let case: case::Case = serde_json::from_str(text(0)).expect("a case");
                case::write(&case, &[] as &[PhotoBytes<'_>]).map(drop)
            }
            other => panic!("{other} is not known here"),
        }
    }
}

fn pairs(numbers: &Value) -> Vec<ColourPair> {
    let all: Vec<f64> = numbers
        .as_array()
        .expect("numbers")
        .iter()
        .filter_map(Value::as_f64)
        .collect();
    let colour = |c: &[f64; 4]| Colour {
        lab: tabside::colour::Lab::new(c[0], c[1], c[2]),
        doubt: Some(c[3]),
    };
    let colours: Vec<Colour> = all.as_chunks::<4>().0.iter().map(colour).collect();
    let two = colours.chunks_exact(2);
    two.map(|c| ColourPair {
        from: c[0],
        to: c[1],
    })
    .collect()
}
