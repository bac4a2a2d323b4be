//! Facts about lines that cannot be cut or sewn.

use super::{About, refusal};
use crate::finding::{Do, Help, Place, Unit};
use crate::keys::{gusset, style};
use crate::terms::Opening;
use crate::topology::{self, PieceId, SeamId};

/// What is wrong with an outline.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fault {
    /// A point of it has no place.
    Nowhere,
    /// The cut line crosses itself.
    CutCrossesItself,
    /// The sewing line crosses itself.
    SewingCrossesItself,
    /// The sewing line is not inside the cut line.
    SewingLeavesCut,
}

/// What is found of the lines. Lengths are millimetres.
#[derive(Clone, Debug, PartialEq)]
pub enum OutlineFact {
    /// The program's own tables do not hold together.
    Unsound(topology::Fault),
    /// An outline that cannot be cut.
    NotSimple {
        /// Of which piece.
        piece: PieceId,
        /// What is wrong with it.
        fault: Fault,
    },
    /// The finished edges of a piece cross each other.
    EdgesCross {
        /// Of which piece.
        piece: PieceId,
    },
    /// A finished edge lies on the wrong side of its cut line or its stitches.
    OutOfOrder {
        /// Of which piece.
        piece: PieceId,
        /// Of which edge.
        opening: Opening,
    },
    /// What two openings need leaves no strip of cloth between them.
    StripNarrow {
        /// Of which piece.
        piece: PieceId,
        /// Between which edges.
        openings: [Opening; 2],
        /// Where it is narrowest, between finished edges and stitches.
        between: f64,
        /// What can be sewn.
        least: f64,
    },
    /// Two sides that are sewn together are not equally long.
    SeamUnequal {
        /// Which seam.
        seam: SeamId,
        /// Between its sides.
        difference: f64,
        /// What sewing does not show.
        most: f64,
    },
    /// A curve is tighter than a line beside it allows.
    TooTight {
        /// Of which piece.
        piece: PieceId,
        /// Of which edge.
        opening: Opening,
        /// The tightest of the curve.
        radius: f64,
        /// Of the line beside it.
        distance: f64,
    },
    /// A finished edge turns more tightly than anything can be sewn along it.
    TurnsTight {
        /// Of which piece.
        piece: PieceId,
        /// Which edge.
        opening: Opening,
        /// Where it turns most.
        radius: f64,
        /// What can be sewn.
        least: f64,
    },
    /// The lines beside two edges do not meet.
    NoCorner {
        /// Of which piece.
        piece: PieceId,
        /// Of which edge.
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
            Self::StripNarrow { openings: [_, opening], between, least, .. } => {
                refusal("outline.strip_narrow", *opening).measured(*between, *least, Unit::Mm)
            }
            Self::NotSimple { piece, .. } => refusal("outline.not_simple", *piece),
            Self::SeamUnequal { seam, difference, most } => {
                refusal("seam.unequal", *seam).measured(*difference, *most, Unit::Mm)
            }
            Self::TooTight { opening, radius, distance, .. } => {
                refusal("finish.too_tight", *opening).measured(*radius, *distance, Unit::Mm)
            }
            Self::TurnsTight { opening, radius, least, .. } => {
                return refusal("outline.turns_tight", *opening)
                    .measured(*radius, *least, Unit::Mm)
                    .help(Do::MilderCurves)
                    .help(Help::Smaller(gusset::WIDTH.into()));
            }
            Self::NoCorner { opening, .. } => refusal("finish.too_tight", *opening),
        };
        found.help(Do::NarrowerFinish).help(Do::MilderCurves)
    }
}
