//! Outlines as polygons: simple or not, and where a point lies from one.

use crate::garment::Outline;
use kurbo::Point;

/// Chord tolerance of the outlines that are tested, mm.
pub(super) const TOLERANCE: f64 = 0.05;

/// The outline as a polygon without a repeated point.
pub(super) fn polygon(outline: &Outline) -> Vec<Point> {
    let mut points: Vec<Point> = Vec::new();
    for p in outline.edges.iter().flat_map(|e| e.path.flatten(TOLERANCE)) {
        if points.last().is_none_or(|q| q.distance(p) > 1e-6) {
            points.push(p);
        }
    }
    if points.len() > 1 && points[0].distance(points[points.len() - 1]) <= 1e-6 {
        points.pop();
    }
    points
}

/// Positive where the outline runs clockwise as seen (y down).
pub(crate) fn signed_area(points: &[Point]) -> f64 {
    (0..points.len())
        .map(|i| {
            let (p, q) = (points[i], points[(i + 1) % points.len()]);
            0.5 * (p.x * q.y - q.x * p.y)
        })
        .sum()
}

/// No two sides of a polygon touch, but neighbours in their common point.
///
/// Sides are taken in order of their left ends, so that only those which overlap in x are
/// compared.
pub(super) fn is_simple(points: &[Point]) -> bool {
    let n = points.len();
    let side = |i: usize| (points[i], points[(i + 1) % n]);
    let mut order: Vec<usize> = (0..n).collect();
    let left = |i: usize| side(i).0.x.min(side(i).1.x);
    order.sort_by(|a, b| left(*a).total_cmp(&left(*b)));
    for (k, &i) in order.iter().enumerate() {
        let right = side(i).0.x.max(side(i).1.x);
        for &j in order[k + 1..].iter().take_while(|&&j| left(j) <= right) {
            let gap = i.abs_diff(j);
            let touching = if gap == 1 || gap == n - 1 { doubles_back(points, i, j) } else { cross(side(i), side(j)) };
            if touching {
                return false;
            }
        }
    }
    true
}

/// Neighbours that run back over each other make a spike.
fn doubles_back(points: &[Point], i: usize, j: usize) -> bool {
    let side = |at: usize| points[(at + 1) % points.len()] - points[at];
    let (a, b) = (side(i), side(j));
    a.dot(b) < 0.0 && a.cross(b).abs() < 1e-9 * a.hypot() * b.hypot()
}

/// Do two sides cross or touch?
pub(crate) fn cross((a, b): (Point, Point), (c, d): (Point, Point)) -> bool {
    let turn = |p: Point, q: Point, r: Point| (q - p).cross(r - p);
    let (s, t) = (turn(a, b, c), turn(a, b, d));
    let (u, v) = (turn(c, d, a), turn(c, d, b));
    s * t <= 0.0 && u * v <= 0.0 && (s, t, u, v) != (0.0, 0.0, 0.0, 0.0)
}

/// Is every point inside a polygon or within the tolerance of it?
pub(super) fn encloses_all(polygon: &Bands, points: &[Point]) -> bool {
    points.iter().all(|p| polygon.place(*p) != Place::Outside)
}

/// Where a point is, seen from a polygon.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Place {
    Inside,
    /// Within the tolerance of it.
    Near,
    Outside,
}

/// The sides of a polygon, sorted into bands of equal height: what happens at one height is a
/// matter of few sides.
pub(crate) struct Bands {
    low: f64,
    height: f64,
    sides: Vec<Vec<(Point, Point)>>,
}

/// About so many sides begin in a band.
const SIDES_IN_A_BAND: usize = 4;

impl Bands {
    pub(crate) fn of(polygon: &[Point]) -> Self {
        let (low, high) = polygon.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), p| (l.min(p.y), h.max(p.y)));
        let count = polygon.len() / SIDES_IN_A_BAND + 1;
        let height = ((high - low) / count as f64).max(TOLERANCE);
        let mut bands = Self { low, height, sides: vec![Vec::new(); count] };
        for (a, b) in polygon.iter().zip(polygon.iter().cycle().skip(1)) {
            // Somewhat more than the distance at which a point counts as near.
            let reach = 3.0 * TOLERANCE;
            let (first, last) = (bands.index(a.y.min(b.y) - reach), bands.index(a.y.max(b.y) + reach));
            bands.sides[first..=last].iter_mut().for_each(|band| band.push((*a, *b)));
        }
        bands
    }

    /// The band at a height; the outermost ones take all that lies beyond.
    fn index(&self, y: f64) -> usize {
        (((y - self.low) / self.height).max(0.0) as usize).min(self.sides.len() - 1)
    }

    /// Where a point is.
    pub(crate) fn place(&self, p: Point) -> Place {
        place(self.at(p.y), p)
    }

    /// Every side that reaches this height or comes near it.
    fn at(&self, y: f64) -> &[(Point, Point)] {
        &self.sides[self.index(y)]
    }
}

