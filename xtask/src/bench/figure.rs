//! One figure: what was measured, against what, and whether it is as it should be.
//!
//! The scripts print them as lines of `key=value`, parted by tabs (`www/bench/figure.mjs`).

use std::fmt::Write as _;

/// How a line that holds a figure begins.
pub const MARK: &str = "figure\t";

/// What was measured in one run.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Figure {
    /// The table that it belongs to: an engine, a photo, a part.
    pub group: String,
    /// What was measured.
    pub measure: String,
    /// In which unit; empty for plain numbers.
    pub unit: String,
    /// The figure, or why there is none.
    pub value: Value,
    /// What the same run measured beside it, and the figure of that in the same unit.
    pub reference: Option<(String, f64)>,
    /// The most that may be: of the ratio where there is a reference, else in the unit.
    pub target: Option<f64>,
    /// Spread, number of rounds, what has to be known.
    pub note: String,
}

/// A figure, or why there is none.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// In the figure's unit.
    Measured(f64),
    /// Why it could not be measured here.
    Missing(String),
}

impl Default for Value {
    fn default() -> Self {
        Self::Missing(String::new())
    }
}

/// Whether a figure is as it should be.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Verdict {
    /// Within its target.
    Met,
    /// Beyond its target.
    Missed,
    /// Nothing was aimed at.
    NoTarget,
    /// It could not be measured.
    NotMeasured,
    /// What came cannot be a figure.
    Broken,
}

impl Figure {
    /// A figure in a table, without reference or target.
    pub fn new(group: &str, measure: impl Into<String>, unit: &str, value: f64) -> Self {
        Self {
            group: group.to_owned(),
            measure: measure.into(),
            unit: unit.to_owned(),
            value: Value::Measured(value),
            ..Self::default()
        }
    }

    /// What could not be measured.
    pub fn missing(group: &str, measure: impl Into<String>, why: impl Into<String>) -> Self {
        Self {
            group: group.to_owned(),
            measure: measure.into(),
            value: Value::Missing(why.into()),
            ..Self::default()
        }
    }

    /// With the most that it may be.
    pub fn at_most(mut self, target: f64) -> Self {
        self.target = Some(target);
        self
    }

    /// The figure of a line; `None` when the line holds none. What does not stand there as it should
    /// becomes a figure that is broken, so that it is seen.
    pub fn of_line(line: &str) -> Option<Self> {
        let mut figure = Self::default();
        let (mut value, mut why) = (None, None);
        let (mut reference, mut reference_value) = (None, None);
        for part in line.strip_prefix(MARK)?.split('\t') {
            let (key, text) = part.split_once('=').unwrap_or(("note", part));
            let number = || text.parse::<f64>().unwrap_or(f64::NAN);
            match key {
                "group" => text.clone_into(&mut figure.group),
                "measure" => text.clone_into(&mut figure.measure),
                "unit" => text.clone_into(&mut figure.unit),
                "value" => value = Some(number()),
                "why" => why = Some(text.to_owned()),
                "reference" => reference = Some(text.to_owned()),
                "reference-value" => reference_value = Some(number()),
                "target" => figure.target = Some(number()),
                "note" => text.clone_into(&mut figure.note),
                other => {
                    let _ = write!(figure.note, " ({other}: {text})");
                }
            }
        }
        figure.value = why.map_or(Value::Measured(value.unwrap_or(f64::NAN)), Value::Missing);
        if reference.is_some() || reference_value.is_some() {
            let name = reference.unwrap_or_default();
            figure.reference = Some((name, reference_value.unwrap_or(f64::NAN)));
        }
        Some(figure)
    }

    /// The figure against its reference.
    pub fn ratio(&self) -> Option<f64> {
        match (&self.value, &self.reference) {
            (Value::Measured(value), Some((_, reference))) => Some(value / reference),
            _ => None,
        }
    }

    /// Whether it is as it should be.
    pub fn verdict(&self) -> Verdict {
        let Value::Measured(value) = self.value else {
            return Verdict::NotMeasured;
        };
        let judged = self.ratio().unwrap_or(value);
        let sound_reference = self.reference.as_ref().is_none_or(|(_, v)| *v > 0.0);
        let sound = value.is_finite() && judged.is_finite() && sound_reference;
        if !sound || self.group.is_empty() || self.measure.is_empty() {
            return Verdict::Broken;
        }
        match self.target {
            None => Verdict::NoTarget,
            Some(target) if target.is_nan() => Verdict::Broken,
            Some(target) if judged <= target => Verdict::Met,
            Some(_) => Verdict::Missed,
        }
    }

