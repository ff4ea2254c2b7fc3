//! The command line: reads a photo and prints JSON, over the same engine as the page.

#[path = "tabside/case.rs"]
mod case;
#[path = "tabside/compare.rs"]
mod compare;
#[path = "tabside/stains.rs"]
mod stains;
#[path = "tabside/tables.rs"]
mod tables;

use std::path::{Path, PathBuf};
use std::process::ExitCode;
use tabside::engine::{Engine, ReadOptions, Report};
use tabside::reading::Guide;
use tabside::scene::Scene;
use tabside::scene::find::Found;
use tabside::{Error, Result};

const HELP: &str = "\
tabside: reads the colour of teeth against shade tabs from a photo with a grey card

  tabside read PHOTO [--polarised PHOTO | --cross-polarised] [--scene FILE] [--guide FILE]
               [--target REGION]
      prints a report as JSON: photo, checks, scene, light, readings, ladders, advice, pair
      --polarised        the cross-polarised photo of the same scene
      --cross-polarised  PHOTO itself was taken through crossed polarisers
      --scene            card and regions (JSON; a whole report may be given too)
      --guide            shade guide (JSON, CSV or CGATS); the classical sixteen's published
                         averages otherwise. Tabs in the photo that it names anchor the colours
      --target           id of the region that restorations are compared with
  tabside find PHOTO
      prints what is found without a touch as JSON: card, teeth and tabs with outlines and axes,
      the tooth to compare with and the likely restoration. `scene` in it can be given to
      `read --scene`; names and the restoration are for a person to say
  tabside compare REPORT_A REGION_A REPORT_B REGION_B
      prints, as JSON, how region B differs from region A, zone by zone, with the doubt; the
      reports are those that `read` printed, of two photos or twice the same
  tabside cgats REPORT
      prints the colours of a report as CGATS text for other colour tools: L*a*b*, D65, 2 degrees
  tabside guide FILE
      prints the shade guide that a table (CSV, CGATS, JSON) gives, as JSON; what had to be assumed
      is said on standard error
  tabside predict SWATCHES REQUESTS
      prints, as JSON, the colour that each request's base gets under its coats, with its doubt,
      calculated from fired swatches
  tabside plan REQUEST
      prints, as JSON, which mixes in how many coats bring a restoration to its target, the steps
      to paint them, and what cannot be reached. REQUEST holds swatches, zones with from and to,
      and limits
  tabside pack OUT.tabside PHOTO [--scene FILE] [--polarised PHOTO] [--target REGION] [PHOTO …]
               [--guide FILE] [--swatches FILE] [--label TEXT] [--without-photos]
               [--passphrase-file FILE]
      writes a case file: photos freed of position, serial numbers and names, their scenes and
      what is read of them. What is given after a PHOTO belongs to it. Prints what was removed.
      With the passphrase in the first line of a file the case is encrypted
  tabside unpack FILE DIR [--passphrase-file FILE]
      writes the parts of a case file into a new folder: case.json, photos, scenes, swatches
  tabside verify FILE [--passphrase-file FILE]
      reads the photos of a case file again and prints, as JSON, whether the numbers are the same,
      or what differs and why
  tabside schema report|scene|guide|found|comparison|swatches|requests|predictions|request
               |plan|case|verification
      prints the JSON Schema of what is printed and read
  tabside --version | --help

PHOTO is a JPEG, PNG, TIFF or WebP file. Coordinates are upright photo pixels, origin top left,
the centre of the first pixel at 0,0. Only pack and unpack write files, never over one that is
there, and nothing leaves this machine.
Exit status: 0 read · 1 could not be read (the reason is on standard error) · 2 wrong usage ·
3 verify found other numbers, or none to compare";

/// A file that is larger than this is no photo.
const MAX_FILE_BYTES: u64 = 1 << 30;

enum Failure {
    Usage(String),
    Work(Error),
    /// What is to be printed all the same: the numbers of a case are not the same.
    Differs(String),
}

impl From<Error> for Failure {
    fn from(error: Error) -> Self {
        Self::Work(error)
    }
}

impl From<lexopt::Error> for Failure {
    fn from(error: lexopt::Error) -> Self {
        Self::Usage(error.to_string())
    }
}

fn main() -> ExitCode {
    match run() {
        Ok(text) => print_all(&text),
        Err(Failure::Usage(what)) => {
            eprintln!("tabside: {what}\n\n{HELP}");
            ExitCode::from(2)
        }
        Err(Failure::Work(error)) => {
            eprintln!("tabside: {error}");
            ExitCode::from(1)
        }
        Err(Failure::Differs(text)) => {
            print_all(&text);
            ExitCode::from(3)
        }
    }
}

