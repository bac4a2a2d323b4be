//! Boundary, points, notches, grain, mirror line and validation curves of a piece.

use super::fact::{Fact, Layers, NOTCH_OFF, VALIDATION_OFF};
use crate::dxf::pieces::layer;
use crate::read::ReadError;
use crate::read::dxf::{Drawn, drawn};
use crate::read::limits::at_most;
use crate::read::records::{Block, Record};
use kurbo::Point;
use std::collections::BTreeMap;

/// A point marks a vertex this near, mm.
const MARKS: f64 = 0.05;

/// Lines that have validation curves.
const VALIDATED: [Layers; 2] = [
    Layers { line: layer::BOUNDARY, curves: layer::BOUNDARY_VALIDATION },
    Layers { line: layer::SEW, curves: layer::SEW_VALIDATION },
];

/// Lines and points of a block by layer.
fn on<'b>(block: &'b Block<'b>, kind: &'b str, layer: &'b str) -> impl Iterator<Item = &'b Record<'b>> {
    block.records.iter().filter(move |r| r.kind() == kind && r.layer() == layer)
}

/// Everything that is drawn of a piece.
///
/// # Errors
/// More notches and mirror lines than any piece has: each is measured against the whole boundary.
pub(super) fn piece(block: &Block<'_>) -> Result<Vec<Fact>, ReadError> {
    let lines = drawn(&block.records, 1.0);
    let of = |layer: &str| lines.iter().filter(|d| d.layer == layer).collect::<Vec<_>>();
    let boundaries = of(layer::BOUNDARY);
    let [boundary] = boundaries.as_slice() else { return Ok(vec![Fact::Boundaries(boundaries.len())]) };
    let marks = NOTCHES.iter().map(|(layer, _)| on(block, "POINT", layer).count()).sum::<usize>();
    at_most(marks + on(block, "LINE", layer::MIRROR).count(), "notches of one piece", MOST_NOTCHES)?;
    let open = (!boundary.chain.is_closed()).then_some(Fact::BoundaryOpen);
    let round = (!boundary.is_straight).then_some(Fact::BoundaryRound);
    let mut found: Vec<Fact> = open.into_iter().chain(round).collect();
    found.extend(points(block, boundary));
    found.extend(notches(block, boundary));
    let grains = on(block, "LINE", layer::GRAIN).count();
    found.extend((grains != 1).then_some(Fact::Grain(grains)));
    found.extend(on(block, "LINE", layer::MIRROR).filter(|l| !is_mirror(l, boundary)).map(|_| Fact::Mirror));
    found.extend(VALIDATED.into_iter().filter_map(|layers| validation(&of(layers.line), &of(layers.curves), layers)));
    Ok(found)
}

/// Every corner is marked on layer 2 and every other vertex on 2 or 3.
fn points(block: &Block<'_>, boundary: &Drawn) -> impl Iterator<Item = Fact> + use<> {
    let [turns, curves] =
        [layer::TURN, layer::CURVE].map(|layer| Near::new(on(block, "POINT", layer).map(|r| r.point(10))));
    let corners = boundary.chain.turns();
    let (mut bare_turns, mut bare_curves) = (0, 0);
    for (i, p) in boundary.chain.points().iter().enumerate().filter(|(_, p)| !turns.has(**p)) {
        match corners.binary_search(&i).is_ok() {
            true => bare_turns += 1,
            false => bare_curves += usize::from(!curves.has(*p)),
        }
    }
    let of = |bare: usize, fact: fn(usize) -> Fact| (bare > 0).then(|| fact(bare));
    of(bare_turns, Fact::TurnPoints).into_iter().chain(of(bare_curves, Fact::CurvePoints))
}

/// Notches of a piece.
const MOST_NOTCHES: usize = 500;

/// Points in the squares of a grid, to be looked up quickly wherever they are.
struct Near(BTreeMap<(i64, i64), Vec<Point>>);

/// The sides of the squares: points of one square are near each other.
const SQUARE: f64 = MARKS * std::f64::consts::FRAC_1_SQRT_2;

/// As many points of one square are kept: more lie almost where these do.
const CROWD: usize = 16;

impl Near {
    fn new(points: impl Iterator<Item = Point>) -> Self {
        let mut squares: BTreeMap<_, Vec<Point>> = BTreeMap::new();
        for p in points {
            let square = squares.entry(square(p)).or_default();
            if square.len() < CROWD {
                square.push(p);
            }
        }
        Self(squares)
    }

