//! One opening of the garment with its finish: what every file that plans steps there asks for.

use super::doing::Doing;
use super::step::{EdgeStep, StepId};
use super::{Job, Pair, Phase};
use crate::garment::OpeningWalk;
use crate::plan::FinishPlan;
use crate::terms::{Opening, PutOn};

/// One opening and how it is finished.
#[derive(Clone, Copy)]
pub(super) struct EdgePlan<'a> {
    pub(super) pair: Pair<'a>,
    pub(super) opening: Opening,
    pub(super) finish: &'a FinishPlan,
    pub(super) walk: &'a OpeningWalk,
}

impl<'a> EdgePlan<'a> {
    /// None where the garment has no such opening.
    pub(super) fn of(pair: Pair<'a>, opening: Opening) -> Option<Self> {
        let walk = pair.garment.openings.iter().find(|o| o.opening == opening)?;
        Some(Self { pair, opening, finish: pair.plan.finish.get(opening), walk })
    }

    pub(super) const fn id(&self, step: EdgeStep) -> StepId {
        StepId::Edge(self.opening, step)
    }

    pub(super) const fn job(&self, step: EdgeStep, doing: Doing) -> Job {
        Job::new(self.phase(), self.id(step), doing)
    }

    const fn phase(&self) -> Phase {
        match (self.opening, self.finish.put_on) {
            (Opening::Top, PutOn::Flat) => Phase::FlatTop,
            (Opening::Top, PutOn::Round) => Phase::RoundTop,
            (leg, PutOn::Flat) => Phase::FlatLeg(leg),
            (leg, PutOn::Round) => Phase::RoundLeg(leg),
        }
    }

    /// Is the elastic laid on from the length in hand?
    pub(super) fn is_laid_on(&self) -> bool {
        self.walk.elastic.as_ref().is_some_and(|e| crate::measure::elastic::is_laid_on(self.finish, e.reduction))
    }
}
