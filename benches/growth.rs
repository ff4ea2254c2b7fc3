//! How time and memory grow: with a photo's megapixels, the regions in it, the swatches of a book, the
//! photos of a case. `cargo xtask bench growth` starts it, fits exponents and draws them.
//!
//! Every point is measured in a process of its own, so that its memory is its own. Times are medians in
//! milliseconds, of the processor where the system tells them (Linux; one thread does it all); memory is
//! how much the resident memory rose at its highest above what it was before (bytes; Linux only). A line
//! per point: `point`, question, series, size, unit, value, parted by tabs.

use std::hint::black_box;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::Instant;
use tabside::case::{self, Case, KeptPhoto, KeptReading, PhotoBytes};
use tabside::colour::Lab;
use tabside::engine::{Engine, ReadOptions};
use tabside::scene::{Point, Region, RegionKind, Scene, Zone};
use tabside::stain::{PlanLimits, PlanRequest, PlanZone, Swatch, SwatchBook};

type Result<T> = std::result::Result<T, Box<dyn std::error::Error>>;

/// Widths at 3:2 of the photos that are rendered beforehand: 1, 3, 6, 12, 24, 48, 100 megapixels.
const WIDTHS_PX: [usize; 7] = [1224, 2120, 3000, 4240, 6000, 8480, 12240];
const REGIONS: [usize; 7] = [1, 2, 5, 10, 20, 35, 50];
const SWATCHES: [usize; 7] = [2, 5, 10, 20, 50, 100, 200];
const PHOTOS: [usize; 7] = [1, 2, 5, 10, 30, 100, 200];

const BOOK: &str = include_str!("../fixtures/demo/demo.swatches.json");
/// Of the photo of 12 megapixels the regions are read, the smallest is what a case is filled with.
const REGIONS_WIDTH_PX: usize = 4240;
const CASE_WIDTH_PX: usize = 1224;
/// The system counts a thread's time in steps of some milliseconds; in so short a time it is rarely
/// interrupted, and the clock says more.
const SLICE_MS: f64 = 20.0;

fn main() -> Result<()> {
    // Cargo adds `--bench`.
    let words: Vec<String> = std::env::args()
        .skip(1)
        .filter(|w| w != "--bench")
        .collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    match words.as_slice() {
        ["all", photos] => all(Path::new(photos)),
        ["point", question, size, photos] => {
            let (size, photos) = (size.parse()?, Path::new(photos));
            match *question {
                "megapixels" => megapixels(size, photos),
                "regions" => regions(size, photos),
                "swatches" => swatches(size),
                "photos" => photos_of_a_case(size, photos),
                other => Err(format!("there is no question `{other}`").into()),
            }
        }
        _ => {
            println!("`cargo xtask bench growth` measures how time and memory grow.");
            Ok(())
        }
    }
}

/// Each point in a process of its own.
fn all(photos: &Path) -> Result<()> {
    let program = std::env::current_exe()?;
    for (question, sizes) in [
        ("megapixels", WIDTHS_PX),
        ("regions", REGIONS),
        ("swatches", SWATCHES),
        ("photos", PHOTOS),
    ] {
        for size in sizes {
            let status = Command::new(&program)
                .args(["point", question, &size.to_string()])
                .arg(photos)
                .status()?;
            if !status.success() {
                return Err(format!("{question}, {size}: {status}").into());
            }
        }
    }
    Ok(())
}

/// One photo: opened, searched, and its true outlines read.
fn megapixels(width_px: usize, photos: &Path) -> Result<()> {
    let path = photo(photos, width_px);
    let (bytes, scene) = (std::fs::read(&path)?, scene_of(&path)?);
    let mut size_mp = 0.0;
    let (medians, memory) = rounds(rounds_for(width_px), || {
        let mut engine = Engine::new()?;
        let (open, opened) = timed(|| Ok(engine.open(&bytes)?))?;
        let info = &opened.info;
        size_mp = f64::from(info.width) * f64::from(info.height) / 1e6;
        let (find, found) = timed(|| Ok(engine.find(opened.id)?))?;
        let (read, report) =
            timed(|| Ok(engine.read(opened.id, &scene, &ReadOptions::default())?))?;
        black_box((&found, &report));
        Ok([open + find + read, open, find, read])
    })?;
    for (series, median) in ["all", "open", "find", "read"].into_iter().zip(medians) {
        tell("megapixels", series, size_mp, "ms", median);
    }
    tell_memory("megapixels", "all", size_mp, memory);
    Ok(())
}

