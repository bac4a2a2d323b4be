//! Smooth lines through points.

use crate::curve::Path;
use kurbo::{CubicBez, ParamCurve, PathSeg, Point, Vec2};

/// A curve with one tangent everywhere through points: at each that of the circle through it and its neighbours,
/// nearly, however far they are (Catmull & Rom 1974, with parts as long as their chords).
pub(super) fn through(points: &[Point]) -> Path {
    let ways: Vec<(Vec2, f64)> = points.windows(2).map(|ends| way(ends[0], ends[1])).collect();
    let last = points.len().saturating_sub(1);
    let tangent = |i: usize| {
        let ((before, short), (after, long)) = (ways[i.saturating_sub(1)], ways[i.min(last - 1)]);
        if short + long > 0.0 { (before * long + after * short) / (short + long) } else { Vec2::ZERO }
    };
    let parts = (0..last).map(|i| {
        let (a, b, third) = (points[i], points[i + 1], ways[i].1 / 3.0);
        PathSeg::Cubic(CubicBez::new(a, a + tangent(i) * third, b - tangent(i + 1) * third, b))
    });
    Path::new(parts.collect())
}

/// From one point to another: in which direction, and how far.
fn way(from: Point, to: Point) -> (Vec2, f64) {
    let length = from.distance(to);
    (if length > 0.0 { (to - from) / length } else { Vec2::ZERO }, length)
}

/// A line with points left out may run so far from them, mm on the body: in a picture at a quarter of its size
/// that is less than its thinnest line.
const CLOSE: f64 = 0.1;

/// The points that the curve through them needs: the ends, and those without which it would run past another.
pub(super) fn thinned(points: &[Point]) -> Vec<Point> {
    let mut kept: Vec<usize> = (0..points.len()).collect();
    loop {
        // Every second one is left out on trial.
        let is_tried = |i: usize| i % 2 == 1 && i + 1 < kept.len();
        let tried: Vec<Point> = (0..kept.len()).filter(|i| !is_tried(*i)).map(|i| points[kept[i]]).collect();
        let curve = through(&tried);
        let does = |i: usize| {
            let run = &points[kept[i - 1]..=kept[i + 1]];
            curve.segments().get(i / 2).is_some_and(|part| runs_by(part, run))
        };
        let fewer: Vec<usize> = (0..kept.len()).filter(|i| !is_tried(*i) || !does(*i)).map(|i| kept[i]).collect();
        if fewer.len() == kept.len() {
            return kept.into_iter().map(|i| points[i]).collect();
        }
        kept = fewer;
    }
}

/// Does a curve from the first to the last of some points run by all of them?
fn runs_by(part: &PathSeg, points: &[Point]) -> bool {
    let steps: Vec<f64> = points.windows(2).map(|ends| ends[0].distance(ends[1])).collect();
    let whole: f64 = steps.iter().sum();
    let mut along = 0.0;
    points[1..points.len() - 1].iter().zip(&steps).all(|(point, step)| {
        along += step;
        let t = along / whole;
        let (before, after) = (part.eval((t - NEAR).max(0.0)), part.eval((t + NEAR).min(1.0)));
        let (way, _) = way(before, after);
        // Off to the side: where along the curve a point is nearest is known roughly.
        way.cross(*point - part.eval(t)).abs() <= CLOSE
    })
}

/// Over this part of a curve its direction is read.
const NEAR: f64 = 0.05;

/// Runs of points, each smooth in itself, with corners between them, closed by a line.
pub(super) fn closed(runs: &[&[Point]]) -> Path {
    let mut out: Vec<PathSeg> = Vec::new();
    for run in runs {
        let path = through(run);
        if let (Some(before), Some(after)) = (out.last().map(ParamCurve::end), path.segments().first()) {
            let start = after.start();
            if before.distance(start) > 1e-9 {
                out.push(PathSeg::Line(kurbo::Line::new(before, start)));
            }
        }
        out.extend(path.into_segments());
    }
    Path::new(out)
}

/// The same of a shape that is given by its +x half, from centre to centre.
pub(super) fn mirrored(runs: &[&[Point]]) -> Path {
    let other = |run: &&[Point]| run.iter().rev().map(|p| Point::new(-p.x, p.y)).collect::<Vec<_>>();
    let others: Vec<Vec<Point>> = runs.iter().rev().map(other).collect();
    let all: Vec<&[Point]> = runs.iter().copied().chain(others.iter().map(Vec::as_slice)).collect();
    closed(&all)
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::ParamCurveNearest;

    /// From a point to the nearest part of a line.
    fn off(line: &Path, point: Point) -> f64 {
        line.segments().iter().map(|part| part.nearest(point, 1e-6).distance_sq).fold(f64::INFINITY, f64::min).sqrt()
    }

    #[test]
    fn a_line_with_fewer_points_runs_by_all_of_them() {
        // Unevenly far from each other, and bent more at one end than at the other.
        let at = |i: u32| {
            let t = f64::from(i * i) / 1600.0;
            Point::new(180.0 * t, 90.0 * (1.0 - (1.0 - t) * (1.0 - t)).max(0.0).sqrt())
        };
        let points: Vec<Point> = (0..=40).map(at).collect();
        let fewer = thinned(&points);
        assert!(fewer.len() < 25, "{}", fewer.len());
        assert_eq!((fewer.first(), fewer.last()), (points.first(), points.last()));
        let line = through(&fewer);
        let most = points.iter().map(|p| off(&line, *p)).fold(0.0, f64::max);
        // What is left out beside it later turns a part that ran by its points a little.
        assert!(most < 1.5 * CLOSE, "{most}");
    }

    #[test]
    fn points_that_lie_on_each_other_and_none_at_all_are_taken() {
        let place = Point::new(3.0, 4.0);
        assert!(thinned(&[]).is_empty());
        assert_eq!(thinned(&[place; 3]).len(), 3);
        assert!(through(&[place; 3]).segments().iter().all(|part| part.eval(0.5) == place));
    }
}
