//! Small charts as SVG: both axes logarithmic, lines named at their ends, black on white so that they
//! print.

use std::fmt::Write as _;

/// Curves under one scale.
pub struct Chart {
    /// What the horizontal axis is, with its unit.
    pub x: String,
    /// What the vertical axis is, with its unit.
    pub y: String,
    pub lines: Vec<Line>,
}

/// A named curve.
pub struct Line {
    pub label: String,
    /// In the order of x; only what is above zero can be drawn.
    pub points: Vec<(f64, f64)>,
}

const PLOT: (f64, f64) = (300.0, 260.0);
/// Room for numbers and names: left, top, right, bottom.
const AROUND: (f64, f64, f64, f64) = (62.0, 60.0, 168.0, 52.0);
const PANEL: f64 = AROUND.0 + PLOT.0 + AROUND.2;
const LETTER: f64 = 13.0;
/// Told apart without colour.
const DASHES: [&str; 4] = ["", "7 3", "2 3", "9 3 2 3"];
const INK: [&str; 4] = ["#111", "#1f4e79", "#7a3b00", "#4a4a4a"];

/// The charts side by side under a title.
pub fn svg(title: &str, charts: &[Chart]) -> String {
    let (width, height) = (PANEL * charts.len() as f64, AROUND.1 + PLOT.1 + AROUND.3);
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width} {height}\" width=\"{width}\" height=\"{height}\" \
         font-family=\"sans-serif\" font-size=\"{LETTER}\" fill=\"#111\">\n\
         <title>{title}</title>\n<rect width=\"{width}\" height=\"{height}\" fill=\"#fff\"/>\n\
         <text x=\"{}\" y=\"24\" font-size=\"16\" font-weight=\"bold\">{title}</text>\n",
        AROUND.0,
        title = plain(title)
    );
    for (i, chart) in charts.iter().enumerate() {
        let _ = writeln!(
            out,
            "<g transform=\"translate({} {})\">",
            PANEL * i as f64 + AROUND.0,
            AROUND.1
        );
        panel(&mut out, chart);
        out.push_str("</g>\n");
    }
    out + "</svg>\n"
}

fn panel(out: &mut String, chart: &Chart) {
    let (w, h) = PLOT;
    let drawn = |line: &Line| -> Vec<(f64, f64)> {
        let above = |(x, y): &(f64, f64)| *x > 0.0 && *y > 0.0;
        line.points.iter().copied().filter(above).collect()
    };
    let all: Vec<(f64, f64)> = chart.lines.iter().flat_map(drawn).collect();
    let text = |out: &mut String, x: f64, y: f64, anchor: &str, words: &str| {
        let _ = writeln!(
            out,
            "<text x=\"{x:.1}\" y=\"{y:.1}\" text-anchor=\"{anchor}\">{}</text>",
            plain(words)
        );
    };
    text(out, -AROUND.0 + 8.0, -14.0, "start", &chart.y);
    if all.is_empty() {
        return text(out, w / 2.0, h / 2.0, "middle", "not measured");
    }
    let (x, y) = (
        Scale::over(all.iter().map(|p| p.0), w),
        Scale::over(all.iter().map(|p| p.1), h),
    );
    for tick in x.ticks() {
        let at = x.place(tick);
        let _ = writeln!(
            out,
            "<path d=\"M{at:.1} 0V{h}\" stroke=\"#ccc\" stroke-width=\"0.6\"/>"
        );
        text(out, at, h + 18.0, "middle", &short(tick));
    }
    for tick in y.ticks() {
        let at = h - y.place(tick);
        let _ = writeln!(
            out,
            "<path d=\"M0 {at:.1}H{w}\" stroke=\"#ccc\" stroke-width=\"0.6\"/>"
        );
        text(out, -8.0, at + 4.5, "end", &short(tick));
    }
    text(out, w / 2.0, h + 40.0, "middle", &chart.x);
    let _ = writeln!(
        out,
        "<path d=\"M0 0V{h}H{w}\" fill=\"none\" stroke=\"#111\"/>"
    );
    let mut names = Vec::new();
    for (i, line) in chart.lines.iter().enumerate() {
        let (ink, dash) = (INK[i % INK.len()], DASHES[i % DASHES.len()]);
        let places: Vec<(f64, f64)> = drawn(line)
            .iter()
            .map(|p| (x.place(p.0), h - y.place(p.1)))
            .collect();
        let Some(last) = places.last() else { continue };
        names.push((last.1, line.label.clone(), ink));
        let path: Vec<String> = places
            .iter()
            .map(|(x, y)| format!("{x:.1} {y:.1}"))
            .collect();
        let _ = writeln!(
            out,
            "<path d=\"M{}\" fill=\"none\" stroke=\"{ink}\" stroke-width=\"1.8\" stroke-dasharray=\"{dash}\"/>",
            path.join("L")
        );
        for (x, y) in places {
            let _ = writeln!(
                out,
                "<circle cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"3\" fill=\"{ink}\"/>"
            );
        }
    }
    // Names beside the ends, pushed apart where the ends lie close.
    names.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut free = f64::NEG_INFINITY;
    for (at, label, ink) in names {
        let at = at.max(free);
        free = at + LETTER + 4.0;
        let _ = writeln!(
            out,
            "<text x=\"{:.1}\" y=\"{:.1}\" fill=\"{ink}\">{}</text>",
            w + 10.0,
            at + 4.5,
            plain(&label)
        );
    }
}

