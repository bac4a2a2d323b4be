//! Does the shape keep what every garment has to keep?

use super::Subject;
use crate::construct::unsound;
use crate::finding::{finding, refusal};
use crate::garment::{EdgeRef, Finding, Garment, Level};
use crate::terms::Opening;
use crate::topology::{EdgeId, Fault, OutlineEdge, PieceId, SeamLine, Side};
use crate::words::both;

/// The shortest side seam that can be sewn, finished and sewn again, mm.
const SHORTEST_SIDE: f64 = 10.0;

/// The side seam between finished edges and between sewing lines.
pub(super) fn side_seam(s: &Subject<'_>) -> Vec<Finding> {
    let least = |seam: &crate::garment::SeamWalk| seam.length_a.min(seam.sewn_a).min(seam.sewn_b);
    s.garment
        .seams
        .iter()
        .filter(|seam| seam.id.line() == SeamLine::Side && least(seam) < SHORTEST_SIDE)
        .map(|seam| {
            let text = format!("the {} has only {:.1} mm between the openings", seam.id.name(), least(seam));
            refusal("shape.side_seam_short", "style.side_seam", text, "make side_seam longer, or the elastics narrower")
                .measured(least(seam), SHORTEST_SIDE, "mm")
        })
        .collect()
}

/// Over a short side seam the finishes of top and leg would lie on each other.
pub(super) fn crowded_side(s: &Subject<'_>) -> Vec<Finding> {
    let top = s.plan.finish.top.lines.depth();
    [Opening::LeftLeg, Opening::RightLeg]
        .into_iter()
        .filter_map(|leg| {
            let taken = top + s.plan.finish.get(leg).lines.depth();
            (taken > s.draft.side_seam).then(|| {
                let text = format!(
                    "the finishes of the top edge and the {} take {} of a side seam of {}: they lie on each other there",
                    leg.name(),
                    both(taken),
                    both(s.draft.side_seam)
                );
                let next = "make side_seam longer, or the elastics narrower";
                finding("shape.edges_overlap", Level::Warning, "style.side_seam", text, next)
                    .measured(taken, s.draft.side_seam, "mm")
            })
        })
        .collect()
}

/// Was the side seam shortened so that the front leg does not run level?
pub(super) fn level_leg(s: &Subject<'_>) -> Vec<Finding> {
    let (asked, drawn) = (s.plan.knobs.side_seam, s.draft.side_seam);
    if s.plan.knobs.leg_edge.is_some() || asked - drawn < 0.01 {
        return Vec::new();
    }
    let text = format!(
        "the side seam was shortened from {asked:.1} mm to {drawn:.1} mm: on this body the front leg edge would \
         otherwise run almost level"
    );
    let next = "nothing, or raise the top edge at the side if a longer side seam is wanted";
    vec![finding("shape.level_leg", Level::Note, "style.side_seam", text, next).measured(drawn, asked, "mm")]
}

/// What is left of the gusset between its sewing lines.
pub(super) fn gusset_width(s: &Subject<'_>) -> Vec<Finding> {
    let narrowest = match across_gusset(s.garment) {
        Ok(mm) if mm < SHORTEST_SIDE => mm,
        Ok(_) => return Vec::new(),
        Err(fault) => return vec![unsound(&fault)],
    };
    let text = format!("only {narrowest:.1} mm of cloth is left across the gusset between the leg finishes");
    let next = "make gusset.width larger, the leg elastics narrower, or choose another leg finish";
    vec![refusal("shape.gusset_narrow", "gusset.width", text, next).measured(narrowest, SHORTEST_SIDE, "mm")]
}

/// The least width of the gusset's cut and sewing lines, mm.
fn across_gusset(garment: &Garment) -> Result<f64, Fault> {
    let id = PieceId::Gusset;
    let edge =
        |side| EdgeRef { piece: id, edge: OutlineEdge::On(side, EdgeId::GussetLeg), reverse: false, mirrored: false };
    let gusset = garment.pieces.iter().find(|p| p.id == id).ok_or_else(|| edge(Side::Left).not_drawn())?;
    let mut narrowest = f64::MAX;
    for outline in [&gusset.sewing, &gusset.cut] {
        let mut across = 0.0;
        for side in Side::ALL {
            let leg = edge(side).path(outline)?;
            across += leg.flatten(0.01).iter().map(|p| p.x.abs()).fold(f64::MAX, f64::min);
        }
        narrowest = across.min(narrowest);
    }
    Ok(narrowest)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::Base;
    use crate::support;

    /// A gusset that cannot be measured is a fault, not a wide gusset.
    #[test]
    fn a_gusset_without_a_leg_edge_is_not_wide_enough() {
        let sheet = support::sheet(&support::ordinary(), Base::named("brief").unwrap());
        let mut garment = crate::record(&sheet).unwrap();
        assert!(across_gusset(&garment).unwrap() > 40.0);
        let gusset = garment.pieces.iter_mut().find(|p| p.id == PieceId::Gusset).unwrap();
        gusset.cut.edges.retain(|e| e.id != OutlineEdge::On(Side::Right, EdgeId::GussetLeg));
        let fault = Fault::NotDrawn { piece: "gusset", edge: "right leg" };
        assert_eq!(across_gusset(&garment), Err(fault));
        garment.pieces.clear();
        assert!(across_gusset(&garment).is_err());
    }
}
