//! Is this a body like those that were measured?

use super::Subject;
use super::units::{other_than, read_as};
use crate::finding::fact::{BodyFact, Likely, Odd};
use crate::finding::{Finding, Misread};
use crate::plan::{BodyPlan, Plan};
use crate::population::{
    FRONT_SHARE, FRONT_SHARE_OFF_BY, HIP_GIRTH, LEAST_WAIST_OVER_HIP, MOST_WAIST_OVER_HIP, Measure, PUBLISHED, RARE,
    RARE_WAIST_OVER_HIP, Range, Spread, crotch_length, crotch_length_front, thigh_girth, unmeasured, waist_girth,
};
use crate::quantity::Units;

fn value(body: &BodyPlan, measure: Measure) -> f64 {
    match measure {
        Measure::WaistGirth => body.waist,
        Measure::HipGirth => body.hip,
        Measure::WaistToHip => body.waist_to_hip,
        Measure::CrotchLength => body.crotch,
        Measure::CrotchLengthFront => body.crotch_front,
        Measure::ThighGirth => body.thigh,
    }
}

fn odd(body: &BodyPlan, measure: Measure) -> Odd {
    Odd { measure, mm: value(body, measure) }
}

/// Is this a body like those that were measured?
pub(super) fn published(s: &Subject<'_>) -> Vec<Finding> {
    unlike_published(s.plan, s.units)
}

/// What is unlike published bodies. Asked for a refused sheet too: a mistaken number or unit is
/// the usual cause.
pub(super) fn unlike_published(plan: &Plan, units: Units) -> Vec<Finding> {
    suspected_units(&plan.body, units).map_or_else(|| out_of_range(&plan.body, units), |found| vec![found.into()])
}

/// The unit that makes the most of the unlikely numbers ordinary, if there is one. A single number
/// is no sign of a whole sheet in another unit.
fn suspected_units(body: &BodyPlan, units: Units) -> Option<BodyFact> {
    let unlikely: Vec<&Range> = PUBLISHED.iter().filter(|r| !r.holds(value(body, r.measure))).collect();
    let mended =
        |unit: Units| unlikely.iter().filter(|r| r.holds(read_as(unit, units, value(body, r.measure)))).count();
    let (count, likely) = other_than(units).map(|unit| (mended(unit), unit)).max_by_key(|(count, _)| *count)?;
    let odd = || unlikely.iter().map(|r| odd(body, r.measure)).collect();
    (count > 1).then(|| BodyFact::OtherUnits { written: units, likely, odd: odd() })
}

/// Is a measure unlike published bodies? In another unit it may be as her others let expect it.
fn out_of_range(body: &BodyPlan, units: Units) -> Vec<Finding> {
    let outside = |r: &&Range| !r.holds(value(body, r.measure));
    let expected = expectations(body);
    PUBLISHED
        .iter()
        .filter(outside)
        .map(|r| {
            let odd = odd(body, r.measure);
            let spread = expected.iter().find(|(other, _)| other.measure == r.measure).map(|(_, spread)| spread);
            let likely = spread.and_then(|spread| mended(units, odd, |mm| spread.is_ordinary(mm)));
            BodyFact::UnlikePublished { odd, limit: r.nearest(odd.mm), likely }.into()
        })
        .collect()
}

/// Every measure with what is usual of it, or what others of the same body let expect: by it the unit of a
/// number is told.
fn expectations(body: &BodyPlan) -> Vec<(Odd, Spread)> {
    let girths = [(Measure::WaistGirth, waist_girth(body.level)), (Measure::HipGirth, Some(HIP_GIRTH))];
    let girths = girths.into_iter().filter_map(|(measure, spread)| Some((odd(body, measure), spread?)));
    girths.chain(in_proportion(body)).collect()
}

