//! The gusset: a straight front seam, a straight back seam, and sides of one parabola each.

use super::Gusset;
use crate::curve::Path;
use crate::finding::Finding;
use crate::finding::fact::{DraftFact, Part};
use crate::plan::GussetPlan;
use kurbo::{Point, QuadBez};

/// The half gusset, on the cloth as cut.
///
/// A side is the one parabola x = n/2 + k(y − y₀)² through both ends that is narrowest at y₀: its
/// curvature has a single extremum, at the narrowest place. With Δf, Δb the half widths over the
/// narrowest at front and back, y₀ = L·√Δf/(√Δf + √Δb).
pub(super) fn gusset(g: &GussetPlan, across: f64, along: f64) -> Result<Gusset, Finding> {
    for (width, part) in [(g.front_width, Part::Front), (g.back_width, Part::Back)] {
        if width < g.width {
            return Err(DraftFact::GussetEnd { part, width, narrowest: g.width }.into());
        }
    }
    let length = g.length * along;
    let (front, back) = (0.5 * g.front_width * across, 0.5 * g.back_width * across);
    let (over_front, over_back) = ((front - 0.5 * g.width * across).sqrt(), (back - 0.5 * g.width * across).sqrt());
    let reach = over_front + over_back;
    // dx/dy at the front, −2·k·y₀: the tangents of a parabola meet half way down.
    let slope = -2.0 * over_front * reach / length;
    let control = Point::new(front + slope * 0.5 * length, 0.5 * length);
    let side = QuadBez::new(Point::new(front, 0.0), control, Point::new(back, length));
    let leg = if reach < 1e-6 { Path::line(side.p0, side.p2) } else { Path::cubic(side.raise()) };
    Ok(Gusset { front: Path::line(Point::ZERO, side.p0), leg, back: Path::line(side.p2, Point::new(0.0, length)) })
}
