//! An outline grown all round: the tool's path, half a kerf outside the true outline.
//!
//! Corners are mitred, so that the tool, which takes away half a kerf on either side, leaves them
//! sharp and in place.

use crate::runs::smooth_runs;
use engine::curve::float;
use engine::curve::{Path, Place};
use engine::drawing::Edge;
use kurbo::{Point, Vec2};

/// Corners that turn by more than this are cut off square, radians (a mitre of 4.1 times).
const SHARPEST: f64 = 2.65;

/// Ends nearer than this meet, mm.
const MEETS: f64 = 1e-6;

/// A smooth part of an edge, its line beside it, and where that is cut off.
struct OffsetRun {
    edge: usize,
    line: Path,
    from: Place,
    to: Place,
    /// Where it is carried on to, before its start and after its end.
    before: Vec<Point>,
    after: Vec<Point>,
}

/// The outline, clockwise with y down, grown by `d` mm; edges keep their names.
///
/// # Errors
/// The name of an edge whose hollow is tighter than `d`, or beside which the lines do not meet.
pub(crate) fn grown(edges: &[Edge], d: f64) -> Result<Vec<Edge>, String> {
    if d == 0.0 {
        return Ok(edges.to_vec());
    }
    let mut runs = Vec::new();
    for (i, edge) in edges.iter().enumerate() {
        for run in smooth_runs(&edge.path) {
            if run.tightest(d) <= d {
                return Err(edge.name.clone());
            }
            runs.push(offset_run(i, run.offset(d)));
        }
    }
    for i in 0..runs.len() {
        let next = (i + 1) % runs.len();
        let joint = join(&runs[i].line, &runs[next].line, d).ok_or_else(|| edges[runs[i].edge].name.clone())?;
        match joint {
            Joint::Met => {}
            Joint::Corner(points) => {
                let (first, last) = (points[0], points[points.len() - 1]);
                runs[i].after.push(first);
                runs[next].before.push(last);
            }
            Joint::Trimmed(a, b) => (runs[i].to, runs[next].from) = (a, b),
        }
    }
    Ok(gathered(edges, runs))
}

fn offset_run(edge: usize, line: Path) -> OffsetRun {
    let last = line.segments().len().saturating_sub(1);
    let (from, to) = (Place { segment: 0, t: 0.0 }, Place { segment: last, t: 1.0 });
    OffsetRun { edge, line, from, to, before: Vec::new(), after: Vec::new() }
}

enum Joint {
    Met,
    /// One mitre, or the two ends of a square corner.
    Corner(Vec<Point>),
    Trimmed(Place, Place),
}

fn join(a: &Path, b: &Path, d: f64) -> Option<Joint> {
    let (p, q) = (a.end(), b.start());
    if p.distance(q) < MEETS {
        return Some(Joint::Met);
    }
    let (u, v) = (a.end_direction(), b.start_direction());
    // With y down, a clockwise outline turns to a positive angle at a corner that stands out.
    let turn = float::atan2(u.cross(v), u.dot(v));
    if turn > SHARPEST {
        return Some(Joint::Corner(vec![p + u * d, q - v * d]));
    }
    if turn > 0.0 {
        return tangents_meet(p, u, q, v).map(|m| Joint::Corner(vec![m]));
    }
    let middle = p.midpoint(q);
    let near = |(x, y): &(Place, Place)| a.point(*x).distance(middle) + b.point(*y).distance(middle);
    let crossing = a.crossings(b).into_iter().min_by(|x, y| near(x).total_cmp(&near(y)));
    // An almost smooth joint: lines beside it miss each other by less than can be cut.
    crossing
        .map(|(x, y)| Joint::Trimmed(x, y))
        .or_else(|| (p.distance(q) < 1e-3).then_some(Joint::Corner(vec![middle])))
}

/// Where a line from `p` forwards meets a line from `q` backwards.
fn tangents_meet(p: Point, u: Vec2, q: Point, v: Vec2) -> Option<Point> {
    let cross = u.cross(v);
    (cross.abs() > 1e-12).then(|| p + u * ((q - p).cross(v) / cross)).or_else(|| Some(p.midpoint(q)))
}

/// Runs cut off, carried on, and put together edge by edge.
fn gathered(edges: &[Edge], runs: Vec<OffsetRun>) -> Vec<Edge> {
    let mut out: Vec<Edge> =
        edges.iter().map(|e| Edge { name: e.name.clone(), path: Path::default(), start: e.start }).collect();
    for s in runs {
        let mut path = Path::default();
        let middle = s.line.between(s.from, s.to);
        for p in s.before {
            path = path.joined(Path::line(p, middle.start()));
        }
        let end = middle.end();
        path = path.joined(middle);
        for p in s.after {
            path = path.joined(Path::line(end, p));
        }
        let whole = std::mem::take(&mut out[s.edge].path);
        out[s.edge].path = bridged(whole, path);
    }
    close(out)
}

