//! Running other programs: shown before they run, explained when they fail.

use crate::fail::{Failure, Result, YOU};
use std::ffi::OsString;
use std::io::{ErrorKind, Write};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// Cargo, the one that started this program.
pub fn cargo() -> Command {
    Command::new(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()))
}

/// Cargo's own folder.
pub fn cargo_home(var: &dyn Fn(&str) -> Option<OsString>) -> Option<PathBuf> {
    let folder = |name: &str| var(name).filter(|v| !v.is_empty()).map(PathBuf::from);
    folder("CARGO_HOME").or_else(|| {
        folder(if cfg!(windows) { "USERPROFILE" } else { "HOME" }).map(|home| home.join(".cargo"))
    })
}

/// npm, which is a script on Windows.
pub fn npm() -> Command {
    Command::new(if cfg!(windows) { "npm.cmd" } else { "npm" })
}

/// A command as one would type it.
pub fn shown(command: &Command) -> String {
    let program = Path::new(command.get_program());
    let name = program.file_stem().unwrap_or(program.as_os_str());
    let mut line = quoted(&name.to_string_lossy());
    for arg in command.get_args() {
        line.push(' ');
        line.push_str(&quoted(&arg.to_string_lossy()));
    }
    line
}

fn quoted(word: &str) -> String {
    if word.is_empty() || word.contains(char::is_whitespace) {
        format!("\"{word}\"")
    } else {
        word.to_owned()
    }
}

/// Runs a command with its output passed through. `who` and `remedy` tell what to do when it
/// reports failure.
pub fn run(command: &mut Command, who: &'static str, remedy: &str) -> Result<()> {
    println!("$ {}", shown(command));
    // Kept in order with what the program itself prints.
    let _ = std::io::stdout().flush();
    let status = command.status().map_err(|e| not_started(command, &e))?;
    if status.success() {
        return Ok(());
    }
    Err(Failure::new(
        format!("`{}`{} failed ({status}).", shown(command), place(command)),
        who,
        remedy,
    ))
}

/// What a command prints on standard output, or nothing when it is missing or fails.
pub fn output(command: &mut Command) -> Option<String> {
    let output = command
        .stdin(Stdio::null())
        .stderr(Stdio::null())
        .output()
        .ok()?;
    output
        .status
        .success()
        .then(|| String::from_utf8_lossy(&output.stdout).trim().to_owned())
}

fn place(command: &Command) -> String {
    match command.get_current_dir().and_then(Path::file_name) {
        Some(dir) if dir == "www" => " in www/".to_owned(),
        _ => String::new(),
    }
}

fn not_started(command: &Command, error: &std::io::Error) -> Failure {
    let remedy = if error.kind() == ErrorKind::NotFound {
        "Install the program, or put its folder on PATH; then run the same command again."
    } else {
        "See that the program may be executed; then run the same command again."
    };
    Failure::new(
        format!("`{}` could not be started: {error}.", shown(command)),
        YOU,
        remedy,
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_command_is_shown_as_one_would_type_it() {
        let mut command = Command::new("/somewhere/bin/wasm-pack");
        command.args(["build", "--out-dir", "a folder"]);
        assert_eq!(shown(&command), "wasm-pack build --out-dir \"a folder\"");
    }

    #[test]
    fn cargos_folder_is_where_it_is_told() {
        let home = cargo_home(&|name| (name == "CARGO_HOME").then(|| "/c".into()));
        assert_eq!(home, Some(PathBuf::from("/c")));
        assert_eq!(cargo_home(&|_| None), None);
    }

    #[test]
    fn a_missing_program_is_explained() {
        let failure = run(&mut Command::new("no-such-program-here"), YOU, "-").unwrap_err();
        let text = failure.to_string();
        assert!(text.contains("could not be started"), "{text}");
        assert!(text.contains("PATH"), "{text}");
        assert_eq!(output(&mut Command::new("no-such-program-here")), None);
    }

    #[test]
    fn a_failing_program_is_named_with_its_remedy() {
        let mut command = cargo();
        command.arg("no-such-subcommand").stderr(Stdio::null());
        let text = run(&mut command, YOU, "Mend it.").unwrap_err().to_string();
        assert!(text.contains("`cargo no-such-subcommand`"), "{text}");
        assert!(text.contains("Mend it."), "{text}");
    }
}
