//! Cloth, thread and elastic.

use super::Subject;
use crate::finding::Finding;
use crate::finding::fact::{ClothFact, ElasticFact, Way};
use crate::finish::{FinishKind, Skin};
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
        cannot_reach(e, walk),
        longer_than_edge(e, walk),
    ]
    .into_iter()
    .flatten()
    .collect()
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
