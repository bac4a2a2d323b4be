//! A drawing's pieces, laid out on the plane.

use super::arrange;
use super::error::CutterError;
use super::options::{CutExtent, Cutting};
use super::plane::Plane;
use super::set::Set;
use crate::layout::TooWide;
use crate::outline;
use engine::drawing::{Drawing, Piece, QuarterTurns};

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
    let sets = drawn.pieces.iter().map(|p| Set::of(p, cutting)).collect::<Result<Vec<_>, _>>()?;
    if cutting.lays.is_empty() {
        return Ok(arrange::boxes(&sets, cutting).map_err(|e| with_remedy(e, drawing, cutting))?.plane(notes));
    }
    let turned =
        drawn.pieces.iter().map(|p| Set::of(&p.turned(QuarterTurns::Two), cutting)).collect::<Result<Vec<_>, _>>()?;
    Ok(arrange::laid(&sets, &turned, &cutting.lays).plane(notes))
}

/// A half is offered where the piece has one that would go on the sheet.
fn with_remedy(error: TooWide, drawing: &Drawing, cutting: &Cutting) -> TooWide {
    let is_half = |p: &Piece| p.name == error.piece && p.mirror.is_some() && p.bounds().width() <= error.width;
    let or_halves = match cutting.extent {
        CutExtent::Full if drawing.pieces.iter().any(is_half) => " or --halves",
        CutExtent::Full | CutExtent::Half => "",
    };
    TooWide { or_halves, ..error }
}
