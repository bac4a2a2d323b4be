//! Does every finished edge lie on the right side of its cut line and of its stitches?
//!
//! What is folded in lies beyond the finished edge all along it, what is cut back lies short of it.
//! A line that changes sides has run into that of another edge.

use super::Subject;
use super::polygon::{Bands, Place, TOLERANCE};
use crate::finding::fact::OutlineFact;
use crate::garment::{Edge, Piece};
use crate::plan::FinishPlan;
use crate::terms::Opening;
use crate::topology::{OutlineEdge, PairPiece, Side};
use kurbo::Point;

/// The finished edges of a piece's openings, seen from its cut and sewing lines.
pub(super) fn disordered(s: &Subject<'_>, piece: &Piece, cut: &Bands, sewing: &Bands) -> Option<OutlineFact> {
    let drafted = s.topology.pieces.iter().find(|p| p.id == piece.id)?;
    let is_wrong = |edge: &Edge, finish: &FinishPlan| {
        let (lines, points) = (&finish.lines, edge.path.flatten(TOLERANCE));
        !lies_right(&points, cut, lines.cut) || !lies_right(&points, sewing, lines.sewing.unwrap_or(0.0))
    };
    piece.finished.edges.iter().find_map(|edge| {
        let opening = opening_of(drafted, edge.id)?;
        is_wrong(edge, s.plan.finish.get(opening)).then_some(OutlineFact::OutOfOrder { piece: piece.id, opening })
    })
}

/// Is a finished edge inside a line that runs beyond it, and outside one that runs short of it?
fn lies_right(finished: &[Point], line: &Bands, distance: f64) -> bool {
    if distance.abs() <= 2.0 * TOLERANCE {
        return true;
    }
    let wrong = if distance > 0.0 { Place::Outside } else { Place::Inside };
    finished.iter().all(|p| line.place(*p) != wrong)
}

/// The opening that an edge of an outline lies on; halves on the fold have legs that are alike.
pub(super) fn opening_of(drafted: &PairPiece, edge: OutlineEdge) -> Option<Opening> {
    let side = match edge {
        OutlineEdge::On(side, _) => side,
        _ => Side::Left,
    };
    let (_, lies) = drafted.edges.iter().find(|(known, _)| Some(*known) == edge.drafted())?;
    lies.opening(side)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Inside a line that runs a millimetre beyond it, outside one that runs short of it; of lines that run
    /// along it nothing is told.
    #[test]
    fn a_finished_edge_lies_on_its_side_of_the_line() {
        let square = [(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)].map(Point::from);
        let line = Bands::of(&square);
        let (inside, outside) = ([Point::new(50.0, 50.0)], [Point::new(50.0, 150.0)]);
        for distance in [0.2, 1.0, 12.0] {
            assert!(lies_right(&inside, &line, distance) && !lies_right(&outside, &line, distance), "{distance}");
            assert!(lies_right(&outside, &line, -distance) && !lies_right(&inside, &line, -distance), "{distance}");
        }
        for distance in [-0.09, 0.0, 0.09] {
            assert!(lies_right(&inside, &line, distance) && lies_right(&outside, &line, distance), "{distance}");
        }
    }
}
