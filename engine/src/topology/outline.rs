//! Halves, directions, and the edges of an outline that is cut.

use super::{EdgeId, Side};

/// Which half of a piece: the drafted one, or its mirror image.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Half {
    /// x is positive: as drafted.
    Plus,
    /// x is negative.
    Minus,
}

/// Which way an edge is walked, seen from the drafted half's outline.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// From its start to its finish.
    Along,
    /// From its finish to its start.
    Back,
}

impl Way {
    /// The end that is met last.
    pub const fn last(self) -> End {
        match self {
            Self::Along => End::Finish,
            Self::Back => End::Start,
        }
    }

    /// The way that leaves from this end.
    pub const fn from(end: End) -> Self {
        match end {
            End::Start => Self::Along,
            End::Finish => Self::Back,
        }
    }

    /// The other way.
    pub const fn turned(self) -> Self {
        match self {
            Self::Along => Self::Back,
            Self::Back => Self::Along,
        }
    }
}

/// One end of an edge, in its outline's direction.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum End {
    /// Where it begins, read along its outline.
    Start,
    /// Where it ends.
    Finish,
}

impl End {
    /// The other one.
    pub const fn other(self) -> Self {
        match self {
            Self::Start => Self::Finish,
            Self::Finish => Self::Start,
        }
    }

    /// The same end of a line that is read this way.
    pub const fn read(self, way: Way) -> Self {
        match way {
            Way::Along => self,
            Way::Back => self.other(),
        }
    }
}

/// An edge of an outline.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum OutlineEdge {
    /// Of a half piece on the fold.
    Half(EdgeId),
    /// Of a whole piece, on one side of the wearer.
    On(Side, EdgeId),
    /// The fold of a half piece.
    Centre,
    /// Of a band.
    Band(BandEdge),
}

impl OutlineEdge {
    /// The drafted edge that it is.
    pub const fn drafted(self) -> Option<EdgeId> {
        match self {
            Self::Half(edge) | Self::On(_, edge) => Some(edge),
            Self::Centre | Self::Band(_) => None,
        }
    }

    /// Its name on its piece.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Half(edge) => edge.name(),
            Self::On(side, edge) => edge.name_on(side),
            Self::Centre => "centre",
            Self::Band(edge) => edge.name(),
        }
    }
}

/// An edge of a band; its long edges are two each, from the middle to either end.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum BandEdge {
    /// The upper edge, x positive.
    UpperA,
    /// The end with x positive.
    EndA,
    /// The lower edge, x positive.
    LowerA,
    /// The lower edge, x negative.
    LowerB,
    /// The end with x negative.
    EndB,
    /// The upper edge, x negative.
    UpperB,
    /// Where it is doubled: no part of the outline.
    Fold,
}

impl BandEdge {
    /// Round the outline, from the middle of the upper edge.
    pub const OUTLINE: [Self; 6] = [Self::UpperA, Self::EndA, Self::LowerA, Self::LowerB, Self::EndB, Self::UpperB];

    /// Its name on its piece.
    pub const fn name(self) -> &'static str {
        match self {
            Self::UpperA => "upper a",
            Self::EndA => "end a",
            Self::LowerA => "lower a",
            Self::LowerB => "lower b",
            Self::EndB => "end b",
            Self::UpperB => "upper b",
            Self::Fold => "fold",
        }
    }
}

/// One of a band's long edges, whole.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum LongEdge {
    /// The one with the smaller y.
    Upper,
    /// The one with the larger y.
    Lower,
}

impl LongEdge {
    /// Its two halves: that with x positive, that with x negative.
    pub const fn halves(self) -> [BandEdge; 2] {
        match self {
            Self::Upper => [BandEdge::UpperA, BandEdge::UpperB],
            Self::Lower => [BandEdge::LowerA, BandEdge::LowerB],
        }
    }

    /// The one that it lies on once the band is doubled.
    pub const fn other(self) -> Self {
        match self {
            Self::Upper => Self::Lower,
            Self::Lower => Self::Upper,
        }
    }

    /// `upper` or `lower`.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Upper => "upper",
            Self::Lower => "lower",
        }
    }
}
