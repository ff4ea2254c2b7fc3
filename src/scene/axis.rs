//! The long axis of a region, and the thirds along it.

use super::polygon::Polygon;
use super::types::{Point, Region, RegionKind, Zone};

/// Where the thirds meet unless the user shifted the borders.
pub const THIRDS: [f64; 2] = [1.0 / 3.0, 2.0 / 3.0];
/// No zone is shorter than this share of the axis.
pub const SHORTEST_ZONE: f64 = 0.1;

/// A region's long axis: from its cervical to its incisal point, and the borders of its thirds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Axis {
    /// The cervical end (0 along the axis).
    pub cervical: Point,
    /// The incisal end (1 along the axis).
    pub incisal: Point,
    /// Where the cervical and the middle third end along the axis.
    pub borders: [f64; 2],
}

impl Axis {
    /// The axis of a region: the given ends, or the longest extent of its outline. Without
    /// given ends the cervical end is the upper one for teeth and restorations (an upper tooth
    /// seen upright) and the lower one for tabs, which are held edge to edge below them; the
    /// user turns it where that is wrong.
    pub fn of(region: &Region, polygon: &Polygon) -> Self {
        Self {
            borders: region
                .borders
                .filter(|b| Self::borders_are_sound(*b))
                .unwrap_or(THIRDS),
            ..Self::ends_of(region, polygon)
        }
    }

    /// Whether borders rise and leave every zone a length.
    pub fn borders_are_sound([first, second]: [f64; 2]) -> bool {
        first >= SHORTEST_ZONE && second - first >= SHORTEST_ZONE && second <= 1.0 - SHORTEST_ZONE
    }

    /// An axis between two ends, with thirds.
    pub const fn between(cervical: Point, incisal: Point) -> Self {
        Self {
            cervical,
            incisal,
            borders: THIRDS,
        }
    }

    fn ends_of(region: &Region, polygon: &Polygon) -> Self {
        if let (Some(cervical), Some(incisal)) = (region.cervical, region.incisal)
            && cervical.is_in_a_photo()
            && incisal.is_in_a_photo()
            && cervical.distance_px(&incisal) >= 1.0
        {
            return Self::between(cervical, incisal);
        }
        let [ux, uy] = polygon.major_axis();
        let [lo, hi] = polygon.extent_along([ux, uy]);
        let c = polygon.centroid();
        let a = Point::new(c.x() + lo * ux, c.y() + lo * uy);
        let b = Point::new(c.x() + hi * ux, c.y() + hi * uy);
        let (upper, lower) = if a.y() <= b.y() { (a, b) } else { (b, a) };
        match region.kind {
            RegionKind::Tab => Self::between(lower, upper),
            RegionKind::Tooth | RegionKind::Restoration => Self::between(upper, lower),
        }
    }

    /// The third that a place along the axis belongs to; places beyond the ends belong to the
    /// third at that end.
    pub fn third_at(&self, along: f64) -> Zone {
        let [first, second] = self.borders;
        if along < first {
            Zone::Cervical
        } else if along < second {
            Zone::Middle
        } else {
            Zone::Incisal
        }
    }

    /// The middle of a third along the axis; 0 is the cervical one.
    pub const fn middle_of_third(&self, third: usize) -> f64 {
        let [first, second] = self.borders;
        match third {
            0 => first / 2.0,
            1 => f64::midpoint(first, second),
            _ => f64::midpoint(second, 1.0),
        }
    }

    /// The place on another axis that lies in the same third, as far through it.
    pub fn matched(&self, along: f64, other: &Self) -> f64 {
        let ([a, b], [c, d]) = (self.borders, other.borders);
        match self.third_at(along) {
            Zone::Cervical => along / a * c,
            Zone::Middle => c + (along - a) / (b - a) * (d - c),
            _ => 1.0 - (1.0 - along) / (1.0 - b) * (1.0 - d),
        }
    }

    /// Length in pixels.
    pub fn length_px(&self) -> f64 {
        self.cervical.distance_px(&self.incisal)
    }

