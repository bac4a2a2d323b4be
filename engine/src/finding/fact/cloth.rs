//! Facts about cloth, thread and elastic.

use super::{About, note, refusal, warning};
use crate::finding::{Do, Help, Misread, Unit};
use crate::finish::FinishKind;
use crate::keys::{Key, elastic, fabric, finish, seams};
use crate::quantity::Units;
use crate::terms::{Opening, SeamKind};

/// Across the cloth or along it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// Round the body.
    Across,
    /// Down the body.
    Along,
}

/// What is found of the cloth. Ratios are percent.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs)]
pub enum ClothFact {
    LockstitchOnKnit,
    /// Cloth reduced so far that it cannot stretch back to the body.
    ReductionTrap {
        way: Way,
        smaller: f64,
        needed: f64,
        can: f64,
    },
}

impl ClothFact {
    pub(super) fn about(&self) -> About {
        match self {
            Self::LockstitchOnKnit => warning("cloth.lockstitch_on_knit", seams::KIND)
                .help(Help::Choose(seams::KIND.into(), &[SeamKind::ALL[0].0, SeamKind::ALL[1].0])),
            Self::ReductionTrap { way, needed, can, .. } => refusal("cloth.reduction_trap", way.ease())
                .measured(*needed, *can, Unit::Percent)
                .help(Help::NearerZero(way.ease()))
                .help(Do::StretchierCloth),
        }
    }
}

impl Way {
    fn ease(self) -> Key {
        match self {
            Self::Across => fabric::EASE_ACROSS.into(),
            Self::Along => fabric::EASE_ALONG.into(),
        }
    }
}

/// What is found of an elastic, by its name. Ratios are percent.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs)]
pub enum ElasticFact {
    Latex {
        name: String,
        opening: Opening,
    },
    /// `covering` are the finishes that would lay cloth over it.
    OnChildsSkin {
        name: String,
        opening: Opening,
        covering: Vec<FinishKind>,
    },
    CannotReachEdge {
        name: String,
        opening: Opening,
        needed: f64,
        can: f64,
    },
    LongerThanEdge {
        name: String,
        opening: Opening,
        longer: f64,
    },
    /// Its width, mm, is unlikely there, and ordinary in another unit.
    WidthInAnotherUnit {
        name: String,
        opening: Opening,
        width: f64,
        limit: f64,
        unit: Units,
        mm: f64,
    },
    /// How much these grow in sewing is not known.
    NoSample {
        names: Vec<String>,
        usual: (f64, f64),
    },
}

impl ElasticFact {
    pub(super) fn about(&self) -> About {
        match self {
            Self::Latex { opening, .. } => {
                warning("elastic.latex", *opening).help(Do::AskWearer).help(Do::LatexFreeElastic)
            }
            Self::OnChildsSkin { opening, covering, .. } => warning("elastic.on_childs_skin", *opening)
                .help(Help::Finish(*opening, covering.clone()))
                .help(Do::SoftAndLoose),
            Self::CannotReachEdge { opening, needed, can, .. } => refusal("elastic.cannot_reach_edge", *opening)
                .measured(*needed, *can, Unit::Percent)
                .help(Do::ReduceLess)
                .help(Do::StretchierElastic),
            Self::LongerThanEdge { opening, longer, .. } => warning("elastic.longer_than_edge", *opening)
                .measured(-longer, 0.0, Unit::Percent)
                .help(Help::Smaller(finish::LENGTH.on(*opening)))
                .help(Help::Write(finish::REDUCTION.on(*opening))),
            Self::WidthInAnotherUnit { name, width, limit, unit, mm, .. } => {
                let key = elastic::WIDTH.of(name);
                warning("elastic.width_in_another_unit", key.clone())
                    .measured(*width, *limit, Unit::Mm)
                    .help(Help::ReadAs { key, misread: Misread::MeasuredIn(*unit), mm: *mm })
                    .help(Do::NothingIfRight)
            }
            Self::NoSample { names, .. } => {
                let first = names.first().map_or("", String::as_str);
                note("elastic.no_sample", elastic::GROWTH.of(first)).help(Help::Sample)
            }
        }
    }
}
