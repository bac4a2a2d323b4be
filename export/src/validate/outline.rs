//! Boundary, points, notches, grain, mirror line and validation curves of a piece.

use super::found::Found;
use crate::dxf::pieces::layer;
use crate::read::dxf::{Block, Drawn, Record, drawn};
use engine::finding::Level;
use kurbo::Point;

/// A point marks a vertex this near, mm.
const MARKS: f64 = 0.05;

/// A notch lies on the boundary within this, mm.
const ON_BOUNDARY: f64 = 0.2;

/// A line keeps this near to its validation curve, mm: half the usual tolerance of a cutter.
const CLOSE: f64 = 0.1;

/// The layer of validation curves for a line's layer.
const VALIDATION: [(&str, &str); 2] =
    [(layer::BOUNDARY, layer::BOUNDARY_VALIDATION), (layer::SEW, layer::SEW_VALIDATION)];

/// Lines and points of a block by layer.
fn on<'b>(block: &'b Block, kind: &'b str, layer: &'b str) -> impl Iterator<Item = &'b Record> {
    block.records.iter().filter(move |r| r.kind() == kind && r.layer() == layer)
}

/// Everything that is drawn of a piece.
pub(super) fn piece(block: &Block, found: &mut Found) {
    let lines = drawn(&block.records, 1.0);
    let of = |layer: &str| lines.iter().filter(|d| d.layer == layer).collect::<Vec<_>>();
    let boundaries = of(layer::BOUNDARY);
    let [boundary] = boundaries.as_slice() else {
        let text = format!("there are {} boundaries on layer 1, and one is agreed", boundaries.len());
        found.add(
            "dxf-boundary",
            Level::Refusal,
            &block.name,
            text,
            "join the outline to one closed POLYLINE on layer 1",
        );
        return;
    };
    self::boundary(&block.name, boundary, found);
    points(block, &lines, found);
    notches(block, boundary, found);
    grain(block, found);
    mirror(block, boundary, found);
    for (own, curves) in VALIDATION {
        validation(&block.name, &of(own), &of(curves), (own, curves), found);
    }
}

fn boundary(name: &str, boundary: &Drawn, found: &mut Found) {
    if !boundary.chain.is_closed() {
        let text = "the boundary is open".to_owned();
        found.add("dxf-boundary-open", Level::Refusal, name, text, "close the POLYLINE on layer 1 (code 70, bit 1)");
    }
    if !boundary.is_straight {
        let text = "the boundary has arcs in it".to_owned();
        found.add("dxf-boundary-round", Level::Warning, name, text, "draw curves as short straight parts");
    }
}

/// Every corner is marked on layer 2 and every other vertex on 2 or 3.
fn points(block: &Block, lines: &[Drawn], found: &mut Found) {
    let marked = |layer: &str| on(block, "POINT", layer).map(|r| r.point(10)).collect::<Vec<_>>();
    let (turns, curves) = (Near::new(marked(layer::TURN)), Near::new(marked(layer::CURVE)));
    let lined = lines.iter().filter(|d| d.layer == layer::BOUNDARY);
    let (mut bare_turns, mut bare_curves) = (0, 0);
    for line in lined {
        let corners = line.chain.turns();
        for (i, p) in line.chain.points().iter().enumerate() {
            let is_turn = turns.has(*p);
            bare_turns += usize::from(corners.contains(&i) && !is_turn);
            bare_curves += usize::from(!corners.contains(&i) && !is_turn && !curves.has(*p));
        }
    }
    if bare_turns > 0 {
        let text = format!("{bare_turns} corners of the boundary have no turn point");
        found.add("dxf-turn-points", Level::Warning, &block.name, text, "put a POINT on layer 2 on every corner");
    }
    if bare_curves > 0 {
        let text = format!("{bare_curves} vertices of the boundary have neither a turn point nor a curve point");
        found.add(
            "dxf-curve-points",
            Level::Warning,
            &block.name,
            text,
            "put a POINT on layer 3 on every vertex of a curve",
        );
    }
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

fn notches(block: &Block, boundary: &Drawn, found: &mut Found) {
    for (kind, width) in NOTCHES {
        for notch in on(block, "POINT", kind) {
            let p = notch.point(10);
            let wide = notch.number(39).unwrap_or(0.0);
            if wide < 0.0 || (wide == 0.0 && width == Width::Needed) {
                let text = format!("the notch at {:.1}, {:.1} on layer {kind} has no width", p.x, p.y);
                let next = "give its width as the point's thickness (39), or draw a slit on layer 4 with 0";
                found.add("dxf-notch-width", Level::Warning, &block.name, text, next);
            }
            let off = distance(boundary, p);
            if off > ON_BOUNDARY {
                let text = format!("the notch at {:.1}, {:.1} lies {off:.2} mm off the boundary", p.x, p.y);
                found.measured(
                    "dxf-notch-off",
                    &block.name,
                    (off, ON_BOUNDARY),
                    text,
                    "put every notch on the boundary",
                );
            }
            if notch.number(30).is_none_or(|z| z <= 0.0) {
                let text = format!("the notch at {:.1}, {:.1} has no depth", p.x, p.y);
                found.add("dxf-notch-depth", Level::Warning, &block.name, text, "give its depth as the point's Z");
            }
        }
    }
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

fn grain(block: &Block, found: &mut Found) {
    let count = on(block, "LINE", layer::GRAIN).count();
    if count != 1 {
        let text = format!("there are {count} grain lines, and one is agreed");
        found.add("dxf-grain", Level::Warning, &block.name, text, "draw one LINE on layer 7 along the grain");
    }
}

/// Both ends of the mirror line are on the boundary, and all of that is on one side of it.
fn mirror(block: &Block, boundary: &Drawn, found: &mut Found) {
    for line in on(block, "LINE", layer::MIRROR) {
        let (a, b) = (line.point(10), line.point(11));
        let ends = [a, b].iter().all(|p| distance(boundary, *p) <= MARKS);
        let along = b - a;
        let side = |p: &Point| along.cross(*p - a) / along.hypot().max(1e-30);
        let (low, high) =
            boundary.chain.points().iter().map(side).fold((0.0_f64, 0.0_f64), |(l, h), s| (l.min(s), h.max(s)));
        if !ends || low.abs().min(high) > MARKS {
            let text = "the mirror line is not a straight side of the boundary with all of it on one side".to_owned();
            found.add(
                "dxf-mirror",
                Level::Refusal,
                &block.name,
                text,
                "draw the LINE on layer 6 along the fold, corner to corner",
            );
        }
    }
}

/// Every vertex of a line is near its validation curves, and the other way round.
fn validation(name: &str, own: &[&Drawn], curves: &[&Drawn], (a, b): (&str, &str), found: &mut Found) {
    if own.is_empty() || curves.is_empty() {
        // They are optional.
        return;
    }
    let (Some(there), Some(back)) = (strays(own, curves), strays(curves, own)) else {
        let text = format!("the lines on layers {a} and {b} have too many vertices to be compared");
        found.add("dxf-validation-long", Level::Note, name, text, "draw them with fewer vertices");
        return;
    };
    let off = there.max(back);
    if off > CLOSE {
        let text = format!("layer {a} and its validation curves on layer {b} are up to {off:.2} mm apart");
        found.measured(
            "dxf-validation",
            name,
            (off, CLOSE),
            text,
            "draw both from the same curve, or leave layer 84 to 87 out",
        );
    }
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
