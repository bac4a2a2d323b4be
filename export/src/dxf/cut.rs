//! The file to cut by: what is cut and what is not on different layers.

use super::entity::{on, plain_line, round, text};
use super::r12::Writer;
use super::repair::MODEL_SPACE;
use super::{Curves, Options, layers, named};
use crate::cutter::trace::{self, Trace};
use crate::cutter::{Closing, Layer, Plane, Stroke};
use crate::plain::{one_line, seven_bit};
use ::dxf::entities::{Entity, EntityType, LwPolyline, Spline};
use ::dxf::enums::{AcadVersion, DrawingUnits, Units};
use ::dxf::tables::{AppId, Layer as DxfLayer};
use ::dxf::{Block, Color, Drawing as DxfDrawing, DxfError, LwPolylineVertex, Point as DxfPoint};
use kurbo::{Line, PathSeg, Point};

/// Capital letters stand so high, of the em: the format measures text by its capitals.
const CAPITALS: f64 = 0.7;

/// The file as R12, and how many parts its outlines have.
pub(super) fn r12(plane: &Plane, options: &Options, comments: &[&str]) -> (Vec<u8>, usize) {
    let looks: Vec<(&str, u8)> = layers::ALL.map(layers::of).iter().map(|look| (look.name, look.colour)).collect();
    let mut file = Writer::new(comments, plane.size, &looks);
    let mut parts = 0;
    file.section("ENTITIES");
    for stroke in &plane.strokes {
        let layer = layers::of(stroke.layer).name;
        if let Some(l) = straight(stroke) {
            file.line(layer, l);
            continue;
        }
        let trace = traced(stroke, options);
        if stroke.layer == Layer::Cut {
            parts += trace.vertices.len();
        }
        file.polyline(layer, &trace.vertices, stroke.closing);
    }
    for w in &plane.words {
        file.text(layers::of(Layer::Text).name, w.at, w.size * CAPITALS, &seven_bit(&w.text));
    }
    file.end();
    (file.finish(), parts)
}

/// A stroke that is one straight line.
fn straight(stroke: &Stroke) -> Option<Line> {
    match stroke.edges.as_slice() {
        [edge] => match edge.path.segments() {
            [PathSeg::Line(l)] => Some(*l),
            _ => None,
        },
        _ => None,
    }
}

fn traced(stroke: &Stroke, options: &Options) -> Trace {
    match options.curves {
        Curves::Arcs => trace::rounded(stroke, options.cutting.tolerance),
        Curves::Polylines | Curves::Splines => trace::chords(stroke, options.cutting.tolerance),
    }
}

/// The file as R2000, not repaired yet, and how many parts its outlines have.
///
/// # Errors
/// Where the writer fails.
pub(super) fn r2000(plane: &Plane, options: &Options) -> Result<(Vec<u8>, usize), DxfError> {
    let mut file = prepared(plane);
    let mut parts = 0;
    for stroke in &plane.strokes {
        let (entity, count) = drawn(stroke, options);
        if stroke.layer == Layer::Cut {
            parts += count;
        }
        file.add_entity(entity);
    }
    for w in &plane.words {
        let at = DxfPoint::new(round(w.at.x), round(w.at.y), 0.0);
        file.add_entity(on(layers::of(Layer::Text).name, text(at, w.size * CAPITALS, one_line(&w.text))));
    }
    let mut bytes = Vec::new();
    file.save(&mut bytes)?;
    Ok((bytes, parts))
}