    fn has(&self, p: Point) -> bool {
        let (x, y) = square(p);
        let around = (x - 2..=x + 2).flat_map(|x| self.0.range((x, y - 2)..=(x, y + 2)));
        around.flat_map(|(_, points)| points).any(|q| q.distance_squared(p) <= MARKS * MARKS)
    }
}

fn square(p: Point) -> (i64, i64) {
    // Outlines are within 10⁶ mm; what is not stands in the last square.
    let of = |v: f64| (v.clamp(-1e9, 1e9) / SQUARE).floor() as i64;
    (of(p.x), of(p.y))
}

/// Layers of notches, and whether such a one has a width: on layer 4 are slits, which have none, and
/// Vs, which have one.
const NOTCHES: [(&str, Width); 5] = [
    (layer::NOTCH, Width::Allowed),
    ("80", Width::Needed),
    ("81", Width::Needed),
    ("82", Width::Allowed),
    ("83", Width::Needed),
];

#[derive(Clone, Copy, PartialEq, Eq)]
enum Width {
    Allowed,
    Needed,
}

fn notches(block: &Block<'_>, boundary: &Drawn) -> Vec<Fact> {
    let points =
        NOTCHES.into_iter().flat_map(|(layer, width)| on(block, "POINT", layer).map(move |n| (layer, width, n)));
    let facts = points.flat_map(|(layer, width, notch)| {
        let at = notch.point(10);
        let wide = notch.number(39).unwrap_or(0.0);
        let is_narrow = wide < 0.0 || (wide == 0.0 && width == Width::Needed);
        let off = distance(boundary, at);
        let is_flat = notch.number(30).is_none_or(|z| z <= 0.0);
        [
            is_narrow.then_some(Fact::NotchWidth { at, layer }),
            (off > NOTCH_OFF).then_some(Fact::NotchOff { at, off }),
            is_flat.then_some(Fact::NotchDepth { at }),
        ]
    });
    facts.flatten().collect()
}

/// From a point to a line's parts, taken as straight.
fn distance(line: &Drawn, p: Point) -> f64 {
    let points = line.chain.points();
    let round = usize::from(line.chain.is_closed());
    let ends = points.iter().skip(1).chain(points.iter().take(round));
    points.iter().zip(ends).map(|(a, b)| to_part(*a, *b, p)).fold(f64::INFINITY, f64::min)
}

fn to_part(a: Point, b: Point, p: Point) -> f64 {
    let along = b - a;
    let share = ((p - a).dot(along) / along.hypot2().max(1e-30)).clamp(0.0, 1.0);
    p.distance(a + along * share)
}

/// Both ends of a mirror line are on the boundary, and all of that is on one side of it.
fn is_mirror(line: &Record<'_>, boundary: &Drawn) -> bool {
    let (a, b) = (line.point(10), line.point(11));
    let ends = [a, b].iter().all(|p| distance(boundary, *p) <= MARKS);
    let along = b - a;
    let side = |p: &Point| along.cross(*p - a) / along.hypot().max(1e-30);
    let (low, high) =
        boundary.chain.points().iter().map(side).fold((0.0_f64, 0.0_f64), |(l, h), s| (l.min(s), h.max(s)));
    ends && low.abs().min(high) <= MARKS
}

/// Every vertex of a line is near its validation curves, and the other way round.
fn validation(own: &[&Drawn], curves: &[&Drawn], layers: Layers) -> Option<Fact> {
    if own.is_empty() || curves.is_empty() {
        // They are optional.
        return None;
    }
    let (Some(there), Some(back)) = (strays(own, curves), strays(curves, own)) else {
        return Some(Fact::ValidationLong(layers));
    };
    let off = there.max(back);
    (off > VALIDATION_OFF).then_some(Fact::Validation { layers, off })
}

/// More parts than this are not compared with each other: it would take long.
const MOST: usize = 4_000_000;

fn strays(from: &[&Drawn], to: &[&Drawn]) -> Option<f64> {
    let size = |lines: &[&Drawn]| lines.iter().map(|d| d.chain.points().len()).sum::<usize>();
    if size(from).saturating_mul(size(to)) > MOST {
        return None;
    }
    let off = |p: &Point| to.iter().map(|d| distance(d, *p)).fold(f64::INFINITY, f64::min);
    from.iter().flat_map(|d| d.chain.points()).map(off).fold(0.0, f64::max).into()
}
