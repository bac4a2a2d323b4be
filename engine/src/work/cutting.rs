//! Cutting: one step for each piece, before anything is sewn.

use super::{Bench, Job, Phase};
use crate::drawing::ON_FOLD;

/// The step that cuts a piece.
pub(super) fn name(piece: &str) -> String {
    format!("cut {piece}")
}

/// Every piece.
pub(super) fn jobs(bench: Bench<'_>) -> Vec<Job> {
    let pieces = bench.garment.pieces.iter();
    pieces
        .map(|p| {
            let fold = if p.on_fold { format!(", {ON_FOLD}") } else { String::new() };
            let marks = if p.notches.is_empty() { "" } else { ", and snip or chalk every notch" };
            let stretch = if p.id.is_band() { "along the strip" } else { "round the body" };
            let does = format!(
                "lay the piece on the right side of {}{fold}, greatest stretch {stretch}, and cut {} along the cut \
                 line{marks}",
                p.material, p.quantity
            );
            Job::new(Phase::Cutting, name(p.id.name()), format!("Cut the {}", p.id.name()), does).length(p.perimeter_mm)
        })
        .collect()
}
