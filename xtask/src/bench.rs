//! `cargo xtask bench`, `accuracy` and `demo`: the commands that measure, and the one that
//! renders the pictures that are measured on.

use crate::fail::{AUTHOR, Failure, Result};
use crate::process::{cargo, run};
use crate::server::Server;
use crate::setup::browser::{self, VARIABLE};
use crate::{machine, page, repo, setup};
use std::ffi::OsString;
use std::process::Command;

/// The scenes that the browser's benchmark reads, and their width: 12 megapixels at 3:2.
const BENCH_SEEDS: [&str; 2] = ["1002", "1003"];
const BENCH_WIDTH_PX: &str = "4240";

/// The core natively, then the page in a real browser.
pub fn bench() -> Result<()> {
    let scripts =
        ["run.mjs", "page.mjs", "case.mjs"].map(|name| repo::www().join("bench").join(name));
    if let Some(missing) = scripts.iter().find(|script| !script.is_file()) {
        return Err(Failure::new(
            format!(
                "A part of the browser's benchmark is not there: {}.",
                missing.display()
            ),
            AUTHOR,
            "Put it back; `cargo bench -p tabside` measures the core alone meanwhile.",
        ));
    }
    let tools = setup::for_page()?;
    let browser = browser::ensure()?;
    page::build(&tools)?;
    println!("\n{}\n", machine::description(Some(&browser.version)));
    run(
        cargo()
            .args(["bench", "-p", "tabside"])
            .current_dir(repo::root()),
        AUTHOR,
        "Read the first error above; it concerns the benchmarks in benches/.",
    )?;
    let folder = repo::scratch().join("bench");
    for seed in BENCH_SEEDS {
        render(&[
            "random".as_ref(),
            seed.as_ref(),
            folder.as_os_str(),
            BENCH_WIDTH_PX.as_ref(),
        ])?;
    }
    let server = Server::bind(&repo::built_page(), 0)?;
    let url = server.url();
    server.run_in_background();
    let [scene, second] = BENCH_SEEDS.map(|seed| folder.join(format!("random-{seed}")));
    for script in scripts {
        run(
            Command::new("node")
                .arg(script)
                .current_dir(repo::www())
                .env("TABSIDE_URL", &url)
                .env("TABSIDE_BENCH_PHOTO", scene.with_extension("jpg"))
                .env("TABSIDE_BENCH_SECOND", second.with_extension("jpg"))
                .env("TABSIDE_BENCH_TRUTH", scene.with_extension("truth.json"))
                .env(VARIABLE, &browser.program),
            AUTHOR,
            "Read the first error above; it concerns the page's benchmark in www/bench/.",
        )?;
    }
    Ok(())
}

/// Readings of rendered scenes against the colours that they were rendered with.
pub fn accuracy(args: &[OsString]) -> Result<()> {
    println!("{}\n", machine::description(None));
    run(
        cargo()
            .args(["run", "--release", "-p", "accuracy", "--"])
            .args(args)
            .current_dir(repo::root()),
        AUTHOR,
        "Read the first error above; it concerns the accuracy measurement.",
    )
}

/// Renders the demonstration photo, its swatch book and the test scene again. The page's build takes its copy of
/// the demonstration from there.
pub fn demo() -> Result<()> {
    for scene in [
        ["demo", "fixtures/demo"],
        ["other", "fixtures/scenes"],
        ["swatch-book", "fixtures/demo"],
    ] {
        render(&scene.map(std::ffi::OsStr::new))?;
    }
    Ok(())
}

/// The scene renderer with these words.
fn render(words: &[&std::ffi::OsStr]) -> Result<()> {
    run(
        cargo()
            .args(["run", "--release", "-p", "scene-render", "--"])
            .args(words)
            .current_dir(repo::root()),
        AUTHOR,
        "Read the first error above; it concerns the renderer in tests/render/.",
    )
}
