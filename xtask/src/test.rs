//! `cargo xtask test`: every check and test there is, one after the other, up to the first that
//! fails.

use crate::fail::{AUTHOR, Failure, Result};
use crate::process::{cargo, run as run_command};
use crate::server::Server;
use crate::setup::browser::VARIABLE;
use crate::setup::engines::{self, FIREFOX_VARIABLE};
use crate::setup::{self, Engines, Tools};
use crate::{machine, outside, page, process, repo, size, supply, tidy};
use std::fmt::Write as _;
use std::process::{Command, ExitCode};
use std::time::{Duration, Instant};

/// One step. It may give a line for the summary.
struct Step {
    name: &'static str,
    run: fn(&mut Ready) -> Result<Option<String>>,
    /// Needs a real browser: left out by `--fast`.
    browser: bool,
}

/// What the first step leaves for the others.
#[derive(Default)]
struct Ready {
    fast: bool,
    tools: Option<Tools>,
    engines: Option<Engines>,
}

const STEPS: &[Step] = &[
    step("set-up", set_up),
    step("format", format),
    step("tidy", |_| tidy::run().map(Some)),
    step("supply chain", |_| supply::run().map(Some)),
    step("lints, native", lints_native),
    step("lints, WebAssembly", lints_wasm),
    step("tests, native", tests_native),
    step("files read by others", |_| outside::run().map(Some)),
    step("core for the page", |ready| {
        page::build_core(ready.tools()?).map(|()| None)
    }),
    step("page types", |_| {
        script(
            "check",
            "Mend the types that the first error above names, in www/.",
        )
    }),
    step("page unit tests", |_| {
        script("test", "Read the first failing test above; it is in www/.")
    }),
    step("page build", |_| page::build_page().map(|()| None)),
    step("core size", |_| {
        let line = size::check_core(&repo::built_page())?;
        println!("{line}");
        Ok(Some(line))
    }),
    Step {
        name: "page in Chromium",
        run: |ready| {
            in_browsers(ready, "e2e").map(|engines| Some(engines.end_to_end().version.clone()))
        },
        browser: true,
    },
    Step {
        name: "page in three engines",
        run: |ready| in_browsers(ready, "engines").map(|engines| Some(engines.line())),
        browser: true,
    },
];

const fn step(name: &'static str, run: fn(&mut Ready) -> Result<Option<String>>) -> Step {
    Step {
        name,
        run,
        browser: false,
    }
}

/// How a step ended.
#[derive(Debug, Clone, PartialEq, Eq)]
enum Outcome {
    Passed(Option<String>),
    Failed,
    LeftOut,
    NotRun,
}

/// Runs the steps. The last line printed is the tally.
pub fn run(fast: bool) -> ExitCode {
    let mut ready = Ready {
        fast,
        ..Ready::default()
    };
    let results = run_steps(STEPS, &mut ready);
    print!("\n{}", summary(&results));
    if results.iter().any(|r| r.outcome == Outcome::Failed) {
        ExitCode::FAILURE
    } else {
        ExitCode::SUCCESS
    }
}

struct Finished {
    name: &'static str,
    took: Duration,
    outcome: Outcome,
}

fn run_steps(steps: &[Step], ready: &mut Ready) -> Vec<Finished> {
    let mut results: Vec<Finished> = Vec::new();
    for (i, step) in steps.iter().enumerate() {
        let failed = results.iter().any(|r| r.outcome == Outcome::Failed);
        let started = Instant::now();
        let outcome = if failed {
            Outcome::NotRun
        } else if step.browser && ready.fast {
            Outcome::LeftOut
        } else {
            println!("\n── {} of {}: {} ──", i + 1, steps.len(), step.name);
            let outcome = match (step.run)(ready) {
                Ok(note) => Outcome::Passed(note),
                Err(failure) => {
                    // On standard output, so that it stays before the tally.
                    println!("\nThe step \"{}\" failed.\n{failure}", step.name);
                    Outcome::Failed
                }
            };
            println!("── {}: {} ──", step.name, seconds(started.elapsed()));
            outcome
        };
        results.push(Finished {
            name: step.name,
            took: started.elapsed(),
            outcome,
        });
    }
    results
}

/// The table and, alone on the last line, `N passed, M failed`: the steps that really ran.
fn summary(results: &[Finished]) -> String {
    let width = results
        .iter()
        .map(|r| r.name.chars().count())
        .max()
        .unwrap_or(0);
    let mut text = String::new();
    for result in results {
        let (took, words) = match &result.outcome {
            Outcome::Passed(None) => (seconds(result.took), "passed".to_owned()),
            Outcome::Passed(Some(note)) => (seconds(result.took), format!("passed ({note})")),
            Outcome::Failed => (seconds(result.took), "FAILED".to_owned()),
            Outcome::LeftOut => ("–".to_owned(), "left out (--fast)".to_owned()),
            Outcome::NotRun => ("–".to_owned(), "not run".to_owned()),
        };
        let _ = writeln!(text, "  {:width$}  {took:>9}  {words}", result.name);
    }
    let count =
        |wanted: fn(&Outcome) -> bool| results.iter().filter(|r| wanted(&r.outcome)).count();
    let total: Duration = results.iter().map(|r| r.took).sum();
    let _ = writeln!(text, "  {:width$}  {:>9}\n", "together", seconds(total));
    let _ = writeln!(
        text,
        "{} passed, {} failed",
        count(|o| matches!(o, Outcome::Passed(_))),
        count(|o| *o == Outcome::Failed)
    );
    text
}

