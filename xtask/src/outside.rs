//! `cargo xtask outside`: what the program writes, read by programs of others.
//!
//! The command line makes a case, reports and tables of the fixtures in a scratch folder; they are
//! checked by `jsonschema`, Info-ZIP, Python's zipfile and hashlib, and LittleCMS. (What the page
//! prints is checked in `www/e2e`.) The scripts lie in `xtask/outside`.

use crate::fail::{AUTHOR, Failure, Result};
use crate::process::{cargo, shown};
use crate::{repo, setup};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// What a check of another program is to be told when it fails.
const REMEDY: &str = "See what it says above: either the file or its description is wrong.";

/// Letters that Unicode writes in two ways.
const PASSPHRASE: &str = "Größe, vier Wörter";
/// Of the encrypted cases in `fixtures/case`, which hold `version-1.tabside`.
const KEPT_PASSPHRASE: &str = "vier schlichte Wörter hier";

/// Makes the files and has them checked; gives a line for the summary.
pub fn run() -> Result<String> {
    let missing = setup::outside::ensure()?;
    if !missing.is_empty() {
        return Ok(format!("left out WITHOUT {}", missing.join(", ")));
    }
    let work = Work::new()?;
    work.write_all()?;
    let mut lines = Vec::new();
    work.check_all(&mut |line| {
        println!("  {line}");
        lines.push(line);
    })?;
    Ok(format!("{} checks by other programs", lines.len()))
}

/// The scratch folder, and the command line.
struct Work {
    dir: PathBuf,
    program: PathBuf,
}

impl Work {
    fn new() -> Result<Self> {
        let dir = repo::scratch().join("outside");
        match fs::remove_dir_all(&dir) {
            Err(e) if e.kind() != std::io::ErrorKind::NotFound => {
                return Err(Failure::file("remove", &dir, &e));
            }
            _ => {}
        }
        fs::create_dir_all(&dir).map_err(|e| Failure::file("create", &dir, &e))?;
        let program = command_line()?;
        Ok(Self { dir, program })
    }

    fn at(&self, name: &str) -> String {
        self.dir.join(name).to_string_lossy().into_owned()
    }

    /// Runs the program and keeps what it prints.
    fn tabside(&self, arguments: &[&str], into: &str) -> Result<()> {
        let mut command = Command::new(&self.program);
        command.current_dir(repo::root()).args(arguments);
        let text = printed(&mut command)?;
        let path = self.dir.join(into);
        fs::write(&path, text).map_err(|e| Failure::file("write", &path, &e))
    }

    fn write_all(&self) -> Result<()> {
        let fixture = |name: &str| {
            let path = repo::root().join("fixtures").join(name);
            path.to_string_lossy().into_owned()
        };
        let (demo, scene) = (fixture("demo/demo.jpg"), fixture("demo/demo.truth.json"));
        let (other, truth) = (
            fixture("scenes/other.jpg"),
            fixture("scenes/other.truth.json"),
        );
        let swatches = fixture("demo/demo.swatches.json");
        println!("Writing with the command line into {}", self.dir.display());
        self.tabside(&["read", &demo, "--scene", &scene], "demo.report.json")?;
        self.tabside(
            &["read", &other, "--scene", &truth, "--polarised", &other],
            "pair.report.json",
        )?;
        self.tabside(&["find", &demo], "found.json")?;
        let report = self.at("demo.report.json");
        self.tabside(
            &["compare", &report, "11", &report, "21"],
            "comparison.json",
        )?;
        self.tabside(&["cgats", &report], "demo.cgats.txt")?;
        self.tabside(&["guide", &self.at("demo.cgats.txt")], "guide.json")?;
        self.tabside(
            &[
                "pack",
                &self.at("two.tabside"),
                &demo,
                "--scene",
                &scene,
                &other,
                "--scene",
                &truth,
                "--swatches",
                &swatches,
                "--guide",
                &self.at("guide.json"),
                "--label",
                "shelf 3",
            ],
            "packed.json",
        )?;
        self.tabside(&["verify", &self.at("two.tabside")], "verification.json")
    }

