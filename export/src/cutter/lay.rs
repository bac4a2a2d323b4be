//! A drawing's pieces, laid out on the plane.

use super::arrange;
use super::error::CutterError;
use super::options::{CutExtent, Cutting, Turns};
use super::plane::Plane;
use super::set::Set;
use crate::layout::TooLarge;
use crate::outline;
use engine::drawing::{Drawing, Piece, QuarterTurns};

/// Lays out a drawing, with notes over it.
///
/// # Errors
/// [`CutterError`] for an unsound drawing, a choice that makes no sense, pieces that do not go on the
/// bed, or a hollow too narrow for the kerf.
pub(crate) fn lay(drawing: &Drawing, cutting: &Cutting, notes: &[String]) -> Result<Plane, CutterError> {
    arranged(drawing, cutting, notes).map_err(|error| match error {
        CutterError::TooLarge(TooLarge { pieces, bed, .. }) => {
            TooLarge { pieces, bed, others: others(drawing, cutting) }.into()
        }
        other => other,
    })
}

fn arranged(drawing: &Drawing, cutting: &Cutting, notes: &[String]) -> Result<Plane, CutterError> {
    cutting.check()?;
    let unfolded: Vec<Piece>;
    let drawn = match cutting.extent {
        CutExtent::Full => {
            unfolded = drawing.pieces.iter().map(Piece::unfolded).collect();
            &unfolded
        }
        CutExtent::Half => &drawing.pieces,
    };
    outline::check_all(drawn)?;
    let turned_by = |by| drawn.iter().map(|p| Set::of(&p.turned(by), cutting)).collect::<Result<Vec<_>, _>>();
    let sets = drawn.iter().map(|p| Set::of(p, cutting)).collect::<Result<Vec<_>, _>>()?;
    if cutting.lays.is_empty() {
        let turned = if cutting.turns == Turns::ByQuarters { turned_by(QuarterTurns::One)? } else { Vec::new() };
        return Ok(arrange::boxes(&sets, &turned, cutting)?.plane(notes));
    }
    let turned = turned_by(QuarterTurns::Two)?;
    Ok(arrange::laid(&sets, &turned, &cutting.lays).plane(notes))
}

/// What each remedy makes of the choices.
type Remedy = (&'static str, CutExtent, Turns);

/// Which of the other choices would do: each is tried, both together where neither does alone.
fn others(drawing: &Drawing, cutting: &Cutting) -> Vec<&'static str> {
    const ALONE: [Remedy; 2] = [
        ("--halves", CutExtent::Half, Turns::AsDrawn),
        ("--quarter-turns (card has no grain)", CutExtent::Full, Turns::ByQuarters),
    ];
    const BOTH: [Remedy; 1] =
        [("--halves with --quarter-turns (card has no grain)", CutExtent::Half, Turns::ByQuarters)];
    let does = |(_, extent, turns): &Remedy| {
        let extent = if cutting.extent == CutExtent::Half { CutExtent::Half } else { *extent };
        let turns = if cutting.turns == Turns::ByQuarters { Turns::ByQuarters } else { *turns };
        let other = Cutting { extent, turns, ..cutting.clone() };
        (extent, turns) != (cutting.extent, cutting.turns) && arranged(drawing, &other, &[]).is_ok()
    };
    let which = |remedies: &[Remedy]| remedies.iter().filter(|r| does(r)).map(|r| r.0).collect::<Vec<_>>();
    Some(which(&ALONE)).filter(|found| !found.is_empty()).unwrap_or_else(|| which(&BOTH))
}
