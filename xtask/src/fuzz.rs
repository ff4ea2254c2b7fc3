//! `cargo xtask fuzz`: libFuzzer at every door of `tests/doors`, one after another, with a limit of
//! time, executions, memory and time per input; and the table of what came of it.
//!
//! Without a sanitizer it builds with any Rust: the project's own code has no `unsafe`, and sums
//! that overflow end the run. `--address` adds the address sanitizer for doors where decoders of
//! others work (a nightly Rust).

use crate::fail::{AUTHOR, Failure, Result, YOU};
use crate::process::{cargo, run as run_command, shown};
use crate::{repo, setup};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// What is asked for.
#[derive(Debug, Clone)]
pub struct Asked {
    /// The doors; all when empty.
    pub doors: Vec<String>,
    /// Seconds for each.
    pub seconds: u32,
    /// Executions for each, whichever comes first.
    pub executions: u64,
    /// With the address sanitizer.
    pub address: bool,
}

impl Default for Asked {
    fn default() -> Self {
        Self {
            doors: Vec::new(),
            seconds: 20 * 60,
            executions: 10_000_000,
            address: false,
        }
    }
}

/// No input may take longer, in seconds.
const TIMEOUT_S: u32 = 2;
/// No run may take more memory, in MiB.
const MEMORY_MIB: u32 = 512;

/// What came of one door.
struct Came {
    door: String,
    executions: u64,
    per_second: u64,
    peak_mib: u64,
    found: bool,
    log: PathBuf,
}

/// Builds, searches, prints.
pub fn run(asked: &Asked) -> Result<()> {
    let cargo_fuzz = setup::cargo_fuzz()?;
    let place = repo::root().join("target").join("fuzz");
    write_seeds(&place)?;
    let build = fuzz_command(&cargo_fuzz, asked, "build");
    run_in_root(build, "Mend the error above, or install a C++ compiler.")?;
    let mut all = Vec::new();
    for door in doors()? {
        if !asked.doors.is_empty() && !asked.doors.contains(&door) {
            continue;
        }
        println!("── {door} ──");
        let came = search(&cargo_fuzz, asked, &place, &door)?;
        println!("{}", line(&came));
        all.push(came);
    }
    println!(
        "\n| door | executions | a second | peak memory, MiB | found |\n|---|---|---|---|---|"
    );
    for came in &all {
        println!("{}", line(came));
    }
    let found: Vec<&Came> = all.iter().filter(|c| c.found).collect();
    let Some(first) = found.first() else {
        return Ok(());
    };
    Err(Failure::new(
        format!(
            "{} of {} doors did not come back from something; the first is {}, in {}.",
            found.len(),
            all.len(),
            first.door,
            first.log.display()
        ),
        AUTHOR,
        "Copy the input that the log names to tests/doors/regressions, see the test of doors fail, and \
         mend what it shows.",
    ))
}

fn line(came: &Came) -> String {
    format!(
        "| {} | {} | {} | {} | {} |",
        came.door,
        came.executions,
        came.per_second,
        came.peak_mib,
        if came.found { "SOMETHING" } else { "nothing" }
    )
}

/// The names that the manifest gives its programs.
fn doors() -> Result<Vec<String>> {
    let path = repo::root().join("tests/fuzz/Cargo.toml");
    let text = std::fs::read_to_string(&path).map_err(|e| Failure::file("read", &path, &e))?;
    let (_, bins) = text.split_once("[[bin]]").unwrap_or_default();
    let names = bins.lines().filter_map(|l| l.strip_prefix("name = "));
    Ok(names.map(|n| n.trim_matches('"').to_owned()).collect())
}

fn write_seeds(place: &Path) -> Result<()> {
    let mut command = cargo();
    command
        .args(["test", "--quiet", "-p", "doors", "--test", "run", "--"])
        .arg("seeds_are_written_where_they_are_asked_for")
        .env("TABSIDE_SEEDS", place.join("seeds"));
    run_in_root(command, "Mend the error above.")
}

