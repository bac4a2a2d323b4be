//! The file to exchange, laid out after ASTM D6673: one block per piece, numbered layers.
//!
//! The layer numbers are those of the standard. Where it leaves a choice, readers of plain R12 are
//! served: every curve as a closed or open polyline of straight parts.

use super::error::DxfError;
use super::named;
use super::writer::Writer;
use crate::cutter::{self, Closing, Notches, trace};
use crate::fit;
use crate::mark::PROGRAM;
use crate::number::millionth;
use crate::outline::{self, Run, finished_apart, stitched};
use crate::plain::{block_name, seven_bit};
use engine::curve::float;
use engine::curve::{Path, segment_direction};
use engine::drawing::{Drawing, Edge, Loop, Notch, NotchKind, Open, Piece, Role, TextLine, TextStyle, Vertex};
use kurbo::{Line, ParamCurve, Point, Rect};

/// Curves become chords that stray from them by no more than this, mm. A narrow hollow gusset wants
/// so little, to keep its area within 0.05 % as well.
pub const CHORD_TOLERANCE: f64 = 0.02;

/// Between pieces, mm.
const GAP: f64 = 50.0;

/// A direction that changes by more than this, in degrees, makes a turn point.
const TURN: f64 = 1.0;

/// The validation curves stray from the true ones by no more than this, mm: ten times closer than
/// the lines that are cut and sewn, so that these can be judged by them.
pub(super) const VALIDATION: f64 = 0.002;

/// The layers of the standard.
pub(crate) mod layer {
    pub(crate) const BOUNDARY: &str = "1";
    pub(crate) const TURN: &str = "2";
    pub(crate) const CURVE: &str = "3";
    pub(crate) const NOTCH: &str = "4";
    pub(crate) const MIRROR: &str = "6";
    pub(crate) const GRAIN: &str = "7";
    pub(crate) const INTERNAL: &str = "8";
    pub(crate) const SEW: &str = "14";
    pub(crate) const ANNOTATION: &str = "15";
    pub(crate) const BOUNDARY_VALIDATION: &str = "84";
    pub(crate) const SEW_VALIDATION: &str = "87";

    /// Those that are written, with a colour each.
    pub(super) const WRITTEN: [(&str, u8); 11] = [
        (BOUNDARY, 7),
        (TURN, 1),
        (CURVE, 2),
        (NOTCH, 30),
        (MIRROR, 3),
        (GRAIN, 8),
        (INTERNAL, 4),
        (SEW, 5),
        (ANNOTATION, 8),
        (BOUNDARY_VALIDATION, 9),
        (SEW_VALIDATION, 9),
    ];
}

/// One size, made to measure; the sample size and the size of each piece have to agree.
const SIZE: &str = "MADE TO MEASURE";

/// The height of the style's text, and from line to line, mm.
const STYLE_TEXT: f64 = 5.0;
const STYLE_LINE: f64 = 10.0;

/// For exchange with other programs: laid out after ASTM D6673, as R12 with polylines, one block
/// per piece, halves with a mirror line. Notches are slits, or Vs where that is asked for; the layout
/// has none that are only drawn.
///
/// # Errors
/// [`DxfError::Flaw`] for a drawing that would become a broken file, naming the piece.
pub fn pieces(drawing: &Drawing, notches: Notches) -> Result<Vec<u8>, DxfError> {
    outline::check(drawing)?;
    Ok(write(drawing, notches))
}

fn write(drawing: &Drawing, notches: Notches) -> Vec<u8> {
    let style = style_text(drawing);
    let in_force = cutter::in_force(&[notches.in_force()]);
    let mut file = Writer::begin(&[&in_force], extents(drawing, &style), &layer::WRITTEN);
    let mut names = Vec::new();
    file.section("BLOCKS");
    for piece in &drawing.pieces {
        let name = block_name(&piece.name, &names);
        file.block(&name, layer::BOUNDARY);
        block(piece, notches, &mut file);
        file.end_block(layer::BOUNDARY);
        names.push(name);
    }
    file.end();
    file.section("ENTITIES");
    for (text, at) in style.iter().zip(style_places(style.len())) {
        file.text(layer::BOUNDARY, at, STYLE_TEXT, text);
    }
    for (name, at) in names.iter().zip(places(drawing)) {
        file.insert(name, layer::BOUNDARY, at);
    }
    file.end();
    file.finish()
}

/// Where the lines of the style stand: over the pieces, the first on top.
fn style_places(lines: usize) -> impl Iterator<Item = Point> {
    (1..=lines).rev().map(|i| Point::new(0.0, STYLE_LINE * i as f64))
}

