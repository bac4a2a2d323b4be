//! Curves as arcs of circles that run on into each other, within a tolerance.

use crate::runs::smooth_runs;
use engine::curve::float;
use engine::curve::{Path, segment_direction};
use kurbo::{ParamCurve, PathSeg, Point, Vec2};

/// A straight or round part of an outline, from where the last one ended.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Arc {
    /// Its end.
    pub(crate) to: Point,
    /// Tangent of a quarter of its angle; positive where it turns to the left with y up, 0 where it
    /// is straight.
    pub(crate) bulge: f64,
}

/// Deviation is looked at in at least so many places of each arc pair and of each segment that it
/// covers; what may lie between them is kept free by fitting a little tighter than asked.
const LOOKS: usize = 24;
const LOOKS_PER_SEGMENT: usize = 8;
const SAFETY: f64 = 0.95;

/// Looking for the longest part that fits ends with one that takes so much of the tolerance, or
/// when it is known to within so much of its length.
const FULL: f64 = 0.9;
const NEAR: f64 = 0.01;

/// After so many tries that do not fit, a part is shorter than any that matters.
const TRIES: usize = 40;

/// Arcs of more than half a circle are not wanted.
const ROUNDEST: f64 = 1.0;

/// Fits arcs to a path: its corners are kept, between them tangents run on, and nothing strays by
/// more than `tolerance`, mm.
pub(crate) fn arcs(path: &Path, tolerance: f64) -> Vec<Arc> {
    let mut out = Vec::new();
    for run in smooth_runs(path) {
        fit_run(&run, SAFETY * tolerance, &mut out);
    }
    out
}

fn fit_run(run: &Path, tolerance: f64, out: &mut Vec<Arc>) {
    let segments = run.segments();
    if let [PathSeg::Line(l)] = segments {
        out.push(Arc { to: l.p1, bulge: 0.0 });
        return;
    }
    let end = segments.len() as f64;
    let (mut from, mut step) = (0.0, 1.0);
    while from < end {
        let (to, pair) = longest(run, from, end, step, tolerance);
        step = to - from;
        out.extend(pair.into_iter().filter(|a| a.to.is_finite()));
        from = to;
    }
}

/// The longest part from a place on that a pair of arcs fits; `step` is where to begin looking.
///
/// How far a pair strays grows with the third power of its length, as far as the curve is smooth:
/// each try tells where the next should be.
fn longest(run: &Path, from: f64, end: f64, step: f64, tolerance: f64) -> (f64, Vec<Arc>) {
    if let Some(all) = pair(run, from, end, tolerance).filter(|p| p.off <= tolerance) {
        return (end, all.merged());
    }
    let mut good: Option<(f64, Pair)> = None;
    let (mut low, mut high) = (from, end);
    let mut to = from + step.min(0.5 * (end - from));
    for _ in 0..TRIES {
        let tried = pair(run, from, to, tolerance);
        let off = tried.as_ref().map_or(f64::INFINITY, |p| p.off);
        match tried {
            Some(fit) if off <= tolerance => (low, good) = (to, Some((to, fit))),
            _ => high = to,
        }
        let is_full = (FULL * tolerance..=tolerance).contains(&off);
        if is_full || (good.is_some() && high - low < NEAR * (low - from)) {
            break;
        }
        let grow = float::cbrt(0.5 * (1.0 + FULL) * tolerance / off).clamp(0.25, 4.0);
        let next = from + grow * (to - from);
        to = if next > low && next < high { next } else { 0.5 * (low + high) };
    }
    // Nothing fits where a curve degenerates: a chord over what is left of it.
    let chord = || (high, vec![Arc { to: place(run, high).0, bulge: 0.0 }]);
    good.map_or_else(chord, |(to, fit)| (to, fit.merged()))
}

/// Point and direction at segment plus parameter.
fn place(run: &Path, at: f64) -> (Point, Vec2) {
    let segments = run.segments();
    let i = (at.floor() as usize).min(segments.len() - 1);
    let t = at - i as f64;
    (segments[i].eval(t), segment_direction(&segments[i], t))
}

/// Two arcs with the tangents at both ends.
struct Pair {
    start: Point,
    arcs: [Arc; 2],
    /// How far they stray, mm; where that is too far, at least so much.
    off: f64,
}

