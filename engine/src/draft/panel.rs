//! Top edge and side seam of a half front or half back.

use super::top::{Top, line};
use super::{Half, Panel, Target};
use crate::curve::Path;
use crate::curve::float;
use crate::finding::Finding;
use crate::finding::fact::DraftFact;
use kurbo::{Point, QuadBez, Vec2};
use nalgebra::{Matrix2, Vector2};

/// A panel before its leg edge is drawn.
pub(super) struct Upper {
    pub(super) top: Path,
    pub(super) side: Path,
    /// Where the gusset seam lies.
    pub(super) y_gusset: f64,
    /// How much higher than the form has it one sweep puts the top of the side seam, mm.
    pub(super) raised: f64,
}

/// Front and back.
pub(super) fn uppers(target: &Target) -> Result<[Upper; 2], Finding> {
    let (top, [front, back]) = (Top::of(target), target.halves());
    let side = |half, i: usize| SideCorner {
        half,
        y_corner: top.corners[i],
        slope: top.slopes[i],
        lean: top.leans[i],
        raised: top.raised,
    };
    Ok([upper(target, &side(front, 0))?, upper(target, &side(back, 1))?])
}

/// A half, and how its top edge and side seam meet.
struct SideCorner {
    half: Half,
    y_corner: f64,
    /// Of the top edge where it arrives, rad.
    slope: f64,
    /// Of the side seam where it leaves, rad.
    lean: f64,
    raised: f64,
}

/// Solves for the top of the side seam and its foot, so that the top edge and the side seam get
/// their lengths along the curve.
///
/// Newton's method in (x of the seam's top, y of its foot) with a difference Jacobian. The
/// residual is measured again at the end; more than 1e-6 mm is an error, not a result.
fn upper(target: &Target, side: &SideCorner) -> Result<Upper, Finding> {
    let wanted = Vector2::new(side.half.top_length, target.side_seam);
    let lengths = |v: &Vector2<f64>| {
        let (top, seam) = curves(side, v);
        // The ring of the top edge is right after washing, which shortens along more than across.
        let washed = top.map(|p| Point::new(p.x, p.y * target.across / target.along));
        Vector2::new(washed.length(), seam.length())
    };
    let mut v = Vector2::new(side.half.top_length, side.y_corner + target.side_seam);
    for _ in 0..MAX_STEPS {
        let residual = lengths(&v) - wanted;
        if residual.amax() < RESIDUAL {
            let (top, seam) = curves(side, &v);
            return Ok(Upper { top, side: seam, y_gusset: side.half.y_gusset, raised: side.raised });
        }
        let column = |d: Vector2<f64>| (lengths(&(v + d)) - wanted - residual) / DIFFERENCE;
        let jacobian = Matrix2::from_columns(&[column(Vector2::x() * DIFFERENCE), column(Vector2::y() * DIFFERENCE)]);
        let Some(step) = jacobian.lu().solve(&residual) else { break };
        v -= step.cap_magnitude(LARGEST_STEP);
    }
    Err(DraftFact::SideSeam { part: side.half.part, length: target.side_seam / target.along }.into())
}

const MAX_STEPS: u32 = 40;
/// Lengths come out to a nanometre.
const RESIDUAL: f64 = 1e-6;
/// Wide enough that arc lengths to 1e-7 give a good slope.
const DIFFERENCE: f64 = 1e-2;
/// mm; keeps the first steps from running away.
const LARGEST_STEP: f64 = 40.0;

/// Top edge and side seam for a given top and foot of the seam.
fn curves(side: &SideCorner, v: &Vector2<f64>) -> (Path, Path) {
    let corner = Point::new(v.x, side.y_corner);
    let foot = Point::new(side.half.foot_x, v.y);
    // A parabola that leaves the corner as both halves have agreed on.
    let half_way = 0.5 * (foot.y - corner.y);
    let seam = QuadBez::new(corner, corner + Vec2::new(half_way * float::tan(side.lean), half_way), foot).raise();
    let start = Point::new(0.0, side.half.y_centre);
    let top = line(start, corner, side.slope);
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
