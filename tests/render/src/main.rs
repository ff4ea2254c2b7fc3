//! Command line of the scene renderer.

use scene_render::spec::fault::{Fault, render_faulty, render_sound};
use scene_render::spec::{self, SceneSpec, Variety};
use scene_render::stains::{self, Handling, Job, StainSet, Surface};
use scene_render::{Rendered, check, render, truth};
use std::path::Path;
use std::time::Instant;

const USAGE: &str = "usage:
  scene-render demo DIR          the photo that a new user meets, with its truth
  scene-render other DIR         another camera, a wrong balance, other tabs
  scene-render random SEED DIR [wild] [pair] [files] [WIDTH]
  scene-render trust SEED DIR [toned] [pair] [WIDTH]
  scene-render finding SEED DIR [WIDTH]    every kind of mouth, framing, card, tab and surroundings
  scene-render fault NAME SEED DIR [WIDTH]    NAME: a light check's code, shake, digital-zoom, sound
  scene-render stains SEED|demo DIR [--noise X] [--uneven X] [--included]    swatches, requests, answers
  scene-render swatch-book DIR   the demonstration's invented stains with their swatches
  scene-render check [COUNT]     how well the card alone explains random scenes";

fn main() -> Result<(), String> {
    let args: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = args.iter().map(String::as_str).collect();
    match words.as_slice() {
        ["demo", dir] => write("demo", &spec::demo(), dir),
        ["other", dir] => write("other", &spec::other(), dir),
        ["random", seed, dir, rest @ ..] => {
            let seed: u64 = seed.parse().map_err(|e| format!("seed: {e}"))?;
            write(
                &format!("random-{seed}"),
                &SceneSpec::random(seed, &variety(rest)?),
                dir,
            )
        }
        ["trust", seed, dir, rest @ ..] => {
            let seed: u64 = seed.parse().map_err(|e| format!("seed: {e}"))?;
            let name = format!("trust-{seed}");
            write(&name, &SceneSpec::random(seed, &trust(rest)?), dir)
        }
        ["finding", seed, dir, rest @ ..] => {
            let seed: u64 = seed.parse().map_err(|e| format!("seed: {e}"))?;
            let size_px = variety(rest)?.size_px;
            let v = Variety {
                size_px,
                ..Variety::finding()
            };
            write(
                &format!("finding-{seed}"),
                &SceneSpec::random(seed, &v),
                dir,
            )
        }
        ["fault", name, seed, dir, rest @ ..] => {
            let seed: u64 = seed.parse().map_err(|e| format!("seed: {e}"))?;
            fault(name, seed, dir, rest)
        }
        ["swatch-book", dir] => {
            let path = Path::new(dir).join("demo.swatches.json");
            std::fs::create_dir_all(dir).map_err(|e| e.to_string())?;
            std::fs::write(&path, stains::book::demo_book()?)
                .map_err(|e| format!("{}: {e}", path.display()))
        }
        ["stains", which, dir, rest @ ..] => stains(which, dir, rest),
        ["check"] => check_many(20),
        ["check", count] => check_many(count.parse().map_err(|e| format!("count: {e}"))?),
        _ => Err(USAGE.into()),
    }
}

fn variety(words: &[&str]) -> Result<Variety, String> {
    let mut v = if words.contains(&"wild") {
        Variety::wild()
    } else {
        Variety::accuracy()
    };
    for w in words {
        match *w {
            "wild" => {}
            "pair" => v.pair = true,
            "files" => v.files = true,
            other => {
                let width: u32 = other.parse().map_err(|_| USAGE.to_owned())?;
                v.size_px = [width, width * 2 / 3];
            }
        }
    }
    Ok(v)
}

fn trust(words: &[&str]) -> Result<Variety, String> {
    let own = ["toned"];
    let rest: Vec<&str> = words.iter().filter(|w| !own.contains(w)).copied().collect();
    let Variety { size_px, pair, .. } = variety(&rest)?;
    let base = if words.contains(&"toned") {
        Variety::toned()
    } else {
        Variety::trust()
    };
    Ok(Variety {
        size_px,
        pair,
        ..base
    })
}

fn fault(name: &str, seed: u64, dir: &str, rest: &[&str]) -> Result<(), String> {
    let size = variety(rest)?.size_px;
    let r = if name == "sound" {
        render_sound(seed, size, false)?
    } else {
        let fault = Fault::ALL
            .iter()
            .find(|f| f.word() == name)
            .ok_or_else(|| USAGE.to_owned())?;
        render_faulty(*fault, seed, size)?
    };
    save(&format!("{name}-{seed}"), &r, dir)
}

