//! Facts about the order of work.

use super::{About, refusal};
use crate::finding::{Do, Help, Place, Unit};
use crate::keys::finish;
use crate::terms::Opening;
use crate::work::step::StepId;

/// Why the garment cannot be sewn as it stands.
#[derive(Clone, Debug, PartialEq)]
pub enum WorkFact {
    /// The ends of a ring cannot be lapped by half of it and more, mm.
    OverlapTooLong {
        /// The edge.
        opening: Opening,
        /// As it was asked for.
        overlap: f64,
        /// Half of the ring.
        half: f64,
    },
    /// A step waits for one that is not there.
    MissingStep {
        /// Which waits.
        step: StepId,
        /// What it waits for.
        needs: StepId,
    },
    /// These wait for each other.
    NoOrder {
        /// All of them.
        steps: Vec<StepId>,
    },
}

impl WorkFact {
    pub(super) fn about(&self) -> About {
        match self {
            Self::OverlapTooLong { opening, overlap, half } => {
                refusal("work.overlap_too_long", finish::OVERLAP.on(*opening))
                    .measured(*overlap, *half, Unit::Mm)
                    .help(Help::UsualOverlap)
                    .help(Do::LongerElastic)
            }
            Self::MissingStep { .. } => refusal("work.missing_step", Place::Work).help(Do::Report),
            Self::NoOrder { .. } => refusal("work.no_order", Place::Work).help(Do::OtherWayRound),
        }
    }
}
