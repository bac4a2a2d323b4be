//! Curves in the plane: paths of lines and cubics, and what is measured on them.
//!
//! Bare `f64` millimetres live here and nowhere else unnamed. Everything stands on kurbo; each
//! routine says which error it bounds.

mod chords;
mod crossing;
pub mod float;
mod hull;
mod ops;

pub use ops::{OFFSET_TOLERANCE, Place, curvature, outward};

use kurbo::{
    BezPath, CubicBez, Line, ParamCurve, ParamCurveArclen, ParamCurveDeriv, ParamCurveExtrema, PathEl, PathSeg, Point,
    Rect, Vec2,
};

/// Arc lengths are taken to this accuracy, mm: a hundred times finer than any promise made.
pub const LENGTH_ACCURACY: f64 = 1e-7;

/// An open path of lines and cubics, head to tail.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Path {
    segments: Vec<PathSeg>,
}

impl Path {
    /// A path of these segments; each has to start where the last one ended.
    pub fn new(segments: Vec<PathSeg>) -> Self {
        Self { segments }
    }

    /// One straight line.
    pub fn line(a: Point, b: Point) -> Self {
        Self::new(vec![PathSeg::Line(Line::new(a, b))])
    }

    /// One cubic.
    pub fn cubic(c: CubicBez) -> Self {
        Self::new(vec![PathSeg::Cubic(c)])
    }

    /// Its lines and cubics.
    pub fn segments(&self) -> &[PathSeg] {
        &self.segments
    }

    /// Its lines and cubics, given away.
    pub fn into_segments(self) -> Vec<PathSeg> {
        self.segments
    }

    /// Where it starts; the origin if it is empty.
    pub fn start(&self) -> Point {
        self.segments.first().map_or(Point::ZERO, |s| s.start())
    }

    /// Where it ends; the origin if it is empty.
    pub fn end(&self) -> Point {
        self.segments.last().map_or(Point::ZERO, |s| s.end())
    }

    /// Walked the other way.
    pub fn reversed(&self) -> Self {
        Self::new(self.segments.iter().rev().map(|s| s.reverse()).collect())
    }

    /// Mirrored in the centre line x = 0. The direction of walking stays, so that what was
    /// clockwise is now anticlockwise.
    pub fn mirrored(&self) -> Self {
        self.map(|p| Point::new(-p.x, p.y))
    }

    /// Every control point through an affine map.
    pub fn map(&self, f: impl Fn(Point) -> Point) -> Self {
        Self::new(self.segments.iter().map(|s| map_segment(*s, &f)).collect())
    }

    /// This path, then another that starts where it ends.
    pub fn joined(mut self, other: Self) -> Self {
        self.segments.extend(other.segments);
        self
    }

    /// Length along the curve, to [`LENGTH_ACCURACY`] per segment.
    pub fn length(&self) -> f64 {
        self.segments.iter().map(|s| s.arclen(LENGTH_ACCURACY)).sum()
    }

    /// The smallest box round the curve itself, not its control points.
    pub fn bounds(&self) -> Rect {
        self.segments.iter().map(|s| s.bounding_box()).reduce(|a, b| a.union(b)).unwrap_or(Rect::ZERO)
    }

    /// Unit direction at the start.
    pub fn start_direction(&self) -> Vec2 {
        self.segments.first().map_or(Vec2::ZERO, |s| segment_direction(s, 0.0))
    }

    /// Unit direction at the end.
    pub fn end_direction(&self) -> Vec2 {
        self.segments.last().map_or(Vec2::ZERO, |s| segment_direction(s, 1.0))
    }

    /// The place so far along the path, with its unit direction. Beyond either end, that end.
    pub fn at(&self, along: f64) -> (Point, Vec2) {
        Ruler::new(self).at(along)
    }

    /// As a kurbo path, for kurbo's own algorithms. It is one line also where a segment starts a rounding away from
    /// the end of the one before; kurbo's own way begins another one there, and what fills it closes both.
    pub fn to_bez_path(&self) -> BezPath {
        BezPath::from_vec(elements(self).collect())
    }

    /// A polyline through points of the curve that strays from it by no more than `tolerance`
    /// (Hausdorff distance, mm). The first point is the start, the last the end.
    ///
    /// Each cubic is halved until its control points lie within the tolerance of its chord, and
    /// within the chord's span: their hull then bounds the curve, so the overshoot of a
    /// straight, back-tracking cubic is kept as well.
    pub fn flatten(&self, tolerance: f64) -> Vec<Point> {
        let mut points = vec![self.start()];
        for s in &self.segments {
            match s {
                PathSeg::Line(l) => points.push(l.p1),
                PathSeg::Quad(q) => flatten_measured(&q.raise(), tolerance, &mut points),
                PathSeg::Cubic(c) => flatten_measured(c, tolerance, &mut points),
            }
        }
        points
    }
}

/// A path with its lengths, to find many places along it.
pub(crate) struct Ruler<'a> {
    path: &'a Path,
    /// Of each segment, to [`LENGTH_ACCURACY`].
    lengths: Vec<f64>,
}

impl<'a> Ruler<'a> {
    /// Along a path.
    pub(crate) fn new(path: &'a Path) -> Self {
        Self { path, lengths: path.segments.iter().map(|s| s.arclen(LENGTH_ACCURACY)).collect() }
    }

    /// As [`Path::length`].
    pub(crate) fn length(&self) -> f64 {
        self.lengths.iter().sum()
    }

