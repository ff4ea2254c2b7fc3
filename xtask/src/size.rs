//! File sizes as they travel: raw and compressed with gzip.

use crate::fail::{AUTHOR, Failure, Result};
use crate::page::CASE;
use flate2::Compression;
use flate2::write::GzEncoder;
use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};

/// The most that the core may weigh for a page load, after gzip (1 KB = 1000 bytes). The aim is
/// 300 KB; it is missed since the light model and its checks came in, more so since photos are
/// searched and this crate is built for speed, and again since stains are planned (their readers
/// and writers of plain data weigh as much as their mathematics). Since the last stage of the build
/// makes loops wide, it is quicker and larger. It stays missed until the
/// decoders that few photos need (WebP, TIFF) and the planner are loaded apart.
pub const CORE_BUDGET_BYTES: u64 = 582_000;

/// The most that the module for files of cases and tables may weigh. It is fetched after the first
/// screen, and nothing waits for it before a case is kept or opened. Typed readers and writers of
/// JSON, the TIFF decoder (to see that a freed file kept its pixels) and tables are most of it.
pub const CASE_BUDGET_BYTES: u64 = 330_000;

/// One file of the built page.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sized {
    /// Its path below the page's folder, with `/` between the parts.
    pub name: String,
    /// Bytes in the file.
    pub raw: u64,
    /// Bytes after gzip at its best level.
    pub gzip: u64,
}

/// Every file below a folder, sorted by name.
pub fn files(root: &Path) -> Result<Vec<Sized>> {
    let mut found = Vec::new();
    for path in paths(root)? {
        let bytes = fs::read(&path).map_err(|e| Failure::file("read", &path, &e))?;
        found.push(Sized {
            name: name_below(root, &path),
            raw: bytes.len() as u64,
            gzip: gzip_len(&bytes),
        });
    }
    Ok(found)
}

/// The paths of all files below a folder, sorted.
pub fn paths(root: &Path) -> Result<Vec<PathBuf>> {
    let mut found = Vec::new();
    let mut open = vec![root.to_path_buf()];
    while let Some(dir) = open.pop() {
        for entry in fs::read_dir(&dir).map_err(|e| Failure::file("read", &dir, &e))? {
            let path = entry.map_err(|e| Failure::file("read", &dir, &e))?.path();
            // A link to a folder is followed nowhere: it could lead round in a circle.
            if path.is_dir() && !path.is_symlink() {
                open.push(path);
            } else if path.is_file() {
                found.push(path);
            }
        }
    }
    found.sort();
    Ok(found)
}

/// A path below `root`, with `/` between the parts on every system.
pub fn name_below(root: &Path, path: &Path) -> String {
    let below = path.strip_prefix(root).unwrap_or(path);
    let parts: Vec<_> = below.iter().map(|part| part.to_string_lossy()).collect();
    parts.join("/")
}

/// Bytes after gzip at its best level.
pub fn gzip_len(bytes: &[u8]) -> u64 {
    let mut encoder = GzEncoder::new(Counter(0), Compression::best());
    // Counting cannot fail.
    let _ = encoder.write_all(bytes);
    encoder.finish().map_or(0, |counter| counter.0)
}

struct Counter(u64);

impl Write for Counter {
    fn write(&mut self, bytes: &[u8]) -> std::io::Result<usize> {
        self.0 += bytes.len() as u64;
        Ok(bytes.len())
    }

    fn flush(&mut self) -> std::io::Result<()> {
        Ok(())
    }
}

/// The files as a table with a sum.
pub fn table(files: &[Sized]) -> String {
    let total = Sized {
        name: "together".to_owned(),
        raw: files.iter().map(|f| f.raw).sum(),
        gzip: files.iter().map(|f| f.gzip).sum(),
    };
    let width = files
        .iter()
        .map(|f| f.name.chars().count())
        .max()
        .unwrap_or(0)
        .max(8);
    let mut text = format!("{:width$}  {:>9}  {:>9}\n", "file", "raw KB", "gzip KB");
    for file in files.iter().chain([&total]) {
        text.push_str(&format!(
            "{:width$}  {:>9}  {:>9}\n",
            file.name,
            kilobytes(file.raw),
            kilobytes(file.gzip)
        ));
    }
    text
}

