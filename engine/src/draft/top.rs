//! The top edge of each half as one sweep: where its corner lies, and how it arrives there.
//!
//! A half's line starts level at the centre and arrives at the side with a slope φ. The slopes of front
//! and back have to add up to the leans of both side seams, λ: else the line would have a corner at the side
//! seam. What they differ by is given, in this order and each by the least: by how the side seams lean at
//! their tops, as a cutter curves a side seam; by the slopes, which moves the line between centre and side;
//! by the corners, which moves the depth at the side.

use super::Target;
use super::smooth::{beyond, soft_max, soft_min};
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
/// Both slopes together give up to this much, rad. Halves 220 mm wide are then off by 4/27·220·0.04 =
/// 1.3 mm between centre and side.
const SLOPES_GIVE: f64 = 0.08;
/// A parabola's slope is p = 2·rise/width. The form's is taken this much of p over it or under it, and
/// the slopes may give by [`MORE`] of p besides: that is as far as [`sweep`] bends to one side only.
const OVER_PARABOLA: f64 = 1.2;
const UNDER_PARABOLA: f64 = 0.15;
const MORE: f64 = 0.1;
/// How gently those bounds set in, rad.
const GENTLE: f64 = 0.02;
/// The side seam leans out at its top by no more, rad, 25°: a short one, which a few millimetres lean
/// over, does so lower down instead.
const MOST_LEAN: f64 = 0.44;
const SOFT_LEAN: f64 = 0.1;

impl Top {
    pub(super) fn of(target: &Target) -> Self {
        let halves = target.halves();
        let asked = halves.map(|h| Rough::of(target, &h, h.y_side));
        let differ = lacking(&asked);
        let after_seams = beyond(differ, SEAMS_GIVE, GENTLE);
        let by_seams = differ - after_seams;
        let pliant = (2.0 * MORE * asked[0].slope.abs().min(asked[1].slope.abs())).min(SLOPES_GIVE);
        let by_corners = beyond(after_seams, pliant, GENTLE);
        let raised = 0.125 * (asked[0].width + asked[1].width) * by_corners;
        let corners = halves.map(|h| h.y_side - raised);
        let moved = [0, 1].map(|i| Rough::of(target, &halves[i], corners[i]));
        // Whatever seams and corners leave over, to the last bit.
        let by_slopes = lacking(&moved) - by_seams;
        let arrives = |half: &Rough| half.slope + 0.5 * by_slopes;
        let leans = moved.each_ref().map(|half| half.lean - 0.5 * by_seams);
        // Of both halves the same but for the last bits, which would be a corner at the seam.
        let steeper = 0.5 * (arrives(&moved[0]) - leans[0] - (arrives(&moved[1]) - leans[1]));
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
    /// Of the top edge as the form has it where it reaches the side, if that is one sweep, rad.
    slope: f64,
}

impl Rough {
    fn of(target: &Target, half: &super::Half, y_corner: f64) -> Self {
        let rise = half.y_centre - y_corner;
        // A flat parabola is longer than it is wide by 2/3·rise²/width.
        let width = half.top_length - rise * rise / (1.5 * half.top_length);
        let out = half.foot_x - width;
        let down = (target.side_seam.powi(2) - out * out).max((0.3 * target.side_seam).powi(2)).sqrt();
        Self {
            width,
            lean: soft_min((out + 4.0 * target.bow).atan2(down), MOST_LEAN, SOFT_LEAN),
            slope: sweeping(2.0 * rise / width, 2.0 * half.late / width).atan(),
        }
    }
}

/// A line from the centre, level, to the corner with this slope, bent to one side only.
///
/// Level lines of the form rise by (1 − m)·x² + m·x⁴ on a unit square, with the slope 2·(1 + m) at the
/// side. The lengths of the cubic's handles are a quadratic of m each, fitted so that the cubic is off by
/// at most 0.3 % of the rise for m from −0.2 to 0.9, exact for a parabola. They end before they meet.
pub(super) fn sweep(start: Point, corner: Point, slope: f64) -> CubicBez {
    let (width, steep) = (corner.x - start.x, slope.tan());
    let parabola = 2.0 * (start.y - corner.y) / width;
    let m = (steep - parabola) * parabola / (parabola * parabola + FLAT * FLAT);
    // Where the tangents of both ends meet, from the corner.
    let meet = 0.5 / (1.0 + m);
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