/// Where a point is, seen from a polygon. `sides` are all of its sides that reach the point's height
/// or come near it.
fn place(sides: &[(Point, Point)], p: Point) -> Place {
    let mut place = Place::Outside;
    for &(a, b) in sides {
        if near(a, b, p) {
            return Place::Near;
        }
        if (a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x) {
            place = if place == Place::Inside { Place::Outside } else { Place::Inside };
        }
    }
    place
}

fn near(a: Point, b: Point, p: Point) -> bool {
    to_side(p, (a, b)) <= 2.0 * TOLERANCE
}

/// From a point to the nearest one of a side.
pub(super) fn to_side(p: Point, (a, b): (Point, Point)) -> f64 {
    let d = b - a;
    let t = ((p - a).dot(d) / d.hypot2().max(1e-12)).clamp(0.0, 1.0);
    (a + d * t).distance(p)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn points<const N: usize>(corners: [(f64, f64); N]) -> Vec<Point> {
        corners.map(Point::from).to_vec()
    }

    /// Beginning at every corner, both ways round.
    fn is_simple_from_everywhere(corners: &[Point]) -> Vec<bool> {
        let turned = |n: usize| corners.iter().cycle().skip(n).take(corners.len()).copied().collect::<Vec<_>>();
        let each = (0..corners.len()).map(turned);
        each.flat_map(|one| [one.iter().rev().copied().collect(), one]).map(|one: Vec<Point>| is_simple(&one)).collect()
    }

    /// A side that runs back over the one before it, within a hair, is a spike, though nothing else is touched;
    /// a needle, a corner on the way and a square are none.
    #[test]
    fn a_spike_is_not_simple_and_a_needle_is() {
        let spike = points([(0.0, 0.0), (100.0, 0.0), (10.0, 1e-9), (10.0, 50.0)]);
        let flat = points([(0.0, 0.0), (100.0, 0.0), (50.0, 0.0)]);
        for one in [spike, flat] {
            assert!(is_simple_from_everywhere(&one).iter().all(|simple| !simple), "{one:?}");
        }
        let needle = points([(0.0, 0.0), (100.0, 0.1), (100.0, -0.1)]);
        let on_the_way = points([(0.0, 0.0), (50.0, 0.0), (100.0, 0.0), (100.0, 100.0)]);
        let square = points([(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)]);
        for one in [needle, on_the_way, square] {
            assert!(is_simple_from_everywhere(&one).iter().all(|simple| *simple), "{one:?}");
        }
    }

    /// The end of a side on another one touches it, from whichever side it comes.
    #[test]
    fn an_end_on_a_side_touches_it() {
        let (a, b) = (Point::new(0.0, 0.0), Point::new(100.0, 0.0));
        for y in [-50.0, 50.0] {
            let (on, off) = (Point::new(50.0, 0.0), Point::new(50.0, y));
            for (one, other) in [((a, b), (on, off)), ((a, b), (off, on)), ((b, a), (on, off)), ((b, a), (off, on))] {
                assert!(cross(one, other) && cross(other, one), "{one:?} {other:?}");
            }
            let near = Point::new(50.0, 0.01 * y);
            assert!(!cross((a, b), (near, off)) && !cross((near, off), (a, b)));
        }
    }

    /// Only a point that is there twice is left out: the end of an open line stays, and so does a single point.
    #[test]
    fn the_last_point_is_left_out_where_it_is_the_first() {
        let line = |corners: &[(f64, f64)]| {
            let path = |w: &[(f64, f64)]| crate::curve::Path::line(Point::from(w[0]), Point::from(w[1]));
            let id = crate::topology::OutlineEdge::Centre;
            Outline { edges: corners.windows(2).map(|w| crate::garment::Edge { id, path: path(w) }).collect() }
        };
        let closed = [(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 0.0)];
        assert_eq!(polygon(&line(&closed)).len(), 3);
        assert_eq!(polygon(&line(&closed[..3])).len(), 3);
        assert_eq!(polygon(&line(&[(5.0, 5.0), (5.0, 5.0)])), [Point::new(5.0, 5.0)]);
    }

    proptest! {
        /// Bands leave out no side that matters: the answer is that of all sides together.
        #[test]
        fn bands_answer_as_all_sides_do(
            corners in prop::collection::vec((-50.0..50.0, -50.0..50.0), 3..40),
            (x, y) in (-70.0..70.0, -70.0..70.0),
        ) {
            let polygon: Vec<Point> = corners.iter().copied().map(Point::from).collect();
            let sides: Vec<_> = polygon.iter().copied().zip(polygon.iter().copied().cycle().skip(1)).collect();
            let (p, bands) = (Point::new(x, y), Bands::of(&polygon));
            prop_assert_eq!(encloses_all(&bands, &[p]), place(&sides, p) != Place::Outside);
            // And where points lie on or beside a corner.
            for corner in &polygon {
                for d in [-0.11, -0.09, 0.0, 0.09, 0.11] {
                    let p = *corner + kurbo::Vec2::new(0.0, d);
                    prop_assert_eq!(encloses_all(&bands, &[p]), place(&sides, p) != Place::Outside);
                }
            }
        }
    }
}
