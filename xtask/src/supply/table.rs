//! The table of what is shipped, as a file: written with sizes, compared without.

use super::crates::Packages;
use std::collections::BTreeMap;
use std::fmt::Write as _;

/// Bytes by name, one map for each column of sizes.
pub type Sizes = BTreeMap<String, u64>;

/// One table of the file.
pub struct Table<'a> {
    /// Its heading.
    pub title: &'a str,
    /// Words between heading and table.
    pub words: &'a str,
    /// The packages.
    pub packages: &'a Packages,
    /// Why each that the project asks for is there.
    pub why: &'a [(&'a str, &'a str)],
    /// Columns of sizes, by their headings.
    pub sizes: Vec<(&'a str, &'a Sizes)>,
}

impl Table<'_> {
    /// Direct packages without a reason, in words.
    pub fn without_reason(&self) -> Vec<String> {
        self.packages
            .iter()
            .filter(|((name, _), package)| package.direct && self.reason(name).is_none())
            .map(|((name, _), _)| {
                format!("xtask/src/supply/why.rs does not say why {name} is there")
            })
            .collect()
    }

    fn reason(&self, name: &str) -> Option<&str> {
        self.why
            .iter()
            .find(|(known, _)| *known == name)
            .map(|(_, why)| *why)
    }

    /// As Markdown.
    pub fn markdown(&self) -> String {
        let mut text = format!(
            "## {}\n\n{}\n\n| package | version | licence | kept by | why |",
            self.title, self.words
        );
        for (heading, _) in &self.sizes {
            let _ = write!(text, " {heading} |");
        }
        text.push_str("\n|---|---|---|---|---|");
        text.push_str(&"--:|".repeat(self.sizes.len()));
        text.push('\n');
        for ((name, version), package) in self.packages {
            let why = match (self.reason(name), package.by.as_slice()) {
                (Some(why), _) if package.direct => why.to_owned(),
                (_, by) => format!("for {}", by.join(", ")),
            };
            let _ = write!(
                text,
                "| {name} | {version} | {} | {} | {why} |",
                package.licence, package.keeper
            );
            for (_, sizes) in &self.sizes {
                let bytes = sizes.get(name).or_else(|| sizes.get(&in_code(name)));
                let _ = write!(text, " {} |", kilobytes(bytes.copied()));
            }
            text.push('\n');
        }
        text.push('\n');
        text
    }
}

/// What a crate is called in code.
fn in_code(name: &str) -> String {
    match name {
        "kamadak-exif" => "exif".to_owned(),
        _ => name.replace('-', "_"),
    }
}

/// `12.3`, or a dash for nothing.
pub fn kilobytes(bytes: Option<u64>) -> String {
    match bytes {
        None | Some(0) => "–".to_owned(),
        Some(bytes) if bytes < 100 => "< 0.1".to_owned(),
        Some(bytes) => crate::size::kilobytes(bytes),
    }
}

/// Adds up the bytes of what is not in any of these packages, by name.
pub fn rest(sizes: &Sizes, packages: &Packages) -> Vec<(String, u64)> {
    let mut rest: Vec<_> = sizes
        .iter()
        .filter(|(found, _)| {
            !packages
                .keys()
                .any(|(name, _)| name == *found || in_code(name) == **found)
        })
        .map(|(name, bytes)| (name.clone(), *bytes))
        .collect();
    rest.sort_by_key(|(_, bytes)| std::cmp::Reverse(*bytes));
    rest
}

/// The file without its sizes: they change with every change of the code, and are not compared.
pub fn without_sizes(text: &str) -> String {
    let mut columns = 0;
    let mut kept = String::new();
    for line in text.lines() {
        let cells: Vec<&str> = line.split('|').collect();
        if line.starts_with("| package |") {
            columns = cells.iter().filter(|cell| cell.contains("KB")).count();
        }
        if line.starts_with(SIZES_ONLY) {
            continue;
        }
        if line.starts_with('|') {
            let end = cells.len().saturating_sub(columns + 1);
            kept.push_str(&cells.get(..end).unwrap_or_default().join("|"));
        } else {
            kept.push_str(line);
        }
        kept.push('\n');
    }
    kept
}