/// Where the pieces' own zeros lie: side by side, hanging from the level of zero.
fn places(drawing: &Drawing) -> impl Iterator<Item = Point> {
    drawing.pieces.iter().scan(0.0, |left, piece| {
        let bounds = piece.bounds();
        let at = Point::new(*left - bounds.x0, bounds.y0);
        *left += bounds.width() + GAP;
        Some(at)
    })
}

/// Round everything that is drawn, mm.
fn extents(drawing: &Drawing, style: &[String]) -> Rect {
    let words =
        style.iter().zip(style_places(style.len())).map(|(text, at)| fit::covered(at, STYLE_TEXT / CAPITALS, text));
    let placed = |(piece, at): (&Piece, Point)| {
        let own = drawn(piece);
        Rect::new(own.x0 + at.x, at.y - own.y1, own.x1 + at.x, at.y - own.y0)
    };
    words.chain(drawing.pieces.iter().zip(places(drawing)).map(placed)).reduce(|a, b| a.union(b)).unwrap_or(Rect::ZERO)
}

/// Round a piece's lines, in its own coordinates: an edging stands out beyond the cut line. Text keeps
/// inside.
fn drawn(piece: &Piece) -> Rect {
    let loops = piece.loops.iter().flat_map(|l| &l.edges).map(|e| e.path.bounds());
    let all = loops.chain(piece.lines.iter().map(|o| o.path.bounds()));
    all.reduce(|a, b| a.union(b)).unwrap_or(Rect::ZERO)
}

/// What holds for the whole style, once, over the pieces.
fn style_text(drawing: &Drawing) -> Vec<String> {
    let mut lines = vec![
        format!("Style Name: {}", drawing.name),
        format!("Sample Size: {SIZE}"),
        "Units: METRIC".to_owned(),
        format!("Author: {}", PROGRAM),
    ];
    lines.extend(drawing.date.iter().map(|d| format!("Creation Date: {d}")));
    lines.iter().map(|l| seven_bit(l)).collect()
}

fn block(piece: &Piece, notches: Notches, file: &mut Writer) {
    for l in piece.loops.iter().filter(|l| l.role != Role::Finished) {
        if l.role == Role::Cut {
            let boundary = Named { piece, line: "cut", closing: Closing::Closed };
            boundary.judged(&l.edges, [layer::BOUNDARY, layer::BOUNDARY_VALIDATION], file);
        } else {
            stitched(piece, l).iter().for_each(|run| sew_line(piece, run, file));
        }
        vertices(l, file);
    }
    piece.lines.iter().for_each(|open| open_line(piece, open, file));
    for edge in finished_apart(piece) {
        let finished = Named { piece, line: "finished", closing: Closing::Open };
        finished.draw(std::slice::from_ref(edge), layer::INTERNAL, file);
    }
    if let Some(m) = piece.mirror {
        file.line(layer::MIRROR, Line::new(up(m.p0), up(m.p1)), None);
    }
    file.line(layer::GRAIN, Line::new(up(piece.grain.p0), up(piece.grain.p1)), None);
    piece.notches.iter().for_each(|n| notch(n, mouth(piece, n, notches), file));
    piece_text(piece, file);
}

/// A second row is sewn; the fold of a band is where the garment ends, and nothing is sewn there.
fn open_line(piece: &Piece, open: &Open, file: &mut Writer) {
    let edge = [Edge { name: open.edge.clone(), path: open.path.clone(), start: Vertex::Turn }];
    let named = |line| Named { piece, line, closing: Closing::Open };
    match open.role {
        Role::Finished => named("finished").draw(&edge, layer::INTERNAL, file),
        _ => named("second row").judged(&edge, [layer::SEW, layer::SEW_VALIDATION], file),
    }
}

/// Pieces are right side up, but this format's y is.
fn up(p: Point) -> Point {
    Point::new(p.x, -p.y)
}

fn sew_line(piece: &Piece, run: &Run, file: &mut Writer) {
    let closing = if run.is_closed { Closing::Closed } else { Closing::Open };
    let sewing = Named { piece, line: "sewing", closing };
    sewing.judged(&run.edges, [layer::SEW, layer::SEW_VALIDATION], file);
}

/// A line of a piece that carries the names of its edges.
struct Named<'a> {
    piece: &'a Piece,
    line: &'a str,
    closing: Closing,
}

impl Named<'_> {
    /// The line, and the dense one that it can be judged by.
    fn judged(&self, edges: &[Edge], [own, validation]: [&str; 2], file: &mut Writer) {
        self.draw(edges, own, file);
        let dense = trace::straight(&raised(edges), self.closing, VALIDATION);
        file.polyline(validation, &dense.vertices, self.closing, None);
    }

    fn draw(&self, edges: &[Edge], layer: &str, file: &mut Writer) {
        let edges = raised(edges);
        let trace = trace::straight(&edges, self.closing, CHORD_TOLERANCE);
        let length = named::length(&trace.vertices, self.closing);
        let names = named::names(&self.piece.name, self.line, length, &edges, &trace.starts);
        file.polyline(layer, &trace.vertices, self.closing, Some(&names));
    }
}

