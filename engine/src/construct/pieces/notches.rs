//! Notches: on seams, so that both sides meet, and where an opening's elastic or band is pinned.

use super::{HalfRow, Pieces, Row, allowance};
use crate::construct::allowance::onto;
use crate::construct::drafted::drafted;
use crate::construct::ring::Rings;
use crate::curve::Path;
use crate::garment::{Finding, Notch};
use crate::terms::Extent;
use crate::topology::{
    EdgeId, Half, Lies, Matching, NotchId, PairPiece, PairSeam, PieceId, SeamLine, SeamMark, Side, Spot, Way,
};

/// One edge of a half piece.
#[derive(Clone, Copy)]
struct On {
    piece: &'static PairPiece,
    half: Half,
    edge: EdgeId,
    lies: Lies<SeamLine>,
}

/// A mark: how far along its edge as drafted, mm, what it is called, and what it meets.
struct Marked {
    along: f64,
    id: NotchId,
    mate: Option<NotchId>,
}

/// A back gusset seam carries a pair of notches, this far to either side of its centre, mm.
/// Common practice: one in front, two behind.
const PAIR: f64 = 5.0;

/// Nearer to the start of an edge than this, a mark is on it, mm.
const NEAR: f64 = 1e-6;

/// mm; what a parallel line may be off by.
const ON_LINE: f64 = 0.05;

/// One side of a seam.
type OnSeam = Spot<PieceId, EdgeId, SeamLine>;