/// Nothing comes back where there is no such pair.
fn pair(run: &Path, from: f64, to: f64, tolerance: f64) -> Option<Pair> {
    let ((p, u), (q, v)) = (place(run, from), place(run, to));
    let middle = knee(p, u, q, v)?;
    let arcs = [Arc { to: middle, bulge: bulge(u, middle - p) }, back(middle, q, v)];
    if !arcs.iter().all(|a| a.bulge.abs() <= ROUNDEST) {
        return None;
    }
    // Before the knee the first arc is meant, after it the second.
    let circles = [Circle::of(p, arcs[0]), Circle::of(middle, arcs[1])];
    let onwards = mirrored(u, middle - p);
    let mut off: f64 = 0.0;
    for at in looks(from, to) {
        let s = point(run, at);
        let here = circles[usize::from((s - middle).dot(onwards) > 0.0)].off(s);
        if !here.is_finite() {
            return None;
        }
        off = off.max(here);
        // Far off: a much shorter part comes next, and how much is not worth the looking.
        if off > TOO_FAR * tolerance {
            break;
        }
    }
    Some(Pair { start: p, arcs, off })
}

/// Of the tolerance: a part that strays further needs to be less than half as long.
const TOO_FAR: f64 = 10.0;

/// The circle that an arc is part of, or the line.
enum Circle {
    Round(Point, f64),
    Straight(Point, Vec2),
}

impl Circle {
    fn of(start: Point, arc: Arc) -> Self {
        let chord = arc.to - start;
        if arc.bulge.abs() * chord.hypot() < 1e-7 {
            return Self::Straight(start, chord / chord.hypot().max(1e-30));
        }
        let (centre, radius) = circle(start, arc);
        Self::Round(centre, radius)
    }

    fn off(&self, p: Point) -> f64 {
        match self {
            Self::Round(centre, radius) => (p.distance(*centre) - radius).abs(),
            Self::Straight(start, unit) => (p - *start).cross(*unit).abs(),
        }
    }
}

/// The direction in which an arc ends that starts in another.
fn mirrored(direction: Vec2, chord: Vec2) -> Vec2 {
    let unit = chord / chord.hypot().max(1e-30);
    unit * (2.0 * unit.dot(direction)) - direction
}

fn point(run: &Path, at: f64) -> Point {
    let segments = run.segments();
    let i = (at.floor() as usize).min(segments.len() - 1);
    segments[i].eval(at - i as f64)
}

/// Where to look: as densely in each segment as it needs, however short the others are.
fn looks(from: f64, to: f64) -> impl Iterator<Item = f64> {
    let segments = (from.floor() as usize)..(to.ceil() as usize);
    let each = LOOKS_PER_SEGMENT.max(LOOKS / segments.len().max(1));
    segments.flat_map(move |i| {
        let (a, b) = (from.max(i as f64), to.min(i as f64 + 1.0));
        (1..=each).map(move |k| a + (b - a) * k as f64 / each as f64)
    })
}

/// Where the two arcs meet: both tangents of the same length.
fn knee(p: Point, u: Vec2, q: Point, v: Vec2) -> Option<Point> {
    let w = q - p;
    let (sum, bend) = (w.dot(u + v), 2.0 * (1.0 - u.dot(v)));
    let d =
        if bend > 1e-12 { (-sum + (sum * sum + bend * w.hypot2()).sqrt()) / bend } else { w.hypot2() / (2.0 * sum) };
    (d.is_finite() && d > 0.0).then(|| p.midpoint(q) + (u - v) * (0.5 * d))
}

/// Of an arc that starts in a direction and ends after a chord.
fn bulge(direction: Vec2, chord: Vec2) -> f64 {
    float::tan(0.5 * float::atan2(direction.cross(chord), direction.dot(chord)))
}

/// The arc that ends in a direction.
fn back(from: Point, to: Point, direction: Vec2) -> Arc {
    let chord = to - from;
    Arc { to, bulge: float::tan(0.5 * float::atan2(chord.cross(direction), chord.dot(direction))) }
}

impl Pair {
    /// Two straight arcs in line are one.
    fn merged(&self) -> Vec<Arc> {
        let [a, b] = self.arcs;
        let is_straight = |from: Point, arc: Arc| arc.bulge.abs() * from.distance(arc.to) < 1e-6;
        if is_straight(self.start, a) && is_straight(a.to, b) {
            return vec![Arc { to: b.to, bulge: 0.0 }];
        }
        vec![a, b]
    }
}

/// How long a part is, mm.
pub(crate) fn length(start: Point, arc: Arc) -> f64 {
    let chord = arc.to.distance(start);
    if arc.bulge == 0.0 || chord == 0.0 {
        return chord;
    }
    let (_, radius) = circle(start, arc);
    4.0 * radius * float::atan(arc.bulge).abs()
}

