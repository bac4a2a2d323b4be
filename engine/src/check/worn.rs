//! Getting in and wearing it: what has to pass, how far an edge stretches, how hard it presses.

use super::Subject;
use super::edge::stretch_along;
use crate::construct::rings::{arcs, net_edge};
use crate::finding::finding;
use crate::garment::{Finding, Level, OpeningWalk};
use crate::measure::pressure::{Pull, comfort};
use crate::plan::FinishPlan;
use crate::terms::{ClothKind, Opening};
use crate::words::both;

fn openings<'a>(s: &'a Subject<'_>) -> impl Iterator<Item = (&'a OpeningWalk, &'a FinishPlan)> {
    s.garment.openings.iter().map(|o| (o, s.plan.finish.get(o.opening)))
}

/// The top edge has to pass over the hips and a leg opening over the thigh, cloth and elastic both.
pub(super) fn passing(s: &Subject<'_>) -> Vec<Finding> {
    openings(s).flat_map(|(walk, finish)| passes(s, walk, finish)).collect()
}

fn passes(s: &Subject<'_>, walk: &OpeningWalk, finish: &FinishPlan) -> Vec<Finding> {
    let (girth, over) = match walk.opening {
        Opening::Top => (s.plan.body.hip, "hips"),
        _ => (s.plan.body.thigh, "thigh"),
    };
    let own = 100.0 * (girth * (1.0 + walk.worn.cloth_stretch / 100.0) / walk.worn.girth - 1.0);
    let mut found = Vec::new();
    let can = cloth_can(s, walk.opening);
    if own > can + ROUNDING {
        let text = format!(
            "the cloth of the {} has to stretch by {own:.1} % to pass over the {over} ({}), and can {can:.1} %",
            walk.opening.name(),
            both(girth)
        );
        let next = "give the cloth more ease across, take a cloth that stretches further, or move the edge with a knob";
        found.push(
            finding("opening.cloth_cannot_pass", cloth_level(s, walk.opening), walk.opening.name(), text, next)
                .measured(own, can, "%"),
        );
    }
    let needed = 100.0 * (girth * (1.0 + walk.worn.stretch / 100.0) / walk.worn.girth - 1.0);
    let can = finish.elastic.as_ref().and_then(|e| e.elastic.stretch);
    if let Some(can) = can.map(|r| r.percent()).filter(|can| needed > can + ROUNDING) {
        let text = format!(
            "the elastic of the {} has to stretch by {needed:.1} % to pass over the {over} ({}), and can {can:.1} %",
            walk.opening.name(),
            both(girth)
        );
        let next = "reduce it less, or take an elastic that stretches further";
        found.push(
            finding("opening.elastic_cannot_pass", Level::Warning, walk.opening.name(), text, next)
                .measured(needed, can, "%"),
        );
    }
    found
}

/// Percent; below what anyone can measure.
const ROUNDING: f64 = 1e-6;

/// A woven top that does not pass the hips cannot be put on. A knit gives more than the fold test
/// says, with effort; thighs give way, and are often estimated.
fn cloth_level(s: &Subject<'_>, opening: Opening) -> Level {
    match (opening, s.plan.cloth.kind) {
        (Opening::Top, ClothKind::Woven) => Level::Refusal,
        _ => Level::Warning,
    }
}

/// How far the cloth of an opening stretches, percent, by the directions that it runs in.
fn cloth_can(s: &Subject<'_>, opening: Opening) -> f64 {
    let edges: Vec<_> = arcs(opening).iter().map(|a| net_edge(s.draft, a)).collect();
    let all: f64 = edges.iter().map(|e| e.length()).sum();
    100.0 * edges.iter().map(|e| stretch_along(e, &s.plan.cloth) * e.length()).sum::<f64>() / all
}

/// Of its stretch, an elastic or a cloth is worn at no more than half. Common practice.
const WORN_SHARE: f64 = 0.5;

/// Loose edges and edges at the end of their stretch.
pub(super) fn stretch(s: &Subject<'_>) -> Vec<Finding> {
    openings(s).filter_map(|(walk, finish)| loose(walk).or_else(|| tight(s, walk, finish))).collect()
}

fn loose(walk: &OpeningWalk) -> Option<Finding> {
    let stretch = walk.worn.stretch;
    (stretch < -ROUNDING).then(|| {
        let text = format!(
            "the {} is {} at rest, {:.1} % longer than the body there ({}): it stands off",
            walk.opening.name(),
            both(walk.worn.relaxed),
            100.0 * (walk.worn.relaxed / walk.worn.girth - 1.0),
            both(walk.worn.girth)
        );
        let next = "give an elastic with a reduction, or give the cloth less ease";
        finding("worn.loose", Level::Warning, walk.opening.name(), text, next).measured(stretch, 0.0, "%")
    })
}

fn tight(s: &Subject<'_>, walk: &OpeningWalk, finish: &FinishPlan) -> Option<Finding> {
    let can = match &finish.elastic {
        Some(e) => e.elastic.stretch?.percent(),
        None => cloth_can(s, walk.opening),
    };
    let (stretch, limit) = (walk.worn.stretch, WORN_SHARE * can);
    (stretch > limit).then(|| {
        let text = format!(
            "worn, the {} is stretched by {stretch:.1} %, more than half of the {can:.0} % it can: it will bite",
            walk.opening.name()
        );
        let next = "reduce it less, or sew a trial / muslin before good cloth";
        finding("worn.tight", Level::Warning, walk.opening.name(), text, next).measured(stretch, limit, "%")
    })
}

/// Contact pressure by the pull test, held against published bands.
pub(super) fn pressure(s: &Subject<'_>) -> Vec<Finding> {
    openings(s).filter_map(|(walk, finish)| pressing(walk, finish)).collect()
}

fn pressing(walk: &OpeningWalk, finish: &FinishPlan) -> Option<Finding> {
    let elastic = finish.elastic.as_ref()?;
    let (_, most) = Pull::of(&elastic.elastic.pull).range()?;
    let place = walk.opening.name();
    let Some(kpa) = walk.worn.pressure_kpa else {
        let stretch = walk.worn.stretch;
        let text = format!(
            "worn, the elastic \"{}\" is stretched by {stretch:.1} %, beyond its pull test, which ends at {most:.0} %: \
             its pressure is unknown",
            elastic.name
        );
        let next = "carry the pull test on to that stretch, or reduce the elastic less";
        return Some(finding("worn.pull_test_ends", Level::Note, place, text, next).measured(stretch, most, "%"));
    };
    let band = comfort(kpa);
    let leg = if walk.opening == Opening::Top {
        ""
    } else {
        "; for the leg edge of a brief no published threshold was found"
    };
    let text = format!(
        "worn, the elastic \"{}\" presses with about {kpa:.2} kPa ({:.1} mmHg): {} in published bands for knitted \
         wear{leg}. An indicative average with its full width in contact; the cloth's own pull and the body that is no \
         circle are not in it, and sensors read up to 42 % lower. No medical advice",
        elastic.name,
        kpa / KPA_PER_MMHG,
        band.words
    );
    let next = "sew a trial / muslin and look at the marks after an hour";
    Some(finding("worn.pressure", band.level, place, text, next).measured(kpa, CRITICAL, "kPa"))
}

/// NIST SP 811.
const KPA_PER_MMHG: f64 = 0.133_322;
/// Where published bands begin to be critical for casual wear, kPa.
const CRITICAL: f64 = 1.3;
