//! The Minkowski sum of two simple polygons: all that one covers while it is moved along the other.
//!
//! By the convolution of their outlines (Guibas, Ramshaw and Stolfi 1983): every side of one goes
//! with the corners of the other in whose turn its direction lies, backwards at a hollow corner. The
//! closed lines so made wind at least once round every point of the sum and round no other.
//! Directions are compared exactly, on whole numbers, so that the lines always close.

use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay::Overlay;
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::i_float::int::point::IntPoint;
use std::collections::BTreeMap;

/// A corner of a polygon, on a grid of whole micrometres.
pub(super) type Corner = IntPoint<i32>;

/// The outer boundary of the sum of two polygons. Both have to be simple, without straight corners,
/// and of positive area; so is the sum. A hole in it, where one fits into the other, is filled.
pub(super) fn sum(a: &[Corner], b: &[Corner]) -> Vec<Corner> {
    let contours = convolution(a, b);
    let shapes = Overlay::from_subj(&contours).overlay(OverlayRule::Subject, FillRule::Positive);
    // The sum of connected areas is connected; what else there is are crumbs.
    let outer = shapes.into_iter().filter_map(|shape| shape.into_iter().next());
    outer.max_by_key(Vec::len).unwrap_or_default()
}

/// A polygon turned by half a turn about the origin.
pub(super) fn turned(a: &[Corner]) -> Vec<Corner> {
    a.iter().map(|p| Corner::new(-p.x, -p.y)).collect()
}

/// Which of two equal directions counts as the later one, turning from x to y.
#[derive(Clone, Copy)]
enum Tie {
    Before,
    After,
}

/// The closed lines of the convolution.
fn convolution(a: &[Corner], b: &[Corner]) -> Vec<Vec<Corner>> {
    let (n, m) = (a.len(), b.len());
    // From a pair of corners to the next.
    let mut steps: BTreeMap<(usize, usize), Vec<(usize, usize)>> = BTreeMap::new();
    let mut step = |turn: i64, from, to| {
        if turn > 0 {
            steps.entry(from).or_default().push(to);
        } else {
            steps.entry(to).or_default().push(from);
        }
    };
    for (i, j) in (0..n).flat_map(|i| (0..m).map(move |j| (i, j))) {
        let (next_i, next_j) = ((i + 1) % n, (j + 1) % m);
        let turn = corner_turn(b, j);
        if is_in_turn(b, j, turn, side(a, i), Tie::Before) {
            step(turn, (i, j), (next_i, j));
        }
        let turn = corner_turn(a, i);
        if is_in_turn(a, i, turn, side(b, j), Tie::After) {
            step(turn, (i, j), (i, next_j));
        }
    }
    chained(steps).into_iter().map(|line| line.into_iter().map(|(i, j)| plus(a[i], b[j])).collect()).collect()
}

/// As many steps end at a pair as begin there: they make closed lines.
fn chained(mut steps: BTreeMap<(usize, usize), Vec<(usize, usize)>>) -> Vec<Vec<(usize, usize)>> {
    let mut lines = Vec::new();
    while let Some(first) = steps.first_key_value().map(|(from, _)| *from) {
        let mut line = Vec::new();
        let mut here = first;
        while let Some(ways) = steps.get_mut(&here) {
            line.push(here);
            let next = ways.pop();
            if ways.is_empty() {
                steps.remove(&here);
            }
            here = next.unwrap_or(first);
        }
        lines.push(line);
    }
    lines
}

type Direction = (i64, i64);

fn plus(a: Corner, b: Corner) -> Corner {
    Corner::new(a.x + b.x, a.y + b.y)
}

fn side(p: &[Corner], i: usize) -> Direction {
    let (from, to) = (p[i], p[(i + 1) % p.len()]);
    (i64::from(to.x) - i64::from(from.x), i64::from(to.y) - i64::from(from.y))
}

fn cross(u: Direction, v: Direction) -> i64 {
    u.0 * v.1 - u.1 * v.0
}

fn is_same_way(u: Direction, v: Direction) -> bool {
    cross(u, v) == 0 && u.0 * v.0 + u.1 * v.1 > 0
}

/// Positive where a polygon turns from x to y at a corner, negative where the corner is hollow.
pub(super) fn corner_turn(p: &[Corner], i: usize) -> i64 {
    cross(side(p, (i + p.len() - 1) % p.len()), side(p, i))
}

/// Is a direction one of those that a polygon turns through at a corner?
fn is_in_turn(p: &[Corner], i: usize, turn: i64, d: Direction, tie: Tie) -> bool {
    let (before, after) = (side(p, (i + p.len() - 1) % p.len()), side(p, i));
    let (from, to) = if turn > 0 { (before, after) } else { (after, before) };
    let is_past = cross(from, d) > 0 || (matches!(tie, Tie::After) && is_same_way(from, d));
    let is_short = cross(d, to) > 0 || (matches!(tie, Tie::Before) && is_same_way(d, to));
    is_past && is_short
}