/// Centre and radius of a round arc.
pub(crate) fn circle(start: Point, arc: Arc) -> (Point, f64) {
    let chord = arc.to - start;
    let b = arc.bulge;
    let left = Vec2::new(-chord.y, chord.x);
    let centre = start.midpoint(arc.to) + left * (0.25 * (1.0 / b - b));
    (centre, 0.25 * chord.hypot() * (b + 1.0 / b).abs())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::outline::joined;
    use crate::sample;
    use kurbo::CubicBez;
    use std::f64::consts::PI;

    /// How far a point is from an arc.
    fn distance(start: Point, arc: Arc, p: Point) -> f64 {
        let chord = arc.to - start;
        let length = chord.hypot();
        if arc.bulge.abs() * length < 1e-7 {
            let along = ((p - start).dot(chord) / chord.hypot2().max(1e-30)).clamp(0.0, 1.0);
            return p.distance(start + chord * along);
        }
        let (centre, radius) = circle(start, arc);
        // The angle from the arc's middle tells whether the point is beside it.
        let middle = start.midpoint(arc.to) + Vec2::new(chord.y, -chord.x) * (0.5 * arc.bulge);
        let (m, s) = (middle - centre, p - centre);
        let half = 2.0 * arc.bulge.abs().atan();
        if m.cross(s).atan2(m.dot(s)).abs() <= half {
            (s.hypot() - radius).abs()
        } else {
            p.distance(start).min(p.distance(arc.to))
        }
    }

    #[test]
    fn a_quarter_circle_has_the_bulge_of_the_closed_form() {
        // From (1, 0) to (0, 1) round the origin, to the left: bulge tan(90°/4).
        let quarter = bulge(Vec2::new(0.0, 1.0), Vec2::new(-1.0, 1.0));
        assert!((quarter - (PI / 8.0).tan()).abs() < 1e-12);
        let start = Point::new(1.0, 0.0);
        let (centre, radius) = circle(start, Arc { to: Point::new(0.0, 1.0), bulge: quarter });
        assert!(centre.distance(Point::ZERO) < 1e-12 && (radius - 1.0).abs() < 1e-12);
    }

    #[test]
    fn a_circle_takes_few_arcs() {
        let k = 4.0 / 3.0 * (PI / 8.0).tan();
        let c = CubicBez::new((100.0, 0.0), (100.0, 100.0 * k), (100.0 * k, 100.0), (0.0, 100.0));
        assert_eq!(arcs(&Path::cubic(c), 0.05).len(), 2);
    }

    #[test]
    fn arcs_keep_the_tolerance_both_ways_and_are_fewer_than_chords() {
        for piece in &sample::drawing().unfolded().pieces {
            let path = joined(piece.cut().unwrap());
            for tolerance in [0.01, 0.05, 0.2] {
                let arcs = arcs(&path, tolerance);
                let starts: Vec<Point> = std::iter::once(path.start()).chain(arcs.iter().map(|a| a.to)).collect();
                for p in path.flatten(1e-4) {
                    let off = starts.iter().zip(&arcs).map(|(s, a)| distance(*s, *a, p)).fold(f64::INFINITY, f64::min);
                    assert!(off <= tolerance, "{}: {off}", piece.name);
                }
                for (s, a) in starts.iter().zip(&arcs) {
                    for p in on_arc(*s, *a) {
                        let off = p.distance(path.point(path.nearest(p)));
                        assert!(off <= tolerance, "{}: {off} back at {p:?}", piece.name);
                    }
                }
                let chords = path.flatten(tolerance).len();
                assert!(3 * arcs.len() < 2 * chords, "{} arcs, {chords} chords", arcs.len());
            }
        }
    }

    fn on_arc(start: Point, arc: Arc) -> Vec<Point> {
        if arc.bulge == 0.0 {
            return (1..8).map(|i| start.lerp(arc.to, f64::from(i) / 8.0)).collect();
        }
        let (centre, _) = circle(start, arc);
        let angle = 4.0 * arc.bulge.atan();
        let r = start - centre;
        (1..8)
            .map(|i| angle * f64::from(i) / 8.0)
            .map(|a| centre + Vec2::new(r.x * a.cos() - r.y * a.sin(), r.x * a.sin() + r.y * a.cos()))
            .collect()
    }

    #[test]
    fn a_degenerate_curve_does_not_hang() {
        let p = Point::new(3.0, 4.0);
        let path = Path::cubic(CubicBez::new(p, p, p, Point::new(3.0, 4.0 + 1e-9)));
        assert!(arcs(&path, 0.05).len() < 100);
        let back_and_forth = Path::cubic(CubicBez::new((0.0, 0.0), (30.0, 0.0), (-20.0, 0.0), (10.0, 0.0)));
        assert!(arcs(&back_and_forth, 0.05).len() < 200);
    }
}
