//! From steps with needs to a list: topological, and always the same.

use super::{Job, Phase};
use crate::finding::refusal;
use crate::garment::{Finding, Step};
use std::collections::{BTreeMap, BTreeSet};

/// Steps in an order that has every need before what needs it (Kahn 1962). Of the steps that are
/// free to be done, the one of the earliest phase comes first, and within a phase the one that was
/// planned first. Needs that follow from other needs are dropped.
pub(super) fn sorted(jobs: Vec<Job>) -> Result<Vec<Step>, Finding> {
    let index: BTreeMap<String, usize> = jobs.iter().enumerate().map(|(i, j)| (j.step.step.clone(), i)).collect();
    let needs = jobs.iter().map(|job| numbers(job, &index)).collect::<Result<Vec<BTreeSet<usize>>, Finding>>()?;
    let mut waiting: BTreeSet<(Phase, usize)> = jobs.iter().enumerate().map(|(i, j)| (j.phase, i)).collect();
    let mut before: Vec<BTreeSet<usize>> = vec![BTreeSet::new(); jobs.len()];
    let mut order = Vec::with_capacity(jobs.len());
    while !waiting.is_empty() {
        let still: BTreeSet<usize> = waiting.iter().map(|(_, i)| *i).collect();
        let free = waiting.iter().copied().find(|(_, i)| needs[*i].is_disjoint(&still));
        let Some(next) = free else { return Err(knotted(&jobs, &still)) };
        waiting.remove(&next);
        let (_, i) = next;
        before[i] = needs[i].iter().flat_map(|n| before[*n].iter().copied().chain([*n])).collect();
        order.push(i);
    }
    let mut steps: Vec<Option<Step>> = jobs.into_iter().map(|job| Some(job.step)).collect();
    let direct = |mut step: Step, i: usize| {
        let known = |name: &str| needs[i].iter().any(|n| index.get(name).is_some_and(|k| before[*n].contains(k)));
        step.needs.retain(|need| !known(&need.before));
        step
    };
    Ok(order.into_iter().filter_map(|i| steps[i].take().map(|step| direct(step, i))).collect())
}

fn numbers(job: &Job, index: &BTreeMap<String, usize>) -> Result<BTreeSet<usize>, Finding> {
    let missing = |name: &str| {
        let text = format!("\"{}\" waits for \"{name}\", which nobody does", job.step.step);
        refusal("work.missing_step", "order of work", text, "report it with the sheet: it is a fault of the program")
    };
    job.step.needs.iter().map(|n| index.get(&n.before).copied().ok_or_else(|| missing(&n.before))).collect()
}

fn knotted(jobs: &[Job], still: &BTreeSet<usize>) -> Finding {
    let names: Vec<&str> = still.iter().filter_map(|i| jobs.get(*i)).map(Job::name).collect();
    let text = format!("these steps wait for each other: {}", names.join(", "));
    refusal(
        "work.no_order",
        "order of work",
        text,
        "put one of these edges on round instead of flat, or flat instead of round",
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    fn job(phase: Phase, name: &str, needs: &[&str]) -> Job {
        needs.iter().fold(Job::new(phase, name, name, ""), |job, need| job.after(need, "it must"))
    }

    fn names(jobs: Vec<Job>) -> Vec<String> {
        sorted(jobs).unwrap().into_iter().map(|s| s.step).collect()
    }

    #[test]
    fn needs_win_over_phases_and_phases_over_planning() {
        let jobs = vec![
            job(Phase::End, "d", &["b"]),
            job(Phase::Cutting, "b", &["c"]),
            job(Phase::Gusset, "a", &[]),
            job(Phase::FlatTop, "c", &[]),
        ];
        assert_eq!(names(jobs), ["a", "c", "b", "d"]);
    }

    #[test]
    fn steps_that_wait_for_each_other_are_refused_by_name() {
        let jobs = vec![job(Phase::End, "a", &["b"]), job(Phase::End, "b", &["a"]), job(Phase::End, "c", &[])];
        let found = sorted(jobs).unwrap_err();
        assert_eq!((found.code, found.text.as_str()), ("work.no_order", "these steps wait for each other: a, b"));
        assert_eq!(sorted(vec![job(Phase::End, "a", &["x"])]).unwrap_err().code, "work.missing_step");
    }

    #[test]
    fn what_follows_from_other_needs_is_dropped() {
        let jobs = vec![
            job(Phase::End, "c", &["a", "b"]),
            job(Phase::End, "b", &["a"]),
            job(Phase::End, "a", &[]),
            job(Phase::End, "d", &["a", "c"]),
        ];
        let steps = sorted(jobs).unwrap();
        let needs: Vec<Vec<&str>> = steps.iter().map(|s| s.needs.iter().map(|n| n.before.as_str()).collect()).collect();
        assert_eq!(needs, [vec![], vec!["a"], vec!["b"], vec!["c"]]);
    }
}
