//! Cloth, thread and elastic.

use super::Subject;
use crate::finding::{finding, refusal};
use crate::finish::{FinishKind, Skin};
use crate::garment::{Finding, Level, OpeningWalk};
use crate::plan::{ElasticPlan, FinishPlan, section_name};
use crate::terms::{ClothKind, Opening, SeamKind};

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

/// Cloth that is cut smaller than the body has to stretch back by more than it was reduced:
/// a cloth reduced by all of its stretch does not reach the body any more.
pub(super) fn reduction_trap(s: &Subject<'_>) -> Vec<Finding> {
    let c = &s.plan.cloth;
    [("across", c.ease_across, c.stretch_across), ("along", c.ease_along, c.stretch_along)]
        .into_iter()
        .filter_map(|(way, ease, can)| {
            let needed = 1.0 / (1.0 + ease) - 1.0;
            (ease < 0.0 && needed > can).then(|| {
                let text = format!(
                    "cloth that is {:.1} % smaller than the body {way} has to stretch by {:.1} % to reach it, and can \
                     {:.1} %",
                    -100.0 * ease,
                    100.0 * needed,
                    100.0 * can
                );
                let next = format!("set fabric.ease_{way} nearer to 0, or take a cloth that stretches further");
                refusal("cloth.reduction_trap", &format!("fabric.ease_{way}"), text, &next).measured(
                    100.0 * needed,
                    100.0 * can,
                    "%",
                )
            })
        })
        .collect()
}

/// What has to be said of the elastics.
pub(super) fn elastics(s: &Subject<'_>) -> Vec<Finding> {
    let each = |opening: &Opening| {
        let plan = s.plan.finish.get(*opening);
        let walk = s.garment.openings.iter().find(|o| o.opening == *opening)?;
        plan.elastic.as_ref().map(|e| of_opening(s, plan, e, walk))
    };
    let mut found: Vec<Finding> = Opening::ALL.iter().filter_map(each).flatten().collect();
    found.extend(no_sample(s));
    found
}

fn of_opening(s: &Subject<'_>, plan: &FinishPlan, e: &ElasticPlan, walk: &OpeningWalk) -> Vec<Finding> {
    let place = walk.opening.name();
    let latex = e.elastic.latex == Some(true);
    let skin = s.plan.body.child && plan.lines.skin == Skin::Touches;
    [
        latex.then(|| {
            let text =
                format!("the elastic \"{}\" holds rubber latex, which can cause immediate or delayed allergy", e.name);
            finding("elastic.latex", Level::Warning, place, text, "ask the wearer, or take a latex-free elastic")
        }),
        skin.then(|| on_a_childs_skin(plan, e, walk)),
        cannot_reach(e, walk),
        longer_than_edge(plan, e, walk),
    ]
    .into_iter()
    .flatten()
    .collect()
}

fn on_a_childs_skin(plan: &FinishPlan, e: &ElasticPlan, walk: &OpeningWalk) -> Finding {
    let covered: Vec<&str> = FinishKind::all()
        .filter(|f| f.takes().elastic() && f.lines(&plan.settings).skin == Skin::Covered)
        .map(|f| f.name())
        .collect();
    let text = format!("the elastic \"{}\" lies against a child's skin", e.name);
    let next = format!("cover it with cloth ({}), and keep it soft and loose; local rules decide", covered.join(", "));
    finding("elastic.on_childs_skin", Level::Warning, walk.opening.name(), text, &next)
}

fn cannot_reach(e: &ElasticPlan, walk: &OpeningWalk) -> Option<Finding> {
    let needed = walk.sections.iter().filter_map(|x| x.stretch).fold(0.0, f64::max);
    let can = e.elastic.stretch.filter(|can| can.percent() < needed)?.percent();
    let text = format!(
        "the elastic \"{}\" has to stretch by {needed:.0} % to reach its edge while it is sewn, and can {can:.0} %",
        e.name
    );
    let next = "reduce it less, or take a softer elastic";
    Some(
        finding("elastic.cannot_reach_edge", Level::Refusal, walk.opening.name(), text, next)
            .measured(needed, can, "%"),
    )
}

/// An elastic that is longer than its edge makes it wave. A length of her own can do that unseen.
fn longer_than_edge(plan: &FinishPlan, e: &ElasticPlan, walk: &OpeningWalk) -> Option<Finding> {
    let least = walk.sections.iter().filter_map(|x| x.reduction).fold(f64::INFINITY, f64::min);
    (least < -1e-6).then(|| {
        let text = format!("the elastic \"{}\" is {:.1} % longer than the edge it is sewn to", e.name, -least);
        let next = format!("give finish.{} a shorter length or a reduction", section_name(plan.settings.opening));
        finding("elastic.longer_than_edge", Level::Warning, walk.opening.name(), text, &next).measured(least, 0.0, "%")
    })
}

/// Sewing lengthens an elastic by an amount that only a sample tells.
fn no_sample(s: &Subject<'_>) -> Option<Finding> {
    let mut names: Vec<&str> = Opening::ALL
        .iter()
        .filter_map(|o| s.plan.finish.get(*o).elastic.as_ref())
        .filter(|e| e.elastic.growth.is_none())
        .map(|e| e.name.as_str())
        .collect();
    names.sort_unstable();
    names.dedup();
    (!names.is_empty()).then(|| {
        let text = format!(
            "how much longer an elastic comes out after sewing is not known for \"{}\"; 3 to 10 % is usual (from memory)",
            names.join("\", \"")
        );
        let next = "sew a sample of 20 cm (8 in) on a scrap of the same cloth, measure it, and write growth in %";
        finding("elastic.no_sample", Level::Note, "elastic", text, next)
    })
}

/// What applies to every child's sheet.
pub(super) fn child(s: &Subject<'_>) -> Vec<Finding> {
    if !s.plan.body.child {
        return Vec::new();
    }
    vec![finding(
        "body.child",
        Level::Note,
        "body.child",
        "for a child: softer and looser, no elastic against the skin".to_owned(),
        "look up the local rules on cords, small parts and burning behaviour (such as EN 14682, EN 14878, 16 CFR 1610, \
         CPSIA): they decide",
    )]
}
