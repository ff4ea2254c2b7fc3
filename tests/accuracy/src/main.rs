//! Prints how far readings are from the truth of rendered scenes, and how the light checks do.
//!
//! `accuracy [SCENES] [--finding | --stains] [--checks | --readings] [--worst] [--write FILE]`: without a word
//! everything but finding and stains is measured; with `--stains`, SCENES is the number of stain
//! sets. `--write` puts the tables into a Markdown file; with `--finding` the contact sheet of the
//! worst photos goes to `target/accuracy/finding-worst.png`.

use accuracy::level::Level;
use accuracy::reading::{Score, Scores, score, score_random};
use accuracy::table::{Table, median, percent, percentile};
use accuracy::{faults, finding_table, stains_plans, stains_table};
use scene_render::spec::{Variety, demo, other};
use std::collections::BTreeMap;
use std::fmt::Write as _;

/// The first seed that is used here; tests use others.
const FIRST_SEED: u64 = 1000;
/// Seeds per fault.
const FAULT_SEEDS: u64 = 6;

fn main() -> Result<(), String> {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let has = |flag: &str| words.iter().any(|w| w == flag);
    let scenes: u64 = words.iter().find_map(|w| w.parse().ok()).unwrap_or(40);
    if has("--finding") {
        return finding(scenes, &words);
    }
    if has("--stains") {
        return stains(scenes, &words);
    }
    let mut text = String::new();
    if !has("--checks") {
        readings(scenes, has("--worst"), &mut text)?;
    }
    if !has("--readings") {
        checks(scenes, &mut text)?;
    }
    println!("{text}");
    if let Some(file) = words.iter().skip_while(|w| *w != "--write").nth(1) {
        let head = "# How far the readings are from the truth\n\nWritten by `cargo xtask accuracy --write tests/accuracy/RESULTS.md`; \
                    do not edit by hand. All photos are rendered (tests/render); the truth is each zone's diffuse \
                    colour under D65, face-on, without glare and shading. Own tabs are taken as measured without error.\n\n";
        std::fs::write(file, format!("{head}{text}")).map_err(|e| format!("{file}: {e}"))?;
    }
    Ok(())
}

fn finding(scenes: u64, words: &[String]) -> Result<(), String> {
    let file = words.iter().skip_while(|w| *w != "--write").nth(1);
    // Beside what is built: a picture is to be looked at, not kept.
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../target/accuracy");
    std::fs::create_dir_all(&folder).map_err(|e| format!("{}: {e}", folder.display()))?;
    let sheet = folder.join("finding-worst.png");
    let worst = words.iter().any(|w| w == "--worst");
    let text = finding_table::finding(scenes, worst, &sheet)?;
    println!("{text}\nContact sheet: target/accuracy/finding-worst.png");
    if let Some(file) = file {
        let head = "# What is found in a photo by itself\n\nWritten by `cargo xtask accuracy --finding --write tests/accuracy/FINDING.md`; \
                    do not edit by hand. All photos are rendered (tests/render), by seeds that nothing was tuned on. Overlap is \
                    intersection over union; a thing counts as found from 0.7. Crowns are asked for when they cover 0.2 % of the \
                    photo and 45 % of them is seen.\n\n";
        std::fs::write(file, format!("{head}{text}")).map_err(|e| format!("{file}: {e}"))?;
    }
    Ok(())
}

fn stains(sets: u64, words: &[String]) -> Result<(), String> {
    let mut text = stains_table::stains(sets, words.iter().any(|w| w == "--worst"))?;
    text.push_str(&stains_plans::plans(sets.min(20))?);
    println!("{text}");
    if let Some(file) = words.iter().skip_while(|w| *w != "--write").nth(1) {
        let head = "# How well stained colours are predicted\n\nWritten by `cargo xtask accuracy --stains --write tests/accuracy/STAINS.md`; \
                    do not edit by hand. Stains, bases and layers are simulated (tests/render, `src/stains/`) by seeds that nothing was \
                    tuned on: what is measured is how a model fares against another, finer one on the same two-flux theory, not against fired ceramic. Every stain \
                    was fired alone, one and two coats, on one light base; asked for are half to three coats, alone or mixed, on other \
                    bases. Figures are ΔE00, median / 95th percentile; a base is light when it reads L* 76 or more.\n\n";
        std::fs::write(file, format!("{head}{text}")).map_err(|e| format!("{file}: {e}"))?;
    }
    Ok(())
}