/// A closed pipe is the reader's choice, not a failure worth a panic.
fn print_all(text: &str) -> ExitCode {
    use std::io::Write;
    match writeln!(std::io::stdout().lock(), "{text}") {
        Ok(()) => ExitCode::SUCCESS,
        Err(e) if e.kind() == std::io::ErrorKind::BrokenPipe => ExitCode::SUCCESS,
        Err(e) => {
            eprintln!("tabside: the report could not be written: {e}");
            ExitCode::from(1)
        }
    }
}

fn run() -> std::result::Result<String, Failure> {
    use lexopt::prelude::*;
    let mut parser = lexopt::Parser::from_env();
    match parser.next()? {
        Some(Long("help") | Short('h')) => Ok(HELP.to_owned()),
        Some(Long("version") | Short('V')) => Ok(format!("tabside {}", env!("CARGO_PKG_VERSION"))),
        Some(Value(command)) if command == "read" => read_command(&mut parser),
        Some(Value(command)) if command == "find" => find_command(&mut parser),
        Some(Value(command)) if command == "compare" => compare::compare_command(&mut parser),
        Some(Value(command)) if command == "cgats" => tables::cgats_command(&mut parser),
        Some(Value(command)) if command == "guide" => tables::guide_command(&mut parser),
        Some(Value(command)) if command == "predict" => stains::predict_command(&mut parser),
        Some(Value(command)) if command == "plan" => stains::plan_command(&mut parser),
        Some(Value(command)) if command == "pack" => case::pack_command(&mut parser),
        Some(Value(command)) if command == "unpack" => case::unpack_command(&mut parser),
        Some(Value(command)) if command == "verify" => case::verify_command(&mut parser),
        Some(Value(command)) if command == "schema" => schema_command(&mut parser),
        Some(Value(other)) => Err(Failure::Usage(format!(
            "“{}” is no command.",
            other.to_string_lossy()
        ))),
        Some(other) => Err(other.unexpected().into()),
        None => Err(Failure::Usage("a command is missing.".to_owned())),
    }
}

/// What is found, and the same as a scene: every tooth a tooth, every tab without a name.
#[derive(serde::Serialize)]
struct FoundScene {
    found: Found,
    scene: Scene,
}

fn find_command(parser: &mut lexopt::Parser) -> std::result::Result<String, Failure> {
    use lexopt::prelude::*;
    let mut photo = None;
    while let Some(argument) = parser.next()? {
        match argument {
            Long("help") | Short('h') => return Ok(HELP.to_owned()),
            Value(path) if photo.is_none() => photo = Some(PathBuf::from(path)),
            other => return Err(other.unexpected().into()),
        }
    }
    let photo = photo.ok_or_else(|| Failure::Usage("the PHOTO is missing.".to_owned()))?;
    let mut engine = Engine::new()?;
    let bytes = bytes(&photo)?;
    let id = engine.open(&bytes).map_err(|e| named(&photo, e))?.id;
    let found = engine.find(id).map_err(|e| named(&photo, e))?;
    let scene = found.as_scene();
    json(&FoundScene { found, scene })
}

fn read_command(parser: &mut lexopt::Parser) -> std::result::Result<String, Failure> {
    use lexopt::prelude::*;
    let (mut photo, mut polarised, mut scene, mut guide) = (None, None, None, None);
    let mut options = ReadOptions::default();
    let mut cross_polarised = false;
    while let Some(argument) = parser.next()? {
        match argument {
            Long("polarised") => polarised = Some(PathBuf::from(parser.value()?)),
            Long("cross-polarised") => cross_polarised = true,
            Long("scene") => scene = Some(PathBuf::from(parser.value()?)),
            Long("guide") => guide = Some(PathBuf::from(parser.value()?)),
            Long("target") => options.target = Some(parser.value()?.string()?),
            Long("help") | Short('h') => return Ok(HELP.to_owned()),
            Value(path) if photo.is_none() => photo = Some(PathBuf::from(path)),
            other => return Err(other.unexpected().into()),
        }
    }
    let photo = photo.ok_or_else(|| Failure::Usage("the PHOTO is missing.".to_owned()))?;

    let mut engine = Engine::new()?;
    if let Some(path) = guide {
        engine.set_guide(Some(tables::guide_from(&path)?))?;
    }
    let mut scene = match scene {
        Some(path) => scene_from_json(&text(&path)?).map_err(|e| named(&path, e))?,
        None => Scene::default(),
    };
    scene.cross_polarised |= cross_polarised;
    if scene.cross_polarised && polarised.is_some() {
        return Err(Failure::Usage(
            "--polarised asks for a plain PHOTO; this one is said to be cross-polarised itself."
                .to_owned(),
        ));
    }
    let opened = engine.open(&bytes(&photo)?).map_err(|e| named(&photo, e))?;
    if let Some(path) = polarised {
        let partner = engine.open(&bytes(&path)?).map_err(|e| named(&path, e))?;
        engine.set_pair(opened.id, Some(partner.id))?;
    }
    let report: Report = engine.read(opened.id, &scene, &options)?;
    json(&report)
}

