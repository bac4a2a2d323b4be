//! Bounds that set in softly, so that no point jumps where one begins to hold.

use crate::curve::float;

/// The least of two, rounded over a width.
pub(super) fn soft_min(a: f64, b: f64, width: f64) -> f64 {
    0.5 * (a + b - float::hypot(a - b, width))
}

/// The greatest of two, rounded over a width.
pub(super) fn soft_max(a: f64, b: f64, width: f64) -> f64 {
    -soft_min(-a, -b, width)
}

/// What of `a` lies beyond ±`most`: nothing up to there, then with one slope, nearly all of it from a few
/// `gentle`s on.
pub(super) fn beyond(a: f64, most: f64, gentle: f64) -> f64 {
    let over = (a.abs() - most).max(0.0);
    a.signum() * over * over / (over + gentle)
}
