//! The file to cut by: what is cut and what is not on different layers.

use super::error::DxfError;
use super::named::{self, Names};
use super::options::{Curves, Options, Version};
use super::writer::Writer;
use super::{frame, layers};
use crate::cutter::trace::{self, Trace};
use crate::cutter::{self, Closing, CutterError, LASER, Layer, Lines, OptionError, Plane, Stroke, in_force};
use crate::plain::{one_line, seven_bit};
use engine::drawing::Drawing;
use kurbo::{Line, PathSeg, Point, Rect, Size};

/// Capital letters stand so high, of the em: the format measures text by its capitals.
const CAPITALS: f64 = 0.7;

/// A file to cut by, and what there is to say about it.
#[derive(Clone, Debug, PartialEq)]
pub struct CutFile {
    /// The file.
    pub bytes: Vec<u8>,
    /// About it.
    pub report: CutReport,
}

/// What there is to say about a file to cut by.
#[derive(Clone, Debug, PartialEq)]
pub struct CutReport {
    /// How many outlines there are to cut.
    pub outlines: usize,
    /// How many chords, arcs and lines, or cubics, they have together.
    pub parts: usize,
    /// Width and height of everything on the plane, mm.
    pub size: (f64, f64),
    /// Round the pieces alone, without the notes over them, mm.
    pub pieces: Size,
    /// Which pieces lie on each bed, also on those that are not drawn; of a lay there are none.
    pub beds: Vec<Vec<String>>,
}

/// For a plotter or laser: one closed outline per piece on the layer `CUT`, everything else on
/// layers of its own and before it.
///
/// # Errors
/// [`DxfError::Flaw`] for a drawing that would become a broken file, naming the piece;
/// [`DxfError::Cutter`] for a choice that makes no sense or a piece that does not go on the sheet.
pub fn cut(drawing: &Drawing, options: &Options) -> Result<CutFile, DxfError> {
    if (options.version, options.curves) == (Version::R12, Curves::Splines) {
        return Err(CutterError::from(OptionError::SplinesInR12).into());
    }
    // A machine with one tool would cut the notes; the cautions stand in comments all the same.
    let is_all = options.cutting.lines == Lines::All;
    let notes = if is_all { cutter::layered(drawing, &options.cutting) } else { Vec::new() };
    let plane = cutter::lay(drawing, &options.cutting, &notes)?;
    let (bytes, parts) = write(&plane, options)?;
    Ok(CutFile {
        bytes,
        report: CutReport {
            outlines: plane.outlines,
            parts,
            size: plane.size,
            pieces: plane.pieces.size(),
            beds: plane.on_beds,
        },
    })
}

/// The file, and how many parts its outlines have.
///
/// # Errors
/// Where the frame of R2000 cannot be made.
fn write(plane: &Plane, options: &Options) -> Result<(Vec<u8>, usize), DxfError> {
    let in_force = in_force(&options.in_force());
    let comments = [&LASER[..], &[in_force.as_str()]].concat();
    match options.version {
        Version::R12 => {
            let looks = layers::ALL.map(layers::of).map(|look| (look.name, look.colour));
            let mut file = Writer::begin(&comments, extents(plane, options), &looks);
            file.section("ENTITIES");
            let parts = entities(plane, options, &mut file);
            file.end();
            Ok((file.finish(), parts))
        }
        Version::R2000 => frame::around(extents(plane, options), &comments, |file| entities(plane, options, file)),
    }
}

/// Round everything: arcs may lie outside the curves that they stand for, by the tolerance.
fn extents(plane: &Plane, options: &Options) -> Rect {
    let astray = if options.curves == Curves::Arcs { options.cutting.tolerance } else { 0.0 };
    plane.extents().inflate(astray, astray)
}

/// Every stroke, then every word; answers with the parts of the outlines.
fn entities(plane: &Plane, options: &Options, file: &mut Writer) -> usize {
    let mut parts = 0;
    for stroke in &plane.strokes {
        let count = draw(stroke, options, file);
        if stroke.layer == Layer::Cut {
            parts += count;
        }
    }
    let layer = layers::of(Layer::Text).name;
    for w in &plane.words {
        let text = match options.version {
            Version::R12 => seven_bit(&w.text),
            Version::R2000 => one_line(&w.text),
        };
        file.text(layer, w.at, w.size * CAPITALS, &text);
    }
    parts
}

/// Draws a stroke; answers with the number of its parts.
fn draw(stroke: &Stroke, options: &Options, file: &mut Writer) -> usize {
    let layer = layers::of(stroke.layer).name;
    if let Some(l) = straight(stroke) {
        file.line(layer, l, names(stroke, l.length(), &[0]).as_ref());
        return 1;
    }
    if options.curves == Curves::Splines {
        let (points, starts) = control_points(stroke);
        let length = stroke.edges.iter().map(|e| e.path.length()).sum();
        file.spline(layer, &points, names(stroke, length, &starts).as_ref());
        return stroke.edges.iter().map(|e| e.path.segments().len()).sum();
    }
    let trace = traced(stroke, options);
    let length = named::length(&trace.vertices, stroke.closing);
    file.polyline(layer, &trace.vertices, stroke.closing, names(stroke, length, &trace.starts).as_ref());
    trace.vertices.len()
}

fn names(stroke: &Stroke, length: f64, starts: &[usize]) -> Option<Names> {
    let line = stroke.layer.line()?;
    Some(named::names(&stroke.piece, line, length, &stroke.edges, starts))
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

/// The control points of a stroke's cubics, head to tail, and the joint at which each edge starts.
fn control_points(stroke: &Stroke) -> (Vec<Point>, Vec<usize>) {
    let mut points = vec![stroke.edges.first().map_or(Point::ZERO, |e| e.path.start())];
    let mut starts = Vec::new();
    for edge in &stroke.edges {
        starts.push((points.len() - 1) / 3);
        for segment in edge.path.segments() {
            let c = segment.to_cubic();
            points.extend([c.p1, c.p2, c.p3]);
        }
    }
    if stroke.closing == Closing::Closed
        && let [first, .., last] = points.as_mut_slice()
    {
        *last = *first;
    }
    (points, starts)
}
