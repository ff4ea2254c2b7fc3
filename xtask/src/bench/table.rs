//! Figures as tables in the documentation, one per group, in the order in which they came.

use super::figure::{Figure, Value, Verdict, with_unit};
use std::fmt::Write as _;

/// The tables, each under its heading.
pub fn markdown(figures: &[Figure]) -> String {
    let mut groups: Vec<&str> = Vec::new();
    for figure in figures {
        if !groups.contains(&figure.group.as_str()) {
            groups.push(&figure.group);
        }
    }
    let mut text = String::new();
    for group in groups {
        let _ = write!(
            text,
            "\n## {}\n\n| measure | reference | median | ratio or figure | target | met? |\n|---|---|---|---|---|---|\n",
            cell(group)
        );
        for figure in figures.iter().filter(|f| f.group == group) {
            text.push_str(&row(figure));
        }
    }
    text
}

fn row(figure: &Figure) -> String {
    let reference = figure
        .reference
        .as_ref()
        .map_or("–".to_owned(), |(name, value)| {
            format!("{}, {name}", with_unit(*value, &figure.unit))
        });
    let (median, judged) = match &figure.value {
        Value::Missing(_) => ("–".to_owned(), figure.said()),
        Value::Measured(_) => {
            let note = match figure.note.as_str() {
                "" => String::new(),
                note => format!(" ({note})"),
            };
            let judged = figure
                .ratio()
                .map_or(figure.said(), |r| format!("{r:.2} ×"));
            (figure.said() + &note, judged)
        }
    };
    let met = match figure.verdict() {
        Verdict::Met => "yes",
        Verdict::Missed => "**no**",
        Verdict::NoTarget => "–",
        Verdict::NotMeasured => "not measured",
        Verdict::Broken => "**BROKEN**",
    };
    let cells = [
        figure.measure.clone(),
        reference,
        median,
        judged,
        figure.said_target(),
        met.to_owned(),
    ];
    format!("| {} |\n", cells.map(|c| cell(&c)).join(" | "))
}

/// A line and a bar of its own would break the table.
fn cell(text: &str) -> String {
    text.replace('|', "\\|").replace(['\n', '\r'], " ")
}

/// How many are as they should be, and which are not.
pub fn summary(figures: &[Figure]) -> String {
    let of = |verdict: &Verdict| {
        figures
            .iter()
            .filter(|f| f.verdict() == *verdict)
            .collect::<Vec<_>>()
    };
    let (met, missed, absent) = (
        of(&Verdict::Met),
        of(&Verdict::Missed),
        of(&Verdict::NotMeasured),
    );
    let mut text = format!(
        "{} figures: {} targets met, {} missed, {} not measured.\n",
        figures.len(),
        met.len(),
        missed.len(),
        absent.len()
    );
    for (word, list) in [
        ("missed", missed),
        ("open", absent),
        ("BROKEN", of(&Verdict::Broken)),
    ] {
        for figure in list {
            let said = figure
                .ratio()
                .map_or(figure.said(), |r| format!("{r:.2} ×"));
            let _ = writeln!(
                text,
                "  {word}: {} – {}: {said}, target {}",
                figure.group,
                figure.measure,
                figure.said_target()
            );
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    fn some() -> Vec<Figure> {
        let mut own = Figure::new("Engine 1", "a | b", "ms", 62.0).at_most(0.4);
        own.reference = Some(("own".to_owned(), 94.0));
        own.note = "58–71, 9 times".to_owned();
        vec![
            own,
            Figure::new("Engine 2", "plan", "ms", 12.0).at_most(20.0),
            Figure::missing("Engine 1", "memory", "nobody answered"),
            Figure::new("Engine 2", "odd", "ms", f64::NAN),
        ]
    }

    #[test]
    fn there_is_one_table_per_group_and_one_row_per_figure() {
        let text = markdown(&some());
        let first = "| a \\| b | 94 ms, own | 62 ms (58–71, 9 times) | 0.66 × | ≤ 0.4 × | **no** |";
        assert!(text.contains(first), "{text}");
        assert!(
            text.contains("| plan | – | 12 ms | 12 ms | ≤ 20 ms | yes |"),
            "{text}"
        );
        let absent = "| memory | – | – | not measured: nobody answered | – | not measured |";
        assert!(text.contains(absent), "{text}");
        assert_eq!(text.matches("\n## ").count(), 2);
        let (one, two) = (text.find("## Engine 1"), text.find("## Engine 2"));
        assert!(one < two && text.find("| memory") < two, "{text}");
    }

    #[test]
    fn a_broken_figure_stands_out_in_table_and_summary() {
        let text = markdown(&some());
        assert!(
            text.contains("| odd | – | NaN ms | NaN ms | – | **BROKEN** |"),
            "{text}"
        );
        let summary = summary(&some());
        assert!(
            summary.starts_with("4 figures: 1 targets met, 1 missed, 1 not measured."),
            "{summary}"
        );
        assert!(summary.contains("BROKEN: Engine 2 – odd"), "{summary}");
        assert!(
            summary.contains("missed: Engine 1 – a | b: 0.66 ×"),
            "{summary}"
        );
    }
}
