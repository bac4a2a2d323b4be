//! Checks: read-only, coded, each with the next step; one file per subject, one line in [`CHECKS`].

mod body;
mod cloth;
mod edge;
mod outline;
mod shape;
mod worn;

pub(crate) use body::unlike_published;

use crate::draft::Draft;
use crate::garment::{Finding, Garment, Level};
use crate::plan::Plan;
use crate::quantity::Units;

/// Everything a check may look at.
pub(crate) struct Subject<'a> {
    pub(crate) plan: &'a Plan,
    pub(crate) draft: &'a Draft,
    pub(crate) garment: &'a Garment,
    /// The sheet's own.
    pub(crate) units: Units,
}

type Check = fn(&Subject<'_>) -> Vec<Finding>;

/// Every check, in the order it is reported.
const CHECKS: &[Check] = &[
    body::published,
    body::proportions,
    body::hip_level,
    body::waist_over_hip,
    body::estimates,
    shape::side_seam,
    shape::crowded_side,
    shape::level_leg,
    shape::foot_angle,
    shape::gusset_width,
    outline::simple,
    outline::sewn_seams,
    cloth::lockstitch,
    cloth::reduction_trap,
    cloth::elastics,
    cloth::child,
    edge::landing,
    edge::flute,
    edge::gusset_as_worn,
    worn::passing,
    worn::stretch,
    worn::pressure,
];

/// Runs every check.
pub(crate) fn all(subject: &Subject<'_>) -> Vec<Finding> {
    CHECKS.iter().flat_map(|check| check(subject)).collect()
}

/// A refusal without a measured value.
pub(crate) fn refusal(code: &'static str, place: &str, text: String, next: &str) -> Finding {
    finding(code, Level::Refusal, place, text, next)
}

/// A finding without a measured value.
pub(crate) fn finding(code: &'static str, level: Level, place: &str, text: String, next: &str) -> Finding {
    Finding { code, level, place: place.to_owned(), value: None, limit: None, unit: "", text, next: next.to_owned() }
}

impl Finding {
    /// With what was measured, and the limit it was held against.
    pub(crate) fn measured(mut self, value: f64, limit: f64, unit: &'static str) -> Self {
        (self.value, self.limit, self.unit) = (Some(value), Some(limit), unit);
        self
    }
}
