//! Truing: the ends of a row of stitches meet those of its neighbours.
//!
//! Two edges that cross a seam in one line need not bend alike on both sides of it. Parallel lines
//! beside them then meet the seam some hundredths to tenths of a millimetre apart. As a cutter does
//! with the seam pinned together, each line is moved to the middle between them, over a short way.

use super::{HalfRow, Pieces, Row};
use crate::construct::drafted::drafted;
use crate::curve::{LENGTH_ACCURACY, Path, Place, Ruler};
use crate::topology::{EdgeId, End, Half, PairCorner, PairPiece};
use kurbo::{PathSeg, Vec2};

/// Beyond this the pieces do not fit, and truing would only hide it, mm.
const MOST: f64 = 0.5;

/// The row with its corners moved to the middle between both pieces.
pub(super) fn trued(
    pieces: &Pieces<'_>,
    piece: &'static PairPiece,
    half: Half,
    row: Row,
    mut lines: HalfRow,
) -> HalfRow {
    for corner in pieces.topology.corners_of(piece.id) {
        let mate = corner.mate;
        // Where the other piece cannot be drawn, it says so itself.
        let Ok(others) = pieces.drawn_row(mate.piece, mate.piece.half(piece.side(half)), row) else { continue };
        let lacking = 0.5
            * (reach(pieces, mate.edge, &others[mate.at], corner.mate_end)
                - reach(pieces, corner.seam.edge, &lines[corner.seam.at], corner.seam_end));
        if lacking.abs() > LEAST && lacking.abs() <= MOST {
            move_corner(&mut lines, corner, lacking);
        }
    }
    lines
}

/// Below what a curve's length is known to, mm.
const LEAST: f64 = 1e-6;

/// How far a seam reaches in this row beyond the finished corner at one of its ends, mm.
fn reach(pieces: &Pieces<'_>, seam: EdgeId, row: &Path, end: End) -> f64 {
    let turned = |path: &Path| if end == End::Start { path.reversed() } else { path.clone() };
    let (net, row) = (turned(drafted(pieces.draft, seam)), turned(row));
    let passed = row.nearest(net.end());
    // A row that ends short of the corner does not pass it; a folded end may lean back over the seam.
    if row.point(passed).distance(net.end()) > LEAST {
        return net.along(net.nearest(row.end())) - net.length();
    }
    row.length() - row.along(passed)
}

/// Moves a corner along its seam, outward where more is lacking, and the end of the opening's line with it.
fn move_corner(lines: &mut HalfRow, corner: &PairCorner, lacking: f64) {
    let seam = &mut lines[corner.seam.at];
    let before = end_of(seam, corner.seam_end);
    *seam = from_end(std::mem::take(seam), corner.seam_end, |path| lengthened(path, lacking));
    let shift = end_of(seam, corner.seam_end) - before;
    let line = &mut lines[corner.opening];
    *line = from_end(std::mem::take(line), corner.opening_end, |path| end_shifted(path, shift));
}

fn end_of(path: &Path, end: End) -> kurbo::Point {
    if end == End::Start { path.start() } else { path.end() }
}

/// Works on a path so that the end in question is its last.
fn from_end(path: Path, end: End, work: impl Fn(Path) -> Path) -> Path {
    match end {
        End::Finish => work(path),
        End::Start => work(path.reversed()).reversed(),
    }
}

/// Longer by so much at its end, straight on, or shorter.
fn lengthened(path: Path, by: f64) -> Path {
    if by > 0.0 {
        let (end, on) = (path.end(), path.end_direction());
        return path.joined(Path::line(end, end + on * by));
    }
    let ruler = Ruler::new(&path);
    path.between(FIRST, ruler.place(ruler.length() + by, LENGTH_ACCURACY))
}

const FIRST: Place = Place { segment: 0, t: 0.0 };

/// Over this way from its end a line is shifted, mm: under twice any allowance in use.
const WAY: f64 = 14.0;
/// Where that way begins need not be known more closely, mm.
const ABOUT: f64 = 1e-3;

/// Its end moved, and the last part of the line with it: the last handle and point move alike, so that
/// the shift fades as a smooth step over the last part and the end keeps its direction.
fn end_shifted(path: Path, shift: Vec2) -> Path {
    let ruler = Ruler::new(&path);
    let way = WAY.min(0.4 * ruler.length());
    let at = ruler.place(ruler.length() - way, ABOUT);
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
