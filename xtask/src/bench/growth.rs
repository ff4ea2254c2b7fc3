//! How time and memory grow: points of `benches/growth.rs`, their exponents on a log–log scale, and the
//! charts of them.

use super::figure::Figure;
use super::plot::{self, Chart, Line};

/// Beyond this the growth is worse than linear.
pub const LINEAR: f64 = 1.1;
/// How many of the largest sizes say how it goes on: a constant share hides growth at small ones.
const LAST: usize = 3;
const GROUP: &str = "Growth, natively";

/// What grows, and with what.
struct Question {
    key: &'static str,
    file: &'static str,
    title: &'static str,
    axis: &'static str,
}

const QUESTIONS: [Question; 4] = [
    Question {
        key: "megapixels",
        file: "growth-megapixels.svg",
        title: "One photo: opened, searched, read",
        axis: "megapixels of the JPEG",
    },
    Question {
        key: "regions",
        file: "growth-regions.svg",
        title: "First reading of an open photo of 12 megapixels",
        axis: "regions",
    },
    Question {
        key: "swatches",
        file: "growth-swatches.svg",
        title: "Strengths from swatches of two stains, and a plan for three thirds",
        axis: "swatches in the book",
    },
    Question {
        key: "photos",
        file: "growth-photos.svg",
        title: "A case of photos of 1 megapixel, all regions read in each: written, opened",
        axis: "photos in the case",
    },
];

/// One measured point.
#[derive(Debug, Clone, PartialEq)]
pub struct Point {
    question: String,
    series: String,
    size: f64,
    /// `ms` or `bytes`.
    unit: String,
    value: f64,
}

impl Point {
    /// The point of a line; `None` when the line holds none that can be used.
    pub fn of_line(line: &str) -> Option<Self> {
        let parts: Vec<&str> = line.split('\t').collect();
        let ["point", question, series, size, unit, value] = parts.as_slice() else {
            return None;
        };
        let number = |text: &str| text.parse::<f64>().ok().filter(|v| v.is_finite());
        Some(Self {
            question: (*question).to_owned(),
            series: (*series).to_owned(),
            size: number(size)?,
            unit: (*unit).to_owned(),
            value: number(value)?,
        })
    }
}

/// The points of one series, in the order of their sizes.
type Curve = Vec<(f64, f64)>;

fn curves(points: &[Point], question: &str, unit: &str) -> Vec<(String, Curve)> {
    let mut found: Vec<(String, Curve)> = Vec::new();
    for p in points
        .iter()
        .filter(|p| p.question == question && p.unit == unit)
    {
        let at = (p.size, p.value);
        match found.iter_mut().find(|(name, _)| *name == p.series) {
            Some((_, curve)) => curve.push(at),
            None => found.push((p.series.clone(), vec![at])),
        }
    }
    for (_, curve) in &mut found {
        curve.sort_by(|a, b| a.0.total_cmp(&b.0));
    }
    found
}

/// The slope on a log–log scale by least squares; `None` for fewer than two different sizes. Points
/// that are zero have no logarithm and are left out.
pub fn exponent(curve: &[(f64, f64)]) -> Option<f64> {
    let logs: Vec<(f64, f64)> = curve
        .iter()
        .filter(|(size, value)| *size > 0.0 && *value > 0.0)
        .map(|(size, value)| (size.ln(), value.ln()))
        .collect();
    let n = logs.len() as f64;
    let (mx, my) = logs
        .iter()
        .fold((0.0, 0.0), |(x, y), p| (x + p.0 / n, y + p.1 / n));
    let (sxx, sxy) = logs.iter().fold((0.0, 0.0), |(xx, xy), (x, y)| {
        (xx + (x - mx) * (x - mx), xy + (x - mx) * (y - my))
    });
    (sxx > 0.0).then(|| sxy / sxx)
}

/// Of all points, and of the largest.
fn exponents(curve: &[(f64, f64)]) -> Option<(f64, f64)> {
    let last = curve.get(curve.len().saturating_sub(LAST)..)?;
    Some((exponent(curve)?, exponent(last)?))
}

fn unit_word(unit: &str) -> &'static str {
    if unit == "ms" { "time" } else { "memory" }
}

/// A figure per series: the exponent at the large end, where what does not grow hides least.
pub fn figures(points: &[Point]) -> Vec<Figure> {
    let mut found = Vec::new();
    for question in &QUESTIONS {
        for unit in ["ms", "bytes"] {
            let all = curves(points, question.key, unit);
            if all.is_empty() {
                let measure = format!("{} with {}", unit_word(unit), question.axis);
                let why = "no points came; memory is told on Linux only";
                found.push(Figure::missing(GROUP, measure, why));
            }
            for (series, curve) in all {
                let measure = format!(
                    "{} of {series} with {}: exponent",
                    unit_word(unit),
                    question.axis
                );
                let Some((whole, last)) = exponents(&curve) else {
                    found.push(Figure::missing(GROUP, measure, "too few points"));
                    continue;
                };
                let mut figure = Figure::new(GROUP, measure, "", whole.max(last)).at_most(LINEAR);
                figure.note = format!(
                    "{whole:.2} over all, {last:.2} over the last {LAST}; {}",
                    ends(&curve, unit)
                );
                found.push(figure);
            }
        }
    }
    found
}

