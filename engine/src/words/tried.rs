//! What the trials of a sheet taught, a line each.

use super::number::short;
use crate::sheet::Trial;

/// Over the trials: so many are told, of so many.
pub(crate) fn heading(told: usize, all: usize) -> String {
    if told < all { format!("The last {told} trials") } else { "Trials so far".to_owned() }
}

/// A trial.
pub(crate) fn trial(t: &Trial) -> String {
    let date = t.date.as_ref().map(|d| format!("{d}, ")).unwrap_or_default();
    let shorter = t.reduction.map(|r| format!(" with {} % reduction", short(r.percent(), 1))).unwrap_or_default();
    let note = t.note.as_ref().map(|n| format!(" ({n})")).unwrap_or_default();
    format!("{date}{}{shorter}: {}{note}", t.edge.name(), t.verdict.name())
}
