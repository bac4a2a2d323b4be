//! One opening: what its finish does, after what has to be ready for it.

use super::side::Side;
use super::{Bench, Job, Phase, capital, chained, gusset, prepare};
use crate::finding::refusal;
use crate::finish::{Takes, Task};
use crate::garment::{EdgeRef, Finding, Need, OpeningWalk, Piece};
use crate::plan::{FinishPlan, section_name};
use crate::terms::{Opening, PutOn};
use crate::words::both;

/// One opening and how it is finished.
#[derive(Clone, Copy)]
pub(super) struct EdgePlan<'a> {
    pub(super) bench: Bench<'a>,
    pub(super) opening: Opening,
    pub(super) finish: &'a FinishPlan,
    pub(super) walk: &'a OpeningWalk,
}

fn edge_plan(bench: Bench<'_>, opening: Opening) -> Option<EdgePlan<'_>> {
    let walk = bench.garment.openings.iter().find(|o| o.opening == opening)?;
    Some(EdgePlan { bench, opening, finish: bench.plan.finish.get(opening), walk })
}

/// The last step at an opening; none where nothing is done there.
pub(super) fn last(bench: Bench<'_>, opening: Opening) -> Option<String> {
    edge_plan(bench, opening)?.on_edge().last().map(|job| job.name().to_owned())
}

/// Everything at one opening.
///
/// # Errors
/// Where what is put on cannot be joined.
pub(super) fn jobs(bench: Bench<'_>, opening: Opening) -> Result<Vec<Job>, Finding> {
    let Some(edge) = edge_plan(bench, opening) else { return Ok(Vec::new()) };
    edge.joinable()?;
    let mut prepared = prepare::before(edge);
    let mut on_edge = edge.on_edge();
    let Some(first) = on_edge.first_mut() else { return Ok(Vec::new()) };
    first.step.needs.extend(edge.ready());
    if let Some(made) = prepared.last() {
        let name =
            if edge.finish.kind.takes() == Takes::Threaded { edge.named("thread") } else { first.name().to_owned() };
        let need =
            Need { before: made.name().to_owned(), because: "what is put on is ready before the edge is worked on" };
        let user = on_edge.iter().position(|job| job.name() == name).unwrap_or(0);
        on_edge[user].step.needs.push(need);
    }
    prepared.extend(on_edge);
    Ok(prepared)
}

impl EdgePlan<'_> {
    pub(super) fn named(&self, what: &str) -> String {
        format!("{} {what}", self.opening.name())
    }

    pub(super) fn job(&self, what: &str, title: &str, does: impl Into<String>) -> Job {
        let title = format!("{}, {title}", capital(self.opening.name()));
        Job::new(self.phase(), self.named(what), title, does).edge(self.opening.name())
    }

    const fn phase(&self) -> Phase {
        match (self.opening, self.finish.put_on) {
            (Opening::Top, PutOn::Flat) => Phase::FlatTop,
            (Opening::Top, PutOn::Round) => Phase::RoundTop,
            (leg, PutOn::Flat) => Phase::FlatLeg(leg),
            (leg, PutOn::Round) => Phase::RoundLeg(leg),
        }
    }

    /// A ring is lapped over itself.
    fn joinable(&self) -> Result<(), Finding> {
        let Some(elastic) = &self.walk.elastic else { return Ok(()) };
        let (overlap, length) = (self.finish.overlap, elastic.finished_length);
        if self.finish.put_on == PutOn::Flat || overlap < 0.5 * length {
            return Ok(());
        }
        let place = format!("finish.{}.overlap", section_name(self.opening));
        let text = format!("the ends of a ring of {} cannot be lapped {}", both(length), both(overlap));
        let next = "give a shorter overlap, about 20 mm (3/4 in), or a longer elastic";
        Err(refusal("work.overlap_too_long", &place, text, next).measured(overlap, 0.5 * length, "mm"))
    }

    /// What of the garment has to be there before the edge is worked on.
    fn ready(&self) -> Vec<Need> {
        let (put_on, own) = (self.finish.put_on, self.opening.own_side());
        let seams: &[Side] = match (put_on, own) {
            (PutOn::Flat, None) => &[Side::Left],
            (PutOn::Round, None) => &Side::ALL,
            (PutOn::Flat, Some(_)) => &[],
            (PutOn::Round, Some(Side::Left)) => &[Side::Left],
            (PutOn::Round, Some(Side::Right)) => &[Side::Right],
        };
        let because = match put_on {
            PutOn::Flat => "put on flat, the top edge is one strip from side seam to side seam: one closed, one open",
            PutOn::Round => "put on round, the opening is a ring, and its fold or stitches run across pressed seams",
        };
        let sides = seams.iter().map(|side| Need { before: side.pressed(), because });
        let gusset = own.map(|_| Need {
            before: gusset::ready(self.bench).to_owned(),
            because: "the leg edge runs over the gusset, whose seams are closed and pressed, and whose layers are one",
        });
        gusset.into_iter().chain(sides).collect()
    }

    /// The tasks of the finish, each after the one before, with what pins and cuts belong between.
    fn on_edge(&self) -> Vec<Job> {
        let tasks = self.finish.kind.tasks(&self.finish.settings);
        let is_sewn_on = matches!(self.finish.kind.takes(), Takes::Elastic | Takes::Strip);
        let first = |is: fn(&Task) -> bool| tasks.iter().position(is).filter(|_| is_sewn_on);
        let held = first(|t| t.stitch.is_some() || t.name == "baste");
        let first_row = first(|t| t.stitch.is_some());
        // From the hand it is laid by the first step; pinned, it is stretched by the one that holds it.
        let spread = if self.is_laid_on() { first(|_| true) } else { held };
        let mut links = Vec::new();
        for (i, task) in tasks.iter().enumerate() {
            if held == Some(i) && !self.is_laid_on() {
                links.push((prepare::pinned(*self), "what is folded round the edge is laid before it is pinned"));
            }
            links.push((self.task(task, spread == Some(i)), because(task.name, held == Some(i))));
            if first_row == Some(i) && self.is_laid_on() {
                links.push((prepare::cut_off(*self), "laid on from the length in hand, it is cut where the edge ends"));
            }
        }
        chained(links)
    }

    /// Is the elastic laid on from the length in hand?
    pub(super) fn is_laid_on(&self) -> bool {
        self.walk.elastic.as_ref().is_some_and(|e| crate::measure::elastic::is_laid_on(self.finish, e.reduction))
    }

    fn task(&self, task: &Task, spreads: bool) -> Job {
        let mut does = task.does.clone();
        if let Some(along) = task.along {
            does.push_str(&format!("; the row runs {}", runs(along)));
        }
        if spreads {
            does.push_str(&prepare::stretched(*self));
        }
        let mut job = self.job(task.name, task.name, does);
        job.step.length = task.along.and_then(|along| self.row(along));
        // A strip of the cloth is sewn on by a seam like any other.
        let seam = (self.finish.kind.takes() == Takes::Strip).then(|| self.bench.seam_stitch());
        job.step.stitch = task.stitch.map(|code| seam.unwrap_or(code).to_owned());
        job.step.caution = task.caution.map(str::to_owned);
        if task.name == "try on" { self.wearable(job) } else { job }
    }

    /// A pair that is tried on holds together.
    fn wearable(&self, job: Job) -> Job {
        let because = "a pair that is tried on holds together at all its seams";
        let job = Side::ALL.iter().fold(job, |job, side| job.after(&side.pressed(), because));
        job.after(gusset::ready(self.bench), because)
    }

    /// The length of a row, measured on the pieces, mm.
    fn row(&self, along: f64) -> Option<f64> {
        let is = |line: Option<f64>| line.is_some_and(|d| (d - along).abs() < SAME);
        if is(self.finish.lines.sewing) {
            return Some(self.walk.sewing);
        }
        let second = |at: &EdgeRef| {
            let piece: &Piece = self.bench.garment.pieces.iter().find(|p| p.name == at.piece)?;
            piece.second_row.iter().find(|e| e.name == at.edge).map(|e| e.path.length())
        };
        is(self.finish.lines.second).then(|| self.walk.path.iter().map(second).sum::<Option<f64>>())?
    }
}

/// mm; the same line.
const SAME: f64 = 1e-9;

/// Where a row lies, seen from the finished edge.
fn runs(along: f64) -> String {
    match along {
        d if d.abs() < SAME => "on the finished edge".to_owned(),
        d if d < 0.0 => format!("{} inside the finished edge", both(-d)),
        d => format!("{} beyond the finished edge, on the allowance", both(d)),
    }
}

/// Why a task comes after what stands before it.
fn because(task: &str, is_pinned: bool) -> &'static str {
    match task {
        _ if is_pinned => "what is put on is spread by its marks before any stitch holds it",
        "row 1" => "the edge has to lie as it will be worn before it is stitched",
        "press" => "the first row forms the edge that is turned and pressed",
        "row 2" => "the second row holds what lies as it will be worn",
        "thread" => "there has to be a tunnel / casing to thread through",
        "try on" => "the elastic is drawn in on the body, where it can still be let out",
        "join" => "once it is joined its length is settled",
        "close" => "the opening is needed until the elastic is joined",
        _ => "it goes on from the step before",
    }
}
