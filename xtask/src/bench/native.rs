//! The core without a browser: `benches/main_job.rs`, whose medians are read from what criterion keeps.

use super::figure::Figure;
use super::script::{Told, some_since};
use crate::fail::{Failure, Result};
use crate::process::{cargo, run};
use crate::{repo, size};
use std::fs;
use std::process::Command;

const GROUP: &str = "Natively, the demo's photo";

/// One of the programs in `benches/`. Cargo builds them so that they can unwind, and beside them the command
/// line, which may not: two libraries under one file name, the one being linked in place of the other as
/// chance has it. So that there is one, nothing is built to abort.
pub fn bench(name: &str) -> Command {
    let mut command = cargo();
    command
        .args(["bench", "--config", "profile.release.panic=\"unwind\""])
        .args(["-p", "tabside", "--bench", name])
        .current_dir(repo::root());
    command
}

/// Runs it and takes the medians in.
pub fn measure(told: &mut Told) -> Result<()> {
    // Of this run alone.
    let home = repo::scratch().join("criterion");
    if home.is_dir() {
        fs::remove_dir_all(&home).map_err(|e| Failure::file("remove", &home, &e))?;
    }
    run(
        bench("main_job").env("CRITERION_HOME", &home),
        crate::fail::AUTHOR,
        "Read the first error above; it concerns benches/main_job.rs.",
    )?;
    let before = told.figures.len();
    for path in size::paths(&home)? {
        let name = size::name_below(&home, &path);
        let Some(measure) = name.strip_suffix("/new/estimates.json") else {
            continue;
        };
        let text = fs::read_to_string(&path).map_err(|e| Failure::file("read", &path, &e))?;
        let ms = median_ns(&text).unwrap_or(f64::NAN) / 1e6;
        told.figure(Figure::new(GROUP, measure, "ms", ms));
    }
    some_since(told, before, "criterion")
}

/// The median among criterion's estimates, in nanoseconds.
fn median_ns(json: &str) -> Option<f64> {
    let median = json.split_once("\"median\":")?.1;
    let value = median.split_once("\"point_estimate\":")?.1;
    let end = value.find([',', '}'])?;
    value.get(..end)?.trim().parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_median_is_found_among_the_estimates() {
        let one = |name: &str, value: &str| {
            format!(
                "\"{name}\":{{\"confidence_interval\":{{\"lower_bound\":1.0}},\"point_estimate\":{value},\"standard_error\":2.0}}"
            )
        };
        let text = format!("{{{},{}}}", one("mean", "7.5"), one("median", "1234567.25"));
        assert_eq!(median_ns(&text), Some(1_234_567.25));
        assert_eq!(median_ns("{}"), None);
    }
}
