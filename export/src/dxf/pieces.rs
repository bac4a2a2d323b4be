//! The file to exchange, laid out after ASTM D6673: one block per piece, numbered layers.
//!
//! The layer numbers are those of the standard. Where it leaves a choice, readers of plain R12 are
//! served: every curve as a closed or open polyline of straight parts.

use super::entity::{Place, chords, closed_chords, line, on, point, text};
use crate::fit;
use crate::outline::{Run, finished_apart, joined, stitched};
use crate::plain::{block_name, seven_bit};
use ::dxf::entities::{Entity, EntityType, Insert, ModelPoint, Polyline, Vertex as DxfVertex};
use ::dxf::enums::AcadVersion;
use ::dxf::tables::Layer;
use ::dxf::{Block, Color, Drawing as DxfDrawing, DxfError, Point as DxfPoint};
use engine::curve::{Path, segment_direction};
use engine::drawing::{Drawing, Edge, Loop, Notch, NotchKind, Piece, Role, TextLine, TextStyle, Vertex};
use kurbo::{ParamCurve, Point, Rect};

/// Between pieces, mm.
const GAP: f64 = 50.0;

/// A direction that changes by more than this, in degrees, makes a turn point.
const TURN: f64 = 1.0;

/// The layers of the standard that are used here.
mod layer {
    pub(super) const BOUNDARY: &str = "1";
    pub(super) const TURN: &str = "2";
    pub(super) const CURVE: &str = "3";
    pub(super) const NOTCH: &str = "4";
    pub(super) const MIRROR: &str = "6";
    pub(super) const GRAIN: &str = "7";
    pub(super) const INTERNAL: &str = "8";
    pub(super) const SEW: &str = "14";
    pub(super) const ANNOTATION: &str = "15";

    /// With a colour each.
    pub(super) const ALL: [(&str, u8); 9] = [
        (BOUNDARY, 7),
        (TURN, 1),
        (CURVE, 2),
        (NOTCH, 30),
        (MIRROR, 3),
        (GRAIN, 8),
        (INTERNAL, 4),
        (SEW, 5),
        (ANNOTATION, 8),
    ];
}

/// One size, made to measure; the sample size and the size of each piece have to agree.
const SIZE: &str = "MADE TO MEASURE";

/// Pieces as a file of the format, not repaired yet.
///
/// # Errors
/// Where the writer fails.
pub(super) fn write(drawing: &Drawing) -> Result<Vec<u8>, DxfError> {
    let mut file = DxfDrawing::new();
    file.header.version = AcadVersion::R12;
    for (name, colour) in layer::ALL {
        file.add_layer(Layer { name: name.to_owned(), color: Color::from_index(colour), ..Layer::default() });
    }
    style_text(drawing, &mut file);
    let mut left = 0.0;
    let mut taken = Vec::new();
    for piece in &drawing.pieces {
        let name = block_name(&piece.name, &taken);
        let bounds = piece.bounds();
        let block = block(piece, &name, &mut file);
        file.add_block(block);
        let location = Place::of_box(bounds, left, 0.0).origin();
        file.add_entity(on(layer::BOUNDARY, insert(&name, location)));
        left += bounds.width() + GAP;
        taken.push(name);
    }
    let mut bytes = Vec::new();
    file.save(&mut bytes)?;
    Ok(bytes)
}

fn insert(name: &str, location: DxfPoint) -> EntityType {
    EntityType::Insert(Insert { name: name.to_owned(), location, ..Insert::default() })
}

/// What holds for the whole style, once, over the pieces.
fn style_text(drawing: &Drawing, file: &mut DxfDrawing) {
    let mut lines = vec![
        format!("Style Name: {}", drawing.name),
        format!("Sample Size: {SIZE}"),
        "Units: METRIC".to_owned(),
        format!("Author: {}", super::MARK),
    ];
    lines.extend(drawing.date.iter().map(|d| format!("Creation Date: {d}")));
    let count = lines.len();
    for (i, value) in lines.into_iter().enumerate() {
        let y = 10.0 * (count - i) as f64;
        let location = DxfPoint::new(0.0, y, 0.0);
        file.add_entity(on(layer::BOUNDARY, text(location, 5.0, seven_bit(&value))));
    }
}

fn block(piece: &Piece, name: &str, file: &mut DxfDrawing) -> Block {
    let mut out = Vec::new();
    for l in piece.loops.iter().filter(|l| l.role != Role::Finished) {
        if l.role == Role::Cut {
            let points = closed_chords(Place::ORIGIN, &joined(l));
            out.push(on(layer::BOUNDARY, polyline(&points, true, file)));
        } else {
            out.extend(stitched(piece, l).iter().map(|run| on(layer::SEW, sew_line(run, file))));
        }
        out.extend(vertices(l));
    }
    for open in &piece.lines {
        out.push(on(layer::SEW, polyline(&chords(Place::ORIGIN, &open.path), false, file)));
    }
    for edge in finished_apart(piece) {
        out.push(on(layer::INTERNAL, polyline(&chords(Place::ORIGIN, &edge.path), false, file)));
    }
    out.extend(piece.mirror.map(|m| on(layer::MIRROR, line(Place::ORIGIN, m))));
    out.push(on(layer::GRAIN, line(Place::ORIGIN, piece.grain)));
    out.extend(piece.notches.iter().map(notch));
    out.extend(piece_text(piece));
    let layer = layer::BOUNDARY.to_owned();
    Block { name: name.to_owned(), layer, entities: out, ..Block::default() }
}

