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
pub enum ClothFact {
    /// A lockstitch seam in a knit, where it can crack.
    LockstitchOnKnit,
    /// Cloth reduced so far that it cannot stretch back to the body.
    ReductionTrap {
        /// Which way.
        way: Way,
        /// How much smaller than the body the cloth is.
        smaller: f64,
        /// The stretch that brings it back to the body.
        needed: f64,
        /// The stretch that it has.
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
pub enum ElasticFact {
    /// It has latex in it, and lies on the skin.
    Latex {
        /// Which elastic.
        name: String,
        /// On which edge.
        opening: Opening,
    },
    /// It lies on the skin of a child.
    OnChildsSkin {
        /// Which elastic.
        name: String,
        /// On which edge.
        opening: Opening,
        /// The finishes that would lay cloth over it.
        covering: Vec<FinishKind>,
    },
    /// It has picots along one edge, and would be folded.
    PicotsFolded {
        /// Which elastic.
        name: String,
        /// On which edge.
        opening: Opening,
        /// The finishes that do not fold it.
        flat: Vec<FinishKind>,
    },
    /// It does not stretch to the edge that it is sewn to.
    CannotReachEdge {
        /// Which elastic.
        name: String,
        /// On which edge.
        opening: Opening,
        /// The stretch that it takes.
        needed: f64,
        /// The stretch that it has.
        can: f64,
    },
    /// It makes its edge wave.
    LongerThanEdge {
        /// Which elastic.
        name: String,
        /// On which edge.
        opening: Opening,
        /// Than the edge.
        longer: f64,
    },
    /// Its width, mm, is unlikely there, and ordinary in another unit.
    WidthInAnotherUnit {
        /// Which elastic.
        name: String,
        /// On which edge.
        opening: Opening,
        /// As it was written, mm.
        width: f64,
        /// The narrowest or the widest that is usual there, mm.
        limit: f64,
        /// The unit that explains it.
        unit: Units,
        /// What it is then, mm.
        mm: f64,
    },
    /// How much these grow in sewing is not known.
    NoSample {
        /// All of them.
        names: Vec<String>,
        /// What elastics grow by, from and to.
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
            Self::PicotsFolded { opening, flat, .. } => warning("elastic.picots_folded", *opening)
                .help(Do::FoldOverElastic)
                .help(Help::Finish(*opening, flat.clone())),
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