/// What the others of a body let expect of a measure.
fn in_proportion(body: &BodyPlan) -> Vec<(Odd, Spread)> {
    let expected = [
        (Measure::WaistToHip, Some(unmeasured::waist_to_hip(body.hip, body.level))),
        (Measure::CrotchLength, Some(crotch_length(body.level, body.waist_to_hip))),
        (Measure::ThighGirth, Some(thigh_girth(body.hip))),
        (Measure::CrotchLengthFront, Some(crotch_length_front(body.crotch))),
    ];
    expected.into_iter().filter_map(|(measure, spread)| Some((odd(body, measure), spread?))).collect()
}

/// What makes an unlikely number an ordinary one: the same number in another unit.
fn mended(written: Units, odd: Odd, is_ordinary: impl Fn(f64) -> bool) -> Option<Likely> {
    let Odd { measure, mm } = odd;
    let read = |unit: Units| Likely { measure, misread: Misread::MeasuredIn(unit), mm: read_as(unit, written, mm) };
    other_than(written).map(read).find(|likely| is_ordinary(likely.mm))
}

/// Is one measure out of proportion to the others, or to published bodies?
pub(super) fn proportions(s: &Subject<'_>) -> Vec<Finding> {
    unusual_of(s.plan, s.units)
}

/// Asked for a refused sheet too: what was measured wrong is often why it is refused.
pub(super) fn unusual_of(plan: &Plan, units: Units) -> Vec<Finding> {
    unusual_measures(plan, units).map(Finding::from).collect()
}

fn unusual_measures(plan: &Plan, units: Units) -> impl Iterator<Item = BodyFact> {
    // The data are of adults.
    let told = !plan.body.child && unlike_published(plan, units).is_empty();
    // A large girth is no mistake: the hip is held against the waist, not against other people's.
    let body = &plan.body;
    let hip = (odd(body, Measure::HipGirth), unmeasured::hip_girth(body.waist, body.level));
    let expected = if told { [vec![hip], in_proportion(body)].concat() } else { Vec::new() };
    let rare = |(odd, spread): &(Odd, Spread)| spread.deviations(odd.mm).abs() > RARE;
    expected.into_iter().filter(rare).map(move |(odd, spread)| unusual(units, odd, &spread))
}

fn unusual(written: Units, odd: Odd, spread: &Spread) -> BodyFact {
    let (deviations, study) = (spread.deviations(odd.mm), spread.study);
    match mended(written, odd, |mm| spread.is_ordinary(mm)) {
        Some(likely) => BodyFact::OneInAnotherUnit { odd, deviations, study, likely },
        None => BodyFact::Unusual { odd, deviations, study },
    }
}

/// The crotch length runs down from the waist level and up again, so that the legs divide at most
/// half of it down; no hip level lies below that.
pub(super) fn hip_level(s: &Subject<'_>) -> Vec<Finding> {
    hip_level_of(s.plan)
}

/// Asked for a refused sheet too.
pub(super) fn hip_level_of(plan: &Plan) -> Vec<Finding> {
    let (depth, limit) = (plan.body.waist_to_hip, plan.body.crotch / 2.0);
    let found = (depth > limit).then(|| BodyFact::HipLevelBelowLegs { depth, limit }.into());
    found.into_iter().collect()
}

/// A waist larger than the hip: one of them is misread, in another unit, or they were swapped. Beyond some ratio
/// nothing is drafted for it.
pub(super) fn waist_over_hip(s: &Subject<'_>) -> Vec<Finding> {
    waist_over_hip_of(s.plan, s.units)
}

