//! Getting in and wearing it: what has to pass, how far an edge stretches, how hard it presses.

use super::Subject;
use super::edge::stretch_along;
use crate::construct::drafted::net_edge;
use crate::finding::Finding;
use crate::finding::fact::{Over, WornFact};
use crate::garment::{OpeningWalk, Worn};
use crate::measure::pressure::Pull;
use crate::plan::FinishPlan;
use crate::terms::Opening;

fn openings<'a>(s: &'a Subject<'_>) -> impl Iterator<Item = (&'a OpeningWalk, &'a FinishPlan)> {
    s.garment.openings.iter().map(|o| (o, s.plan.finish.get(o.opening)))
}

/// The top edge has to pass over the hips and a leg opening over the thigh, cloth and elastic both.
pub(super) fn passing(s: &Subject<'_>) -> Vec<Finding> {
    openings(s).flat_map(|(walk, finish)| passes(s, walk, finish)).collect()
}

fn passes(s: &Subject<'_>, walk: &OpeningWalk, finish: &FinishPlan) -> Vec<Finding> {
    let girth = match walk.opening {
        Opening::Top => s.plan.body.hip,
        Opening::LeftLeg | Opening::RightLeg => s.plan.body.thigh,
    };
    let over = Over { opening: walk.opening, girth };
    let needed = |stretch: f64| 100.0 * (girth * (1.0 + stretch / 100.0) / walk.worn.girth - 1.0);
    let (of_cloth, cloth_can) = (needed(walk.worn.cloth_stretch), cloth_can(s, walk.opening));
    let cloth = s.plan.cloth.kind;
    let cloth_cannot = (of_cloth > cloth_can + ROUNDING).then_some(WornFact::ClothCannotPass {
        over,
        needed: of_cloth,
        can: cloth_can,
        cloth,
    });
    let of_elastic = needed(walk.worn.stretch);
    let elastic_can = finish.elastic.as_ref().and_then(|e| e.elastic.stretch).map(|r| r.percent());
    let elastic_cannot = elastic_can.filter(|can| of_elastic > can + ROUNDING).map(|can| WornFact::ElasticCannotPass {
        over,
        needed: of_elastic,
        can,
    });
    cloth_cannot.into_iter().chain(elastic_cannot).map(Finding::from).collect()
}

/// Percent; below what anyone can measure.
const ROUNDING: f64 = 1e-6;

/// How far the cloth of an opening stretches, percent, by the directions that it runs in.
fn cloth_can(s: &Subject<'_>, opening: Opening) -> f64 {
    let edges: Vec<_> = s.topology.arcs(opening).iter().map(|a| net_edge(s.draft, a)).collect();
    let all: f64 = edges.iter().map(|e| e.length()).sum();
    100.0 * edges.iter().map(|e| stretch_along(e, &s.plan.cloth) * e.length()).sum::<f64>() / all
}

/// Of its stretch, an elastic or a cloth is worn at no more than half. Common practice.
const WORN_SHARE: f64 = 0.5;

/// Loose edges and edges at the end of their stretch.
pub(super) fn stretch(s: &Subject<'_>) -> Vec<Finding> {
    openings(s).filter_map(|(walk, finish)| loose(walk).or_else(|| tight(s, walk, finish))).map(Finding::from).collect()
}

fn loose(walk: &OpeningWalk) -> Option<WornFact> {
    let Worn { relaxed, girth, stretch, .. } = walk.worn;
    (stretch < -ROUNDING).then_some(WornFact::Loose { opening: walk.opening, relaxed, girth, stretch })
}

fn tight(s: &Subject<'_>, walk: &OpeningWalk, finish: &FinishPlan) -> Option<WornFact> {
    let can = match &finish.elastic {
        Some(e) => e.elastic.stretch?.percent(),
        None => cloth_can(s, walk.opening),
    };
    let (stretch, most) = (walk.worn.stretch, WORN_SHARE * can);
    (stretch > most).then_some(WornFact::Tight { opening: walk.opening, stretch, most })
}

/// Contact pressure by the pull test, held against published bands.
pub(super) fn pressure(s: &Subject<'_>) -> Vec<Finding> {
    openings(s).filter_map(|(walk, finish)| pressing(walk, finish)).map(Finding::from).collect()
}

fn pressing(walk: &OpeningWalk, finish: &FinishPlan) -> Option<WornFact> {
    let elastic = finish.elastic.as_ref()?;
    let (_, tested) = Pull::of(&elastic.elastic.pull).range()?;
    let (opening, elastic) = (walk.opening, elastic.name.clone());
    Some(match walk.worn.pressure_kpa {
        Some(kpa) => WornFact::Pressure { opening, elastic, kpa },
        None => WornFact::PullTestEnds { opening, elastic, stretch: walk.worn.stretch, tested },
    })
}