    fn check_all(&self, said: &mut dyn FnMut(String)) -> Result<()> {
        let (case, folder) = (self.at("two.tabside"), self.at("unpacked"));
        let tested = printed(Command::new("unzip").args(["-tq", &case]))?;
        said(format!(
            "Info-ZIP: {}",
            tested.trim().replace(&case, "two.tabside")
        ));
        self.python("container.py", &[&case, &folder], said)?;
        let schemas = repo::root().join("fixtures").join("schema");
        let case_json = Path::new(&folder).join("case.json");
        let pairs = [
            (case_json.to_string_lossy().into_owned(), "case"),
            (self.at("verification.json"), "verification"),
            (self.at("demo.report.json"), "report"),
            (self.at("pair.report.json"), "report"),
            (self.at("comparison.json"), "comparison"),
            (self.at("guide.json"), "guide"),
        ];
        let schemas = schemas.to_string_lossy().into_owned();
        let mut arguments = vec![schemas.as_str()];
        for (file, schema) in &pairs {
            arguments.extend([file.as_str(), schema]);
        }
        self.python("schemas.py", &arguments, said)?;
        let (ours, theirs) = (self.at("demo.cgats.txt"), self.at("transicc.txt"));
        printed(Command::new("transicc").args(["-i*Lab", "-o*Lab", "-t1", &ours, &theirs]))?;
        let report = self.at("demo.report.json");
        self.python("cgats.py", &[&report, &ours, &theirs], said)?;
        self.check_locked(said)
    }

    /// Encrypted cases: one made now, and those that are kept.
    fn check_locked(&self, said: &mut dyn FnMut(String)) -> Result<()> {
        let words = self.dir.join("passphrase.txt");
        fs::write(&words, PASSPHRASE).map_err(|e| Failure::file("write", &words, &e))?;
        let (words, locked) = (words.to_string_lossy(), self.at("locked.tabside"));
        let fixtures = repo::root().join("fixtures");
        let fixture = |name: &str| fixtures.join(name).to_string_lossy().into_owned();
        let demo = fixture("demo/demo.jpg");
        self.tabside(
            &["pack", &locked, &demo, "--passphrase-file", &words],
            "locked.json",
        )?;
        self.python("unlock.py", &[PASSPHRASE, &locked, "-"], said)?;
        let plain = fixture("case/version-1.tabside");
        let (ours, pages) = (
            fixture("case/locked.tabside"),
            fixture("case/locked_by_page.tabside"),
        );
        self.python(
            "unlock.py",
            &[KEPT_PASSPHRASE, &ours, &plain, &pages, &plain],
            said,
        )
    }

    fn python(&self, script: &str, arguments: &[&str], said: &mut dyn FnMut(String)) -> Result<()> {
        let script = repo::root().join("xtask").join("outside").join(script);
        let mut command = Command::new(setup::outside::python());
        command.arg("-B").arg(script).args(arguments);
        for line in printed(&mut command)?.lines() {
            said(line.to_owned());
        }
        Ok(())
    }
}

/// The command line as the tests have it: `cargo run` would choose other features of the libraries and
/// compile all of them once more.
fn command_line() -> Result<PathBuf> {
    let mut command = cargo();
    command
        .current_dir(repo::root())
        .args(["test", "--workspace", "--no-run", "--test", "command_line"])
        .args(["--message-format", "json"]);
    printed(&mut command)?
        .lines()
        .find_map(executable)
        .ok_or_else(|| {
            Failure::new(
                format!("`{}` names no program.", shown(&command)),
                AUTHOR,
                REMEDY,
            )
        })
}

/// Where the command line lies, if one of cargo's messages says so.
fn executable(message: &str) -> Option<PathBuf> {
    if !message.contains(r#""kind":["bin"]"#) || !message.contains(r#""name":"tabside""#) {
        return None;
    }
    let (_, path) = message.split_once(r#""executable":""#)?;
    let (path, _) = path.split_once('"')?;
    Some(PathBuf::from(path.replace(r"\\", r"\")))
}

/// What a program prints; its own words stand in the failure.
fn printed(command: &mut Command) -> Result<String> {
    let failed = |what: String| Failure::new(what, AUTHOR, REMEDY);
    let out = command
        .output()
        .map_err(|e| failed(format!("`{}` could not be started: {e}.", shown(command))))?;
    if out.status.success() {
        return Ok(String::from_utf8_lossy(&out.stdout).into_owned());
    }
    eprintln!("{}", String::from_utf8_lossy(&out.stderr));
    Err(failed(format!(
        "`{}` objects ({}).",
        shown(command),
        out.status
    )))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_program_is_taken_from_what_cargo_says() {
        let bin =
            r#"{"target":{"kind":["bin"],"name":"tabside"},"executable":"C:\\out\\tabside.exe"}"#;
        assert_eq!(executable(bin), Some(PathBuf::from(r"C:\out\tabside.exe")));
        let test = bin.replace(r#"["bin"]"#, r#"["test"]"#);
        assert_eq!(executable(&test), None);
        assert_eq!(executable(r#"{"reason":"build-finished"}"#), None);
    }

    #[test]
    fn what_another_program_objects_to_is_a_failure_with_its_name() {
        let text = printed(cargo().arg("no-such-subcommand"))
            .unwrap_err()
            .to_string();
        assert!(
            text.contains("`cargo no-such-subcommand` objects"),
            "{text}"
        );
        assert!(
            printed(cargo().arg("--version"))
                .unwrap()
                .starts_with("cargo")
        );
    }
}
