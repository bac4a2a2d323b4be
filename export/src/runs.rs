//! Where a path turns sharply, and the smooth parts between.

use engine::curve::{Path, segment_direction};
use kurbo::PathSeg;

/// Directions that differ by less than this run on, radians.
const SMOOTH: f64 = 1e-3;

/// The smooth parts of a path, head to tail.
pub(crate) fn smooth_runs(path: &Path) -> Vec<Path> {
    let mut runs: Vec<Vec<PathSeg>> = Vec::new();
    for s in path.segments() {
        match runs.last_mut() {
            Some(run) if run.last().is_some_and(|before| runs_on(before, s)) => run.push(*s),
            _ => runs.push(vec![*s]),
        }
    }
    runs.into_iter().map(Path::new).collect()
}

/// Does one segment run on into the next without a corner?
pub(crate) fn runs_on(before: &PathSeg, after: &PathSeg) -> bool {
    let (a, b) = (segment_direction(before, 1.0), segment_direction(after, 0.0));
    a.cross(b).abs() < SMOOTH && a.dot(b) > 0.0
}