fn json<T: serde::Serialize>(value: &T) -> std::result::Result<String, Failure> {
    serde_json::to_string_pretty(value).map_err(|e| Failure::Work(Error::internal(e.to_string())))
}

fn schema_command(parser: &mut lexopt::Parser) -> std::result::Result<String, Failure> {
    let which = parser.value()?;
    let schema = match which.to_string_lossy().as_ref() {
        "report" => schemars::schema_for!(Report),
        "scene" => schemars::schema_for!(Scene),
        "guide" => schemars::schema_for!(Guide),
        "found" => schemars::schema_for!(Found),
        "comparison" => schemars::schema_for!(compare::Comparison),
        "swatches" => schemars::schema_for!(tabside::stain::SwatchBook),
        "requests" => schemars::schema_for!(stains::Requests),
        "predictions" => schemars::schema_for!(stains::Predictions),
        "request" => schemars::schema_for!(stains::PlanFile),
        "plan" => schemars::schema_for!(stains::Planned),
        "case" => schemars::schema_for!(tabside::case::Case),
        "verification" => schemars::schema_for!(tabside::engine::case::Verification),
        other => {
            return Err(Failure::Usage(format!(
                "“{other}” is not one of report, scene, guide, found, comparison, swatches, requests, predictions, request, plan, case, verification."
            )));
        }
    };
    json(&schema)
}

/// A scene, or the scene inside a report.
fn scene_from_json(json: &str) -> Result<Scene> {
    #[derive(serde::Deserialize)]
    struct Outer {
        scene: Scene,
    }
    let unreadable = |e: serde_json::Error| {
        Error::input(
            format!("The scene could not be read: {e}."),
            "A scene is JSON: {\"card\": {\"outline\": [[x, y], …]}, \"regions\": [{\"id\": …, \
             \"kind\": \"tooth\", \"outline\": […], \"cervical\": [x, y], \"incisal\": [x, y]}]}.",
        )
    };
    let value: serde_json::Value = serde_json::from_str(json).map_err(unreadable)?;
    if value.get("scene").is_some() {
        let outer: Outer = serde_json::from_value(value).map_err(unreadable)?;
        return Ok(outer.scene);
    }
    let known = ["card", "regions"];
    if !value
        .as_object()
        .is_some_and(|o| known.iter().any(|k| o.contains_key(*k)))
    {
        return Err(Error::input(
            "The scene file holds neither a card nor regions.",
            "Give a scene or a report that this program wrote.",
        ));
    }
    serde_json::from_value(value).map_err(unreadable)
}

fn named(path: &Path, error: Error) -> Error {
    let name = path.display();
    match error {
        Error::FileDamaged { what, remedy } => Error::damaged(format!("{name}: {what}"), remedy),
        Error::Unsupported { what, remedy } => {
            Error::unsupported(format!("{name}: {what}"), remedy)
        }
        Error::TooLarge { what, remedy } => Error::too_large(format!("{name}: {what}"), remedy),
        Error::Input { what, remedy } => Error::input(format!("{name}: {what}"), remedy),
        other => other,
    }
}

fn bytes(path: &Path) -> Result<Vec<u8>> {
    let cannot = |e: std::io::Error| {
        Error::input(
            format!("{} could not be opened: {e}.", path.display()),
            "Check the name and that you may read the file.",
        )
    };
    let size = std::fs::metadata(path).map_err(cannot)?.len();
    if size > MAX_FILE_BYTES {
        return Err(Error::too_large(
            format!(
                "{} has {size} bytes; at most {MAX_FILE_BYTES} are read.",
                path.display()
            ),
            "Give a photo.",
        ));
    }
    std::fs::read(path).map_err(cannot)
}

fn text(path: &Path) -> Result<String> {
    String::from_utf8(bytes(path)?).map_err(|_| {
        Error::input(
            format!("{} is not a text file.", path.display()),
            "Give a JSON file in UTF-8.",
        )
    })
}
