//! Where two paths cross.

use super::hull::{are_apart, hull};
use super::{Path, Place};
use kurbo::{Line, ParamCurve, PathSeg, Point, Rect};
use lyon::geom::{CubicBezierSegment, point};

impl Path {
    /// Where two paths cross: places on this one and on the other.
    pub fn crossings(&self, other: &Self) -> Vec<(Place, Place)> {
        let mut found = Vec::new();
        let hulls: Vec<Rect> = other.segments().iter().map(hull).collect();
        for (i, a) in self.segments().iter().enumerate() {
            let here = hull(a);
            let near = other.segments().iter().enumerate().zip(&hulls).filter(|(_, there)| here.overlaps(**there));
            for ((j, b), _) in near.filter(|((_, b), _)| !are_apart(a, b)) {
                let place = |(t, u)| (Place { segment: i, t }, Place { segment: j, t: u });
                segment_crossings(a, b, |at| found.push(place(at)));
            }
        }
        found
    }
}

fn segment_crossings(a: &PathSeg, b: &PathSeg, mut each: impl FnMut((f64, f64))) {
    if let (PathSeg::Line(l), PathSeg::Line(m)) = (a, b) {
        line_crossing(*l, *m).into_iter().for_each(each);
        return;
    }
    let pairs = lyon_cubic(*a).cubic_intersections_t(&lyon_cubic(*b));
    for pair in &pairs {
        each(polish(a, b, *pair));
    }
    if pairs.is_empty() {
        crossing_by_halves(&Part::whole(*a), &Part::whole(*b)).into_iter().for_each(|pair| each(polish(a, b, pair)));
    }
}

/// A part of a segment, and where on it that part begins and ends.
struct Part {
    curve: PathSeg,
    hull: Rect,
    from: f64,
    to: f64,
}

impl Part {
    fn of(curve: PathSeg, from: f64, to: f64) -> Self {
        Self { curve, hull: hull(&curve), from, to }
    }

    fn whole(curve: PathSeg) -> Self {
        Self::of(curve, 0.0, 1.0)
    }

    fn middle(&self) -> f64 {
        0.5 * (self.from + self.to)
    }

    fn halves(&self) -> [Self; 2] {
        let (first, second) = match self.curve {
            PathSeg::Cubic(c) => {
                let (first, second) = c.subdivide();
                (PathSeg::Cubic(first), PathSeg::Cubic(second))
            }
            other => other.subdivide(),
        };
        [Self::of(first, self.from, self.middle()), Self::of(second, self.middle(), self.to)]
    }

    fn chord(&self) -> Line {
        Line::new(self.curve.start(), self.curve.end())
    }
}

/// The first crossing of two curves, by halving both while their hulls overlap: lyon's clipping
/// misses crossings of curves that are nearly straight.
fn crossing_by_halves(a: &Part, b: &Part) -> Option<(f64, f64)> {
    if !a.hull.overlaps(b.hull) || are_apart(&a.curve, &b.curve) {
        return None;
    }
    if a.to - a.from < HALVED_TO {
        return line_crossing(a.chord(), b.chord()).map(|_| (a.middle(), b.middle()));
    }
    let (firsts, seconds) = (a.halves(), b.halves());
    firsts.iter().find_map(|a| seconds.iter().find_map(|b| crossing_by_halves(a, b)))
}

/// Parts of the parameter, a few hundredths of a millimetre on any edge, that are as good as straight.
const HALVED_TO: f64 = 1e-3;

fn line_crossing(l: Line, m: Line) -> Option<(f64, f64)> {
    let (d, e) = (l.p1 - l.p0, m.p1 - m.p0);
    let cross = d.cross(e);
    if cross.abs() < 1e-12 {
        return None;
    }
    let (t, u) = ((m.p0 - l.p0).cross(e) / cross, (m.p0 - l.p0).cross(d) / cross);
    let on = |x: f64| (-1e-9..=1.0 + 1e-9).contains(&x);
    (on(t) && on(u)).then(|| (t.clamp(0.0, 1.0), u.clamp(0.0, 1.0)))
}

/// Two Newton steps on a crossing: lyon stops at about 1e-6 of the parameter.
fn polish(a: &PathSeg, b: &PathSeg, (mut t, mut u): (f64, f64)) -> (f64, f64) {
    let h = 1e-6;
    for _ in 0..3 {
        let gap = b.eval(u) - a.eval(t);
        let v = (a.eval(t + h) - a.eval(t - h)) / (2.0 * h);
        let w = (b.eval(u + h) - b.eval(u - h)) / (2.0 * h);
        let cross = v.cross(w);
        if cross.abs() < 1e-9 {
            break;
        }
        t = (t + gap.cross(w) / cross).clamp(0.0, 1.0);
        u = (u + gap.cross(v) / cross).clamp(0.0, 1.0);
    }
    (t, u)
}

fn lyon_cubic(s: PathSeg) -> CubicBezierSegment<f64> {
    let c = s.to_cubic();
    let p = |p: Point| point(p.x, p.y);
    CubicBezierSegment { from: p(c.p0), ctrl1: p(c.p1), ctrl2: p(c.p2), to: p(c.p3) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::{Circle, CubicBez, Shape};
    use proptest::prelude::*;

    proptest! {
        /// What lies apart has no crossing, as fine polylines tell; a hair's breadth apart counts as well.
        #[test]
        fn nothing_that_crosses_lies_apart(at in proptest::collection::vec(0.0..100.0_f64, 16)) {
            let point = |i: usize| Point::new(at[2 * i], at[2 * i + 1]);
            let cubic = |i: usize| CubicBez::new(point(i), point(i + 1), point(i + 2), point(i + 3));
            let (a, b) = (cubic(0), cubic(4));
            let chords = |c: CubicBez| (0..60).map(move |i| {
                let at = |i: i32| c.eval(f64::from(i) / 60.0);
                Line::new(at(i), at(i + 1))
            });
            let crosses = chords(a).any(|l| chords(b).any(|m| line_crossing(l, m).is_some()));
            prop_assert!(!crosses || !are_apart(&PathSeg::Cubic(a), &PathSeg::Cubic(b)));
        }
    }

    #[test]
    fn crossings_are_found_on_both_paths() {
        let circle = Path::new(Circle::new(Point::ZERO, 50.0).to_path(1e-9).segments().collect());
        let line = Path::line(Point::new(-100.0, 10.0), Point::new(100.0, 10.0));
        let found = circle.crossings(&line);
        assert_eq!(found.len(), 2);
        for (a, b) in found {
            assert!(circle.point(a).distance(line.point(b)) < 1e-9);
        }
    }
}
