//! One opening: what its finish does, after what has to be ready for it.

use super::because::Because;
use super::doing::{Doing, Runs, Spread};
use super::edge_plan::EdgePlan;
use super::step::{EdgeStep, StepId};
use super::{Chain, Job, Pair, prepare};
use crate::finding::Finding;
use crate::finding::fact::WorkFact;
use crate::finish::task::{Act, TaskId};
use crate::finish::{Takes, Task};
use crate::garment::{EdgeRef, Need, Piece};
use crate::stitch::Sewing;
use crate::terms::{Opening, PutOn};
use crate::topology::Side;

/// The last step at an opening; none where nothing is done there.
pub(super) fn last(pair: Pair<'_>, opening: Opening) -> Option<StepId> {
    EdgePlan::of(pair, opening)?.on_edge().last().map(Job::id)
}

/// Everything at one opening.
///
/// # Errors
/// Where what is put on cannot be joined.
pub(super) fn jobs(pair: Pair<'_>, opening: Opening) -> Result<Vec<Job>, Finding> {
    let Some(edge) = EdgePlan::of(pair, opening) else { return Ok(Vec::new()) };
    edge.joinable()?;
    let mut prepared = prepare::before(edge);
    let mut on_edge = edge.on_edge();
    let Some(first) = on_edge.first_mut() else { return Ok(Vec::new()) };
    first.step.needs.extend(edge.ready());
    if let Some(made) = prepared.last() {
        let need = Need { step: made.id(), because: Because::ReadyToPutOn };
        let threads = edge.id(EdgeStep::Task(TaskId::Thread));
        // An elastic that is threaded is used later than the first task.
        let user = on_edge.iter().position(|job| job.id() == threads).unwrap_or(0);
        on_edge[user].step.needs.push(need);
    }
    prepared.extend(on_edge);
    Ok(prepared)
}

/// The side seam that a leg crosses; a top crosses both.
const fn own_side(opening: Opening) -> Option<Side> {
    match opening {
        Opening::Top => None,
        Opening::LeftLeg => Some(Side::Left),
        Opening::RightLeg => Some(Side::Right),
    }
}

