//! What lies round a segment: the box of its control points, and whether two lie apart.

use kurbo::{PathSeg, Point, Rect, Vec2};

/// The box round the control points, and so round the curve, with room for the tolerance of a
/// crossing: segments whose boxes lie apart do not cross.
pub(super) fn hull(s: &PathSeg) -> Rect {
    let points = controls(s);
    let ((x0, x1), (y0, y1)) = (reach(points.map(|p| p.x)), reach(points.map(|p| p.y)));
    Rect::new(x0 - ROOM, y0 - ROOM, x1 + ROOM, y1 + ROOM)
}

/// The least and the largest of some numbers. What is no number is passed over by comparing; asking for it each
/// time takes longer than all else here.
fn reach([first, others @ ..]: [f64; 4]) -> (f64, f64) {
    others
        .into_iter()
        .fold((first, first), |(low, high), v| (if v < low { v } else { low }, if v > high { v } else { high }))
}

/// From a box to a point beyond it.
pub(super) fn beyond(r: Rect, p: Point) -> Vec2 {
    Vec2::new((r.x0 - p.x).max(p.x - r.x1).max(0.0), (r.y0 - p.y).max(p.y - r.y1).max(0.0))
}

/// Do two segments lie apart across the chord of one of them? Boxes tell little of curves that run aslant and
/// side by side.
pub(super) fn are_apart(a: &PathSeg, b: &PathSeg) -> bool {
    let (p, q) = (controls(a), controls(b));
    [p, q].into_iter().map(|c| (c[3] - c[0]).turn_90()).any(|across| {
        let span = |points: &[Point; 4]| reach(points.map(|p| p.to_vec2().dot(across)));
        let ((low, high), (from, to)) = (span(&p), span(&q));
        let room = 2.0 * ROOM * across.hypot();
        high + room < from || to + room < low
    })
}

/// The control points as those of a cubic, whose hull is the same.
fn controls(s: &PathSeg) -> [Point; 4] {
    match *s {
        PathSeg::Line(l) => [l.p0, l.p0, l.p1, l.p1],
        PathSeg::Quad(q) => [q.p0, q.p1, q.p1, q.p2],
        PathSeg::Cubic(c) => [c.p0, c.p1, c.p2, c.p3],
    }
}

/// The tolerance of a crossing, mm.
const ROOM: f64 = 1e-6;

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::{Affine, CubicBez};

    /// Two curves side by side and aslant, whose boxes overlap, lie apart; moved over each other they do not.
    #[test]
    fn curves_side_by_side_lie_apart() {
        let one = PathSeg::Cubic(CubicBez::new((0.0, 0.0), (30.0, 34.0), (64.0, 60.0), (100.0, 100.0)));
        let moved = |by: f64| (Affine::translate((by, -by))) * one;
        assert!(hull(&one).overlaps(hull(&moved(6.0))));
        for by in [6.0, 12.0, -12.0] {
            assert!(are_apart(&one, &moved(by)) && are_apart(&moved(by), &one), "{by}");
        }
        assert!(!are_apart(&one, &one) && !are_apart(&one, &moved(1.0)));
    }
}
