//! Measuring a garment on its own curves: nothing here reads a number of the record.

use engine::garment::{Edge, EdgeRef, Garment, Outline, Piece};
use engine::topology::{Half, Way};
use kurbo::{CubicBez, Line, ParamCurve, ParamCurveArclen, ParamCurveDeriv, PathSeg, Point, Vec2};

/// mm per segment.
const ACCURACY: f64 = 1e-8;
/// Of places along a curve, mm.
const PLACE_ACCURACY: f64 = 1e-6;

/// The mirror image in x = 0.
pub fn mirror(s: &PathSeg) -> PathSeg {
    let m = |p: Point| Point::new(-p.x, p.y);
    scaled_by(s, m)
}

/// Every control point by a rule.
pub fn scaled_by(s: &PathSeg, m: impl Fn(Point) -> Point) -> PathSeg {
    match s {
        PathSeg::Line(l) => PathSeg::Line(Line::new(m(l.p0), m(l.p1))),
        PathSeg::Quad(q) => PathSeg::Cubic(scaled_cubic(&q.raise(), m)),
        PathSeg::Cubic(c) => PathSeg::Cubic(scaled_cubic(c, m)),
    }
}

fn scaled_cubic(c: &CubicBez, m: impl Fn(Point) -> Point) -> CubicBez {
    CubicBez::new(m(c.p0), m(c.p1), m(c.p2), m(c.p3))
}

pub fn length(segments: &[PathSeg]) -> f64 {
    segments.iter().map(|s| s.arclen(ACCURACY)).sum()
}

/// Length after dividing x and y by these.
pub fn length_shrunk(segments: &[PathSeg], (across, along): (f64, f64)) -> f64 {
    segments.iter().map(|s| scaled_by(s, |p| Point::new(p.x / across, p.y / along)).arclen(ACCURACY)).sum()
}

/// Points at equal shares of the length, both ends included.
pub fn at_shares(segments: &[PathSeg], parts: usize) -> Vec<Point> {
    let lengths: Vec<f64> = segments.iter().map(|s| s.arclen(ACCURACY)).collect();
    let total: f64 = lengths.iter().sum();
    (0..=parts)
        .map(|k| {
            let mut left = total * k as f64 / parts as f64;
            for (i, s) in segments.iter().enumerate() {
                if left <= lengths[i] || i + 1 == segments.len() {
                    return s.eval(s.inv_arclen(left.min(lengths[i]), PLACE_ACCURACY));
                }
                left -= lengths[i];
            }
            unreachable!("a path has segments")
        })
        .collect()
}

/// Which outline of a piece.
pub type Row = fn(&Piece) -> &Outline;

pub fn finished(p: &Piece) -> &Outline {
    &p.finished
}
pub fn sewing(p: &Piece) -> &Outline {
    &p.sewing
}
pub fn cut(p: &Piece) -> &Outline {
    &p.cut
}

pub fn piece<'a>(g: &'a Garment, name: &str) -> &'a Piece {
    g.pieces.iter().find(|p| p.id.name() == name).unwrap_or_else(|| panic!("no piece {name:?}"))
}

fn edge<'a>(outline: &'a Outline, name: &str) -> &'a Edge {
    outline.edges.iter().find(|e| e.id.name() == name).unwrap_or_else(|| panic!("no edge {name:?}"))
}

/// An edge on the wearer's or the drafted side: half pieces have `top`, full ones `left top`.
pub fn any_edge<'a>(p: &'a Piece, outline: &'a Outline, name: &str) -> &'a [PathSeg] {
    let full = format!("left {name}");
    let found = outline.edges.iter().find(|e| e.id.name() == name || e.id.name() == full);
    found.unwrap_or_else(|| panic!("no edge {name:?} on the {}", p.id.name())).path.segments()
}

/// What a reference means, on one row.
pub fn resolve(g: &Garment, at: &EdgeRef, row: Row) -> Vec<PathSeg> {
    let on = edge(row(piece(g, at.piece.name())), at.edge.name());
    let mut segments: Vec<PathSeg> = on.path.segments().to_vec();
    if at.half == Half::Minus {
        segments = segments.iter().map(mirror).collect();
    }
    if at.way == Way::Back {
        segments = segments.iter().rev().map(PathSeg::reverse).collect();
    }
    segments
}

/// Unit direction at either end of a segment.
fn direction(s: &PathSeg, t: f64) -> Vec2 {
    let c = match s {
        PathSeg::Line(l) => return (l.p1 - l.p0).normalize(),
        PathSeg::Quad(q) => q.raise(),
        PathSeg::Cubic(c) => *c,
    };
    c.deriv().eval(t).to_vec2().normalize()
}

pub fn start_direction(segments: &[PathSeg]) -> Vec2 {
    direction(segments.first().unwrap(), 0.0)
}

pub fn end_direction(segments: &[PathSeg]) -> Vec2 {
    direction(segments.last().unwrap(), 1.0)
}

/// The interior angle of a clockwise outline between two neighbouring edges, in degrees.
pub fn corner(piece: &Piece, one: &str, other: &str) -> f64 {
    let edges = &piece.finished.edges;
    let n = edges.len();
    let at = (0..n)
        .find(|i| {
            let (a, b) = (edges[*i].id.name(), edges[(i + 1) % n].id.name());
            (a, b) == (one, other) || (b, a) == (one, other)
        })
        .unwrap_or_else(|| panic!("{one:?} and {other:?} are not neighbours on the {}", piece.id.name()));
    let into = end_direction(edges[at].path.segments());
    let out = start_direction(edges[(at + 1) % n].path.segments());
    180.0 - into.cross(out).atan2(into.dot(out)).to_degrees()
}

/// Signed curvature at evenly spaced parameters of every segment, 1/mm.
pub fn curvatures(segments: &[PathSeg], per_segment: usize) -> Vec<f64> {
    let at = |c: &CubicBez, t: f64| {
        let (d, dd) = (c.deriv().eval(t).to_vec2(), c.deriv().deriv().eval(t).to_vec2());
        d.cross(dd) / d.hypot().powi(3)
    };
    segments
        .iter()
        .filter_map(|s| if let PathSeg::Cubic(c) = s { Some(*c) } else { None })
        .flat_map(|c| (0..=per_segment).map(move |k| at(&c, k as f64 / per_segment as f64)))
        .collect()
}

/// How often the sign changes, curvatures up to a threshold counting as straight.
pub fn sign_changes(values: &[f64], threshold: f64) -> usize {
    let signs: Vec<bool> = values.iter().filter(|v| v.abs() > threshold).map(|v| *v > 0.0).collect();
    signs.windows(2).filter(|w| w[0] != w[1]).count()
}
