//! Cutting, extending and offsetting paths.

use super::float;
use super::hull::{beyond, hull};
use super::{LENGTH_ACCURACY, Path, segment_direction};
use kurbo::{BezPath, CubicBez, Line, ParamCurve, ParamCurveNearest, PathSeg, Point, Vec2};

/// A place on a path: segment and parameter.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Place {
    /// Which segment.
    pub segment: usize,
    /// 0 at its start, 1 at its end.
    pub t: f64,
}

/// The side of a clockwise outline (y down) that is outside: left as seen.
pub fn outward(direction: Vec2) -> Vec2 {
    Vec2::new(direction.y, -direction.x)
}

/// Offsets stay within this of the true parallel curve (Hausdorff distance, mm).
pub const OFFSET_TOLERANCE: f64 = 5e-4;

/// The distance at which kurbo's `nearest` is asked; coarser values were millimetres off.
const NEAREST_ACCURACY: f64 = 1e-9;

/// What is left of a segment is dropped where its ends are nearer than this, mm.
const CRUMB: f64 = 1e-9;

impl Path {
    /// The place at a parameter.
    pub fn point(&self, at: Place) -> Point {
        self.segments().get(at.segment).map_or(Point::ZERO, |s| s.eval(at.t))
    }

    /// Unit direction at a place.
    pub fn direction(&self, at: Place) -> Vec2 {
        self.segments().get(at.segment).map_or(Vec2::ZERO, |s| segment_direction(s, at.t))
    }

    /// The place nearest to a point.
    pub fn nearest(&self, p: Point) -> Place {
        let mut best = (f64::INFINITY, Place { segment: 0, t: 0.0 });
        for (segment, s) in self.segments().iter().enumerate() {
            // Nothing of a segment is nearer than the box round it.
            if beyond(hull(s), p).hypot2() > best.0 {
                continue;
            }
            let near = s.nearest(p, NEAREST_ACCURACY);
            if near.distance_sq < best.0 {
                best = (near.distance_sq, Place { segment, t: near.t });
            }
        }
        best.1
    }

    /// Arc length from the start to a place, mm.
    pub fn along(&self, at: Place) -> f64 {
        use kurbo::ParamCurveArclen;
        self.segments()
            .iter()
            .enumerate()
            .take(at.segment + 1)
            .map(|(i, s)| if i < at.segment { *s } else { s.subsegment(0.0..at.t) })
            .map(|s| s.arclen(LENGTH_ACCURACY))
            .sum()
    }

    /// The part from one place to a later one.
    pub fn between(&self, from: Place, to: Place) -> Self {
        let part = |i: usize, s: &PathSeg| {
            let a = if i == from.segment { from.t } else { 0.0 };
            let b = if i == to.segment { to.t } else { 1.0 };
            // A cut that falls on a joint leaves a crumb of no length, which has no direction and
            // no place along it.
            (b > a).then(|| s.subsegment(a..b)).filter(|part| part.start().distance(part.end()) > CRUMB || b - a > 0.5)
        };
        Self::new(
            self.segments()
                .iter()
                .enumerate()
                .filter(|(i, _)| (from.segment..=to.segment).contains(i))
                .filter_map(|(i, s)| part(i, s))
                .collect(),
        )
    }

    /// With a straight line along the tangent before and after.
    pub fn extended(&self, by: f64) -> Self {
        let (a, b) = (self.start(), self.end());
        let mut segments = Vec::with_capacity(self.segments().len() + 2);
        segments.push(PathSeg::Line(Line::new(a - self.start_direction() * by, a)));
        segments.extend_from_slice(self.segments());
        segments.push(PathSeg::Line(Line::new(b, b + self.end_direction() * by)));
        Self::new(segments)
    }

    /// With a way on before and after that bends as the path does at its end and then runs straight:
    /// two segments each. Where two paths meet with one curvature, each runs on over the other.
    pub fn carried_on(&self, by: f64) -> Self {
        let (Some(first), Some(last)) = (self.segments().first(), self.segments().last()) else { return self.clone() };
        let mut segments = Vec::with_capacity(self.segments().len() + 4);
        segments.extend(way_on(&first.reverse(), by).iter().rev().map(PathSeg::reverse));
        segments.extend_from_slice(self.segments());
        segments.extend(way_on(last, by));
        Self::new(segments)
    }

