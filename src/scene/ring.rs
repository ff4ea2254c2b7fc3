//! Closed rings of plain coordinates: sides, area, middle, inside, hull. Units are the caller's;
//! the closing side, from the last corner to the first, belongs to the ring.

use crate::colour::order::sorted_by_key;

/// A place, `[x, y]`.
pub type Place = [f64; 2];

/// The sides, each as its two ends.
pub fn sides<T: Copy + Into<Place>>(ring: &[T]) -> impl Iterator<Item = (Place, Place)> + '_ {
    let next = ring.iter().cycle().skip(1);
    ring.iter()
        .zip(next)
        .map(|(a, b)| ((*a).into(), (*b).into()))
}

/// Enclosed area, and the middle of it; area 0 and the first corner when there is none.
pub fn area_and_centroid<T: Copy + Into<Place>>(ring: &[T]) -> (f64, Place) {
    // Relative to the first corner, so that far-away rings lose no digits.
    let origin = ring.first().map_or([0.0; 2], |p| (*p).into());
    let (mut twice, mut cx, mut cy) = (0.0, 0.0, 0.0);
    for (a, b) in sides(ring) {
        let (ax, ay) = (a[0] - origin[0], a[1] - origin[1]);
        let (bx, by) = (b[0] - origin[0], b[1] - origin[1]);
        let cross = ax * by - bx * ay;
        twice += cross;
        cx += (ax + bx) * cross;
        cy += (ay + by) * cross;
    }
    if twice.abs() < 1e-9 {
        return (0.0, origin);
    }
    (
        twice.abs() / 2.0,
        [
            origin[0] + cx / (3.0 * twice),
            origin[1] + cy / (3.0 * twice),
        ],
    )
}

/// Enclosed area.
pub fn area<T: Copy + Into<Place>>(ring: &[T]) -> f64 {
    area_and_centroid(ring).0
}

/// Whether a place lies inside (even-odd rule).
pub fn contains<T: Copy + Into<Place>>(ring: &[T], [x, y]: Place) -> bool {
    sides(ring).fold(false, |inside, (a, b)| {
        let crosses =
            (a[1] > y) != (b[1] > y) && x < (b[0] - a[0]) * (y - a[1]) / (b[1] - a[1]) + a[0];
        inside != crosses
    })
}

/// The convex hull (A. M. Andrew's monotone chain, 1979).
pub fn hull(places: &[Place]) -> Vec<Place> {
    // By x, and by y where x is the same: no two places are nearer than that.
    let sorted = sorted_by_key(places.to_vec(), |p| p[0] + 1e-9 * p[1]);
    let half = |places: &mut dyn Iterator<Item = Place>| {
        let mut chain: Vec<Place> = Vec::new();
        for p in places {
            while let [.., a, b] = chain.as_slice() {
                if (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]) > 0.0 {
                    break;
                }
                chain.pop();
            }
            chain.push(p);
        }
        chain.pop();
        chain
    };
    let mut hull = half(&mut sorted.iter().copied());
    hull.extend(half(&mut sorted.iter().rev().copied()));
    hull
}

#[cfg(test)]
mod tests {
    use super::*;

    const SQUARE: [Place; 4] = [[2.0, 1.0], [6.0, 1.0], [6.0, 5.0], [2.0, 5.0]];

    #[test]
    fn area_middle_and_inside() {
        assert_eq!(area_and_centroid(&SQUARE), (16.0, [4.0, 3.0]));
        let turned: Vec<Place> = SQUARE.iter().rev().copied().collect();
        assert_eq!(area(&turned), 16.0);
        assert!(contains(&SQUARE, [4.0, 3.0]) && !contains(&SQUARE, [6.5, 3.0]));
        assert_eq!(area_and_centroid::<Place>(&[]), (0.0, [0.0, 0.0]));
        assert_eq!(sides(&SQUARE).last(), Some(([2.0, 5.0], [2.0, 1.0])));
    }

    #[test]
    fn a_hull_leaves_out_what_lies_within() {
        let mut places = SQUARE.to_vec();
        places.extend([[4.0, 3.0], [5.9, 4.0], [4.0, 1.0]]);
        let hull = hull(&places);
        assert_eq!(hull.len(), 4);
        assert_eq!(area(&hull), 16.0);
    }
}
