//! Tools compiled once per user: pinned versions in the per-user cache, never the user's own
//! global ones.
//!
//! A tool is compiled into a folder beside its place, tried, and only then moved there in one
//! step. An attempt that was cut short is therefore never taken for an installation; what it
//! had compiled is kept, so that the next attempt goes on from there.

use crate::fail::{Failure, MAINTAINER, Result, YOU};
use crate::process::{output, run};
use crate::setup::lock::Lock;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// How the folder of an unfinished attempt is called.
const PARTIAL: &str = ".partial";

/// A command-line tool that is published as a crate.
#[derive(Debug, Clone)]
pub struct Tool {
    /// The crate's name.
    pub package: &'static str,
    /// The program's name.
    pub program: &'static str,
    /// The very version.
    pub version: String,
    /// How long compiling it takes on two cores, in words.
    pub estimate: &'static str,
}

impl Tool {
    /// `wasm-pack-0.15.1`
    fn name(&self) -> String {
        format!("{}-{}", self.package, self.version)
    }

    fn program_in(&self, root: &Path) -> PathBuf {
        root.join("bin")
            .join(format!("{}{}", self.program, std::env::consts::EXE_SUFFIX))
    }

    /// The program starts and says that it is this version. Some of cargo's subcommands answer
    /// only as cargo calls them: with their own word first.
    fn works_in(&self, root: &Path) -> bool {
        let mut command = Command::new(self.program_in(root));
        command.args(self.program.strip_prefix("cargo-"));
        output(command.arg("--version"))
            .and_then(|text| text.split_whitespace().nth(1).map(str::to_owned))
            .is_some_and(|version| version == self.version)
    }

    /// Where the tool is, or will be.
    fn place(&self, cache: &Path) -> PathBuf {
        cache.join("tools").join(self.name())
    }

    /// Whether the tool still has to be compiled.
    pub fn is_missing(&self, cache: &Path) -> bool {
        !self.works_in(&self.place(cache))
    }

    /// The program, compiled first when it is not there or does not work. `cargo` is the cargo
    /// to compile with.
    pub fn ensure(&self, cache: &Path, cargo: &Path) -> Result<PathBuf> {
        let place = self.place(cache);
        if self.works_in(&place) {
            return Ok(self.program_in(&place));
        }
        let tools = cache.join("tools");
        let name = self.name();
        let lock_path = tools.join(format!(".{name}.lock"));
        let _lock = Lock::take(&lock_path, &format!("installing {name}"))?;
        // Whoever held the lock may have done it.
        if self.works_in(&place) {
            return Ok(self.program_in(&place));
        }
        println!(
            "Compiling {name} into {} (once per user; {}).",
            tools.display(),
            self.estimate
        );
        remove_leftovers(&tools, &format!(".{name}."))?;
        // A cargo that outlived an earlier run may still be writing to that run's folder.
        let partial = tools.join(format!(".{name}.{}{PARTIAL}", std::process::id()));
        let build = cache.join("build").join(&name);
        self.install(cargo, &partial, &build)?;
        if !self.works_in(&partial) {
            return Err(Failure::new(
                format!(
                    "{name} was compiled, but its program does not say that it is {}.",
                    self.version
                ),
                MAINTAINER,
                format!(
                    "Remove {} and run the same command again; when it happens twice, report it.",
                    cache.display()
                ),
            ));
        }
        remove_dir(&place)?;
        fs::rename(&partial, &place).map_err(|e| Failure::file("move into place", &partial, &e))?;
        // Only intermediate results; a leftover costs disk and nothing else.
        let _ = fs::remove_dir_all(&build);
        Ok(self.program_in(&place))
    }

    /// With the dependencies of the tool's own lock file; where a registry lacks one of those
    /// (mirrors run behind, versions are withdrawn), with the nearest compatible ones. The
    /// tool's own version is the pinned one either way.
    fn install(&self, cargo: &Path, root: &Path, build: &Path) -> Result<()> {
        let mut locked = self.install_command(cargo, root, build, true);
        if locked.status().is_ok_and(|status| status.success()) {
            return Ok(());
        }
        println!(
            "{} could not be built with its own lock file; trying with newer or older \
             dependencies.",
            self.name()
        );
        run(
            &mut self.install_command(cargo, root, build, false),
            YOU,
            "Connect to the network (the sources come from the crates registry), see that a C \
             compiler is installed and a gigabyte of disk is free, and run the same command \
             again: it goes on from where it stopped.",
        )
    }

    fn install_command(&self, cargo: &Path, root: &Path, build: &Path, locked: bool) -> Command {
        let mut command = Command::new(cargo);
        command.arg("install");
        if locked {
            command.arg("--locked");
        }
        command
            .arg("--version")
            .arg(format!("={}", self.version))
            .arg("--root")
            .arg(root)
            .arg(self.package)
            .env("CARGO_TARGET_DIR", build);
        // Settings for the code in this clone, or for another machine, are not for a tool that
        // runs here.
        for name in ["RUSTFLAGS", "CARGO_ENCODED_RUSTFLAGS", "CARGO_BUILD_TARGET"] {
            command.env_remove(name);
        }
        command
    }
}

/// Removes what earlier attempts left. Only who holds the tool's lock may do this.
fn remove_leftovers(tools: &Path, start: &str) -> Result<()> {
    let entries = fs::read_dir(tools).map_err(|e| Failure::file("read", tools, &e))?;
    for entry in entries.filter_map(std::result::Result::ok) {
        let name = entry.file_name();
        let name = name.to_string_lossy();
        if name.starts_with(start) && name.ends_with(PARTIAL) {
            remove_dir(&entry.path())?;
        }
    }
    Ok(())
}

