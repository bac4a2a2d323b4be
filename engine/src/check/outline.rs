//! Are the outlines simple, and does the cut line enclose the sewing line?

use super::{Subject, nesting};
use crate::finding::Finding;
use crate::finding::fact::{Fault, OutlineFact};
use crate::garment::{Outline, Piece, SeamWalk};
use kurbo::Point;

/// Chord tolerance of the outlines that are tested, mm.
pub(super) const TOLERANCE: f64 = 0.05;

/// Finished, cut and sewing lines do not cross themselves, and lie within each other as they should.
pub(super) fn simple(s: &Subject<'_>) -> Vec<Finding> {
    let fault = |piece: &Piece| tangled(piece).or_else(|| nesting::disordered(s, piece));
    s.garment.pieces.iter().filter_map(fault).map(Finding::from).collect()
}

fn tangled(piece: &Piece) -> Option<OutlineFact> {
    let finished = polygon(&piece.finished);
    if finished.iter().all(|p| p.is_finite()) && (signed_area(&finished) <= 0.0 || !is_simple(&finished)) {
        // No finish mends what is drafted so.
        return Some(OutlineFact::EdgesCross { piece: piece.id });
    }
    let (cut, sewing) = (polygon(&piece.cut), polygon(&piece.sewing));
    let fault = if !finished.iter().chain(&cut).chain(&sewing).all(|p| p.is_finite()) {
        Fault::Nowhere
    } else if !is_simple(&cut) {
        Fault::CutCrossesItself
    } else if !is_simple(&sewing) {
        Fault::SewingCrossesItself
    } else if signed_area(&cut) <= 0.0 || !encloses_all(&cut, &sewing) {
        Fault::SewingLeavesCut
    } else {
        return None;
    };
    Some(OutlineFact::NotSimple { piece: piece.id, fault })
}

/// The outline as a polygon without a repeated point.
pub(super) fn polygon(outline: &Outline) -> Vec<Point> {
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

/// Is every point inside a polygon or within the tolerance of it?
fn encloses_all(polygon: &[Point], points: &[Point]) -> bool {
    let bands = Bands::of(polygon);
    points.iter().all(|p| bands.place(*p) != Place::Outside)
}

/// Where a point is, seen from a polygon.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Place {
    Inside,
    /// Within the tolerance of it.
    Near,
    Outside,
}

/// The sides of a polygon, sorted into bands of equal height: what happens at one height is a
/// matter of few sides.
pub(super) struct Bands {
    low: f64,
    height: f64,
    sides: Vec<Vec<(Point, Point)>>,
}

/// About so many sides begin in a band.
const SIDES_IN_A_BAND: usize = 4;

impl Bands {
    pub(super) fn of(polygon: &[Point]) -> Self {
        let (low, high) = polygon.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), p| (l.min(p.y), h.max(p.y)));
        let count = polygon.len() / SIDES_IN_A_BAND + 1;
        let height = ((high - low) / count as f64).max(TOLERANCE);
        let mut bands = Self { low, height, sides: vec![Vec::new(); count] };
        for (a, b) in polygon.iter().zip(polygon.iter().cycle().skip(1)) {
            // Somewhat more than the distance at which a point counts as near.
            let reach = 3.0 * TOLERANCE;
            let (first, last) = (bands.index(a.y.min(b.y) - reach), bands.index(a.y.max(b.y) + reach));
            bands.sides[first..=last].iter_mut().for_each(|band| band.push((*a, *b)));
        }
        bands
    }

    /// The band at a height; the outermost ones take all that lies beyond.
    fn index(&self, y: f64) -> usize {
        (((y - self.low) / self.height).max(0.0) as usize).min(self.sides.len() - 1)
    }

    /// Where a point is.
    pub(super) fn place(&self, p: Point) -> Place {
        place(self.at(p.y), p)
    }

    /// Every side that reaches this height or comes near it.
    fn at(&self, y: f64) -> &[(Point, Point)] {
        &self.sides[self.index(y)]
    }
}

