//! The order of work: what is done at the machine, each step after what it needs.
//!
//! Every rule is a need of one step for another, with its reason. Steps come from four places
//! (cutting, gusset, side seams, edges); `sort` puts them in order. Where needs leave a choice, the
//! `Phase` decides, so that related steps stay together and a changed finish moves only its own.
//! Steps are data; `words::work` says them.

pub mod because;
mod cutting;
pub mod doing;
mod edge;
mod edge_plan;
mod gusset;
mod prepare;
mod side;
mod sort;
pub mod step;

use crate::finding::Finding;
use crate::finish::task::Caution;
use crate::garment::{Garment, Need, Step};
use crate::plan::Plan;
use crate::stitch::{Needle, Sewing, Stitch};
use crate::terms::{ClothKind, Opening, SeamKind};
use crate::topology::Side;

use because::Because;
use doing::Doing;
use step::{GussetStep, SewnSeam, StepId};

/// What is to be made, for every file that plans steps.
#[derive(Clone, Copy)]
struct Pair<'a> {
    plan: &'a Plan,
    garment: &'a Garment,
}

/// Which part of the work a step belongs to, in the order that a sewer would take them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Phase {
    Cutting,
    Gusset,
    FlatLeg(Opening),
    LeftSeam,
    FlatTop,
    RightSeam,
    RoundLeg(Opening),
    RoundTop,
    End,
}

/// A step and its place where needs leave a choice.
struct Job {
    phase: Phase,
    step: Step,
}

/// The steps of a garment, in order.
///
/// # Errors
/// Where the choices of the sheet cannot be sewn in any order.
pub(crate) fn order(plan: &Plan, garment: &Garment) -> Result<Vec<Step>, Finding> {
    let pair = Pair { plan, garment };
    let mut jobs = cutting::jobs(pair);
    jobs.extend(gusset::jobs(pair));
    for side in Side::ALL {
        jobs.extend(side::jobs(pair, side));
    }
    for opening in Opening::ALL {
        jobs.extend(edge::jobs(pair, opening)?);
    }
    jobs.push(last(&jobs));
    let needle = Needle::of(plan.cloth.kind, plan.cloth.stretch_across.max(plan.cloth.stretch_along));
    for job in jobs.iter_mut().filter(|job| job.step.sewing.is_some()) {
        job.step.needle = Some(needle);
    }
    let mut steps = sort::sorted(jobs)?;
    said_once(&mut steps);
    Ok(steps)
}

/// What is to be heeded all along is said where it first matters; of an elastic that may grow, once.
fn said_once(steps: &mut [Step]) {
    let mut known: Vec<(Caution, Option<String>)> = Vec::new();
    for step in steps {
        let Some(caution @ (Caution::Iron | Caution::Knife | Caution::Cracks | Caution::Grows)) = step.caution else {
            continue;
        };
        let of = match &step.doing {
            Doing::CutElastic { name, .. } => Some(name.clone()),
            _ => None,
        };
        let said = (caution, of);
        if known.contains(&said) {
            step.caution = None;
        } else {
            known.push(said);
        }
    }
}

/// Everything ends here.
fn last(jobs: &[Job]) -> Job {
    let is_needed = |id: StepId| jobs.iter().any(|j| j.step.needs.iter().any(|n| n.step == id));
    jobs.iter()
        .map(Job::id)
        .filter(|id| !is_needed(*id))
        .fold(Job::new(Phase::End, StepId::LastLook, Doing::LastLook), |job, id| job.after(id, Because::AllIsSewn))
        .caution(Caution::TooTight)
}

impl Job {
    const fn new(phase: Phase, id: StepId, doing: Doing) -> Self {
        let step = Step { id, doing, length: None, sewing: None, needle: None, needs: Vec::new(), caution: None };
        Self { phase, step }
    }

    fn length(mut self, mm: f64) -> Self {
        self.step.length = Some(mm);
        self
    }

    fn sewn(mut self, sewing: Sewing) -> Self {
        self.step.sewing = Some(sewing);
        self
    }

    fn caution(mut self, caution: impl Into<Option<Caution>>) -> Self {
        self.step.caution = caution.into();
        self
    }

    fn after(mut self, step: StepId, because: Because) -> Self {
        self.step.needs.push(Need { step, because });
        self
    }

    const fn id(&self) -> StepId {
        self.step.id
    }
}

/// Jobs of which each waits for the one before.
#[derive(Default)]
struct Chain(Vec<Job>);

impl Chain {
    /// The next job. The reason is that of its need for the one before; the first needs none.
    fn then(&mut self, because: Because, job: Job) {
        let job = match self.0.last() {
            Some(before) => job.after(before.id(), because),
            None => job,
        };
        self.0.push(job);
    }

    fn starting(job: Job) -> Self {
        Self(vec![job])
    }
}

impl Pair<'_> {
    /// How the seams are sewn.
    const fn seam(&self) -> Sewing {
        Sewing::seam(self.plan.seams.kind, self.plan.cloth.kind)
    }

    /// What has to be heeded while a seam is sewn like that.
    const fn seam_caution(&self) -> Option<Caution> {
        match (self.plan.seams.kind, self.plan.cloth.kind) {
            (SeamKind::Overlock, _) => Some(Caution::Knife),
            (SeamKind::Lockstitch, ClothKind::Knit) => Some(Caution::Cracks),
            _ => None,
        }
    }

    /// Are the raw edges of a seam neatened by a row of their own?
    fn neatens(&self) -> bool {
        self.plan.cloth.kind == ClothKind::Woven && self.seam().stitch != Stitch::Overlock
    }

    /// Are there two layers of gusset?
    const fn is_lined(&self) -> bool {
        self.plan.gusset.layers > 1
    }

    /// The step after which an edge can run over the gusset.
    const fn gusset_ready(&self) -> StepId {
        StepId::Gusset(if self.is_lined() { GussetStep::LayersHeld } else { GussetStep::Pressed })
    }

    /// A seam's length between the finished edges, mm.
    fn seam_length(&self, line: SewnSeam) -> f64 {
        self.garment.seams.iter().filter(|s| line.parts().contains(&s.id)).map(|s| s.length_a).sum()
    }
}

#[cfg(test)]
mod tests;
