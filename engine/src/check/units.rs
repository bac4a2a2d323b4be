//! Is an elastic's width a number of another unit?

use super::Subject;
use super::body::{in_words, other_units, ratio, trimmed};
use crate::finding::{Finding, Level, finding};
use crate::keys::elastic;
use crate::plan::{FinishPlan, Plan};
use crate::quantity::Units;
use crate::terms::Opening;
use crate::words::both;

/// Elastics that knickers are sewn with, mm. Common practice: 6 to 15 at the legs, up to 30 at the
/// top, 60 at the very most.
const ORDINARY: (f64, f64) = (5.0, 20.0);
const NARROWEST: f64 = 3.0;
const WIDEST_ON_A_LEG: f64 = 25.0;
const WIDEST_ON_TOP: f64 = 35.0;

/// An elastic of an unlikely width that would be an ordinary one in another unit, said once for each.
pub(super) fn elastics(s: &Subject<'_>) -> Vec<Finding> {
    of_plan(s.plan, s.units)
}

/// The same, of a garment that may be refused.
pub(super) fn of_plan(plan: &Plan, units: Units) -> Vec<Finding> {
    let mut found: Vec<Finding> = Vec::new();
    for opening in [Opening::LeftLeg, Opening::RightLeg, Opening::Top] {
        let new = suspected(plan.finish.get(opening), opening, units);
        found.extend(new.filter(|new| found.iter().all(|f| f.place != new.place)));
    }
    found
}

fn suspected(finish: &FinishPlan, opening: Opening, units: Units) -> Option<Finding> {
    let used = finish.elastic.as_ref()?;
    let width = used.elastic.width.mm();
    let widest = if opening == Opening::Top { WIDEST_ON_TOP } else { WIDEST_ON_A_LEG };
    if (NARROWEST..=widest).contains(&width) {
        return None;
    }
    let is_ordinary = |unit: &Units| (ORDINARY.0..=ORDINARY.1).contains(&(width * ratio(*unit, units)));
    let unit = other_units(units).find(is_ordinary)?;
    let text = format!(
        "the elastic \"{}\" is {} wide, unlikely on the {}; read as {} it would be an ordinary one",
        used.name,
        both(width),
        opening.name(),
        in_words(unit)
    );
    let written = trimmed(width * ratio(unit, units) * 1e6 / units.nm() as f64);
    let next = format!("is its width in {}? Then write {written}; if it is right, nothing is wrong", in_words(unit));
    let place = elastic::WIDTH.of(&used.name).to_string();
    let limit = if width < NARROWEST { NARROWEST } else { widest };
    Some(finding("elastic.width_in_another_unit", Level::Warning, &place, text, &next).measured(width, limit, "mm"))
}
