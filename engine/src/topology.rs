//! What a garment is made of: pieces, edges, seams, openings and where they cross, by identity.
//!
//! Identities are types; their names are looked up here, at the border only.

use crate::terms::{Opening, Section};

/// The wearer's left or right.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[allow(missing_docs)]
pub enum Side {
    Left,
    Right,
}

impl Side {
    /// In the order they are listed and closed.
    pub const ALL: [Self; 2] = [Self::Left, Self::Right];

    /// The leg opening on this side.
    pub const fn leg(self) -> Opening {
        match self {
            Self::Left => Opening::LeftLeg,
            Self::Right => Opening::RightLeg,
        }
    }

    /// `left` or `right`.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Left => "left",
            Self::Right => "right",
        }
    }
}

/// One of the parts that are cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[allow(missing_docs)]
pub enum PieceId {
    Front,
    Back,
    Gusset,
    GussetLining,
    TopBand,
    /// Both legs' bands, where they are alike.
    LegBand,
    LeftLegBand,
    RightLegBand,
}

impl PieceId {
    /// The piece's name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Front => "front",
            Self::Back => "back",
            Self::Gusset => "gusset",
            Self::GussetLining => "gusset lining",
            Self::TopBand => "top band",
            Self::LegBand => "leg band",
            Self::LeftLegBand => "left leg band",
            Self::RightLegBand => "right leg band",
        }
    }
}

/// One of the seams, each on the wearer's left or right.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[allow(missing_docs)]
pub enum SeamId {
    Side(Side),
    FrontGusset(Side),
    BackGusset(Side),
}

impl SeamId {
    /// In the order they are listed.
    pub const ALL: [Self; 6] = [
        Self::Side(Side::Left),
        Self::Side(Side::Right),
        Self::FrontGusset(Side::Left),
        Self::FrontGusset(Side::Right),
        Self::BackGusset(Side::Left),
        Self::BackGusset(Side::Right),
    ];

    /// The seam's name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Side(Side::Left) => "left side seam",
            Self::Side(Side::Right) => "right side seam",
            Self::FrontGusset(Side::Left) => "front gusset seam, left",
            Self::FrontGusset(Side::Right) => "front gusset seam, right",
            Self::BackGusset(Side::Left) => "back gusset seam, left",
            Self::BackGusset(Side::Right) => "back gusset seam, right",
        }
    }
}

/// Where an opening crosses a seam.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[allow(missing_docs)]
pub struct CrossingId {
    pub opening: Opening,
    pub seam: SeamId,
}

/// One part of an opening: the part of it on one piece, and for the top edge on one side.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[allow(missing_docs)]
pub struct SectionId {
    pub opening: Opening,
    pub section: Section,
    /// Of the wearer; a leg's own for its sections.
    pub side: Side,
}

impl SectionId {
    /// Its name within its opening: `front left` of the top edge, `gusset` of a leg.
    pub const fn name(self) -> &'static str {
        match (self.opening, self.section, self.side) {
            (Opening::Top, Section::Front, Side::Left) => "front left",
            (Opening::Top, Section::Front, Side::Right) => "front right",
            (Opening::Top, Section::Back, Side::Left) => "back left",
            (Opening::Top, Section::Back, Side::Right) => "back right",
            (_, Section::Front, _) => "front",
            (_, Section::Gusset, _) => "gusset",
            (_, Section::Back, _) => "back",
        }
    }
}
