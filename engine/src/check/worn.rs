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

/// Less than this is told as 0.00: the elastic does not press, kPa.
const LEAST_PRESSURE: f64 = 0.005;

/// Contact pressure by the pull test, held against published bands.
pub(super) fn pressure(s: &Subject<'_>) -> Vec<Finding> {
    openings(s).filter_map(|(walk, finish)| pressing(walk, finish)).map(Finding::from).collect()
}

fn pressing(walk: &OpeningWalk, finish: &FinishPlan) -> Option<WornFact> {
    let elastic = finish.elastic.as_ref()?;
    let (_, tested) = Pull::of(&elastic.elastic.pull).range()?;
    let (opening, elastic) = (walk.opening, elastic.name.clone());
    Some(match walk.worn.pressure_kpa {
        Some(kpa) if kpa < LEAST_PRESSURE => return None,
        Some(kpa) => WornFact::Pressure { opening, elastic, kpa },
        None => WornFact::PullTestEnds { opening, elastic, stretch: walk.worn.stretch, tested },
    })
}

#[cfg(test)]
mod tests {
    use super::super::found_on;
    use super::*;
    use crate::finding::Fact;
    use crate::garment::Garment;
    use crate::plan::Plan;
    use crate::quantity::Ratio;

    /// A top edge of 610 mm on the body that is worn at this stretch, cloth and elastic both, over a hip of
    /// 960 mm, and legs that pass.
    fn worn(cloth_stretch: f64, stretch: f64, of_cloth: f64, of_elastic: f64) -> impl Fn(&mut Plan, &mut Garment) {
        move |plan, garment| {
            (plan.body.hip, plan.body.thigh) = (960.0, 1.0);
            // Alike in all directions.
            (plan.cloth.stretch_across, plan.cloth.stretch_along) = (of_cloth / 100.0, of_cloth / 100.0);
            let elastic = plan.finish.top.elastic.as_mut().unwrap();
            elastic.elastic.stretch = Some(Ratio::from_percent(of_elastic));
            let top = garment.openings.iter_mut().find(|walk| walk.opening == Opening::Top).unwrap();
            (top.worn.girth, top.worn.cloth_stretch, top.worn.stretch) = (610.0, cloth_stretch, stretch);
        }
    }

    /// 960 over 610 is 1.57377. What is stretched by a tenth or a quarter already goes on from there.
    #[test]
    fn what_passes_the_hips_starts_from_the_edge_as_worn() {
        let needed = |facts: Vec<Finding>| {
            let mut needed = (None, None);
            for found in facts {
                match found.fact {
                    Fact::Worn(WornFact::ClothCannotPass { needed: percent, can, .. }) => {
                        needed.0 = Some((percent, can))
                    }
                    Fact::Worn(WornFact::ElasticCannotPass { needed: percent, can, .. }) => {
                        needed.1 = Some((percent, can))
                    }
                    other => panic!("{other:?}"),
                }
            }
            needed
        };
        let (cloth, elastic) = needed(found_on(worn(10.0, 25.0, 50.0, 90.0), passing));
        let ((cloth, cloth_can), (elastic, elastic_can)) = (cloth.unwrap(), elastic.unwrap());
        assert!((cloth - 73.11475).abs() < 1e-4 && (elastic - 96.72131).abs() < 1e-4, "{cloth}, {elastic}");
        assert!((cloth_can - 50.0).abs() < 1e-9 && (elastic_can - 90.0).abs() < 1e-9);
        // Enough by less than anybody can measure is enough, short by more is not.
        let exactly = 100.0 * (960.0 / 610.0 - 1.0);
        assert_eq!(needed(found_on(worn(0.0, 0.0, exactly, exactly), passing)), (None, None));
        assert_eq!(needed(found_on(worn(0.0, 0.0, exactly - 0.5e-6, exactly - 0.5e-6), passing)), (None, None));
        let (cloth, elastic) = needed(found_on(worn(0.0, 0.0, exactly - 1e-4, exactly - 1e-4), passing));
        assert!(cloth.is_some() && elastic.is_some());
    }

    /// An edge that stands off does not press, and is not said to.
    #[test]
    fn what_does_not_press_is_not_told() {
        let told = |kpa: f64| {
            let change = move |plan: &mut Plan, garment: &mut Garment| {
                let pull = [(25.0, 60.0), (100.0, 220.0)].map(|(s, g)| (Ratio::from_percent(s), g)).to_vec();
                plan.finish.top.elastic.as_mut().unwrap().elastic.pull = pull;
                let top = garment.openings.iter_mut().find(|walk| walk.opening == Opening::Top).unwrap();
                top.worn.pressure_kpa = Some(kpa);
            };
            let of_top = |f: &Finding| matches!(f.fact, Fact::Worn(WornFact::Pressure { opening: Opening::Top, .. }));
            found_on(change, pressure).iter().filter(|f| of_top(f)).count()
        };
        assert_eq!((told(0.0), told(0.004), told(0.01)), (0, 0, 1));
    }

    /// An elastic is worn at half of its stretch at the most, and an edge at some.
    #[test]
    fn an_edge_is_neither_loose_nor_at_its_end() {
        let top = |stretch: f64| {
            let found = found_on(worn(0.0, stretch, 60.0, 80.0), super::stretch);
            let of_top = |f: &Finding| match &f.fact {
                Fact::Worn(WornFact::Tight { opening: Opening::Top, most, .. }) => Some(("tight", *most)),
                Fact::Worn(WornFact::Loose { opening: Opening::Top, stretch, .. }) => Some(("loose", *stretch)),
                _ => None,
            };
            found.iter().find_map(of_top)
        };
        assert_eq!(top(40.0), None);
        assert_eq!(top(40.1), Some(("tight", 40.0)));
        assert_eq!(top(0.0), None);
        assert_eq!(top(-0.5e-6), None);
        assert_eq!(top(-0.1), Some(("loose", -0.1)));
    }
}
