//! The seven properties of every garment, measured on its curves, as errors with limits.

use super::measure::{
    Row, any_edge, corner, curvatures, cut, finished, length, length_shrunk, piece, resolve, sewing, sign_changes,
};
use super::polygon::{first_touch, furthest_outside, largest_gap, twice_area, unfolded};
use engine::garment::{EdgeRef, Garment, Outline, Piece, Value};
use engine::sheet::{Opening, Sheet, WaistLevel};
use engine::terms::Extent;
use engine::topology::SeamLine;
use kurbo::{ParamCurve, ParamCurveArea};
use std::collections::BTreeMap;

/// An error that was measured, and how large it may be.
#[derive(Clone, Debug)]
pub struct Measured {
    pub what: &'static str,
    pub error: f64,
    pub limit: f64,
}

impl Measured {
    pub fn holds(&self) -> bool {
        // Not a number is no measure.
        self.error <= self.limit
    }
}

/// Curvatures under this count as straight: a radius of a hundred metres, 1/mm.
pub const STRAIGHT: f64 = 1e-5;

/// A value that the garment says it stands on: mm, percent or a number.
pub fn used(g: &Garment, key: &str) -> f64 {
    match g.used.iter().find(|u| u.key.to_string() == key).map(|u| &u.value) {
        Some(Value::Mm(v) | Value::Percent(v) | Value::Number(v)) => *v,
        other => panic!("no number in use as {key}: {other:?}"),
    }
}

/// All that can be measured on one garment.
pub fn measure(sheet: &Sheet, g: &Garment) -> Vec<Measured> {
    let mut all = Vec::new();
    seams(g, &mut all);
    crossings(g, &mut all);
    centres(sheet, g, &mut all);
    girths(sheet, g, &mut all);
    outlines(g, &mut all);
    widths(sheet, g, &mut all);
    leg_edges(g, &mut all);
    legs_bend(g, &mut all);
    all
}

fn push(all: &mut Vec<Measured>, what: &'static str, error: f64, limit: f64) {
    all.push(Measured { what, error, limit });
}

fn seams(g: &Garment, all: &mut Vec<Measured>) {
    let names: Vec<&str> = g.seams.iter().map(|s| s.id.name()).collect();
    assert_eq!(names.len(), 6, "six seams are walked: {names:?}");
    for seam in &g.seams {
        assert_ne!(seam.a.piece, seam.b.piece, "{} joins two pieces", seam.id.name());
        let both = |row: Row| (length(&resolve(g, &seam.a, row)), length(&resolve(g, &seam.b, row)));
        let (a, b) = both(finished);
        let side = seam.id.line() == SeamLine::Side;
        push(all, if side { "1 side seam, finished, mm" } else { "1 gusset seam, finished, mm" }, (a - b).abs(), 0.01);
        push(all, "1 seam as reported, mm", (a - seam.length_a).abs().max((b - seam.length_b).abs()), 1e-3);
        let (a, b) = both(sewing);
        push(all, "1 seam between sewing lines, mm", (a - b).abs(), 0.05);
        push(all, "1 sewn as reported, mm", (a - seam.sewn_a).abs().max((b - seam.sewn_b).abs()), 1e-3);
        if side {
            push(all, "5 side seam short of 10 mm, mm", 10.0 - a.min(b), 0.0);
        }
    }
}

fn crossings(g: &Garment, all: &mut Vec<Measured>) {
    // The top at both sides, each leg at its side and at both gusset seams.
    assert_eq!(g.crossings.len(), 8, "{:?}", g.crossings);
    for crossing in &g.crossings {
        let seam = g.seams.iter().find(|s| s.id == crossing.id.seam).unwrap();
        let angle: f64 = [&crossing.a, &crossing.b].iter().map(|at| interior(g, at, [&seam.a, &seam.b])).sum();
        push(all, "2 crossing off 180, degrees", (angle - 180.0).abs(), 0.5);
        push(all, "2 crossing as reported, degrees", (angle - crossing.angle).abs(), 0.01);
    }
    for name in ["front", "back"] {
        let p = piece(g, name);
        let off = if p.extent == Extent::HalfOnFold {
            (corner(p, "centre", "top") - 90.0).abs()
        } else {
            0.5 * (corner(p, "left top", "right top") - 180.0).abs()
        };
        push(all, "2 top square to the centre, degrees", off, 0.01);
    }
}

