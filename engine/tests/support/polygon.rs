//! Polygons drawn through an outline: simple? one inside the other?

use super::measure::mirror;
use engine::garment::{Outline, Piece};
use engine::terms::Extent;
use engine::topology::OutlineEdge;
use kurbo::{ParamCurve, PathSeg, Point, Vec2};

/// Points on each curve of an outline. 32 on a cubic that turns a quarter of a circle of 200 mm
/// leave 0.06 mm between chord and curve.
const PER_CURVE: usize = 32;

/// The closed polygon of an outline, unfolded, without repeated points, clockwise as seen.
pub fn unfolded(piece: &Piece, outline: &Outline) -> Vec<Point> {
    let mut segments: Vec<PathSeg> = Vec::new();
    let open = outline.edges.iter().filter(|e| piece.extent == Extent::Full || e.id != OutlineEdge::Centre);
    for edge in open {
        segments.extend(edge.path.segments());
    }
    if piece.extent == Extent::HalfOnFold {
        let other: Vec<PathSeg> = segments.iter().rev().map(|s| mirror(s).reverse()).collect();
        segments.extend(other);
    }
    let mut points: Vec<Point> = Vec::new();
    for s in &segments {
        let steps = if matches!(s, PathSeg::Line(_)) { 1 } else { PER_CURVE };
        for k in 0..=steps {
            let p = s.eval(k as f64 / steps as f64);
            if points.last().is_none_or(|q| q.distance(p) > 1e-6) {
                points.push(p);
            }
        }
    }
    while points.len() > 1 && points[0].distance(points[points.len() - 1]) <= 1e-6 {
        points.pop();
    }
    points
}

/// The greatest step from the end of one edge to the start of the next, round the loop, mm.
pub fn largest_gap(outline: &Outline) -> f64 {
    let n = outline.edges.len();
    (0..n)
        .map(|i| outline.edges[i].path.end().distance(outline.edges[(i + 1) % n].path.start()))
        .chain(
            outline.edges.iter().flat_map(|e| e.path.segments().windows(2).map(|w| w[0].end().distance(w[1].start()))),
        )
        .fold(0.0, f64::max)
}

/// Twice the area, positive where clockwise as seen (y down).
pub fn twice_area(points: &[Point]) -> f64 {
    let n = points.len();
    (0..n).map(|i| points[i].to_vec2().cross(points[(i + 1) % n].to_vec2())).sum()
}

/// The first two sides that touch without being neighbours, or that double back.
///
/// Every pair of sides whose ranges of x overlap is looked at.
pub fn first_touch(points: &[Point]) -> Option<Point> {
    let n = points.len();
    let side = |i: usize| (points[i], points[(i + 1) % n]);
    let mut order: Vec<(f64, f64, usize)> = (0..n)
        .map(|i| {
            let (p, q) = side(i);
            (p.x.min(q.x), p.x.max(q.x), i)
        })
        .collect();
    order.sort_by(|a, b| a.0.total_cmp(&b.0));
    for (k, &(_, right, i)) in order.iter().enumerate() {
        for &(left, _, j) in &order[k + 1..] {
            if left > right {
                break;
            }
            let (i, j) = (i.min(j), i.max(j));
            let touch = if j == i + 1 {
                spike(points[i], points[j], points[(j + 1) % n])
            } else if i == 0 && j == n - 1 {
                spike(points[j], points[0], points[1])
            } else {
                meet(side(i), side(j))
            };
            if touch {
                return Some(points[j]);
            }
        }
    }
    None
}

/// Does the way from a by b to c turn round on the spot?
fn spike(a: Point, b: Point, c: Point) -> bool {
    let (u, v) = ((b - a).normalize(), (c - b).normalize());
    u.dot(v) < 0.0 && u.cross(v).abs() < 1e-9
}

/// Do two stretches have a point in common?
fn meet((a, b): (Point, Point), (c, d): (Point, Point)) -> bool {
    let turn = |o: Point, p: Point, q: Point| (p - o).cross(q - o);
    let (e, f, g, h) = (turn(a, b, c), turn(a, b, d), turn(c, d, a), turn(c, d, b));
    let on = |z: f64, o: Point, p: Point, q: Point| z == 0.0 && between(o, p, q);
    (e * f < 0.0 && g * h < 0.0) || on(e, a, b, c) || on(f, a, b, d) || on(g, c, d, a) || on(h, c, d, b)
}

fn between(a: Point, b: Point, p: Point) -> bool {
    (a.x.min(b.x)..=a.x.max(b.x)).contains(&p.x) && (a.y.min(b.y)..=a.y.max(b.y)).contains(&p.y)
}

/// How far the points of one polygon lie outside another, at most, mm; 0 where all are inside.
pub fn furthest_outside(inner: &[Point], outer: &[Point]) -> f64 {
    inner.iter().filter(|p| !inside(outer, **p)).map(|p| distance(outer, *p)).fold(0.0, f64::max)
}

fn inside(polygon: &[Point], p: Point) -> bool {
    let n = polygon.len();
    let crossed = |i: &usize| {
        let (a, b) = (polygon[*i], polygon[(i + 1) % n]);
        (a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x)
    };
    (0..n).filter(crossed).count() % 2 == 1
}

/// From a point to the nearest side.
pub fn distance(polygon: &[Point], p: Point) -> f64 {
    let n = polygon.len();
    (0..n).map(|i| to_side(polygon[i], polygon[(i + 1) % n], p)).fold(f64::INFINITY, f64::min)
}

/// From a point to a stretch.
pub fn to_side(a: Point, b: Point, p: Point) -> f64 {
    let d: Vec2 = b - a;
    let t = ((p - a).dot(d) / d.hypot2().max(1e-300)).clamp(0.0, 1.0);
    (a + d * t).distance(p)
}

mod tests {
    use super::*;

    fn points(list: &[(f64, f64)]) -> Vec<Point> {
        list.iter().map(|p| Point::from(*p)).collect()
    }

    #[test]
    fn a_bow_tie_and_a_spike_are_found() {
        assert!(first_touch(&points(&[(0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0)])).is_none());
        assert!(first_touch(&points(&[(0.0, 0.0), (2.0, 2.0), (2.0, 0.0), (0.0, 2.0)])).is_some());
        assert!(first_touch(&points(&[(0.0, 0.0), (2.0, 0.0), (2.0, 3.0), (2.0, 2.0), (0.0, 2.0)])).is_some());
        // A corner on a side far from it.
        assert!(first_touch(&points(&[(0.0, 0.0), (4.0, 0.0), (4.0, 2.0), (2.0, 0.0), (0.0, 2.0)])).is_some());
    }

    #[test]
    fn outside_is_told_from_inside() {
        let square = points(&[(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0)]);
        assert_eq!(furthest_outside(&points(&[(1.0, 1.0), (3.0, 2.0)]), &square), 0.0);
        assert_eq!(furthest_outside(&points(&[(1.0, 1.0), (6.0, 2.0)]), &square), 2.0);
    }
}
