//! Where a finding is: a key of the sheet, or a part of the garment.

use crate::keys::{Field, Key, Single};
use crate::terms::Opening;
use crate::topology::{CrossingId, PieceId, SeamId, SectionId};
use std::fmt;

/// What a finding points at.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Place {
    /// The sheet as a whole.
    Sheet,
    /// A key of the sheet.
    Key(Key),
    /// An opening.
    Opening(Opening),
    /// A part of an opening.
    Section(SectionId),
    /// A seam.
    Seam(SeamId),
    /// A piece.
    Piece(PieceId),
    /// Where an opening crosses a seam.
    Crossing(CrossingId),
    /// The order of work.
    Work,
}

macro_rules! from {
    ($($part:ty => $variant:ident),+) => {
        $(impl From<$part> for Place {
            fn from(part: $part) -> Self {
                Self::$variant(part.into())
            }
        })+
    };
}

impl fmt::Display for Place {
    /// A dotted key of the sheet, or the name of a part.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Sheet => f.write_str("sheet"),
            Self::Key(key) => key.fmt(f),
            Self::Opening(opening) => f.write_str(opening.name()),
            Self::Section(section) => write!(f, "{}, {}", section.opening.name(), section.name()),
            Self::Seam(seam) => f.write_str(seam.name()),
            Self::Piece(piece) => f.write_str(piece.name()),
            Self::Crossing(crossing) => write!(f, "{}, {}", crossing.opening.name(), crossing.seam.name()),
            Self::Work => f.write_str("order of work"),
        }
    }
}

from!(
    Key => Key, Field<Single> => Key, Opening => Opening, SectionId => Section, SeamId => Seam,
    PieceId => Piece, CrossingId => Crossing
);