/// Asked for a refused sheet too.
pub(super) fn waist_over_hip_of(plan: &Plan, units: Units) -> Vec<Finding> {
    let (waist, hip) = (plan.body.waist, plan.body.hip);
    if waist / hip <= MOST_WAIST_OVER_HIP {
        let is_rare = waist / hip > RARE_WAIST_OVER_HIP && !plan.body.child;
        return is_rare.then(|| BodyFact::WaistOverHip { waist, hip }.into()).into_iter().collect();
    }
    let of_girths = |r: &&Range| matches!(r.measure, Measure::WaistGirth | Measure::HipGirth);
    let unlikely = |r: &&Range| !r.holds(value(&plan.body, r.measure));
    let mut odd_ones = PUBLISHED.iter().filter(of_girths).filter(unlikely);
    let likely = odd_ones.find_map(|r| {
        let odd = odd(&plan.body, r.measure);
        mended(units, odd, |mm| r.holds(mm)).or_else(|| converted_twice(odd, r))
    });
    let swapped = hip / waist > LEAST_WAIST_OVER_HIP;
    vec![BodyFact::HipBelowWaist { waist, hip, likely, swapped }.into()]
}

fn converted_twice(Odd { measure, mm }: Odd, range: &Range) -> Option<Likely> {
    let mm = mm * Units::Cm.nm() as f64 / Units::In.nm() as f64;
    range.holds(mm).then_some(Likely { measure, misread: Misread::ConvertedTwice, mm })
}

/// What was estimated and may be far off.
pub(super) fn estimates(s: &Subject<'_>) -> Vec<Finding> {
    let estimated = s.plan.body.front_source == crate::garment::Source::Estimated;
    estimated
        .then(|| BodyFact::FrontEstimated { share: FRONT_SHARE, off_by: FRONT_SHARE_OFF_BY }.into())
        .into_iter()
        .collect()
}

/// What applies to every child's sheet.
pub(super) fn child(s: &Subject<'_>) -> Vec<Finding> {
    s.plan.body.child.then(|| BodyFact::Child.into()).into_iter().collect()
}

#[cfg(test)]
mod tests {
    use super::super::found_on;
    use super::*;
    use crate::finding::Fact;