fn sew_line(run: &Run, file: &mut DxfDrawing) -> EntityType {
    let points = if run.is_closed { closed_chords } else { chords }(Place::ORIGIN, &run.path);
    polyline(&points, run.is_closed, file)
}

fn polyline(points: &[DxfPoint], closed: bool, file: &mut DxfDrawing) -> EntityType {
    let mut polyline = Polyline::default();
    polyline.set_is_closed(closed);
    for p in points {
        polyline.add_vertex(file, DxfVertex { location: p.clone(), ..DxfVertex::default() });
    }
    EntityType::Polyline(polyline)
}

/// Turn points on every corner, curve points on every other point of a curve.
fn vertices(l: &Loop) -> Vec<Entity> {
    let mut out = Vec::new();
    for edge in &l.edges {
        for (p, kind) in edge_vertices(edge) {
            let layer = match kind {
                Vertex::Turn => layer::TURN,
                Vertex::Curve => layer::CURVE,
            };
            out.push(on(layer, EntityType::ModelPoint(point(Place::ORIGIN.point(p)))));
        }
    }
    out
}

/// The points of one edge, all but its last (which is the first of the next).
fn edge_vertices(edge: &Edge) -> Vec<(Point, Vertex)> {
    let segments = edge.path.segments();
    let mut out = Vec::new();
    for (i, segment) in segments.iter().enumerate() {
        let kind = if i == 0 { edge.start } else { joint(&segments[i - 1], segment) };
        out.push((segment.start(), kind));
        let chords = Path::new(vec![*segment]).flatten(super::CHORD_TOLERANCE);
        let inner = chords.iter().skip(1).take(chords.len().saturating_sub(2));
        out.extend(inner.map(|p| (*p, Vertex::Curve)));
    }
    out
}

fn joint(before: &kurbo::PathSeg, after: &kurbo::PathSeg) -> Vertex {
    let (a, b) = (segment_direction(before, 1.0), segment_direction(after, 0.0));
    if a.cross(b).atan2(a.dot(b)).to_degrees().abs() > TURN { Vertex::Turn } else { Vertex::Curve }
}

/// A point on the boundary: its z is the depth, the thickness the width, the angle points inwards.
fn notch(n: &Notch) -> Entity {
    let mut location = Place::ORIGIN.point(n.at);
    location.z = super::entity::round(n.depth);
    let thickness = match n.kind {
        NotchKind::Slit => 0.0,
    };
    // y points up here; a full turn is 0 again.
    let angle = super::entity::round((-n.inward.y).atan2(n.inward.x).to_degrees().rem_euclid(360.0)) % 360.0;
    on(layer::NOTCH, EntityType::ModelPoint(ModelPoint { thickness, angle, ..point(location) }))
}

/// Keyed lines stay whole, for programs read them; between these sizes, mm.
const KEYED: (f64, f64) = (1.0, 4.0);
const LEADING: f64 = 1.3;
/// Capital letters stand so high, of the em: the format measures text by its capitals.
const CAPITALS: f64 = 0.7;

/// The keyed lines of the standard on the boundary's layer, then everything else as annotation.
fn piece_text(piece: &Piece) -> Vec<Entity> {
    let keyed = [
        format!("Piece Name: {}", piece.name),
        format!("Size: {SIZE}"),
        format!("Quantity: {}", piece.quantity),
        format!("Material: {}", piece.material),
    ]
    .map(|k| seven_bit(&k));
    let area = piece.text_box;
    let longest = keyed.iter().map(String::len).max().unwrap_or(1) as f64;
    let em = (area.width() / (fit::LETTER * longest)).clamp(KEYED.0, KEYED.1);
    let left_over = Rect::new(area.x0, area.y0 + em * LEADING * (keyed.len() as f64 + 0.2), area.x1, area.y1);
    let keyed = keyed.into_iter().enumerate().map(|(i, value)| {
        let at = Point::new(area.x0, area.y0 + em * (1.0 + LEADING * i as f64));
        on(layer::BOUNDARY, text(Place::ORIGIN.point(at), CAPITALS * em, value))
    });
    keyed.chain(annotations(piece, left_over)).collect()
}

/// The rest; the title says nothing that the keyed lines do not say.
fn annotations(piece: &Piece, area: Rect) -> impl Iterator<Item = Entity> {
    let body = piece.text.iter().filter(|t| t.style == TextStyle::Body);
    let lines: Vec<TextLine> = body
        .map(|t| TextLine { style: TextStyle::Body, text: seven_bit(&format!("Annotation: {}", t.text)) })
        .collect();
    fit::into_box(&lines, area)
        .into_iter()
        .map(|set| on(layer::ANNOTATION, text(Place::ORIGIN.point(set.at), CAPITALS * set.size, set.text)))
}