fn run_in_root(mut command: Command, remedy: &str) -> Result<()> {
    run_command(command.current_dir(repo::root()), AUTHOR, remedy)
}

/// `cargo fuzz WORD` for this project.
fn fuzz_command(cargo_fuzz: &Path, asked: &Asked, word: &str) -> Command {
    let mut command = Command::new(cargo_fuzz);
    command
        .current_dir(repo::root())
        .arg(word)
        .args(["--fuzz-dir", "tests/fuzz", "--target-dir"])
        .arg(repo::root().join("target").join("fuzz").join("build"));
    if asked.address {
        // The one place that needs more than the stable Rust.
        command.env("RUSTUP_TOOLCHAIN", "nightly");
    } else {
        command.args(["--sanitizer", "none"]);
    }
    command
}

fn search(cargo_fuzz: &Path, asked: &Asked, place: &Path, door: &str) -> Result<Came> {
    let corpus = place.join("corpus").join(door);
    let artifacts = place.join("found");
    for dir in [&corpus, &artifacts] {
        std::fs::create_dir_all(dir).map_err(|e| Failure::file("make", dir, &e))?;
    }
    let log = place.join(format!("{door}.log"));
    let file = std::fs::File::create(&log).map_err(|e| Failure::file("write", &log, &e))?;
    let mut command = fuzz_command(cargo_fuzz, asked, "run");
    command
        .arg(door)
        .arg(&corpus)
        .arg(place.join("seeds").join(door));
    let regressions = repo::root().join("tests/doors/regressions").join(door);
    if regressions.is_dir() {
        command.arg(regressions);
    }
    command
        .args(["--", "-print_final_stats=1", "-max_len=16384"])
        .arg(format!("-max_total_time={}", asked.seconds))
        .arg(format!("-runs={}", asked.executions))
        .arg(format!("-timeout={TIMEOUT_S}"))
        .arg(format!("-rss_limit_mb={MEMORY_MIB}"))
        .arg(format!("-artifact_prefix={}/{door}-", artifacts.display()))
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(file);
    let status = command.status().map_err(|e| {
        Failure::new(
            format!("`{}` could not be started: {e}.", shown(&command)),
            YOU,
            "Run `cargo xtask setup`, then the same command again.",
        )
    })?;
    let bytes = std::fs::read(&log).map_err(|e| Failure::file("read", &log, &e))?;
    let text = String::from_utf8_lossy(&bytes);
    Ok(Came {
        door: door.to_owned(),
        executions: stat(&text, "number_of_executed_units"),
        per_second: stat(&text, "average_exec_per_sec"),
        peak_mib: stat(&text, "peak_rss_mb"),
        found: !status.success(),
        log,
    })
}

/// One of libFuzzer's closing figures, `stat::NAME: N`; 0 where it is not there.
fn stat(log: &str, name: &str) -> u64 {
    let head = format!("stat::{name}:");
    let found = log.lines().find_map(|l| l.strip_prefix(head.as_str()));
    found.and_then(|n| n.trim().parse().ok()).unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn closing_figures_are_read() {
        let log =
            "Done 12\nstat::number_of_executed_units: 345\nstat::peak_rss_mb:              67\n";
        assert_eq!(stat(log, "number_of_executed_units"), 345);
        assert_eq!(stat(log, "peak_rss_mb"), 67);
        assert_eq!(stat(log, "average_exec_per_sec"), 0);
    }

    /// A door that has no program of its own would never be searched.
    #[test]
    fn every_door_has_a_program() {
        let path = repo::root().join("tests/doors/src/lib.rs");
        let text = std::fs::read_to_string(path).unwrap();
        let named: Vec<String> = text
            .lines()
            .filter_map(|l| {
                l.trim()
                    .strip_prefix("door(\"")?
                    .split('"')
                    .next()
                    .map(str::to_owned)
            })
            .collect();
        assert!(named.len() > 8, "{named:?}");
        assert_eq!(doors().unwrap(), named);
    }
}