fn raised(edges: &[Edge]) -> Vec<Edge> {
    edges.iter().map(|e| Edge { name: e.name.clone(), path: e.path.map(up), start: e.start }).collect()
}

/// Turn points on every corner, curve points on every other point of a curve.
fn vertices(l: &Loop, file: &mut Writer) {
    for (p, kind) in l.edges.iter().flat_map(edge_vertices) {
        let layer = match kind {
            Vertex::Turn => layer::TURN,
            Vertex::Curve => layer::CURVE,
        };
        file.point(layer, up(p));
    }
}

/// The points of one edge, all but its last (which is the first of the next).
fn edge_vertices(edge: &Edge) -> Vec<(Point, Vertex)> {
    let segments = edge.path.segments();
    let mut out = Vec::new();
    for (i, segment) in segments.iter().enumerate() {
        let kind = if i == 0 { edge.start } else { joint(&segments[i - 1], segment) };
        out.push((segment.start(), kind));
        let chords = Path::new(vec![*segment]).chords(CHORD_TOLERANCE);
        let inner = chords.iter().skip(1).take(chords.len().saturating_sub(2));
        out.extend(inner.map(|p| (*p, Vertex::Curve)));
    }
    out
}

fn joint(before: &kurbo::PathSeg, after: &kurbo::PathSeg) -> Vertex {
    let (a, b) = (segment_direction(before, 1.0), segment_direction(after, 0.0));
    if float::atan2(a.cross(b), a.dot(b)).to_degrees().abs() > TURN { Vertex::Turn } else { Vertex::Curve }
}

/// How wide a notch is on the boundary, mm: a slit has no width.
fn mouth(piece: &Piece, n: &Notch, notches: Notches) -> f64 {
    match (n.kind, notches) {
        (NotchKind::Slit, Notches::Vees) => {
            piece.cut().and_then(|l| cutter::mouth(&l.edges, n, piece.mirror)).unwrap_or(0.0)
        }
        (NotchKind::Slit, Notches::Marks | Notches::Slits) => 0.0,
    }
}

/// A point on the boundary: its z is the depth, the thickness the width, the angle points inwards.
fn notch(n: &Notch, width: f64, file: &mut Writer) {
    // y points up here; a full turn is 0 again.
    let degrees = float::atan2(-n.inward.y, n.inward.x).to_degrees().rem_euclid(360.0);
    let angle = millionth(degrees) % 360.0;
    file.notch(layer::NOTCH, up(n.at), n.depth, width, angle);
}

/// Keyed lines stay whole, for programs read them; between these sizes, mm.
const KEYED: (f64, f64) = (1.0, 4.0);
const LEADING: f64 = 1.3;
/// Capital letters stand so high, of the em: the format measures text by its capitals.
const CAPITALS: f64 = 0.7;

/// The keyed lines of the standard on the boundary's layer, then everything else as annotation.
fn piece_text(piece: &Piece, file: &mut Writer) {
    let keyed = [
        format!("Piece Name: {}", piece.name),
        format!("Size: {SIZE}"),
        format!("Quantity: {}", piece.quantity),
        format!("Material: {}", piece.material),
        format!("Category: {}", piece.name),
    ]
    .map(|k| seven_bit(&k));
    let area = piece.text_box;
    let longest = keyed.iter().map(String::len).max().unwrap_or(1) as f64;
    let em = (area.width() / (fit::LETTER * longest)).clamp(KEYED.0, KEYED.1);
    let left_over = Rect::new(area.x0, area.y0 + em * LEADING * (keyed.len() as f64 + 0.2), area.x1, area.y1);
    for (i, value) in keyed.iter().enumerate() {
        let at = Point::new(area.x0, area.y0 + em * (1.0 + LEADING * i as f64));
        file.text(layer::BOUNDARY, up(at), CAPITALS * em, value);
    }
    annotations(piece, left_over, file);
}

/// The rest; the title says nothing that the keyed lines do not say.
fn annotations(piece: &Piece, area: Rect, file: &mut Writer) {
    let body = piece.text.iter().filter(|t| t.style != TextStyle::Title);
    let lines: Vec<TextLine> = body
        .map(|t| TextLine { style: TextStyle::Body, text: seven_bit(&format!("Annotation: {}", t.text)) })
        .collect();
    for set in fit::into_box(&lines, area) {
        file.text(layer::ANNOTATION, up(set.at), CAPITALS * set.size, &set.text);
    }
}
