//! `cargo xtask bench`: speed, memory and sizes, each against what it is to be; `accuracy` and `demo`.
//!
//! Scripts measure and print figures (`figure`), which are shown as they come and made into the tables of
//! `benches/RESULTS.md` (`table`). Ratios are against what the same run measured beside them.

mod figure;
mod growth;
mod native;
mod plot;
mod results;
mod scenes;
mod script;
mod sizes;
mod table;

pub use scenes::{accuracy, demo};

use crate::fail::{AUTHOR, Failure, Result, YOU};
use crate::server::Server;
use crate::setup::browser::{self, VARIABLE};
use crate::setup::engines::{self, FIREFOX_VARIABLE};
use crate::{page, repo, setup};
use results::{folder_of, head, sound, write};
use script::{Told, script};
use std::path::PathBuf;

/// What is measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// From a photo's file to a plan, in every engine.
    Photo,
    /// Start, long tasks, many photos at once, sizes.
    Page,
    /// Files of cases.
    Case,
    /// Numbers of colours against libraries of others.
    Colour,
    /// How time and memory grow.
    Growth,
    /// The core without a browser.
    Native,
}

impl Part {
    pub const ALL: [Self; 6] = [
        Self::Photo,
        Self::Page,
        Self::Case,
        Self::Colour,
        Self::Growth,
        Self::Native,
    ];

    /// As it is typed.
    pub fn word(self) -> &'static str {
        match self {
            Self::Photo => "photo",
            Self::Page => "page",
            Self::Case => "case",
            Self::Colour => "colour",
            Self::Growth => "growth",
            Self::Native => "native",
        }
    }

    pub fn of_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|part| part.word() == word)
    }
}

/// What was asked for.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Asked {
    /// All when empty.
    pub parts: Vec<Part>,
    /// A built page to measure; the page is built when there is none.
    pub page: Option<PathBuf>,
    /// Where the tables go; charts lie beside them.
    pub write: Option<PathBuf>,
}

