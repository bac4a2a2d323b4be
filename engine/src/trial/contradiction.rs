//! Verdicts that cannot all be right: which two, and whether another trial has settled it.
//!
//! Nothing here changes what the model believes; it says what is told, what is sewn again, and which
//! verdicts an interval may be told by.

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
    /// What became of it.
    pub state: State,
}

/// What became of a contradiction.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum State {
    /// Nothing tells which of them is mistaken: both are to be sewn again.
    Open,
    /// One setting was sewn again, and the trial `by` goes against the trial `against`.
    Settled {
        /// The number of the trial that settled it.
        by: usize,
        /// The number of the one that does not count.
        against: usize,
    },
    /// More trials go against the trial `against` than against the other one.
    Outvoted {
        /// The number of the one that does not count.
        against: usize,
    },
}

/// The verdicts of a spot, weighed against each other.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Weighed {
    pub(super) contradictions: Vec<Contradiction>,
    /// Numbers of the trials that others have refuted.
    pub(super) refuted: Vec<usize>,
}

/// Settings as near as this are the same one, sewn again, percentage points.
const SAME: f64 = 1.0;

/// Weighs verdicts in the order of the trials.
pub(super) fn weighed(judged: &[Judged]) -> Weighed {
    let mut all = Weighed::default();
    for (i, new) in judged.iter().enumerate() {
        all.settle(new);
        let standing = judged[..i].iter().filter(|old| !all.refuted.contains(&old.trial) && against(old, new));
        let found: Vec<Contradiction> = standing.map(|old| pair(old, new)).collect();
        all.contradictions.extend(found);
    }
    while let Some(outvoted) = all.outvoted() {
        all.refute(outvoted, State::Outvoted { against: outvoted });
    }
    all
}

fn pair(one: &Judged, other: &Judged) -> Contradiction {
    Contradiction { one: one.clone(), other: other.clone(), state: State::Open }
}

impl Contradiction {
    /// Is it still to be settled?
    pub fn is_open(&self) -> bool {
        self.state == State::Open
    }

    fn holds(&self, trial: usize) -> bool {
        [self.one.trial, self.other.trial].contains(&trial)
    }
}

impl Weighed {
    pub(super) fn is_settled(&self) -> bool {
        !self.contradictions.iter().any(Contradiction::is_open)
    }

    /// Where a setting in question was sewn again, and what was said goes with one of both alone.
    fn settle(&mut self, new: &Judged) {
        let again = |c: &&Contradiction| {
            c.is_open() && [&c.one, &c.other].iter().any(|old| (old.setting - new.setting).abs() <= SAME)
        };
        let loser = |c: &Contradiction| match (against(&c.one, new), against(&c.other, new)) {
            (true, false) => Some(c.one.trial),
            (false, true) => Some(c.other.trial),
            _ => None,
        };
        let losers: Vec<usize> = self.contradictions.iter().filter(again).filter_map(loser).collect();
        for trial in losers {
            self.refute(trial, State::Settled { by: new.trial, against: trial });
        }
    }

    fn refute(&mut self, trial: usize, state: State) {
        for found in self.contradictions.iter_mut().filter(|c| c.is_open() && c.holds(trial)) {
            found.state = state.clone();
        }
        if !self.refuted.contains(&trial) {
            self.refuted.push(trial);
        }
    }

    /// The one trial that the most others go against, two at least.
    fn outvoted(&self) -> Option<usize> {
        let open = || self.contradictions.iter().filter(|c| c.is_open());
        let votes = |trial: usize| open().filter(|c| c.holds(trial)).count();
        let trials = open().flat_map(|c| [c.one.trial, c.other.trial]);
        let most = trials.clone().map(|trial| (votes(trial), trial)).max().filter(|(votes, _)| *votes >= 2)?;
        trials.clone().all(|trial| trial == most.1 || votes(trial) < most.0).then_some(most.1)
    }
}

/// Can both not be right?
fn against(one: &Judged, other: &Judged) -> bool {
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
