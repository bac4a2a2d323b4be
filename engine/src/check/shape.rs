//! Does the shape keep what every garment has to keep?

use super::{Subject, finding, refusal};
use crate::garment::{Finding, Level};
use crate::say::both;
use crate::sheet::Opening;

/// The shortest side seam that can be sewn, finished and sewn again, mm.
const SHORTEST_SIDE: f64 = 10.0;

/// The side seam between finished edges and between sewing lines.
pub(super) fn side_seam(s: &Subject<'_>) -> Vec<Finding> {
    let least = |seam: &crate::garment::SeamWalk| seam.length_a.min(seam.sewn_a).min(seam.sewn_b);
    s.garment
        .seams
        .iter()
        .filter(|seam| seam.name.ends_with("side seam") && least(seam) < SHORTEST_SIDE)
        .map(|seam| {
            let text = format!("the {} has only {:.1} mm between the openings", seam.name, least(seam));
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
    // By more than a fifth it is another style.
    let (level, next) = if drawn < KEPT * asked {
        (
            Level::Warning,
            "choose: keep this short side seam, set style.top_drop_side higher up for a longer one, or take a base \
             that is cut higher at the leg",
        )
    } else {
        (Level::Note, "nothing, or raise the top edge at the side if a longer side seam is wanted")
    };
    vec![finding("shape.level_leg", level, "style.side_seam", text, next).measured(drawn, asked, "mm")]
}

/// The share of a length of the base that a garment has to keep to be the same style.
const KEPT: f64 = 0.8;

/// Does the front leg leave the side seam other than square, so that it keeps one hollow?
pub(super) fn foot_angle(s: &Subject<'_>) -> Vec<Finding> {
    let flatter = s.draft.flatter.to_degrees();
    if flatter.abs() < SEEN {
        return Vec::new();
    }
    let (front, back) = if flatter > 0.0 { ("flatter", "steeper") } else { ("steeper", "flatter") };
    let text = format!(
        "the front leg edge leaves the side seam {:.0}° {front} than square and the back {:.0}° {back}, so that the \
         front keeps one hollow; sewn together they are one line",
        flatter.abs(),
        flatter.abs()
    );
    let next = "nothing, or a shorter side seam where the corners are to be square";
    vec![finding("shape.foot_angle", Level::Note, "style.side_seam", text, next).measured(flatter.abs(), SEEN, "°")]
}

/// An angle beside a square that a cutter would wonder about, degrees.
const SEEN: f64 = 10.0;

/// What is left of the gusset between its sewing lines.
pub(super) fn gusset_width(s: &Subject<'_>) -> Vec<Finding> {
    let Some(gusset) = s.garment.pieces.iter().find(|p| p.name == "gusset") else { return Vec::new() };
    let narrowest = [&gusset.sewing, &gusset.cut].map(narrowest).into_iter().fold(f64::INFINITY, f64::min);
    if narrowest >= SHORTEST_SIDE {
        return Vec::new();
    }
    let text = format!("only {narrowest:.1} mm of cloth is left across the gusset between the leg finishes");
    let next = "make gusset.width larger, the leg elastics narrower, or choose another leg finish";
    vec![refusal("shape.gusset_narrow", "gusset.width", text, next).measured(narrowest, SHORTEST_SIDE, "mm")]
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