    /// The parallel curve `d` to the left as seen (outward on a clockwise outline), within
    /// [`OFFSET_TOLERANCE`].
    ///
    /// The radius has to be greater than `d` wherever the curve is hollow to that side; see
    /// [`Path::tightest`]. Segments that meet in a common tangent stay joined.
    pub fn offset(&self, d: f64) -> Self {
        if d == 0.0 {
            return self.clone();
        }
        let mut result = Vec::new();
        for s in self.segments() {
            match s {
                PathSeg::Line(l) => result.push(PathSeg::Line(offset_line(*l, d))),
                PathSeg::Quad(q) => offset_cubic(q.raise(), d, &mut result),
                PathSeg::Cubic(c) => offset_cubic(*c, d, &mut result),
            }
        }
        join_ends(&mut result);
        Self::new(result)
    }

    /// The smallest radius on the side of a distance of this sign, mm: what a parallel curve can
    /// go up to. Sampled at 1/64 of each segment.
    pub fn tightest(&self, d: f64) -> f64 {
        let mut most = 0.0;
        for s in self.segments() {
            let PathSeg::Cubic(c) = s else { continue };
            let bend_at = bending(c);
            for i in 0..=64 {
                let bend = bend_at(f64::from(i) / 64.0) * d.signum();
                if bend > most {
                    most = bend;
                }
            }
        }
        1.0 / most
    }

    /// Where it is hollow to the left as seen: unit direction and radius, mm. Sampled as in
    /// [`Path::tightest`].
    pub fn hollows(&self) -> impl Iterator<Item = (Vec2, f64)> {
        self.segments().iter().filter_map(|s| if let PathSeg::Cubic(c) = s { Some((s, c)) } else { None }).flat_map(
            |(s, c)| {
                let bend_at = bending(c);
                (0..=64).map(|i| f64::from(i) / 64.0).filter_map(move |t| {
                    let bend = bend_at(t);
                    (bend > 0.0).then(|| (segment_direction(s, t), 1.0 / bend))
                })
            },
        )
    }

    /// How far it turns to the left as seen (hollow on a clockwise outline) from end to end, radians,
    /// turns the other way taken off. A parallel curve `d` to the left is shorter by `d` times that.
    pub fn turning(&self) -> f64 {
        let directions = self.segments().iter().flat_map(|s| {
            let steps = if matches!(s, PathSeg::Line(_)) { 1 } else { TURNING_STEPS };
            (0..=steps).map(move |i| super::segment_direction(s, f64::from(i) / f64::from(steps)))
        });
        let directions: Vec<Vec2> = directions.collect();
        // y runs down, so a turn to the left as seen has a negative cross product.
        directions.windows(2).map(|w| float::atan2(-w[0].cross(w[1]), w[0].dot(w[1]))).sum()
    }

    /// The same path, its start set to a point that it missed by a rounding.
    pub(crate) fn starting_at(self, p: Point) -> Self {
        let mut segments = self.into_segments();
        if let Some(s) = segments.first_mut() {
            set_start(s, p);
        }
        Self::new(segments)
    }
}

/// From the end of a segment on: an arc of its curvature there, and the tangent at that arc's end.
fn way_on(s: &PathSeg, by: f64) -> [PathSeg; 2] {
    let (end, along) = (s.end(), segment_direction(s, 1.0));
    let bend = if let PathSeg::Cubic(c) = s { curvature(c, 1.0) } else { 0.0 };
    let turn = (bend * by).clamp(-MOST_TURN, MOST_TURN);
    if turn.abs() < STRAIGHT_ON {
        let half = end + along * (0.5 * by);
        return [PathSeg::Line(Line::new(end, half)), PathSeg::Line(Line::new(half, end + along * by))];
    }
    let length = turn / bend;
    let to = |angle: f64| along * float::cos(angle) + outward(along) * float::sin(angle);
    // The usual cubic of an arc: handles of 4/3·tan(a/4) radii.
    let handle = 4.0 / 3.0 * float::tan(0.25 * turn) / bend;
    let over = end + (along * float::sin(turn) + outward(along) * (1.0 - float::cos(turn))) / bend;
    let arc = CubicBez::new(end, end + along * handle, over - to(turn) * handle, over);
    [PathSeg::Cubic(arc), PathSeg::Line(Line::new(over, over + to(turn) * (by - length).max(1.0)))]
}

