//! What stands around the figures: the machine, whether they can be figures at all, and the file they are
//! kept in.

use super::figure::{Figure, Verdict};
use super::script::Told;
use super::{Asked, growth, table};
use crate::fail::{AUTHOR, Failure, Result};
use crate::machine;
use std::fs;
use std::path::Path;

/// The machine, and what else it was busy with.
pub fn head(engines: Option<&str>) -> String {
    let description = machine::description(engines);
    match fs::read_to_string("/proc/loadavg") {
        Ok(load) => {
            let load: Vec<&str> = load.split_whitespace().take(3).collect();
            format!(
                "{description}\nLoad:    {} when it began (1, 5, 15 minutes)",
                load.join(", ")
            )
        }
        Err(_) => description,
    }
}

/// A figure that cannot be one is a fault of the measuring, and nothing is written.
pub fn sound(figures: &[Figure]) -> Result<()> {
    let broken: Vec<&str> = figures
        .iter()
        .filter(|f| f.verdict() == Verdict::Broken)
        .map(|f| f.measure.as_str())
        .collect();
    if figures.is_empty() || !broken.is_empty() {
        return Err(Failure::new(
            format!("Figures are broken or missing: {}.", broken.join("; ")),
            AUTHOR,
            "See the lines above that say BROKEN, and the script in www/bench or benches that printed them.",
        ));
    }
    Ok(())
}

/// Of a name alone: where one is.
pub fn folder_of(file: &Path) -> &Path {
    match file.parent() {
        Some(folder) if folder != Path::new("") => folder,
        _ => Path::new("."),
    }
}

/// The tables with the machine's description, and the charts beside them.
pub fn write(file: &Path, head: &str, asked: &Asked, told: &Told) -> Result<()> {
    let words: Vec<&str> = asked.parts.iter().map(|part| part.word()).collect();
    let command = format!("cargo xtask bench {}", words.join(" "));
    let charts = growth::charts(&told.points);
    let mut text = format!(
        "# Speed, memory and sizes, measured\n\n`{}` prints these tables again; `--write` keeps them. Medians of \
         interleaved rounds; a ratio is against what the same round measured beside it. A machine that is \
         busy with other work makes times longer, ratios less so.\n\n```text\n{head}\n```\n{}",
        command.trim_end(),
        table::markdown(&told.figures)
    );
    let folder = folder_of(file);
    let put = |path: &Path, text: &str| {
        fs::write(path, text).map_err(|e| Failure::file("write", path, &e))
    };
    for (name, svg) in &charts {
        text.push_str(&format!("\n![{name}]({name})\n"));
        put(&folder.join(name), svg)?;
    }
    put(file, &text)?;
    println!(
        "Written: {}, {} charts beside it.",
        file.display(),
        charts.len()
    );
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::super::Part;
    use super::*;
    use crate::testing::TempDir;

    #[test]
    fn broken_figures_end_the_command_and_nothing_at_all_does_too() {
        let fine = Figure::new("g", "m", "ms", 1.0);
        assert!(sound(std::slice::from_ref(&fine)).is_ok());
        let text = sound(&[fine, Figure::new("g", "odd one", "ms", f64::NAN)])
            .unwrap_err()
            .to_string();
        assert!(text.contains("odd one"), "{text}");
        assert!(sound(&[]).is_err());
    }

    #[test]
    fn what_is_written_has_the_machine_the_command_and_the_tables() {
        let dir = TempDir::new("results");
        let file = dir.path().join("RESULTS.md");
        let asked = Asked {
            parts: vec![Part::Growth],
            ..Asked::default()
        };
        let mut told = Told::default();
        told.line("figure\tgroup=G\tmeasure=m\tunit=ms\tvalue=3");
        for n in [1, 2, 4] {
            told.line(&format!("point\tregions\tread\t{n}\tms\t{n}"));
        }
        write(&file, "CPU: some", &asked, &told).unwrap();
        let text = fs::read_to_string(&file).unwrap();
        for part in [
            "`cargo xtask bench growth`",
            "CPU: some",
            "| m | – | 3 ms",
            "](growth-regions.svg)",
        ] {
            assert!(text.contains(part), "{part}: {text}");
        }
        assert!(dir.path().join("growth-regions.svg").is_file());
    }
}
