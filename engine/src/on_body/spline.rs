//! Smooth lines through points.

use crate::curve::Path;
use kurbo::{CubicBez, PathSeg, Point};

/// A curve with one tangent everywhere through points (Catmull & Rom 1974).
pub(super) fn through(points: &[Point]) -> Path {
    let last = points.len().saturating_sub(1);
    let tangent = |i: usize| (points[(i + 1).min(last)] - points[i.saturating_sub(1)]) / 6.0;
    let parts = (0..last).map(|i| {
        let (a, b) = (points[i], points[i + 1]);
        // No handle longer than a third of its own part, or uneven spacing would make loops.
        let third = (b - a).hypot() / 3.0;
        let (from, to) = (short(tangent(i), third), short(tangent(i + 1), third));
        PathSeg::Cubic(CubicBez::new(a, a + from, b - to, b))
    });
    Path::new(parts.collect())
}

fn short(handle: kurbo::Vec2, most: f64) -> kurbo::Vec2 {
    let length = handle.hypot();
    if length > most { handle * (most / length) } else { handle }
}

/// Runs of points, each smooth in itself, with corners between them, closed by a line.
pub(super) fn closed(runs: &[&[Point]]) -> Path {
    let mut out: Vec<PathSeg> = Vec::new();
    for run in runs {
        let path = through(run);
        if let (Some(before), Some(after)) = (out.last().map(kurbo::ParamCurve::end), path.segments().first()) {
            let start = kurbo::ParamCurve::start(after);
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
