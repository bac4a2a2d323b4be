//! Is this a body like those that were measured?

use super::Subject;
use crate::finding::Finding;
use crate::finding::fact::{BodyFact, Odd};
use crate::plan::{BodyPlan, Plan};
use crate::population::{
    FRONT_SHARE, FRONT_SHARE_OFF_BY, HIP_GIRTH, MOST_WAIST_OVER_HIP, Measure, PUBLISHED, RARE, Range, Spread,
    crotch_length, crotch_length_front, thigh_girth, waist_girth,
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
pub(crate) fn unlike_published(plan: &Plan, units: Units) -> Vec<Finding> {
    suspected_units(&plan.body, units).map_or_else(|| out_of_range(&plan.body), |found| vec![found.into()])
}

/// The unit that makes the most of the unlikely numbers ordinary, if there is one. A single number
/// is no sign of a whole sheet in another unit.
fn suspected_units(body: &BodyPlan, units: Units) -> Option<BodyFact> {
    let unlikely: Vec<&Range> = PUBLISHED.iter().filter(|r| !r.holds(value(body, r.measure))).collect();
    let mended = |other: Units| {
        let factor = other.nm() as f64 / units.nm() as f64;
        unlikely.iter().filter(|r| r.holds(value(body, r.measure) * factor)).count()
    };
    let others = Units::ALL.iter().map(|(_, unit)| *unit).filter(|unit| *unit != units);
    let (count, likely) = others.map(|unit| (mended(unit), unit)).max_by_key(|(count, _)| *count)?;
    let odd = || unlikely.iter().map(|r| odd(body, r.measure)).collect();
    (count > 1).then(|| BodyFact::OtherUnits { written: units, likely, odd: odd() })
}

/// Is a measure unlike published bodies, whatever the unit?
fn out_of_range(body: &BodyPlan) -> Vec<Finding> {
    let outside = |r: &&Range| !r.holds(value(body, r.measure));
    PUBLISHED
        .iter()
        .filter(outside)
        .map(|r| {
            let odd = odd(body, r.measure);
            BodyFact::UnlikePublished { odd, limit: r.nearest(odd.mm) }.into()
        })
        .collect()
}

/// Every measure with what others of the same body let expect of it.
fn expectations(body: &BodyPlan) -> Vec<(Odd, Spread)> {
    let expected = [
        (Measure::WaistGirth, waist_girth(body.level)),
        (Measure::HipGirth, Some(HIP_GIRTH)),
        (Measure::CrotchLength, Some(crotch_length(body.level, body.waist_to_hip))),
        (Measure::ThighGirth, Some(thigh_girth(body.hip))),
        (Measure::CrotchLengthFront, Some(crotch_length_front(body.crotch))),
    ];
    expected.into_iter().filter_map(|(measure, spread)| Some((odd(body, measure), spread?))).collect()
}

/// The unit that makes an unlikely number an ordinary one: inches among centimetres or
/// millimetres, or the other way round.
fn mended(written: Units, mm: f64, is_ordinary: impl Fn(f64) -> bool) -> Option<Units> {
    let read_as = |other: Units| mm * other.nm() as f64 / written.nm() as f64;
    let others = Units::ALL.iter().map(|(_, unit)| *unit).filter(|unit| *unit != written);
    others.into_iter().find(|unit| is_ordinary(read_as(*unit)))
}

/// Is one measure out of proportion to the others, or to published bodies?
pub(super) fn proportions(s: &Subject<'_>) -> Vec<Finding> {
    // The data are of adults.
    if s.plan.body.child || !unlike_published(s.plan, s.units).is_empty() {
        return Vec::new();
    }
    let rare = |(odd, spread): &(Odd, Spread)| spread.deviations(odd.mm).abs() > RARE;
    expectations(&s.plan.body)
        .into_iter()
        .filter(rare)
        .map(|(odd, spread)| unusual(s.units, odd, &spread).into())
        .collect()
}

fn unusual(written: Units, odd: Odd, spread: &Spread) -> BodyFact {
    let (deviations, study) = (spread.deviations(odd.mm), spread.study);
    match mended(written, odd.mm, |mm| spread.is_ordinary(mm)) {
        Some(likely) => BodyFact::OneInAnotherUnit { odd, deviations, study, likely },
        None => BodyFact::Unusual { odd, deviations, study },
    }
}

/// The crotch length runs down from the waist level and up again, so that the legs divide at most
/// half of it down; no hip level lies below that.
pub(super) fn hip_level(s: &Subject<'_>) -> Vec<Finding> {
    let (depth, limit) = (s.plan.body.waist_to_hip, s.plan.body.crotch / 2.0);
    let found = (depth > limit).then(|| BodyFact::HipLevelBelowLegs { depth, limit }.into());
    found.into_iter().collect()
}

/// A waist far larger than the hip: most likely one of them is misread.
pub(super) fn waist_over_hip(s: &Subject<'_>) -> Vec<Finding> {
    let (waist, hip) = (s.plan.body.waist, s.plan.body.hip);
    if waist / hip <= MOST_WAIST_OVER_HIP {
        return Vec::new();
    }
    let body = &s.plan.body;
    let ordinary_waist = |mm: f64| waist_girth(body.level).map_or(mm / hip < 1.0, |spread| spread.is_ordinary(mm));
    let of_hip = mended(s.units, hip, |mm| HIP_GIRTH.is_ordinary(mm)).map(|unit| (Measure::HipGirth, unit));
    let of_waist = mended(s.units, waist, ordinary_waist).map(|unit| (Measure::WaistGirth, unit));
    let likely = of_hip.or(of_waist);
    vec![BodyFact::HipBelowWaist { waist, hip, likely }.into()]
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
