//! The outlines in an SVG: by the names of ours, else by the ids of groups.

use super::chain::Chain;
use super::edges::{self, EdgeLength, Named};
use super::outlines::{Outlines, ReadError, ReadLine};
use kurbo::{Affine, BezPath, Point};
use roxmltree::{Document, Node, ParsingOptions};

/// What an element inherits from those round it.
#[derive(Clone, Default)]
struct Around {
    to_mm: Affine,
    piece: Option<String>,
    line: Option<String>,
    is_hidden: bool,
}

/// Elements inside each other: more than this is no drawing.
const DEEPEST: usize = 200;

/// Elements, attributes' text and all: more than this is no pattern.
const MOST_NODES: u32 = 2_000_000;

/// Reads the outlines of a document.
///
/// # Errors
/// [`ReadError::NotSvg`], saying what is wrong.
pub(super) fn outlines(text: &str) -> Result<Outlines, ReadError> {
    // Drawing programs still write a document type; what it declares is bounded by the reader.
    let options = ParsingOptions { allow_dtd: true, nodes_limit: MOST_NODES, ..ParsingOptions::default() };
    let document = Document::parse_with_options(text, options).map_err(|e| ReadError::NotSvg(e.to_string()))?;
    let svg = document.root_element();
    if svg.tag_name().name() != "svg" {
        return Err(ReadError::NotSvg("it does not begin with <svg>".to_owned()));
    }
    let mut out = Outlines::default();
    // Not by recursion: a stranger's file decides how deep it is.
    let mut open = vec![(svg, root(svg), 0)];
    while let Some((node, around, depth)) = open.pop() {
        if depth > DEEPEST {
            return Err(ReadError::NotSvg("it is nested too deeply".to_owned()));
        }
        take(node, &around, &mut out);
        let children = node.children().rev().filter(Node::is_element);
        open.extend(children.map(|child| (child, inside(&around, child), depth + 1)));
    }
    Ok(out)
}

/// Width in millimetres over the width of the view box; without them a unit is 1/96 in.
fn root(svg: Node<'_, '_>) -> Around {
    let pixel = 25.4 / 96.0;
    let wide = svg.attribute("width").and_then(millimetres);
    let box_width = svg.attribute("viewBox").and_then(|b| numbers(b).get(2).copied()).filter(|w| *w > 0.0);
    let scale = match (wide, box_width) {
        (Some(wide), Some(units)) => wide / units,
        _ => pixel,
    };
    let to_mm = if scale.is_finite() && scale > 0.0 { Affine::scale(scale) } else { Affine::scale(pixel) };
    Around { to_mm, ..Around::default() }
}

fn millimetres(text: &str) -> Option<f64> {
    let text = text.trim();
    let at = text.find(|c: char| c.is_ascii_alphabetic() || c == '%').unwrap_or(text.len());
    let unit = match &text[at..] {
        "mm" => 1.0,
        "cm" => 10.0,
        "in" => 25.4,
        "pt" => 25.4 / 72.0,
        "pc" => 25.4 / 6.0,
        "" | "px" => 25.4 / 96.0,
        _ => return None,
    };
    Some(text[..at].trim().parse::<f64>().ok()? * unit)
}

fn numbers(text: &str) -> Vec<f64> {
    let parts = text.split(|c: char| c.is_whitespace() || c == ',').filter(|p| !p.is_empty());
    parts.map_while(|p| p.parse().ok()).collect()
}

fn inside(outer: &Around, node: Node<'_, '_>) -> Around {
    let mut own = outer.clone();
    if let Some(t) = node.attribute("transform") {
        own.to_mm *= transform(t);
    }
    // What is only kept for later use is not drawn.
    own.is_hidden |= matches!(node.tag_name().name(), "defs" | "symbol" | "clipPath" | "mask" | "marker" | "pattern");
    if let Some(piece) = node.attribute("data-piece") {
        own.piece = Some(piece.to_owned());
    }
    if let Some(line) = node.attribute("data-line") {
        own.line = Some(line.to_owned());
    } else if let Some((piece, line)) = node.attribute("id").and_then(by_id) {
        own.line = Some(line.to_owned());
        own.piece = own.piece.or_else(|| Some(piece.to_owned()));
    }
    own
}

/// `front-sewing` is the sewing line of the front.
fn by_id(id: &str) -> Option<(&str, &'static str)> {
    let lines = [("-cut", "cut"), ("-sewing", "sewing"), ("-finished", "finished"), ("-second-row", "second row")];
    lines.into_iter().find_map(|(end, line)| Some((id.strip_suffix(end)?, line)))
}