impl Pieces<'_> {
    /// Every notch of one half, edge by edge, on its cut line; `sewing` is its sewing line.
    pub(super) fn notches(
        &self,
        piece: &'static PairPiece,
        half: Half,
        (cut, sewing): (&HalfRow, &HalfRow),
        rings: &Rings,
    ) -> Result<Vec<Notch>, Finding> {
        let mut notches = Vec::new();
        for (((edge, lies), sewn), line) in piece.edges.iter().zip(sewing).zip(cut) {
            let on = On { piece, half, edge: *edge, lies: *lies };
            let off = |at| sewn.point(sewn.nearest(at)).distance(at);
            let marks: Vec<Marked> = match self.topology.seam_of(*edge) {
                Some(seam) => self.on_seam(seam, half, sewn)?.into_iter().collect(),
                None => self.on_opening(on, rings).into_iter().filter(|mark| self.is_on(line, on, mark)).collect(),
            };
            notches.extend(marks.into_iter().map(|mark| self.notch(on, mark, line, off)));
        }
        Ok(notches)
    }

    /// Does a mark fall on the cut line? Beside a seam, a deep fold can end short of it, where that
    /// seam is folded in with it: no notch is better than one beside its place.
    fn is_on(&self, line: &Path, on: On, mark: &Marked) -> bool {
        let (distance, _) = self.distance(on.lies, on.piece.side(on.half), Row::Cut);
        let (at, _) = onto(drafted(self.draft, on.edge), mark.along, distance);
        line.point(line.nearest(at)).distance(at) < ON_LINE
    }

    fn on_opening(&self, on: On, rings: &Rings) -> Vec<Marked> {
        let side = on.piece.side(on.half);
        let Some(opening) = on.lies.opening(side) else { return Vec::new() };
        let (ring, net) = (rings.get(opening), drafted(self.draft, on.edge));
        let (piece, edge, side) = (on.piece.id, on.edge, self.told_side(on.piece, side));
        let marked = |along: f64, id: NotchId| Marked { along, id, mate: None };
        let pinned = ring
            .marks
            .iter()
            .filter_map(|mark| ring.on_edge(mark, edge, on.half, net).map(|along| (along, mark.place)))
            // The centre belongs to both halves: it is marked once.
            .filter(|(along, _)| on.half == Half::Plus || *along > NEAR)
            .map(|(along, place)| marked(along, NotchId::Opening { piece, side, edge, place }));
        let threaded = ring
            .gap_on_edge(edge, on.half, net)
            .into_iter()
            .map(|(along, end)| marked(along, NotchId::Threading { piece, side, edge, end }));
        pinned.chain(threaded).collect()
    }

    /// The notch of one side of a seam, whose own line of stitches is `sewn`.
    fn on_seam(
        &self,
        PairSeam { matching, own, other, .. }: PairSeam,
        half: Half,
        sewn: &Path,
    ) -> Result<Option<Marked>, Finding> {
        let side = own.piece.side(half);
        let length = drafted(self.draft, own.edge).length();
        let (from, to) = self.sewn_on_both(side, (own, other), sewn)?;
        // From where the seam begins.
        let (along, mark) = match matching {
            Matching::Middle => (0.5 * (from + to), SeamMark::Middle),
            // The centre belongs to both halves.
            Matching::Centre if half == Half::Minus => return Ok(None),
            Matching::Centre => (length, SeamMark::Centre),
            Matching::Pair => (length - PAIR.min(0.5 * (length - from)), SeamMark::Pair),
        };
        let along = if own.way == Way::Along { along } else { length - along };
        let id = |at: OnSeam| NotchId::Seam {
            piece: at.piece.id,
            side: self.told_side(at.piece, side),
            edge: at.edge,
            mark,
        };
        Ok(Some(Marked { along, id: id(own), mate: Some(id(other)) }))
    }

    /// Where the stitches of a seam begin and end between its openings, from where it begins, mm:
    /// what both sides have, so that a notch is as far from either end on one as on the other.
    fn sewn_on_both(&self, side: Side, (own, other): (OnSeam, OnSeam), sewn: &Path) -> Result<(f64, f64), Finding> {
        let facing = self.half_row(other.piece, other.piece.half(side), Row::Sewing)?;
        let (a, b) = (self.sewn_part(own, sewn), self.sewn_part(other, &facing[other.at]));
        Ok((0.5 * (a.0 + b.0), 0.5 * (a.1 + b.1)))
    }

    /// Where the stitches of a seam begin and end on one side of it; never beyond the finished edges.
    /// A fold beyond an end can turn back beside the seam, so that the nearest point to where its
    /// stitches end is not the end itself.
    fn sewn_part(&self, at: OnSeam, sewn: &Path) -> (f64, f64) {
        let net = drafted(self.draft, at.edge);
        let passed = |end| sewn.point(sewn.nearest(end)).distance(end) < ON_LINE;
        let along = |end| net.along(net.nearest(end));
        let from = if passed(net.start()) { 0.0 } else { along(sewn.start()) };
        let to = if passed(net.end()) { net.length() } else { along(sewn.end()) };
        if at.way == Way::Along { (from, to) } else { (net.length() - to, net.length() - from) }
    }

    /// A half piece has each notch once, a whole one on either side.
    fn told_side(&self, piece: &PairPiece, side: Side) -> Option<Side> {
        (self.extent(piece) == Extent::Full).then_some(side)
    }

    fn notch(&self, on: On, mark: Marked, cut: &Path, off: impl Fn(kurbo::Point) -> f64) -> Notch {
        let net = drafted(self.draft, on.edge);
        let (distance, _) = self.distance(on.lies, on.piece.side(on.half), Row::Cut);
        let (mut at, mut inward) = onto(net, mark.along, distance);
        // Where folds of both openings meet on a short seam, its allowance is cut narrower there.
        let on_cut = cut.point(cut.nearest(at));
        if on_cut.distance(at) > ON_LINE {
            at = on_cut;
        }
        let to_stitches = match on.lies {
            Lies::Seam(line) => allowance(&self.plan.seams, line),
            Lies::Top | Lies::Leg => off(at),
        };
        let mut along = mark.along;
        if on.half == Half::Minus {
            (at.x, inward.x) = (-at.x, -inward.x);
            along = net.length() - along;
        }
        let edge = self.outline_edge(on.piece, on.half, on.edge);
        Notch { id: mark.id, edge, at, along, inward, to_stitches, mate: mark.mate }
    }
}
