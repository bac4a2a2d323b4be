//! The top edge of each half as one sweep: where its corners lie, and how it arrives at them.
//!
//! A half's line starts level at the centre and arrives at the side with a slope φ. A parabola there
//! would have the slope p = 2·rise/width; the cubic bends to one side only where φ lies between 0.75
//! and 1.5 times p. The slopes of front and back have to add up to the leans of both side seams, λ:
//! else the line would have a corner at the side seam.

use super::Target;
use super::smooth::{soft_max, soft_min};

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

/// A sweep needs λ within these multiples of p, with some room to the cubic's own 0.75 and 1.5.
const LEAST_SLOPE: f64 = 0.7;
const MOST_SLOPE: f64 = 1.4;
/// How softly that bound sets in, rad.
const SOFT: f64 = 0.02;
/// The side seam leans out at its top by no more, rad, 25°: a short one, which a few millimetres lean
/// over, does so lower down instead.
const MOST_LEAN: f64 = 0.44;
const SOFT_LEAN: f64 = 0.1;
/// Slopes smaller than this share a difference alike, rad.
const LEVEL: f64 = 0.02;

impl Top {
    /// The corners are where the form has them, both moved by the least that makes one sweep of
    /// each half; the difference of slopes is shared by how steep each half is.
    pub(super) fn of(target: &Target) -> Self {
        let halves = target.halves();
        let rough = halves.map(|h| Rough::of(target, &h, h.y_side));
        let lean: f64 = rough.iter().map(|r| r.lean).sum();
        let slope: f64 = rough.iter().map(|r| r.slope).sum();
        let (a, b) = (lean / MOST_SLOPE, lean / LEAST_SLOPE);
        let wanted = soft_max(soft_min(slope, a.max(b), SOFT), a.min(b), SOFT);
        let width = 0.5 * (rough[0].width + rough[1].width);
        let raised = 0.25 * width * (wanted - slope);
        let corners = halves.map(|h| h.y_side - raised);
        let [front, back] = [0, 1].map(|i| Rough::of(target, &halves[i], corners[i]));
        let left = front.lean + back.lean - front.slope - back.slope;
        let (f, b) = (front.slope.hypot(LEVEL), back.slope.hypot(LEVEL));
        let arrives = |half: &Rough, share: f64| half.slope + left * share - half.lean;
        // Of both halves the same but for the last bits, which would be a corner at the seam.
        let steeper = 0.5 * (arrives(&front, f / (f + b)) - arrives(&back, b / (f + b)));
        let leans = [front.lean, back.lean];
        Self { corners, slopes: [leans[0] + steeper, leans[1] - steeper], leans, raised }
    }
}

/// A half before it is solved, near enough for its slopes.
struct Rough {
    width: f64,
    /// Of the side seam at its top, rad.
    lean: f64,
    /// Of a parabola where it reaches the side, rad.
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
            slope: (2.0 * rise).atan2(width),
        }
    }
}
