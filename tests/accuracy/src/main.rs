//! Prints how far readings are from the truth of rendered scenes.
//!
//! `accuracy [SCENES] [--finding] [--pairs] [--worst]`

use accuracy::reading::{SceneScore, score, score_random};
use accuracy::table::{median, percent, percentile};
use accuracy::{finding, reading};
use scene_render::spec::{Variety, demo, other};
use tabside::scene::Zone;

/// The first seed that is used here; tests use others.
const FIRST_SEED: u64 = 1000;

fn main() -> Result<(), String> {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let has = |flag: &str| words.iter().any(|w| w == flag);
    let scenes: u64 = words.iter().find_map(|w| w.parse().ok()).unwrap_or(24);
    if has("--finding") {
        return print_finding(scenes, has("--worst"));
    }
    println!("Named scenes (card only):");
    for (name, spec) in [("demo", demo()), ("other", other())] {
        print_scene(name, &score(name, &spec)?);
    }
    let variety = Variety {
        pair: has("--pairs"),
        ..Variety::accuracy()
    };
    let mut all = SceneScore::default();
    let mut transforms = Vec::new();
    for seed in FIRST_SEED..FIRST_SEED + scenes {
        let mut one = score_random(seed, &variety)?;
        print_scene(&format!("seed {seed}"), &one);
        all.missing += one.missing;
        transforms.extend(one.pair_error_px);
        all.zones.append(&mut one.zones);
        all.ladders.append(&mut one.ladders);
    }
    println!(
        "\n{scenes} random scenes, card only, {} zone readings, {} without:",
        all.zones.len(),
        all.missing
    );
    print_summary(&all);
    if !transforms.is_empty() {
        println!(
            "pairs: {} aligned; largest error at a corner, px: median {:.2}, worst {:.2}",
            transforms.len(),
            median(&transforms),
            percentile(&transforms, 1.0)
        );
    }
    if has("--worst") {
        all.zones
            .sort_by(|a, b| b.delta_e_00.total_cmp(&a.delta_e_00));
        for z in all.zones.iter().take(20) {
            println!(
                "  {} {} {:?}: ΔE00 {:.2}, L* {:+.2}",
                z.scene, z.region, z.zone, z.delta_e_00, z.delta_l
            );
        }
    }
    Ok(())
}

fn print_scene(name: &str, one: &SceneScore) {
    let d: Vec<f64> = one.zones.iter().map(|z| z.delta_e_00).collect();
    let l: Vec<f64> = one.zones.iter().map(|z| z.delta_l).collect();
    println!(
        "  {name:10} {:3} zones  ΔE00 median {:.2}  largest {:.2}  L* {:+.2}  {}",
        d.len(),
        median(&d),
        percentile(&d, 1.0),
        median(&l),
        one.retakes.join(" ")
    );
}

fn print_summary(all: &SceneScore) {
    let of = |f: fn(&reading::ZoneError) -> f64| all.zones.iter().map(f).collect::<Vec<f64>>();
    let line = |what: &str, v: &[f64]| {
        println!(
            "{what:44} median {:.2}   95 % {:.2}",
            median(v),
            percentile(v, 0.95)
        );
    };
    line("zone ΔE00", &of(|z| z.delta_e_00));
    for zone in Zone::ALL {
        let v: Vec<f64> = all
            .zones
            .iter()
            .filter(|z| z.zone == zone)
            .map(|z| z.delta_e_00)
            .collect();
        line(&format!("  {zone:?}"), &v);
    }
    line(
        "zone ΔE00, shading by form counted as truth",
        &of(|z| z.against_shaded),
    );
    line("|ΔL*|", &of(|z| z.delta_l.abs()));
    let polarised: Vec<f64> = all
        .zones
        .iter()
        .filter_map(|z| z.polarised_delta_l)
        .collect();
    if !polarised.is_empty() {
        line("|ΔL*| from the cross-polarised photo", &polarised);
    }
    let covered: Vec<bool> = all.zones.iter().map(|z| z.delta_e_00 <= z.doubt).collect();
    println!(
        "truth within the doubt: {:.1} % (median doubt {:.2})",
        percent(&covered),
        median(&of(|z| z.doubt))
    );
    let clear: Vec<bool> = all
        .ladders
        .iter()
        .filter(|l| l.true_gap >= 1.0)
        .map(|l| l.top_right)
        .collect();
    let any: Vec<bool> = all.ladders.iter().map(|l| l.top_right).collect();
    let rank: Vec<f64> = all.ladders.iter().map(|l| l.rank).collect();
    println!(
        "nearest tab right: {:.1} % of {}; {:.1} % of the {} with a true gap of 1.0 or more; rank correlation, median {:.2}",
        percent(&any),
        any.len(),
        percent(&clear),
        clear.len(),
        median(&rank)
    );
}

fn print_finding(scenes: u64, worst: bool) -> Result<(), String> {
    for (name, variety) in [
        ("tidy scenes", Variety::accuracy()),
        ("wild scenes", Variety::wild()),
    ] {
        let mut all = Vec::new();
        for seed in FIRST_SEED..FIRST_SEED + scenes {
            all.extend(finding::score_random(seed, &variety)?);
        }
        println!(
            "{name}: one tap on each of {} things in {scenes} scenes",
            all.len()
        );
        for kind in ["tooth", "restoration", "tab", "card"] {
            let some: Vec<_> = all.iter().filter(|t| t.kind == kind).collect();
            let overlaps: Vec<f64> = some.iter().map(|t| t.overlap).collect();
            let good: Vec<bool> = overlaps.iter().map(|o| *o >= 0.85).collect();
            let axes: Vec<f64> = some.iter().filter_map(|t| t.axis_deg).collect();
            println!(
                "  {kind:12} {:4}  overlap median {:.3}  5 % below {:.3}  ≥ 0.85: {:.0} %  axis median {:.1}°, 90 % within {:.1}°",
                some.len(),
                median(&overlaps),
                percentile(&overlaps, 0.05),
                percent(&good),
                median(&axes),
                percentile(&axes, 0.9)
            );
        }
        if worst {
            all.sort_by(|a, b| a.overlap.total_cmp(&b.overlap));
            for t in all.iter().take(15) {
                println!(
                    "    {}: overlap {:.2}, axis {:.0?}°",
                    t.what, t.overlap, t.axis_deg
                );
            }
        }
    }
    Ok(())
}
