//! From a half net piece to a half outline at other distances: cut lines and sewing lines.
//!
//! Each edge is offset by its own distance. Plain corners meet where the tangents meet. Where an
//! allowance is folded in at the finished edge, the end of a seam that is sewn after is mirrored in
//! that fold, so that it lies on the seam once it is turned. One that is sewn before goes straight on and
//! ends square, so that the ends of both pieces lie on each other.

mod drawn;

pub use drawn::Drawn;

use crate::curve::{Path, Place, Ruler, outward};
use crate::topology::EdgeId;
use kurbo::{CubicBez, PathSeg, Point, Vec2};

/// One edge of a half piece and where its line goes.
#[derive(Clone, Debug)]
pub struct NetEdge<'a> {
    /// Which edge.
    pub edge: EdgeId,
    /// The finished edge.
    pub path: &'a Path,
    /// From the finished edge to the line, outward positive, mm.
    pub distance: f64,
    /// What becomes of the cloth beyond.
    pub beyond: Beyond,
}

/// What becomes of the cloth beyond a finished edge, and so how its line meets a neighbour's.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Beyond {
    /// Folded in at the finished edge.
    Folded,
    /// It stays as cut.
    Open,
    /// Sewn to another piece before its neighbours are finished: what may be folded then is one strip, and a
    /// seam that crosses it aslant is sewn in one go.
    SewnBefore,
    /// Sewn to another piece after its neighbours are folded: its ends have to lie on the seam by then.
    SewnAfter,
}

/// Why an outline cannot be drawn.
#[derive(Clone, Debug, thiserror::Error, PartialEq)]
pub enum AllowanceError {
    /// A curve is tighter than the distance on its hollow side.
    #[error("the {} turns with a radius of {radius:.1} mm, too tight for a line {distance:.1} mm beside it", .edge.name())]
    TooTight {
        /// Which edge.
        edge: EdgeId,
        /// mm.
        radius: f64,
        /// mm.
        distance: f64,
    },
    /// Two neighbouring lines do not meet.
    #[error("the lines beside the {} and the {} do not meet", .first.name(), .second.name())]
    NoCorner {
        /// The edge before the corner.
        first: EdgeId,
        /// The edge after it.
        second: EdgeId,
    },
}

/// How far an end may be carried on along its tangent to meet its neighbour, beyond three times
/// the greatest distance, mm.
const REACH: f64 = 15.0;

/// As [`Drawn::beside`], with the parallel lines that `drawn` has.
fn beside<'a>(sides: &[NetEdge<'a>], drawn: &Drawn<'a>) -> Result<Vec<Path>, AllowanceError> {
    let reach = REACH + 3.0 * sides.iter().fold(0.0_f64, |m, s| m.max(s.distance.abs()));
    let mut lines = sides.iter().map(|s| CarriedLine::new(s, reach, drawn)).collect::<Result<Vec<_>, _>>()?;
    for i in 1..lines.len() {
        let (before, after) = lines.split_at_mut(i);
        if let (Some(a), Some(b)) = (before.last_mut(), after.first_mut()) {
            join(a, b, drawn)?;
        }
    }
    let mut paths: Vec<Path> = lines.into_iter().map(CarriedLine::trimmed).collect();
    close_gaps(&mut paths);
    Ok(paths)
}

/// A line with its ends carried on, and where it is to be cut off.
struct CarriedLine<'s, 'a> {
    side: &'s NetEdge<'a>,
    long: Path,
    /// How far it is carried on, mm.
    reach: f64,
    from: Place,
    to: Place,
    before: Option<Path>,
    after: Option<Path>,
}

impl<'s, 'a> CarriedLine<'s, 'a> {
    fn new(side: &'s NetEdge<'a>, reach: f64, drawn: &Drawn<'a>) -> Result<Self, AllowanceError> {
        let radius = drawn.tightest(side.path, side.distance);
        if radius <= side.distance.abs() {
            return Err(AllowanceError::TooTight { edge: side.edge, radius, distance: side.distance });
        }
        let long = carried_on(side, &drawn.offset(side.path, side.distance), reach);
        let (last, added) = (long.segments().len() - 1, ways_on(side));
        let (from, to) = (Place { segment: added, t: 0.0 }, Place { segment: last - added, t: 1.0 });
        Ok(Self { side, long, reach, from, to, before: None, after: None })
    }

