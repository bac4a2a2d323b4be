//! From steps with needs to a list: topological, and always the same.

use super::Job;
use super::step::StepId;
use crate::finding::Finding;
use crate::finding::fact::WorkFact;
use crate::garment::Step;
use std::collections::BTreeMap;

/// Steps in an order that has every need before what needs it (Kahn 1962). Of the steps that are
/// free to be done, the one of the earliest phase comes first, and within a phase the one that was
/// planned first. Needs that follow from other needs are dropped.
pub(super) fn sorted(jobs: Vec<Job>) -> Result<Vec<Step>, Finding> {
    let index: BTreeMap<StepId, usize> = jobs.iter().enumerate().map(|(i, j)| (j.id(), i)).collect();
    let needs = jobs.iter().map(|job| numbers(job, &index)).collect::<Result<Vec<Vec<usize>>, Finding>>()?;
    let mut waiting: Vec<usize> = (0..jobs.len()).collect();
    waiting.sort_by_key(|i| jobs[*i].phase);
    // Of each step, which others come before it, however far.
    let mut before = vec![vec![false; jobs.len()]; jobs.len()];
    let mut done = vec![false; jobs.len()];
    let mut order = Vec::with_capacity(jobs.len());
    while !waiting.is_empty() {
        let free = waiting.iter().position(|i| needs[*i].iter().all(|need| done[*need]));
        let Some(free) = free else { return Err(circular(&jobs, waiting)) };
        let i = waiting.remove(free);
        for need in &needs[i] {
            let earlier = before[*need].clone();
            before[i].iter_mut().zip(earlier).for_each(|(known, also)| *known |= also);
            before[i][*need] = true;
        }
        done[i] = true;
        order.push(i);
    }
    let mut steps: Vec<Option<Step>> = jobs.into_iter().map(|job| Some(job.step)).collect();
    let direct = |mut step: Step, i: usize| {
        let known = |id: StepId| needs[i].iter().any(|n| index.get(&id).is_some_and(|k| before[*n][*k]));
        step.needs.retain(|need| !known(need.step));
        step
    };
    Ok(order.into_iter().filter_map(|i| steps[i].take().map(|step| direct(step, i))).collect())
}

fn numbers(job: &Job, index: &BTreeMap<StepId, usize>) -> Result<Vec<usize>, Finding> {
    let missing = |needs: StepId| WorkFact::MissingStep { step: job.id(), needs };
    job.step.needs.iter().map(|n| index.get(&n.step).copied().ok_or_else(|| missing(n.step).into())).collect()
}

fn circular(jobs: &[Job], mut waiting: Vec<usize>) -> Finding {
    waiting.sort_unstable();
    WorkFact::NoOrder { steps: waiting.into_iter().filter_map(|i| jobs.get(i)).map(Job::id).collect() }.into()
}

#[cfg(test)]
mod tests {
    use super::super::Phase;
    use super::super::because::Because;
    use super::super::doing::Doing;
    use super::*;
    use crate::topology::PieceId;

    const A: StepId = StepId::Cut(PieceId::Front);
    const B: StepId = StepId::Cut(PieceId::Back);
    const C: StepId = StepId::Cut(PieceId::Gusset);
    const D: StepId = StepId::LastLook;

    fn job(phase: Phase, id: StepId, needs: &[StepId]) -> Job {
        needs.iter().fold(Job::new(phase, id, Doing::LastLook), |job, need| job.after(*need, Because::IsCut))
    }

    #[test]
    fn needs_win_over_phases_and_phases_over_planning() {
        let jobs = vec![
            job(Phase::End, D, &[B]),
            job(Phase::Cutting, B, &[C]),
            job(Phase::Gusset, A, &[]),
            job(Phase::FlatTop, C, &[]),
        ];
        let ids: Vec<StepId> = sorted(jobs).unwrap().into_iter().map(|s| s.id).collect();
        assert_eq!(ids, [A, C, B, D]);
    }

    #[test]
    fn steps_that_wait_for_each_other_are_refused_by_name() {
        let jobs = vec![job(Phase::End, A, &[B]), job(Phase::End, B, &[A]), job(Phase::End, C, &[])];
        let found = sorted(jobs).unwrap_err();
        assert_eq!(found, WorkFact::NoOrder { steps: vec![A, B] }.into());
        assert_eq!(sorted(vec![job(Phase::End, A, &[D])]).unwrap_err().code, "work.missing_step");
    }

    #[test]
    fn what_follows_from_other_needs_is_dropped() {
        let jobs = vec![
            job(Phase::End, C, &[A, B]),
            job(Phase::End, B, &[A]),
            job(Phase::End, A, &[]),
            job(Phase::End, D, &[A, C]),
        ];
        let steps = sorted(jobs).unwrap();
        let needs: Vec<Vec<StepId>> = steps.iter().map(|s| s.needs.iter().map(|n| n.step).collect()).collect();
        assert_eq!(needs, [vec![], vec![A], vec![B], vec![C]]);
    }
}