/// Where a point is, seen from a polygon. `sides` are all of its sides that reach the point's height
/// or come near it.
fn place(sides: &[(Point, Point)], p: Point) -> Place {
    let mut place = Place::Outside;
    for &(a, b) in sides {
        if near(a, b, p) {
            return Place::Near;
        }
        if (a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x) {
            place = if place == Place::Inside { Place::Outside } else { Place::Inside };
        }
    }
    place
}

fn near(a: Point, b: Point, p: Point) -> bool {
    let d = b - a;
    let t = ((p - a).dot(d) / d.hypot2().max(1e-12)).clamp(0.0, 1.0);
    (a + d * t).distance(p) <= 2.0 * TOLERANCE
}

/// Seams fit on the sewing lines: within 0.05 mm.
const SEWN_DIFFERENCE: f64 = 0.05;

/// On the finished edges: within 0.01 mm.
const FINISHED_DIFFERENCE: f64 = 0.01;

/// Seams equal each other, and between the sewing lines too.
pub(super) fn sewn_seams(s: &Subject<'_>) -> Vec<Finding> {
    s.garment.seams.iter().filter_map(unequal).map(Finding::from).collect()
}

fn unequal(seam: &SeamWalk) -> Option<OutlineFact> {
    let (sewn, finished) = ((seam.sewn_a - seam.sewn_b).abs(), seam.difference.abs());
    let (difference, most) =
        if finished > FINISHED_DIFFERENCE { (finished, FINISHED_DIFFERENCE) } else { (sewn, SEWN_DIFFERENCE) };
    (difference > most).then_some(OutlineFact::SeamUnequal { seam: seam.id, difference, most })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::curve::Path;
    use crate::garment::Edge;
    use crate::topology::{BandEdge, EdgeId, OutlineEdge, PieceId, SeamId, Side};
    use proptest::prelude::*;

    fn outline(corners: &[(f64, f64)]) -> Outline {
        let ends = corners.iter().zip(corners.iter().cycle().skip(1));
        let edge = |(a, b): (&(f64, f64), &(f64, f64))| Edge {
            id: OutlineEdge::Band(BandEdge::EndA),
            path: Path::line(Point::from(*a), Point::from(*b)),
        };
        Outline { edges: ends.map(edge).collect() }
    }

    fn piece(cut: &[(f64, f64)], sewing: &[(f64, f64)]) -> Piece {
        Piece {
            id: PieceId::Front,
            quantity: 1,
            material: "jersey".to_owned(),
            on_fold: false,
            area_mm2: 0.0,
            perimeter_mm: 0.0,
            cut: outline(cut),
            sewing: outline(sewing),
            finished: outline(&INSIDE),
            second_row: Vec::new(),
            folds: Vec::new(),
            notches: Vec::new(),
        }
    }

    const SQUARE: [(f64, f64); 4] = [(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)];
    const INSIDE: [(f64, f64); 4] = [(7.0, 7.0), (93.0, 7.0), (93.0, 93.0), (7.0, 93.0)];
    const BOW: [(f64, f64); 4] = [(0.0, 0.0), (100.0, 100.0), (100.0, 0.0), (0.0, 100.0)];
    const SPIKE: [(f64, f64); 5] = [(0.0, 0.0), (100.0, 0.0), (150.0, 0.0), (100.0, 0.0), (0.0, 100.0)];
    const TOUCH: [(f64, f64); 7] =
        [(0.0, 0.0), (50.0, 40.0), (100.0, 0.0), (100.0, 100.0), (50.0, 40.0), (20.0, 90.0), (0.0, 100.0)];

    fn fault(cut: &[(f64, f64)], sewing: &[(f64, f64)]) -> Option<Fault> {
        match tangled(&piece(cut, sewing)) {
            Some(OutlineFact::NotSimple { fault, .. }) => Some(fault),
            _ => None,
        }
    }

    #[test]
    fn a_sound_outline_is_let_through() {
        assert_eq!(fault(&SQUARE, &INSIDE), None);
        // Both lines may run along each other.
        assert_eq!(fault(&SQUARE, &SQUARE), None);
    }

    #[test]
    fn every_fault_is_named() {
        assert_eq!(fault(&BOW, &INSIDE), Some(Fault::CutCrossesItself));
        assert_eq!(fault(&SPIKE, &INSIDE), Some(Fault::CutCrossesItself));
        assert_eq!(fault(&TOUCH, &INSIDE), Some(Fault::CutCrossesItself));
        let bow = BOW.map(|(x, y)| (0.5 * x + 20.0, 0.5 * y + 20.0));
        assert_eq!(fault(&SQUARE, &bow), Some(Fault::SewingCrossesItself));
        for (dx, dy) in [(8.0, 0.0), (0.0, 8.0), (500.0, -500.0)] {
            assert_eq!(fault(&SQUARE, &INSIDE.map(|(x, y)| (x + dx, y + dy))), Some(Fault::SewingLeavesCut));
        }
        // Walked the wrong way round.
        let round = [SQUARE[0], SQUARE[3], SQUARE[2], SQUARE[1]];
        assert_eq!(fault(&round, &INSIDE), Some(Fault::SewingLeavesCut));
        assert_eq!(fault(&[(f64::NAN, 0.0), SQUARE[1], SQUARE[2]], &INSIDE), Some(Fault::Nowhere));
        assert_eq!(fault(&SQUARE, &[INSIDE[0], (f64::INFINITY, 7.0), INSIDE[2]]), Some(Fault::Nowhere));
    }

    #[test]
    fn near_means_two_tolerances() {
        let out_by = |d: f64| fault(&SQUARE, &[(50.0, -d), (93.0, 7.0), (93.0, 93.0), (7.0, 93.0)]);
        assert_eq!(out_by(1.9 * TOLERANCE), None);
        assert!(out_by(2.1 * TOLERANCE).is_some());
    }

    proptest! {
        /// Bands leave out no side that matters: the answer is that of all sides together.
        #[test]
        fn bands_answer_as_all_sides_do(
            corners in prop::collection::vec((0.0..100.0, 0.0..100.0), 3..40),
            (x, y) in (-20.0..120.0, -20.0..120.0),
        ) {
            let polygon: Vec<Point> = corners.iter().copied().map(Point::from).collect();
            let sides: Vec<_> = polygon.iter().copied().zip(polygon.iter().copied().cycle().skip(1)).collect();
            let p = Point::new(x, y);
            prop_assert_eq!(encloses_all(&polygon, &[p]), place(&sides, p) != Place::Outside);
            // And where points lie on or beside a corner.
            for corner in &polygon {
                for d in [-0.11, -0.09, 0.0, 0.09, 0.11] {
                    let p = *corner + kurbo::Vec2::new(0.0, d);
                    prop_assert_eq!(encloses_all(&polygon, &[p]), place(&sides, p) != Place::Outside);
                }
            }
        }
    }

    #[test]
    fn a_seam_of_two_lengths_is_refused() {
        let at = |piece, edge| crate::garment::EdgeRef {
            piece,
            edge: OutlineEdge::Half(edge),
            reverse: false,
            mirrored: false,
        };
        let seam = |b: f64, sewn_b: f64| SeamWalk {
            id: SeamId::Side(Side::Left),
            a: at(PieceId::Front, EdgeId::FrontSide),
            b: at(PieceId::Back, EdgeId::BackSide),
            length_a: 90.0,
            length_b: b,
            difference: 90.0 - b,
            sewn_a: 80.0,
            sewn_b,
        };
        assert!(unequal(&seam(90.009, 80.04)).is_none());
        let limit = |b: f64, sewn_b: f64| match unequal(&seam(b, sewn_b)) {
            Some(OutlineFact::SeamUnequal { most, .. }) => Some(most),
            _ => None,
        };
        assert_eq!(limit(90.02, 80.0), Some(FINISHED_DIFFERENCE));
        assert_eq!(limit(90.0, 79.94), Some(SEWN_DIFFERENCE));
    }
}