    fn of_body(change: impl Fn(&mut BodyPlan), check: fn(&Subject<'_>) -> Vec<Finding>) -> Vec<BodyFact> {
        let found = found_on(|plan, _| change(&mut plan.body), check);
        found.into_iter().map(|f| if let Fact::Body(fact) = f.fact { fact } else { panic!("{f:?}") }).collect()
    }

    /// The invented body is like published ones, one number after the other is not.
    #[test]
    fn a_number_outside_published_bodies_is_told_with_the_nearest_limit() {
        assert_eq!(of_body(|_| (), published), []);
        let hips = PUBLISHED.iter().find(|r| r.measure == Measure::HipGirth).unwrap();
        let found = of_body(|body| body.hip = 2000.0, published);
        let odd = Odd { measure: Measure::HipGirth, mm: 2000.0 };
        assert_eq!(found, [BodyFact::UnlikePublished { odd, limit: hips.nearest(2000.0), likely: None }]);
    }

    /// Girths are held against each other, not against other people's.
    #[test]
    fn a_large_body_in_proportion_is_no_mistake() {
        let girths = |waist: f64, hip: f64| {
            of_body(
                |body| {
                    (body.waist, body.hip, body.thigh) = (waist, hip, thigh_girth(hip).mean);
                },
                proportions,
            )
        };
        assert_eq!(girths(1100.0, 1300.0), []);
        for (waist, hip) in [(960.0, 980.0), (680.0, 1200.0)] {
            let found = girths(waist, hip);
            let is_hip =
                |fact: &BodyFact| matches!(fact, BodyFact::Unusual { odd, .. } if odd.measure == Measure::HipGirth);
            assert!(found.iter().any(is_hip), "{waist} {hip}: {found:?}");
        }
    }

    /// All of it in inches on a sheet in centimetres; one such number alone is not that.
    #[test]
    fn a_whole_sheet_in_another_unit_is_suspected_by_more_than_one_number() {
        let inches = |body: &mut BodyPlan| {
            for mm in [&mut body.waist, &mut body.hip, &mut body.crotch, &mut body.thigh] {
                *mm /= 2.54;
            }
        };
        let found = of_body(inches, published);
        assert!(
            matches!(&found[..], [BodyFact::OtherUnits { written: Units::Cm, likely: Units::In, .. }]),
            "{found:?}"
        );
        let found = of_body(|body| body.hip /= 2.54, published);
        assert!(matches!(&found[..], [BodyFact::UnlikePublished { .. }]), "{found:?}");
    }

    /// Inches on a sheet in centimetres are those of an ordinary hip.
    #[test]
    fn a_number_outside_published_bodies_is_read_in_another_unit() {
        let found = of_body(|body| body.hip /= 2.54, published);
        let is_inches = |likely: &Likely| matches!(likely.misread, Misread::MeasuredIn(Units::In));
        let told = matches!(&found[..], [BodyFact::UnlikePublished { likely: Some(likely), .. }] if is_inches(likely));
        assert!(told, "{found:?}");
    }

    /// A front of half its length on a body that is ordinary else.
    #[test]
    fn one_number_out_of_proportion_is_told_alone_and_not_of_a_child() {
        let found = of_body(|body| body.thigh = 900.0, proportions);
        assert!(
            matches!(&found[..], [BodyFact::Unusual { odd, .. }] if odd.measure == Measure::ThighGirth),
            "{found:?}"
        );
        // 8 on a sheet in centimetres: inches, for nobody's hip is a hand's breadth under her waist.
        let found = of_body(|body| body.waist_to_hip = 80.0, proportions);
        assert!(
            matches!(&found[..], [BodyFact::OneInAnotherUnit { odd, likely, .. }]
                if odd.measure == Measure::WaistToHip && likely.misread == Misread::MeasuredIn(Units::In)),
            "{found:?}"
        );
        let child = |body: &mut BodyPlan| (body.thigh, body.child) = (900.0, true);
        assert_eq!(of_body(child, proportions), []);
    }

    /// No hip lies below where the legs divide: half of the crotch length down, and not at half of it.
    #[test]
    fn the_hip_lies_above_the_legs() {
        let at = |depth: f64| of_body(|body| (body.crotch, body.waist_to_hip) = (700.0, depth), hip_level);
        assert_eq!(at(350.0), []);
        assert_eq!(at(351.0), [BodyFact::HipLevelBelowLegs { depth: 351.0, limit: 350.0 }]);
    }

    /// 74 and 99 cm, written the wrong way round, in inches, or turned into centimetres twice.
    #[test]
    fn a_waist_over_the_hip_has_its_likely_cause() {
        let of = |waist: f64, hip: f64| match &of_body(|body| (body.waist, body.hip) = (waist, hip), waist_over_hip)[..]
        {
            [] => None,
            [BodyFact::HipBelowWaist { likely, swapped, .. }] => Some((likely.as_ref().map(|l| l.misread), *swapped)),
            other => panic!("{other:?}"),
        };
        assert_eq!(of(740.0, 990.0), None);
        assert_eq!(of_body(|body| (body.waist, body.hip) = (1080.0, 1000.0), waist_over_hip), []);
        let over = BodyFact::WaistOverHip { waist: 1020.0, hip: 880.0 };
        assert_eq!(of_body(|body| (body.waist, body.hip) = (1020.0, 880.0), waist_over_hip), [over]);
        assert_eq!(of(990.0, 740.0), Some((None, true)));
        assert_eq!(of(740.0, 390.0), Some((Some(Misread::MeasuredIn(Units::In)), false)));
        assert_eq!(of(1879.6, 990.0), Some((Some(Misread::ConvertedTwice), false)));
        let twice = of_body(|body| (body.waist, body.hip) = (1879.6, 990.0), waist_over_hip);
        let [BodyFact::HipBelowWaist { likely: Some(likely), .. }] = &twice[..] else { panic!("{twice:?}") };
        assert!(likely.measure == Measure::WaistGirth && (likely.mm - 740.0).abs() < 1e-9, "{likely:?}");
    }
}