/// A square corner leaves a gap between its two ends.
fn bridged(whole: Path, next: Path) -> Path {
    if whole.segments().is_empty() || whole.end().distance(next.start()) < MEETS {
        return whole.joined(next);
    }
    let bridge = Path::line(whole.end(), next.start());
    whole.joined(bridge).joined(next)
}

fn close(mut edges: Vec<Edge>) -> Vec<Edge> {
    for i in 0..edges.len() {
        let next = edges[(i + 1) % edges.len()].path.start();
        if edges[i].path.end().distance(next) >= MEETS {
            let gap = Path::line(edges[i].path.end(), next);
            edges[i].path = std::mem::take(&mut edges[i].path).joined(gap);
        }
    }
    edges
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::outline::joined;
    use crate::sample;
    use engine::drawing::{Loop, Role, Vertex};
    use kurbo::{CubicBez, PathSeg, Shape};
    use std::f64::consts::{PI, TAU};

    fn area(edges: &[Edge]) -> f64 {
        joined(&Loop { role: Role::Cut, edges: edges.to_vec() }).to_bez_path().area()
    }

    fn edge(path: Path) -> Edge {
        Edge { name: "any".to_owned(), path, start: Vertex::Turn }
    }

    fn polygon(points: &[(f64, f64)]) -> Vec<Edge> {
        let next = points.iter().cycle().skip(1);
        points.iter().zip(next).map(|(a, b)| edge(Path::line((*a).into(), (*b).into()))).collect()
    }

    #[test]
    fn a_rectangle_grows_by_the_closed_form() {
        let rectangle = polygon(&[(0.0, 0.0), (120.0, 0.0), (120.0, 70.0), (0.0, 70.0)]);
        for d in [0.05, 0.1, 1.0] {
            let grown = grown(&rectangle, d).unwrap();
            // (w + 2d)(h + 2d).
            assert!((area(&grown) - (120.0 + 2.0 * d) * (70.0 + 2.0 * d)).abs() < 1e-9);
        }
    }

    #[test]
    fn a_circle_grows_by_the_closed_form() {
        let k = 4.0 / 3.0 * (PI / 8.0).tan();
        let r = 60.0;
        let p = |a: f64| Point::new(r * a.cos(), r * a.sin());
        let t = |a: f64| Vec2::new(-a.sin(), a.cos()) * (k * r);
        let quarter = |i: i32| {
            let (a, b) = (f64::from(i) * TAU / 4.0, f64::from(i + 1) * TAU / 4.0);
            edge(Path::new(vec![PathSeg::Cubic(CubicBez::new(p(a), p(a) + t(a), p(b) - t(b), p(b)))]))
        };
        let circle: Vec<Edge> = (0..4).map(quarter).collect();
        let before = area(&circle);
        for d in [0.05, 0.5] {
            // Steiner: A + 2πr·d + πd², within the offset's own tolerance along the whole circle.
            let want = before + TAU * r * d + PI * d * d;
            assert!((area(&grown(&circle, d).unwrap()) - want).abs() < TAU * r * 6e-4, "{d}");
        }
    }

    #[test]
    fn a_hollow_corner_is_trimmed() {
        let l = polygon(&[(0.0, 0.0), (100.0, 0.0), (100.0, 40.0), (40.0, 40.0), (40.0, 100.0), (0.0, 100.0)]);
        let d: f64 = 0.3;
        // Mitred: A + L·d + d²·Σ tan(θ/2), five corners of +90° and one of −90°.
        let want = 100.0 * 40.0 + 40.0 * 60.0 + 400.0 * d + 4.0 * d * d;
        assert!((area(&grown(&l, d).unwrap()) - want).abs() < 1e-9);
    }

    #[test]
    fn drawn_pieces_grow_by_their_length_and_stay_closed() {
        for piece in &sample::drawing().unfolded().pieces {
            let edges = &piece.cut().unwrap().edges;
            let length: f64 = edges.iter().map(|e| e.path.length()).sum();
            for d in [0.05, 0.1] {
                let grown = grown(edges, d).unwrap();
                let names = |e: &[Edge]| e.iter().map(|e| e.name.clone()).collect::<Vec<_>>();
                assert_eq!(names(&grown), names(edges));
                let change = area(&grown) - area(edges);
                // The corners' own part is d²·Σ tan(θ/2), here less than 12 d².
                assert!((change - length * d).abs() < 12.0 * d * d + length * 6e-4, "{} {d}: {change}", piece.name);
                for (a, b) in grown.iter().zip(grown.iter().cycle().skip(1)) {
                    assert!(a.path.end().distance(b.path.start()) < 1e-6);
                }
            }
        }
    }

    #[test]
    fn a_hollow_narrower_than_the_kerf_is_refused() {
        let tight = vec![
            edge(Path::cubic(CubicBez::new((0.0, 0.0), (0.4, 0.8), (0.6, 0.8), (1.0, 0.0)))),
            edge(Path::line((1.0, 0.0).into(), (0.0, 50.0).into())),
            edge(Path::line((0.0, 50.0).into(), (0.0, 0.0).into())),
        ];
        assert_eq!(grown(&tight, 1.5).unwrap_err(), "any");
    }
}
