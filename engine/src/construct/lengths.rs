//! How much of an elastic or a band goes on each part of an opening.

use crate::finding::Finding;
use crate::finding::fact::FinishFact;
use crate::keys::finish::REDUCTIONS;
use crate::plan::{FinishPlan, LengthPlan, Plan};
use crate::sheet::Basis;
use crate::terms::{Marks, Opening, Spread};
use crate::topology::PairArc;

/// Finished length on each part of an opening whose line there measures so much, mm; none where
/// nothing is sewn on.
///
/// # Errors
/// [`FinishFact::RestOutOfReach`] where a whole length and parts with a reduction of their own
/// leave to the other parts what they cannot have.
pub(super) fn lengths(
    plan: &Plan,
    finish: &FinishPlan,
    arcs: &[PairArc],
    measured: &[f64],
) -> Result<Option<Vec<f64>>, Finding> {
    let Some(of) = &finish.length else { return Ok(None) };
    let lines =
        Lines { measured, own: arcs.iter().map(|arc| of.sections.get(&arc.section.section).copied()).collect() };
    let rest = rest(plan, finish, of, &lines)?;
    let even: Vec<f64> = lines.each().map(|(line, own)| line * (1.0 - own.unwrap_or(rest))).collect();
    // Folded in equal parts, a top elastic meets seams and centres with its quarters. On a leg the
    // edge is parted equally as well, which is an even stretch.
    let in_equal_parts =
        finish.spread == Spread::Equal && finish.settings.opening == Opening::Top && finish.marks != Marks::Halves;
    if in_equal_parts {
        let quarter = even.iter().sum::<f64>() / even.len() as f64;
        return Ok(Some(vec![quarter; even.len()]));
    }
    Ok(Some(even))
}

/// The line of each part, mm, and the reduction that it has of its own.
struct Lines<'m> {
    measured: &'m [f64],
    own: Vec<Option<f64>>,
}

impl Lines<'_> {
    fn each(&self) -> impl Iterator<Item = (f64, Option<f64>)> {
        self.measured.iter().copied().zip(self.own.iter().copied())
    }

    /// What the parts with a reduction of their own take, mm.
    fn taken(&self) -> f64 {
        self.each().filter_map(|(line, own)| own.map(|r| line * (1.0 - r))).sum()
    }

    /// The lines of the other parts, mm.
    fn left(&self) -> f64 {
        self.each().filter(|(_, own)| own.is_none()).map(|(line, _)| line).sum()
    }
}

/// The reduction of every part that has none of its own: as given, or what is left of a whole length.
fn rest(plan: &Plan, finish: &FinishPlan, of: &LengthPlan, lines: &Lines<'_>) -> Result<f64, Finding> {
    let whole = match of.basis {
        Basis::Reduction(r) => return Ok(r.fraction()),
        Basis::Length(l) => l.mm(),
        Basis::Body => plan.body.elastic_top.unwrap_or_else(|| lines.measured.iter().sum()),
    };
    let (taken, left) = (lines.taken(), lines.left());
    let rest = 1.0 - (whole - taken) / left;
    // A part may be reduced as far as a sheet can ask for in so many words.
    let (least, most) = REDUCTIONS;
    let at = |percent: f64| taken + left * (1.0 - percent / 100.0);
    let (shortest, longest) = (at(most), at(least));
    if of.sections.is_empty() || (whole >= shortest && whole <= longest) {
        return Ok(rest);
    }
    let (opening, basis) = (finish.settings.opening, of.basis);
    Err(FinishFact::RestOutOfReach { opening, basis, whole, taken, left, shortest, longest }.into())
}
