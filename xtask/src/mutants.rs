//! `cargo xtask mutants`: changes the code in one place after another (cargo-mutants) and sees
//! whether a test fails; prints the score for each module.
//!
//! A change is tried against the quick tests of the library. What survives them is listed, with its
//! place; the score counts it as survived even where a slow test would notice.

use crate::fail::{AUTHOR, Failure, Result, YOU};
use crate::process::shown;
use crate::{repo, setup};
use std::path::Path;
use std::process::Command;

/// What is asked for.
#[derive(Debug, Clone)]
pub struct Asked {
    /// The modules; the four of the target when empty.
    pub modules: Vec<String>,
    /// Every Nth change.
    pub sample: u32,
}

impl Default for Asked {
    fn default() -> Self {
        Self {
            modules: Vec::new(),
            sample: 1,
        }
    }
}

/// Where a wrong sign is a wrong colour.
const MODULES: &[&str] = &["colour", "light", "reading", "stain"];

/// Test binaries that are quick and work on these modules, beside the unit tests.
const TESTS: &[&str] = &[
    "colour_published",
    "colour_rows",
    "main_job",
    "stain_book",
    "stain_plan",
    "stain_rules",
    "trust",
];

/// Score that a module has to reach, in per cent.
const TARGET: f64 = 85.0;

/// How many changes ended which way.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
struct Score {
    caught: usize,
    timed_out: usize,
    missed: usize,
    /// Changes that do not compile.
    unviable: usize,
}

impl Score {
    /// Noticed, of those that compile, in per cent.
    fn per_cent(self) -> f64 {
        let noticed = self.caught + self.timed_out;
        let all = noticed + self.missed;
        if all == 0 {
            return 0.0;
        }
        100.0 * noticed as f64 / all as f64
    }

    /// Half the width of the interval that holds the score of all changes in 95 of 100 samples
    /// (normal approximation), in per cent.
    fn doubt(self) -> f64 {
        let all = (self.caught + self.timed_out + self.missed).max(1) as f64;
        let p = self.per_cent() / 100.0;
        196.0 * (p * (1.0 - p) / all).sqrt()
    }
}

/// Tries the changes and prints.
pub fn run(asked: &Asked) -> Result<()> {
    let program = setup::cargo_mutants()?;
    let modules: Vec<&str> = if asked.modules.is_empty() {
        MODULES.to_vec()
    } else {
        asked.modules.iter().map(String::as_str).collect()
    };
    let out = repo::root().join("target").join("mutants");
    std::fs::create_dir_all(&out).map_err(|e| Failure::file("make", &out, &e))?;
    try_changes(&program, &modules, asked.sample, &out)?;
    let mut rows = Vec::new();
    for module in modules {
        rows.push((module.to_owned(), score(&out.join("mutants.out"), module)?));
    }
    println!(
        "\n| module | changes | noticed | by time | survived | do not compile | score, % |\n\
         |---|---|---|---|---|---|---|"
    );
    for (module, score) in &rows {
        println!("{}", row(module, *score, asked.sample));
    }
    println!("\nSurvivors: target/mutants/mutants.out/missed.txt");
    match rows.iter().find(|(_, score)| score.per_cent() < TARGET) {
        None => Ok(()),
        Some((module, score)) => Err(Failure::new(
            format!(
                "{module} reaches {:.1} %, less than {TARGET} %.",
                score.per_cent()
            ),
            AUTHOR,
            "Write tests that notice what survived.",
        )),
    }
}

fn row(module: &str, s: Score, sample: u32) -> String {
    let doubt = if sample > 1 {
        format!(" ± {:.1}", s.doubt())
    } else {
        String::new()
    };
    format!(
        "| {module} | {} | {} | {} | {} | {} | {:.1}{doubt} |",
        s.caught + s.timed_out + s.missed + s.unviable,
        s.caught,
        s.timed_out,
        s.missed,
        s.unviable,
        s.per_cent()
    )
}

fn try_changes(program: &Path, modules: &[&str], sample: u32, out: &Path) -> Result<()> {
    let mut command = Command::new(program);
    command
        .current_dir(repo::root())
        .args(["mutants", "--package", "tabside", "--profile", "mutants"])
        .args([
            "--no-shuffle",
            "--colors",
            "never",
            "--minimum-test-timeout",
            "60",
        ])
        .arg("--output")
        .arg(out);
    for module in modules {
        command.arg("--file").arg(format!("src/{module}/**"));
    }
    if sample > 1 {
        command.args(["--sharding", "round-robin"]);
        command.arg("--shard").arg(format!("0/{sample}"));
    }
    // For building too: linking every test there is would take most of the time.
    command.args(["--cargo-arg", "--lib"]);
    for test in TESTS {
        command.args(["--cargo-arg", "--test", "--cargo-arg", test]);
    }
    println!("$ {}", shown(&command));
    let status = command.status().map_err(|e| {
        Failure::new(
            format!("cargo-mutants could not be started: {e}."),
            YOU,
            "Run the same command again.",
        )
    })?;
    // 2: some survived; 3: some ran out of time. Both are results.
    match status.code() {
        Some(0 | 2 | 3) => Ok(()),
        _ => Err(Failure::new(
            format!("cargo-mutants ended with {status}."),
            AUTHOR,
            "The tests have to pass without a change first: cargo test --profile mutants.",
        )),
    }
}

/// cargo-mutants keeps a list per outcome, one line `src/MODULE/file.rs:LINE…` per change.
fn score(out: &Path, module: &str) -> Result<Score> {
    let count = |name: &str| {
        let path = out.join(name);
        let text = std::fs::read_to_string(&path).map_err(|e| Failure::file("read", &path, &e))?;
        Ok(of_module(&text, module))
    };
    Ok(Score {
        caught: count("caught.txt")?,
        timed_out: count("timeout.txt")?,
        missed: count("missed.txt")?,
        unviable: count("unviable.txt")?,
    })
}

fn of_module(list: &str, module: &str) -> usize {
    let head = format!("src/{module}/");
    list.lines().filter(|l| l.starts_with(&head)).count()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lists_are_counted_by_module_and_scored() {
        let list =
            "src/colour/lab.rs:3:1: replace f\nsrc/light/a.rs:1:1: x\nsrc/colour/b.rs:1:1: y\n";
        assert_eq!(of_module(list, "colour"), 2);
        assert_eq!(of_module(list, "stain"), 0);
        let score = Score {
            caught: 17,
            timed_out: 1,
            missed: 2,
            unviable: 5,
        };
        assert!((score.per_cent() - 90.0).abs() < 1e-9);
        // 1.96 · √(0.9 · 0.1 / 20)
        assert!((score.doubt() - 13.148).abs() < 1e-3);
        assert_eq!(Score::default().per_cent(), 0.0);
    }
}
