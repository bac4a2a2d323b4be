//! Does an edge lie flat: folded cloth on a hollow curve, the free edge of an elastic, and what
//! an edge that stands out does to the width of the gusset?

use super::Subject;
use crate::construct::rings::{Arc, arcs, net_edge};
use crate::curve::Path;
use crate::finding::{finding, refusal};
use crate::finish::FinishKind;
use crate::finish::profile::Stuff;
use crate::garment::{Finding, Level};
use crate::plan::{ClothPlan, FinishPlan, section_name};
use crate::terms::{ClothKind, Opening};
use crate::words::both;

/// Every arc of every opening, with the finish of it and its finished edge.
fn every_arc<'a>(s: &'a Subject<'_>) -> Vec<(Opening, &'a FinishPlan, Arc, &'a Path)> {
    Opening::ALL
        .into_iter()
        .flat_map(|o| arcs(o).into_iter().map(move |arc| (o, s.plan.finish.get(o), arc, net_edge(s.draft, &arc))))
        .collect()
}

/// An allowance that is folded in on a hollow curve has to stretch from its raw edge to the longer
/// line that it lands on.
pub(super) fn landing(s: &Subject<'_>) -> Vec<Finding> {
    every_arc(s)
        .into_iter()
        .filter(|(_, finish, _, _)| finish.lines.is_folded())
        .filter_map(|(opening, finish, arc, net)| {
            let depth = finish.lines.cut;
            // Beside a curve of length L that turns by θ, a parallel line has L ∓ dθ.
            let (length, turned) = (net.length(), depth * net.turning());
            let needed = 100.0 * ((length + turned) / (length - turned) - 1.0);
            let can = 100.0 * stretch_along(net, &s.plan.cloth);
            (needed > can).then(|| cannot_land(opening, finish, &arc, (needed, can), s.plan.cloth.kind))
        })
        .collect()
}

fn cannot_land(
    opening: Opening,
    finish: &FinishPlan,
    arc: &Arc,
    (needed, can): (f64, f64),
    cloth: ClothKind,
) -> Finding {
    let text = format!(
        "on the {} of the {}, what is folded in has to stretch by {needed:.1} % to lie on the hollow curve, and the \
         cloth can {can:.1} %",
        arc.name,
        opening.name()
    );
    let flat: Vec<&str> = FinishKind::all()
        .filter(|f| f.demands().met_by(cloth) && !f.lines(&finish.settings).is_folded())
        .map(|f| f.name())
        .collect();
    let more = if cloth == ClothKind::Woven { ", or face the edge with bias-cut cloth" } else { "" };
    let next = format!("fold less in, or choose a finish without a fold: {}{more}", flat.join(", "));
    let place = format!("finish.{}.kind", section_name(opening));
    refusal("finish.fold_on_curve", &place, text, &next).measured(needed, can, "%")
}

/// How far the cloth stretches along a path, as a fraction: across and along by its direction.
pub(super) fn stretch_along(path: &Path, cloth: &ClothPlan) -> f64 {
    let (mut sum, mut length) = (0.0, 0.0);
    for w in path.flatten(0.1).windows(2) {
        let step = w[1] - w[0];
        let part = step.hypot();
        if part > 0.0 {
            let (x, y) = (step.x / part, step.y / part);
            sum += part * (cloth.stretch_across * x * x + cloth.stretch_along * y * y);
            length += part;
        }
    }
    if length > 0.0 { sum / length } else { 0.0 }
}

/// The free edge of an elastic beyond its last row flutes on a hollow curve, unless it is
/// stretched by as much when worn.
pub(super) fn flute(s: &Subject<'_>) -> Vec<Finding> {
    Opening::ALL.into_iter().filter_map(|opening| fluting(s, opening)).collect()
}

fn fluting(s: &Subject<'_>, opening: Opening) -> Option<Finding> {
    let finish = s.plan.finish.get(opening);
    finish.elastic.as_ref()?;
    let (held, free) = free_edge(finish)?;
    let worn = s.garment.openings.iter().find(|o| o.opening == opening)?.worn.stretch;
    let (mut worst, mut at, mut inner, mut outer) = (0.0_f64, "", 0.0, 0.0);
    for arc in arcs(opening) {
        let net = net_edge(s.draft, &arc);
        let radius = net.tightest(1.0) - held;
        if free / radius > worst {
            (worst, at) = (free / radius, arc.name);
        }
        let turning = net.turning();
        inner += net.length() - held * turning;
        outer += net.length() - (held + free) * turning;
    }
    let (worst, average) = (100.0 * worst, 100.0 * (1.0 - outer / inner));
    if worst <= worn.max(0.0) {
        return None;
    }
    let text = format!(
        "the free edge of the elastic stands {} beyond its last row: it is longer than the hollow edge by {worst:.1} % \
         in the {at}, {average:.1} % on average, and worn it is stretched by {worn:.1} %, so that it flutes",
        both(free)
    );
    let next = "take a narrower elastic, a finish that lies on the cloth, or reduce the elastic there";
    Some(finding("elastic.flutes", Level::Warning, opening.name(), text, next).measured(worst, worn.max(0.0), "%"))
}

/// The outermost row as worn, and how far the elastic stands beyond it where no cloth holds it.
fn free_edge(finish: &FinishPlan) -> Option<(f64, f64)> {
    let (_, outer) = finish.lines.elastic?;
    let profile = finish.kind.profile(&finish.settings);
    let cloth = profile.plies.iter().filter(|p| p.stuff == Stuff::Cloth).flat_map(|p| &p.course);
    let cloth = cloth.map(|(d, _)| *d).fold(f64::NEG_INFINITY, f64::max);
    let held = profile.rows.iter().map(|r| r.at).fold(f64::NEG_INFINITY, f64::max);
    (outer > cloth + 1e-9 && held.is_finite()).then_some((held, outer - held))
}

/// Under this width a gusset gives less than full cover, mm. From memory, common practice.
const FULL_COVER: f64 = 55.0;

/// The gusset as worn, elastic included.
pub(super) fn gusset_as_worn(s: &Subject<'_>) -> Vec<Finding> {
    let beyond = s.plan.finish.left_leg.lines.beyond() + s.plan.finish.right_leg.lines.beyond();
    let width = s.plan.gusset.width + beyond;
    if width < FULL_COVER {
        let text = format!("the gusset is {} wide as worn, less than full cover", both(width));
        let next = "set gusset.width larger, unless a narrow gusset is meant";
        return vec![
            finding("gusset.as_worn", Level::Warning, "gusset.width", text, next).measured(width, FULL_COVER, "mm"),
        ];
    }
    if beyond == 0.0 {
        return Vec::new();
    }
    let text = format!(
        "the leg elastics stand out beyond the finished edge, so that the gusset is {} wide as worn",
        both(width)
    );
    let next = "nothing, or set gusset.width smaller by as much";
    vec![finding("gusset.as_worn", Level::Note, "gusset.width", text, next).measured(width, s.plan.gusset.width, "mm")]
}
