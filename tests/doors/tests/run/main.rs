//! A short run through every door: its seeds, each case that a search found once, and changes of
//! both from a fixed beginning, so that a failure comes again. The long search is
//! `cargo xtask fuzz`, which asks this file for the seeds (`TABSIDE_SEEDS`).

mod change;
mod seeds;

use change::Change;
use doors::{DOORS, Door};
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

/// No door takes longer with a few kilobytes.
const MOST: Duration = Duration::from_secs(2);

/// How many changed inputs each door gets, at most; slow doors get as many as fit their time.
const CHANGED: usize = 10_000;
const TIME_FOR_CHANGED: Duration = Duration::from_millis(1_500);

fn regressions(door: &Door) -> Vec<PathBuf> {
    let dir = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("regressions")
        .join(door.name);
    let Ok(entries) = std::fs::read_dir(dir) else {
        return Vec::new();
    };
    let mut paths: Vec<_> = entries.filter_map(|e| Some(e.ok()?.path())).collect();
    paths.sort();
    paths
}

/// Enters, and says with which bytes when that goes wrong.
fn enter(door: &Door, bytes: &[u8], what: &str) {
    let started = Instant::now();
    let outcome = std::panic::catch_unwind(|| (door.enter)(bytes));
    if outcome.is_err() {
        panic!(
            "{}: {what}, {} bytes: {}",
            door.name,
            bytes.len(),
            hex(bytes)
        );
    }
    let took = started.elapsed();
    assert!(
        took < MOST,
        "{}: {what} took {took:?}: {}",
        door.name,
        hex(bytes)
    );
}

fn hex(bytes: &[u8]) -> String {
    let shown = bytes.iter().take(2_000).map(|b| format!("{b:02x}"));
    shown.collect()
}

#[test]
fn every_door_has_seeds_that_enter() {
    for door in DOORS {
        let seeds = seeds::of(door.name);
        assert!(!seeds.is_empty(), "{} has no seed", door.name);
        for (i, seed) in seeds.iter().enumerate() {
            enter(door, seed, &format!("seed {i}"));
        }
    }
}

#[test]
fn what_was_found_once_enters() {
    for door in DOORS {
        for path in regressions(door) {
            let bytes = std::fs::read(&path).expect("a regression file");
            let name = path
                .file_name()
                .unwrap_or_default()
                .to_string_lossy()
                .into_owned();
            enter(door, &bytes, &name);
        }
    }
}

#[test]
fn changed_bytes_enter() {
    for door in DOORS {
        let mut from: Vec<Vec<u8>> = seeds::of(door.name);
        from.extend(
            regressions(door)
                .iter()
                .filter_map(|p| std::fs::read(p).ok()),
        );
        let mut change = Change::new(door.name);
        let started = Instant::now();
        let mut count = 0;
        while count < CHANGED && started.elapsed() < TIME_FOR_CHANGED {
            let bytes = change.one_of(&from);
            enter(door, &bytes, &format!("change {count}"));
            count += 1;
        }
        println!("{:10} {count} changed inputs", door.name);
        assert!(count >= 5, "{} is too slow to be tried", door.name);
    }
}

/// For the search by libFuzzer: a folder of seeds per door.
#[test]
fn seeds_are_written_where_they_are_asked_for() {
    let Some(dir) = std::env::var_os("TABSIDE_SEEDS").map(PathBuf::from) else {
        return;
    };
    for door in DOORS {
        let dir = dir.join(door.name);
        std::fs::create_dir_all(&dir).expect("a folder");
        for (i, seed) in seeds::of(door.name).iter().enumerate() {
            std::fs::write(dir.join(format!("seed-{i}")), seed).expect("a seed");
        }
    }
}
