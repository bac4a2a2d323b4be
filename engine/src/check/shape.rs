//! Does the shape keep what every garment has to keep?

use super::Subject;
use crate::finding::Finding;
use crate::finding::fact::{GussetFact, ShapeFact};
use crate::garment::SeamWalk;
use crate::topology::{SeamId, Side};

/// The shortest side seam that can be sewn, finished and sewn again, mm.
const SHORTEST_SIDE: f64 = 10.0;

/// The side seam between finished edges and between sewing lines.
pub(super) fn side_seam(s: &Subject<'_>) -> Vec<Finding> {
    let length = |seam: &SeamWalk| seam.length_a.min(seam.sewn_a).min(seam.sewn_b);
    Side::ALL
        .into_iter()
        .map(SeamId::Side)
        .filter_map(|id| Some((id, length(s.garment.seams.iter().find(|seam| seam.name == id.name())?))))
        .filter(|(_, length)| *length < SHORTEST_SIDE)
        .map(|(seam, length)| ShapeFact::SideSeamShort { seam, length, least: SHORTEST_SIDE }.into())
        .collect()
}

/// Over a short side seam the finishes of top and leg would lie on each other.
pub(super) fn crowded_side(s: &Subject<'_>) -> Vec<Finding> {
    let (top, side_seam) = (s.plan.finish.top.lines.depth(), s.draft.side_seam);
    Side::ALL
        .into_iter()
        .map(|side| (side, top + s.plan.finish.get(side.leg()).lines.depth()))
        .filter(|(_, taken)| *taken > side_seam)
        .map(|(side, taken)| ShapeFact::EdgesOverlap { side, taken, side_seam }.into())
        .collect()
}

/// Was the side seam shortened so that the front leg does not run level?
pub(super) fn level_leg(s: &Subject<'_>) -> Vec<Finding> {
    let (asked, drawn) = (s.plan.knobs.side_seam, s.draft.side_seam);
    let shortened = s.plan.knobs.leg_edge.is_none() && asked - drawn >= 0.01;
    shortened.then(|| ShapeFact::LevelLeg { asked, drawn }.into()).into_iter().collect()
}

/// What is left of the gusset between its sewing lines.
pub(super) fn gusset_width(s: &Subject<'_>) -> Vec<Finding> {
    let Some(gusset) = s.garment.pieces.iter().find(|p| p.name == "gusset") else { return Vec::new() };
    let width = [&gusset.sewing, &gusset.cut].map(narrowest).into_iter().fold(f64::INFINITY, f64::min);
    let narrow = width < SHORTEST_SIDE;
    narrow.then(|| GussetFact::Narrow { width, least: SHORTEST_SIDE }.into()).into_iter().collect()
}

fn narrowest(outline: &crate::garment::Outline) -> f64 {
    let reach = |word: &str| {
        outline
            .edges
            .iter()
            .filter(|e| e.name == format!("{word} leg"))
            .flat_map(|e| e.path.flatten(0.01))
            .map(|p| p.x.abs())
            .fold(f64::INFINITY, f64::min)
    };
    reach("left") + reach("right")
}