/// The first reading of so many regions: those of a rendered scene, and more of the same a little beside.
fn regions(count: usize, photos: &Path) -> Result<()> {
    let path = photo(photos, REGIONS_WIDTH_PX);
    let bytes = std::fs::read(&path)?;
    let mut scene = scene_of(&path)?;
    // Teeth and tabs in turn, a restoration first.
    let of = |tab: bool| -> Vec<Region> {
        let is = |r: &&Region| (r.kind == RegionKind::Tab) == tab;
        scene.regions.iter().filter(is).cloned().collect()
    };
    let (teeth, tabs) = (of(false), of(true));
    scene.regions = (0..count)
        .filter_map(|i| {
            let list = if i % 2 == 0 { &teeth } else { &tabs };
            let (place, lap) = (i / 2 % list.len().max(1), i / 2 / list.len().max(1));
            let mut region = list.get(place)?.clone();
            region.id = format!("r{i}");
            if i > 0 && region.kind == RegionKind::Restoration {
                region.kind = RegionKind::Tooth;
            }
            if lap > 0 {
                region.name = String::new();
            }
            let by = 4.0 * lap as f64;
            let moved = |p: Point| Point::new(p.x() + by, p.y());
            region.outline = region.outline.iter().copied().map(moved).collect();
            region.cervical = region.cervical.map(moved);
            region.incisal = region.incisal.map(moved);
            Some(region)
        })
        .collect();
    let (mut times, mut memory) = (Vec::new(), None);
    for round in 0..=5 {
        let mut engine = Engine::new()?;
        let id = engine.open(&bytes)?.id;
        let base = Base::now();
        let (read, report) = timed(|| Ok(engine.read(id, &scene, &ReadOptions::default())?))?;
        if report.readings.len() != count {
            return Err(format!("{} of {count} regions were read", report.readings.len()).into());
        }
        if round == 0 {
            memory = base.risen();
        } else {
            times.push(read);
        }
    }
    tell("regions", "read", count as f64, "ms", median(times));
    tell_memory("regions", "read", count as f64, memory);
    Ok(())
}

/// Strengths from so many swatches of two stains, and a plan for three thirds with them.
fn swatches(count: usize) -> Result<()> {
    let demo: SwatchBook = serde_json::from_str(BOOK)?;
    let mut names: Vec<&str> = demo.swatches.iter().map(|s| s.stain.as_str()).collect();
    names.dedup();
    names.truncate(2);
    let kept: Vec<&Swatch> = demo
        .swatches
        .iter()
        .filter(|s| s.mix.is_none() && names.contains(&s.stain.as_str()))
        .collect();
    let mut book = SwatchBook {
        stains: Vec::new(),
        swatches: Vec::new(),
        ..demo.clone()
    };
    for i in 0..count {
        // Of both stains in turn.
        let of = |name: &str| kept.iter().filter(|s| s.stain == name).collect::<Vec<_>>();
        let list = of(names.get(i % 2).ok_or("the demo has two stains")?);
        let mut swatch = (*list.get(i / 2 % list.len().max(1)).ok_or("no swatch")?)
            .to_owned()
            .clone();
        // Read again, a little otherwise.
        let by = 0.05 * ((i * 7 % 11) as f64 - 5.0);
        let Lab([l, a, b]) = swatch.after;
        swatch.after = Lab::new(l + by, a, b - by);
        book.swatches.push(swatch);
    }
    let zone = |zone, l: f64| PlanZone {
        zone,
        from: Lab::new(l, 0.0, 14.0),
        to: Lab::new(l - 4.0, 1.2, 18.0),
        doubt: 0.5,
    };
    let request = PlanRequest {
        zones: vec![
            zone(Zone::Cervical, 76.0),
            zone(Zone::Middle, 77.0),
            zone(Zone::Incisal, 75.0),
        ],
        limits: PlanLimits::default(),
    };
    let ([fit, plan], memory) = rounds(9, || {
        let mut engine = Engine::new()?;
        let (fit, fitted) = timed(|| Ok(engine.fit_swatches(&book)?))?;
        let (plan, made) = timed(|| Ok(engine.plan(&book, &request)?))?;
        black_box((&fitted, &made));
        Ok([fit, plan])
    })?;
    tell("swatches", "fit", count as f64, "ms", fit);
    tell("swatches", "plan", count as f64, "ms", plan);
    tell_memory("swatches", "fit and plan", count as f64, memory);
    Ok(())
}