/// The arc turns by no more, rad: further on the line would turn away from its neighbour.
const MOST_TURN: f64 = 0.3;
/// A way on that turns by less is a straight line, which crosses others exactly, rad.
const STRAIGHT_ON: f64 = 1e-4;

/// Directions taken on each curve, so that no step turns by half a circle.
const TURNING_STEPS: u32 = 8;

/// Signed curvature, positive where the curve bends to the left as seen (hollow on a clockwise
/// outline), 1/mm.
pub fn curvature(c: &CubicBez, t: f64) -> f64 {
    bending(c)(t)
}

/// [`curvature`] of one cubic at many places.
fn bending(c: &CubicBez) -> impl Fn(f64) -> f64 {
    use kurbo::ParamCurveDeriv;
    let first = c.deriv();
    let second = first.deriv();
    move |t| {
        let (v, a) = (first.eval(t).to_vec2(), second.eval(t).to_vec2());
        // y runs down, so a turn to the left as seen has a negative cross product.
        -v.cross(a) / float::cube(v.hypot()).max(1e-30)
    }
}

fn offset_line(l: Line, d: f64) -> Line {
    let n = outward((l.p1 - l.p0).normalize()) * d;
    Line::new(l.p0 + n, l.p1 + n)
}

/// kurbo's own offset, on the side that is left as seen; its start and end are then set on the
/// exact normals.
fn offset_cubic(c: CubicBez, d: f64, result: &mut Vec<PathSeg>) {
    let whole = PathSeg::Cubic(c);
    let chord = c.p3 - c.p0;
    if [c.p1, c.p2].iter().all(|p| (*p - c.p0).cross(chord).abs() < 1e-9 * chord.hypot().max(1e-9)) {
        // Collinear: a line, which kurbo's offset does not take.
        result.push(PathSeg::Line(offset_line(Line::new(c.p0, c.p3), d)));
        return;
    }
    let mut path = BezPath::new();
    kurbo::offset::offset_cubic(c, -d, OFFSET_TOLERANCE, &mut path);
    let first = result.len();
    result.extend(path.segments());
    let start = c.p0 + outward(segment_direction(&whole, 0.0)) * d;
    let end = c.p3 + outward(segment_direction(&whole, 1.0)) * d;
    if let Some(s) = result.get_mut(first) {
        set_start(s, start);
    }
    if let Some(s) = result.last_mut() {
        set_end(s, end);
    }
}

fn join_ends(segments: &mut [PathSeg]) {
    for i in 1..segments.len() {
        let end = segments[i - 1].end();
        set_start(&mut segments[i], end);
    }
}

fn set_start(s: &mut PathSeg, p: Point) {
    match s {
        PathSeg::Line(l) => l.p0 = p,
        PathSeg::Quad(q) => q.p0 = p,
        PathSeg::Cubic(c) => c.p0 = p,
    }
}

