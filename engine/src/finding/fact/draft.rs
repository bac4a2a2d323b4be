//! Facts about what cannot be drawn.

use super::{About, refusal};
use crate::finding::{Help, Unit};
use crate::keys::{Key, body, gusset, style};

/// Front or back.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// The half front.
    Front,
    /// The half back.
    Back,
}

/// What cannot be drawn. Lengths are millimetres.
#[derive(Clone, Debug, PartialEq)]
pub enum DraftFact {
    /// Hardly anything is left of a centre line.
    CentreTooShort {
        /// Whose centre.
        part: Part,
        /// What is left.
        length: f64,
        /// What a piece wants.
        least: f64,
    },
    /// No side seam is short enough for the front leg edge to fall towards the gusset.
    LegTooLevel {
        /// As it was asked for.
        side_seam: f64,
        /// The shortest that can be sewn.
        least: f64,
    },
    /// The side seam does not reach from the top edge to the hip.
    SideSeam {
        /// Of which half.
        part: Part,
        /// What it would be.
        length: f64,
    },
    /// No hollow for the leg is left beside the front gusset seam.
    GussetTooWide {
        /// Of the front gusset seam.
        width: f64,
        /// What leaves a hollow.
        most: f64,
    },
    /// The back leg has too little room, across or down.
    BackLeg {
        /// What there is.
        room: f64,
        /// What it takes.
        least: f64,
    },
    /// No smooth leg edge runs through this gusset.
    NoSmoothLeg,
    /// An end of the gusset is narrower than its narrowest width.
    GussetEnd {
        /// Which end.
        part: Part,
        /// Of that end.
        width: f64,
        /// Of the gusset.
        narrowest: f64,
    },
    /// The leg edges that can be reached, where there are any.
    LegEdgeOutOfReach {
        /// As it was asked for.
        wanted: f64,
        /// From the shortest to the longest.
        reach: Option<(f64, f64)>,
    },
}

impl DraftFact {
    pub(super) fn about(&self) -> About {
        match self {
            Self::CentreTooShort { part, length, least } => refusal("draft.centre_too_short", body::CROTCH_LENGTH)
                .measured(*length, *least, Unit::Mm)
                .help(Help::Measure(part.length()))
                .help(Help::Smaller(part.drop()))
                .help(Help::Smaller(gusset::LENGTH.into())),
            Self::LegTooLevel { side_seam, least } => refusal("draft.leg_too_level", style::SIDE_SEAM)
                .measured(*side_seam, *least, Unit::Mm)
                .help(Help::Smaller(style::TOP_DROP_SIDE.into()))
                .help(Help::Measure(body::CROTCH_LENGTH.into()))
                .help(Help::Measure(body::WAIST_TO_HIP.into())),
            Self::SideSeam { .. } => refusal("draft.side_seam", style::SIDE_SEAM)
                .help(Help::Larger(style::SIDE_SEAM.into()))
                .help(Help::Measure(body::WAIST_GIRTH.into()))
                .help(Help::Measure(body::HIP_GIRTH.into())),
            Self::GussetTooWide { width, most } => refusal("draft.gusset_too_wide", gusset::FRONT_WIDTH)
                .measured(*width, *most, Unit::Mm)
                .help(Help::Smaller(gusset::FRONT_WIDTH.into()))
                .help(Help::Measure(body::HIP_GIRTH.into())),
            Self::BackLeg { room, least } => refusal("draft.back_leg", gusset::BACK_WIDTH)
                .measured(*room, *least, Unit::Mm)
                .help(Help::Smaller(gusset::BACK_WIDTH.into()))
                .help(Help::Smaller(style::SIDE_SEAM.into()))
                .help(Help::Measure(body::CROTCH_LENGTH.into())),
            Self::NoSmoothLeg => refusal("draft.back_leg", gusset::LENGTH)
                .help(Help::Larger(gusset::LENGTH.into()))
                .help(Help::Smaller(gusset::BACK_WIDTH.into())),
            Self::GussetEnd { part, width, narrowest } => refusal("draft.gusset_widths", part.gusset_width())
                .measured(*width, *narrowest, Unit::Mm)
                .help(Help::Smaller(gusset::WIDTH.into()))
                .help(Help::Larger(part.gusset_width())),
            Self::LegEdgeOutOfReach { wanted, reach } => {
                let found = refusal("draft.leg_edge_out_of_reach", style::LEG_EDGE);
                match reach {
                    Some((least, most)) => found
                        .measured(*wanted, if wanted < least { *least } else { *most }, Unit::Mm)
                        .help(Help::Between(style::LEG_EDGE.into(), *least, *most))
                        .help(Help::Free([style::SIDE_SEAM, style::FRONT_SCOOP, style::BACK_COVER].map(Key::from))),
                    None => found.help(Help::TakeOut(style::LEG_EDGE.into())),
                }
            }
        }
    }
}

impl Part {
    /// The measure that its centre is taken from.
    fn length(self) -> Key {
        match self {
            Self::Front => body::CROTCH_LENGTH_FRONT.into(),
            Self::Back => body::CROTCH_LENGTH.into(),
        }
    }

    fn drop(self) -> Key {
        match self {
            Self::Front => style::TOP_DROP_FRONT.into(),
            Self::Back => style::TOP_DROP_BACK.into(),
        }
    }

    fn gusset_width(self) -> Key {
        match self {
            Self::Front => gusset::FRONT_WIDTH.into(),
            Self::Back => gusset::BACK_WIDTH.into(),
        }
    }
}
