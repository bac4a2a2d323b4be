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
    // Every corner meets every other: what is known of one is worked out once.
    let (turns_of_a, turns_of_b) = (turns(a), turns(b));
    for (i, own) in turns_of_a.iter().enumerate() {
        for (j, other) in turns_of_b.iter().enumerate() {
            if other.holds(own.side, Tie::Before) {
                step(other.turn, (i, j), ((i + 1) % n, j));
            }
            if own.holds(other.side, Tie::After) {
                step(own.turn, (i, j), (i, (j + 1) % m));
            }
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

/// A corner: the side that begins there, how it turns, and the directions that it turns through.
struct Turn {
    side: Direction,
    turn: i64,
    from: Direction,
    to: Direction,
}

fn turns(p: &[Corner]) -> Vec<Turn> {
    let at = |i: usize| {
        let (before, after, turn) = (side(p, (i + p.len() - 1) % p.len()), side(p, i), corner_turn(p, i));
        let (from, to) = if turn > 0 { (before, after) } else { (after, before) };
        Turn { side: after, turn, from, to }
    };
    (0..p.len()).map(at).collect()
}

impl Turn {
    /// Is a direction one of those that it turns through?
    fn holds(&self, d: Direction, tie: Tie) -> bool {
        let is_past = cross(self.from, d) > 0 || (matches!(tie, Tie::After) && is_same_way(self.from, d));
        is_past && (cross(d, self.to) > 0 || (matches!(tie, Tie::Before) && is_same_way(d, self.to)))
    }
}
