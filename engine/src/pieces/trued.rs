//! Truing: the ends of a row of stitches meet those of its neighbours.
//!
//! Two edges that cross a seam in one line need not bend alike on both sides of it. Parallel lines
//! beside them then meet the seam some hundredths to tenths of a millimetre apart. As a cutter does
//! with the seam pinned together, each line is led to the middle between them, over a short way.

use super::{Half, Part, Pieces, Row};
use crate::curve::{Path, Place};
use crate::garment::Edge;
use kurbo::{PathSeg, Vec2};

/// A corner of a half piece, where an opening crosses a seam.
struct Corner {
    part: Part,
    seam: &'static str,
    seam_end: End,
    opening: &'static str,
    opening_end: End,
    mate: Part,
    mate_end: End,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum End {
    Start,
    Finish,
}

const fn corner(
    part: Part,
    (seam, seam_end): (&'static str, End),
    (opening, opening_end): (&'static str, End),
    (mate, mate_end): (Part, End),
) -> Corner {
    Corner { part, seam, seam_end, opening, opening_end, mate, mate_end }
}

use End::{Finish, Start};
use Part::{Back, Front, Gusset};

/// Every corner. Outlines run clockwise: top, side, leg, gusset; gusset: front, leg, back.
const CORNERS: [Corner; 8] = [
    corner(Front, ("side", Start), ("top", Finish), (Back, Start)),
    corner(Back, ("side", Start), ("top", Finish), (Front, Start)),
    corner(Front, ("side", Finish), ("leg", Start), (Back, Finish)),
    corner(Back, ("side", Finish), ("leg", Start), (Front, Finish)),
    corner(Front, ("front gusset", Start), ("leg", Finish), (Gusset, Finish)),
    corner(Gusset, ("front gusset", Finish), ("leg", Start), (Front, Start)),
    corner(Back, ("back gusset", Start), ("leg", Finish), (Gusset, Start)),
    corner(Gusset, ("back gusset", Start), ("leg", Finish), (Back, Start)),
];

/// Beyond this the pieces do not fit, and truing would only hide it, mm.
const MOST: f64 = 0.5;

/// The row with its corners led to the middle between both pieces.
pub(super) fn trued(pieces: &Pieces<'_>, part: Part, half: Half, row: Row, mut edges: Vec<Edge>) -> Vec<Edge> {
    for corner in CORNERS.iter().filter(|c| c.part == part) {
        let mate = corner.mate.half(part.leg(half));
        let Ok(others) = pieces.drawn_row(corner.mate, mate, row) else { continue };
        let (Some(ours), Some(theirs)) = (named(&edges, corner.seam), named(&others, corner.seam)) else { continue };
        let lacking = 0.5
            * (reach(pieces, corner.mate, &theirs.path, corner.seam, corner.mate_end)
                - reach(pieces, part, &ours.path, corner.seam, corner.seam_end));
        if lacking.abs() > LEAST && lacking.abs() <= MOST {
            move_corner(&mut edges, corner, lacking);
        }
    }
    edges
}

/// Below what a curve's length is known to, mm.
const LEAST: f64 = 1e-6;

fn named<'e>(edges: &'e [Edge], name: &str) -> Option<&'e Edge> {
    edges.iter().find(|e| e.name == name)
}

/// How far a seam reaches in this row beyond the finished corner at one of its ends, mm.
fn reach(pieces: &Pieces<'_>, part: Part, row: &Path, seam: &str, end: End) -> f64 {
    let Some(net) = part.edges(pieces.draft).into_iter().find(|n| n.name == seam) else { return 0.0 };
    let turned = |path: &Path| if end == Start { path.reversed() } else { path.clone() };
    let (net, row) = (turned(net.path), turned(row));
    let passed = row.nearest(net.end());
    // A row that ends short of the corner does not pass it; a folded end may lean back over the seam.
    if row.point(passed).distance(net.end()) > LEAST {
        return net.along(net.nearest(row.end())) - net.length();
    }
    row.length() - row.along(passed)
}

/// Moves a corner along its seam, outward where more is lacking, and leads the opening's line to it.
fn move_corner(edges: &mut [Edge], corner: &Corner, lacking: f64) {
    let Some(seam) = edges.iter_mut().find(|e| e.name == corner.seam) else { return };
    let before = end_of(&seam.path, corner.seam_end);
    seam.path = from_end(std::mem::take(&mut seam.path), corner.seam_end, |path| lengthened(path, lacking));
    let shift = end_of(&seam.path, corner.seam_end) - before;
    if let Some(line) = edges.iter_mut().find(|e| e.name == corner.opening) {
        line.path = from_end(std::mem::take(&mut line.path), corner.opening_end, |path| led(path, shift));
    }
}

fn end_of(path: &Path, end: End) -> kurbo::Point {
    if end == Start { path.start() } else { path.end() }
}

/// Works on a path so that the end in question is its last.
fn from_end(path: Path, end: End, work: impl Fn(Path) -> Path) -> Path {
    match end {
        Finish => work(path),
        Start => work(path.reversed()).reversed(),
    }
}

/// Longer by so much at its end, straight on, or shorter.
fn lengthened(path: Path, by: f64) -> Path {
    if by > 0.0 {
        let (end, on) = (path.end(), path.end_direction());
        return path.joined(Path::line(end, end + on * by));
    }
    let (point, _) = path.at(path.length() + by);
    path.between(FIRST, path.nearest(point))
}

const FIRST: Place = Place { segment: 0, t: 0.0 };

/// Over this way from its end a line is led aside, mm: under twice any allowance in use.
const WAY: f64 = 14.0;

/// Its end moved, and the line before it led there: the last handle and point move alike, so that
/// the shift fades as a smooth step over the last part and the end keeps its direction.
fn led(path: Path, shift: Vec2) -> Path {
    let length = path.length();
    let way = WAY.min(0.4 * length);
    let (point, _) = path.at(length - way);
    let at = path.nearest(point);
    let last = Place { segment: path.segments().len().saturating_sub(1), t: 1.0 };
    let before = path.between(FIRST, at);
    let segments = path.between(at, last).into_segments();
    let count = segments.len();
    let tail = segments.into_iter().enumerate().map(|(i, s)| faded(s, shift, i, count)).collect();
    before.joined(Path::new(tail))
}

/// The share of the shift at each control point grows from piece to piece.
fn faded(segment: PathSeg, shift: Vec2, i: usize, count: usize) -> PathSeg {
    let share = |k: usize| {
        let t = k as f64 / count as f64;
        t * t * (3.0 - 2.0 * t)
    };
    let mut c = segment.to_cubic();
    let (from, to) = (shift * share(i), shift * share(i + 1));
    c.p0 += from;
    c.p1 += from;
    c.p2 += to;
    c.p3 += to;
    PathSeg::Cubic(c)
}
