//! A drawing's pieces, laid out on the plane.

use super::arrange;
use super::error::CutterError;
use super::options::{CutExtent, Cutting, Turns};
use super::plane::Plane;
use super::set::Set;
use crate::layout::TooLarge;
use crate::outline;
use engine::drawing::{Drawing, Piece, QuarterTurns};
use kurbo::Rect;

/// Lays out a drawing, with notes under it.
///
/// # Errors
/// [`CutterError`] for an unsound drawing, a choice that makes no sense, a piece that does not go
/// on the sheet, or a hollow too narrow for the kerf.
pub(crate) fn lay(drawing: &Drawing, cutting: &Cutting, notes: &[String]) -> Result<Plane, CutterError> {
    cutting.check()?;
    let unfolded;
    let drawn = match cutting.extent {
        CutExtent::Full => {
            unfolded = drawing.unfolded();
            &unfolded
        }
        CutExtent::Half => drawing,
    };
    outline::check(drawn)?;
    let turned_by = |by| drawn.pieces.iter().map(|p| Set::of(&p.turned(by), cutting)).collect::<Result<Vec<_>, _>>();
    let sets = turned_by(QuarterTurns::None)?;
    if cutting.lays.is_empty() {
        let turned = if cutting.turns == Turns::ByQuarters { turned_by(QuarterTurns::One)? } else { Vec::new() };
        let arranged = arrange::boxes(&sets, &turned, cutting).map_err(|e| with_remedy(e, drawing, cutting))?;
        return Ok(arranged.plane(notes));
    }
    let turned = turned_by(QuarterTurns::Two)?;
    Ok(arrange::laid(&sets, &turned, &cutting.lays).plane(notes))
}

/// A half is offered where the piece has one that would go on the sheet.
fn with_remedy(mut error: TooLarge, drawing: &Drawing, cutting: &Cutting) -> TooLarge {
    let goes_on = |r: Rect| r.width() <= error.bed.width && r.height() <= error.bed.height;
    let is_half = |p: &Piece| p.name == error.piece && p.mirror.is_some() && goes_on(p.bounds());
    if cutting.extent == CutExtent::Full && drawing.pieces.iter().any(is_half) {
        error.remedies.insert(1, "--halves");
    }
    error
}
