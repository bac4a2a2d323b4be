//! Where an outline starts.

use engine::drawing::{Edge, Vertex};

/// The same outline, started in the middle of its longest edge. That edge comes in two parts, the
/// first and the last, both under its name.
pub(super) fn away_from_corners(edges: &[Edge]) -> Vec<Edge> {
    let lengths: Vec<f64> = edges.iter().map(|e| e.path.length()).collect();
    let Some(longest) = (0..edges.len()).max_by(|a, b| lengths[*a].total_cmp(&lengths[*b]).then(b.cmp(a))) else {
        return Vec::new();
    };
    let edge = &edges[longest];
    let middle = edge.path.nearest(edge.path.at(0.5 * lengths[longest]).0);
    let last = edge.path.segments().len() - 1;
    let (head, tail) = (
        edge.path.between(engine::curve::Place { segment: 0, t: 0.0 }, middle),
        edge.path.between(middle, engine::curve::Place { segment: last, t: 1.0 }),
    );
    let part = |path, start| Edge { name: edge.name.clone(), path, start };
    let rest = edges.iter().cycle().skip(longest + 1).take(edges.len() - 1).cloned();
    std::iter::once(part(tail, Vertex::Curve)).chain(rest).chain([part(head, edge.start)]).collect()
}
