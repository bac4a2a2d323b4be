//! Outlines for home cutters, which cut or draw whatever is in a file: no text, no sewing lines.
//!
//! Laid out as the DXF to cut by; curves are kept. Colours tell what is cut from what is drawn.

use super::shape::{closed, open, started};
use super::{document, ids, shape};
use crate::cutter::{self, CutterError, Cutting, Layer, Notches, Plane, Stroke};
use crate::outline;
use engine::curve::Path as Curve;
use engine::drawing::{Drawing, Edge};
use kurbo::{Point, Vec2};
use svg::node::element::{Group, Path, Title};

/// The colours of what is cut, of slits, and of what a pen draws.
const CUT: &str = "#ff0000";
const SLIT: &str = "#ff8000";
const PEN: &str = "#0000ff";

/// As thin as is still seen, mm: a wide line can be taken for an area with two outlines.
const HAIRLINE: &str = "0.1";

/// The outlines as a document of its own; width, height and view box in millimetres.
///
/// Each copy of a piece is a group: its notches, where they are not cut out of the outline, and
/// its outline as one closed path that says where its edges start.
///
/// # Errors
/// [`CutterError`] as for the DXF to cut by.
pub fn cut(drawing: &Drawing, cutting: &Cutting) -> Result<String, CutterError> {
    let plane = cutter::lay(drawing, cutting)?;
    let description = cutter::told(drawing, cutting, lines(cutting.notches)).join("\n");
    let copies = copies(&plane);
    let names = copies.iter().map(|(outline, _)| outline.piece.as_str());
    let mut document = document::begin(drawing, &description, plane.pieces.size());
    for ((outline, notches), id) in copies.iter().zip(ids::of(names)) {
        document = document.add(piece(&plane, outline, notches, &id));
    }
    Ok(document::written(&document))
}

const fn lines(notches: Notches) -> &'static str {
    match notches {
        Notches::Marks | Notches::Vees => "Red lines are cut; blue ones are notches for a pen, or to be left out.",
        Notches::Slits => "Orange lines are slits, cut before the red outlines.",
    }
}

/// The outline of every copy with its notches; the plane has an outline last of each.
fn copies(plane: &Plane) -> Vec<(&Stroke, Vec<&Stroke>)> {
    let mut out = Vec::new();
    let mut notches = Vec::new();
    for stroke in &plane.strokes {
        match stroke.layer {
            Layer::Notch | Layer::Slit => notches.push(stroke),
            Layer::Cut => out.push((stroke, std::mem::take(&mut notches))),
            _ => {}
        }
    }
    out
}

fn piece(plane: &Plane, outline: &Stroke, notches: &[&Stroke], id: &str) -> Group {
    let name = shape::clean(&outline.piece);
    let mut group = Group::new().set("id", id).set("data-piece", name.as_str()).add(Title::new(name));
    for (layer, colour, end) in [(Layer::Slit, SLIT, "slits"), (Layer::Notch, PEN, "notches")] {
        let own = notches.iter().filter(|s| s.layer == layer).flat_map(|s| &s.edges);
        let drawn: Vec<String> = own.map(|e| open(&on_page(plane, e).path, Vec2::ZERO)).collect();
        if !drawn.is_empty() {
            group = group.add(drawn_in(colour, drawn.join(" ")).set("id", format!("{id}-{end}")));
        }
    }
    let edges: Vec<Edge> = outline.edges.iter().map(|e| on_page(plane, e)).collect();
    let names: Vec<String> = edges.iter().map(|e| started(&e.name, &e.path, Vec2::ZERO)).collect();
    let whole: Curve = outline::chained(&edges);
    let path = drawn_in(CUT, closed(&whole, Vec2::ZERO)).set("id", format!("{id}-outline"));
    group.add(path.set("data-line", "cut").set("data-edges", names.join("; ")))
}

fn drawn_in(colour: &str, d: String) -> Path {
    Path::new().set("d", d).set("fill", "none").set("stroke", colour).set("stroke-width", HAIRLINE)
}

/// On the page y points down, from the top of the pieces.
fn on_page(plane: &Plane, edge: &Edge) -> Edge {
    let down = |p: Point| Point::new(p.x - plane.pieces.x0, plane.pieces.y1 - p.y);
    Edge { name: edge.name.clone(), path: edge.path.map(down), start: edge.start }
}
