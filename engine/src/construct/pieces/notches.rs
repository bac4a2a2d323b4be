//! Notches: on seams, so that both sides meet, and where an opening's elastic or band is pinned.

use super::{HalfRow, Pieces, Row, allowance};
use crate::construct::allowance::onto;
use crate::construct::drafted::drafted;
use crate::construct::ring::Rings;
use crate::garment::Notch;
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

impl Pieces<'_> {
    /// Every notch of one half, edge by edge; `sewing` is its sewing line.
    pub(super) fn notches(&self, piece: &'static PairPiece, half: Half, sewing: &HalfRow, rings: &Rings) -> Vec<Notch> {
        let mut notches = Vec::new();
        for ((edge, lies), sewn) in piece.edges.iter().zip(sewing) {
            let on = On { piece, half, edge: *edge, lies: *lies };
            let off = |at| sewn.point(sewn.nearest(at)).distance(at);
            notches.extend(self.marks_on(on, rings).into_iter().map(|mark| self.notch(on, mark, off)));
        }
        notches
    }

    fn marks_on(&self, on: On, rings: &Rings) -> Vec<Marked> {
        let side = on.piece.side(on.half);
        if let Some(seam) = self.topology.seam_of(on.edge) {
            return self.on_seam(seam, on.half, side).into_iter().collect();
        }
        let Some(ring) = on.lies.opening(side).map(|opening| rings.get(opening)) else { return Vec::new() };
        let net = drafted(self.draft, on.edge);
        let marked = |along: f64, place| {
            let id =
                NotchId::Opening { piece: on.piece.id, side: self.told_side(on.piece, side), edge: on.edge, place };
            Marked { along, id, mate: None }
        };
        ring.marks
            .iter()
            .filter_map(|mark| ring.on_edge(mark, on.edge, on.half, net).map(|along| (along, mark.place)))
            // The centre belongs to both halves: it is marked once.
            .filter(|(along, _)| on.half == Half::Plus || *along > NEAR)
            .map(|(along, place)| marked(along, place))
            .collect()
    }

    /// The notch of one side of a seam.
    fn on_seam(&self, PairSeam { matching, own, other, .. }: PairSeam, half: Half, side: Side) -> Option<Marked> {
        let length = drafted(self.draft, own.edge).length();
        // From where the seam begins.
        let (along, mark) = match matching {
            Matching::Middle => (0.5 * length, SeamMark::Middle),
            // The centre belongs to both halves.
            Matching::Centre if half == Half::Minus => return None,
            Matching::Centre => (length, SeamMark::Centre),
            Matching::Pair => (length - PAIR, SeamMark::Pair),
        };
        let along = if own.way == Way::Along { along } else { length - along };
        let id = |at: Spot<PieceId, EdgeId, SeamLine>| NotchId::Seam {
            piece: at.piece.id,
            side: self.told_side(at.piece, side),
            edge: at.edge,
            mark,
        };
        Some(Marked { along, id: id(own), mate: Some(id(other)) })
    }

    /// A half piece has each notch once, a whole one on either side.
    fn told_side(&self, piece: &PairPiece, side: Side) -> Option<Side> {
        (!self.on_fold(piece)).then_some(side)
    }

    fn notch(&self, on: On, mark: Marked, off: impl Fn(kurbo::Point) -> f64) -> Notch {
        let net = drafted(self.draft, on.edge);
        let (distance, _) = self.distance(on.lies, on.piece.side(on.half), Row::Cut);
        let (mut at, mut inward) = onto(net, mark.along, distance);
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
