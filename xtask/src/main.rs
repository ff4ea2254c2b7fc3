//! Tabside's own commands: `cargo xtask` sets up, builds, tests, measures and serves the project.
//!
//! Each command lives in a module of its name; `setup` holds everything that may have to be
//! installed first. Only the page and the core are the product; nothing here is shipped.

mod bench;
mod cli;
mod dist;
mod fail;
mod fuzz;
mod machine;
mod mutants;
mod outside;
mod page;
mod process;
mod repo;
mod serve;
mod server;
mod setup;
mod single;
mod size;
mod stamp;
mod supply;
mod test;
#[cfg(test)]
mod testing;
mod tidy;

use std::process::ExitCode;

fn main() -> ExitCode {
    match cli::command_from_args() {
        Ok(cli::Command::Help) => {
            print!("{}", cli::help());
            ExitCode::SUCCESS
        }
        Ok(cli::Command::Run(run)) => match run() {
            Ok(()) => ExitCode::SUCCESS,
            Err(failure) => {
                eprintln!("\n{failure}");
                ExitCode::FAILURE
            }
        },
        // Prints its own failure, because its tally has to be the last line.
        Ok(cli::Command::Test { fast }) => test::run(fast),
        Err(failure) => {
            eprintln!("{failure}");
            ExitCode::from(2)
        }
    }
}