/// Transforms one after the other; an unknown one changes nothing.
fn transform(text: &str) -> Affine {
    let parts = text.split(')').filter_map(|p| p.split_once('('));
    parts.fold(Affine::IDENTITY, |all, (name, given)| {
        let n = numbers(given);
        let at = |i: usize| n.get(i).copied();
        let own = match (name.trim_matches(|c: char| c.is_whitespace() || c == ','), at(0)) {
            ("translate", Some(x)) => Affine::translate((x, at(1).unwrap_or(0.0))),
            ("scale", Some(x)) => Affine::scale_non_uniform(x, at(1).unwrap_or(x)),
            ("rotate", Some(a)) => {
                Affine::rotate_about(a.to_radians(), Point::new(at(1).unwrap_or(0.0), at(2).unwrap_or(0.0)))
            }
            ("matrix", Some(_)) if n.len() == 6 => Affine::new([n[0], n[1], n[2], n[3], n[4], n[5]]),
            _ => Affine::IDENTITY,
        };
        all * own
    })
}

fn take(node: Node<'_, '_>, around: &Around, out: &mut Outlines) {
    if around.is_hidden {
        return;
    }
    let d = match node.tag_name().name() {
        "path" => node.attribute("d").map(str::to_owned),
        "polygon" => node.attribute("points").map(|p| format!("M{p} Z")),
        "polyline" => node.attribute("points").map(|p| format!("M{p}")),
        "use" => {
            out.notes.push("a <use> is in the file and is not measured: unlink clones first".to_owned());
            None
        }
        _ => None,
    };
    let (Some(d), Some(line)) = (d, &around.line) else { return };
    let Ok(path) = BezPath::from_svg(&d) else {
        out.notes.push(format!("a path of the {line} line cannot be read and is not measured"));
        return;
    };
    let names = named(node, around.to_mm);
    for part in subpaths(&(around.to_mm * path)) {
        add(part, &names, line, around.piece.as_deref(), out);
    }
}

fn subpaths(path: &BezPath) -> Vec<BezPath> {
    let mut all: Vec<BezPath> = Vec::new();
    for element in path.elements() {
        match (element, all.last_mut()) {
            (kurbo::PathEl::MoveTo(_), _) | (_, None) => all.push(BezPath::from_vec(vec![*element])),
            (_, Some(last)) => last.push(*element),
        }
    }
    all
}

/// `data-edges="top 12.5 30; side 80 32"`: each edge and where it starts; or one `data-edge`.
fn named(node: Node<'_, '_>, to_mm: Affine) -> Vec<Named> {
    let edge = |text: &str| {
        let mut parts = text.trim().rsplitn(3, ' ');
        let (y, x) = (parts.next()?.parse().ok()?, parts.next()?.parse().ok()?);
        Some(Named { name: parts.next()?.to_owned(), start: to_mm * Point::new(x, y), vertex: None })
    };
    node.attribute("data-edges").and_then(|all| all.split(';').map(edge).collect()).unwrap_or_default()
}

fn add(path: BezPath, names: &[Named], line: &str, piece: Option<&str>, out: &mut Outlines) {
    let is_closed = path.elements().contains(&kurbo::PathEl::ClosePath);
    let starts_with_move = matches!(path.elements().first(), Some(kurbo::PathEl::MoveTo(_)));
    if !starts_with_move {
        return;
    }
    let segments: Vec<_> = path.segments().collect();
    let Some(chain) = Chain::segments(&segments, is_closed) else { return };
    let found = edges::edges(&chain, names);
    let piece = piece.map_or_else(|| format!("outline {}", out.lines.len() + 1), str::to_owned);
    let length = chain.length();
    // An open line drawn edge by edge is one line.
    let open = |l: &&mut ReadLine| l.piece == piece && l.line == line && !l.is_closed && !chain.is_closed();
    match out.lines.iter_mut().find(open) {
        Some(known) => {
            known.length += length;
            known.edges.extend(renumbered(found, known.edges.len()));
        }
        None => out.lines.push(ReadLine {
            piece,
            line: line.to_owned(),
            is_closed: chain.is_closed(),
            edges: found,
            length,
        }),
    }
}

fn renumbered(found: Vec<EdgeLength>, before: usize) -> impl Iterator<Item = EdgeLength> {
    found.into_iter().enumerate().map(move |(i, e)| match e.found {
        edges::Found::TurnPoints => EdgeLength { name: format!("part {}", before + i + 1), ..e },
        _ => e,
    })
}
