//! A chain cut into edges: by the names it carries, else at its turn points.

use super::chain::Chain;
use crate::cutter::VEE;
use kurbo::Point;

/// How an edge's ends were found.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Found {
    /// By the name that the file carries.
    Name,
    /// By its name, its ends at the turn points nearest to where they were: the outline was edited.
    NearestTurn,
    /// By its name, its ends at the vertices that had it: the whole outline was edited.
    Vertex,
    /// Between turn points, without a name.
    TurnPoints,
}

/// A part of an outline, measured.
#[derive(Clone, Debug, PartialEq)]
pub struct EdgeLength {
    /// Its name, else `part 3`.
    pub name: String,
    /// mm.
    pub length: f64,
    /// How its ends were found.
    pub found: Found,
    /// Where it runs, part by part; nothing where the file has it as curves.
    pub(crate) runs: Vec<Vec<Point>>,
}

/// An edge as a file names it.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Named {
    pub(super) name: String,
    /// Where it starts.
    pub(super) start: Point,
    /// At which vertex, where the file says it.
    pub(super) vertex: Option<usize>,
}

/// A vertex this near to a name's place is the one that is meant, mm.
const SAME: f64 = 0.02;

/// A turn point further away than this is not the same corner any more, mm.
const MOVED: f64 = 40.0;

/// The edges of a chain.
pub(super) fn edges(chain: &Chain, names: &[Named]) -> Vec<EdgeLength> {
    placed(chain, names).map_or_else(|| between_turns(chain), |starts| measured(chain, names, &starts))
}

/// The vertex at which each named edge starts, in order, and how it was found.
fn placed(chain: &Chain, names: &[Named]) -> Option<Vec<(usize, Found)>> {
    if names.is_empty() {
        return None;
    }
    let turns = chain.turns();
    let place = |named: &Named| {
        let (vertex, off) = chain.nearest(named.start);
        if off <= SAME {
            return Some((vertex, Found::Name));
        }
        let far = |i: &usize| chain.points()[*i].distance(named.start);
        let turn = turns.iter().copied().min_by(|a, b| far(a).total_cmp(&far(b)))?;
        (far(&turn) <= MOVED).then_some((turn, Found::NearestTurn))
    };
    let by_place = names.iter().map(place).collect::<Option<Vec<_>>>();
    by_place.filter(|starts| in_order(chain, starts)).or_else(|| at_vertices(chain, names))
}

/// Where every point was moved, the vertices still follow each other as they did.
fn at_vertices(chain: &Chain, names: &[Named]) -> Option<Vec<(usize, Found)>> {
    let place = |named: &Named| {
        let at = named.vertex?;
        let off = chain.points().get(at)?.distance(named.start);
        (off <= MOVED).then_some((at, Found::Vertex))
    };
    let starts = names.iter().map(place).collect::<Option<Vec<_>>>()?;
    in_order(chain, &starts).then_some(starts)
}

/// Round once: every start lies further on than the one before.
fn in_order(chain: &Chain, starts: &[(usize, Found)]) -> bool {
    let n = chain.points().len();
    let steps = starts.iter().zip(starts.iter().skip(1)).map(|(a, b)| (b.0 + n - a.0) % n);
    let round: usize = steps.clone().sum();
    starts.len() == 1 || (steps.clone().all(|s| s > 0) && round < n)
}

fn measured(chain: &Chain, names: &[Named], starts: &[(usize, Found)]) -> Vec<EdgeLength> {
    let count = starts.len();
    let last = chain.points().len() - 1;
    let mut parts = Vec::with_capacity(count);
    for (i, named) in names.iter().enumerate() {
        let (from, found) = starts[i];
        let (to, then) = match starts.get(i + 1) {
            Some(next) => *next,
            None if chain.is_closed() => starts[0],
            None => (last, found),
        };
        let found = if then == Found::NearestTurn { then } else { found };
        let ends = [from, to].map(|v| chain.points()[v]);
        let run = chain.along(from, to);
        parts.push(Part { name: named.name.clone(), length: chain.between(from, to), ends, found, run });
    }
    merged(bridged(&parts))
}

struct Part {
    name: String,
    length: f64,
    ends: [Point; 2],
    found: Found,
    run: Vec<Point>,
}

/// The mouth of a V belongs to the edges beside it: the two sides of the V are left out, and the
/// distance between their ends is shared.
fn bridged(parts: &[Part]) -> Vec<EdgeLength> {
    let is_vee = |p: &Part| p.name.starts_with(VEE);
    let n = parts.len();
    let mut out: Vec<EdgeLength> = Vec::new();
    for (i, part) in parts.iter().enumerate().filter(|(_, p)| !is_vee(p)) {
        let before = &parts[(i + n - 1) % n];
        let after = &parts[(i + 1) % n];
        let mouth = |p: &Part| if is_vee(p) { 0.5 * mouth_of(parts, &p.name) } else { 0.0 };
        let length = part.length + mouth(before) + mouth(after);
        let runs = vec![part.run.clone()];
        out.push(EdgeLength { name: part.name.clone(), length, found: part.found, runs });
    }
    out
}

/// The width of a V at its mouth. One in a fold has only one side, half as wide as it is deep.
fn mouth_of(parts: &[Part], name: &str) -> f64 {
    let sides: Vec<&Part> = parts.iter().filter(|p| p.name == name).collect();
    match sides.as_slice() {
        [a, b] => a.ends[0].distance(b.ends[1]),
        [one] => 2.0 / 5.0_f64.sqrt() * one.ends[0].distance(one.ends[1]),
        _ => 0.0,
    }
}

/// Parts of the same name are one edge; there are few of them.
fn merged(parts: Vec<EdgeLength>) -> Vec<EdgeLength> {
    let mut out: Vec<EdgeLength> = Vec::with_capacity(parts.len());
    for part in parts {
        match out.iter_mut().find(|e| e.name == part.name) {
            Some(edge) => {
                edge.length += part.length;
                edge.runs.extend(part.runs);
            }
            None => out.push(part),
        }
    }
    out
}

fn between_turns(chain: &Chain) -> Vec<EdgeLength> {
    let turns = chain.turns();
    let part = |i: usize, length: f64| {
        let (name, found) = (format!("part {i}"), Found::TurnPoints);
        EdgeLength { name, length, found, runs: Vec::new() }
    };
    if turns.len() < 2 {
        return vec![part(1, chain.length())];
    }
    let ends = turns.iter().skip(1).chain(chain.is_closed().then_some(&turns[0]));
    turns.iter().zip(ends).enumerate().map(|(i, (a, b))| part(i + 1, chain.between(*a, *b))).collect()
}