/// A logarithmic scale from one round number to another.
struct Scale {
    low: f64,
    high: f64,
    length: f64,
}

impl Scale {
    fn over(values: impl Iterator<Item = f64>, length: f64) -> Self {
        let (least, most) = values.fold((f64::INFINITY, 0.0_f64), |(a, b), v| (a.min(v), b.max(v)));
        let low = round_numbers(least)
            .rfind(|t| *t <= least * 1.01)
            .unwrap_or(least);
        let high = round_numbers(most)
            .find(|t| *t >= most * 0.99 && *t > low)
            .unwrap_or(most * 2.0);
        Self { low, high, length }
    }

    fn place(&self, value: f64) -> f64 {
        (value / self.low).ln() / (self.high / self.low).ln() * self.length
    }

    /// Round numbers, thinned where they are many.
    fn ticks(&self) -> Vec<f64> {
        let decades = (self.high / self.low).log10();
        let first: i32 = self.low.log10().floor() as i32;
        (first..=first + decades.ceil() as i32 + 1)
            .flat_map(|e| [1.0, 2.0, 5.0].map(|k| (k, 10.0_f64.powi(e))))
            .filter(|(k, _)| decades < 2.6 || *k == 1.0)
            .map(|(k, ten)| k * ten)
            .filter(|t| *t >= self.low * 0.999 && *t <= self.high * 1.001)
            .collect()
    }
}

/// 1, 2, 5 in the decades around a value, rising.
fn round_numbers(value: f64) -> impl DoubleEndedIterator<Item = f64> {
    let e = value.log10().floor() as i32;
    (e - 1..=e + 1).flat_map(|e| [1.0, 2.0, 5.0].map(|k| k * 10.0_f64.powi(e)))
}

fn short(value: f64) -> String {
    if value >= 1000.0 {
        let whole = format!("{value:.0}");
        let (head, tail) = whole.split_at(whole.len() - 3);
        return format!("{head}\u{2009}{tail}");
    }
    let text = format!("{value:.3}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

fn plain(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn chart(lines: &[(&str, &[(f64, f64)])]) -> Chart {
        Chart {
            x: "megapixels".to_owned(),
            y: "milliseconds".to_owned(),
            lines: lines
                .iter()
                .map(|(label, points)| Line {
                    label: (*label).to_owned(),
                    points: points.to_vec(),
                })
                .collect(),
        }
    }

    #[test]
    fn every_point_lies_within_and_equal_ratios_are_equal_steps() {
        let scale = Scale::over([1.0, 97.0].into_iter(), 300.0);
        assert_eq!((scale.low, scale.high), (1.0, 100.0));
        let step = scale.place(10.0) - scale.place(1.0);
        assert!((scale.place(100.0) - scale.place(10.0) - step).abs() < 1e-9);
        assert_eq!(scale.ticks(), [1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0]);
        assert_eq!(Scale::over([3.0, 3.0].into_iter(), 9.0).ticks(), [2.0, 5.0]);
    }

    #[test]
    fn axes_units_names_and_points_are_there() {
        let text = svg(
            "A & B",
            &[chart(&[(
                "all, exponent 1.00",
                &[(1.0, 10.0), (10.0, 100.0)],
            )])],
        );
        for part in [
            "A &amp; B",
            "megapixels",
            "milliseconds",
            "all, exponent 1.00",
            "fill=\"#fff\"",
        ] {
            assert!(text.contains(part), "{part}: {text}");
        }
        assert_eq!(text.matches("<circle").count(), 2);
        assert!(!text.contains("NaN") && !text.contains("inf"), "{text}");
    }

    #[test]
    fn what_is_zero_is_left_out_and_nothing_at_all_is_said() {
        let text = svg(
            "t",
            &[
                chart(&[("a", &[(1.0, 0.0), (2.0, 4.0)])]),
                chart(&[("b", &[(1.0, 0.0)])]),
            ],
        );
        assert_eq!(text.matches("<circle").count(), 1);
        assert!(text.contains("not measured"), "{text}");
        assert!(!text.contains("NaN") && !text.contains("inf"), "{text}");
    }
}
