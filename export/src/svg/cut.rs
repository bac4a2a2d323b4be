//! Outlines for home cutters, which cut or draw whatever is in a file: no text, and no line inside a
//! piece but the notches, unless lines for a pen are asked for.
//!
//! Laid out as the DXF to cut by; curves are kept. Lines lie in groups, each of one colour, by which a
//! machine is told what to do with them; what is inside a piece comes before its outline.

use super::shape::{closed, open, started};
use super::{document, ids, shape};
use crate::cutter::{self, Closing, CutterError, Cutting, Layer, Lines, Notches, Plane, Stroke, in_force};
use crate::outline;
use engine::curve::Path as Curve;
use engine::drawing::{Drawing, Edge};
use kurbo::{Point, Rect, Vec2};
use svg::Document;
use svg::node::element::{Group, Path, Title};

/// Are there lines that a pen draws inside the pieces?
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum PenLines {
    /// No: a machine that is told nothing would cut them.
    #[default]
    Left,
    /// Sewing lines, second rows, finished edges, folds and arrows.
    Drawn,
}

/// A group of lines of one colour.
struct Kind {
    id: &'static str,
    /// For a person.
    title: &'static str,
    colour: &'static str,
    layers: &'static [Layer],
}

/// In the order of work.
static KINDS: [Kind; 4] = [
    Kind {
        id: "pen",
        title: "lines for a pen: never cut them",
        colour: "#008000",
        layers: &[Layer::Sewing, Layer::SecondRow, Layer::Finished, Layer::Fold, Layer::Grain, Layer::Stretch],
    },
    Kind { id: "marks", title: "notches for a pen, or to be left out", colour: "#0000ff", layers: &[Layer::Notch] },
    Kind { id: "slits", title: "slits, cut before the outlines", colour: "#ff8000", layers: &[Layer::Slit] },
    Kind { id: "cut", title: "outlines to cut", colour: "#ff0000", layers: &[Layer::Cut] },
];

/// As thin as is still seen, mm: a wide line can be taken for an area with two outlines.
const HAIRLINE: &str = "0.1";

/// A point this near a bed lies on it, mm.
const ON: f64 = 1e-3;

/// The outlines as a document of its own; width, height and view box in millimetres.
///
/// Each copy of a piece has an outline, one closed path that says where its edges start, and one path
/// in each other group that it has lines in.
///
/// # Errors
/// [`CutterError`] as for the DXF to cut by.
pub fn cut(drawing: &Drawing, cutting: &Cutting, pen: PenLines) -> Result<String, CutterError> {
    let plane = cutter::lay(drawing, cutting, &[])?;
    let description = cutter::told(drawing, cutting, lines(cutting, pen)).join("\n");
    let choices = choices(cutting, pen);
    let copies = copies(&plane);
    let ids = ids::of(copies.iter().map(|strokes| strokes[0].piece.as_str()));
    let mut document = document::begin(drawing, &description, Some(&choices), plane.pieces.size());
    let own: Vec<(&[Stroke], &str)> = copies.into_iter().zip(ids.iter().map(String::as_str)).collect();
    if plane.beds.is_empty() {
        document = groups(&plane, &own, pen, "").into_iter().fold(document, Document::add);
    }
    // One bed is worked to its end before the next is looked at.
    for (i, bed) in plane.beds.iter().enumerate() {
        let on_it: Vec<_> = own.iter().filter(|(copy, _)| lies_on(copy, *bed)).copied().collect();
        let id = format!("bed-{}", i + 1);
        let title = Title::new(format!("bed {} of {}", i + 1, plane.beds.len()));
        let group = Group::new().set("id", id.as_str()).add(title);
        document = document.add(groups(&plane, &on_it, pen, &format!("{id}-")).into_iter().fold(group, Group::add));
    }
    Ok(document::written(&document))
}

/// A group for each kind of line that these copies have, its id after `before`.
fn groups(plane: &Plane, copies: &[(&[Stroke], &str)], pen: PenLines, before: &str) -> Vec<Group> {
    let drawn = KINDS.iter().filter(|kind| kind.id != "pen" || pen == PenLines::Drawn);
    let group = |kind: &Kind| {
        let paths: Vec<Path> = copies.iter().flat_map(|(strokes, id)| kind.paths(plane, strokes, id)).collect();
        (!paths.is_empty()).then(|| paths.into_iter().fold(kind.group(before), Group::add))
    };
    drawn.filter_map(group).collect()
}