/// The smallest and the largest point in words.
fn ends(curve: &[(f64, f64)], unit: &str) -> String {
    let said = |(size, value): &(f64, f64)| {
        let value = if unit == "ms" {
            super::figure::with_unit(*value, "ms")
        } else {
            super::figure::with_unit(*value / 1e6, "MB")
        };
        format!("{value} at {size:.0}")
    };
    let ends: Vec<String> = curve
        .first()
        .into_iter()
        .chain(curve.last())
        .map(said)
        .collect();
    ends.join(", ")
}

/// What grows clearly faster than its size, in words.
pub fn worse_than_linear(points: &[Point]) -> Vec<String> {
    figures(points)
        .iter()
        .filter(|f| f.verdict() == super::figure::Verdict::Missed)
        .map(|f| format!("worse than linear: {} {} [{}]", f.measure, f.said(), f.note))
        .collect()
}

/// A chart per question that has points: file name and SVG.
pub fn charts(points: &[Point]) -> Vec<(&'static str, String)> {
    let chart = |question: &Question, unit: &str| {
        let lines: Vec<Line> = curves(points, question.key, unit)
            .into_iter()
            .filter_map(|(name, curve)| {
                let (whole, _) = exponents(&curve)?;
                let k = if unit == "ms" { 1.0 } else { 1e-6 };
                Some(Line {
                    label: format!("{name}, exponent {whole:.2}"),
                    points: curve.iter().map(|(x, y)| (*x, y * k)).collect(),
                })
            })
            .collect();
        Chart {
            y: if unit == "ms" {
                "milliseconds"
            } else {
                "memory, MB"
            }
            .to_owned(),
            x: question.axis.to_owned(),
            lines,
        }
    };
    QUESTIONS
        .iter()
        .map(|q| (q, [chart(q, "ms"), chart(q, "bytes")]))
        .filter(|(_, both)| both.iter().any(|c| !c.lines.is_empty()))
        .map(|(q, both)| (q.file, plot::svg(q.title, &both)))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn points(series: &str, power: f64, constant: f64) -> Vec<Point> {
        [1.0, 3.0, 6.0, 12.0, 24.0, 48.0, 100.0]
            .map(|n: f64| {
                let value = constant + 7.0 * n.powf(power);
                Point::of_line(&format!("point\tmegapixels\t{series}\t{n}\tms\t{value}")).unwrap()
            })
            .to_vec()
    }

    #[test]
    fn the_exponent_is_that_of_the_power() {
        for power in [0.0, 0.5, 1.0, 2.0] {
            let curve = &curves(&points("all", power, 0.0), "megapixels", "ms")[0].1;
            let found = exponent(curve).unwrap();
            assert!((found - power).abs() < 1e-9, "{power}: {found}");
        }
        assert_eq!(exponent(&[(2.0, 3.0)]), None);
        assert_eq!(exponent(&[(2.0, 3.0), (2.0, 5.0)]), None);
        // Memory that did not rise at all has no logarithm.
        let found = exponent(&[(1.0, 0.0), (2.0, 4.0), (4.0, 8.0)]).unwrap();
        assert!((found - 1.0).abs() < 1e-9, "{found}");
    }

    #[test]
    fn what_grows_worse_than_linear_is_named_even_behind_a_large_constant() {
        let mut all = points("straight", 1.0, 0.0);
        assert_eq!(worse_than_linear(&all), Vec::<String>::new());
        all.extend(points("late", 2.0, 2_000.0));
        let whole = exponent(&curves(&all, "megapixels", "ms")[1].1).unwrap();
        assert!(whole < LINEAR, "over all it hides: {whole}");
        let named = worse_than_linear(&all);
        assert!(named.len() == 1 && named[0].contains("late"), "{named:?}");
    }

    #[test]
    fn what_is_no_point_is_none() {
        for line in [
            "point\tmegapixels\tall\t1\tms",
            "point\ta\tb\tx\tms\t1",
            "point\ta\tb\t1\tms\tNaN",
            "figure\t",
        ] {
            assert_eq!(Point::of_line(line), None, "{line}");
        }
    }

    #[test]
    fn a_question_without_points_says_so_and_is_not_drawn() {
        let all = points("all", 1.0, 0.0);
        assert_eq!(charts(&all).len(), 1);
        let said: Vec<String> = figures(&all).iter().map(Figure::said).collect();
        assert_eq!(
            said.iter()
                .filter(|s| s.starts_with("not measured"))
                .count(),
            7
        );
    }
}
