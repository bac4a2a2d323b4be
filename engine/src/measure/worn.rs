//! An opening on the body: how far cloth and elastic stretch, and how hard the elastic presses.

use crate::construct::drafted::net_edge;
use crate::draft::{Draft, before_washing, washed};
use crate::garment::{GirthSource, Worn};
use crate::measure::pressure::{Pull, laplace};
use crate::plan::{FinishPlan, Plan};
use crate::terms::Opening;
use crate::topology::PairArc;

/// One opening as worn. `drawn_in` is the length of what is sewn on over that of its line.
pub(crate) fn worn(
    plan: &Plan,
    (draft, at_rest): (&Draft, &Draft),
    opening: Opening,
    arcs: &[PairArc],
    drawn_in: Option<f64>,
) -> Worn {
    let (girth, girth_source) = girth(plan, at_rest, opening, arcs);
    let finished: f64 = arcs.iter().map(|a| washed(net_edge(draft, a), &plan.cloth).length()).sum();
    let relaxed = finished * drawn_in.unwrap_or(1.0);
    let stretch = 100.0 * (girth / relaxed - 1.0);
    let mut worn = Worn {
        girth,
        girth_source,
        relaxed,
        stretch,
        cloth_stretch: 100.0 * (girth / finished - 1.0),
        tension_n: None,
        pressure_kpa: None,
    };
    let finish = plan.finish.get(opening);
    if let Some(e) = &finish.elastic {
        worn.tension_n = Pull::of(&e.elastic.pull).tension(stretch);
        worn.pressure_kpa = worn.tension_n.map(|t| laplace(t, girth, worn_width(finish)));
    }
    worn
}

/// How wide an elastic lies on the body, mm: folded over an edge it is half as wide as it is cut.
fn worn_width(finish: &FinishPlan) -> f64 {
    finish.lines.elastic.map_or(finish.settings.width, |(inner, outer)| outer - inner)
}

/// The body where an edge sits: as measured, else the same draft at zero ease.
fn girth(plan: &Plan, at_rest: &Draft, opening: Opening, arcs: &[PairArc]) -> (f64, GirthSource) {
    let given = match opening {
        Opening::Top => plan.body.top_edge,
        Opening::LeftLeg | Opening::RightLeg => plan.body.leg_line,
    };
    if let Some(girth) = given {
        return (girth, GirthSource::Measured);
    }
    let (x, y) = before_washing(&plan.cloth);
    let on_body = |arc: &PairArc| net_edge(at_rest, arc).map(|p| kurbo::Point::new(p.x / x, p.y / y)).length();
    (arcs.iter().map(on_body).sum(), GirthSource::DraftAtZeroEase)
}
