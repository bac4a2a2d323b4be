//! A line as read: vertices, and between them parts with a length and directions.

use crate::biarc::{Arc, length};
use engine::curve::float;
use engine::curve::{LENGTH_ACCURACY, segment_direction};
use kurbo::{ParamCurve, ParamCurveArclen, PathSeg, Point, Vec2};

/// From one vertex to the next.
#[derive(Clone, Copy, Debug)]
struct Part {
    length: f64,
    /// Unit directions at its start and end.
    out: Vec2,
    into: Vec2,
}

/// Vertices and parts, head to tail. A closed one has as many parts as vertices.
#[derive(Clone, Debug, Default)]
pub(crate) struct Chain {
    points: Vec<Point>,
    parts: Vec<Part>,
    is_closed: bool,
    /// Straight from vertex to vertex?
    is_straight: bool,
}

/// Ends nearer than this meet, mm.
const MEETS: f64 = 0.01;

/// Directions that differ by more than this make a turn point, radians (25°): more than between
/// two chords, less than at any corner of a pattern.
const TURN: f64 = 0.44;

impl Chain {
    /// Straight and round parts; no number in it may be out of all measure.
    pub(crate) fn polyline(vertices: &[(Point, f64)], is_closed: bool) -> Option<Self> {
        let mut vertices = vertices.to_vec();
        // Some programs close an outline by its first vertex once more, with or without the flag.
        let ends_meet = |v: &[(Point, f64)]| v.len() > 2 && v[0].0.distance(v[v.len() - 1].0) <= MEETS;
        let meets = ends_meet(&vertices);
        if meets {
            vertices.pop();
        }
        let is_closed = is_closed || meets;
        let count = if is_closed { vertices.len() } else { vertices.len().saturating_sub(1) };
        let parts = (0..count).map(|i| {
            let (from, bulge) = vertices[i];
            arc_part(from, Arc { to: vertices[(i + 1) % vertices.len()].0, bulge })
        });
        let parts = parts.collect();
        let is_straight = vertices.iter().all(|(_, bulge)| *bulge == 0.0);
        Self { points: vertices.into_iter().map(|(p, _)| p).collect(), parts, is_closed, is_straight }.sound()
    }

    /// Curves, head to tail.
    pub(crate) fn segments(segments: &[PathSeg], is_closed: bool) -> Option<Self> {
        let (first, last) = (segments.first()?, segments.last()?);
        let mut points: Vec<Point> = segments.iter().map(|s| s.start()).collect();
        let mut parts: Vec<Part> = segments.iter().map(segment_part).collect();
        let gap = last.end().distance(first.start());
        let is_closed = is_closed || gap <= MEETS;
        if !is_closed {
            points.push(last.end());
        } else if gap > MEETS {
            points.push(last.end());
            parts.push(segment_part(&PathSeg::Line(kurbo::Line::new(last.end(), first.start()))));
        }
        Self { points, parts, is_closed, is_straight: false }.sound()
    }

    /// Nothing comes back where there is no line, or a number is no length.
    fn sound(self) -> Option<Self> {
        let measured = |v: f64| v.abs() <= 1e6;
        let points = self.points.iter().all(|p| measured(p.x) && measured(p.y));
        let lengths = self.parts.iter().all(|p| measured(p.length));
        (points && lengths && !self.parts.is_empty()).then_some(self)
    }

    pub(crate) fn is_closed(&self) -> bool {
        self.is_closed
    }

    pub(crate) fn points(&self) -> &[Point] {
        &self.points
    }

    /// All along, mm.
    pub(crate) fn length(&self) -> f64 {
        self.parts.iter().map(|p| p.length).sum()
    }

    /// From one vertex to another, forwards; a whole round where they are the same.
    pub(crate) fn between(&self, from: usize, to: usize) -> f64 {
        let n = self.parts.len();
        if !self.is_closed {
            return self.parts.iter().take(to.min(n)).skip(from).map(|p| p.length).sum();
        }
        let count = if to > from { to - from } else { n - from + to };
        (0..count.min(n)).map(|i| self.parts[(from + i) % n].length).sum()
    }

    /// The vertices from one to another, forwards; none where it is not straight between them.
    pub(crate) fn along(&self, from: usize, to: usize) -> Vec<Point> {
        let n = self.points.len();
        let count = if to > from { to - from } else { n - from + to };
        let is_there = self.is_straight && (self.is_closed || to > from);
        (0..=count).filter(|_| is_there).map(|i| self.points[(from + i) % n]).collect()
    }

    /// The vertex nearest to a place, and how far it is.
    pub(crate) fn nearest(&self, p: Point) -> (usize, f64) {
        let off = self.points.iter().map(|q| q.distance_squared(p)).enumerate();
        let (vertex, squared) = off.min_by(|a, b| a.1.total_cmp(&b.1)).unwrap_or((0, f64::INFINITY));
        (vertex, squared.sqrt())
    }

    /// The vertices at which it turns sharply; the ends of an open one are among them.
    pub(crate) fn turns(&self) -> Vec<usize> {
        (0..self.points.len()).filter(|i| self.is_turn(*i)).collect()
    }

    fn is_turn(&self, i: usize) -> bool {
        let n = self.parts.len();
        if !self.is_closed && (i == 0 || i >= n) {
            return true;
        }
        let (before, after) = (self.parts[(i + n - 1) % n].into, self.parts[i % n].out);
        float::atan2(before.cross(after), before.dot(after)).abs() > TURN
    }
}

fn unit(v: Vec2) -> Vec2 {
    if v.hypot() > 0.0 { v.normalize() } else { Vec2::ZERO }
}

fn arc_part(from: Point, arc: Arc) -> Part {
    let chord = arc.to - from;
    if arc.bulge == 0.0 || chord.hypot() == 0.0 {
        return Part { length: chord.hypot(), out: unit(chord), into: unit(chord) };
    }
    let half = 2.0 * float::atan(arc.bulge);
    let turned = |a: f64| {
        Vec2::new(chord.x * float::cos(a) - chord.y * float::sin(a), chord.x * float::sin(a) + chord.y * float::cos(a))
    };
    Part { length: length(from, arc), out: unit(turned(-half)), into: unit(turned(half)) }
}

fn segment_part(s: &PathSeg) -> Part {
    let length = s.arclen(LENGTH_ACCURACY);
    Part { length, out: segment_direction(s, 0.0), into: segment_direction(s, 1.0) }
}