/// `123.4`
pub fn kilobytes(bytes: u64) -> String {
    format!("{}.{}", bytes / 1000, bytes % 1000 / 100)
}

/// Checks the modules of a built page against their budgets, and gives the line that says so.
pub fn check_core(page: &Path) -> Result<String> {
    check_core_within(page, CORE_BUDGET_BYTES, CASE_BUDGET_BYTES)
}

fn check_core_within(page: &Path, core_budget: u64, case_budget: u64) -> Result<String> {
    let (cases, cores): (Vec<_>, Vec<_>) = files(page)?
        .into_iter()
        .filter(|f| f.name.ends_with(".wasm"))
        .partition(|f| f.name.contains(CASE.name));
    if cores.is_empty() {
        return Err(Failure::new(
            "The built page has no WebAssembly file.",
            AUTHOR,
            "See that the page's worker loads the core from www/pkg; then build again.",
        ));
    }
    let mut lines = Vec::new();
    for (what, files, budget) in [
        ("core", &cores, core_budget),
        ("case files", &cases, case_budget),
    ] {
        let gzip: u64 = files.iter().map(|f| f.gzip).sum();
        let line = format!(
            "{what}: {} KB after gzip, of {} KB allowed",
            kilobytes(gzip),
            kilobytes(budget)
        );
        if gzip > budget {
            return Err(Failure::new(
                format!("A module is too large ({line})."),
                AUTHOR,
                "Look for a new dependency or feature that pulls in much code (`cargo tree -e \
                 normal,features`), and leave it out or find a smaller one.",
            ));
        }
        lines.push(line);
    }
    Ok(lines.join("; "))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::TempDir;

    /// Bytes that gzip cannot shrink: a xorshift sequence.
    fn noise(len: usize) -> Vec<u8> {
        let mut state = 0x9e37_79b9_u32;
        std::iter::repeat_with(|| {
            state ^= state << 13;
            state ^= state >> 17;
            state ^= state << 5;
            (state >> 24) as u8
        })
        .take(len)
        .collect()
    }

    #[test]
    fn files_are_listed_with_both_sizes() {
        let dir = TempDir::new("size");
        dir.file("index.html", "a".repeat(10_000));
        dir.file("assets/core.wasm", noise(5_000));
        let files = files(dir.path()).unwrap();
        assert_eq!(files[0].name, "assets/core.wasm");
        assert_eq!((files[0].raw, files[1].raw), (5_000, 10_000));
        assert!(
            files[0].gzip > 4_900,
            "noise cannot shrink: {}",
            files[0].gzip
        );
        assert!(
            files[1].gzip < 100,
            "repetition must shrink: {}",
            files[1].gzip
        );
        let table = table(&files);
        assert!(
            table.contains("assets/core.wasm") && table.contains("15.0"),
            "{table}"
        );
    }

    #[test]
    fn the_budget_is_for_the_compressed_core_alone() {
        let dir = TempDir::new("budget");
        dir.file("photo.jpg", noise(3_000));
        assert!(
            check_core_within(dir.path(), 1_000, 500).is_err(),
            "no core at all"
        );
        dir.file("core.wasm", "a".repeat(100_000));
        assert!(check_core_within(dir.path(), 1_000, 500).is_ok());
        dir.file("core.wasm", noise(1_001));
        let text = check_core_within(dir.path(), 1_000, 500)
            .unwrap_err()
            .to_string();
        assert!(
            text.contains("too large") && text.contains("of 1.0 KB allowed"),
            "{text}"
        );
        dir.file("core.wasm", "a".repeat(1_000));
        dir.file("tabside_case_bg-x.wasm", noise(501));
        let text = check_core_within(dir.path(), 1_000, 500)
            .unwrap_err()
            .to_string();
        assert!(text.contains("case files: 0.5 KB"), "{text}");
    }
}
