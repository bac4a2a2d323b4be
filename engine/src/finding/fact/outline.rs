//! Facts about lines that cannot be cut or sewn.

use super::{About, refusal};
use crate::finding::{Do, Help, Place, Unit};
use crate::keys::style;
use crate::terms::Opening;
use crate::topology::{self, PieceId, SeamId};

/// What is wrong with an outline.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Fault {
    /// A point of it has no place.
    Nowhere,
    CutCrossesItself,
    SewingCrossesItself,
    SewingLeavesCut,
}

/// What is found of the lines. Lengths are millimetres.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs)]
pub enum OutlineFact {
    /// The program's own tables do not hold together.
    Unsound(topology::Fault),
    NotSimple {
        piece: PieceId,
        fault: Fault,
    },
    /// The finished edges of a piece cross each other.
    EdgesCross {
        piece: PieceId,
    },
    /// A finished edge lies on the wrong side of its cut line or its stitches.
    OutOfOrder {
        piece: PieceId,
        opening: Opening,
    },
    SeamUnequal {
        seam: SeamId,
        difference: f64,
        most: f64,
    },
    /// A curve is tighter than a line beside it allows.
    TooTight {
        piece: PieceId,
        opening: Opening,
        radius: f64,
        distance: f64,
    },
    /// The lines beside two edges do not meet.
    NoCorner {
        piece: PieceId,
        opening: Opening,
    },
}

impl OutlineFact {
    pub(super) fn about(&self) -> About {
        let found = match self {
            Self::Unsound(_) => return refusal("construction.unsound", Place::Sheet).help(Do::Report),
            Self::EdgesCross { .. } => {
                return refusal("outline.edges_cross", style::SIDE_SEAM)
                    .help(Do::MilderCurves)
                    .help(Help::Larger(style::SIDE_SEAM.into()));
            }
            Self::OutOfOrder { opening, .. } => refusal("outline.out_of_order", *opening),
            Self::NotSimple { piece, .. } => refusal("outline.not_simple", *piece),
            Self::SeamUnequal { seam, difference, most } => {
                refusal("seam.unequal", *seam).measured(*difference, *most, Unit::Mm)
            }
            Self::TooTight { opening, radius, distance, .. } => {
                refusal("finish.too_tight", *opening).measured(*radius, *distance, Unit::Mm)
            }
            Self::NoCorner { opening, .. } => refusal("finish.too_tight", *opening),
        };
        found.help(Do::NarrowerFinish).help(Do::MilderCurves)
    }
}