fn stains(which: &str, dir: &str, rest: &[&str]) -> Result<(), String> {
    let (mut handling, mut surface) = (Handling::default(), Surface::Excluded);
    let mut words = rest.iter();
    while let Some(word) = words.next() {
        match *word {
            "--noise" | "--uneven" => {
                let given = words.next().ok_or_else(|| USAGE.to_owned())?;
                let given = given.parse().map_err(|e| format!("{word}: {e}"))?;
                if *word == "--noise" {
                    handling.noise_delta_e_00 = given;
                } else {
                    handling.uneven = given;
                }
            }
            "--included" => surface = Surface::Included,
            _ => return Err(USAGE.into()),
        }
    }
    let job = if which == "demo" {
        stains::job(&StainSet::demo().with_surface(surface), 0, handling)?
    } else {
        let seed = which.parse().map_err(|e| format!("seed: {e}"))?;
        Job::random(seed, handling, surface)?
    };
    let dir = Path::new(dir);
    std::fs::create_dir_all(dir).map_err(|e| e.to_string())?;
    for (file, text) in job.files()? {
        std::fs::write(dir.join(file), text).map_err(|e| format!("{file}: {e}"))?;
    }
    println!(
        "{} swatches, {} requests",
        job.swatches.len(),
        job.requests.len()
    );
    Ok(())
}

fn write(name: &str, spec: &SceneSpec, dir: &str) -> Result<(), String> {
    let start = Instant::now();
    let r = render(spec)?;
    let seconds = start.elapsed().as_secs_f64();
    save(name, &r, dir)?;
    println!(
        "{name}: {} × {} in {seconds:.2} s, {} bytes",
        spec.width_px,
        spec.height_px,
        r.plain.bytes.len()
    );
    for m in check::by_card(
        spec,
        &r.truth.scene,
        &r.truth.zones,
        &r.plain.picture,
        check::GLARE,
    ) {
        println!(
            "{:10} {:9} ΔE00 {:.2} (from shaded {:.2})  read {:.1?}  true {:.1?}",
            m.region, m.zone, m.from_lab, m.from_shaded, m.read, m.lab
        );
    }
    Ok(())
}

fn save(name: &str, r: &Rendered, dir: &str) -> Result<(), String> {
    let dir = Path::new(dir);
    std::fs::create_dir_all(dir).map_err(|e| e.to_string())?;
    let ending = r.truth.spec.output.format.ending();
    let put = |file: String, bytes: &[u8]| {
        std::fs::write(dir.join(&file), bytes).map_err(|e| format!("{file}: {e}"))
    };
    put(format!("{name}.{ending}"), &r.plain.bytes)?;
    if let Some(p) = &r.polarised {
        put(format!("{name}.polarised.{ending}"), &p.bytes)?;
    }
    put(
        format!("{name}.truth.json"),
        truth::to_json(&r.truth)?.as_bytes(),
    )
}

fn check_many(count: u64) -> Result<(), String> {
    let (mut all, mut shaded) = (Vec::new(), Vec::new());
    println!(
        "seed  zones  median  95 %   (ΔE00 of a von Kries balance on the card against the truth)"
    );
    for seed in 1..=count {
        let spec = SceneSpec::random(seed, &Variety::accuracy());
        let r = render(&spec)?;
        let misses = check::by_card(
            &spec,
            &r.truth.scene,
            &r.truth.zones,
            &r.plain.picture,
            check::GLARE,
        );
        let mut own: Vec<f64> = misses.iter().map(|m| m.from_lab).collect();
        let (median, high) = check::spread(&mut own);
        let light = spec.lights.first().map(|l| l.illuminant);
        println!(
            "{seed:4}  {:5}  {median:6.2}  {high:5.2}   {:?}, {light:?}, {:?}",
            misses.len(),
            spec.camera,
            spec.white_balance
        );
        all.extend(own);
        shaded.extend(misses.iter().map(|m| m.from_shaded));
    }
    let (n, (median, high), (s_median, s_high)) = (
        all.len(),
        check::spread(&mut all),
        check::spread(&mut shaded),
    );
    println!(
        "{count} scenes, {n} zones: median {median:.2}, 95th percentile {high:.2}; against the shaded truth {s_median:.2}, {s_high:.2}"
    );
    Ok(())
}
