//! Does the front leg fall enough from the foot of the side seam for a hollow?

use super::panel::Upper;

/// The front leg falls at least this much per mm across, or it would run almost level.
const LEAST_FALL: f64 = 0.25;
/// And at least this share of the hip girth, 60 mm at a hip of 1000: a hollow that turns by about a
/// quarter has no radius over its fall, and one under 40 mm is hard to lay an elastic on.
const LEAST_FALL_OF_HIP: f64 = 0.06;

/// How much the foot of the side seam has to come up for the front leg to fall enough, mm; 0 or
/// less where it does.
pub(super) fn lacking(front: &Upper, gusset_width: f64, hip: f64) -> f64 {
    let foot = front.foot();
    let run = foot.x - 0.5 * gusset_width;
    (LEAST_FALL * run).max(LEAST_FALL_OF_HIP * hip) - (front.y_gusset - foot.y)
}
