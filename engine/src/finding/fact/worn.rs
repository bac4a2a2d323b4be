//! Facts about getting in and wearing it.

use super::{About, note, warning};
use crate::finding::{Do, Help, Level, Unit};
use crate::keys::fabric;
use crate::population::{CRITICAL_KPA, Comfort};
use crate::terms::{ClothKind, Opening};

/// What an opening has to pass over, and its girth in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Over {
    /// The opening that is drawn over it.
    pub opening: Opening,
    /// Of the body there, mm.
    pub girth: f64,
}

/// What is found of the garment on the body. Ratios are percent, lengths millimetres.
#[derive(Clone, Debug, PartialEq)]
pub enum WornFact {
    /// The cloth does not stretch over what it has to pass.
    ClothCannotPass {
        /// What is passed over, and by which opening.
        over: Over,
        /// The stretch that it takes.
        needed: f64,
        /// The stretch that it has.
        can: f64,
        /// The kind of cloth.
        cloth: ClothKind,
    },
    /// The elastic does not stretch over what it has to pass.
    ElasticCannotPass {
        /// What is passed over, and by which opening.
        over: Over,
        /// The stretch that it takes.
        needed: f64,
        /// The stretch that it has.
        can: f64,
    },
    /// The edge at rest is longer than the body there.
    Loose {
        /// The edge.
        opening: Opening,
        /// The edge at rest.
        relaxed: f64,
        /// The body there.
        girth: f64,
        /// Of the edge as worn: less than nothing.
        stretch: f64,
    },
    /// Worn at more than half of the stretch that it can.
    Tight {
        /// The edge.
        opening: Opening,
        /// As worn.
        stretch: f64,
        /// The stretch that it has.
        most: f64,
    },
    /// The pull test does not reach the stretch that is worn.
    PullTestEnds {
        /// The edge.
        opening: Opening,
        /// Its elastic.
        elastic: String,
        /// As worn.
        stretch: f64,
        /// The furthest that was pulled.
        tested: f64,
    },
    /// How hard the edge presses.
    Pressure {
        /// The edge.
        opening: Opening,
        /// Its elastic.
        elastic: String,
        /// On the skin, kPa.
        kpa: f64,
    },
}

impl WornFact {
    pub(super) fn about(&self) -> About {
        match self {
            Self::ClothCannotPass { over, needed, can, cloth } => warning("opening.cloth_cannot_pass", over.opening)
                .at(cloth_level(over.opening, *cloth))
                .measured(*needed, *can, Unit::Percent)
                .help(Help::Larger(fabric::EASE_ACROSS.into()))
                .help(Do::StretchierCloth)
                .help(Do::MoveEdge),
            Self::ElasticCannotPass { over, needed, can } => warning("opening.elastic_cannot_pass", over.opening)
                .measured(*needed, *can, Unit::Percent)
                .help(Do::ReduceLess)
                .help(Do::StretchierElastic),
            Self::Loose { opening, stretch, .. } => warning("worn.loose", *opening)
                .measured(*stretch, 0.0, Unit::Percent)
                .help(Do::ReduceMore)
                .help(Help::Smaller(fabric::EASE_ACROSS.into())),
            Self::Tight { opening, stretch, most } => warning("worn.tight", *opening)
                .measured(*stretch, *most, Unit::Percent)
                .help(Do::ReduceLess)
                .help(Do::Trial),
            Self::PullTestEnds { opening, stretch, tested, .. } => note("worn.pull_test_ends", *opening)
                .measured(*stretch, *tested, Unit::Percent)
                .help(Do::CarryPullTestOn)
                .help(Do::ReduceLess),
            Self::Pressure { opening, kpa, .. } => warning("worn.pressure", *opening)
                .at(pressure_level(Comfort::of(*kpa)))
                .measured(*kpa, CRITICAL_KPA, Unit::KiloPascal)
                .help(Do::Trial),
        }
    }
}

/// A woven top that does not pass the hips cannot be put on. A knit gives more than the fold test
/// says, with effort; thighs give way, and are often estimated.
fn cloth_level(opening: Opening, cloth: ClothKind) -> Level {
    match (opening, cloth) {
        (Opening::Top, ClothKind::Woven) => Level::Refusal,
        _ => Level::Warning,
    }
}

fn pressure_level(band: Comfort) -> Level {
    if band < Comfort::CriticalForCasualWear { Level::Note } else { Level::Warning }
}
