//! Facts about a finish as it was asked for.

use super::{About, refusal};
use crate::finding::{Do, Help, Unit};
use crate::finish::FinishKind;
use crate::keys::{Field, PerEdge, body, finish};
use crate::sheet::Basis;
use crate::terms::{ClothKind, Opening};

/// Why a finish cannot be had as it was asked for.
#[derive(Clone, Debug, PartialEq)]
pub enum FinishFact {
    /// The cloth cannot take it.
    ClothCannot {
        /// The edge.
        opening: Opening,
        /// The finish.
        kind: FinishKind,
        /// The kind of cloth.
        cloth: ClothKind,
    },
    /// Asked for flat, and can only be put on round.
    RoundOnly {
        /// The edge.
        opening: Opening,
        /// The finish.
        kind: FinishKind,
    },
    /// No elastic is named.
    NoElastic {
        /// The edge.
        opening: Opening,
        /// The finish.
        kind: FinishKind,
    },
    /// An elastic of this name is not in the sheet.
    UnknownElastic {
        /// The edge.
        opening: Opening,
        /// The name.
        name: String,
    },
    /// Equal parts and parts of their own.
    TwoSpreads {
        /// The edge.
        opening: Opening,
    },
    /// A whole length and a reduction for every part of it.
    TwoLengths {
        /// The edge.
        opening: Opening,
    },
    /// A whole length, of which parts with a reduction of their own leave too little or too much.
    RestOutOfReach {
        /// The edge.
        opening: Opening,
        /// What the whole length was given by.
        basis: Basis,
        /// The whole length, mm.
        whole: f64,
        /// By the parts that have their own, mm.
        taken: f64,
        /// The edge of the other parts, mm.
        left: f64,
        /// The shortest whole length that these parts leave room for, mm.
        shortest: f64,
        /// The longest, mm.
        longest: f64,
    },
    /// A threaded elastic is not held anywhere, and cannot have parts of their own.
    RunsFreely {
        /// The edge.
        opening: Opening,
        /// The finish.
        kind: FinishKind,
        /// The key that asks for parts.
        key: Field<PerEdge>,
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
            Self::RestOutOfReach { opening, basis, whole, shortest, longest, .. } => {
                let key = match basis {
                    Basis::Body => body::ELASTIC_TOP.into(),
                    Basis::Length(_) | Basis::Reduction(_) => finish::LENGTH.on(*opening),
                };
                let limit = if whole < shortest { *shortest } else { *longest };
                refusal("finish.rest_out_of_reach", key.clone())
                    .measured(*whole, limit, Unit::Mm)
                    .help(Help::Between(key, *shortest, *longest))
                    .help(Help::TakeOut(finish::SECTIONS.on(*opening)))
            }
            Self::RunsFreely { opening, key, .. } => refusal("finish.runs_freely", key.on(*opening))
                .help(Help::TakeOut(key.on(*opening)))
                .help(Do::OtherFinish),
        }
    }
}
