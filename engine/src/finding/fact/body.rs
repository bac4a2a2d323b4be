//! Facts about the body's measures.

use super::{About, note, refusal, warning};
use crate::finding::{Do, Help, Misread, Unit};
use crate::keys::{Field, Key, Single, body, head};
use crate::population::{MOST_WAIST_OVER_HIP, Measure, RARE, RARE_WAIST_OVER_HIP, Study};
use crate::quantity::Units;

/// One measure that is out of step, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Odd {
    /// Of which measure.
    pub measure: Measure,
    /// Its length, mm.
    pub mm: f64,
}

/// What a number most likely means.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Likely {
    /// Of which measure.
    pub measure: Measure,
    /// How it came to be another one.
    pub misread: Misread,
    /// Its length then, mm.
    pub mm: f64,
}

impl Likely {
    fn help(self) -> Help {
        Help::ReadAs { key: self.measure.key(), misread: self.misread, mm: self.mm }
    }
}

/// What is found of a body. Lengths are millimetres.
#[derive(Clone, Debug, PartialEq)]
pub enum BodyFact {
    /// The whole sheet was most likely measured in another unit.
    OtherUnits {
        /// The unit of the sheet.
        written: Units,
        /// The unit that makes a body of it.
        likely: Units,
        /// Every measure that is out of step.
        odd: Vec<Odd>,
    },
    /// A measure beyond everyone in published studies.
    UnlikePublished {
        /// The measure.
        odd: Odd,
        /// The nearest that is published, mm.
        limit: f64,
        /// What makes it an ordinary one, if there is something.
        likely: Option<Likely>,
    },
    /// One number was most likely measured in another unit.
    OneInAnotherUnit {
        /// The measure, as it was written.
        odd: Odd,
        /// From what the other measures make likely, standard deviations.
        deviations: f64,
        /// Where that is from.
        study: Study,
        /// What was most likely meant.
        likely: Likely,
    },
    /// A measure that is rare beside the others.
    Unusual {
        /// The measure.
        odd: Odd,
        /// From what the other measures make likely, standard deviations.
        deviations: f64,
        /// Where that is from.
        study: Study,
    },
    /// The hip was taken lower than the legs begin.
    HipLevelBelowLegs {
        /// From the waist level to the hip level.
        depth: f64,
        /// Half of the crotch length: the legs begin no lower.
        limit: f64,
    },
    /// `likely`: the measure that is in another unit, where that explains it. `swapped`: may the
    /// two have been written in each other's place?
    HipBelowWaist {
        /// Waist girth.
        waist: f64,
        /// Hip girth.
        hip: f64,
        /// The measure that is in another unit, where that explains it.
        likely: Option<Likely>,
        /// May the two have been written in each other's place?
        swapped: bool,
    },
    /// The waist is larger than the hip, by more than on any body of a study: they may have been written in each
    /// other's place.
    WaistOverHip {
        /// Waist girth.
        waist: f64,
        /// Hip girth.
        hip: f64,
    },
    /// The front part of the crotch length is an estimate.
    FrontEstimated {
        /// Of the crotch length, %.
        share: f64,
        /// What half of all bodies are off by, and more.
        off_by: f64,
    },
    /// The body is a child's.
    Child,
}

impl Measure {
    /// Its key in the sheet.
    pub fn key(self) -> Key {
        self.field().into()
    }

    const fn field(self) -> Field<Single> {
        match self {
            Self::WaistGirth => body::WAIST_GIRTH,
            Self::HipGirth => body::HIP_GIRTH,
            Self::WaistToHip => body::WAIST_TO_HIP,
            Self::CrotchLength => body::CROTCH_LENGTH,
            Self::CrotchLengthFront => body::CROTCH_LENGTH_FRONT,
            Self::ThighGirth => body::THIGH_GIRTH,
        }
    }
}

impl BodyFact {
    pub(super) fn about(&self) -> About {
        match self {
            Self::OtherUnits { written, likely, .. } => {
                warning("body.units", head::UNITS).help(Help::SetUnits { written: *written, likely: *likely })
            }
            Self::UnlikePublished { odd, limit, likely } => {
                let about = warning("body.unlike_published", odd.measure.key()).measured(odd.mm, *limit, Unit::Mm);
                let about = likely.iter().fold(about, |about, likely| about.help(likely.help()));
                about.help(Help::Measure(odd.measure.key())).help(Do::LetStandForAChild)
            }
            Self::OneInAnotherUnit { odd, deviations, likely, .. } => {
                warning("body.one_in_another_unit", odd.measure.key())
                    .measured(*deviations, RARE, Unit::Deviations)
                    .help(likely.help())
            }
            Self::Unusual { odd, deviations, .. } => {
                let found = note("body.unusual", odd.measure.key())
                    .measured(*deviations, RARE, Unit::Deviations)
                    .help(Help::Measure(odd.measure.key()));
                let is_hip = odd.measure == Measure::HipGirth;
                let found = if is_hip { found.help(Help::Measure(body::WAIST_GIRTH.into())) } else { found };
                found.help(Do::NothingIfRight)
            }
            Self::HipLevelBelowLegs { depth, limit } => refusal("body.hip_level", body::WAIST_TO_HIP)
                .measured(*depth, *limit, Unit::Mm)
                .help(Help::Measure(body::WAIST_TO_HIP.into()))
                .help(Help::Measure(body::CROTCH_LENGTH.into())),
            Self::HipBelowWaist { waist, hip, likely, swapped } => {
                let key = likely.map_or_else(|| body::HIP_GIRTH.into(), |likely| likely.measure.key());
                let found = refusal("body.hip_below_waist", key.clone());
                let found = found.measured(waist / hip, MOST_WAIST_OVER_HIP, Unit::Ratio);
                match likely {
                    Some(likely) => found.help(likely.help()),
                    None if *swapped => {
                        found.help(Help::Measure(key.clone())).help(Help::Swapped(body::WAIST_GIRTH.into(), key))
                    }
                    None => found.help(Help::Measure(key)),
                }
            }
            Self::WaistOverHip { waist, hip } => warning("body.waist_over_hip", body::HIP_GIRTH)
                .measured(waist / hip, RARE_WAIST_OVER_HIP, Unit::Ratio)
                .help(Help::Swapped(body::WAIST_GIRTH.into(), body::HIP_GIRTH.into()))
                .help(Do::NothingIfRight),
            Self::FrontEstimated { .. } => warning("body.crotch_front_estimated", body::CROTCH_LENGTH_FRONT)
                .help(Help::Write(body::CROTCH_LENGTH_FRONT.into())),
            Self::Child => note("body.child", body::CHILD).help(Do::LocalRules),
        }
    }
}
