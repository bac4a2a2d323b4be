//! The top edge of each half as one sweep: where its corner lies, and how it arrives there.
//!
//! A half's line starts level at the centre and arrives at the side with a slope φ. The slopes of front
//! and back have to add up to the leans of both side seams, λ: else the line would have a corner at the side
//! seam. What they differ by is given, in this order and each by the least: by how the side seams lean at
//! their tops, as a cutter curves a side seam; by the slopes, which moves the line between centre and side
//! and, where much is asked, bends it both ways; by the corners, which moves the depth at the side.

use super::Target;
use super::smooth::{beyond, soft_max, soft_min};
use crate::curve::float;
use kurbo::{CubicBez, Point, Vec2};

/// What the top edges of both halves are drawn by: front, back.
pub(super) struct Top {
    /// Height of the corner at the side, mm.
    pub(super) corners: [f64; 2],
    /// How the line rises as it arrives at the side, rad.
    pub(super) slopes: [f64; 2],
    /// How the side seam leans out at its top, rad.
    pub(super) leans: [f64; 2],
    /// How much higher both corners lie than the form has them, mm.
    pub(super) raised: f64,
}

/// Both side seams together lean by up to this much other than their own at the top, rad: 10° each, by
/// which a side seam of 90 mm curves by 4 mm.
const SEAMS_GIVE: f64 = 0.36;
/// And no short one curves with a smaller radius for it, in widths of a half: 80 mm of 220.
const SEAM_RADIUS: f64 = 0.36;
/// A parabola's slope is p = 2·rise/width. The form's is taken this much of p over it or under it, which
/// is as far as [`line`] bends to one side only.
const OVER_PARABOLA: f64 = 1.2;
const UNDER_PARABOLA: f64 = 0.15;
/// The slopes may give as far as this much of p.
const STEEPEST: f64 = 2.2;
/// And the other way until the line turns back before the side by a millimetre or so, which is this slope
/// for a steep parabola, half of it for one of slope [`EAR_HALF`].
const EAR: f64 = 0.12;
const EAR_HALF: f64 = 0.1;
/// How gently those bounds set in, rad.
const GENTLE: f64 = 0.02;
/// Steps to where the corners lie; ordinary sheets need none.
const CORNER_STEPS: u32 = 4;
/// The side seam leans out at its top by no more, rad, 25°: a short one, which a few millimetres lean
/// over, does so lower down instead.
const MOST_LEAN: f64 = 0.44;
const SOFT_LEAN: f64 = 0.1;

impl Top {
    pub(super) fn of(target: &Target) -> Self {
        let halves = target.halves();
        let at = |raised: f64| halves.map(|h| Rough::of(target, &h, h.y_side - raised));
        let mut drawn = at(0.0);
        let differ = lacking(&drawn);
        let by_seams =
            differ - beyond(differ, SEAMS_GIVE.min(target.side_seam / (SEAM_RADIUS * halves[0].top_length)), GENTLE);
        let mut raised = 0.0;
        // What seams and slopes cannot give, the corners do: a millimetre turns a half by 2/width.
        for _ in 0..CORNER_STEPS {
            let left = lacking(&drawn) - by_seams;
            let pliant = drawn[0].room(left) + drawn[1].room(left);
            raised += 0.125 * (drawn[0].width + drawn[1].width) * beyond(left, pliant, GENTLE);
            drawn = at(raised);
        }
        // Whatever seams and corners leave over, to the last bit; more where there is more room.
        let by_slopes = lacking(&drawn) - by_seams;
        let [front, back] = drawn.each_ref().map(|half| half.room(by_slopes) + f64::EPSILON);
        let shares = [front / (front + back), back / (front + back)];
        let arrives = |i: usize| drawn[i].slope + shares[i] * by_slopes;
        let leans = drawn.each_ref().map(|half| half.lean - 0.5 * by_seams);
        // Of both halves the same but for the last bits, which would be a corner at the seam.
        let steeper = 0.5 * (arrives(0) - leans[0] - (arrives(1) - leans[1]));
        let corners = halves.map(|h| h.y_side - raised);
        Self { corners, slopes: [leans[0] + steeper, leans[1] - steeper], leans, raised }
    }
}

