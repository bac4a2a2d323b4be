//! The gusset: its two seams, its second layer, and both layers held together.

use super::because::Because;
use super::doing::{Doing, EdgeAtEnd, Ends, GussetLies, Layers, Neatened};
use super::step::{GussetStep, SeamStep, SewnSeam, StepId};
use super::{Job, Pair, Phase, edge};
use crate::finish::task::Caution;
use crate::garment::Outline;
use crate::stitch::Sewing;
use crate::terms::{ClothKind, Lining, Opening};
use crate::topology::{EdgeId, PieceId};

const FRONT: StepId = StepId::Seam(SewnSeam::FrontGusset, SeamStep::Sewn);
const BACK: StepId = StepId::Seam(SewnSeam::BackGusset, SeamStep::Sewn);
const ROLLED: StepId = StepId::Gusset(GussetStep::RolledIn);
const TURNED: StepId = StepId::Gusset(GussetStep::TurnedOut);
const END_NEATENED: StepId = StepId::Gusset(GussetStep::LiningEndNeatened);
const PRESSED: StepId = StepId::Gusset(GussetStep::Pressed);
const TACKED: StepId = StepId::Gusset(GussetStep::LiningTacked);
const HELD: StepId = StepId::Gusset(GussetStep::LayersHeld);

/// From the raw edges to the row that holds both layers, mm. Common practice.
const HELD_INSIDE: f64 = 2.0;

/// The step that draws front and back out from between the layers, if they were rolled in.
pub(super) fn turned_out(pair: Pair<'_>) -> Option<StepId> {
    (pair.is_lined() && pair.plan.gusset.lining == Lining::Enclosed).then_some(TURNED)
}

/// Everything at the gusset.
pub(super) fn jobs(pair: Pair<'_>) -> Vec<Job> {
    match (pair.is_lined(), pair.plan.gusset.lining) {
        (false, _) => single(pair),
        (true, Lining::Enclosed) => enclosed(pair),
        (true, Lining::Tacked) => tacked(pair),
    }
}

const fn job(id: StepId, doing: Doing) -> Job {
    Job::new(Phase::Gusset, id, doing)
}

/// One of the two seams, sewn, once these pieces are cut.
fn seam(pair: Pair<'_>, line: SewnSeam, how: Layers, pieces: &[PieceId]) -> Job {
    let panel = if line == SewnSeam::FrontGusset { PieceId::Front } else { PieceId::Back };
    let ends = Ends::of(pair.seam().stitch, [Opening::LeftLeg, Opening::RightLeg].map(|leg| at_leg(pair, leg)));
    let doing = Doing::GussetSeam { panel, how, allowance: pair.plan.seams.gusset, ends };
    let job = job(StepId::Seam(line, SeamStep::Sewn), doing)
        .length(pair.seam_length(line))
        .sewn(pair.seam())
        .caution(pair.seam_caution());
    pieces.iter().fold(job, |job, piece| job.after(StepId::Cut(*piece), Because::LayersAreCut))
}

/// A leg edge is worked after the gusset seams that end in it, or not at all.
fn at_leg(pair: Pair<'_>, leg: Opening) -> EdgeAtEnd {
    if edge::last(pair, leg).is_some() { EdgeAtEnd::CrossedLater } else { EdgeAtEnd::LeftRaw }
}

/// A zigzag over the raw edges of a seam, and the step that waits for them.
fn neatened(pair: Pair<'_>, line: SewnSeam) -> (Option<Job>, StepId) {
    let sewn = StepId::Seam(line, SeamStep::Sewn);
    if !pair.neatens() {
        return (None, sewn);
    }
    let done = StepId::Seam(line, SeamStep::Neatened);
    let job = job(done, Doing::Neaten(Neatened::Allowances))
        .length(pair.seam_length(line))
        .sewn(Sewing::over_edge())
        .after(sewn, Because::NeatenedTogether);
    (Some(job), done)
}

fn pressed(pair: Pair<'_>, towards: GussetLies) -> Job {
    job(PRESSED, Doing::PressGusset { allowance: pair.plan.seams.gusset, towards }).caution(Caution::Iron)
}