/// Header, layers and spaces.
fn prepared(plane: &Plane) -> DxfDrawing {
    let mut file = DxfDrawing::new();
    file.header.version = AcadVersion::R2000;
    file.header.default_drawing_units = Units::Millimeters;
    file.header.drawing_units = DrawingUnits::Metric;
    file.header.minimum_drawing_extents = DxfPoint::origin();
    // Limits of 12 by 9, meant in inches, would make readers print on a stamp.
    let corner = DxfPoint::new(round(plane.size.0), round(plane.size.1), 0.0);
    file.header.maximum_drawing_limits = corner.clone();
    file.header.paperspace_maximum_drawing_limits = corner.clone();
    file.header.maximum_drawing_extents = corner;
    for look in layers::ALL.map(layers::of) {
        let color = Color::from_index(look.colour);
        file.add_layer(DxfLayer { name: look.name.to_owned(), color, ..DxfLayer::default() });
    }
    file.add_app_id(AppId { name: named::APPLICATION.to_owned(), ..AppId::default() });
    // The crate knows the records of both spaces but leaves out their blocks.
    for (name, is_in_paperspace) in [(MODEL_SPACE, false), ("*PAPER_SPACE", true)] {
        file.add_block(Block { name: name.to_owned(), is_in_paperspace, ..Block::default() });
    }
    file
}

/// A stroke as an entity, and how many parts it has.
fn drawn(stroke: &Stroke, options: &Options) -> (Entity, usize) {
    if let Some(l) = straight(stroke) {
        return (named_on(stroke, plain_line(l.p0, l.p1), &[0]), 1);
    }
    if options.curves == Curves::Splines {
        let (spline, starts) = spline(stroke);
        let count = stroke.edges.iter().map(|e| e.path.segments().len()).sum();
        return (named_on(stroke, EntityType::Spline(spline), &starts), count);
    }
    let trace = traced(stroke, options);
    (named_on(stroke, light(&trace, stroke.closing), &trace.starts), trace.vertices.len())
}

fn named_on(stroke: &Stroke, specific: EntityType, starts: &[usize]) -> Entity {
    let mut entity = on(layers::of(stroke.layer).name, specific);
    entity.common.x_data.extend(named::names(stroke, starts));
    entity
}

fn light(trace: &Trace, closing: Closing) -> EntityType {
    let vertex = |(p, bulge): &(Point, f64)| LwPolylineVertex {
        x: round(p.x),
        y: round(p.y),
        bulge: fine(*bulge),
        ..LwPolylineVertex::default()
    };
    let mut polyline = LwPolyline { vertices: trace.vertices.iter().map(vertex).collect(), ..LwPolyline::default() };
    polyline.set_is_closed(closing == Closing::Closed);
    EntityType::LwPolyline(polyline)
}

/// A bulge needs more decimals than a length: over a chord of a metre it still has to be exact.
fn fine(bulge: f64) -> f64 {
    (bulge * 1e12).round() / 1e12 + 0.0
}

/// One spline of degree 3 through the whole stroke, exactly its cubics: every joint is a knot of
/// multiplicity 3. A closed one ends where it starts; the flag for that is not set, because readers
/// that see it smooth the first corner over.
fn spline(stroke: &Stroke) -> (Spline, Vec<usize>) {
    let at = |p: Point| DxfPoint::new(round(p.x), round(p.y), 0.0);
    let mut points = vec![at(stroke.edges.first().map_or(Point::ZERO, |e| e.path.start()))];
    let mut starts = Vec::new();
    for edge in &stroke.edges {
        starts.push((points.len() - 1) / 3);
        for segment in edge.path.segments() {
            let c = segment.to_cubic();
            points.extend([c.p1, c.p2, c.p3].map(at));
        }
    }
    if stroke.closing == Closing::Closed {
        let first = points[0].clone();
        points.pop();
        points.push(first);
    }
    let pieces = (points.len() - 1) / 3;
    let knots = (0..=pieces).flat_map(|i| std::iter::repeat_n(i as f64, if i == 0 || i == pieces { 4 } else { 3 }));
    let spline = Spline {
        flags: PLANAR,
        degree_of_curve: 3,
        knot_values: knots.collect(),
        control_points: points,
        ..Spline::default()
    };
    (spline, starts)
}

/// The flag of a spline that lies in a plane.
const PLANAR: i32 = 8;
