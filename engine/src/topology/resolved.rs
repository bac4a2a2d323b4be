//! What follows from a construction: the openings as rings, the corners, what meets what.

use super::construction::{Construction, Fault, HalfPiece, Id, Lies, Matching};
use super::{End, Half, SectionId, Side, Way};
use crate::terms::{Opening, PerOpening};

/// A construction that was found sound, with everything that follows from it.
#[derive(Clone, Debug)]
pub struct Topology<P: Id, E: Id, S: Id> {
    /// As in the table.
    pub pieces: &'static [HalfPiece<P, E, S>],
    /// Every seam.
    pub seams: Vec<SeamRuns<P, E, S>>,
    /// Every place where a seam ends on an opening, seen from either piece; by piece, in the order
    /// of its edges.
    pub corners: Vec<Corner<P, E, S>>,
    rings: PerOpening<Vec<Arc<P, E, S>>>,
}

/// An edge and where it stands in the table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Spot<P: Id, E: Id, S: Id> {
    /// Its piece.
    pub piece: &'static HalfPiece<P, E, S>,
    /// Its place among the piece's edges.
    pub at: usize,
    /// The edge.
    pub edge: E,
    /// Which way it is read.
    pub way: Way,
}

/// A seam, both sides read from where it begins.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SeamRuns<P: Id, E: Id, S: Id> {
    /// Which seam.
    pub id: S,
    /// The two edges that it joins.
    pub runs: [Spot<P, E, S>; 2],
    /// Its notches.
    pub matching: Matching,
}

/// A seam as seen from one of its edges.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SeamSide<P: Id, E: Id, S: Id> {
    /// Which seam.
    pub seam: S,
    /// Its notches.
    pub matching: Matching,
    /// This edge.
    pub own: Spot<P, E, S>,
    /// The edge that it is sewn to.
    pub other: Spot<P, E, S>,
}

/// One part of an opening: an edge of one half of one piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Arc<P: Id, E: Id, S: Id> {
    /// Which part it is, on which side of the wearer.
    pub section: SectionId,
    /// Its edge.
    pub spot: Spot<P, E, S>,
    /// The half of its piece.
    pub half: Half,
    /// Where it begins.
    pub from: Junction<P, S>,
    /// Where it ends.
    pub to: Junction<P, S>,
}

/// Where two parts of an opening meet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Junction<P: Id, S: Id> {
    /// On the centre line of a piece.
    Centre(P),
    /// At a seam.
    Seam(S, Side),
}

/// A corner of a half piece, where an opening crosses a seam.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Corner<P: Id, E: Id, S: Id> {
    /// The seam's edge.
    pub seam: Spot<P, E, S>,
    /// The end of it at this corner, in the outline's direction.
    pub seam_end: End,
    /// The place of the opening's edge among the piece's edges.
    pub opening: usize,
    /// The end of that.
    pub opening_end: End,
    /// The edge that the seam's edge is sewn to.
    pub mate: Spot<P, E, S>,
    /// The end of that at this corner.
    pub mate_end: End,
}

fn told(id: impl Id) -> String {
    format!("{id:?}")
}

impl<P: Id, E: Id, S: Id> HalfPiece<P, E, S> {
    /// The edge beyond an end of the one at this place; none where that is the centre line.
    pub fn beyond(&self, at: usize, end: End) -> Option<usize> {
        match end {
            End::Start => at.checked_sub(1),
            End::Finish => Some(at + 1).filter(|next| *next < self.edges.len()),
        }
    }

    /// What the edge at this place lies on.
    pub fn lies(&self, at: usize) -> Option<Lies<S>> {
        self.edges.get(at).map(|(_, lies)| *lies)
    }
}

impl<S: Id> Lies<S> {
    /// The opening of an edge on this side of the wearer; none for a seam.
    pub const fn opening(self, side: Side) -> Option<Opening> {
        match self {
            Self::Top => Some(Opening::Top),
            Self::Leg => Some(side.leg()),
            Self::Seam(_) => None,
        }
    }
}

impl<P: Id, E: Id, S: Id> SeamRuns<P, E, S> {
    /// The seam as seen from one of its edges.
    fn seen_from(&self, edge: E) -> Option<SeamSide<P, E, S>> {
        let [a, b] = self.runs;
        let side = |own, other| SeamSide { seam: self.id, matching: self.matching, own, other };
        [side(a, b), side(b, a)].into_iter().find(|side| side.own.edge == edge)
    }
}