fn readings(scenes: u64, worst: bool, text: &mut String) -> Result<(), String> {
    let mut named = Table::new(&["Named scene", "card only", "card + tabs", "own tabs"]);
    for (name, spec) in [("demo", demo()), ("other camera, wrong balance", other())] {
        let scores = score(name, &spec)?;
        let mut row = vec![name.to_owned()];
        for level in [Level::Card, Level::Tabs, Level::OwnTabs] {
            row.push(scores.get(&level).map_or(String::new(), |s| {
                let d = s.delta_e_00();
                format!("{:.2} (largest {:.2})", median(&d), percentile(&d, 1.0))
            }));
        }
        named.row(row);
    }
    let _ = write!(
        text,
        "## Zone ΔE00 of the two kept scenes\n\nMedian over the zones of teeth and restorations.\n\n{named}\n"
    );
    for (title, variety) in [
        (
            "Random scenes, plain tone",
            Variety {
                pair: true,
                ..Variety::trust()
            },
        ),
        ("Random scenes with a camera's tone curve", Variety::toned()),
    ] {
        let count = if variety.pair { scenes } else { scenes / 2 };
        let mut all: BTreeMap<Level, Score> = BTreeMap::new();
        let mut transforms = Vec::new();
        for seed in FIRST_SEED..FIRST_SEED + count {
            let scores = score_random(seed, &variety)?;
            progress(&scene_line(seed, &scores));
            transforms.extend(scores.values().find_map(|s| s.pair_error_px));
            for (level, one) in scores {
                all.entry(level).or_default().add(one);
            }
        }
        let _ = write!(
            text,
            "## {title}\n\n{count} scenes. Errors are median / 95th percentile over the zones of teeth and restorations.\n\n{}\n",
            level_table(&all)
        );
        let _ = write!(
            text,
            "The same third of two regions in one photo against each other: is the true difference in L*, in C*ab and in colour within the doubts of both, added as squares?\n\n{}\n",
            within_table(&all)
        );
        if !transforms.is_empty() {
            let _ = writeln!(
                text,
                "Pairs: {} of {count} laid over each other; largest error at a corner of 1500 px: median {:.1} px, worst {:.1} px.\n",
                transforms.len(),
                median(&transforms),
                percentile(&transforms, 1.0)
            );
        }
        if worst {
            print_worst(&mut all);
        }
    }
    Ok(())
}

fn progress(line: &str) {
    eprintln!("  {line}");
}

fn scene_line(seed: u64, scores: &Scores) -> String {
    let mut out = format!("seed {seed}");
    for (level, one) in scores {
        let d = one.delta_e_00();
        let _ = write!(
            out,
            "  {level:?} {:.2}/{:.2}",
            median(&d),
            percentile(&d, 1.0)
        );
    }
    let checks = scores
        .get(&Level::OwnTabs)
        .or_else(|| scores.get(&Level::Card));
    out + "  " + &checks.map_or(String::new(), |s| s.checks.join(" "))
}

fn level_table(all: &BTreeMap<Level, Score>) -> Table {
    let mut table = Table::new(&[
        "Standing on",
        "zones",
        "ΔE00",
        "ΔE00 if L* were right",
        "abs. ΔL*",
        "ΔL* bias",
        "abs. ΔL*, cross-polarised",
        "truth within the doubt",
        "median doubt",
        "nearest tab right (true gap ≥ 1)",
        "rank correlation",
    ]);
    for (level, s) in all {
        let d = s.delta_e_00();
        let l: Vec<f64> = s.zones.iter().map(|z| z.off[0].abs()).collect();
        let colour: Vec<f64> = s.zones.iter().map(|z| z.colour_delta_e_00).collect();
        let bias = s.zones.iter().map(|z| z.off[0]).sum::<f64>() / s.zones.len() as f64;
        let both = |v: &[f64]| format!("{:.2} / {:.2}", median(v), percentile(v, 0.95));
        let polarised: Vec<f64> = s
            .zones
            .iter()
            .filter_map(|z| Some(z.polarised_delta_l?.abs()))
            .collect();
        let engine = !matches!(level, Level::VonKries | Level::TabGains);
        let only = |text: String| if engine { text } else { "–".to_owned() };
        let covered: Vec<bool> = s.zones.iter().map(|z| z.delta_e_00 <= z.doubt).collect();
        let doubts: Vec<f64> = s.zones.iter().map(|z| z.doubt).collect();
        let clear: Vec<bool> = s
            .ladders
            .iter()
            .filter(|l| l.true_gap >= 1.0)
            .map(|l| l.top_right || l.said_alike)
            .collect();
        let strict: Vec<bool> = s
            .ladders
            .iter()
            .filter(|l| l.true_gap >= 1.0)
            .map(|l| l.top_right)
            .collect();
        let rank: Vec<f64> = s.ladders.iter().map(|l| l.rank).collect();
        table.row(vec![
            level.words().to_owned(),
            s.zones.len().to_string(),
            both(&d),
            both(&colour),
            both(&l),
            format!("{bias:+.2}"),
            if polarised.is_empty() {
                "–".to_owned()
            } else {
                both(&polarised)
            },
            only(format!("{:.1} %", percent(&covered))),
            only(format!("{:.2}", median(&doubts))),
            only(format!(
                "{:.1} % of {} ({:.1} % right or said to be alike)",
                percent(&strict),
                strict.len(),
                percent(&clear)
            )),
            only(format!("{:.2}", median(&rank))),
        ]);
    }
    table
}

