//! The file to cut by: what is cut and what is not on different layers.

use super::entity::{on, plain_line, round, text};
use super::repair::MODEL_SPACE;
use super::{Curves, Options, Version, layers, named};
use crate::cutter::trace::{self, Trace};
use crate::cutter::{Closing, Layer, Plane, Stroke};
use crate::plain::one_line;
use ::dxf::entities::{Entity, EntityType, LwPolyline, Polyline, Spline, Vertex as DxfVertex};
use ::dxf::enums::{AcadVersion, DrawingUnits, Units};
use ::dxf::tables::{AppId, Layer as DxfLayer};
use ::dxf::{Block, Color, Drawing as DxfDrawing, DxfError, LwPolylineVertex, Point as DxfPoint};
use kurbo::{PathSeg, Point};

/// Capital letters stand so high, of the em: the format measures text by its capitals.
const CAPITALS: f64 = 0.7;

/// A file of the format, not repaired yet, and how many parts its outlines have.
///
/// # Errors
/// Where the writer fails.
pub(super) fn write(plane: &Plane, options: &Options) -> Result<(Vec<u8>, usize), DxfError> {
    let mut file = prepared(plane, options.version);
    let mut parts = 0;
    for stroke in &plane.strokes {
        let (entity, count) = drawn(stroke, options, &mut file);
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
fn prepared(plane: &Plane, version: Version) -> DxfDrawing {
    let mut file = DxfDrawing::new();
    file.header.version = match version {
        Version::R12 => AcadVersion::R12,
        Version::R2000 => AcadVersion::R2000,
    };
    file.header.default_drawing_units = Units::Millimeters;
    file.header.drawing_units = DrawingUnits::Metric;
    file.header.minimum_drawing_extents = DxfPoint::origin();
    file.header.maximum_drawing_extents = DxfPoint::new(round(plane.size.0), round(plane.size.1), 0.0);
    for layer in layers::ALL {
        let look = layers::of(layer);
        let color = Color::from_index(look.colour);
        file.add_layer(DxfLayer { name: look.name.to_owned(), color, ..DxfLayer::default() });
    }
    if version == Version::R2000 {
        file.add_app_id(AppId { name: named::APPLICATION.to_owned(), ..AppId::default() });
        // The crate knows the records of both spaces but leaves out their blocks.
        for (name, is_in_paperspace) in [(MODEL_SPACE, false), ("*PAPER_SPACE", true)] {
            file.add_block(Block { name: name.to_owned(), is_in_paperspace, ..Block::default() });
        }
    }
    file
}

/// A stroke as an entity, and how many parts it has.
fn drawn(stroke: &Stroke, options: &Options, file: &mut DxfDrawing) -> (Entity, usize) {
    let tolerance = options.cutting.tolerance;
    if let [edge] = stroke.edges.as_slice()
        && let [PathSeg::Line(l)] = edge.path.segments()
    {
        return (named_on(stroke, plain_line(l.p0, l.p1), &[0]), 1);
    }
    let trace = match options.curves {
        Curves::Polylines => trace::chords(stroke, tolerance),
        Curves::Arcs => trace::rounded(stroke, tolerance),
        Curves::Splines => {
            let (spline, starts) = spline(stroke);
            let count = stroke.edges.iter().map(|e| e.path.segments().len()).sum();
            return (named_on(stroke, EntityType::Spline(spline), &starts), count);
        }
    };
    let count = trace.vertices.len();
    let entity = match options.version {
        Version::R12 => heavy(&trace, stroke.closing, file),
        Version::R2000 => light(&trace, stroke.closing),
    };
    (named_on(stroke, entity, &trace.starts), count)
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

fn heavy(trace: &Trace, closing: Closing, file: &mut DxfDrawing) -> EntityType {
    let mut polyline = Polyline::default();
    polyline.set_is_closed(closing == Closing::Closed);
    for (p, bulge) in &trace.vertices {
        let location = DxfPoint::new(round(p.x), round(p.y), 0.0);
        polyline.add_vertex(file, DxfVertex { location, bulge: fine(*bulge), ..DxfVertex::default() });
    }
    EntityType::Polyline(polyline)
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
