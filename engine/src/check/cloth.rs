//! Cloth, thread and elastic.

use super::Subject;
use crate::finding::Finding;
use crate::finding::fact::{ClothFact, ElasticFact, Way};
use crate::finish::{FinishKind, Skin, Takes};
use crate::garment::OpeningWalk;
use crate::plan::{ElasticPlan, FinishPlan};
use crate::terms::{ClothKind, Opening, SeamKind};

/// A straight stitch cracks on a seam that stretches. Common practice.
pub(super) fn lockstitch(s: &Subject<'_>) -> Vec<Finding> {
    let cracks = (s.plan.seams.kind, s.plan.cloth.kind) == (SeamKind::Lockstitch, ClothKind::Knit);
    cracks.then(|| ClothFact::LockstitchOnKnit.into()).into_iter().collect()
}

/// Cloth that is cut smaller than the body has to stretch back by more than it was reduced:
/// a cloth reduced by all of its stretch does not reach the body any more.
pub(super) fn reduction_trap(s: &Subject<'_>) -> Vec<Finding> {
    let c = &s.plan.cloth;
    [(Way::Across, c.ease_across, c.stretch_across), (Way::Along, c.ease_along, c.stretch_along)]
        .into_iter()
        .map(|(way, ease, can)| (way, ease, 1.0 / (1.0 + ease) - 1.0, can))
        .filter(|(_, ease, needed, can)| *ease < 0.0 && needed > can)
        .map(|(way, ease, needed, can)| {
            let [smaller, needed, can] = [-ease, needed, can].map(|share| 100.0 * share);
            ClothFact::ReductionTrap { way, smaller, needed, can }.into()
        })
        .collect()
}

/// What has to be said of the elastics.
pub(super) fn elastics(s: &Subject<'_>) -> Vec<Finding> {
    let each = |opening: &Opening| {
        let plan = s.plan.finish.get(*opening);
        let walk = s.garment.openings.iter().find(|o| o.opening == *opening)?;
        plan.elastic.as_ref().map(|e| of_opening(s, plan, e, walk))
    };
    let found = Opening::ALL.iter().filter_map(each).flatten().chain(no_sample(s));
    found.map(Finding::from).collect()
}

