//! Order statistics of plain numbers, and a sort for short lists.
//!
//! The standard library's general sorts are compiled anew for every type and cost the page
//! several kilobytes each; the lists here are short or need one rank only.

/// The value of rank `share` (0 smallest, 1 largest); reorders the values. `None` for none.
pub fn quantile(values: &mut [f32], share: f32) -> Option<f32> {
    let last = values.len().checked_sub(1)?;
    let rank = (last as f32 * share.clamp(0.0, 1.0)).round() as usize;
    let (_, value, _) = values.select_nth_unstable_by(rank.min(last), f32::total_cmp);
    Some(*value)
}

/// The median; reorders the values. `None` for none.
pub fn median(values: &mut [f32]) -> Option<f32> {
    quantile(values, 0.5)
}

/// The items by rising key (NaN last); equal ones keep their order. For lists of any length: one
/// sort of plain numbers serves all types.
pub fn sorted_by_key<T>(items: Vec<T>, key: impl Fn(&T) -> f64) -> Vec<T> {
    let keys: Vec<f64> = items.iter().map(key).collect();
    let mut slots: Vec<Option<T>> = items.into_iter().map(Some).collect();
    rising(&keys)
        .into_iter()
        .filter_map(|i| slots.get_mut(i as usize).and_then(Option::take))
        .collect()
}

/// The places of the numbers in rising order.
fn rising(keys: &[f64]) -> Vec<u32> {
    let ordered = keys.iter().zip(0_u32..).map(|(key, i)| {
        // Bits that order like the numbers: IEEE 754-2008 totalOrder.
        let bits = key.to_bits();
        let flip = if bits >> 63 == 1 { u64::MAX } else { 1 << 63 };
        (bits ^ flip, i)
    });
    let heap: std::collections::BinaryHeap<(u64, u32)> = ordered.collect();
    heap.into_sorted_vec().into_iter().map(|(_, i)| i).collect()
}

/// Sorts a short list in place by `before` (a strict order); equal items keep their order.
pub fn insertion_sort<T>(items: &mut [T], before: impl Fn(&T, &T) -> bool) {
    for end in 1..items.len() {
        let mut at = end;
        while at > 0 {
            let Some([left, right]) = items.get(at - 1..=at).and_then(<[T]>::as_array) else {
                break;
            };
            if !before(right, left) {
                break;
            }
            items.swap(at - 1, at);
            at -= 1;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ranks() {
        let mut v = [5.0, 1.0, 4.0, 2.0, 3.0];
        assert_eq!(quantile(&mut v, 0.0), Some(1.0));
        assert_eq!(quantile(&mut v, 0.25), Some(2.0));
        assert_eq!(median(&mut v), Some(3.0));
        assert_eq!(quantile(&mut v, 1.0), Some(5.0));
        assert_eq!(median(&mut []), None);
    }

    #[test]
    fn sorts_by_key() {
        let v = vec![
            (2.0, 'a'),
            (-1.0, 'b'),
            (f64::NAN, 'c'),
            (2.0, 'd'),
            (-7.5, 'e'),
            (0.0, 'f'),
        ];
        let names: String = sorted_by_key(v, |p| p.0).into_iter().map(|p| p.1).collect();
        assert_eq!(names, "ebfadc");
        assert!(sorted_by_key(Vec::<f64>::new(), |v| *v).is_empty());
    }

    #[test]
    fn sorts_and_keeps_equals() {
        let mut v = [(3, 'a'), (1, 'b'), (3, 'c'), (2, 'd'), (1, 'e')];
        insertion_sort(&mut v, |a, b| a.0 < b.0);
        assert_eq!(v, [(1, 'b'), (1, 'e'), (2, 'd'), (3, 'a'), (3, 'c')]);
    }
}
