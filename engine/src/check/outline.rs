//! Are the outlines simple, and does the cut line enclose the sewing line?

use super::{Subject, refusal};
use crate::garment::{Finding, Outline, Piece};
use kurbo::Point;

/// Chord tolerance of the outlines that are tested, mm.
const TOLERANCE: f64 = 0.05;

/// Cut and sewing lines do not cross themselves or each other.
pub(super) fn simple(s: &Subject<'_>) -> Vec<Finding> {
    s.garment.pieces.iter().filter_map(tangled).collect()
}

fn tangled(piece: &Piece) -> Option<Finding> {
    let (cut, sewing) = (polygon(&piece.cut), polygon(&piece.sewing));
    let fault = if !cut.iter().chain(&sewing).all(|p| p.is_finite()) {
        "a point of it is nowhere"
    } else if !is_simple(&cut) {
        "its cut line crosses itself"
    } else if !is_simple(&sewing) {
        "its sewing line crosses itself"
    } else if signed_area(&cut) <= 0.0 || !sewing.iter().all(|p| encloses(&cut, *p)) {
        "its sewing line leaves the cut line"
    } else {
        return None;
    };
    let text = format!("the {} cannot be cut: {fault}", piece.name);
    let next = "make the finishes narrower, or the knobs (front_scoop, back_cover, side_seam) milder";
    Some(refusal("outline.not_simple", &piece.name, text, next))
}

/// The outline as a polygon without a repeated point.
fn polygon(outline: &Outline) -> Vec<Point> {
    let mut points: Vec<Point> = Vec::new();
    for p in outline.edges.iter().flat_map(|e| e.path.flatten(TOLERANCE)) {
        if points.last().is_none_or(|q| q.distance(p) > 1e-6) {
            points.push(p);
        }
    }
    if points.len() > 1 && points[0].distance(points[points.len() - 1]) <= 1e-6 {
        points.pop();
    }
    points
}

/// Positive where the outline runs clockwise as seen (y down).
fn signed_area(points: &[Point]) -> f64 {
    (0..points.len())
        .map(|i| {
            let (p, q) = (points[i], points[(i + 1) % points.len()]);
            0.5 * (p.x * q.y - q.x * p.y)
        })
        .sum()
}

/// No two sides of a polygon touch, but neighbours in their common point.
///
/// Sides are taken in order of their left ends, so that only those which overlap in x are
/// compared.
fn is_simple(points: &[Point]) -> bool {
    let n = points.len();
    let side = |i: usize| (points[i], points[(i + 1) % n]);
    let mut order: Vec<usize> = (0..n).collect();
    let left = |i: usize| side(i).0.x.min(side(i).1.x);
    order.sort_by(|a, b| left(*a).total_cmp(&left(*b)));
    for (k, &i) in order.iter().enumerate() {
        let right = side(i).0.x.max(side(i).1.x);
        for &j in order[k + 1..].iter().take_while(|&&j| left(j) <= right) {
            let gap = i.abs_diff(j);
            let touching = if gap == 1 || gap == n - 1 { doubles_back(points, i, j) } else { cross(side(i), side(j)) };
            if touching {
                return false;
            }
        }
    }
    true
}

/// Neighbours that run back over each other make a spike.
fn doubles_back(points: &[Point], i: usize, j: usize) -> bool {
    let n = points.len();
    let (first, second) = if (i + 1) % n == j { (i, j) } else { (j, i) };
    let a = points[(first + 1) % n] - points[first];
    let b = points[(second + 1) % n] - points[second];
    a.dot(b) < 0.0 && a.cross(b).abs() < 1e-9 * a.hypot() * b.hypot()
}

fn cross((a, b): (Point, Point), (c, d): (Point, Point)) -> bool {
    let turn = |p: Point, q: Point, r: Point| (q - p).cross(r - p);
    let (s, t) = (turn(a, b, c), turn(a, b, d));
    let (u, v) = (turn(c, d, a), turn(c, d, b));
    s * t <= 0.0 && u * v <= 0.0 && (s, t, u, v) != (0.0, 0.0, 0.0, 0.0)
}

/// Is a point inside a polygon or within the tolerance of it?
fn encloses(polygon: &[Point], p: Point) -> bool {
    let n = polygon.len();
    let mut inside = false;
    for i in 0..n {
        let (a, b) = (polygon[i], polygon[(i + 1) % n]);
        if near(a, b, p) {
            return true;
        }
        if (a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x) {
            inside = !inside;
        }
    }
    inside
}

fn near(a: Point, b: Point, p: Point) -> bool {
    let d = b - a;
    let t = ((p - a).dot(d) / d.hypot2().max(1e-12)).clamp(0.0, 1.0);
    (a + d * t).distance(p) <= 2.0 * TOLERANCE
}

/// Seams fit on the sewing lines: within 0.05 mm.
const SEWN_DIFFERENCE: f64 = 0.05;

/// Seams equal each other between the sewing lines too.
pub(super) fn sewn_seams(s: &Subject<'_>) -> Vec<Finding> {
    s.garment
        .seams
        .iter()
        .filter(|seam| (seam.sewn_a - seam.sewn_b).abs() > SEWN_DIFFERENCE || seam.difference.abs() > 0.01)
        .map(|seam| {
            let difference = (seam.sewn_a - seam.sewn_b).abs().max(seam.difference.abs());
            let text = format!("the two sides of the {} differ by {difference:.3} mm", seam.name);
            let next = "make the finishes at its ends narrower, or the knobs milder";
            refusal("seam.unequal", &seam.name, text, next).measured(difference, SEWN_DIFFERENCE, "mm")
        })
        .collect()
}