fn within_table(all: &BTreeMap<Level, Score>) -> Table {
    let mut table = Table::new(&[
        "Standing on",
        "between",
        "pairs",
        "L* within",
        "median ± L*",
        "C*ab within",
        "median ± C*ab",
        "colour within",
        "median ± ΔE00",
    ]);
    for (level, s) in all {
        for (with_tab, words) in [(false, "teeth and restorations"), (true, "these and tabs")] {
            let some: Vec<_> = s.within.iter().filter(|w| w.with_tab == with_tab).collect();
            if some.is_empty() {
                continue;
            }
            let mut row = vec![
                level.words().to_owned(),
                words.to_owned(),
                some.len().to_string(),
            ];
            for part in [0, 1, 2] {
                let inside: Vec<bool> = some
                    .iter()
                    .map(|w| w.off[part].abs() <= w.doubt[part])
                    .collect();
                let doubts: Vec<f64> = some.iter().map(|w| w.doubt[part]).collect();
                row.push(format!("{:.1} %", percent(&inside)));
                row.push(format!("{:.2}", median(&doubts)));
            }
            table.row(row);
        }
    }
    table
}

fn print_worst(all: &mut BTreeMap<Level, Score>) {
    for (level, score) in all {
        println!("{}", level.words());
        score
            .zones
            .sort_by(|a, b| b.delta_e_00.total_cmp(&a.delta_e_00));
        for z in score.zones.iter().take(12) {
            println!(
                "  {} {} {:?}: ΔE00 {:.2} ± {:.1}, off {:.2?}",
                z.scene, z.region, z.zone, z.delta_e_00, z.doubt, z.off
            );
        }
    }
}

fn checks(scenes: u64, text: &mut String) -> Result<(), String> {
    let mut say = |line: &str| progress(line);
    let (false_alarms, sound) = faults::sound(FIRST_SEED..FIRST_SEED + scenes, &mut say)?;
    let faulty = faults::faulty(FIRST_SEED..FIRST_SEED + FAULT_SEEDS, &mut say)?;
    let mut table = Table::new(&[
        "Fault in the photo",
        "light check",
        "told",
        "missed",
        "on sound photos",
    ]);
    let (mut told, mut all) = (0, 0);
    for (fault, score) in &faulty {
        let n = score.told.len() + score.missed.len();
        told += score.told.len();
        all += n;
        let alarms = false_alarms.get(fault.code()).copied().unwrap_or(0);
        table.row(vec![
            fault.word().to_owned(),
            fault.code().to_owned(),
            format!("{} of {n}", score.told.len()),
            if score.missed.is_empty() {
                "–".to_owned()
            } else {
                format!("{:?}", score.missed)
            },
            format!("{alarms} of {sound}"),
        ]);
    }
    let _ = write!(
        text,
        "## Light checks\n\nEach fault on {FAULT_SEEDS} photos; every check on {sound} sound photos, half of them pairs. {told} of {all} faults told ({:.1} % missed).\n\n{table}\n",
        100.0 * (all - told) as f64 / all as f64
    );
    let listed: Vec<&str> = faulty.keys().map(|f| f.code()).collect();
    let others: Vec<String> = false_alarms
        .iter()
        .filter(|(code, _)| !listed.contains(&code.as_str()))
        .map(|(code, n)| format!("{code} {n}"))
        .collect();
    if !others.is_empty() {
        let _ = writeln!(
            text,
            "Other checks on sound photos: {}.\n",
            others.join(", ")
        );
    }
    Ok(())
}
