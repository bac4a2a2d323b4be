//! Side seams: the left one is closed first, and a flat top edge begins and ends in the right one.

use super::because::Because;
use super::doing::{Doing, EdgeAtEnd, Ends, Laid, Neatened};
use super::step::{SeamStep, SewnSeam, StepId};
use super::{Chain, Job, Pair, Phase, edge, gusset};
use crate::finish::task::Caution;
use crate::stitch::Sewing;
use crate::terms::{Opening, PutOn};
use crate::topology::{PieceId, Side};

/// The openings that begin and end in this seam where they are put on flat.
const fn ends_here(side: Side) -> &'static [Opening] {
    match side {
        Side::Left => &[Opening::LeftLeg],
        Side::Right => &[Opening::Top, Opening::RightLeg],
    }
}

const fn at(side: Side, step: SeamStep) -> StepId {
    StepId::Seam(SewnSeam::Side(side), step)
}

const fn job(side: Side, step: SeamStep, doing: Doing) -> Job {
    let phase = match side {
        Side::Left => Phase::LeftSeam,
        Side::Right => Phase::RightSeam,
    };
    Job::new(phase, at(side, step), doing)
}

/// Everything at one side seam, in a row.
pub(super) fn jobs(pair: Pair<'_>, side: Side) -> Vec<Job> {
    let flat: Vec<(Opening, StepId)> = ends_here(side)
        .iter()
        .filter(|o| pair.plan.finish.get(**o).put_on == PutOn::Flat)
        .filter_map(|o| edge::last(pair, *o).map(|last| (*o, last)))
        .collect();
    let edges: Vec<Opening> = flat.iter().map(|(o, _)| *o).collect();
    let at_ends = [Opening::Top, side.leg()].map(|opening| (opening, at_end(pair, opening, &edges)));
    let ends = Ends::of(pair.seam().stitch, at_ends.map(|(_, at)| at));
    let mut chain = Chain::default();
    if !edges.is_empty() {
        chain.then(Because::PinnedLevel, job(side, SeamStep::Aligned, Doing::Align { edges: edges.clone() }));
    }
    let laid = if edges.is_empty() { Laid::Now } else { Laid::Pinned };
    chain.then(Because::PinnedLevel, sewn(pair, side, laid, ends));
    if !edges.is_empty() {
        let trimmed = job(side, SeamStep::Trimmed, Doing::TrimEnds { edges, ends });
        chain.then(Because::CaughtBeforeTrimming, trimmed.caution(Caution::StitchesBeside));
    }
    if pair.neatens() {
        chain.then(Because::TrimmedBeforeNeatening, neatened(pair, side));
    }
    let pressed = job(side, SeamStep::Pressed, Doing::PressSide { allowance: pair.plan.seams.side });
    chain.then(Because::NothingMoreCutOff, pressed.caution(Caution::Iron));
    // No row will run across the allowances here.
    let open = at_ends.into_iter().filter(|(_, at)| *at != EdgeAtEnd::CrossedLater);
    let edges: Vec<Opening> = open.map(|(opening, _)| opening).collect();
    if !edges.is_empty() {
        let tacked = job(side, SeamStep::Tacked, Doing::TackAllowances { edges, ends });
        chain.then(Because::TackedWhereIroned, tacked.sewn(Sewing::dense_zigzag()));
    }
    let Chain(mut jobs) = chain;
    if let Some(first) = jobs.first_mut() {
        let caught =
            |(_, last): &(Opening, StepId)| crate::garment::Need { step: *last, because: Because::CaughtByThisSeam };
        first.step.needs.extend(flat.iter().map(caught));
    }
    jobs
}

/// What a side seam meets at an opening when it is sewn.
fn at_end(pair: Pair<'_>, opening: Opening, finished: &[Opening]) -> EdgeAtEnd {
    match edge::last(pair, opening) {
        None => EdgeAtEnd::LeftRaw,
        Some(_) if finished.contains(&opening) => EdgeAtEnd::Finished,
        Some(_) => EdgeAtEnd::CrossedLater,
    }
}

fn sewn(pair: Pair<'_>, side: Side, laid: Laid, ends: Ends) -> Job {
    let line = SewnSeam::Side(side);
    let job = job(side, SeamStep::Sewn, Doing::SideSeam { laid, allowance: pair.plan.seams.side, ends })
        .length(pair.seam_length(line))
        .sewn(pair.seam())
        .caution(pair.seam_caution())
        .after(StepId::Cut(PieceId::Front), Because::LayersAreCut)
        .after(StepId::Cut(PieceId::Back), Because::LayersAreCut);
    match gusset::turned_out(pair) {
        Some(turned) => job.after(turned, Because::RollsWhileOpen),
        None => job,
    }
}

fn neatened(pair: Pair<'_>, side: Side) -> Job {
    job(side, SeamStep::Neatened, Doing::Neaten(Neatened::Allowances))
        .length(pair.seam_length(SewnSeam::Side(side)))
        .sewn(Sewing::over_edge())
}
