//! What is put on an edge, made ready: cut, joined or folded, marked, pinned.

use super::because::Because;
use super::doing::{Distance, Doing, Joins, Spread, Strip};
use super::edge_plan::EdgePlan;
use super::step::{EdgeStep, StepId};
use super::{Chain, Job};
use crate::elastic::{BandCut, ElasticCut, Mark};
use crate::finish::Takes;
use crate::finish::task::{Act, Caution};
use crate::measure::elastic::{in_hand, meets};
use crate::stitch::Sewing;
use crate::terms::PutOn;
use crate::topology::SectionId;

/// The steps before it meets the edge.
pub(super) fn before(edge: EdgePlan<'_>) -> Vec<Job> {
    let Chain(jobs) = match (edge.finish.kind.takes(), &edge.walk.elastic, &edge.walk.band) {
        (Takes::Elastic, Some(e), _) if !edge.is_laid_on() => elastic(edge, e),
        (Takes::Threaded, Some(e), _) => Chain::starting(cut(edge, e)),
        (Takes::Strip, _, Some(b)) => band(edge, b),
        _ => Chain::default(),
    };
    jobs
}

fn elastic(edge: EdgePlan<'_>, elastic: &ElasticCut) -> Chain {
    let mut chain = Chain::starting(cut(edge, elastic));
    let first = |m: &Mark| elastic.from_cut_end(m).first().copied().map(|along| Distance { number: m.number, along });
    chain
        .then(Because::MeasuredFromEnd, marked(edge, Strip::Elastic, elastic.marks.iter().filter_map(first).collect()));
    if edge.finish.put_on == PutOn::Round {
        chain.then(Because::MarkedBeforeJoining, joined(edge));
    }
    chain
}

fn cut(edge: EdgePlan<'_>, elastic: &ElasticCut) -> Job {
    let is_threaded = edge.finish.kind.takes() == Takes::Threaded;
    let joins = match edge.finish.put_on {
        _ if is_threaded => Joins::Threaded(edge.finish.settings.overlap),
        PutOn::Round => Joins::Ring(edge.finish.settings.overlap),
        PutOn::Flat => Joins::InSeam(edge.pair.plan.seams.side),
    };
    let (length, known) = (elastic.cut_length, growth(edge));
    let growth = if is_threaded { 0.0 } else { 100.0 * known.unwrap_or(0.0) };
    let doing = Doing::CutElastic { name: elastic.name.clone(), length, joins, growth };
    let job = edge.job(EdgeStep::ElasticCut, doing).length(length);
    // What is sewn to nothing does not grow in sewing.
    if known.is_some() || is_threaded { job } else { job.caution(Caution::Grows) }
}

/// What a sample said of how much the elastic grows in sewing, as a fraction.
fn growth(edge: EdgePlan<'_>) -> Option<f64> {
    edge.finish.elastic.as_ref().and_then(|e| e.elastic.growth).map(|g| g.fraction())
}

/// Cut after it has been laid on from the length in hand.
pub(super) fn cut_off(edge: EdgePlan<'_>) -> Job {
    let doing = Doing::CutOff { into: edge.pair.plan.seams.side };
    edge.job(EdgeStep::ElasticCut, doing).caution(Caution::ClothBelow)
}

fn joined(edge: EdgePlan<'_>) -> Job {
    edge.job(EdgeStep::ElasticJoined, Doing::JoinRing { overlap: edge.finish.settings.overlap })
        .sewn(Sewing::zigzag())
        .caution(Caution::Twist)
}

fn band(edge: EdgePlan<'_>, band: &BandCut) -> Chain {
    let mut chain = Chain::default();
    if edge.finish.put_on == PutOn::Round {
        let doing = Doing::SeamBand { allowance: edge.finish.settings.seam };
        let ends = edge.job(EdgeStep::BandEnds, doing).sewn(edge.pair.seam()).length(2.0 * band.width);
        chain.then(Because::IsCut, ends);
    }
    chain.then(
        Because::EndsFoldedWithBand,
        edge.job(EdgeStep::BandFolded, Doing::FoldBand { width: band.width }).caution(Caution::Iron),
    );
    chain.then(Because::NotchesOnEachOther, marked(edge, Strip::Band, distances(edge, &band.marks)));
    if let Some(first) = chain.0.first_mut() {
        let need = crate::garment::Need { step: StepId::Cut(band.piece), because: Because::IsCut };
        first.step.needs.push(need);
    }
    chain
}

fn marked(edge: EdgePlan<'_>, what: Strip, marks: Vec<Distance>) -> Job {
    let step = match what {
        Strip::Elastic => EdgeStep::ElasticMarked,
        Strip::Band => EdgeStep::BandMarked,
    };
    let (put_on, allowance) = (edge.finish.put_on, allowance(edge));
    edge.job(step, Doing::Mark { what, put_on, allowance, marks })
}

/// What of a flat band lies in the seam at either end, mm.
fn allowance(edge: EdgePlan<'_>) -> f64 {
    if edge.finish.put_on == PutOn::Flat { edge.pair.plan.seams.side } else { 0.0 }
}

/// How far each mark lies from the end or the seam of a band, mm, nearest first.
fn distances(edge: EdgePlan<'_>, marks: &[Mark]) -> Vec<Distance> {
    let at = |m: &Mark| Distance { number: m.number, along: allowance(edge) + m.along_elastic };
    marks.iter().map(at).collect()
}

/// Pinned to the edge, mark on mark, after it has been laid there.
pub(super) fn pinned(edge: EdgePlan<'_>, lies: Option<Act>) -> Job {
    let (what, marks) = match (&edge.walk.elastic, &edge.walk.band) {
        (None, Some(b)) => (Strip::Band, b.marks.clone()),
        (Some(e), _) => (Strip::Elastic, e.marks.clone()),
        (None, None) => (Strip::Elastic, Vec::new()),
    };
    let put_on = edge.finish.put_on;
    let ends = meets(edge.finish);
    edge.job(EdgeStep::Pinned, Doing::Pin { what, lies, put_on, ends, marks })
}

/// How the row that holds it first takes it: from the hand, or stretched from mark to mark.
pub(super) fn spread(edge: EdgePlan<'_>) -> Option<Spread> {
    if let Some(elastic) = edge.walk.elastic.as_ref().filter(|_| edge.is_laid_on()) {
        return Some(Spread::LaidOn(in_hand(elastic.cut_length)));
    }
    let parts: Vec<(SectionId, f64)> =
        edge.walk.sections.iter().filter_map(|s| s.stretch.map(|stretch| (s.id, stretch))).collect();
    let (_, first) = parts.first()?;
    let is_alike = parts.iter().all(|(_, s)| (s - first).abs() < ALIKE);
    Some(if is_alike { Spread::Alike(*first) } else { Spread::BySection(parts) })
}

/// Percent.
const ALIKE: f64 = 0.05;
