//! Names of tabs as strokes (own drawing), for the marks on their holders.

/// Strokes of one character in a box 0..0.6 × 0..1, y down: polylines.
fn strokes(c: char) -> &'static [&'static [(f32, f32)]] {
    match c {
        'A' => &[
            &[(0.0, 1.0), (0.3, 0.0), (0.6, 1.0)],
            &[(0.11, 0.64), (0.49, 0.64)],
        ],
        'B' => &[
            &[
                (0.0, 0.0),
                (0.0, 1.0),
                (0.42, 1.0),
                (0.58, 0.88),
                (0.58, 0.62),
                (0.42, 0.5),
                (0.0, 0.5),
            ],
            &[
                (0.42, 0.5),
                (0.54, 0.38),
                (0.54, 0.12),
                (0.40, 0.0),
                (0.0, 0.0),
            ],
        ],
        'C' => &[&[
            (0.58, 0.18),
            (0.44, 0.02),
            (0.18, 0.02),
            (0.02, 0.22),
            (0.02, 0.78),
            (0.18, 0.98),
            (0.44, 0.98),
            (0.58, 0.82),
        ]],
        'D' => &[&[
            (0.0, 0.0),
            (0.0, 1.0),
            (0.34, 1.0),
            (0.58, 0.76),
            (0.58, 0.24),
            (0.34, 0.0),
            (0.0, 0.0),
        ]],
        '0' => &[&[
            (0.3, 0.0),
            (0.06, 0.2),
            (0.06, 0.8),
            (0.3, 1.0),
            (0.54, 0.8),
            (0.54, 0.2),
            (0.3, 0.0),
        ]],
        '1' => &[&[(0.12, 0.2), (0.34, 0.0), (0.34, 1.0)]],
        '2' => &[&[
            (0.04, 0.2),
            (0.18, 0.02),
            (0.44, 0.02),
            (0.56, 0.2),
            (0.54, 0.42),
            (0.04, 1.0),
            (0.58, 1.0),
        ]],
        '3' => &[
            &[
                (0.04, 0.1),
                (0.2, 0.0),
                (0.44, 0.02),
                (0.55, 0.2),
                (0.5, 0.4),
                (0.26, 0.48),
            ],
            &[
                (0.26, 0.48),
                (0.52, 0.58),
                (0.57, 0.8),
                (0.42, 0.98),
                (0.18, 1.0),
                (0.02, 0.86),
            ],
        ],
        '4' => &[&[(0.44, 1.0), (0.44, 0.0), (0.02, 0.68), (0.6, 0.68)]],
        '5' => &[&[
            (0.52, 0.0),
            (0.1, 0.0),
            (0.06, 0.46),
            (0.3, 0.38),
            (0.54, 0.52),
            (0.56, 0.8),
            (0.36, 1.0),
            (0.04, 0.92),
        ]],
        '.' => &[&[(0.28, 0.94), (0.32, 0.98)]],
        _ => &[],
    }
}

/// Distance from a place to the nearest stroke of `text` written with letters `height` high,
/// centred on the origin.
pub fn distance(text: &str, height: f32, x: f32, y: f32) -> f32 {
    let widths: Vec<f32> = text
        .chars()
        .map(|c| if c == '.' { 0.42 } else { 0.82 })
        .collect();
    let total: f32 = widths.iter().sum::<f32>() - 0.22;
    let mut left = -total / 2.0;
    let (px, py) = (x / height, y / height + 0.5);
    let mut best = f32::INFINITY;
    for (c, w) in text.chars().zip(widths) {
        let shift = if c == '.' { left - 0.18 } else { left };
        for line in strokes(c) {
            for pair in line.windows(2) {
                let (a, b) = (
                    (pair[0].0 + shift, pair[0].1),
                    (pair[1].0 + shift, pair[1].1),
                );
                let (dx, dy) = (b.0 - a.0, b.1 - a.1);
                let q = (dx * dx + dy * dy).max(1e-9);
                let t = (((px - a.0) * dx + (py - a.1) * dy) / q).clamp(0.0, 1.0);
                best = best.min((px - a.0 - t * dx).hypot(py - a.1 - t * dy));
            }
        }
        left += w;
    }
    best * height
}
