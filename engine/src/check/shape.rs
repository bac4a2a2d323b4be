//! Does the shape keep what every garment has to keep?

use super::Subject;
use crate::construct::unsound;
use crate::draft::before_washing;
use crate::finding::Finding;
use crate::finding::fact::{GussetFact, ShapeFact};
use crate::garment::{EdgeRef, Garment, Outline, Piece, SeamWalk};
use crate::plan::Plan;
use crate::topology::{EdgeId, Fault, Half, OutlineEdge, PieceId, SeamLine, Side, Way};

/// The shortest side seam that can be sewn, finished and sewn again, mm.
const SHORTEST_SIDE: f64 = 10.0;

/// The side seam between finished edges and between sewing lines.
pub(super) fn side_seam(s: &Subject<'_>) -> Vec<Finding> {
    let length = |seam: &SeamWalk| seam.length_a.min(seam.sewn_a).min(seam.sewn_b);
    s.garment
        .seams
        .iter()
        .filter(|seam| seam.id.line() == SeamLine::Side && length(seam) < SHORTEST_SIDE)
        .map(|seam| ShapeFact::SideSeamShort { seam: seam.id, length: length(seam), least: SHORTEST_SIDE }.into())
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

/// Does the top edge meet the side seam where it was asked for?
pub(super) fn side_depth(s: &Subject<'_>) -> Vec<Finding> {
    let raised = s.draft.side_raised;
    (raised.abs() > CLOSE).then(|| ShapeFact::SideDepth { raised, seen: CLOSE }.into()).into_iter().collect()
}

/// Closer than this nobody lays a tape to a body, mm.
const CLOSE: f64 = 2.0;

/// Does the front leg leave the side seam other than square, so that it keeps one hollow?
pub(super) fn foot_angle(s: &Subject<'_>) -> Vec<Finding> {
    let degrees = s.draft.flatter.to_degrees();
    (degrees.abs() >= SEEN).then(|| ShapeFact::FootAngle { degrees, seen: SEEN }.into()).into_iter().collect()
}

/// An angle beside a square that a cutter would wonder about, degrees.
const SEEN: f64 = 10.0;

/// Does the back leg edge run in under the side, and out again over the seat?
pub(super) fn back_undercut(s: &Subject<'_>) -> Vec<Finding> {
    // From the foot of the side seam to the gusset.
    let from_centre = s.draft.back.leg.flatten(0.01).into_iter().map(|p| p.x);
    let (_, out) = from_centre.fold((f64::INFINITY, 0.0_f64), |(least, out), x| (x.min(least), out.max(x - least)));
    (out > BULGE).then(|| ShapeFact::BackUndercut { out, seen: BULGE }.into()).into_iter().collect()
}

/// Less than this is a line that runs straight down, mm.
const BULGE: f64 = 5.0;

/// What is left of the gusset between its sewing lines.
pub(super) fn gusset_width(s: &Subject<'_>) -> Vec<Finding> {
    match across_gusset(s.garment, |piece| vec![&piece.sewing, &piece.cut]) {
        Ok(width) if width < SHORTEST_SIDE => vec![GussetFact::Narrow { width, least: SHORTEST_SIDE }.into()],
        Ok(_) => Vec::new(),
        Err(fault) => vec![unsound(fault)],
    }
}

/// Does the gusset keep its narrowest width? Where both ends are hardly wider, the back one least, its side
/// can still lie a little inside.
pub(super) fn gusset_width_kept(s: &Subject<'_>) -> Vec<Finding> {
    width_kept(s.plan, s.garment)
}

fn width_kept(plan: &Plan, garment: &Garment) -> Vec<Finding> {
    let (across, _) = before_washing(&plan.cloth);
    let asked = plan.gusset.width;
    match across_gusset(garment, |piece| vec![&piece.finished]).map(|cut| cut / across) {
        Ok(drawn) if drawn < asked - KEPT_WITHIN => vec![GussetFact::WidthNotKept { drawn, asked }.into()],
        Ok(_) => Vec::new(),
        Err(fault) => vec![unsound(fault)],
    }
}

/// mm; nobody measures a gusset more closely.
const KEPT_WITHIN: f64 = 0.05;

/// The least width between the leg edges of some of the gusset's outlines, mm.
fn across_gusset(garment: &Garment, outlines: impl Fn(&Piece) -> Vec<&Outline>) -> Result<f64, Fault> {
    let id = PieceId::Gusset;
    let edge =
        |side| EdgeRef { piece: id, edge: OutlineEdge::On(side, EdgeId::GussetLeg), way: Way::Along, half: Half::Plus };
    let gusset = garment.pieces.iter().find(|p| p.id == id).ok_or_else(|| edge(Side::Left).not_drawn())?;
    let mut narrowest = f64::MAX;
    for outline in outlines(gusset) {
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
    use super::super::found_on;
    use super::*;
    use crate::base::Base;
    use crate::finding::Fact;
    use crate::support;

    /// A gusset that cannot be measured is a fault, not a wide gusset.
    #[test]
    fn a_gusset_without_a_leg_edge_is_not_wide_enough() {
        let sheet = support::sheet(&support::ordinary(), Base::named("brief").unwrap());
        let mut garment = crate::record(&sheet).unwrap();
        assert!(across_gusset(&garment, |piece| vec![&piece.sewing, &piece.cut]).unwrap() > 40.0);
        let gusset = garment.pieces.iter_mut().find(|p| p.id == PieceId::Gusset).unwrap();
        gusset.cut.edges.retain(|e| e.id != OutlineEdge::On(Side::Right, EdgeId::GussetLeg));
        let fault = Fault::NotDrawn { piece: "gusset", edge: "right leg" };
        assert_eq!(across_gusset(&garment, |piece| vec![&piece.sewing, &piece.cut]), Err(fault));
        garment.pieces.clear();
        assert!(across_gusset(&garment, |piece| vec![&piece.sewing, &piece.cut]).is_err());
    }

    /// What washing takes is cut larger, and is no width that is asked for.
    #[test]
    fn a_gusset_of_cloth_that_shrinks_is_held_to_its_width_after_washing() {
        let mut sheet = support::sheet(&support::ordinary(), Base::named("brief").unwrap());
        sheet.fabric.shrink_across = Some(crate::quantity::Ratio::from_percent(10.0));
        let (mut plan, garment) = (Plan::of(&sheet).unwrap(), crate::record(&sheet).unwrap());
        assert!(width_kept(&plan, &garment).is_empty());
        plan.gusset.width += 1.0;
        let found = width_kept(&plan, &garment);
        assert!(found.iter().any(|f| f.code == "shape.gusset_width_not_kept"), "{found:?}");
    }

    /// Deeper than the side seam is long, on the side where both are so.
    #[test]
    fn finishes_that_meet_over_the_side_seam_are_told_with_what_they_take() {
        let deep = |plan: &mut Plan, _: &mut Garment| {
            plan.finish.top.lines.second = Some(-700.0);
            plan.finish.right_leg.lines.second = Some(-20.0);
            plan.finish.left_leg.lines.second = Some(30.0);
        };
        let told = |found: Vec<Finding>| found.into_iter().map(|f| f.fact).collect::<Vec<_>>();
        let found = told(found_on(deep, crowded_side));
        let [
            Fact::Shape(ShapeFact::EdgesOverlap { side: one, taken: a, .. }),
            Fact::Shape(ShapeFact::EdgesOverlap { side: other, taken: b, .. }),
        ] = &found[..]
        else {
            panic!("{found:?}")
        };
        assert_eq!([(*one, *a), (*other, *b)], [(Side::Left, 730.0), (Side::Right, 720.0)]);
        assert_eq!(told(found_on(|_, _| (), crowded_side)), []);
    }

    /// Shortened by a centimetre, and that only where no leg edge was asked for.
    #[test]
    fn a_side_seam_that_was_shortened_is_told() {
        let asked = |more: f64, leg_edge: Option<f64>| {
            found_on(
                |plan, _| plan.knobs.leg_edge = leg_edge,
                |s| {
                    let mut plan = s.plan.clone();
                    plan.knobs.side_seam = s.draft.side_seam + more;
                    level_leg(&Subject { plan: &plan, ..*s })
                },
            )
        };
        assert!(asked(0.0, None).is_empty() && asked(10.0, Some(500.0)).is_empty());
        let found = asked(10.0, None);
        let [Finding { fact: Fact::Shape(ShapeFact::LevelLeg { asked, drawn }), .. }] = &found[..] else {
            panic!("{found:?}")
        };
        assert!((asked - drawn - 10.0).abs() < 1e-9);
    }

    #[test]
    fn a_gusset_cut_narrower_than_asked_is_refused() {
        let sheet = support::sheet(&support::ordinary(), Base::named("brief").unwrap());
        let (mut plan, garment) = (Plan::of(&sheet).unwrap(), crate::record(&sheet).unwrap());
        assert!(width_kept(&plan, &garment).is_empty());
        plan.gusset.width += 1.0;
        let found = width_kept(&plan, &garment);
        assert!(found.iter().any(|f| f.code == "shape.gusset_width_not_kept"), "{found:?}");
    }
}
