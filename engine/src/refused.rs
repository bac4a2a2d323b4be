//! A garment that cannot be made: every reason, and how far it came.

use crate::check;
use crate::draft::Draft;
use crate::finding::Finding;
use crate::garment::Piece;
use crate::plan::Plan;
use crate::quantity::Units;
use crate::words::Speech;

/// The sheet was understood, but this garment cannot be made.
#[derive(Clone, Debug, thiserror::Error)]
#[error("{}", Speech(*.units).refused(.findings))]
pub struct Refused {
    /// The sheet's unit.
    pub units: Units,
    /// Every cause, with its other effects under it. A finding has the level `Refusal`, or says
    /// what may be behind the others.
    pub findings: Vec<Finding>,
    /// The geometry that exists, so that it can be shown.
    pub reached: Box<Reached>,
}

/// How far a garment came. Of a variant: the variant's own.
#[derive(Clone, Debug, Default)]
pub struct Reached {
    /// What was to be made.
    pub plan: Option<Plan>,
    /// The net pieces.
    pub draft: Option<Draft>,
    /// The pieces that could be drawn.
    pub pieces: Vec<Piece>,
}

impl Refused {
    pub(crate) fn new(units: Units, found: Vec<Finding>, reached: Reached) -> Self {
        Self { units, findings: check::by_cause(found), reached: Box::new(reached) }
    }

    /// All of it is the fault of a variant of the sheet, beside what was found of the sheet itself.
    pub(crate) fn of_variant(self, name: &str, of_sheet: &[Finding]) -> Self {
        let mut all = self.with_suspicion();
        all.findings.retain(|found| !of_sheet.contains(found));
        all.findings = all.findings.into_iter().map(|found| found.of_variant(name)).collect();
        all
    }

    /// With what may be behind it: a mistaken number or unit is the usual cause of an impossible
    /// garment.
    pub(crate) fn with_suspicion(mut self) -> Self {
        let Some(plan) = &self.reached.plan else { return self };
        let mut suspected = check::suspected(plan, self.units);
        self.findings.retain(|found| !suspected.contains(found));
        suspected.append(&mut self.findings);
        self.findings = check::by_cause(suspected);
        self.findings.sort_by_key(|found| std::cmp::Reverse(found.level));
        self
    }

    /// Every finding, effects too.
    pub fn all(&self) -> impl Iterator<Item = &Finding> {
        self.findings.iter().flat_map(Finding::all)
    }
}
