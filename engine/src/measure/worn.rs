//! An opening on the body: how far cloth and elastic stretch, and how hard the elastic presses.

use crate::construct::rings::{arcs, net_edge};
use crate::draft::{Draft, before_washing, washed};
use crate::garment::Worn;
use crate::measure::pressure::{Pull, laplace};
use crate::plan::Plan;
use crate::terms::Opening;

/// One opening as worn. `drawn_in` is the length of what is sewn on over that of its line.
pub(crate) fn worn(plan: &Plan, drafts: (&Draft, &Draft), opening: Opening, drawn_in: Option<f64>) -> Worn {
    let (draft, at_rest) = drafts;
    let (girth, girth_source) = girth(plan, at_rest, opening);
    let finished: f64 = arcs(opening).iter().map(|a| washed(net_edge(draft, a), &plan.cloth).length()).sum();
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
    if let Some(e) = &plan.finish.get(opening).elastic {
        worn.tension_n = Pull::of(&e.elastic.pull).tension(stretch);
        worn.pressure_kpa = worn.tension_n.map(|t| laplace(t, girth, e.elastic.width.mm()));
    }
    worn
}

/// The body where an edge sits: as measured, else the same draft at zero ease.
fn girth(plan: &Plan, at_rest: &Draft, opening: Opening) -> (f64, String) {
    let given = match opening {
        Opening::Top => (plan.body.top_edge, "top_edge_girth"),
        _ => (plan.body.leg_line, "leg_line_girth"),
    };
    if let (Some(girth), key) = given {
        return (girth, format!("measured: {key}"));
    }
    let (x, y) = before_washing(&plan.cloth);
    let girth =
        arcs(opening).iter().map(|a| net_edge(at_rest, a).map(|p| kurbo::Point::new(p.x / x, p.y / y)).length()).sum();
    (girth, "the same draft at zero ease".to_owned())
}