fn interior(g: &Garment, opening: &EdgeRef, seams: [&EdgeRef; 2]) -> f64 {
    let seam = seams.into_iter().find(|s| s.piece == opening.piece).unwrap();
    corner(piece(g, opening.piece.name()), opening.edge.name(), seam.edge.name())
}

/// How much longer cloth is cut for the shrinkage to come: across, along.
pub fn before_washing(sheet: &Sheet) -> (f64, f64) {
    let more = |s: Option<engine::quantity::Ratio>| 1.0 / (1.0 - s.map_or(0.0, |s| s.fraction()));
    (more(sheet.fabric.shrink_across), more(sheet.fabric.shrink_along))
}

/// Where an edge of the +x half starts and ends, after washing.
fn ends(sheet: &Sheet, g: &Garment, part: &str, edge: &str) -> [(f64, f64); 2] {
    let (across, along) = before_washing(sheet);
    let p = piece(g, part);
    let plus = p.finished.edges.iter().find(|e| e.id.name().ends_with(edge) && e.path.bounds().center().x > 0.0);
    let path = &plus.unwrap_or_else(|| panic!("no {edge} on the {part}")).path;
    [path.start(), path.end()].map(|q| (q.x / across, q.y / along))
}

fn centres(sheet: &Sheet, g: &Garment, all: &mut Vec<Measured>) {
    let ease = used(g, "fabric.ease_along") / 100.0;
    let (gusset, forward) = (used(g, "gusset.length"), used(g, "gusset.forward"));
    let crotch = sheet.body.crotch_length.mm();
    let front = sheet.body.crotch_length_front.map_or(0.45 * crotch, |f| f.mm());
    for (part, seam, depth, drop, taken) in [
        ("front", "front gusset", front, "style.top_drop_front", forward * gusset),
        ("back", "back gusset", crotch - front, "style.top_drop_back", (1.0 - forward) * gusset),
    ] {
        let wanted = (depth - used(g, drop)) * (1.0 + ease) - taken;
        let drawn = ends(sheet, g, part, seam)[1].1 - ends(sheet, g, part, "top")[0].1;
        push(all, "3 centre length, mm", (drawn - wanted).abs(), 0.01);
    }
    let [(_, from), _] = ends(sheet, g, "gusset", "front gusset");
    let [_, (_, to)] = ends(sheet, g, "gusset", "back gusset");
    push(all, "3 gusset length, mm", (to - from - gusset).abs(), 0.01);
}

/// The girth rule of the design, written again: W + (H − W)·t·(1 + c(1 − t)).
fn girth(sheet: &Sheet, depth: f64) -> f64 {
    let b = &sheet.body;
    let c = match b.waist_level.unwrap_or(WaistLevel::Natural) {
        WaistLevel::Natural => 1.0,
        WaistLevel::Midway => 0.6,
        WaistLevel::Navel => 0.2,
    };
    let t = (depth / b.waist_to_hip.mm()).clamp(0.0, 1.0);
    b.waist_girth.mm() + (b.hip_girth.mm() - b.waist_girth.mm()) * t * (1.0 + c * (1.0 - t))
}

fn girths(sheet: &Sheet, g: &Garment, all: &mut Vec<Measured>) {
    let ease = 1.0 + used(g, "fabric.ease_across") / 100.0;
    let drop = |part: &str| used(g, &format!("style.top_drop_{part}"));
    let level = (drop("front") + 2.0 * drop("side") + drop("back")) / 4.0;
    let shrunk = before_washing(sheet);
    let of = |part: &str, name: &str| any_edge(piece(g, part), &piece(g, part).finished, name);
    let ring = 2.0 * (length_shrunk(of("front", "top"), shrunk) + length_shrunk(of("back", "top"), shrunk));
    let body = sheet.body.top_edge_girth.map_or_else(|| girth(sheet, level), |g| g.mm());
    push(all, "4 top ring, mm", (ring - body * ease).abs(), 0.01);
    let foot = drop("side") + length(of("front", "side")) / shrunk.1;
    let width = 2.0 * (ends(sheet, g, "front", "side")[1].0 + ends(sheet, g, "back", "side")[1].0);
    push(all, "4 width round the foot of the sides, mm", (width - girth(sheet, foot) * ease).abs(), 0.01);
}