fn lies_on(copy: &[Stroke], bed: Rect) -> bool {
    copy.last().and_then(|outline| outline.edges.first()).is_some_and(|e| bed.inflate(ON, ON).contains(e.path.start()))
}

const fn lines(cutting: &Cutting, pen: PenLines) -> &'static str {
    if matches!(cutting.lines, Lines::CutAlone) {
        return "Every line is cut, orange ones before red ones; notches that are marks are left out.";
    }
    match (cutting.notches, pen) {
        (Notches::Slits, PenLines::Left) => "Orange lines are slits, cut before the red outlines.",
        (Notches::Slits, PenLines::Drawn) => {
            "Orange lines are slits, cut before the red outlines; green ones are for a pen: never cut them."
        }
        (Notches::Marks | Notches::Vees, PenLines::Left) => {
            "Red lines are cut; blue ones are notches for a pen, or to be left out."
        }
        (Notches::Marks | Notches::Vees, PenLines::Drawn) => {
            "Red lines are cut; blue ones are notches for a pen, or to be left out; green ones are for a pen: never cut them."
        }
    }
}

fn choices(cutting: &Cutting, pen: PenLines) -> String {
    let lines = if pen == PenLines::Drawn { "yes" } else { "no" };
    in_force(&[cutting.in_force(), vec![("pen-lines", lines.to_owned())]].concat())
}

/// The strokes of every copy; the plane has an outline last of each.
fn copies(plane: &Plane) -> Vec<&[Stroke]> {
    plane.strokes.split_inclusive(|stroke| stroke.layer == Layer::Cut).collect()
}

impl Kind {
    fn group(&self, before: &str) -> Group {
        Group::new().set("id", format!("{before}{}", self.id)).add(Title::new(self.title))
    }

    /// A copy's lines: each that is read back by its name has a path of its own, the others share one.
    fn paths(&self, plane: &Plane, copy: &[Stroke], id: &str) -> Vec<Path> {
        let own = copy.iter().filter(|s| self.layers.contains(&s.layer));
        let (named, plain): (Vec<&Stroke>, Vec<&Stroke>) = own.partition(|s| s.layer.line().is_some());
        let mut taken = Vec::new();
        let mut out = Vec::new();
        for stroke in named {
            let end = if stroke.layer == Layer::Cut { "outline" } else { stroke.layer.line().unwrap_or_default() };
            let own = ids::unique(&format!("{id}-{}", ids::slug(end)), &taken);
            out.push(self.drawn(&stroke.piece, &own, line(plane, stroke)));
            taken.push(own);
        }
        if let Some(first) = plain.first() {
            let edges = plain.iter().flat_map(|s| &s.edges);
            let d: Vec<String> = edges.map(|e| open(&on_page(plane, e).path, Vec2::ZERO)).collect();
            out.push(self.drawn(&first.piece, &format!("{id}-{}", self.id), Path::new().set("d", d.join(" "))));
        }
        out
    }

    /// Colours stand at each path: machines do not read what a group hands down.
    fn drawn(&self, piece: &str, id: &str, path: Path) -> Path {
        let path = path.set("fill", "none").set("stroke", self.colour).set("stroke-width", HAIRLINE);
        path.set("id", id).set("data-piece", shape::clean(piece))
    }
}

/// A line that can be measured by the names of its edges.
fn line(plane: &Plane, stroke: &Stroke) -> Path {
    let edges: Vec<Edge> = stroke.edges.iter().map(|e| on_page(plane, e)).collect();
    let names: Vec<String> = edges.iter().map(|e| started(&e.name, &e.path, Vec2::ZERO)).collect();
    let whole: Curve = outline::chained(&edges);
    let d = match stroke.closing {
        Closing::Closed => closed(&whole, Vec2::ZERO),
        Closing::Open => open(&whole, Vec2::ZERO),
    };
    Path::new()
        .set("d", d)
        .set("data-line", stroke.layer.line().unwrap_or_default())
        .set("data-edges", names.join("; "))
}

/// On the page y points down, from the top of the pieces.
fn on_page(plane: &Plane, edge: &Edge) -> Edge {
    let down = |p: Point| Point::new(p.x - plane.pieces.x0, plane.pieces.y1 - p.y);
    Edge { name: edge.name.clone(), path: edge.path.map(down), start: edge.start }
}