fn seconds(time: Duration) -> String {
    format!("{:.1} s", time.as_secs_f64())
}

impl Ready {
    fn tools(&self) -> Result<&Tools> {
        self.tools.as_ref().ok_or_else(not_set_up)
    }
}

fn not_set_up() -> Failure {
    Failure::new(
        "A step came before the set-up that it needs.",
        crate::fail::MAINTAINER,
        "Put the steps in xtask/src/test.rs back in order.",
    )
}

fn set_up(ready: &mut Ready) -> Result<Option<String>> {
    ready.tools = Some(setup::for_page()?);
    setup::for_checks()?;
    if !ready.fast {
        ready.engines = Some(engines::ensure()?);
    }
    let browsers = ready.engines.as_ref().map(Engines::line);
    println!("{}", machine::description(browsers.as_deref()));
    Ok(None)
}

fn format(_: &mut Ready) -> Result<Option<String>> {
    in_root(
        cargo().args(["fmt", "--all", "--check"]),
        "Run `cargo fmt --all`.",
    )
}

fn lints_native(_: &mut Ready) -> Result<Option<String>> {
    let mut command = cargo();
    command.args([
        "clippy",
        "--workspace",
        "--all-targets",
        "--",
        "-D",
        "warnings",
    ]);
    in_root(&mut command, "Mend what the first lint above says.")
}

fn lints_wasm(_: &mut Ready) -> Result<Option<String>> {
    for module in [&page::CORE, &page::CASE] {
        in_root(
            &mut page::clippy_command(module),
            "Mend what the first lint above says; it concerns the core as the page gets it.",
        )?;
    }
    Ok(None)
}

fn tests_native(_: &mut Ready) -> Result<Option<String>> {
    in_root(
        cargo().args(["test", "--workspace"]),
        "Read the first failing test above. One test alone: `cargo test --workspace NAME`.",
    )
}

fn in_root(command: &mut Command, remedy: &str) -> Result<Option<String>> {
    run_command(command.current_dir(repo::root()), AUTHOR, remedy).map(|()| None)
}

fn script(name: &str, remedy: &str) -> Result<Option<String>> {
    page::page_script(name, remedy).map(|()| None)
}

/// One of the page's scripts that open the built page in browsers.
fn in_browsers<'a>(ready: &'a Ready, script: &str) -> Result<&'a Engines> {
    let engines = ready.engines.as_ref().ok_or_else(not_set_up)?;
    let server = Server::bind(&repo::built_page(), 0)?;
    let url = server.url();
    server.run_in_background();
    let chromium = match script {
        "e2e" => engines.end_to_end(),
        _ => &engines.chromium,
    };
    let mut command = process::npm();
    command
        .args(["run", script])
        .current_dir(repo::www())
        .env("TABSIDE_URL", &url)
        .env("TABSIDE_ENGINES", engines.names())
        .env(VARIABLE, &chromium.program);
    if let Some(firefox) = &engines.firefox {
        command.env(FIREFOX_VARIABLE, &firefox.program);
    }
    println!("Serving the built page at {url}");
    run_command(
        &mut command,
        AUTHOR,
        "Read the first failing test above. To look at the page itself: `cargo xtask serve`.",
    )?;
    Ok(engines)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fail::YOU;

    fn fine(_: &mut Ready) -> Result<Option<String>> {
        Ok(None)
    }

    fn broken(_: &mut Ready) -> Result<Option<String>> {
        Err(Failure::new("It broke.", YOU, "Mend it."))
    }

    fn outcomes(steps: &[Step], fast: bool) -> (Vec<Outcome>, String) {
        let mut ready = Ready {
            fast,
            ..Ready::default()
        };
        let results = run_steps(steps, &mut ready);
        let text = summary(&results);
        (results.into_iter().map(|r| r.outcome).collect(), text)
    }

    #[test]
    fn the_first_failure_ends_it_and_what_did_not_run_is_not_counted() {
        let steps = [step("one", fine), step("two", broken), step("three", fine)];
        let (outcomes, text) = outcomes(&steps, false);
        assert_eq!(
            outcomes,
            [Outcome::Passed(None), Outcome::Failed, Outcome::NotRun]
        );
        assert_eq!(text.lines().last(), Some("1 passed, 1 failed"));
        assert!(text.contains("not run"), "{text}");
    }

    #[test]
    fn fast_leaves_out_the_browser_and_says_so() {
        let in_browser = Step {
            name: "browser",
            run: broken,
            browser: true,
        };
        let (outcomes, text) = outcomes(&[step("one", fine), in_browser], true);
        assert_eq!(outcomes, [Outcome::Passed(None), Outcome::LeftOut]);
        assert_eq!(text.lines().last(), Some("1 passed, 0 failed"));
        assert!(text.contains("left out"), "{text}");
    }

    #[test]
    fn steps_that_build_on_the_set_up_say_so_without_it() {
        let text = Ready::default().tools().unwrap_err().to_string();
        assert!(text.contains("set-up"), "{text}");
        assert!(in_browsers(&Ready::default(), "e2e").is_err());
    }
}