fn outlines(g: &Garment, all: &mut Vec<Measured>) {
    for p in &g.pieces {
        let rows: Vec<_> = [finished as Row, sewing, cut].iter().map(|row| (row(p), unfolded(p, row(p)))).collect();
        for (outline, polygon) in &rows {
            push(all, "5 places that are no number", unmeasurable(outline), 0.0);
            push(all, "5 outline closed, mm", largest_gap(outline), 1e-6);
            push(all, "5 outline crosses itself", if first_touch(polygon).is_some() { 1.0 } else { 0.0 }, 0.0);
            push(all, "5 outline not clockwise", if twice_area(polygon) > 0.0 { 0.0 } else { 1.0 }, 0.0);
        }
        push(all, "5 sewing line outside the cut line, mm", furthest_outside(&rows[1].1, &rows[2].1), 0.01);
        let area = area(p, &p.cut);
        push(all, "5 area as reported, %", 100.0 * (area / p.area_mm2 - 1.0).abs(), 1e-6);
        // A polygon of a hundred sides and more has nearly the same.
        push(all, "5 area of the polygon, %", 100.0 * (0.5 * twice_area(&rows[2].1) / area - 1.0).abs(), 0.2);
    }
}

/// Inside an outline, unfolded, by Green's theorem on its curves, mm².
fn area(p: &Piece, outline: &Outline) -> f64 {
    let half: f64 = outline.edges.iter().flat_map(|e| e.path.segments()).map(kurbo::PathSeg::signed_area).sum();
    if p.extent == Extent::HalfOnFold { 2.0 * half } else { half }
}

/// Curves with places that are no number, which comparisons would be blind to.
fn unmeasurable(outline: &Outline) -> f64 {
    let ok = |s: &&kurbo::PathSeg| [0.0, 0.3, 0.7, 1.0].iter().all(|t| s.eval(*t).is_finite());
    outline.edges.iter().flat_map(|e| e.path.segments()).filter(|s| !ok(s)).count() as f64
}

fn widths(sheet: &Sheet, g: &Garment, all: &mut Vec<Measured>) {
    let (across, _) = before_washing(sheet);
    let gusset = piece(g, "gusset");
    let reach = |leg: &str| {
        let edge = gusset.finished.edges.iter().find(|e| e.id.name() == leg).unwrap();
        edge.path.flatten(1e-4).iter().map(|p| p.x.abs()).fold(f64::INFINITY, f64::min)
    };
    let narrowest = (reach("left leg") + reach("right leg")) / across;
    push(all, "5 gusset's narrowest width, mm", (narrowest - used(g, "gusset.width")).abs(), 0.01);
    let [foot, corner] = ends(sheet, g, "front", "leg");
    // A full front walks one of its legs from the gusset.
    let fall = (corner.1 - foot.1) / (foot.0 - corner.0);
    push(all, "5 front leg falls short of 0.25", 0.25 - fall, 1e-4);
}

fn leg_edges(g: &Garment, all: &mut Vec<Measured>) {
    let order: Vec<Opening> = g.openings.iter().map(|o| o.opening).collect();
    assert_eq!(order, Opening::ALL);
    for opening in &g.openings {
        for (row, reported) in [(finished as Row, opening.finished), (sewing, opening.sewing), (cut, opening.cut)] {
            let ring: f64 = opening.path.iter().map(|at| length(&resolve(g, at, row))).sum();
            push(all, "7 opening as reported, mm", (ring - reported).abs(), 1e-3);
        }
        let worn = &opening.worn;
        assert!(worn.girth > 0.0 && worn.stretch.is_finite(), "{worn:?}");
    }
}

fn legs_bend(g: &Garment, all: &mut Vec<Measured>) {
    for (part, most) in [("front", 0.0), ("back", 2.0)] {
        let p = piece(g, part);
        let bends = curvatures(any_edge(p, &p.finished, "leg"), 200);
        let what = if part == "front" { "front leg's inflections" } else { "back leg's inflections" };
        push(all, what, sign_changes(&bends, STRAIGHT) as f64, most);
    }
}

/// The largest error of each kind.
#[derive(Default)]
pub struct Worst(BTreeMap<&'static str, (f64, f64, String)>);

impl Worst {
    pub fn add(&mut self, measured: &[Measured], who: &str) {
        for m in measured {
            let entry = self.0.entry(m.what).or_insert_with(|| (f64::NEG_INFINITY, m.limit, String::new()));
            if m.error > entry.0 || m.error.is_nan() {
                *entry = (m.error, m.limit, who.to_owned());
            }
        }
    }

    /// One line for each kind: what, worst, limit, where.
    pub fn table(&self) -> String {
        let line = |(what, (error, limit, who)): (&&str, &(f64, f64, String))| {
            format!("  {what:44} {error:12.3e}  allowed {limit:8.1e}  {who}\n")
        };
        self.0.iter().map(line).collect()
    }
}
