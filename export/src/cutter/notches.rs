//! Notches as a cutter makes them.

use engine::curve::{Path, Place};
use engine::drawing::{Edge, Notch, Vertex};
use kurbo::{Line, Point};

/// The two sides of a V go under this name and the notch's own: they belong to no edge.
pub(crate) const VEE: &str = "notch ";

/// A V is as wide at its mouth as it is deep.
const HALF_MOUTH: f64 = 0.5;

/// A V narrower than this at its mouth is no longer seen; a slit takes its place. mm.
const LEAST_MOUTH: f64 = 1.0;

/// A short cut from the grown outline inwards: the beam starts on its path, half a kerf outside,
/// and stops half a kerf short, so that the slit in the cloth is as deep as it should be.
pub(super) fn slit(notch: &Notch, half_kerf: f64) -> Line {
    let depth = (notch.depth - half_kerf).max(0.0);
    Line::new(notch.at - notch.inward * half_kerf, notch.at + notch.inward * depth)
}

/// A pen mark.
pub(super) fn mark(notch: &Notch) -> Line {
    slit(notch, 0.0)
}

/// Cuts a V into an outline; nothing comes back where a corner leaves no room for it.
pub(super) fn vee(edges: &[Edge], notch: &Notch, fold: Option<Line>) -> Option<Vec<Edge>> {
    let tip = notch.at + notch.inward * notch.depth;
    let on = edge_of(edges, notch.at)?;
    let along = edges[on].path.along(edges[on].path.nearest(notch.at));
    let length = edges[on].path.length();
    let reach = HALF_MOUTH * notch.depth;
    if along > reach && length - along > reach {
        return Some(inside(edges, on, along, reach, (notch, tip)));
    }
    // At the joint of two edges, which is a fold, a smooth joint, or a corner.
    let first = if along <= reach { (on + edges.len() - 1) % edges.len() } else { on };
    let second = (first + 1) % edges.len();
    let joint = edges[second].path.start();
    let is_at_joint = joint.distance(notch.at) < 1e-3;
    let folded = |e: &Edge| fold.is_some_and(|f| is_on(e, f));
    let reaches = match (folded(&edges[first]), folded(&edges[second])) {
        _ if !is_at_joint => return shorter(edges, on, along, length, (notch, tip)),
        (true, _) => [notch.depth, reach],
        (_, true) => [reach, notch.depth],
        _ if edges[second].start == Vertex::Turn => return None,
        _ => [reach, reach],
    };
    across(edges, [first, second], reaches, (notch, tip))
}

/// How wide the mouth of a notch's V is, mm; nothing where a corner leaves no room for one.
pub(crate) fn mouth(edges: &[Edge], notch: &Notch, fold: Option<Line>) -> Option<f64> {
    let cut = vee(edges, notch, fold)?;
    let name = format!("{VEE}{}", notch.id);
    let sides: Vec<&Edge> = cut.iter().filter(|e| e.name == name).collect();
    match sides.as_slice() {
        [a, b] => Some(a.path.start().distance(b.path.end())),
        // The other half lies behind the fold.
        [_] => Some(2.0 * HALF_MOUTH * notch.depth),
        _ => None,
    }
}

/// A narrower V near a corner.
fn shorter(edges: &[Edge], on: usize, along: f64, length: f64, notch: (&Notch, Point)) -> Option<Vec<Edge>> {
    let reach = 0.8 * along.min(length - along);
    (2.0 * reach >= LEAST_MOUTH).then(|| inside(edges, on, along, reach, notch))
}

fn edge_of(edges: &[Edge], p: Point) -> Option<usize> {
    let off = |e: &Edge| e.path.point(e.path.nearest(p)).distance(p);
    (0..edges.len()).min_by(|a, b| off(&edges[*a]).total_cmp(&off(&edges[*b])))
}

fn is_on(edge: &Edge, fold: Line) -> bool {
    [edge.path.start(), edge.path.end()].iter().all(|p| lies_on(*p, fold))
}

/// Within a thousandth of a millimetre.
pub(super) fn lies_on(p: Point, fold: Line) -> bool {
    let along = fold.p1 - fold.p0;
    (p - fold.p0).cross(along).abs() < 1e-3 * along.hypot()
}

/// The part of a path from one length to another.
fn part(path: &Path, from: f64, to: f64) -> Path {
    let place = |along: f64| path.nearest(path.at(along).0);
    let last = path.segments().len() - 1;
    let a = if from <= 0.0 { Place { segment: 0, t: 0.0 } } else { place(from) };
    let b = if to >= path.length() { Place { segment: last, t: 1.0 } } else { place(to) };
    path.between(a, b)
}

/// The two sides of a V; one that has no length is left out.
fn sides(from: Point, to: Point, (notch, tip): (&Notch, Point)) -> Vec<Edge> {
    [(from, tip), (tip, to)]
        .into_iter()
        .filter(|(a, b)| a.distance(*b) > 1e-6)
        .map(|(a, b)| Edge { name: format!("{VEE}{}", notch.id), path: Path::line(a, b), start: Vertex::Turn })
        .collect()
}

fn inside(edges: &[Edge], on: usize, along: f64, reach: f64, notch: (&Notch, Point)) -> Vec<Edge> {
    let edge = &edges[on];
    let named = |path, start| Edge { name: edge.name.clone(), path, start };
    let before = named(part(&edge.path, 0.0, along - reach), edge.start);
    let after = named(part(&edge.path, along + reach, edge.path.length()), Vertex::Turn);
    let vee = sides(before.path.end(), after.path.start(), notch);
    let between = std::iter::once(before).chain(vee).chain([after]);
    edges[..on].iter().cloned().chain(between).chain(edges[on + 1..].iter().cloned()).collect()
}

/// Over the joint of two edges.
fn across(edges: &[Edge], [first, second]: [usize; 2], reaches: [f64; 2], notch: (&Notch, Point)) -> Option<Vec<Edge>> {
    let lengths = [edges[first].path.length(), edges[second].path.length()];
    if lengths[0] <= reaches[0] || lengths[1] <= reaches[1] || first == second {
        return None;
    }
    let mut out = edges.to_vec();
    out[first].path = part(&edges[first].path, 0.0, lengths[0] - reaches[0]);
    out[second].path = part(&edges[second].path, reaches[1], lengths[1]);
    out[second].start = Vertex::Turn;
    let vee = sides(out[first].path.end(), out[second].path.start(), notch);
    // Where the joint is the loop's own start, the V comes last, and the loop starts behind it.
    let at = if second == 0 { out.len() } else { second };
    out.splice(at..at, vee);
    Some(out)
}
