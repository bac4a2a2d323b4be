//! Can a foot follow every edge?

use super::Subject;
use super::nesting::opening_of;
use crate::finding::fact::OutlineFact;
use crate::garment::Piece;

/// No presser foot follows a tighter turn, whatever is sewn, and scissors hardly do, mm: half the width of a
/// usual foot is about that (common practice).
const LEAST: f64 = 5.0;

/// A finished edge that turns more tightly than anything can be sewn along it, to either side.
pub(super) fn tight(s: &Subject<'_>, piece: &Piece) -> Option<OutlineFact> {
    let drafted = s.topology.pieces.iter().find(|p| p.id == piece.id)?;
    let turns = piece.finished.edges.iter().filter_map(|edge| {
        let radius = edge.path.tightest(1.0).min(edge.path.tightest(-1.0));
        Some((opening_of(drafted, edge.id)?, radius))
    });
    let (opening, radius) = turns.min_by(|a, b| a.1.total_cmp(&b.1)).filter(|(_, radius)| *radius < LEAST)?;
    Some(OutlineFact::TurnsTight { piece: piece.id, opening, radius, least: LEAST })
}
