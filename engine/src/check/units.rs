//! Is a number one of another unit?

use super::Subject;
use crate::finding::Finding;
use crate::finding::fact::ElasticFact;
use crate::plan::{FinishPlan, Plan};
use crate::quantity::Units;
use crate::terms::Opening;

/// Every unit but this one.
pub(super) fn other_than(units: Units) -> impl Iterator<Item = Units> {
    Units::ALL.into_iter().map(|(_, unit)| unit).filter(move |unit| *unit != units)
}

/// What a length of so many millimetres, written in one unit, is if its number is read in another.
pub(super) fn read_as(read: Units, written: Units, mm: f64) -> f64 {
    mm * read.nm() as f64 / written.nm() as f64
}

/// Elastics that knickers are sewn with, mm. Common practice: 6 to 15 at the legs, up to 30 at the
/// top, 60 at the very most.
const ORDINARY: (f64, f64) = (5.0, 20.0);
const NARROWEST: f64 = 3.0;
const WIDEST_ON_A_LEG: f64 = 25.0;
const WIDEST_ON_TOP: f64 = 35.0;

/// Elastics of an unlikely width that would be ordinary in another unit, said once for each.
pub(super) fn elastics(s: &Subject<'_>) -> Vec<Finding> {
    of_plan(s.plan, s.units)
}

/// The same, of a garment that may be refused.
pub(super) fn of_plan(plan: &Plan, units: Units) -> Vec<Finding> {
    let mut found: Vec<Finding> = Vec::new();
    for opening in [Opening::LeftLeg, Opening::RightLeg, Opening::Top] {
        let new = suspected(plan.finish.get(opening), opening, units).map(Finding::from);
        found.extend(new.filter(|new| found.iter().all(|f| f.place != new.place)));
    }
    found
}

fn suspected(finish: &FinishPlan, opening: Opening, units: Units) -> Option<ElasticFact> {
    let used = finish.elastic.as_ref()?;
    let width = used.elastic.width.mm();
    let widest = if opening == Opening::Top { WIDEST_ON_TOP } else { WIDEST_ON_A_LEG };
    if (NARROWEST..=widest).contains(&width) {
        return None;
    }
    let is_ordinary = |(_, mm): &(Units, f64)| (ORDINARY.0..=ORDINARY.1).contains(mm);
    let (unit, mm) = other_than(units).map(|unit| (unit, read_as(unit, units, width))).find(is_ordinary)?;
    let limit = if width < NARROWEST { NARROWEST } else { widest };
    Some(ElasticFact::WidthInAnotherUnit { name: used.name.clone(), opening, width, limit, unit, mm })
}