/// How much more both side seams lean than both top edges rise, rad.
fn lacking([front, back]: &[Rough; 2]) -> f64 {
    front.lean + back.lean - front.slope - back.slope
}

/// A half before it is solved, near enough for its slopes.
struct Rough {
    width: f64,
    /// Of the side seam at its top, rad.
    lean: f64,
    /// A parabola's slope at the side.
    parabola: f64,
    /// Of the top edge as the form has it where it reaches the side, if that is one sweep, rad.
    slope: f64,
}

impl Rough {
    fn of(target: &Target, half: &super::Half, y_corner: f64) -> Self {
        let rise = half.y_centre - y_corner;
        // A flat parabola is longer than it is wide by 2/3·rise²/width.
        let width = half.top_length - rise * rise / (1.5 * half.top_length);
        let out = half.foot_x - width;
        let down = (float::square(target.side_seam) - out * out).max(float::square(0.3 * target.side_seam)).sqrt();
        let parabola = 2.0 * rise / width;
        Self {
            width,
            lean: soft_min(float::atan2(out + 4.0 * target.bow, down), MOST_LEAN, SOFT_LEAN),
            parabola,
            slope: float::atan(sweeping(parabola, 2.0 * half.late / width)),
        }
    }

    /// How much steeper or, where `by` is negative, flatter the slope may become, rad.
    fn room(&self, by: f64) -> f64 {
        let p = self.parabola;
        let (ear, steepest) = (-EAR * p / (p.abs() + EAR_HALF), STEEPEST * p);
        let end = if by > 0.0 { ear.max(steepest) } else { ear.min(steepest) };
        ((float::atan(end) - self.slope) * by.signum()).max(0.0)
    }
}

/// A line from the centre, level, to the corner with this slope; bent to one side only unless that is
/// under three quarters of a parabola's.
///
/// Level lines of the form rise by (1 − m)·x² + m·x⁴ on a unit square, with the slope 2·(1 + m) at the
/// side. The lengths of the cubic's handles are a quadratic of m each, fitted so that the cubic is off by
/// at most 0.3 % of the rise for m from −0.2 to 0.9, exact for a parabola. They end before they meet.
pub(super) fn line(start: Point, corner: Point, slope: f64) -> CubicBez {
    let (width, steep) = (corner.x - start.x, float::tan(slope));
    let parabola = 2.0 * (start.y - corner.y) / width;
    let m = (steep - parabola) * parabola / (parabola * parabola + FLAT * FLAT);
    // Where the tangents of both ends meet, from the corner.
    let meet = 0.5 / (1.0 + m.max(0.0));
    let first = (1.0 / 3.0 + m * (-0.029 + 0.207 * m)).min(SHORT_OF_MEETING * (1.0 - meet));
    let last = (1.0 / 3.0 + m * (-0.116 + 0.028 * m)).min(SHORT_OF_MEETING * meet);
    let arriving = Vec2::new(last * width, -last * width * steep);
    CubicBez::new(start, start + Vec2::new(first * width, 0.0), corner - arriving, corner)
}

const SHORT_OF_MEETING: f64 = 0.97;

/// A parabola with less slope than this is level: its m means nothing.
const FLAT: f64 = 0.01;

/// A slope of a parabola, steeper by `late`, as far as the line stays one sweep.
fn sweeping(parabola: f64, late: f64) -> f64 {
    let (over, under) = (OVER_PARABOLA * parabola, -UNDER_PARABOLA * parabola);
    parabola + soft_max(soft_min(late, over.max(under), GENTLE), over.min(under), GENTLE)
}