impl<P: Id, E: Id, S: Id> Topology<P, E, S> {
    /// Follows a table to its end.
    ///
    /// # Errors
    /// The first [`Fault`] of it.
    pub fn of(table: &Construction<P, E, S>) -> Result<Self, Fault> {
        unique(table)?;
        let seams = seams(table)?;
        let walk = Walk { table, seams: &seams };
        let rings = PerOpening::try_from_fn(|opening| walk.ring(opening))?;
        all_met(table, &rings)?;
        let corners = walk.corners()?;
        Ok(Self { pieces: table.pieces, seams, corners, rings })
    }

    /// The parts of an opening, in order: the top from the centre front by the wearer's left, a leg
    /// from its side seam forward.
    pub fn arcs(&self, opening: Opening) -> &[Arc<P, E, S>] {
        self.rings.get(opening)
    }

    /// The seam of an edge; none for an edge of an opening.
    pub fn seam_of(&self, edge: E) -> Option<SeamSide<P, E, S>> {
        self.seams.iter().find_map(|seam| seam.seen_from(edge))
    }

    /// The corners of a piece.
    pub fn corners_of(&self, piece: P) -> impl Iterator<Item = &Corner<P, E, S>> {
        self.corners.iter().filter(move |c| c.seam.piece.id == piece)
    }
}

/// No piece and no edge stands there twice; every copy is of a drafted piece.
fn unique<P: Id, E: Id, S: Id>(table: &Construction<P, E, S>) -> Result<(), Fault> {
    let ids: Vec<P> = table.pieces.iter().map(|p| p.id).chain(table.copies.iter().map(|c| c.piece)).collect();
    let edges: Vec<E> = table.pieces.iter().flat_map(|p| p.edges).map(|(edge, _)| *edge).collect();
    if let Some(piece) = twice(&ids) {
        return Err(Fault::PieceTwice(told(piece)));
    }
    if let Some(edge) = twice(&edges) {
        return Err(Fault::EdgeTwice(told(edge)));
    }
    match table.copies.iter().find(|c| !table.pieces.iter().any(|p| p.id == c.of)) {
        Some(copy) => Err(Fault::CopyOfNothing(told(copy.piece))),
        None => Ok(()),
    }
}

fn twice<T: Id>(all: &[T]) -> Option<T> {
    all.iter().enumerate().find(|(i, one)| all[..*i].contains(one)).map(|(_, one)| *one)
}

fn spot<P: Id, E: Id, S: Id>(table: &Construction<P, E, S>, edge: E, way: Way) -> Result<Spot<P, E, S>, Fault> {
    let on = |piece: &'static HalfPiece<P, E, S>| {
        let at = piece.edges.iter().position(|(known, _)| *known == edge)?;
        Some(Spot { piece, at, edge, way })
    };
    table.pieces.iter().find_map(on).ok_or_else(|| Fault::EdgeNowhere(told(edge)))
}

/// Every seam; it and its edges name each other, and no edge is sewn twice.
fn seams<P: Id, E: Id, S: Id>(table: &Construction<P, E, S>) -> Result<Vec<SeamRuns<P, E, S>>, Fault> {
    let mut seams = Vec::with_capacity(table.seams.len());
    for seam in table.seams {
        let [a, b] = seam.runs;
        let runs = [spot(table, a.edge, a.way)?, spot(table, b.edge, b.way)?];
        if let Some(stranger) = runs.iter().find(|run| run.piece.lies(run.at) != Some(Lies::Seam(seam.id))) {
            return Err(Fault::SeamEdge { edge: told(stranger.edge), seam: told(seam.id) });
        }
        seams.push(SeamRuns { id: seam.id, runs, matching: seam.matching });
    }
    for (edge, lies) in table.pieces.iter().flat_map(|p| p.edges) {
        let sewn = seams.iter().flat_map(|s| s.runs).filter(|run| run.edge == *edge).count();
        if let Lies::Seam(seam) = lies
            && sewn != 1
        {
            return Err(Fault::SeamEdge { edge: told(*edge), seam: told(*seam) });
        }
    }
    Ok(seams)
}

/// Every edge of an opening is met once on each side of the wearer.
fn all_met<P: Id, E: Id, S: Id>(
    table: &Construction<P, E, S>,
    rings: &PerOpening<Vec<Arc<P, E, S>>>,
) -> Result<(), Fault> {
    for (edge, lies) in table.pieces.iter().flat_map(|p| p.edges) {
        for side in Side::ALL {
            let Some(opening) = lies.opening(side) else { continue };
            let is_it = |arc: &&Arc<P, E, S>| arc.spot.edge == *edge && arc.section.side == side;
            if rings.get(opening).iter().filter(is_it).count() != 1 {
                return Err(Fault::EdgeNotMet(told(*edge)));
            }
        }
    }
    Ok(())
}