    fn is_folded(&self) -> bool {
        self.side.beyond == Beyond::Folded && self.side.distance > 0.0
    }

    fn trimmed(self) -> Path {
        let middle = self.long.between(self.from, self.to);
        let start = self.before.unwrap_or_default();
        start.joined(middle).joined(self.after.unwrap_or_default())
    }
}

/// A line carried on beyond both ends. A leg opening crosses its seams with one curvature,
/// so its line goes on bending; others go straight on.
fn carried_on(side: &NetEdge<'_>, line: &Path, reach: f64) -> Path {
    if is_leg(side.edge) { line.carried_on(reach) } else { line.extended(reach) }
}

/// Segments that [`carried_on`] adds at each end.
fn ways_on(side: &NetEdge<'_>) -> usize {
    if is_leg(side.edge) { 2 } else { 1 }
}

const fn is_leg(edge: EdgeId) -> bool {
    matches!(edge, EdgeId::FrontLeg | EdgeId::GussetLeg | EdgeId::BackLeg)
}

fn join<'a>(a: &mut CarriedLine<'_, 'a>, b: &mut CarriedLine<'_, 'a>, drawn: &Drawn<'a>) -> Result<(), AllowanceError> {
    match (a.side.beyond, b.side.beyond) {
        (_, Beyond::SewnAfter) if a.is_folded() => {
            let end = mirrored_end(b.side, a.side, &b.long.reversed(), drawn)?;
            a.to = a.long.nearest(end.corner);
            b.from = reverse_place(&b.long, end.on_fold);
            b.before = Some(end.path.reversed());
        }
        (Beyond::SewnAfter, _) if b.is_folded() => {
            let end = mirrored_end(a.side, b.side, &a.long, drawn)?;
            b.from = b.long.nearest(end.corner);
            a.to = end.on_fold;
            a.after = Some(end.path);
        }
        (_, Beyond::SewnBefore) => {
            let end = square_end(b, a, a.side.path.end())?;
            (a.to, b.from) = (end.on_edge, end.on_seam);
            b.before = end.path.map(|path| path.reversed());
        }
        (Beyond::SewnBefore, _) => {
            let end = square_end(a, b, a.side.path.end())?;
            (b.from, a.to) = (end.on_edge, end.on_seam);
            a.after = end.path;
        }
        _ => {
            let corner = a.side.path.end();
            let (x, y) = nearest_crossing(&a.long, &b.long, corner)
                .ok_or(AllowanceError::NoCorner { first: a.side.edge, second: b.side.edge })?;
            (a.to, b.from) = (x, y);
        }
    }
    Ok(())
}

fn nearest_crossing(a: &Path, b: &Path, corner: Point) -> Option<(Place, Place)> {
    a.crossings(b)
        .into_iter()
        .min_by(|(x, _), (y, _)| a.point(*x).distance(corner).total_cmp(&a.point(*y).distance(corner)))
}

fn reverse_place(path: &Path, at: Place) -> Place {
    Place { segment: path.segments().len() - 1 - at.segment, t: 1.0 - at.t }
}

/// The end of a line beside a seam that goes straight on.
struct SquareEnd {
    /// Where it ends.
    on_seam: Place,
    /// Where the edge's line ends.
    on_edge: Place,
    /// From the one to the other, where they are apart.
    path: Option<Path>,
}

/// Square to a seam's line, from where the seam itself meets an edge's line.
fn square_end(
    seam: &CarriedLine<'_, '_>,
    edge: &CarriedLine<'_, '_>,
    corner: Point,
) -> Result<SquareEnd, AllowanceError> {
    let none = || AllowanceError::NoCorner { first: seam.side.edge, second: edge.side.edge };
    let sewn = carried_on(seam.side, seam.side.path, seam.reach);
    let (_, on_edge) = nearest_crossing(&sewn, &edge.long, corner).ok_or_else(none)?;
    let at = edge.long.point(on_edge);
    let on_seam = seam.long.nearest(at);
    let foot = seam.long.point(on_seam);
    let path = (foot.distance(at) > LEAST).then(|| Path::line(foot, at));
    Ok(SquareEnd { on_seam, on_edge, path })
}

/// Below this a line is none, mm.
const LEAST: f64 = 1e-6;

