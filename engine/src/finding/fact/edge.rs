//! Facts about an edge that does not lie flat.

use super::{About, refusal, warning};
use crate::finding::{Do, Help, Unit};
use crate::finish::FinishKind;
use crate::keys::finish;
use crate::terms::ClothKind;
use crate::topology::SectionId;

/// What does not lie flat. Ratios are percent.
#[derive(Clone, Debug, PartialEq)]
pub enum EdgeFact {
    /// Cloth that is folded in cannot stretch to the line it lands on.
    FoldOnCurve {
        /// Where the fold wants most.
        section: SectionId,
        /// The stretch that it takes.
        needed: f64,
        /// The stretch that the cloth has.
        can: f64,
        /// Which kind of cloth.
        cloth: ClothKind,
        /// Finishes of this cloth without a fold.
        flat: Vec<FinishKind>,
    },
    /// The free edge of an elastic is longer than the hollow edge that it is sewn to, where that is
    /// the furthest from being stretched out.
    Flutes {
        /// Where.
        section: SectionId,
        /// The free edge than the sewn one.
        longer: f64,
        /// How far it is stretched when worn.
        worn: f64,
        /// What the elastic takes up by itself.
        takes_up: f64,
    },
}

impl EdgeFact {
    pub(super) fn about(&self) -> About {
        match self {
            Self::FoldOnCurve { section, needed, can, cloth, flat } => {
                let found = refusal("finish.fold_on_curve", finish::KIND.on(section.opening))
                    .measured(*needed, *can, Unit::Percent)
                    .help(Do::FoldLess)
                    .help(Help::Finish(section.opening, flat.clone()));
                if *cloth == ClothKind::Woven { found.help(Do::FaceWithBias) } else { found }
            }
            Self::Flutes { section, longer, worn, takes_up } => warning("elastic.flutes", section.opening)
                .measured(*longer, worn + takes_up, Unit::Percent)
                .help(Do::NarrowerElastic)
                .help(Do::FinishOnCloth)
                .help(Do::ReduceMore),
        }
    }
}
