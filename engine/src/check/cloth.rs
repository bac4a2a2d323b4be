//! Cloth, thread and elastic.

use super::{Subject, finding};
use crate::garment::{Finding, Level};
use crate::sheet::{ClothKind, Opening, SeamKind};

/// A straight stitch cracks on a seam that stretches. Common practice.
pub(super) fn lockstitch(s: &Subject<'_>) -> Vec<Finding> {
    if (s.plan.seams.kind, s.plan.cloth.kind) != (SeamKind::Lockstitch, ClothKind::Knit) {
        return Vec::new();
    }
    vec![finding(
        "cloth.lockstitch_on_knit",
        Level::Warning,
        "seams.kind",
        "a lockstitched seam cracks when the knit stretches".to_owned(),
        "sew with an overlocker / serger or a narrow zigzag",
    )]
}

/// Latex, and elastic that cannot reach its edge.
pub(super) fn elastics(s: &Subject<'_>) -> Vec<Finding> {
    Opening::ALL.iter().flat_map(|opening| of_opening(s, *opening)).collect()
}

fn of_opening(s: &Subject<'_>, opening: Opening) -> Vec<Finding> {
    let mut found = Vec::new();
    let plan = s.plan.finish.get(opening);
    let walk = s.garment.openings.iter().find(|o| o.opening == opening);
    let (Some(e), Some(walk)) = (&plan.elastic, walk) else { return found };
    if e.elastic.latex == Some(true) {
        let text =
            format!("the elastic \"{}\" holds rubber latex, which can cause immediate or delayed allergy", e.name);
        found.push(finding(
            "elastic.latex",
            Level::Warning,
            opening.name(),
            text,
            "ask the wearer, or take a latex-free elastic",
        ));
    }
    let needed = walk.sections.iter().filter_map(|x| x.stretch).fold(0.0, f64::max);
    if let Some(can) = e.elastic.stretch.filter(|can| can.percent() < needed) {
        let text = format!(
            "the elastic \"{}\" has to stretch by {needed:.0} % to reach its edge, and can {:.0} %",
            e.name,
            can.percent()
        );
        let next = "reduce it less, or take a softer elastic";
        found.push(finding("elastic.cannot_reach_edge", Level::Warning, opening.name(), text, next).measured(
            needed,
            can.percent(),
            "%",
        ));
    }
    found
}