/// The end of a seam's line, from the fold outward.
struct MirroredEnd {
    /// Where the seam's line meets the fold.
    on_fold: Place,
    /// From there to the corner.
    path: Path,
    corner: Point,
}

/// Mirrors the last part of a seam's line (walked towards the fold) in the fold.
fn mirrored_end<'a>(
    seam: &NetEdge<'a>,
    folded: &NetEdge<'a>,
    line: &Path,
    drawn: &Drawn<'a>,
) -> Result<MirroredEnd, AllowanceError> {
    let none = || AllowanceError::NoCorner { first: seam.edge, second: folded.edge };
    let corner =
        if folded.path.start().distance(seam.path.end()) < 1e-6 { folded.path.start() } else { folded.path.end() };
    let reach = 3.0 * (folded.distance + seam.distance.abs()) + REACH;
    let fold = carried_on(folded, folded.path, reach);
    let (on_fold, _) = nearest_crossing(line, &fold, corner).ok_or_else(none)?;
    // The line as deep inside as the allowance is wide: what the corner is mirrored from.
    let inner = carried_on(folded, &drawn.offset(folded.path, -folded.distance), reach);
    let (inside, _) = nearest_crossing(line, &inner, corner).ok_or_else(none)?;
    if (inside.segment, inside.t) >= (on_fold.segment, on_fold.t) {
        return Err(none());
    }
    let along = line.between(inside, on_fold).reversed();
    let path = mirrored_in(&along, &fold);
    let corner = path.end();
    Ok(MirroredEnd { on_fold, path, corner })
}

/// The mirror image of a point in a curve: as far beyond the foot of its perpendicular.
fn mirror_point(p: Point, fold: &Path) -> Point {
    let foot = fold.point(fold.nearest(p));
    foot + (foot - p)
}

/// The mirror image of a path in a curve, as cubics that meet it in points and tangents, halved
/// until their middles are within [`MIRROR_TOLERANCE`].
fn mirrored_in(path: &Path, fold: &Path) -> Path {
    let mut result = Vec::new();
    let ruler = Ruler::new(path);
    let image = |along: f64| mirror_point(ruler.at(along).0, fold);
    let end = |along: f64| (along, image(along));
    hermite(&image, end(0.0), end(ruler.length()), 0, &mut result);
    Path::new(result)
}

/// mm; a fiftieth of what is promised of a folded end.
const MIRROR_TOLERANCE: f64 = 1e-3;
const MAX_HALVINGS: u32 = 6;

/// A place along a path, and its image.
type Imaged = (f64, Point);

fn hermite(image: &impl Fn(f64) -> Point, (from, a): Imaged, (to, b): Imaged, depth: u32, result: &mut Vec<PathSeg>) {
    let span = to - from;
    let step = span * 1e-3;
    // One-sided differences of second order: the image need not exist beyond its ends.
    let slope = |p: Point, q: Point, r: Point, h: f64| ((q - p) * 4.0 - (r - p)) / (2.0 * h);
    let start: Vec2 = slope(a, image(from + step), image(from + 2.0 * step), step);
    let end: Vec2 = slope(b, image(to - step), image(to - 2.0 * step), -step);
    let cubic = CubicBez::new(a, a + start * (span / 3.0), b - end * (span / 3.0), b);
    use kurbo::ParamCurve;
    let half = 0.5 * (from + to);
    let middle = image(half);
    if depth >= MAX_HALVINGS || cubic.eval(0.5).distance(middle) <= MIRROR_TOLERANCE {
        result.push(PathSeg::Cubic(cubic));
        return;
    }
    hermite(image, (from, a), (half, middle), depth + 1, result);
    hermite(image, (half, middle), (to, b), depth + 1, result);
}

/// Corners were found on both lines; the tiny difference between them is taken off.
fn close_gaps(paths: &mut [Path]) {
    for i in 1..paths.len() {
        let end = paths[i - 1].end();
        let next = std::mem::take(&mut paths[i]);
        paths[i] = next.starting_at(end);
    }
}