fn single(pair: Pair<'_>) -> Vec<Job> {
    let front = seam(pair, SewnSeam::FrontGusset, Layers::Single, &[PieceId::Front, PieceId::Gusset]);
    let back = seam(pair, SewnSeam::BackGusset, Layers::Single, &[PieceId::Back, PieceId::Gusset]);
    let (front_neat, front_done) = neatened(pair, SewnSeam::FrontGusset);
    let (back_neat, back_done) = neatened(pair, SewnSeam::BackGusset);
    let pressed = pressed(pair, GussetLies::AwayFromGusset)
        .after(front_done, Because::SewnBeforePressing)
        .after(back_done, Because::SewnBeforePressing);
    let neat = [front_neat, back_neat].into_iter().flatten();
    [front, back].into_iter().chain(neat).chain([pressed]).collect()
}

fn enclosed(pair: Pair<'_>) -> Vec<Job> {
    let of_front = [PieceId::Front, PieceId::Gusset, PieceId::GussetLining];
    vec![
        seam(pair, SewnSeam::FrontGusset, Layers::PanelBetween, &of_front),
        job(ROLLED, Doing::RollIn)
            .after(FRONT, Because::JoinedBeforeRoll)
            .after(StepId::Cut(PieceId::Back), Because::LayersAreCut),
        seam(pair, SewnSeam::BackGusset, Layers::AroundRoll, &[])
            .after(ROLLED, Because::RolledLiesInside)
            .caution(Caution::Roll),
        job(TURNED, Doing::TurnOut).after(BACK, Because::ClosedBeforeTurning),
        pressed(pair, GussetLies::BetweenLayers).after(TURNED, Because::SewnBeforePressing),
        held(pair).after(PRESSED, Because::LiesBeforeHeld),
    ]
}

fn tacked(pair: Pair<'_>) -> Vec<Job> {
    let (front_neat, front_done) = neatened(pair, SewnSeam::FrontGusset);
    let of_back = [PieceId::Back, PieceId::Gusset, PieceId::GussetLining];
    let mut jobs: Vec<Job> = Vec::new();
    let mut back = seam(pair, SewnSeam::BackGusset, Layers::PanelBetween, &of_back);
    if pair.plan.cloth.kind == ClothKind::Woven {
        jobs.push(end_neatened());
        back = back.after(END_NEATENED, Because::EndInReach);
    }
    jobs.push(back);
    jobs.push(seam(pair, SewnSeam::FrontGusset, Layers::LiningAside, &[PieceId::Front, PieceId::Gusset]));
    jobs.extend(front_neat);
    jobs.push(
        pressed(pair, GussetLies::TowardsGusset)
            .after(BACK, Because::SewnBeforePressing)
            .after(front_done, Because::SewnBeforePressing),
    );
    jobs.push(job(TACKED, Doing::TackLining).sewn(Sewing::lockstitch()).after(PRESSED, Because::TackedWherePressed));
    jobs.push(held(pair).after(TACKED, Because::LiesBeforeHeld));
    jobs
}

fn end_neatened() -> Job {
    job(END_NEATENED, Doing::Neaten(Neatened::LiningEnd))
        .sewn(Sewing::over_edge())
        .after(StepId::Cut(PieceId::GussetLining), Because::IsCut)
}

/// Both layers as one along the leg edges.
fn held(pair: Pair<'_>) -> Job {
    let job = job(HELD, Doing::HoldLayers { inside: HELD_INSIDE }).sewn(Sewing::narrow_zigzag());
    match leg_edges(pair) {
        Some(mm) => job.length(mm),
        None => job,
    }
}

/// Both cut leg edges of the gusset, mm.
fn leg_edges(pair: Pair<'_>) -> Option<f64> {
    let gusset = pair.garment.pieces.iter().find(|p| p.id == PieceId::Gusset)?;
    let Outline { edges } = &gusset.cut;
    Some(edges.iter().filter(|e| e.id.drafted() == Some(EdgeId::GussetLeg)).map(|e| e.path.length()).sum())
}