impl EdgePlan<'_> {
    /// A ring is lapped over itself.
    fn joinable(&self) -> Result<(), Finding> {
        let Some(elastic) = &self.walk.elastic else { return Ok(()) };
        let (overlap, length) = (self.finish.settings.overlap, elastic.finished_length);
        if self.finish.put_on == PutOn::Flat || overlap < 0.5 * length {
            return Ok(());
        }
        Err(WorkFact::OverlapTooLong { opening: self.opening, overlap, half: 0.5 * length }.into())
    }

    /// What of the garment has to be there before the edge is worked on.
    fn ready(&self) -> Vec<Need> {
        let (put_on, own) = (self.finish.put_on, own_side(self.opening));
        let seams: &[Side] = match (put_on, own) {
            (PutOn::Flat, None) => &[Side::Left],
            (PutOn::Round, None) => &Side::ALL,
            (PutOn::Flat, Some(_)) => &[],
            (PutOn::Round, Some(Side::Left)) => &[Side::Left],
            (PutOn::Round, Some(Side::Right)) => &[Side::Right],
        };
        let because = match put_on {
            PutOn::Flat => Because::OneStrip,
            PutOn::Round => Because::OneRing,
        };
        let sides = seams.iter().map(|side| Need { step: StepId::side_pressed(*side), because });
        let gusset = own.map(|_| Need { step: self.pair.gusset_ready(), because: Because::RunsOverGusset });
        gusset.into_iter().chain(sides).collect()
    }

    /// The tasks of the finish, each after the one before, with what pins and cuts belong between.
    fn on_edge(&self) -> Vec<Job> {
        let tasks = self.finish.kind.tasks(&self.finish.settings);
        let is_sewn_on = matches!(self.finish.kind.takes(), Takes::Elastic | Takes::Strip);
        let first = |is: fn(&Task) -> bool| tasks.iter().position(is).filter(|_| is_sewn_on);
        let held = first(|t| t.sewing.is_some() || t.id == TaskId::Baste);
        let first_row = first(|t| t.sewing.is_some());
        // From the hand it is laid by the first step; pinned, it is stretched by the one that holds it.
        let spread = if self.is_laid_on() { first(|_| true) } else { held };
        let mut chain = Chain::default();
        for (i, task) in tasks.iter().enumerate() {
            let mut because = Because::Follows(task.id);
            let mut acts = task.acts.as_slice();
            if held == Some(i) && !self.is_laid_on() {
                // How it lies is known before it is pinned.
                let lies = acts.first().copied().filter(|act| act.lays());
                acts = &acts[usize::from(lies.is_some())..];
                chain.then(Because::LaidBeforePinned, prepare::pinned(*self, lies));
                because = Because::SpreadBeforeHeld;
            }
            chain.then(because, self.task(task, acts, spread == Some(i)));
            if first_row == Some(i) && self.is_laid_on() {
                chain.then(Because::CutWhereEdgeEnds, prepare::cut_off(*self));
            }
        }
        let Chain(jobs) = chain;
        jobs
    }

    /// A task, of which these acts are left to do.
    fn task(&self, task: &Task, acts: &[Act], spreads: bool) -> Job {
        let spread: Option<Spread> = if spreads { prepare::spread(*self) } else { None };
        let doing = Doing::Finish { acts: acts.to_vec(), runs: self.runs(task), spread };
        let mut job = self.job(EdgeStep::Task(task.id), doing).caution(task.caution);
        job.step.length = task.along.and_then(|along| self.row(along));
        job.step.sewing = task.sewing.map(|own| self.sewing(task, own));
        if task.id == TaskId::TryOn { self.wearable(job) } else { job }
    }

    /// Where a row runs, where its acts do not say it themselves, from what is to be seen while it is sewn:
    /// the raw edge, later the fold; where nothing is folded, the outer edge of what was sewn on.
    fn runs(&self, task: &Task) -> Option<Runs> {
        let along = task.along?;
        let does = |is: fn(&Act) -> bool| task.acts.iter().any(is);
        if does(|act| matches!(act, Act::ZigzagAtRawEdge(_) | Act::SewBandOn(_))) {
            None
        } else if does(|act| matches!(act, Act::LayOnRawEdge(..))) {
            let from_raw = self.finish.lines.cut - along;
            // Where the elastic will fold the cloth: nothing of the zigzag lies beyond it.
            let folds = does(|act| matches!(act, Act::ZigzagInnerEdge(_)));
            Some(if folds { Runs::SwingFromRawEdge(from_raw) } else { Runs::FromRawEdge(from_raw) })
        } else {
            let lines = &self.finish.lines;
            let outer = lines.elastic.map_or(0.0, |(_, outer)| outer);
            Some(lines.fold.map_or(Runs::FromOuterEdge(outer - along), |fold| Runs::FromFold(fold - along)))
        }
    }

    /// A strip of the cloth is sewn on by a seam like any other; its other rows are its own.
    fn sewing(&self, task: &Task, own: Sewing) -> Sewing {
        if task.acts.iter().any(|act| matches!(act, Act::SewBandOn(_))) { self.pair.seam() } else { own }
    }

    /// A pair that is tried on holds together.
    fn wearable(&self, job: Job) -> Job {
        let sides = Side::ALL.into_iter().map(StepId::side_pressed);
        sides.chain([self.pair.gusset_ready()]).fold(job, |job, step| job.after(step, Because::HoldsTogether))
    }

    /// The length of a row, measured on the pieces, mm.
    fn row(&self, along: f64) -> Option<f64> {
        let is = |line: Option<f64>| line.is_some_and(|d| (d - along).abs() < SAME);
        if is(self.finish.lines.sewing) {
            return Some(self.walk.sewing);
        }
        let second = |at: &EdgeRef| {
            let piece: &Piece = self.pair.garment.pieces.iter().find(|p| p.id == at.piece)?;
            piece.second_row.iter().find(|e| e.id == at.edge).map(|e| e.path.length())
        };
        is(self.finish.lines.second).then(|| self.walk.path.iter().map(second).sum::<Option<f64>>())?
    }
}

/// mm; the same line.
const SAME: f64 = 1e-9;
