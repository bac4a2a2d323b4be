//! Facts about the gusset between the leg finishes.

use super::{About, note, refusal, warning};
use crate::finding::{Do, Help, Unit};
use crate::keys::gusset;

/// What is found of the gusset. Lengths are millimetres.
#[derive(Clone, Debug, PartialEq)]
pub enum GussetFact {
    /// Hardly any cloth is left across it.
    Narrow {
        /// What is left.
        width: f64,
        /// What can be sewn.
        least: f64,
    },
    /// A smooth leg edge through ends that are hardly wider than the middle would narrow it.
    WidthNotKept {
        /// What a smooth edge leaves.
        drawn: f64,
        /// The narrowest width that was asked for.
        asked: f64,
    },
    /// Less than full cover, elastics included.
    PartCover {
        /// As worn.
        width: f64,
        /// Of full cover.
        full: f64,
    },
    /// The leg elastics stand out beyond the finished edge.
    WiderAsWorn {
        /// As worn.
        width: f64,
        /// Between the finished edges.
        drafted: f64,
    },
}

impl GussetFact {
    pub(super) fn about(&self) -> About {
        match self {
            Self::Narrow { width, least } => refusal("shape.gusset_narrow", gusset::WIDTH)
                .measured(*width, *least, Unit::Mm)
                .help(Help::Larger(gusset::WIDTH.into()))
                .help(Do::NarrowerFinish)
                .help(Do::OtherFinish),
            Self::WidthNotKept { drawn, asked } => refusal("shape.gusset_width_not_kept", gusset::WIDTH)
                .measured(*drawn, *asked, Unit::Mm)
                .help(Help::Larger(gusset::FRONT_WIDTH.into()))
                .help(Help::Larger(gusset::BACK_WIDTH.into()))
                .help(Help::Smaller(gusset::WIDTH.into())),
            Self::PartCover { width, full } => warning("gusset.as_worn", gusset::WIDTH)
                .measured(*width, *full, Unit::Mm)
                .help(Help::Larger(gusset::WIDTH.into()))
                .help(Do::NothingIfMeant),
            Self::WiderAsWorn { width, drafted } => note("gusset.as_worn", gusset::WIDTH)
                .measured(*width, *drafted, Unit::Mm)
                .help(Do::Nothing)
                .help(Help::Smaller(gusset::WIDTH.into())),
        }
    }
}
