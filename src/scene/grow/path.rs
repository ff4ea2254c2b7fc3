//! The closed path of the best sum through a table of scores: one index per direction,
//! neighbours close to each other.

/// The best closed path. `scores` holds `width` numbers per direction; neighbours differ by at
/// most `max_jump`, a jump of d costs `stiffness`·d². Going round once and a half, and pinning
/// the seam to where that passes it again, closes it.
pub fn closed_path(scores: &[f32], width: usize, max_jump: usize, stiffness: f32) -> Vec<usize> {
    let directions = scores.len() / width.max(1);
    let open = best_path(scores, width, max_jump, stiffness, None);
    // The path's end is where it has forgotten its beginning; what lies a turn back from there
    // would close it.
    let pin = open.get(directions).copied();
    let closed = best_path(scores, width, max_jump, stiffness, pin);
    closed.into_iter().take(directions).collect()
}

/// Without a pin: over a turn and a half. With one: over one turn that starts and ends at the pin.
fn best_path(
    scores: &[f32],
    width: usize,
    max_jump: usize,
    stiffness: f32,
    pin: Option<usize>,
) -> Vec<usize> {
    let n = scores.len() / width.max(1);
    if n == 0 {
        return Vec::new();
    }
    // Half a turn more forgets where it began.
    let turns = if pin.is_some() { n + 1 } else { n + n / 2 + 1 };
    // The best sum up to each place of each row; rows are padded by the largest jump, so that no
    // index leaves them. Where a sum came from is looked up again for the one path in the end.
    let padded = width + 2 * max_jump;
    let mut sums = vec![f32::NEG_INFINITY; turns * padded];
    let cost = |jump: usize| {
        let d = jump as f32 - max_jump as f32;
        stiffness * d * d
    };
    let first = sums.iter_mut().skip(max_jump).zip(scores).take(width);
    for (k, (b, s)) in first.enumerate() {
        if pin.is_none_or(|p| p == k) {
            *b = *s;
        }
    }
    let mut rows = sums.chunks_exact_mut(padded);
    let mut before: &[f32] = rows.next().unwrap_or_default();
    for (row, next) in scores.chunks_exact(width).cycle().skip(1).zip(rows) {
        let Some(values) = next.get_mut(max_jump..max_jump + width) else {
            break;
        };
        let from = |jump: usize| before.get(jump..jump + width).unwrap_or_default();
        values.copy_from_slice(from(max_jump));
        // Jump by jump over the whole row: plain loops that the compiler makes wide. A jump to
        // either side costs the same.
        for jump in 0..max_jump {
            let cost = cost(jump);
            let sides = from(jump).iter().zip(from(2 * max_jump - jump));
            for (value, (a, b)) in values.iter_mut().zip(sides) {
                let most = if a > b { *a } else { *b } - cost;
                *value = if most > *value { most } else { *value };
            }
        }
        for (value, own) in values.iter_mut().zip(row) {
            *value += own;
        }
        before = next;
    }
    let mut k = pin.unwrap_or_else(|| {
        let inside = before.iter().skip(max_jump).take(width).enumerate();
        inside
            .max_by(|a, b| a.1.total_cmp(b.1))
            .map_or(0, |(k, _)| k)
    });
    let mut path = vec![k];
    for row in sums.chunks_exact(padded).rev().skip(1) {
        let mut came = (f32::NEG_INFINITY, 0);
        for (jump, b) in row.iter().skip(k).take(2 * max_jump + 1).enumerate() {
            let total = b - cost(jump);
            if total > came.0 {
                came = (total, jump);
            }
        }
        k = (k + came.1)
            .saturating_sub(max_jump)
            .min(width.saturating_sub(1));
        path.push(k);
    }
    path.reverse();
    path
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn follows_a_ridge_round_and_closes() {
        // A ridge that wanders by one per direction and comes back.
        let ridge: Vec<usize> = (0..32).map(|i: usize| 10 + i.min(32 - i) / 2).collect();
        let mut scores = vec![0.0_f32; 32 * 40];
        for (i, k) in ridge.iter().enumerate() {
            scores[i * 40 + k] = 1.0;
        }
        assert_eq!(closed_path(&scores, 40, 2, 0.01), ridge);
        // A stiff path does not follow.
        assert_ne!(closed_path(&scores, 40, 2, 9.0), ridge);
    }

    #[test]
    fn a_far_peak_cannot_be_jumped_to() {
        let mut scores = vec![0.0_f32; 16 * 30];
        for i in 0..16 {
            scores[i * 30 + 5] = 1.0;
        }
        scores[8 * 30 + 25] = 3.0;
        assert_eq!(closed_path(&scores, 30, 3, 0.01), vec![5; 16]);
        assert!(closed_path(&[], 30, 3, 0.01).is_empty());
    }
}