fn of_opening(s: &Subject<'_>, plan: &FinishPlan, e: &ElasticPlan, walk: &OpeningWalk) -> Vec<ElasticFact> {
    let (name, opening) = (&e.name, walk.opening);
    let latex = e.elastic.latex == Some(true);
    let skin = s.plan.body.child && plan.lines.skin == Skin::Touches;
    [
        latex.then(|| ElasticFact::Latex { name: name.clone(), opening }),
        skin.then(|| ElasticFact::OnChildsSkin { name: name.clone(), opening, covering: covering(plan) }),
        picots_folded(plan, e, opening),
        cannot_reach(e, walk),
        longer_than_edge(e, walk),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// A fold-over elastic has two edges alike.
fn picots_folded(plan: &FinishPlan, e: &ElasticPlan, opening: Opening) -> Option<ElasticFact> {
    let flat = || FinishKind::all().filter(|f| f.takes() == Takes::Elastic && !f.folds_elastic()).collect();
    let is_folded = plan.kind.folds_elastic() && plan.settings.picot > 0.0;
    is_folded.then(|| ElasticFact::PicotsFolded { name: e.name.clone(), opening, flat: flat() })
}

/// Finishes that would lay cloth over the elastic.
fn covering(plan: &FinishPlan) -> Vec<FinishKind> {
    let covers = |f: &FinishKind| f.takes().elastic() && f.lines(&plan.settings).skin == Skin::Covered;
    FinishKind::all().filter(covers).collect()
}

fn cannot_reach(e: &ElasticPlan, walk: &OpeningWalk) -> Option<ElasticFact> {
    let needed = walk.sections.iter().filter_map(|x| x.stretch).fold(0.0, f64::max);
    let can = e.elastic.stretch.filter(|can| can.percent() < needed)?.percent();
    Some(ElasticFact::CannotReachEdge { name: e.name.clone(), opening: walk.opening, needed, can })
}

/// An elastic that is longer than its edge makes it wave. A length of her own can do that unseen.
fn longer_than_edge(e: &ElasticPlan, walk: &OpeningWalk) -> Option<ElasticFact> {
    let least = walk.sections.iter().filter_map(|x| x.reduction).fold(f64::INFINITY, f64::min);
    let fact = || ElasticFact::LongerThanEdge { name: e.name.clone(), opening: walk.opening, longer: -least };
    (least < -1e-6).then(fact)
}

/// Sewing lengthens an elastic by an amount that only a sample tells; this much is usual, percent.
/// From memory, common practice.
const USUAL_GROWTH: (f64, f64) = (3.0, 10.0);

fn no_sample(s: &Subject<'_>) -> Option<ElasticFact> {
    let mut names: Vec<String> = Opening::ALL
        .iter()
        .filter_map(|o| s.plan.finish.get(*o).elastic.as_ref())
        .filter(|e| e.elastic.growth.is_none())
        .map(|e| e.name.clone())
        .collect();
    names.sort_unstable();
    names.dedup();
    (!names.is_empty()).then_some(ElasticFact::NoSample { names, usual: USUAL_GROWTH })
}

#[cfg(test)]
mod tests {
    use super::super::found_on;
    use super::*;
    use crate::finding::Fact;
    use crate::garment::Garment;
    use crate::plan::Plan;
    use crate::quantity::Ratio;

    /// A fifth smaller has to stretch by a quarter to reach the body (1/0.8, worked out).
    #[test]
    fn cloth_that_is_cut_smaller_has_to_stretch_by_more() {
        let of = |ease: f64, stretch: f64| {
            let change = |plan: &mut Plan, _: &mut Garment| {
                (plan.cloth.ease_across, plan.cloth.stretch_across) = (ease, stretch);
                (plan.cloth.ease_along, plan.cloth.stretch_along) = (0.0, 0.0);
            };
            found_on(change, reduction_trap).into_iter().map(|f| f.fact).collect::<Vec<_>>()
        };
        let found = of(-0.2, 0.24);
        let [Fact::Cloth(ClothFact::ReductionTrap { way: Way::Across, smaller, needed, can })] = &found[..] else {
            panic!("{found:?}")
        };
        assert!(
            (smaller - 20.0).abs() < 1e-9 && (needed - 25.0).abs() < 1e-9 && (can - 24.0).abs() < 1e-9,
            "{found:?}"
        );
        assert_eq!(of(-0.2, 0.26), []);
        // Cut larger it has nothing to reach, though it does not stretch at all.
        assert_eq!(of(0.2, 0.0), []);
        assert_eq!(of(0.0, 0.0), []);
    }

    fn facts(change: impl Fn(&mut Plan, &mut Garment)) -> Vec<ElasticFact> {
        let known = |plan: &mut Plan, garment: &mut Garment| {
            for finish in [&mut plan.finish.top, &mut plan.finish.left_leg, &mut plan.finish.right_leg] {
                finish.elastic.as_mut().unwrap().elastic.growth = Some(Ratio::from_percent(3.0));
            }
            change(plan, garment);
        };
        let found = found_on(known, elastics);
        found.into_iter().map(|f| if let Fact::Elastic(fact) = f.fact { fact } else { panic!("{f:?}") }).collect()
    }

    fn top(garment: &mut Garment) -> &mut OpeningWalk {
        garment.openings.iter_mut().find(|walk| walk.opening == Opening::Top).unwrap()
    }

    /// It has to be stretched onto the part that wants most of it; just that is enough.
    #[test]
    fn an_elastic_reaches_its_edge_or_is_told() {
        let of = |can: f64| {
            facts(move |plan, garment| {
                plan.finish.top.elastic.as_mut().unwrap().elastic.stretch = Some(Ratio::from_percent(can));
                let sections = &mut top(garment).sections;
                sections.iter_mut().for_each(|section| section.stretch = Some(20.0));
                sections[1].stretch = Some(30.0);
            })
        };
        assert_eq!(of(30.0), []);
        let found = of(29.0);
        assert!(
            matches!(&found[..], [ElasticFact::CannotReachEdge { opening: Opening::Top, needed: 30.0, can: 29.0, .. }]),
            "{found:?}"
        );
    }

    /// Longer by a twentieth on one part of it; one as long as its edge lies flat.
    #[test]
    fn an_elastic_longer_than_its_edge_is_told_by_how_much() {
        let of = |reduction: f64| facts(move |_, garment| top(garment).sections[1].reduction = Some(reduction));
        assert_eq!(of(0.0), []);
        let found = of(-5.0);
        assert!(
            matches!(&found[..], [ElasticFact::LongerThanEdge { opening: Opening::Top, longer: 5.0, .. }]),
            "{found:?}"
        );
    }

    /// On a child's skin, and only where it touches: what would cover it takes an elastic and lays cloth over it.
    #[test]
    fn what_lies_on_a_childs_skin_can_be_covered() {
        let skin = |found: Vec<ElasticFact>| {
            let of = |fact: ElasticFact| match fact {
                ElasticFact::OnChildsSkin { opening, covering, .. } => Some((opening, covering)),
                _ => None,
            };
            found.into_iter().filter_map(of).collect::<Vec<_>>()
        };
        assert_eq!(skin(facts(|_, _| ())), []);
        let found = skin(facts(|plan, _| {
            plan.body.child = true;
            plan.finish.top.lines.skin = Skin::Covered;
        }));
        assert_eq!(
            found.iter().map(|(opening, _)| *opening).collect::<Vec<_>>(),
            [Opening::LeftLeg, Opening::RightLeg]
        );
        for (_, covering) in found {
            assert_eq!(covering.iter().map(|kind| kind.name()).collect::<Vec<_>>(), ["encased", "tunnel"]);
        }
    }

    #[test]
    fn latex_is_told_where_it_is() {
        let found = facts(|plan, _| plan.finish.left_leg.elastic.as_mut().unwrap().elastic.latex = Some(true));
        assert!(matches!(&found[..], [ElasticFact::Latex { opening: Opening::LeftLeg, .. }]), "{found:?}");
    }
}
