//! Top edge and side seam of a half front or half back.

use super::{Panel, Target};
use crate::curve::Path;
use crate::finding::Finding;
use crate::finding::fact::{DraftFact, Part};
use kurbo::{CubicBez, Point, QuadBez, Vec2};
use nalgebra::{Matrix2, Vector2};

/// A panel before its leg edge is drawn.
pub(super) struct Upper {
    pub(super) top: Path,
    pub(super) side: Path,
    /// Where the gusset seam lies.
    pub(super) y_gusset: f64,
}

/// What differs between front and back.
struct Side {
    part: Part,
    /// Half of this piece's part of the top ring.
    top_length: f64,
    foot_x: f64,
    y_centre: f64,
    y_gusset: f64,
    /// How far the top edge arrives at the side above the square, as a tangent.
    tilt: f64,
}

/// How strongly the fall of the top edge from back to front runs through the side seam: 2 would
/// be the slope of one even parabola; less keeps the corners nearer the square that cutters like.
const TILT: f64 = 1.5;

fn tilt(target: &Target) -> f64 {
    TILT * (target.y_front - target.y_back) / (target.top_ring / 2.0)
}

pub(super) fn front(target: &Target) -> Result<Upper, Finding> {
    upper(
        target,
        &Side {
            part: Part::Front,
            top_length: target.top_ring / 4.0,
            foot_x: 0.5 * target.foot_ring * (1.0 - target.back_share),
            y_centre: target.y_front,
            y_gusset: target.y_front_gusset,
            tilt: tilt(target),
        },
    )
}

pub(super) fn back(target: &Target) -> Result<Upper, Finding> {
    upper(
        target,
        &Side {
            part: Part::Back,
            top_length: target.top_ring / 4.0,
            foot_x: 0.5 * target.foot_ring * target.back_share,
            y_centre: target.y_back,
            y_gusset: target.y_back_gusset,
            tilt: -tilt(target),
        },
    )
}

/// Solves for the top of the side seam and its foot, so that the top edge and the side seam get
/// their lengths along the curve.
///
/// Newton's method in (x of the seam's top, y of its foot) with a difference Jacobian. The
/// residual is measured again at the end; more than 1e-6 mm is an error, not a result.
fn upper(target: &Target, side: &Side) -> Result<Upper, Finding> {
    let wanted = Vector2::new(side.top_length, target.side_seam);
    let lengths = |v: &Vector2<f64>| {
        let (top, seam) = curves(target, side, v);
        // The ring of the top edge is right after washing, which shortens along more than across.
        let washed = top.map(|p| Point::new(p.x, p.y * target.across / target.along));
        Vector2::new(washed.length(), seam.length())
    };
    let mut v = Vector2::new(side.top_length, target.y_side + target.side_seam);
    for _ in 0..MAX_STEPS {
        let residual = lengths(&v) - wanted;
        if residual.amax() < RESIDUAL {
            let (top, seam) = curves(target, side, &v);
            return Ok(Upper { top, side: seam, y_gusset: side.y_gusset });
        }
        let column = |d: Vector2<f64>| (lengths(&(v + d)) - wanted - residual) / DIFFERENCE;
        let jacobian = Matrix2::from_columns(&[column(Vector2::x() * DIFFERENCE), column(Vector2::y() * DIFFERENCE)]);
        let Some(step) = jacobian.lu().solve(&residual) else { break };
        v -= step.cap_magnitude(LARGEST_STEP);
    }
    Err(DraftFact::SideSeam { part: side.part, length: target.side_seam / target.along }.into())
}

/// Seams shorter than this share of the hip girth have their top corner trued close by: 60 mm at a
/// hip of 1000.
pub(super) const TRUED_OVER: f64 = 0.06;

const MAX_STEPS: u32 = 40;
/// Lengths come out to a nanometre.
const RESIDUAL: f64 = 1e-6;
/// Wide enough that arc lengths to 1e-7 give a good slope.
const DIFFERENCE: f64 = 1e-2;
/// mm; keeps the first steps from running away.
const LARGEST_STEP: f64 = 40.0;

/// Top edge and side seam for a given top and foot of the seam.
fn curves(target: &Target, side: &Side, v: &Vector2<f64>) -> (Path, Path) {
    let corner = Point::new(v.x, target.y_side);
    let foot = Point::new(side.foot_x, v.y);
    // A parabola whose middle stands out from the chord by what the girth rule bows out.
    let control = corner.midpoint(foot) + Vec2::new(2.0 * target.bow, 0.0);
    let seam = QuadBez::new(corner, control, foot).raise();
    let down = (control - corner).normalize();
    // Square to the seam, tilted so that front and back together make one smooth line.
    let arriving = (Vec2::new(down.y, -down.x) - down * side.tilt).normalize();
    let start = Point::new(0.0, side.y_centre);
    let handle = (corner - start).hypot() / 3.0;
    // Over a short seam the top edge is trued near the corner only: a long sweep would take
    // length out of it, and lean the seam over further.
    let trued = handle * (2.0 * target.side_seam / (target.side_seam + target.trued_over)).min(1.0);
    let top = CubicBez::new(start, Point::new(handle, side.y_centre), corner - arriving * trued, corner);
    (Path::cubic(top), Path::cubic(seam))
}

impl Upper {
    pub(super) fn foot(&self) -> Point {
        self.side.end()
    }

    /// From the foot into the piece, square to the side seam.
    pub(super) fn square(&self) -> Vec2 {
        let down = self.side.end_direction();
        Vec2::new(-down.y, down.x)
    }

    pub(super) fn with_leg(self, leg: Path) -> Panel {
        let gusset = Path::line(leg.end(), Point::new(0.0, self.y_gusset));
        Panel { top: self.top, side: self.side, leg, gusset }
    }
}