/// A case with so many small photos, each with a reading of all its regions: written, and opened again.
fn photos_of_a_case(count: usize, photos: &Path) -> Result<()> {
    let path = photo(photos, CASE_WIDTH_PX);
    let (bytes, scene) = (std::fs::read(&path)?, scene_of(&path)?);
    let mut engine = Engine::new()?;
    let id = engine.open(&bytes)?.id;
    let report = engine.read(id, &scene, &ReadOptions::default())?;
    drop(engine);
    let report = serde_json::to_value(report)?;
    // No two files are the same: each ends in a number of its own.
    let files: Vec<(String, Vec<u8>)> = (1..=count)
        .map(|i| {
            (
                i.to_string(),
                [bytes.as_slice(), i.to_string().as_bytes()].concat(),
            )
        })
        .collect();
    let case = Case {
        version: case::VERSION,
        created: "2026-05-17T10:32:05Z".to_owned(),
        changed: "2026-05-17T10:32:05Z".to_owned(),
        photos: files
            .iter()
            .map(|(id, _)| KeptPhoto {
                id: id.clone(),
                name: format!("photo {id}.jpg"),
                scene: scene.clone(),
                reading: Some(KeptReading {
                    report: report.clone(),
                }),
                ..KeptPhoto::default()
            })
            .collect(),
        ..Case::default()
    };
    let given: Vec<PhotoBytes<'_>> = files
        .iter()
        .map(|(id, bytes)| PhotoBytes { id, bytes })
        .collect();
    let ([pack, unpack], memory) = rounds(5, || {
        let (pack, written) = timed(|| Ok(case::write(&case, &given)?))?;
        let (unpack, opened) = timed(|| Ok(case::read(&written.bytes)?))?;
        if opened.photos.len() != count {
            return Err("a photo is missing in the case".into());
        }
        Ok([pack, unpack])
    })?;
    tell("photos", "pack", count as f64, "ms", pack);
    tell("photos", "unpack", count as f64, "ms", unpack);
    tell_memory("photos", "pack and unpack", count as f64, memory);
    Ok(())
}

/// Card and regions as the photo was rendered: the same at every size, whatever a search finds.
fn scene_of(photo: &Path) -> Result<Scene> {
    let text = std::fs::read_to_string(photo.with_extension("truth.json"))?;
    let truth: serde_json::Value = serde_json::from_str(&text)?;
    let mut scene: Scene = serde_json::from_value(truth["scene"].clone())?;
    // One tooth is judged against the others.
    let tooth = |r: &&mut Region| r.kind == RegionKind::Tooth;
    if let Some(first) = scene.regions.iter_mut().find(tooth) {
        first.kind = RegionKind::Restoration;
    }
    Ok(scene)
}

fn photo(photos: &Path, width_px: usize) -> PathBuf {
    photos.join(width_px.to_string()).join("random-1002.jpg")
}

/// Large photos take seconds.
fn rounds_for(width_px: usize) -> usize {
    if width_px > 6000 { 3 } else { 7 }
}

/// So many rounds after a first one, which tells how the memory rose; medians of the times.
fn rounds<const N: usize>(
    count: usize,
    mut work: impl FnMut() -> Result<[f64; N]>,
) -> Result<([f64; N], Option<f64>)> {
    let base = Base::now();
    work()?;
    let memory = base.risen();
    let mut times: [Vec<f64>; N] = std::array::from_fn(|_| Vec::new());
    for _ in 0..count {
        for (times, time) in times.iter_mut().zip(work()?) {
            times.push(time);
        }
    }
    Ok((times.map(median), memory))
}

fn timed<T>(work: impl FnOnce() -> Result<T>) -> Result<(f64, T)> {
    let (from, cpu) = (Instant::now(), on_processor_ns());
    let value = work()?;
    let wall_ms = from.elapsed().as_secs_f64() * 1e3;
    let ms = match (cpu, on_processor_ns()) {
        (Some(before), Some(after)) if wall_ms > SLICE_MS => (after - before) / 1e6,
        _ => wall_ms,
    };
    Ok((ms, value))
}

/// Nanoseconds that this thread was on a processor (Linux): a busy machine does not make them more.
fn on_processor_ns() -> Option<f64> {
    let text = std::fs::read_to_string("/proc/thread-self/schedstat").ok()?;
    text.split_whitespace().next()?.parse().ok()
}

fn median(mut times: Vec<f64>) -> f64 {
    times.sort_by(f64::total_cmp);
    times.get(times.len() / 2).copied().unwrap_or(f64::NAN)
}

fn tell(question: &str, series: &str, size: f64, unit: &str, value: f64) {
    println!("point\t{question}\t{series}\t{size}\t{unit}\t{value}");
}

fn tell_memory(question: &str, series: &str, size: f64, bytes: Option<f64>) {
    if let Some(bytes) = bytes {
        tell(question, series, size, "bytes", bytes);
    }
}

/// Resident memory at one moment; from then on its highest is kept anew.
struct Base(Option<f64>);

impl Base {
    fn now() -> Self {
        // As proc(5) says: 5 sets the highest resident size back to what it is now.
        let reset = std::fs::write("/proc/self/clear_refs", "5");
        Self(reset.ok().and_then(|()| resident_bytes("VmRSS:")))
    }

    fn risen(&self) -> Option<f64> {
        let highest = resident_bytes("VmHWM:")?;
        Some((highest - self.0?).max(0.0))
    }
}

fn resident_bytes(field: &str) -> Option<f64> {
    let status = std::fs::read_to_string("/proc/self/status").ok()?;
    let line = status.lines().find_map(|l| l.strip_prefix(field))?;
    let kib: f64 = line.trim().strip_suffix("kB")?.trim().parse().ok()?;
    Some(kib * 1024.0)
}
