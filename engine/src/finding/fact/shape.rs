//! Facts about the drawn shape.

use super::{About, note, refusal, warning};
use crate::finding::{Do, Help, Unit};
use crate::keys::style;
use crate::topology::{SeamId, Side};

/// What is found of the shape. Lengths are millimetres.
#[derive(Clone, Debug, PartialEq)]
pub enum ShapeFact {
    /// Hardly any side seam is left between the finishes.
    SideSeamShort {
        /// Which side.
        seam: SeamId,
        /// What is left.
        length: f64,
        /// What can be sewn.
        least: f64,
    },
    /// Over a short side seam the finishes of top and leg lie on each other.
    EdgesOverlap {
        /// On which side.
        side: Side,
        /// By both finishes.
        taken: f64,
        /// The whole seam.
        side_seam: f64,
    },
    /// The side seam was shortened, or the front leg would run almost level.
    LevelLeg {
        /// The side seam that was asked for.
        asked: f64,
        /// What was drawn.
        drawn: f64,
    },
    /// The top of the side seam lies so much higher than asked, or lower where negative.
    SideDepth {
        /// Higher than asked, mm.
        raised: f64,
        /// What is worth saying, mm.
        seen: f64,
    },
    /// The front leg leaves the side seam flatter than square by this angle, the back leg steeper.
    FootAngle {
        /// Flatter than square; less than nothing where it is steeper.
        degrees: f64,
        /// What an eye sees, degrees.
        seen: f64,
    },
    /// The back leg edge runs in under the side and out again.
    BackUndercut {
        /// Out again by so much.
        out: f64,
        /// What is worth saying.
        seen: f64,
    },
}

/// The share of a length of the base that a garment has to keep to be the same style.
const KEPT: f64 = 0.8;

impl ShapeFact {
    pub(super) fn about(&self) -> About {
        match self {
            Self::SideSeamShort { length, least, .. } => refusal("shape.side_seam_short", style::SIDE_SEAM)
                .measured(*length, *least, Unit::Mm)
                .help(Help::Larger(style::SIDE_SEAM.into()))
                .help(Do::NarrowerFinish),
            Self::EdgesOverlap { taken, side_seam, .. } => warning("shape.edges_overlap", style::SIDE_SEAM)
                .measured(*taken, *side_seam, Unit::Mm)
                .help(Help::Larger(style::SIDE_SEAM.into()))
                .help(Do::NarrowerFinish),
            // By more than a fifth it is another style.
            Self::LevelLeg { asked, drawn } if *drawn < KEPT * asked => warning("shape.level_leg", style::SIDE_SEAM)
                .measured(*drawn, *asked, Unit::Mm)
                .help(Do::NothingIfMeant)
                .help(Do::RaiseTopAtSide)
                .help(Do::BaseCutHigher),
            Self::LevelLeg { asked, drawn } => note("shape.level_leg", style::SIDE_SEAM)
                .measured(*drawn, *asked, Unit::Mm)
                .help(Do::Nothing)
                .help(Do::RaiseTopAtSide),
            Self::SideDepth { raised, seen } => note("shape.side_depth", style::TOP_DROP_SIDE)
                .measured(raised.abs(), *seen, Unit::Mm)
                .help(Do::Nothing)
                .help(Help::Larger(style::SIDE_SEAM.into())),
            Self::FootAngle { degrees, seen } => note("shape.foot_angle", style::SIDE_SEAM)
                .measured(degrees.abs(), *seen, Unit::Degrees)
                .help(Do::Nothing)
                .help(Help::Larger(style::SIDE_SEAM.into())),
            Self::BackUndercut { out, seen } => warning("shape.back_undercut", style::BACK_COVER)
                .measured(*out, *seen, Unit::Mm)
                .help(Do::NothingIfMeant)
                .help(Help::Smaller(style::BACK_COVER.into()))
                .help(Help::Larger(style::SIDE_SEAM.into())),
        }
    }
}
