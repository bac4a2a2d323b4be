//! The gusset: a straight front seam, a straight back seam, and sides that belong to the leg openings.

use super::smooth::{soft_max, soft_min};
use super::{Gusset, Target};
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

/// The gusset's half widths and its length, on the cloth as cut.
pub(super) struct Sizes {
    pub(super) front: f64,
    pub(super) narrow: f64,
    pub(super) back: f64,
    pub(super) length: f64,
    /// How far behind the front seam it is narrowest.
    pub(super) narrowest: f64,
}

impl Sizes {
    pub(super) fn of(g: &GussetPlan, target: &Target) -> Self {
        let half = |width: f64| 0.5 * width * target.across;
        let (front, narrow, back) = (half(g.front_width), half(g.width), half(g.back_width));
        let length = g.length * target.along;
        let over = |end: f64| (end - narrow).max(0.0).sqrt() + ALIKE * length.sqrt();
        let (over_front, over_back) = (over(front), over(back));
        // At the lowest point of the body; towards the seam that is hardly wider where one is.
        let reach = over_front + over_back;
        let most = FURTHEST * over_front / reach;
        let least = 1.0 - FURTHEST * over_back / reach;
        let share = soft_max(soft_min(g.forward, most, 0.02), least, 0.02);
        Self { front, narrow, back, length, narrowest: length * share.clamp(0.06, 0.94) }
    }
}

/// A side of one parabola is narrowest at √Δf/(√Δf + √Δb) of the length, with Δf and Δb what the ends
/// are wider by; the narrowest place may lie this many times further from the seam that it is near.
const FURTHEST: f64 = 1.5;
/// Ends wider by less than the square of this, in lengths of the gusset (0.04 mm of 140), are as good as
/// straight sides: where those are narrowest is nobody's concern.
const ALIKE: f64 = 0.017;
