//! Matching marks by identity: where a mark is, and which notch is which.

use super::{EdgeId, End, LongEdge, PairJunction, PieceId, SectionId, Side};
use crate::terms::Opening;

/// Where a mark of an opening is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum MarkPlace {
    /// Where two sections meet.
    Junction(Opening, PairJunction),
    /// Within a section.
    Within {
        /// Which one.
        section: SectionId,
        /// Where it starts.
        from: PairJunction,
        /// How far along it, 0 to 1.
        share: f64,
    },
}

impl MarkPlace {
    /// In words: `centre front`, or `back, 50 % on from the back gusset seam`.
    pub fn name(&self) -> String {
        match self {
            Self::Junction(opening, at) => at.name(*opening),
            Self::Within { section, from, share } => {
                format!("{}, {:.0} % on from the {}", section.name(), share * 100.0, from.name(section.opening))
            }
        }
    }

    /// Does its name tell it from its mirror image, because it is told from a centre?
    const fn names_centre(&self) -> bool {
        let (Self::Junction(_, from) | Self::Within { from, .. }) = self;
        matches!(from, PairJunction::Centre(_))
    }
}

/// What the notches of a seam stand for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum SeamMark {
    Middle,
    Centre,
    Pair,
}

/// A notch by identity, unique in the garment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NotchId {
    /// On a seam.
    Seam {
        /// Its piece.
        piece: PieceId,
        /// None where the piece is a half on the fold.
        side: Option<Side>,
        /// Its edge.
        edge: EdgeId,
        /// Which of the seam's notches.
        mark: SeamMark,
    },
    /// Where an opening's elastic or band is pinned.
    Opening {
        /// Its piece.
        piece: PieceId,
        /// None where the piece is a half on the fold.
        side: Option<Side>,
        /// Its edge.
        edge: EdgeId,
        /// Where the mark is on its opening.
        place: MarkPlace,
    },
    /// Where a row of stitches is left open to thread an elastic through.
    Threading {
        /// Its piece.
        piece: PieceId,
        /// None where the piece is a half on the fold.
        side: Option<Side>,
        /// Its edge.
        edge: EdgeId,
        /// Which end of it, along the edge as drafted.
        end: End,
    },
    /// On a long edge of a band.
    Band {
        /// Its piece.
        piece: PieceId,
        /// Which edge.
        edge: LongEdge,
        /// The place on the opening that it meets.
        place: MarkPlace,
    },
}

impl NotchId {
    /// Its name in files: piece, edge and mark.
    pub fn name(&self) -> String {
        match self {
            Self::Seam { piece, side, edge, mark } => {
                // A centre is there once.
                let side = side.filter(|_| *mark != SeamMark::Centre);
                format!("{}: {}, {}", piece.name(), edge_name(side, *edge), mark.name())
            }
            Self::Opening { piece, side, edge, place } => {
                let side = side.filter(|_| !place.names_centre());
                format!("{}: {}, {}", piece.name(), edge_name(side, *edge), place.name())
            }
            Self::Threading { piece, side, edge, .. } => {
                format!("{}: {}, {}", piece.name(), edge_name(*side, *edge), self.mark_name())
            }
            Self::Band { piece, edge, place } => format!("{}: {} edge, {}", piece.name(), edge.name(), place.name()),
        }
    }

    /// Its name beside that of its piece and edge.
    pub fn mark_name(&self) -> String {
        match self {
            Self::Seam { mark, .. } => mark.name().to_owned(),
            Self::Opening { place, .. } | Self::Band { place, .. } => place.name(),
            Self::Threading { end: End::Start, .. } => "threading gap, start".to_owned(),
            Self::Threading { end: End::Finish, .. } => "threading gap, end".to_owned(),
        }
    }

    /// The same notch on a piece that is cut after the same outline.
    #[must_use]
    pub const fn on(mut self, other: PieceId) -> Self {
        let (Self::Seam { piece, .. }
        | Self::Opening { piece, .. }
        | Self::Threading { piece, .. }
        | Self::Band { piece, .. }) = &mut self;
        *piece = other;
        self
    }
}

const fn edge_name(side: Option<Side>, edge: EdgeId) -> &'static str {
    match side {
        Some(side) => edge.name_on(side),
        None => edge.name(),
    }
}

impl SeamMark {
    /// In words.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Middle => "middle",
            Self::Centre => "centre",
            Self::Pair => "pair",
        }
    }
}
