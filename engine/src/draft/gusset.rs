//! The gusset: a straight front seam, a straight back seam, and sides that belong to the leg openings.

use super::Gusset;
use crate::check::refusal;
use crate::curve::Path;
use crate::garment::Finding;
use crate::plan::GussetPlan;
use kurbo::Point;

/// Both ends are at least as wide as the narrowest place.
pub(super) fn check_widths(g: &GussetPlan) -> Result<(), Finding> {
    for (width, key) in [(g.front_width, "gusset.front_width"), (g.back_width, "gusset.back_width")] {
        if width < g.width {
            let text = format!("{width:.1} mm is less than the gusset's narrowest width of {:.1} mm", g.width);
            let next = "make the narrowest width (gusset.width) smaller, or this one larger";
            return Err(refusal("draft.gusset_widths", key, text, next).measured(width, g.width, "mm"));
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
