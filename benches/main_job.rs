//! What the main job costs natively, on the demo photo: opening, outlining, reading, dragging.
//!
//! `cargo bench` prints medians; `cargo xtask bench` adds the machine's description and the
//! browser's figures.

#![allow(missing_docs, reason = "the harness makes functions of its own")]

use criterion::{Criterion, criterion_group, criterion_main};
use std::hint::black_box;
use tabside::engine::{Engine, ReadOptions};
use tabside::photo::Photo;
use tabside::scene::find::{self, Search};
use tabside::scene::{Point, RegionKind, Scene};

const PHOTO: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/fixtures/demo/demo.jpg");
const TRUTH: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/fixtures/demo/demo.truth.json");

#[derive(serde::Deserialize)]
struct Truth {
    scene: Scene,
}

fn main_job(c: &mut Criterion) {
    let bytes = std::fs::read(PHOTO).expect("the demo photo");
    let text = std::fs::read_to_string(TRUTH).expect("the demo's truth");
    let scene = serde_json::from_str::<Truth>(&text)
        .expect("a truth file")
        .scene;
    let options = ReadOptions::default();

    c.bench_function("open the demo photo", |b| {
        b.iter(|| {
            let mut engine = Engine::new().expect("an engine");
            black_box(engine.open(&bytes).expect("a photo"))
        });
    });

    let mut engine = Engine::new().expect("an engine");
    let id = engine.open(&bytes).expect("a photo").id;
    c.bench_function("preview of 2 MP", |b| {
        b.iter(|| black_box(engine.preview(id, 2_000_000).expect("a preview")));
    });
    c.bench_function("open and read the whole scene", |b| {
        b.iter(|| {
            let mut fresh = Engine::new().expect("an engine");
            let id = fresh.open(&bytes).expect("a photo").id;
            black_box(fresh.read(id, &scene, &options).expect("a report"))
        });
    });

    // A drag changes one outline per move; everything else is remembered.
    let mut moved = scene.clone();
    let mut step = 0.0;
    c.bench_function("read after one handle moved", |b| {
        b.iter(|| {
            step += 0.01;
            if let Some(corner) = moved
                .regions
                .first_mut()
                .and_then(|r| r.outline.first_mut())
            {
                *corner = Point::new(corner.x() + 0.01 * libm::sin(step), corner.y());
            }
            black_box(engine.read(id, &moved, &options).expect("a report"))
        });
    });

    let photo = Photo::decode(&bytes).expect("a photo");
    c.bench_function("search the photo", |bench| {
        bench.iter(|| {
            let reduced = photo.reduced_linear(400_000);
            let search = Search::of(&reduced).expect("a search");
            black_box(find::found(&search, &reduced))
        });
    });

    let tooth = scene
        .regions
        .iter()
        .find(|r| r.kind == RegionKind::Tooth)
        .expect("a tooth");
    let (a, b) = (
        tooth.cervical.expect("an axis"),
        tooth.incisal.expect("an axis"),
    );
    let tap = Point::new((a.x() + b.x()) / 2.0, (a.y() + b.y()) / 2.0);
    c.bench_function("outline a tooth from a tap", |bench| {
        bench.iter(|| black_box(engine.outline_choices(id, tap).expect("outlines")));
    });
}

criterion_group! {
    name = benches;
    config = Criterion::default().sample_size(15);
    targets = main_job
}
criterion_main!(benches);
