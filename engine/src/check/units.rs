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
const WIDEST: f64 = 60.0;

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
    let widest = match opening {
        _ if finish.kind.shows_elastic() => WIDEST,
        Opening::Top => WIDEST_ON_TOP,
        Opening::LeftLeg | Opening::RightLeg => WIDEST_ON_A_LEG,
    };
    if (NARROWEST..=widest).contains(&width) {
        return None;
    }
    let is_ordinary = |(_, mm): &(Units, f64)| (ORDINARY.0..=ORDINARY.1).contains(mm);
    let (unit, mm) = other_than(units).map(|unit| (unit, read_as(unit, units, width))).find(is_ordinary)?;
    let limit = if width < NARROWEST { NARROWEST } else { widest };
    Some(ElasticFact::WidthInAnotherUnit { name: used.name.clone(), opening, width, limit, unit, mm })
}

#[cfg(test)]
mod tests {
    use super::super::found_on;
    use super::*;
    use crate::base::Base;
    use crate::finding::Fact;
    use crate::quantity::Length;
    use crate::support;

    /// A lace an inch and a half wide is one where it is lapped, and suspected where it is folded in.
    #[test]
    fn a_lace_may_be_wide_where_it_is_laid_on_top() {
        let suspected = |kind: &str| {
            let mut sheet = support::sheet(&support::ordinary(), Base::named("brief").unwrap());
            sheet.units = Units::In;
            (sheet.finish.left_leg, sheet.finish.right_leg) =
                (support::finish(kind, "lace"), support::finish(kind, "lace"));
            let mut lace = sheet.elastics.values().next().unwrap().clone();
            lace.width = Length::from_mm(38.1);
            sheet.elastics.insert("lace".to_owned(), lace);
            let findings = match crate::record(&sheet) {
                Ok(garment) => garment.checks,
                Err(refused) => refused.findings,
            };
            findings.iter().any(|f| f.code == "elastic.width_in_another_unit")
        };
        assert_eq!((suspected("lapped"), suspected("turned")), (false, true));
    }

    /// What is suspected on a sheet in centimetres whose elastics are so wide, mm.
    fn of(top: f64, legs: f64) -> Vec<(Opening, f64, Units, f64)> {
        let change = |plan: &mut Plan, _: &mut crate::garment::Garment| {
            let widths =
                [(&mut plan.finish.top, top), (&mut plan.finish.left_leg, legs), (&mut plan.finish.right_leg, legs)];
            for (finish, mm) in widths {
                finish.elastic.as_mut().unwrap().elastic.width = Length::from_mm(mm);
            }
        };
        let told = |f: Finding| match f.fact {
            Fact::Elastic(ElasticFact::WidthInAnotherUnit { opening, limit, unit, mm, .. }) => {
                (opening, limit, unit, mm)
            }
            other => panic!("{other:?}"),
        };
        found_on(change, elastics).into_iter().map(told).collect()
    }

    /// 0.5 on a sheet in centimetres may be half an inch: 12.7 mm; 15 may be millimetres.
    #[test]
    fn a_width_of_another_unit_is_suspected_once_for_each_elastic() {
        assert_eq!(of(12.0, 8.0), []);
        for (mm, limit, unit, read) in [(2.5, 3.0, Units::In, 6.35), (150.0, 25.0, Units::Mm, 15.0)] {
            let found = of(12.0, mm);
            let [(Opening::LeftLeg, told, likely, ordinary)] = found[..] else { panic!("{found:?}") };
            assert!((told, likely) == (limit, unit) && (ordinary - read).abs() < 1e-9, "{found:?}");
        }
        // A top edge takes a wider one, and has an elastic of its own.
        assert_eq!(of(34.0, 8.0), []);
        assert!(matches!(of(150.0, 8.0)[..], [(Opening::Top, 35.0, Units::Mm, _)]));
        assert_eq!(of(150.0, 150.0).len(), 2);
        // Narrow as a thread, and no other unit mends it.
        assert_eq!(of(12.0, 0.1), []);
    }
}
