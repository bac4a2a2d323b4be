//! A stroke as vertices: straight parts, or straight and round ones.

use super::{Closing, Stroke};
use crate::biarc::{self, Arc};
use kurbo::Point;

/// Vertices nearer than edges of a loop are required to meet are one, mm.
const SAME: f64 = 1e-3;

/// A stroke's vertices; a closed one does not repeat its first.
#[derive(Clone, Debug)]
pub(crate) struct Trace {
    /// Each with the bulge of the part that starts at it.
    pub(crate) vertices: Vec<(Point, f64)>,
    /// The vertex at which each of the stroke's edges starts.
    pub(crate) starts: Vec<usize>,
}

/// Chords all lie on the hollow side of their curve, so that areas change by them: they keep to so
/// much of the tolerance, and the area of a narrow gusset stays within 0.05 %.
const CHORDS: f64 = 0.6;

/// Straight parts only, within `tolerance`, mm.
pub(crate) fn chords(stroke: &Stroke, tolerance: f64) -> Trace {
    let straight = |p: &Point| Arc { to: *p, bulge: 0.0 };
    // A vertex that is left out moves the line by less than its distance to the next.
    trace(stroke, |edge| edge.path.flatten(CHORDS * tolerance - 1.1 * SAME).iter().skip(1).map(straight).collect())
}

/// Straight and round parts, within `tolerance`, mm.
pub(crate) fn rounded(stroke: &Stroke, tolerance: f64) -> Trace {
    trace(stroke, |edge| biarc::arcs(&edge.path, tolerance - 1.1 * SAME))
}

fn trace(stroke: &Stroke, parts: impl Fn(&engine::drawing::Edge) -> Vec<Arc>) -> Trace {
    let mut out = Trace { vertices: Vec::new(), starts: Vec::new() };
    let mut here = stroke.edges.first().map_or(Point::ZERO, |e| e.path.start());
    for edge in &stroke.edges {
        out.starts.push(out.vertices.len());
        for part in parts(edge) {
            if part.to.distance(here) > SAME {
                out.vertices.push((here, part.bulge));
                here = part.to;
            }
        }
    }
    let is_back = out.vertices.first().is_some_and(|(first, _)| first.distance(here) <= SAME);
    if !(stroke.closing == Closing::Closed && is_back) {
        out.vertices.push((here, 0.0));
    }
    out
}