/// Where a mark on the finished edge falls on a line beside it.
pub fn onto(path: &Path, along: f64, distance: f64) -> (Point, Vec2) {
    let (p, direction) = path.at(along);
    let out = outward(direction);
    (p + out * distance, -out)
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::ParamCurve;

    fn side(edge: EdgeId, path: &Path, distance: f64, beyond: Beyond) -> NetEdge<'_> {
        NetEdge { edge, path, distance, beyond }
    }

    /// A seam that meets a straight folded edge at an angle: the end of its allowance leans the
    /// other way beyond the fold, as its mirror image.
    #[test]
    fn a_folded_end_is_the_mirror_image_of_the_seam() {
        let seam = Path::line(Point::new(0.0, 0.0), Point::new(30.0, 100.0));
        let edge = Path::line(Point::new(30.0, 100.0), Point::new(-80.0, 100.0));
        let sides = [
            side(EdgeId::FrontSide, &seam, 7.0, Beyond::SewnAfter),
            side(EdgeId::FrontLeg, &edge, 12.0, Beyond::Folded),
        ];
        let paths = Drawn::default().beside(&sides).expect("they meet");
        let corner = paths[0].end();
        assert!(corner.distance(paths[1].start()) < 1e-9, "head to tail");
        // Outward of the edge is downwards: 12 mm beyond the fold.
        assert!((corner.y - 112.0).abs() < 1e-6, "{corner:?}");
        // Mirrored in y = 100 it lies on the seam's own cut line, 7 mm beside the seam.
        let image = Point::new(corner.x, 200.0 - corner.y);
        let n = outward((seam.end() - seam.start()).normalize());
        assert!(((image - seam.start()).dot(n) - 7.0).abs() < 1e-6);
    }

    /// A seam that is sewn before its edge is folded goes straight on through what is folded, and ends
    /// square to itself where its stitches meet the cut edge: on both pieces at the same place.
    #[test]
    fn a_seam_sewn_before_goes_straight_on_and_ends_square() {
        let seam = Path::line(Point::new(0.0, 0.0), Point::new(60.0, 60.0));
        // At 45 and at 135 degrees.
        for foot in [Point::new(-80.0, 60.0), Point::new(60.0, 140.0)] {
            let edge = Path::line(Point::new(60.0, 60.0), foot);
            let sides = [
                side(EdgeId::BackGusset, &seam, 7.0, Beyond::SewnBefore),
                side(EdgeId::BackLeg, &edge, 12.0, Beyond::Folded),
            ];
            let paths = Drawn::default().beside(&sides).expect("they meet");
            let (on, out) = (seam.end_direction(), outward(seam.end_direction()));
            let end = paths[0].end();
            assert!(end.distance(paths[1].start()) < 1e-9, "head to tail");
            assert!(end.to_vec2().dot(out).abs() < 1e-9, "on the stitches: {end:?}");
            let normal = outward(edge.start_direction());
            assert!(((end - edge.start()).dot(normal) - 12.0).abs() < 1e-9, "on the cut edge: {end:?}");
            let corners: Vec<Point> = paths[0].segments().iter().map(PathSeg::end).collect();
            let last = corners[corners.len() - 2];
            assert!((last.to_vec2().dot(out) - 7.0).abs() < 1e-9 && (last - end).dot(on).abs() < 1e-9, "{corners:?}");
        }
    }

    #[test]
    fn a_plain_corner_is_where_the_tangents_meet() {
        let top = Path::line(Point::new(0.0, 0.0), Point::new(100.0, 0.0));
        let seam = Path::line(Point::new(100.0, 0.0), Point::new(100.0, 80.0));
        let paths = Drawn::default()
            .beside(&[
                side(EdgeId::FrontTop, &top, 5.0, Beyond::Open),
                side(EdgeId::FrontSide, &seam, 7.0, Beyond::Open),
            ])
            .expect("meet");
        assert!(paths[0].end().distance(Point::new(107.0, -5.0)) < 1e-9);
    }

    #[test]
    fn a_hollow_tighter_than_the_allowance_is_refused() {
        let hollow = Path::cubic(CubicBez::new((0.0, 0.0), (0.0, -5.0), (10.0, -5.0), (10.0, 0.0))).reversed();
        let error =
            Drawn::default().beside(&[side(EdgeId::FrontLeg, &hollow, 12.0, Beyond::Folded)]).expect_err("too tight");
        assert!(matches!(error, AllowanceError::TooTight { edge: EdgeId::FrontLeg, .. }));
    }
}