    /// As [`Path::at`].
    pub(crate) fn at(&self, along: f64) -> (Point, Vec2) {
        let place = self.place(along, LENGTH_ACCURACY);
        self.path
            .segments
            .get(place.segment)
            .map_or((Point::ZERO, Vec2::ZERO), |s| (s.eval(place.t), segment_direction(s, place.t)))
    }

    /// The place so far along the path, within so much of it, mm. Beyond either end, that end.
    pub(crate) fn place(&self, along: f64, within: f64) -> Place {
        let mut left = along;
        for (segment, (s, length)) in self.path.segments.iter().zip(&self.lengths).enumerate() {
            if left <= *length || segment + 1 == self.lengths.len() {
                return Place { segment, t: parameter_within(s, left.clamp(0.0, *length), within) };
            }
            left -= length;
        }
        Place { segment: 0, t: 0.0 }
    }
}

/// Halving stops here: 2^-16 of a curve is far below a nanometre.
const MAX_HALVINGS: u32 = 16;

/// No piece reaches so far, mm.
const OUT_OF_MEASURE: f64 = 1e5;

/// A curve out of all measure, which an impossible sheet can draw before it is refused, is followed to a
/// millionth of its size alone: to the tolerance it would take seconds.
fn flatten_measured(c: &CubicBez, tolerance: f64, points: &mut Vec<Point>) {
    let size = [c.p0, c.p1, c.p2, c.p3].iter().map(|p| p.x.abs() + p.y.abs()).sum::<f64>();
    match size {
        _ if size <= OUT_OF_MEASURE => flatten_cubic(c, tolerance, 0, points),
        _ if size.is_finite() => flatten_cubic(c, tolerance.max(1e-6 * size), 0, points),
        _ => points.push(c.p3),
    }
}

fn flatten_cubic(c: &CubicBez, tolerance: f64, depth: u32, points: &mut Vec<Point>) {
    if depth >= MAX_HALVINGS || is_flat(c, tolerance) {
        points.push(c.p3);
        return;
    }
    let (a, b) = c.subdivide();
    flatten_cubic(&a, tolerance, depth + 1, points);
    flatten_cubic(&b, tolerance, depth + 1, points);
}

fn is_flat(c: &CubicBez, tolerance: f64) -> bool {
    let chord = c.p3 - c.p0;
    let length = chord.hypot();
    if length == 0.0 {
        return (c.p1 - c.p0).hypot() <= tolerance && (c.p2 - c.p0).hypot() <= tolerance;
    }
    let unit = chord / length;
    // A cubic strays from its chord by at most 3/4 of its control points' distance.
    [c.p1, c.p2].iter().all(|p| {
        let v = *p - c.p0;
        v.cross(unit).abs() * 0.75 <= tolerance && (-tolerance..=length + tolerance).contains(&v.dot(unit))
    })
}

fn map_segment(s: PathSeg, f: &impl Fn(Point) -> Point) -> PathSeg {
    match s {
        PathSeg::Line(l) => PathSeg::Line(Line::new(f(l.p0), f(l.p1))),
        PathSeg::Quad(q) => map_segment(PathSeg::Cubic(q.raise()), f),
        PathSeg::Cubic(c) => PathSeg::Cubic(CubicBez::new(f(c.p0), f(c.p1), f(c.p2), f(c.p3))),
    }
}

/// Unit direction of a segment at a parameter. Where the derivative vanishes (a handle of no
/// length), the chord to a place just beside it stands in.
pub fn segment_direction(s: &PathSeg, t: f64) -> Vec2 {
    let derivative = match s {
        PathSeg::Line(l) => l.p1 - l.p0,
        PathSeg::Quad(q) => q.deriv().eval(t).to_vec2(),
        PathSeg::Cubic(c) => c.deriv().eval(t).to_vec2(),
    };
    if derivative.hypot() > 1e-9 {
        return derivative.normalize();
    }
    let near = if t < 0.5 { s.eval(t + 1e-4) - s.eval(t) } else { s.eval(t) - s.eval(t - 1e-4) };
    if near.hypot() > 0.0 { near.normalize() } else { Vec2::ZERO }
}

/// The parameter at an arc length, to [`LENGTH_ACCURACY`].
pub fn parameter_at(s: &PathSeg, along: f64) -> f64 {
    parameter_within(s, along, LENGTH_ACCURACY)
}

/// The same, within so much of the length, mm.
///
/// kurbo's `inv_arclen` takes its accuracy as one of the parameter, so the length comes out up to
/// 2.7 times further off than asked; five times finer is asked for. On a curve out of all measure, which
/// an impossible sheet can draw before it is refused, it counts more halvings than a word has bits: so
/// much is not asked for there.
fn parameter_within(s: &PathSeg, along: f64, within: f64) -> f64 {
    let cubic = s.to_cubic();
    let reach = cubic.p0.distance(cubic.p1) + cubic.p1.distance(cubic.p2) + cubic.p2.distance(cubic.p3);
    if !reach.is_finite() {
        return 0.0;
    }
    s.inv_arclen(along, (within / 5.0).max(FINEST * reach))
}

/// The finest share of a curve's length that is asked for, 2⁻⁴⁸.
const FINEST: f64 = 1.0 / (1_u64 << 48) as f64;

/// Path elements, for exporters that write move, line and curve commands.
pub fn elements(path: &Path) -> impl Iterator<Item = PathEl> + '_ {
    let start = (!path.segments.is_empty()).then(|| PathEl::MoveTo(path.start()));
    start.into_iter().chain(path.segments.iter().map(|s| s.as_path_el()))
}
