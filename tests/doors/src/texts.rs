//! Text that people give: scenes, guides, swatches, questions about stains, reports, tables.

use serde::Deserialize;
use serde::de::DeserializeOwned;
use std::sync::LazyLock;
use tabside::case::table;
use tabside::engine::{Engine, ReadOptions, Report};
use tabside::reading::Guide;
use tabside::scene::Scene;
use tabside::stain::{PlanLimits, PlanRequest, PlanZone, PredictRequest, SwatchBook};
use tabside::{Error, Result};

fn json<T: DeserializeOwned>(bytes: &[u8]) -> Option<T> {
    serde_json::from_slice(bytes).ok()
}

/// An error is the giver's, never the program's own.
fn of_the_giver<T>(result: Result<T>) -> Option<T> {
    result
        .inspect_err(|e| assert!(!matches!(e, Error::Internal { .. }), "{e}"))
        .ok()
}

/// A small PNG with a grey card on the left and a gradient on the right.
static PHOTO: LazyLock<Vec<u8>> = LazyLock::new(|| {
    let (width, height) = (96_u32, 64_u32);
    let mut rows = Vec::new();
    for y in 0..height {
        rows.push(0);
        for x in 0..width {
            let code = if x < 32 {
                [119; 3]
            } else {
                [200 - x as u8, 190 - y as u8, 150]
            };
            rows.extend(code);
        }
    }
    crate::wrap::png_of(width, height, &rows)
});

/// A scene, of a small photo: every view of it that the page has.
pub fn scene(bytes: &[u8]) {
    let Some(scene) = json::<Scene>(bytes) else {
        return;
    };
    let mut engine = Engine::new().expect("an engine");
    let id = engine.open(&PHOTO).expect("a sound photo").id;
    if let Some(report) = of_the_giver(engine.read(id, &scene, &ReadOptions::default())) {
        let text = serde_json::to_string(&report).expect("JSON");
        let again: Report = serde_json::from_str(&text).expect("what was written is read");
        assert_eq!(again, report);
    }
    let _ = of_the_giver(engine.glare_map(id, &scene, 64));
}

/// A guide.
pub fn guide(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else {
        return;
    };
    if let Some(guide) = of_the_giver(Guide::from_json(text)) {
        let mut engine = Engine::new().expect("an engine");
        let _ = of_the_giver(engine.set_guide(Some(guide)));
    }
}

/// A swatch book: what it shows, a prediction, a plan.
pub fn swatches(bytes: &[u8]) {
    let Some(book) = json::<SwatchBook>(bytes) else {
        return;
    };
    let mut engine = Engine::new().expect("an engine");
    let Some(fitted) = of_the_giver(engine.fit_swatches(&book)) else {
        return;
    };
    serde_json::to_string(&fitted).expect("JSON");
    let Some(first) = book.swatches.first() else {
        return;
    };
    let zone = serde_json::json!([{"zone": "middle", "from": first.base, "to": first.after}]);
    if let Ok(zones) = serde_json::from_value::<Vec<PlanZone>>(zone) {
        let limits = PlanLimits::default();
        let _ = of_the_giver(engine.plan(&book, &PlanRequest { zones, limits }));
    }
}

/// A book that is sound, for questions that need not be.
static BOOK: LazyLock<SwatchBook> = LazyLock::new(|| {
    let text = r#"{"swatches": [
        {"stain": "one", "coats": 1, "base": [78, 0, 14], "after": [75, 2, 18]},
        {"stain": "one", "coats": 2, "base": [78, 0, 14], "after": [72.5, 3.6, 21.5]},
        {"stain": "other", "coats": 1, "base": [78, 0, 14], "after": [74, 0.5, 12]}]}"#;
    serde_json::from_str(text).expect("a sound book")
});

#[derive(Deserialize)]
struct Questions {
    requests: Vec<PredictRequest>,
}

/// What a plan or a prediction is asked.
pub fn plan(bytes: &[u8]) {
    let mut engine = Engine::new().expect("an engine");
    if let Some(asked) = json::<PlanRequest>(bytes)
        && let Some(plan) = of_the_giver(engine.plan(&BOOK, &asked))
    {
        serde_json::to_string(&plan).expect("JSON");
    }
    if let Some(asked) = json::<Questions>(bytes) {
        let _ = of_the_giver(engine.predict(&BOOK, &asked.requests));
    }
}

/// A report, as the table and the comparison of it take it.
pub fn report(bytes: &[u8]) {
    let Some(report) = json::<Report>(bytes) else {
        return;
    };
    let text = of_the_giver(table::cgats(&table::Colours {
        photo: "a".to_owned(),
        version: report.version,
        created: None,
        scene: report.scene,
        readings: report.readings,
        checks: report.checks,
    }));
    // What is written is read again: as a guide, or refused in words.
    if let Some(text) = text {
        let _ = of_the_giver(table::guide_from(text.as_bytes(), "a"));
    }
}

/// A table of tab colours.
pub fn csv(bytes: &[u8]) {
    let _ = of_the_giver(table::guide_from(bytes, "a"));
}

/// The same behind the head that makes it CGATS.
pub fn cgats(bytes: &[u8]) {
    csv(&[b"CGATS.17\n", bytes].concat());
}