/// Goes round openings, from edge to edge.
struct Walk<'a, P: Id, E: Id, S: Id> {
    table: &'a Construction<P, E, S>,
    seams: &'a [SeamRuns<P, E, S>],
}

/// Where a walk is: on an edge that it reads one way, on one side of the wearer.
type Here<P, E, S> = (Spot<P, E, S>, Side);

/// What a walk comes over, and where it goes on.
struct Step<P: Id, E: Id, S: Id> {
    over: Junction<P, S>,
    next: Here<P, E, S>,
}

impl<P: Id, E: Id, S: Id> Walk<'_, P, E, S> {
    fn ring(&self, opening: Opening) -> Result<Vec<Arc<P, E, S>>, Fault> {
        let (edge, side) = match opening {
            Opening::Top => (self.table.starts.top, Side::Left),
            Opening::LeftLeg => (self.table.starts.leg, Side::Left),
            Opening::RightLeg => (self.table.starts.leg, Side::Right),
        };
        let start = (spot(self.table, edge, Way::Along)?, side);
        let (mut arcs, mut here) = (Vec::new(), start);
        // Each edge is there once on either side.
        let most = 2 * self.table.pieces.iter().map(|p| p.edges.len()).sum::<usize>();
        let mut from = self.step((turned(start.0), side), opening)?.over;
        loop {
            let Step { over: to, next } = self.step(here, opening)?;
            let (spot, side) = here;
            let section = SectionId { opening, section: spot.piece.section, side };
            arcs.push(Arc { section, spot, half: spot.piece.half(side), from, to });
            if next == start {
                return Ok(arcs);
            }
            if arcs.len() > most {
                return Err(Fault::RingOpen(told(edge)));
            }
            (here, from) = (next, to);
        }
    }

    /// Over the end of an edge to the next one of its opening.
    fn step(&self, (spot, side): Here<P, E, S>, opening: Opening) -> Result<Step<P, E, S>, Fault> {
        let end = spot.way.last();
        let Some(beside) = spot.piece.beyond(spot.at, end) else {
            return Ok(Step { over: Junction::Centre(spot.piece.id), next: (turned(spot), side.other()) });
        };
        let broken = || Fault::RingBroken(told(spot.edge));
        let (seam, mate, at_mate) = self.across(spot.piece, beside, end.other()).ok_or_else(broken)?;
        let next = mate.piece.beyond(mate.at, at_mate).ok_or_else(broken)?;
        let (edge, lies) = mate.piece.edges.get(next).ok_or_else(broken)?;
        if lies.opening(side) != Some(opening) {
            return Err(broken());
        }
        let next = Spot { piece: mate.piece, at: next, edge: *edge, way: Way::from(at_mate.other()) };
        Ok(Step { over: Junction::Seam(seam, side), next: (next, side) })
    }

    /// The seam of an edge, the edge on its other side, and the end of that which meets this end.
    fn across(&self, piece: &'static HalfPiece<P, E, S>, at: usize, end: End) -> Option<(S, Spot<P, E, S>, End)> {
        let (edge, _) = piece.edges.get(at)?;
        self.seams.iter().find_map(|seam| {
            let SeamSide { own, other, .. } = seam.seen_from(*edge)?;
            Some((seam.id, other, end.read(own.way).read(other.way)))
        })
    }

    fn corners(&self) -> Result<Vec<Corner<P, E, S>>, Fault> {
        let mut corners = Vec::new();
        for piece in self.table.pieces {
            for opening in 0..piece.edges.len().saturating_sub(1) {
                corners.extend(self.corner(piece, opening)?);
            }
        }
        Ok(corners)
    }

    /// The corner between an edge and the one after it; none where neither lies on an opening.
    fn corner(&self, piece: &'static HalfPiece<P, E, S>, before: usize) -> Result<Option<Corner<P, E, S>>, Fault> {
        let is_seam = |at: usize| matches!(piece.lies(at), Some(Lies::Seam(_)));
        let (seam, seam_end, opening) = match (is_seam(before), is_seam(before + 1)) {
            (true, false) => (before, End::Finish, before + 1),
            (false, true) => (before + 1, End::Start, before),
            _ => return Ok(None),
        };
        let (edge, _) = piece.edges[seam];
        let broken = || Fault::RingBroken(told(edge));
        let (_, mate, mate_end) = self.across(piece, seam, seam_end).ok_or_else(broken)?;
        let own = Spot { piece, at: seam, edge, way: Way::Along };
        Ok(Some(Corner { seam: own, seam_end, opening, opening_end: seam_end.other(), mate, mate_end }))
    }
}

const fn turned<P: Id, E: Id, S: Id>(mut spot: Spot<P, E, S>) -> Spot<P, E, S> {
    spot.way = spot.way.turned();
    spot
}
