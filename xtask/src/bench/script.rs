//! Programs that measure: their figures and points are taken from what they print, the rest passes
//! through.

use super::Place;
use super::figure::{Figure, MARK};
use super::growth::Point;
use crate::fail::{AUTHOR, Failure, Result, YOU};
use crate::process::shown;
use crate::repo;
use std::io::{BufRead, BufReader};
use std::path::PathBuf;
use std::process::{Command, Stdio};

/// What was told so far.
#[derive(Debug, Default)]
pub struct Told {
    pub figures: Vec<Figure>,
    pub points: Vec<Point>,
}

impl Told {
    /// Takes a figure in, and shows it, under its heading when that is a new one.
    pub fn figure(&mut self, figure: Figure) {
        if self
            .figures
            .last()
            .is_none_or(|last| last.group != figure.group)
        {
            println!("{}", figure.group);
        }
        println!("{}", figure.line());
        self.figures.push(figure);
    }

    /// Takes in what a line holds; shows any other.
    pub fn line(&mut self, line: &str) {
        if let Some(figure) = Figure::of_line(line) {
            return self.figure(figure);
        }
        println!("{line}");
        self.points.extend(Point::of_line(line));
    }

    /// Runs a program; what it complains about passes through.
    pub fn run(&mut self, command: &mut Command, remedy: &str) -> Result<()> {
        println!("$ {}", shown(command));
        let failed =
            |what: String| Failure::new(format!("`{}` {what}.", shown(command)), AUTHOR, remedy);
        let mut child = Command::new(command.get_program())
            .args(command.get_args())
            .envs(command.get_envs().filter_map(|(k, v)| Some((k, v?))))
            .current_dir(command.get_current_dir().unwrap_or(&repo::root()))
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .spawn()
            .map_err(|e| {
                Failure::new(
                    format!("`{}` could not be started: {e}.", shown(command)),
                    YOU,
                    "Install the program, or put its folder on PATH; then run the same command again.",
                )
            })?;
        if let Some(out) = child.stdout.take() {
            for line in BufReader::new(out).lines() {
                match line {
                    Ok(line) => self.line(&line),
                    Err(e) => return Err(failed(format!("could not be listened to: {e}"))),
                }
            }
        }
        let status = child.wait().map_err(|e| failed(format!("was lost: {e}")))?;
        if status.success() {
            Ok(())
        } else {
            Err(failed(format!("failed ({status})")))
        }
    }
}

/// A script of `www/bench`, which has to give figures.
pub fn script(told: &mut Told, name: &str, place: &Place, more: &[(&str, PathBuf)]) -> Result<()> {
    let path = repo::www().join("bench").join(name);
    let before = told.figures.len();
    let mut command = Command::new("node");
    command
        .arg(&path)
        .current_dir(repo::www())
        .env("TABSIDE_URL", &place.url)
        .envs(
            place
                .env
                .iter()
                .chain(more)
                .map(|(key, value)| (key, value)),
        );
    told.run(
        &mut command,
        "Read the first error above; it concerns the page's benchmark in www/bench/.",
    )?;
    some_since(told, before, name)
}

/// What measures nothing and says nothing would pass for a part that is well.
pub fn some_since(told: &Told, before: usize, name: &str) -> Result<()> {
    if told.figures.len() > before {
        return Ok(());
    }
    Err(Failure::new(
        format!("{name} gave no figures."),
        AUTHOR,
        format!(
            "See what it prints: each figure is a line that begins with “{}”.",
            MARK.trim_end()
        ),
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_and_points_are_taken_from_among_other_lines() {
        let mut told = Told::default();
        for line in [
            "figure\tgroup=G\tmeasure=m\tunit=ms\tvalue=3",
            "something else",
            "point\tregions\tread\t5\tms\t7.5",
        ] {
            told.line(line);
        }
        assert_eq!((told.figures.len(), told.points.len()), (1, 1));
        assert!(some_since(&told, 0, "x").is_ok());
        let text = some_since(&told, 1, "x.mjs").unwrap_err().to_string();
        assert!(text.contains("x.mjs gave no figures"), "{text}");
    }

    #[test]
    fn a_program_that_fails_or_is_not_there_is_named() {
        let mut told = Told::default();
        let mut command = crate::process::cargo();
        let text = told
            .run(command.arg("no-such-subcommand"), "Mend it.")
            .unwrap_err()
            .to_string();
        assert!(text.contains("`cargo no-such-subcommand` failed"), "{text}");
        let text = told
            .run(&mut Command::new("no-such-program-here"), "-")
            .unwrap_err()
            .to_string();
        assert!(text.contains("could not be started"), "{text}");
    }
}
