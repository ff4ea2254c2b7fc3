//! The command line: which commands there are and what they take.

use crate::fail::{Failure, Result, YOU};
use crate::serve::DEFAULT_PORT;
use crate::{bench, dist, fuzz, mutants, outside, serve, setup, single, supply, tidy};
use lexopt::prelude::*;
use std::ffi::OsString;
use std::path::PathBuf;

/// What was asked for.
pub enum Command {
    /// The list of commands.
    Help,
    /// The tests, whose tally ends the output.
    Test {
        /// Without the browser.
        fast: bool,
    },
    /// Anything else.
    Run(Box<dyn FnOnce() -> Result<()>>),
}

const COMMANDS: &[(&str, &str)] = &[
    (
        "serve [--port N] [--no-open]",
        "set up, build, and serve the page on this machine",
    ),
    (
        "test [--fast]",
        "set up and run every check and test; --fast leaves out the browsers",
    ),
    (
        "dist [--single] [--out DIR]",
        "leave a folder that any static host can serve (default: dist/); --single leaves one HTML \
         that opens without a server (default: dist-single/)",
    ),
    (
        "outside",
        "have what the program writes read by programs of others",
    ),
    ("setup", "install what is missing, and nothing else"),
    (
        "supply [--write]",
        "check licences, versions and sources of everything by others; --write lists what is shipped \
         again (xtask/DEPENDENCIES.md)",
    ),
    (
        "reproduce",
        "build the page twice, from two clean checkouts, and compare every file",
    ),
    ("tidy", "check the rules for modules and files"),
    (
        "bench [PART…] [--page DIR] [--write FILE]",
        "measure speed, memory and sizes; parts: photo, page, case, colour, growth, native (default: \
         all); --page takes a built page, --write keeps tables and charts (benches/RESULTS.md)",
    ),
    (
        "fuzz [DOOR…] [--seconds N] [--executions N] [--address]",
        "search every way in for crashes, hangs and memory with libFuzzer (20 minutes or 10 million \
         executions each); --address with the address sanitizer (a nightly Rust)",
    ),
    (
        "mutants [MODULE…] [--sample N]",
        "change the code of colour, light, reading and stain in one place after another, see whether a \
         test fails, and print the score; --sample takes every Nth change",
    ),
    (
        "accuracy [ARGS…]",
        "measure how far readings are from known colours",
    ),
    (
        "demo",
        "render the demonstration photos in fixtures/demo again",
    ),
];

/// The help text, one line per command.
pub fn help() -> String {
    let width = COMMANDS
        .iter()
        .map(|(usage, _)| usage.chars().count())
        .max()
        .unwrap_or(0);
    let mut text = "Tabside's commands. Usage: cargo xtask <command>\n\n".to_owned();
    for (usage, line) in COMMANDS {
        text.push_str(&format!("  {usage:width$}  {line}\n"));
    }
    text.push_str(
        "\nFrom a fresh clone, `cargo xtask serve` is all it takes. Build tools are kept per user in\n\
         TABSIDE_CACHE (default: the system's place for caches); TABSIDE_CHROMIUM and TABSIDE_FIREFOX\n\
         name the browsers for the tests.\n",
    );
    text
}

/// Reads this process's arguments.
pub fn command_from_args() -> Result<Command> {
    command(lexopt::Parser::from_env())
}

fn command(mut args: lexopt::Parser) -> Result<Command> {
    let name = match args.next().map_err(|e| usage(&e.to_string()))? {
        None | Some(Long("help") | Short('h')) => return Ok(Command::Help),
        Some(Value(name)) => name.to_string_lossy().into_owned(),
        Some(other) => return Err(usage(&other.unexpected().to_string())),
    };
    if name == "accuracy" {
        let rest: Vec<OsString> = args
            .raw_args()
            .map_err(|e| usage(&e.to_string()))?
            .enumerate()
            // One may write `accuracy -- ARGS`, as with cargo.
            .filter(|(i, arg)| *i > 0 || arg != "--")
            .map(|(_, arg)| arg)
            .collect();
        return Ok(Command::Run(Box::new(move || bench::accuracy(&rest))));
    }
    let mut options = Options::default();
    while let Some(arg) = args.next().map_err(|e| usage(&e.to_string()))? {
        match (name.as_str(), arg) {
            (_, Long("help") | Short('h')) => return Ok(Command::Help),
            ("serve", Long("port")) => {
                options.port = args
                    .value()
                    .and_then(|value| value.parse())
                    .map_err(|e| usage(&format!("--port: {e}")))?;
            }
            ("serve", Long("no-open")) => options.no_open = true,
            ("test", Long("fast")) => options.fast = true,
            ("dist", Long("single")) => options.single = true,
            ("bench", Value(word)) => {
                let word = word.to_string_lossy();
                let part = bench::Part::of_word(&word);
                let part = part.ok_or_else(|| usage(&format!("bench has no part `{word}`")))?;
                options.bench.parts.push(part);
            }
            ("bench", Long("page")) => options.bench.page = Some(path(&mut args, "--page")?),
            ("bench", Long("write")) => options.bench.write = Some(path(&mut args, "--write")?),
            ("fuzz", Value(door)) => options.fuzz.doors.push(door.to_string_lossy().into_owned()),
            ("fuzz", Long("seconds")) => options.fuzz.seconds = number(&mut args, "--seconds")?,
            ("fuzz", Long("executions")) => {
                options.fuzz.executions = number(&mut args, "--executions")?;
            }
            ("fuzz", Long("address")) => options.fuzz.address = true,
            ("mutants", Value(module)) => {
                options
                    .mutants
                    .modules
                    .push(module.to_string_lossy().into_owned());
            }
            ("mutants", Long("sample")) => {
                options.mutants.sample = number(&mut args, "--sample")?;
            }
            ("supply", Long("write")) => options.write = true,
            ("dist", Long("out")) => options.out = Some(path(&mut args, "--out")?),
            (_, other) => return Err(usage(&format!("{name}: {}", other.unexpected()))),
        }
    }
    let Options {
        port,
        no_open,
        fast,
        single,
        write,
        out,
        bench: asked,
        fuzz: search,
        mutants: changes,
    } = options;
    Ok(match name.as_str() {
        "help" => Command::Help,
        "serve" => Command::Run(Box::new(move || serve::run(port, !no_open))),
        "test" => Command::Test { fast },
        "dist" if single => Command::Run(Box::new(move || single::run(out))),
        "dist" => Command::Run(Box::new(move || dist::run(out))),
        "outside" => Command::Run(Box::new(|| outside::run().map(|line| println!("{line}")))),
        "setup" => Command::Run(Box::new(setup::run)),
        "supply" if write => Command::Run(Box::new(supply::write)),
        "supply" => Command::Run(Box::new(|| supply::run().map(|line| println!("{line}")))),
        "reproduce" => Command::Run(Box::new(supply::reproduce::run)),
        "fuzz" => Command::Run(Box::new(move || fuzz::run(&search))),
        "mutants" => Command::Run(Box::new(move || mutants::run(&changes))),
        "tidy" => Command::Run(Box::new(|| tidy::run().map(|line| println!("{line}")))),
        "bench" => Command::Run(Box::new(move || bench::bench(&asked))),
        "demo" => Command::Run(Box::new(bench::demo)),
        _ => return Err(usage(&format!("there is no command `{name}`"))),
    })
}