fn remove_dir(dir: &Path) -> Result<()> {
    match fs::remove_dir_all(dir) {
        Err(e) if e.kind() != std::io::ErrorKind::NotFound => Err(Failure::file("remove", dir, &e)),
        _ => Ok(()),
    }
}

#[cfg(all(test, unix))]
mod tests {
    use super::*;
    use crate::testing::TempDir;

    fn tool() -> Tool {
        Tool {
            package: "stand-in-cli",
            program: "stand-in",
            version: "1.2.3".to_owned(),
            estimate: "no time",
        }
    }

    /// A cargo that "installs" a program which prints `stand-in <prints>`; a line is added to
    /// `calls` each time.
    fn fake_cargo(dir: &TempDir, prints: &str, ending: &str) -> PathBuf {
        let calls = dir.path().join("calls");
        dir.script(
            "cargo",
            &format!(
                r#"echo "$*" >> "{calls}"
while [ "$1" != --root ]; do shift; done
mkdir -p "$2/bin" "$CARGO_TARGET_DIR"
printf '#!/bin/sh\necho stand-in {prints}\n' > "$2/bin/stand-in"
chmod +x "$2/bin/stand-in"
{ending}
"#,
                calls = calls.display()
            ),
        )
    }

    fn calls(dir: &TempDir) -> usize {
        fs::read_to_string(dir.path().join("calls")).map_or(0, |text| text.lines().count())
    }

    #[test]
    fn a_tool_is_compiled_once_and_then_found() {
        let dir = TempDir::new("tool");
        let cache = dir.path().join("cache");
        let cargo = fake_cargo(&dir, "1.2.3", "");
        assert!(tool().is_missing(&cache));
        let program = tool().ensure(&cache, &cargo).unwrap();
        assert_eq!(program, cache.join("tools/stand-in-cli-1.2.3/bin/stand-in"));
        assert!(!tool().is_missing(&cache));
        tool().ensure(&cache, &cargo).unwrap();
        assert_eq!(calls(&dir), 1);
        let call = fs::read_to_string(dir.path().join("calls")).unwrap();
        assert!(call.contains("--locked --version =1.2.3"), "{call}");
        assert!(!cache.join("build/stand-in-cli-1.2.3").exists());
    }

    #[test]
    fn a_subcommand_of_cargo_is_asked_as_cargo_asks_it() {
        let dir = TempDir::new("tool-subcommand");
        let tool = Tool {
            program: "cargo-stand-in",
            ..tool()
        };
        let place = tool.place(dir.path());
        assert!(!tool.works_in(&place));
        fs::create_dir_all(place.join("bin")).unwrap();
        let program = dir.script(
            "answers",
            r#"[ "$*" = "stand-in --version" ] && echo cargo-stand-in 1.2.3"#,
        );
        fs::copy(program, tool.program_in(&place)).unwrap();
        assert!(tool.works_in(&place));
    }

    #[test]
    fn an_attempt_cut_short_leaves_nothing_that_counts_and_can_go_on() {
        let dir = TempDir::new("tool-cut");
        let cache = dir.path().join("cache");
        let broken = fake_cargo(&dir, "1.2.3", "kill -9 $$");
        let text = tool().ensure(&cache, &broken).unwrap_err().to_string();
        assert!(
            text.contains("cargo install") && text.contains("goes on"),
            "{text}"
        );
        assert!(tool().is_missing(&cache));
        assert!(
            cache.join("build/stand-in-cli-1.2.3").exists(),
            "what was compiled is kept"
        );
        tool()
            .ensure(&cache, &fake_cargo(&dir, "1.2.3", ""))
            .unwrap();
        assert!(!tool().is_missing(&cache));
        let left: Vec<_> = fs::read_dir(cache.join("tools"))
            .unwrap()
            .map(|entry| entry.unwrap().file_name())
            .filter(|name| name.to_string_lossy().ends_with(PARTIAL))
            .collect();
        assert!(left.is_empty(), "{left:?}");
    }

    #[test]
    fn another_version_under_the_same_name_is_not_taken() {
        let dir = TempDir::new("tool-wrong");
        let cache = dir.path().join("cache");
        let wrong = fake_cargo(&dir, "1.2.30", "");
        let text = tool().ensure(&cache, &wrong).unwrap_err().to_string();
        assert!(text.contains("does not say that it is 1.2.3"), "{text}");
        assert!(!cache.join("tools/stand-in-cli-1.2.3").exists());
    }

    #[test]
    fn a_broken_installation_is_replaced() {
        let dir = TempDir::new("tool-broken");
        dir.file(
            "cache/tools/stand-in-cli-1.2.3/bin/stand-in",
            "not a program",
        );
        let cache = dir.path().join("cache");
        assert!(tool().is_missing(&cache));
        tool()
            .ensure(&cache, &fake_cargo(&dir, "1.2.3", ""))
            .unwrap();
        assert!(!tool().is_missing(&cache));
    }

    #[test]
    fn two_at_once_compile_it_once() {
        let dir = TempDir::new("tool-two");
        let cache = dir.path().join("cache");
        let cargo = fake_cargo(&dir, "1.2.3", "sleep 0.2");
        std::thread::scope(|scope| {
            for _ in 0..3 {
                scope.spawn(|| tool().ensure(&cache, &cargo).unwrap());
            }
        });
        assert_eq!(calls(&dir), 1);
    }
}