/// How lines begin that tell of sizes and nothing else.
pub const SIZES_ONLY: &str = "Measured: ";

/// The lines by which two texts differ, in words; at most a handful.
pub fn differences(kept: &str, wanted: &str) -> Vec<String> {
    let missing = |from: &str, of: &str, word: &str| -> Vec<String> {
        from.lines()
            .filter(|line| !of.lines().any(|other| other == *line))
            .map(|line| format!("{word}: {line}"))
            .collect()
    };
    let mut all = missing(wanted, kept, "missing");
    all.extend(missing(kept, wanted, "no longer true"));
    if all.is_empty() && kept != wanted {
        all.push("the order of the lines".to_owned());
    }
    all.truncate(12);
    all
}

#[cfg(test)]
mod tests {
    use super::super::crates::Package;
    use super::*;

    fn packages(version: &str) -> Packages {
        let package = |by: &[&str], direct| Package {
            licence: "MIT".to_owned(),
            keeper: "they".to_owned(),
            by: by.iter().map(|b| (*b).to_owned()).collect(),
            direct,
        };
        [
            (("a-b".to_owned(), version.to_owned()), package(&[], true)),
            (
                ("c".to_owned(), "2.0.0".to_owned()),
                package(&["a-b"], false),
            ),
        ]
        .into()
    }

    fn text(packages: &Packages, sizes: &Sizes) -> String {
        table(packages, sizes, &[("a-b", "reasons")]).markdown()
    }

    fn table<'a>(
        packages: &'a Packages,
        sizes: &'a Sizes,
        why: &'a [(&'a str, &'a str)],
    ) -> Table<'a> {
        Table {
            title: "T",
            words: "W",
            packages,
            why,
            sizes: vec![("core KB", sizes), ("case KB", sizes)],
        }
    }

    #[test]
    fn each_package_has_its_reason_or_who_brings_it() {
        let packages = packages("1.0.0");
        let sizes = Sizes::from([("a_b".to_owned(), 12_345)]);
        let text = text(&packages, &sizes);
        assert!(
            text.contains("| a-b | 1.0.0 | MIT | they | reasons | 12.3 | 12.3 |"),
            "{text}"
        );
        assert!(
            text.contains("| c | 2.0.0 | MIT | they | for a-b | – | – |"),
            "{text}"
        );
        assert!(
            table(&packages, &sizes, &[("a-b", "r")])
                .without_reason()
                .is_empty()
        );
        let missing = table(&packages, &sizes, &[("c", "r")]).without_reason();
        assert!(
            missing.len() == 1 && missing[0].contains("why a-b is"),
            "{missing:?}"
        );
    }

    #[test]
    fn sizes_are_not_compared_and_all_else_is() {
        let none = Sizes::new();
        let some = Sizes::from([("c".to_owned(), 5_000)]);
        let old = without_sizes(&text(&packages("1.0.0"), &none));
        assert_eq!(old, without_sizes(&text(&packages("1.0.0"), &some)));
        let new = without_sizes(&text(&packages("1.0.1"), &some));
        let told = differences(&old, &new);
        assert_eq!(told.len(), 2, "{told:?}");
        assert!(told[0].starts_with("missing: | a-b | 1.0.1"), "{told:?}");
        assert!(without_sizes("Measured: x\ny\n") == "y\n");
    }

    #[test]
    fn what_belongs_to_no_package_is_told_apart() {
        let sizes = Sizes::from([
            ("a_b".to_owned(), 1),
            ("x".to_owned(), 2),
            ("y".to_owned(), 3),
        ]);
        let rest = rest(&sizes, &packages("1"));
        assert_eq!(rest, [("y".to_owned(), 3), ("x".to_owned(), 2)]);
    }
}
