//! Verdicts that cannot all be right: which two, and whether more trials have settled it.
//!
//! Nothing here changes what the model believes; it says what is told, what is sewn again, and which
//! verdicts an interval is told by.

use super::belief::BAND;
use super::evidence::Judged;
use crate::terms::Verdict;

/// Two verdicts that no single comfortable setting explains, however wide the band of comfort.
#[derive(Clone, Debug, PartialEq)]
pub struct Contradiction {
    /// The earlier one.
    pub one: Judged,
    /// The later one.
    pub other: Judged,
    /// Which of both is refuted; none while nothing tells, and both are to be sewn again.
    pub refuted: Option<Refuted>,
}

/// A trial that others go against.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Refuted {
    /// Its number.
    pub trial: usize,
    /// Theirs.
    pub by: Vec<usize>,
}

impl Contradiction {
    /// Is it still to be settled?
    pub const fn is_open(&self) -> bool {
        self.refuted.is_none()
    }

    fn holds(&self, trial: usize) -> bool {
        self.one.trial == trial || self.other.trial == trial
    }

    fn against(&self, trial: usize) -> usize {
        if self.one.trial == trial { self.other.trial } else { self.one.trial }
    }
}

/// Every contradiction between the verdicts of a spot. A trial is refuted that more others go against
/// than against any of the others that are in question.
pub(super) fn contradictions(judged: &[Judged]) -> Vec<Contradiction> {
    let mut all = Vec::new();
    for (i, one) in judged.iter().enumerate() {
        let against = judged[i + 1..].iter().filter(|other| cannot_both_hold(one, other));
        all.extend(against.map(|other| Contradiction { one: one.clone(), other: other.clone(), refuted: None }));
    }
    while let Some(trial) = outvoted(&all) {
        let in_question = |found: &Contradiction| found.is_open() && found.holds(trial);
        let by: Vec<usize> = all.iter().filter(|c| in_question(c)).map(|c| c.against(trial)).collect();
        for found in all.iter_mut().filter(|c| in_question(c)) {
            found.refuted = Some(Refuted { trial, by: by.clone() });
        }
    }
    all
}

/// The trial of those in question that the most others go against, two at least.
fn outvoted(all: &[Contradiction]) -> Option<usize> {
    let open: Vec<&Contradiction> = all.iter().filter(|c| c.is_open()).collect();
    let votes = |trial: usize| open.iter().filter(|c| c.holds(trial)).count();
    let mut trials: Vec<usize> = open.iter().flat_map(|c| [c.one.trial, c.other.trial]).collect();
    trials.sort_unstable();
    trials.dedup();
    let most = trials.iter().copied().max_by_key(|trial| votes(*trial)).filter(|trial| votes(*trial) >= 2)?;
    trials.iter().all(|trial| *trial == most || votes(*trial) < votes(most)).then_some(most)
}

fn cannot_both_hold(one: &Judged, other: &Judged) -> bool {
    let doubt = if one.shares_doubt_with(other) { 0.0 } else { one.carried.doubt() + other.carried.doubt() };
    let (a, b) = (comfortable(one), comfortable(other));
    a.0.max(b.0) - doubt >= a.1.min(b.1)
}

/// Where the comfortable setting lies if a verdict is right.
const fn comfortable(judged: &Judged) -> (f64, f64) {
    let at = judged.setting;
    match judged.verdict {
        Verdict::Right => (at - BAND.1, at + BAND.1),
        Verdict::Loose => (at + BAND.0, f64::INFINITY),
        Verdict::Tight => (f64::NEG_INFINITY, at - BAND.0),
    }
}
