//! Medians and shares of lists of numbers.

/// The value below which the share `share` (0–1) of the numbers lies; NaN for none.
pub fn percentile(values: &[f64], share: f64) -> f64 {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    let last = sorted.len().saturating_sub(1);
    sorted
        .get((last as f64 * share).round() as usize)
        .copied()
        .unwrap_or(f64::NAN)
}

/// The median; NaN for none.
pub fn median(values: &[f64]) -> f64 {
    percentile(values, 0.5)
}

/// The share of `true`, in percent; NaN for none.
pub fn percent(values: &[bool]) -> f64 {
    let hits = values.iter().filter(|v| **v).count();
    100.0 * hits as f64 / values.len() as f64
}
