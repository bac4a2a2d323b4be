//! Facts about a finish as it was asked for.

use super::{About, refusal};
use crate::finding::{Do, Help};
use crate::finish::FinishKind;
use crate::keys::finish;
use crate::terms::{ClothKind, Opening};

/// Why a finish cannot be had as it was asked for.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs)]
pub enum FinishFact {
    /// The cloth cannot take it.
    ClothCannot {
        opening: Opening,
        kind: FinishKind,
        cloth: ClothKind,
    },
    RoundOnly {
        opening: Opening,
        kind: FinishKind,
    },
    NoElastic {
        opening: Opening,
        kind: FinishKind,
    },
    UnknownElastic {
        opening: Opening,
        name: String,
    },
    /// Equal parts and parts of their own.
    TwoSpreads {
        opening: Opening,
    },
    /// A whole length and a reduction for every part of it.
    TwoLengths {
        opening: Opening,
    },
}

impl FinishFact {
    pub(super) fn about(&self) -> About {
        match self {
            Self::ClothCannot { opening, cloth, .. } => {
                let fitting = FinishKind::all().filter(|f| f.demands().met_by(*cloth)).collect();
                refusal("finish.cloth_cannot", finish::KIND.on(*opening)).help(Help::Finish(*opening, fitting))
            }
            Self::RoundOnly { opening, .. } => refusal("finish.round_only", finish::PUT_ON.on(*opening))
                .help(Help::Choose(finish::PUT_ON.on(*opening), &["round"]))
                .help(Do::OtherFinish),
            Self::NoElastic { opening, .. } => {
                refusal("finish.elastic_missing", finish::ELASTIC.on(*opening)).help(Do::NameElastic)
            }
            Self::UnknownElastic { opening, .. } => {
                refusal("finish.elastic_missing", finish::ELASTIC.on(*opening)).help(Do::AddElastic)
            }
            Self::TwoSpreads { opening } => refusal("finish.two_spreads", finish::SPREAD.on(*opening))
                .help(Help::TakeOut(finish::SECTIONS.on(*opening)))
                .help(Help::Choose(finish::SPREAD.on(*opening), &["even"])),
            Self::TwoLengths { opening } => refusal("finish.two_lengths", finish::SECTIONS.on(*opening))
                .help(Do::OneSectionLess)
                .help(Help::TakeOut(finish::LENGTH.on(*opening))),
        }
    }
}
