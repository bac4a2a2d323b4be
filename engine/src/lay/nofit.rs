//! Where one shape may not lie, seen from another: the no-fit polygon of a pair, and how deep in it
//! a place is.
//!
//! Two pieces come nearer than the gap exactly where the distance from one's origin to the other's
//! lies inside the Minkowski sum of one, grown by the gap, and the other turned by half a turn.

use super::minkowski::{self, Corner};
use super::proof::FINE;
use super::shape::{self, Place, STRAY, Shape};
use super::sides::Sides;
use kurbo::{Point, Rect, Vec2};

/// A place no deeper than this is taken for one that is clear, mm. It is made up for in the gap.
const SLACK: f64 = 0.02;

/// Corners of a no-fit polygon are left out where it strays no further than this from them, mm.
const FEWER: f64 = 0.03;

/// All that a pair of polygons has to keep apart, mm: the gap, what both stray, corners left out, the
/// slack, places on whole micrometres, and what the proof asks for over the gap.
fn apart(gap: f64) -> f64 {
    gap + 2.0 * STRAY + FEWER + SLACK + 0.002 + 2.0 * FINE
}

/// A no-fit polygon.
#[derive(Clone, Debug)]
pub(super) struct NoFit {
    bounds: Rect,
    sides: Sides,
    /// The sides that reach into each of the bands of equal height.
    bands: Vec<Vec<u32>>,
    band: f64,
}

/// About so many sides begin in a band.
const SIDES_IN_A_BAND: usize = 3;

impl NoFit {
    fn of(polygon: &[Corner]) -> Self {
        // A closed line ends where it begins; without that its last corner would be left out as well.
        let closed: Vec<Point> = polygon.iter().chain(polygon.first()).map(|p| shape::to_mm(*p)).collect();
        let points = shape::fewer(&closed, FEWER);
        let bounds = points.iter().fold(Rect::from_points(points[0], points[0]), |b, p| b.union_pt(*p));
        let count = points.len() / SIDES_IN_A_BAND + 1;
        let band = bounds.height() / count as f64;
        let mut bands = vec![Vec::new(); count];
        for (i, (a, b)) in points.iter().zip(points.iter().cycle().skip(1)).enumerate() {
            let index = |y: f64| (((y - bounds.y0) / band) as usize).min(count - 1);
            for band in &mut bands[index(a.y.min(b.y))..=index(a.y.max(b.y))] {
                band.push(i as u32);
            }
        }
        Self { bounds, sides: Sides::of(&points), bands, band }
    }

    fn contains(&self, p: Point) -> bool {
        let b = &self.bounds;
        if p.x <= b.x0 || p.x >= b.x1 || p.y <= b.y0 || p.y >= b.y1 {
            return false;
        }
        let band = (((p.y - b.y0) / self.band) as usize).min(self.bands.len() - 1);
        self.bands[band].iter().filter(|i| self.sides.is_right_of(p, **i as usize)).count() % 2 == 1
    }

    /// From a place the shortest way out; none where it is clear.
    fn way_out(&self, p: Point) -> Option<Vec2> {
        if !self.contains(p) {
            return None;
        }
        let way = self.sides.nearest(p) - p;
        (way.hypot2() > SLACK * SLACK).then_some(way)
    }

    /// How deep a place is, mm: the length of the way out.
    fn depth(&self, p: Point) -> f64 {
        if !self.contains(p) {
            return 0.0;
        }
        let depth = self.sides.distance(p);
        if depth > SLACK { depth } else { 0.0 }
    }
}

/// The no-fit polygons of every pair of shapes.
pub(super) struct Table {
    /// All that a pair keeps apart, mm.
    apart: f64,
    count: usize,
    /// Of each pair, the first being held: both the same way round, and half a turn apart.
    pairs: Vec<[NoFit; 2]>,
}

impl Table {
    pub(super) fn of(shapes: &[Shape], gap: f64) -> Self {
        let round = shape::round(apart(gap));
        let grown: Vec<Vec<Corner>> = shapes.iter().map(|s| minkowski::sum(&s.polygon, &round)).collect();
        let pair = |a: usize, b: usize| {
            let other = &shapes[b].polygon;
            let same = minkowski::sum(&grown[a], &minkowski::turned(other));
            [NoFit::of(&same), NoFit::of(&minkowski::sum(&grown[a], other))]
        };
        let n = shapes.len();
        let pairs = (0..n).flat_map(|a| (a..n).map(move |b| (a, b))).map(|(a, b)| pair(a, b)).collect();
        Self { apart: apart(gap), count: n, pairs }
    }

    /// A distance at which boxes keep the gap, mm.
    pub(super) fn apart(&self) -> f64 {
        self.apart
    }

    /// The no-fit polygon of a pair, and the place of the second in it where `a` is the lower
    /// number; `sign` turns a way in it back into one of the second piece on the cloth.
    fn find(&self, (a, p): (usize, Place), (b, q): (usize, Place)) -> (&NoFit, Point, f64) {
        let ((low, held), (high, moved), side) = if a <= b { ((a, p), (b, q), 1.0) } else { ((b, q), (a, p), -1.0) };
        let pair = &self.pairs[low * self.count - low * (low + 1) / 2 + high];
        // A pair that is turned together keeps its polygon, turned.
        let turn = if held.is_turned { -1.0 } else { 1.0 };
        let nofit = &pair[usize::from(held.is_turned != moved.is_turned)];
        (nofit, ((moved.at - held.at) * turn).to_point(), turn * side)
    }

    /// How far two pieces are from keeping the gap, mm.
    pub(super) fn depth(&self, a: (usize, Place), b: (usize, Place)) -> f64 {
        let (nofit, p, _) = self.find(a, b);
        nofit.depth(p)
    }

    /// The shortest way by which `b` can get clear of `a`.
    pub(super) fn way_out(&self, a: (usize, Place), b: (usize, Place)) -> Option<Vec2> {
        let (nofit, p, sign) = self.find(a, b);
        nofit.way_out(p).map(|way| way * sign)
    }

    /// Where `b` touches `a`: its origin there, by a share of the way round.
    pub(super) fn touching(&self, a: (usize, Place), (b, turned): (usize, bool), share: f64) -> Point {
        let there = Place { at: a.1.at, is_turned: turned };
        let (nofit, _, sign) = self.find(a, (b, there));
        a.1.at + nofit.sides.at(share).to_vec2() * sign
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Of a band it is a band of twice its size, round at the corners, and nothing on it is straight: any corner
    /// that is left out makes it smaller by far more than the tolerance, so that bands come too near.
    #[test]
    fn every_corner_of_a_no_fit_polygon_counts() {
        for (width, height) in [(38, 640), (640, 38), (120, 150)] {
            let corner = |x: i32, y: i32| Corner::new(1000 * x, 1000 * y);
            let band = [corner(0, 0), corner(width, 0), corner(width, height), corner(0, height)];
            let grown = minkowski::sum(&band, &shape::round(apart(5.0)));
            for other in [minkowski::turned(&band), band.to_vec()] {
                let polygon = minkowski::sum(&grown, &other);
                let nofit = NoFit::of(&polygon);
                assert!(polygon.len() > 20, "{}", polygon.len());
                for corner in &polygon {
                    let off = nofit.sides.distance(shape::to_mm(*corner));
                    assert!(off <= FEWER + 1e-6, "{width} × {height}: {corner:?} is left out, {off} mm off");
                }
            }
        }
    }
}