    /// The figure with its unit, or why there is none.
    pub fn said(&self) -> String {
        match &self.value {
            Value::Measured(value) => with_unit(*value, &self.unit),
            Value::Missing(why) => format!("not measured: {why}"),
        }
    }

    /// The most that may be, in words.
    pub fn said_target(&self) -> String {
        match (self.target, &self.reference) {
            (None, _) => "–".to_owned(),
            (Some(target), Some(_)) => format!("≤ {target} ×"),
            (Some(target), None) => format!("≤ {}", with_unit_as_is(target, &self.unit)),
        }
    }

    /// One line for people.
    pub fn line(&self) -> String {
        let mut line = format!("  {:<76} {:>12}", self.measure, self.said());
        if let (Some(ratio), Some((name, value))) = (self.ratio(), &self.reference) {
            let _ = write!(
                line,
                "   {ratio:.2} × {name} ({})",
                with_unit(*value, &self.unit)
            );
        }
        if self.target.is_some() {
            let _ = write!(line, ", target {}", self.said_target());
        }
        match self.verdict() {
            Verdict::Missed => line.push_str(": MISSED"),
            Verdict::Broken => line.push_str(": BROKEN"),
            _ => {}
        }
        if !self.note.is_empty() {
            let _ = write!(line, "   [{}]", self.note);
        }
        line
    }
}

/// Three figures that count, and the unit.
pub fn with_unit(value: f64, unit: &str) -> String {
    let size = value.abs();
    let digits = if size >= 100.0 || size == 0.0 {
        0
    } else if size >= 10.0 {
        1
    } else {
        2
    };
    let whole = value.fract() == 0.0 && size < 100.0;
    let number = if whole {
        format!("{value:.0}")
    } else {
        format!("{value:.digits$}")
    };
    format!("{number} {unit}").trim_end().to_owned()
}

/// Targets are round numbers.
fn with_unit_as_is(value: f64, unit: &str) -> String {
    format!("{value} {unit}").trim_end().to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(line: &str) -> Figure {
        Figure::of_line(&line.replace('|', "\t")).expect("a figure")
    }

    #[test]
    fn a_ratio_is_judged_where_there_is_a_reference() {
        let line = "figure|group=A|measure=m|unit=ms|value=40|reference=own|reference-value=100|target=0.4";
        let figure = of(line);
        assert_eq!(figure.ratio(), Some(0.4));
        assert_eq!(figure.verdict(), Verdict::Met);
        assert_eq!(figure.said_target(), "≤ 0.4 ×");
        assert_eq!(of(&line.replace("=40|", "=41|")).verdict(), Verdict::Missed);
    }

    #[test]
    fn without_a_reference_the_figure_itself_is_judged() {
        let figure = of("figure|group=A|measure=m|unit=ms|value=16.04|target=16");
        assert_eq!(figure.verdict(), Verdict::Missed);
        assert_eq!(
            (figure.said().as_str(), figure.said_target().as_str()),
            ("16.0 ms", "≤ 16 ms")
        );
        assert!(figure.line().ends_with("MISSED"), "{}", figure.line());
        let free = of("figure|group=A|measure=m|unit=ms|value=16");
        assert_eq!(free.verdict(), Verdict::NoTarget);
    }

    #[test]
    fn a_broken_figure_is_seen() {
        for line in [
            "figure|group=A|measure=m|unit=ms|value=NaN",
            "figure|group=A|measure=m|unit=ms|value=undefined|target=3",
            "figure|group=A|measure=m|unit=ms",
            "figure|group=A|measure=m|value=1|reference=own|reference-value=0|target=2",
            "figure|group=A|measure=m|value=1|reference=own",
            "figure|group=A|measure=m|value=1|target=soon",
            "figure|measure=m|value=1",
            "figure|",
        ] {
            let figure = of(line);
            assert_eq!(figure.verdict(), Verdict::Broken, "{line}");
            assert!(figure.line().contains("BROKEN"), "{line}");
        }
        assert_eq!(Figure::of_line("  figures are fine"), None);
    }

    #[test]
    fn what_could_not_be_measured_says_why() {
        let figure = of("figure|group=A|measure=m|target=2|why=no engine here");
        assert_eq!(figure.verdict(), Verdict::NotMeasured);
        assert_eq!(figure.said(), "not measured: no engine here");
    }

    #[test]
    fn numbers_have_three_figures() {
        for (value, said) in [
            (1234.5, "1234 ms"),
            (123.4, "123 ms"),
            (24.34, "24.3 ms"),
            (7.0, "7 ms"),
            (0.123, "0.12 ms"),
            (-3.21, "-3.21 ms"),
        ] {
            assert_eq!(with_unit(value, "ms"), said);
        }
    }
}
