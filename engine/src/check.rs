//! Checks: read-only, coded, each with the next step; one file per subject, one line in [`CHECKS`].

mod body;
mod cause;
mod cloth;
mod edge;
mod nesting;
mod outline;
pub(crate) mod polygon;
mod shape;
mod strip;
mod turn;
mod units;
mod worn;

pub(crate) use cause::by_cause;

use crate::draft::Draft;
use crate::finding::Finding;
use crate::garment::Garment;
use crate::plan::Plan;
use crate::quantity::Units;
use crate::topology::Pair;

/// Everything a check may look at.
pub(crate) struct Subject<'a> {
    pub(crate) topology: &'a Pair,
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
    shape::side_depth,
    shape::foot_angle,
    shape::back_undercut,
    shape::gusset_width,
    shape::gusset_width_kept,
    outline::simple,
    outline::sewn_seams,
    cloth::lockstitch,
    cloth::reduction_trap,
    cloth::elastics,
    units::elastics,
    body::child,
    edge::landing,
    edge::flute,
    edge::gusset_as_worn,
    worn::passing,
    worn::stretch,
    worn::pressure,
];

/// What may be behind a refusal: a mistaken number or unit is the usual cause.
pub(crate) fn suspected(plan: &Plan, units: Units) -> Vec<Finding> {
    [
        body::unlike_published(plan, units),
        body::unusual_of(plan, units),
        body::hip_level_of(plan),
        body::waist_over_hip_of(plan, units),
        units::of_plan(plan, units),
    ]
    .concat()
}

/// What a check finds on a brief of invented measures, once its plan and its garment are changed.
#[cfg(test)]
fn found_on(
    change: impl FnOnce(&mut Plan, &mut Garment),
    check: impl Fn(&Subject<'_>) -> Vec<Finding>,
) -> Vec<Finding> {
    let sheet = crate::support::sheet(&crate::support::ordinary(), crate::base::Base::named("brief").unwrap());
    let (mut plan, mut garment) = (Plan::of(&sheet).unwrap(), crate::record(&sheet).unwrap());
    let draft = crate::draft::solve_leg_edge(&plan).unwrap();
    change(&mut plan, &mut garment);
    let topology = crate::topology::pair().unwrap();
    check(&Subject { topology, plan: &plan, draft: &draft, garment: &garment, units: sheet.units })
}

/// Runs every check.
pub(crate) fn all(subject: &Subject<'_>) -> Vec<Finding> {
    CHECKS.iter().flat_map(|check| check(subject)).collect()
}
