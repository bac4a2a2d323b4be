//! Facts about the order of work.

use super::{About, refusal};
use crate::finding::{Do, Help, Place, Unit};
use crate::keys::finish;
use crate::terms::Opening;
use crate::work::step::StepId;

/// Why the garment cannot be sewn as it stands.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs)]
pub enum WorkFact {
    /// The ends of a ring cannot be lapped by half of it and more, mm.
    OverlapTooLong {
        opening: Opening,
        overlap: f64,
        half: f64,
    },
    MissingStep {
        step: StepId,
        needs: StepId,
    },
    /// These wait for each other.
    NoOrder {
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