/// Where and with what the page is measured.
struct Place {
    /// The built page.
    page: PathBuf,
    url: String,
    /// Names of the engines, and their programs for the scripts.
    engines: String,
    env: Vec<(&'static str, PathBuf)>,
}

/// Measures, prints, and writes the tables where that was asked for.
pub fn bench(asked: &Asked) -> Result<()> {
    let folder = asked.write.as_deref().map(folder_of);
    if let Some(missing) = folder.filter(|folder| !folder.is_dir()) {
        // Said before everything is measured.
        return Err(Failure::new(
            format!("There is no folder {} to write into.", missing.display()),
            YOU,
            "Make it, or name a file in a folder that exists; then run the same command again.",
        ));
    }
    let wanted = |part: Part| asked.parts.is_empty() || asked.parts.contains(&part);
    let in_page = [Part::Photo, Part::Page, Part::Case, Part::Colour]
        .into_iter()
        .any(wanted);
    let place = if in_page {
        Some(place(asked, wanted(Part::Photo))?)
    } else {
        None
    };
    let head = head(place.as_ref().map(|p| p.engines.as_str()));
    println!("\n{head}\n");
    let mut told = Told::default();
    if let Some(place) = &place {
        if wanted(Part::Photo) {
            script(&mut told, "photo.mjs", place, &[])?;
        }
        if wanted(Part::Page) {
            in_the_page(&mut told, place)?;
        }
        if wanted(Part::Case) {
            let photos = photos()?;
            script(&mut told, "case.mjs", place, &photos)?;
        }
        if wanted(Part::Colour) {
            let core = page::build_bench(&setup::for_page()?)?;
            script(
                &mut told,
                "colour_run.mjs",
                place,
                &[("TABSIDE_BENCH_CORE", core)],
            )?;
        }
    }
    if wanted(Part::Growth) {
        grow(&mut told)?;
    }
    if wanted(Part::Native) {
        native::measure(&mut told)?;
    }
    println!("\n{}", table::summary(&told.figures));
    for line in growth::worse_than_linear(&told.points) {
        println!("{line}");
    }
    sound(&told.figures)?;
    match &asked.write {
        Some(file) => write(file, &head, asked, &told),
        None => Ok(()),
    }
}

/// Sets up, builds unless a built page is given, renders the photos and serves both.
fn place(asked: &Asked, all_engines: bool) -> Result<Place> {
    let page = match &asked.page {
        // The scripts run elsewhere.
        Some(page) if page.join("index.html").is_file() => {
            std::path::absolute(page).map_err(|e| Failure::file("find", page, &e))?
        }
        Some(page) => {
            return Err(Failure::new(
                format!("There is no built page in {}.", page.display()),
                YOU,
                "Name a folder with an index.html, or leave --page out: then the page is built.",
            ));
        }
        None => {
            let tools = setup::for_page()?;
            page::build(&tools)?;
            repo::built_page()
        }
    };
    let mut env = Vec::new();
    let engines = if all_engines {
        let engines = engines::ensure()?;
        env.push((VARIABLE, engines.chromium.program.clone()));
        env.push(("TABSIDE_ENGINES", PathBuf::from(engines.names())));
        env.extend(
            engines
                .firefox
                .iter()
                .map(|b| (FIREFOX_VARIABLE, b.program.clone())),
        );
        engines.line()
    } else {
        let browser = browser::ensure()?;
        env.push((VARIABLE, browser.program));
        browser.version
    };
    let photos = [
        ("12.jpg", scenes::photo(scenes::SEED, scenes::MP_12)?),
        ("48.jpg", scenes::photo(scenes::SEED, scenes::MP_48)?),
    ];
    let server = Server::bind(&scenes::site(&page, &photos)?, 0)?;
    let url = server.url();
    server.run_in_background();
    env.push((
        "TABSIDE_BENCH_PHOTOS",
        "12 MP JPEG=bench/12.jpg,48 MP JPEG=bench/48.jpg".into(),
    ));
    env.push(("TABSIDE_BENCH_PAGE", page.clone()));
    Ok(Place {
        page,
        url,
        engines,
        env,
    })
}

/// The photos of a case as files.
fn photos() -> Result<[(&'static str, PathBuf); 2]> {
    Ok([
        (
            "TABSIDE_BENCH_PHOTO",
            scenes::photo(scenes::SEED, scenes::MP_12)?,
        ),
        (
            "TABSIDE_BENCH_SECOND",
            scenes::photo(scenes::SECOND_SEED, scenes::MP_12)?,
        ),
    ])
}

fn in_the_page(told: &mut Told, place: &Place) -> Result<()> {
    let photos = photos()?;
    script(told, "page.mjs", place, &photos)?;
    script(told, "tray.mjs", place, &photos)?;
    for figure in sizes::figures(&place.page)? {
        told.figure(figure);
    }
    Ok(())
}

fn grow(told: &mut Told) -> Result<()> {
    for width in scenes::GROWTH {
        scenes::photo(scenes::SEED, width)?;
    }
    let mut command = native::bench("growth");
    command.args(["--", "all"]).arg(scenes::kept());
    told.run(
        &mut command,
        "Read the first error above; it concerns benches/growth.rs.",
    )?;
    if told.points.is_empty() {
        return Err(Failure::new(
            "The measuring of growth gave no points.",
            AUTHOR,
            "See what benches/growth.rs prints; each point is a line of its own.",
        ));
    }
    for figure in growth::figures(&told.points) {
        told.figure(figure);
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::TempDir;

    #[test]
    fn parts_are_typed_as_they_are_called() {
        for part in Part::ALL {
            assert_eq!(Part::of_word(part.word()), Some(part));
        }
        assert_eq!(Part::of_word("color"), None);
    }

    #[test]
    fn a_place_that_is_not_there_is_said_before_anything_is_measured() {
        let asked = Asked {
            parts: vec![Part::Growth],
            write: Some("no-such-folder-here/RESULTS.md".into()),
            ..Asked::default()
        };
        let text = bench(&asked).unwrap_err().to_string();
        assert!(text.contains("no-such-folder-here"), "{text}");
        assert_eq!(folder_of("R.md".as_ref()), std::path::Path::new("."));
    }

    #[test]
    fn a_folder_without_a_page_is_named() {
        let dir = TempDir::new("no-page");
        let asked = Asked {
            page: Some(dir.path().to_path_buf()),
            ..Asked::default()
        };
        let text = place(&asked, false).err().expect("must fail").to_string();
        assert!(text.contains("There is no built page"), "{text}");
    }
}
