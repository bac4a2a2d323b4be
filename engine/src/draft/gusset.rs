//! The gusset: a straight front seam, a straight back seam, and sides that belong to the leg openings.

use super::Gusset;
use crate::curve::Path;
use crate::finding::Finding;
use crate::finding::fact::{DraftFact, Part};
use crate::plan::GussetPlan;
use kurbo::Point;

/// Both ends are at least as wide as the narrowest place.
pub(super) fn check_widths(g: &GussetPlan) -> Result<(), Finding> {
    for (width, part) in [(g.front_width, Part::Front), (g.back_width, Part::Back)] {
        if width < g.width {
            return Err(DraftFact::GussetEnd { part, width, narrowest: g.width }.into());
        }
    }
    Ok(())
}

/// The half gusset round its side.
pub(super) fn gusset(side: Path) -> Gusset {
    let (front, back) = (side.start(), side.end());
    Gusset {
        front: Path::line(Point::new(0.0, front.y), front),
        leg: side,
        back: Path::line(back, Point::new(0.0, back.y)),
    }
}