    /// Coefficients of the place along the axis: `t = t0 + tx·x + ty·y`, 0 at the cervical
    /// point, 1 at the incisal point.
    pub fn along(&self) -> [f64; 3] {
        let (dx, dy) = self.direction();
        let squared = (dx * dx + dy * dy).max(1e-12);
        let (tx, ty) = (dx / squared, dy / squared);
        [-(self.cervical.x() * tx + self.cervical.y() * ty), tx, ty]
    }

    /// Coefficients of the place across the axis, in axis lengths, 0 on the axis.
    pub fn across(&self) -> [f64; 3] {
        let (dx, dy) = self.direction();
        let squared = (dx * dx + dy * dy).max(1e-12);
        let (ux, uy) = (-dy / squared, dx / squared);
        [-(self.cervical.x() * ux + self.cervical.y() * uy), ux, uy]
    }

    fn direction(&self) -> (f64, f64) {
        (
            self.incisal.x() - self.cervical.x(),
            self.incisal.y() - self.cervical.y(),
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn region(kind: RegionKind, ends: Option<(Point, Point)>) -> (Region, Polygon) {
        let outline: Vec<Point> = [(10.0, 10.0), (20.0, 10.0), (20.0, 50.0), (10.0, 50.0)]
            .map(|(x, y)| Point::new(x, y))
            .to_vec();
        let polygon = Polygon::new(&outline, "The outline").expect("good");
        let region = Region {
            id: "r".into(),
            kind,
            name: String::new(),
            outline,
            cervical: ends.map(|e| e.0),
            incisal: ends.map(|e| e.1),
            borders: None,
        };
        (region, polygon)
    }

    #[test]
    fn axis_from_shape() {
        let (r, p) = region(RegionKind::Tooth, None);
        let axis = Axis::of(&r, &p);
        assert!(axis.cervical.distance_px(&Point::new(15.0, 10.0)) < 1e-9);
        assert!(axis.incisal.distance_px(&Point::new(15.0, 50.0)) < 1e-9);
        let (r, p) = region(RegionKind::Tab, None);
        assert!(Axis::of(&r, &p).cervical.y() > 49.0);
    }

    #[test]
    fn given_ends_win_and_thirds_follow() {
        let ends = (Point::new(15.0, 50.0), Point::new(15.0, 20.0));
        let (r, p) = region(RegionKind::Tooth, Some(ends));
        let axis = Axis::of(&r, &p);
        let [t0, tx, ty] = axis.along();
        let t = |x: f64, y: f64| t0 + tx * x + ty * y;
        assert!((t(15.0, 50.0)).abs() < 1e-12 && (t(99.0, 20.0) - 1.0).abs() < 1e-12);
        assert_eq!(axis.third_at(t(15.0, 45.0)), Zone::Cervical);
        assert_eq!(axis.third_at(t(15.0, 35.0)), Zone::Middle);
        assert_eq!(axis.third_at(t(15.0, 22.0)), Zone::Incisal);
        assert_eq!(axis.third_at(t(15.0, 60.0)), Zone::Cervical);
        let [u0, ux, uy] = axis.across();
        assert!((u0 + ux * 15.0 + uy * 33.0).abs() < 1e-12);
    }

    #[test]
    fn thirds_lie_on_thirds() {
        let (a, b) = (Point::new(0.0, 0.0), Point::new(0.0, 9.0));
        let even = Axis::between(a, b);
        let shifted = Axis {
            borders: [0.2, 0.8],
            ..even
        };
        for (at, want) in [
            (0.0, 0.0),
            (1.0 / 6.0, 0.1),
            (0.5, 0.5),
            (2.0 / 3.0, 0.8),
            (1.0, 1.0),
        ] {
            assert!((even.matched(at, &shifted) - want).abs() < 1e-12, "{at}");
            assert!((shifted.matched(want, &even) - at).abs() < 1e-12, "{at}");
        }
    }

    #[test]
    fn ends_on_one_spot_fall_back_to_the_shape() {
        let one = Point::new(15.0, 30.0);
        let (r, p) = region(RegionKind::Tooth, Some((one, one)));
        assert!(Axis::of(&r, &p).length_px() > 30.0);
    }
}