fn set_end(s: &mut PathSeg, p: Point) {
    match s {
        PathSeg::Line(l) => l.p1 = p,
        PathSeg::Quad(q) => q.p2 = p,
        PathSeg::Cubic(c) => c.p3 = p,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use std::f64::consts::{FRAC_PI_2, PI, TAU};

    /// A quarter circle of radius r round the origin as the usual cubic, walked clockwise as
    /// seen from angle `from` (y down). Its radius is off by 2.7e-4 r at most.
    fn quarter(r: f64, from: f64) -> CubicBez {
        let k = 4.0 / 3.0 * (PI / 8.0).tan();
        let p = |a: f64| Point::new(r * a.cos(), r * a.sin());
        let tangent = |a: f64| Vec2::new(-a.sin(), a.cos()) * (k * r);
        let to = from + FRAC_PI_2;
        CubicBez::new(p(from), p(from) + tangent(from), p(to) - tangent(to), p(to))
    }

    fn circle(r: f64) -> Path {
        Path::new((0..4).map(|i| PathSeg::Cubic(quarter(r, f64::from(i) * FRAC_PI_2))).collect())
    }

    fn signed_area(path: &Path) -> f64 {
        use kurbo::ParamCurveArea;
        path.segments().iter().map(|s| s.signed_area()).sum()
    }

    #[test]
    fn a_circle_offset_either_way_is_a_circle() {
        for r in [40.0, 150.0] {
            for d in [-12.0, -3.0, 0.5, 8.0, 25.0] {
                let offset = circle(r).offset(d);
                // The cubic's own radius error, and the offset's.
                let allowed = 2.8e-4 * r + OFFSET_TOLERANCE;
                for p in offset.flatten(0.01) {
                    assert!((p.to_vec2().hypot() - (r + d)).abs() <= allowed, "r {r}, d {d}: {p:?}");
                }
                // Closed form 2π(r + d).
                assert!((offset.length() - TAU * (r + d)).abs() <= TAU * allowed);
            }
        }
    }

    #[test]
    fn a_smooth_convex_outline_keeps_steiners_formula() {
        // Steiner: a parallel outline at d has length L + 2πd and area A + Ld + πd².
        let oval = circle(80.0).map(|p| Point::new(1.7 * p.x, p.y));
        for d in [2.0, 7.0, 20.0] {
            let (l, a) = (oval.length(), signed_area(&oval));
            let outer = oval.offset(d);
            assert!((outer.length() - (l + TAU * d)).abs() < 8.0 * PI * OFFSET_TOLERANCE, "length at {d}");
            let area = signed_area(&outer);
            assert!((area - (a + l * d + PI * d * d)).abs() < 2.0 * l * OFFSET_TOLERANCE, "area at {d}: {area}");
        }
    }

    #[test]
    fn a_straight_edge_is_moved_to_the_left_as_seen() {
        let moved = Path::line(Point::new(0.0, 0.0), Point::new(10.0, 0.0)).offset(7.0);
        assert_eq!(moved.start(), Point::new(0.0, -7.0));
        assert_eq!(moved.end(), Point::new(10.0, -7.0));
    }

    #[test]
    fn the_tightest_radius_is_that_of_the_hollow_side_alone() {
        let arc = Path::cubic(quarter(30.0, 0.0));
        assert!(arc.tightest(5.0).is_infinite());
        assert!((arc.tightest(-5.0) - 30.0).abs() < 0.5);
        assert!((arc.reversed().tightest(5.0) - 30.0).abs() < 0.5);
    }

    proptest! {
        /// Leaving out what cannot be nearest loses nothing.
        #[test]
        fn the_nearest_place_is_the_nearest_of_all_segments(
            at in proptest::collection::vec(0.0..100.0_f64, 14), p in (-50.0..150.0_f64, -50.0..150.0_f64)
        ) {
            let point = |i: usize| Point::new(at[2 * i], at[2 * i + 1]);
            let cubic = |i: usize| PathSeg::Cubic(CubicBez::new(point(i), point(i + 1), point(i + 2), point(i + 3)));
            let path = Path::new(vec![cubic(0), cubic(3)]);
            let p = Point::from(p);
            let found = path.point(path.nearest(p)).distance(p);
            let each = path.segments().iter().map(|s| s.nearest(p, NEAREST_ACCURACY).distance_sq.sqrt());
            prop_assert!((found - each.fold(f64::INFINITY, f64::min)).abs() < 1e-9);
        }
    }

    #[test]
    fn along_and_nearest_invert_each_other() {
        let path = circle(50.0);
        for i in 1..20 {
            let along = path.length() * f64::from(i) / 20.5;
            let (p, _) = path.at(along);
            assert!((path.along(path.nearest(p)) - along).abs() < 1e-5);
        }
    }

    /// Where the second segment starts a rounding away, the area inside is that of one outline.
    #[test]
    fn a_path_is_one_line_whatever_roundings_its_joins_have() {
        let corners = [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)].map(Point::from);
        let side = |i: usize| PathSeg::Line(Line::new(corners[i] + Vec2::new(1e-13, 0.0), corners[(i + 1) % 4]));
        let bez = Path::new((0..4).map(side).collect()).to_bez_path();
        let moves = bez.elements().iter().filter(|e| matches!(e, kurbo::PathEl::MoveTo(_))).count();
        assert_eq!((moves, bez.elements().len()), (1, 5), "{bez:?}");
    }
}
