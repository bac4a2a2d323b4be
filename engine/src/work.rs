//! The order of work: what is done at the machine, each step after what it needs.
//!
//! Every rule is a need of one step for another, with its reason. Steps come from four places
//! (cutting, gusset, side seams, edges); `sort` puts them in order. Where needs leave a choice, the
//! [`Phase`] decides, so that related steps stay together and a changed finish moves only its own.

mod cutting;
mod edge;
mod gusset;
mod prepare;
mod side;
mod sort;
pub mod step;

use crate::finish::task::stitch;
use crate::garment::{Finding, Garment, Need, Step};
use crate::plan::Plan;
use crate::terms::{ClothKind, Opening, SeamKind};
use side::Side;

/// What is to be made, for every file that plans steps.
#[derive(Clone, Copy)]
struct Bench<'a> {
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
    let bench = Bench { plan, garment };
    let mut jobs = cutting::jobs(bench);
    jobs.extend(gusset::jobs(bench));
    for side in Side::ALL {
        jobs.extend(side::jobs(bench, side));
    }
    for opening in Opening::ALL {
        jobs.extend(edge::jobs(bench, opening)?);
    }
    jobs.push(last(&jobs));
    sort::sorted(jobs)
}

/// Everything ends here.
fn last(jobs: &[Job]) -> Job {
    let does = "cut the threads off, press the pair once more, and try it on: edges lie flat without biting, and no \
                seam cracks when it is pulled wide";
    let is_needed = |name: &str| jobs.iter().any(|j| j.step.needs.iter().any(|n| n.before == name));
    jobs.iter()
        .map(|j| j.step.step.as_str())
        .filter(|name| !is_needed(name))
        .fold(Job::new(Phase::End, "last look", "Last look", does), |job, name| {
            job.after(name, "the pair is looked over when all of it is sewn")
        })
        .caution("deep marks, numbness or tingling mean that an edge is too tight")
}

impl Job {
    fn new(phase: Phase, name: impl Into<String>, title: impl Into<String>, does: impl Into<String>) -> Self {
        let step = Step {
            step: name.into(),
            title: title.into(),
            does: does.into(),
            edge: None,
            length: None,
            stitch: None,
            needs: Vec::new(),
            caution: None,
        };
        Self { phase, step }
    }

    fn edge(mut self, edge: &str) -> Self {
        self.step.edge = Some(edge.to_owned());
        self
    }

    fn length(mut self, mm: f64) -> Self {
        self.step.length = Some(mm);
        self
    }

    fn stitch(mut self, code: &str) -> Self {
        self.step.stitch = Some(code.to_owned());
        self
    }

    fn caution(mut self, caution: &str) -> Self {
        self.step.caution = Some(caution.to_owned());
        self
    }

    fn after(mut self, before: &str, because: &'static str) -> Self {
        self.step.needs.push(Need { before: before.to_owned(), because });
        self
    }

    fn name(&self) -> &str {
        &self.step.step
    }
}

/// Each job after the one before it; its reason is its own.
fn chained(links: Vec<(Job, &'static str)>) -> Vec<Job> {
    let mut jobs: Vec<Job> = Vec::with_capacity(links.len());
    for (job, because) in links {
        let job = match jobs.last() {
            Some(before) => job.after(before.name(), because),
            None => job,
        };
        jobs.push(job);
    }
    jobs
}

/// `left leg` at the head of a title.
fn capital(name: &str) -> String {
    let mut letters = name.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

impl Bench<'_> {
    /// The stitch of the seams.
    const fn seam_stitch(&self) -> &'static str {
        match self.plan.seams.kind {
            SeamKind::Overlock => stitch::OVERLOCK,
            SeamKind::Zigzag => stitch::ZIGZAG,
            SeamKind::Lockstitch => stitch::LOCKSTITCH,
        }
    }

    /// What has to be heeded while a seam is sewn with that stitch.
    fn seam_caution(&self) -> &'static str {
        match (self.plan.seams.kind, self.plan.cloth.kind) {
            (SeamKind::Overlock, _) => "mind the knife: it cuts what lies beyond the allowance, pins too",
            (SeamKind::Lockstitch, ClothKind::Knit) => {
                "stretch the seam a little while you sew: a lockstitch on a knit cracks"
            }
            _ => "sew to and fro at both ends",
        }
    }

    /// Are the raw edges of a seam neatened by a row of their own?
    fn neatens(&self) -> bool {
        self.plan.cloth.kind == ClothKind::Woven && self.plan.seams.kind != SeamKind::Overlock
    }

    /// A seam's length between the finished edges, mm: the sum over every walk of that name.
    fn seam_length(&self, name: &str) -> f64 {
        let halves = format!("{name}, ");
        let of = self.garment.seams.iter().filter(|s| s.name == name || s.name.starts_with(&halves));
        of.map(|s| s.length_a).sum()
    }
}

#[cfg(test)]
mod tests;
