//! Cutting: one step for each piece, before anything is sewn.

use super::doing::{Doing, Notches, StretchRuns};
use super::step::StepId;
use super::{Job, Pair, Phase};
use crate::garment::Piece;
use crate::terms::Opening;
use crate::topology::PieceId;

/// Every piece.
pub(super) fn jobs(pair: Pair<'_>) -> Vec<Job> {
    let pieces = pair.garment.pieces.iter();
    pieces
        .map(|p| {
            let doing = Doing::Cut {
                quantity: p.quantity,
                material: p.material.clone(),
                extent: p.extent,
                stretch: if p.id.is_band() { StretchRuns::AlongTheStrip } else { StretchRuns::RoundTheBody },
                notches: notches(pair, p),
            };
            Job::new(Phase::Cutting, StepId::Cut(p.id), doing).length(p.perimeter_mm)
        })
        .collect()
}

/// A snip stays to be seen in an edge that is neither folded in nor covered: chalk comes off.
fn notches(pair: Pair<'_>, piece: &Piece) -> Notches {
    if piece.notches.is_empty() {
        return Notches::None;
    }
    let openings: &[Opening] = match piece.id {
        PieceId::Front | PieceId::Back => &Opening::ALL,
        PieceId::Gusset | PieceId::GussetLining => &[Opening::LeftLeg, Opening::RightLeg],
        PieceId::TopBand | PieceId::LegBand | PieceId::LeftLegBand | PieceId::RightLegBand => &[],
    };
    let shows = |o: &&Opening| pair.plan.finish.get(**o).lines.shows_raw_edge();
    let shown: Vec<Opening> = openings.iter().filter(shows).copied().collect();
    if shown.is_empty() { Notches::Snipped } else { Notches::ChalkedOn(shown) }
}
