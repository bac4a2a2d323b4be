//! Boundary, points, notches, grain, mirror line and validation curves of a piece.

use super::fact::{Fact, Layers, NOTCH_OFF, VALIDATION_OFF};
use crate::dxf::pieces::layer;
use crate::read::dxf::{Block, Drawn, Record, drawn};
use kurbo::Point;

/// A point marks a vertex this near, mm.
const MARKS: f64 = 0.05;

/// Lines that have validation curves.
const VALIDATED: [Layers; 2] = [
    Layers { line: layer::BOUNDARY, curves: layer::BOUNDARY_VALIDATION },
    Layers { line: layer::SEW, curves: layer::SEW_VALIDATION },
];

/// Lines and points of a block by layer.
fn on<'b>(block: &'b Block, kind: &'b str, layer: &'b str) -> impl Iterator<Item = &'b Record> {
    block.records.iter().filter(move |r| r.kind() == kind && r.layer() == layer)
}

/// Everything that is drawn of a piece.
pub(super) fn piece(block: &Block) -> Vec<Fact> {
    let lines = drawn(&block.records, 1.0);
    let of = |layer: &str| lines.iter().filter(|d| d.layer == layer).collect::<Vec<_>>();
    let boundaries = of(layer::BOUNDARY);
    let [boundary] = boundaries.as_slice() else { return vec![Fact::Boundaries(boundaries.len())] };
    let open = (!boundary.chain.is_closed()).then_some(Fact::BoundaryOpen);
    let round = (!boundary.is_straight).then_some(Fact::BoundaryRound);
    let mut found: Vec<Fact> = open.into_iter().chain(round).collect();
    found.extend(points(block, boundary));
    found.extend(notches(block, boundary));
    let grains = on(block, "LINE", layer::GRAIN).count();
    found.extend((grains != 1).then_some(Fact::Grain(grains)));
    found.extend(on(block, "LINE", layer::MIRROR).filter(|l| !is_mirror(l, boundary)).map(|_| Fact::Mirror));
    found.extend(VALIDATED.into_iter().filter_map(|layers| validation(&of(layers.line), &of(layers.curves), layers)));
    found
}

/// Every corner is marked on layer 2 and every other vertex on 2 or 3.
fn points(block: &Block, boundary: &Drawn) -> impl Iterator<Item = Fact> + use<> {
    let marked = |layer: &str| on(block, "POINT", layer).map(|r| r.point(10)).collect::<Vec<_>>();
    let (turns, curves) = (Near::new(marked(layer::TURN)), Near::new(marked(layer::CURVE)));
    let corners = boundary.chain.turns();
    let (mut bare_turns, mut bare_curves) = (0, 0);
    for (i, p) in boundary.chain.points().iter().enumerate().filter(|(_, p)| !turns.has(**p)) {
        match corners.contains(&i) {
            true => bare_turns += 1,
            false => bare_curves += usize::from(!curves.has(*p)),
        }
    }
    let of = |bare: usize, fact: fn(usize) -> Fact| (bare > 0).then(|| fact(bare));
    of(bare_turns, Fact::TurnPoints).into_iter().chain(of(bare_curves, Fact::CurvePoints))
}

/// Points sorted by x, to be looked up quickly.
struct Near(Vec<Point>);

impl Near {
    fn new(mut points: Vec<Point>) -> Self {
        points.sort_by(|a, b| a.x.total_cmp(&b.x));
        Self(points)
    }

    fn has(&self, p: Point) -> bool {
        let from = self.0.partition_point(|q| q.x < p.x - MARKS);
        self.0[from..].iter().take_while(|q| q.x <= p.x + MARKS).any(|q| q.distance(p) <= MARKS)
    }
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

fn notches(block: &Block, boundary: &Drawn) -> Vec<Fact> {
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
fn is_mirror(line: &Record, boundary: &Drawn) -> bool {
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

/// More parts than this are not compared with each other: it would take minutes.
const MOST: usize = 40_000_000;

fn strays(from: &[&Drawn], to: &[&Drawn]) -> Option<f64> {
    let size = |lines: &[&Drawn]| lines.iter().map(|d| d.chain.points().len()).sum::<usize>();
    if size(from).saturating_mul(size(to)) > MOST {
        return None;
    }
    let off = |p: &Point| to.iter().map(|d| distance(d, *p)).fold(f64::INFINITY, f64::min);
    from.iter().flat_map(|d| d.chain.points()).map(off).fold(0.0, f64::max).into()
}
