//! The parts of a pair by identity, each with its name.

use crate::terms::{Opening, Section};

/// The wearer's left or right.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Side {
    /// The wearer's left.
    Left,
    /// The wearer's right.
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

    /// The other one.
    pub const fn other(self) -> Self {
        match self {
            Self::Left => Self::Right,
            Self::Right => Self::Left,
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
pub enum PieceId {
    /// Whole, or half on the fold.
    Front,
    /// Whole, or half on the fold.
    Back,
    /// Its outer layer.
    Gusset,
    /// Its second layer.
    GussetLining,
    /// The band of the top edge.
    TopBand,
    /// Both legs' bands, where they are alike.
    LegBand,
    /// The left leg's band, where the legs differ.
    LeftLegBand,
    /// The right leg's band, where the legs differ.
    RightLegBand,
}

impl PieceId {
    /// The bands that an opening can be finished with: its own, and that of both legs.
    pub const BANDS: [(Self, Opening); 5] = [
        (Self::TopBand, Opening::Top),
        (Self::LegBand, Opening::LeftLeg),
        (Self::LegBand, Opening::RightLeg),
        (Self::LeftLegBand, Opening::LeftLeg),
        (Self::RightLegBand, Opening::RightLeg),
    ];

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

    /// Is it one of the gusset's layers?
    pub const fn is_gusset(self) -> bool {
        matches!(self, Self::Gusset | Self::GussetLining)
    }

    /// Is it a strip that finishes an opening?
    pub const fn is_band(self) -> bool {
        matches!(self, Self::TopBand | Self::LegBand | Self::LeftLegBand | Self::RightLegBand)
    }
}

/// An edge as it is drafted: of the half of one piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum EdgeId {
    /// The front's part of the top edge.
    FrontTop,
    /// The front's side seam.
    FrontSide,
    /// The front's part of a leg edge.
    FrontLeg,
    /// Where the gusset is sewn to the front.
    FrontGusset,
    /// The back's part of the top edge.
    BackTop,
    /// The back's side seam.
    BackSide,
    /// The back's part of a leg edge.
    BackLeg,
    /// Where the gusset is sewn to the back.
    BackGusset,
    /// Where the front is sewn to the gusset.
    GussetFront,
    /// The gusset's part of a leg edge.
    GussetLeg,
    /// Where the back is sewn to the gusset.
    GussetBack,
}

impl EdgeId {
    /// Its name on its piece.
    pub const fn name(self) -> &'static str {
        self.names().0
    }

    /// Its name on a whole piece, which has it twice.
    pub const fn name_on(self, side: Side) -> &'static str {
        let (_, left, right) = self.names();
        match side {
            Side::Left => left,
            Side::Right => right,
        }
    }

    const fn names(self) -> (&'static str, &'static str, &'static str) {
        match self {
            Self::FrontTop | Self::BackTop => ("top", "left top", "right top"),
            Self::FrontSide | Self::BackSide => ("side", "left side", "right side"),
            Self::FrontLeg | Self::BackLeg | Self::GussetLeg => ("leg", "left leg", "right leg"),
            Self::FrontGusset | Self::GussetFront => ("front gusset", "left front gusset", "right front gusset"),
            Self::BackGusset | Self::GussetBack => ("back gusset", "left back gusset", "right back gusset"),
        }
    }
}

/// A seam of the half that is drafted; each is sewn on the wearer's left and right.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum SeamLine {
    /// Front to back.
    Side,
    /// Front to gusset.
    FrontGusset,
    /// Back to gusset.
    BackGusset,
}

impl SeamLine {
    /// The seam on one side.
    pub const fn on(self, side: Side) -> SeamId {
        match self {
            Self::Side => SeamId::Side(side),
            Self::FrontGusset => SeamId::FrontGusset(side),
            Self::BackGusset => SeamId::BackGusset(side),
        }
    }

    /// Its name, whichever side it is on.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Side => "side seam",
            Self::FrontGusset => "front gusset seam",
            Self::BackGusset => "back gusset seam",
        }
    }
}

/// One of the seams, each on the wearer's left or right.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum SeamId {
    /// A side seam.
    Side(Side),
    /// Half of the seam of front and gusset.
    FrontGusset(Side),
    /// Half of the seam of back and gusset.
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

    /// The side it is on.
    pub const fn side(self) -> Side {
        match self {
            Self::Side(side) | Self::FrontGusset(side) | Self::BackGusset(side) => side,
        }
    }

    /// Whichever side it is on.
    pub const fn line(self) -> SeamLine {
        match self {
            Self::Side(_) => SeamLine::Side,
            Self::FrontGusset(_) => SeamLine::FrontGusset,
            Self::BackGusset(_) => SeamLine::BackGusset,
        }
    }

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
pub struct CrossingId {
    /// The opening.
    pub opening: Opening,
    /// The seam.
    pub seam: SeamId,
}

/// One part of an opening: the part of it on one piece, and for the top edge on one side.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct SectionId {
    /// The opening.
    pub opening: Opening,
    /// By the piece it lies on.
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
