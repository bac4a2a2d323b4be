//! A stroke as vertices: straight parts, or straight and round ones.

use super::plane::{Closing, Stroke};
use crate::biarc::{self, Arc};
use engine::drawing::Edge;
use kurbo::Point;

/// Vertices nearer than edges of a loop are required to meet are one, mm.
const SAME: f64 = 1e-3;

/// A line's vertices; a closed one does not repeat its first.
#[derive(Clone, Debug)]
pub(crate) struct Trace {
    /// Each with the bulge of the part that starts at it.
    pub(crate) vertices: Vec<(Point, f64)>,
    /// The vertex at which each of its edges starts.
    pub(crate) starts: Vec<usize>,
}

/// Chords all lie on the hollow side of their curve, so that areas change by them: they keep to so
/// much of the tolerance, and the area of a narrow gusset stays within 0.05 %.
const CHORDS: f64 = 0.4;

/// Straight parts only, within `tolerance`, mm.
pub(crate) fn chords(stroke: &Stroke, tolerance: f64) -> Trace {
    // A vertex that is left out moves the line by less than its distance to the next.
    straight(&stroke.edges, stroke.closing, CHORDS * tolerance - 1.1 * SAME)
}

/// Straight parts only; between vertices that are apart they stray by `tolerance`, mm, at most.
pub(crate) fn straight(edges: &[Edge], closing: Closing, tolerance: f64) -> Trace {
    let part = |p: &Point| Arc { to: *p, bulge: 0.0 };
    trace(edges, closing, |edge| edge.path.chords(tolerance).iter().skip(1).map(part).collect())
}

/// Straight and round parts, within `tolerance`, mm.
pub(crate) fn rounded(stroke: &Stroke, tolerance: f64) -> Trace {
    trace(&stroke.edges, stroke.closing, |edge| biarc::arcs(&edge.path, tolerance - 1.1 * SAME))
}

fn trace(edges: &[Edge], closing: Closing, parts: impl Fn(&Edge) -> Vec<Arc>) -> Trace {
    let mut out = Trace { vertices: Vec::new(), starts: Vec::new() };
    let mut here = edges.first().map_or(Point::ZERO, |e| e.path.start());
    for edge in edges {
        out.starts.push(out.vertices.len());
        for part in parts(edge) {
            if part.to.distance(here) > SAME {
                out.vertices.push((here, part.bulge));
                here = part.to;
            }
        }
    }
    let is_back = out.vertices.first().is_some_and(|(first, _)| first.distance(here) <= SAME);
    if !(closing == Closing::Closed && is_back) {
        out.vertices.push((here, 0.0));
    }
    out
}