struct Options {
    port: u16,
    no_open: bool,
    fast: bool,
    single: bool,
    write: bool,
    out: Option<PathBuf>,
    bench: bench::Asked,
    fuzz: fuzz::Asked,
    mutants: mutants::Asked,
}

impl Default for Options {
    fn default() -> Self {
        Self {
            port: DEFAULT_PORT,
            no_open: false,
            fast: false,
            single: false,
            write: false,
            out: None,
            bench: bench::Asked::default(),
            fuzz: fuzz::Asked::default(),
            mutants: mutants::Asked::default(),
        }
    }
}

fn path(args: &mut lexopt::Parser, option: &str) -> Result<PathBuf> {
    let value = args.value().map_err(|e| usage(&format!("{option}: {e}")))?;
    Ok(PathBuf::from(value))
}

fn number<T: std::str::FromStr<Err: std::error::Error + Send + Sync + 'static>>(
    args: &mut lexopt::Parser,
    option: &str,
) -> Result<T> {
    args.value()
        .and_then(|value| value.parse())
        .map_err(|e| usage(&format!("{option}: {e}")))
}

fn usage(what: &str) -> Failure {
    Failure::new(
        format!("The command was not understood: {what}."),
        YOU,
        "Type `cargo xtask` for the list of commands.",
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    fn parsed(args: &[&str]) -> Result<Command> {
        command(lexopt::Parser::from_args(args))
    }

    #[test]
    fn every_listed_command_is_known_and_described_on_one_line() {
        let help = help();
        for (usage, line) in COMMANDS {
            let name = usage.split(' ').next().unwrap();
            assert!(parsed(&[name]).is_ok(), "{name}");
            assert!(
                help.lines().any(|l| l.contains(name) && l.ends_with(line)),
                "{name}"
            );
        }
    }

    #[test]
    fn nothing_or_help_gives_the_list() {
        for args in [&[][..], &["--help"], &["help"], &["serve", "-h"]] {
            assert!(matches!(parsed(args), Ok(Command::Help)), "{args:?}");
        }
    }

    #[test]
    fn what_is_not_understood_is_named() {
        for (args, expected) in [
            (&["sevre"][..], "sevre"),
            (&["--fast"], "--fast"),
            (&["serve", "--port", "many"], "many"),
            (&["serve", "--port", "70000"], "70000"),
            (&["serve", "--fast"], "--fast"),
            (&["dist", "--out"], "--out"),
            (&["serve", "--single"], "--single"),
            (&["setup", "more"], "more"),
            (&["bench", "photos"], "`photos`"),
            (&["bench", "--write"], "--write"),
        ] {
            let text = parsed(args).err().expect("must fail").to_string();
            assert!(text.contains(expected), "{args:?}: {text}");
        }
    }

    #[test]
    fn one_file_or_a_folder_can_be_asked_for() {
        for args in [
            &["dist", "--single"][..],
            &["dist", "--single", "--out", "x"],
            &["dist", "--out", "x"],
            &["supply", "--write"],
        ] {
            assert!(matches!(parsed(args), Ok(Command::Run(_))), "{args:?}");
        }
    }

    #[test]
    fn parts_of_the_measuring_can_be_chosen() {
        for args in [
            &["bench"][..],
            &["bench", "photo", "growth"],
            &["bench", "page", "--page", "x", "--write", "y"],
        ] {
            assert!(matches!(parsed(args), Ok(Command::Run(_))), "{args:?}");
        }
    }

    #[test]
    fn the_test_command_takes_its_option() {
        assert!(matches!(
            parsed(&["test"]),
            Ok(Command::Test { fast: false })
        ));
        assert!(matches!(
            parsed(&["test", "--fast"]),
            Ok(Command::Test { fast: true })
        ));
    }
}
