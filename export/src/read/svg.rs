//! The outlines in an SVG: by the names of ours, else by the ids of groups.

use super::chain::Chain;
use super::edges::{self, EdgeLength, Named};
use super::limits::{self, Paths};
use super::outlines::{Outlines, ReadError, ReadLine};
use kurbo::{Affine, BezPath, Point};
use roxmltree::{Document, Node, ParsingOptions};
use std::collections::BTreeMap;

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

/// What was found so far.
#[derive(Default)]
struct Found {
    out: Outlines,
    paths: Paths,
    /// Where the open line of a piece stands among the outlines, by piece and line.
    open: BTreeMap<(String, String), usize>,
}

/// Reads the outlines of a document.
///
/// # Errors
/// [`ReadError::NotSvg`], saying what is wrong, and [`ReadError::TooMany`].
pub(super) fn outlines(text: &str) -> Result<Outlines, ReadError> {
    limits::svg(text)?;
    // Drawing programs still write a document type; what it declares is bounded by the reader.
    let options = ParsingOptions { allow_dtd: true, ..ParsingOptions::default() };
    let document = Document::parse_with_options(text, options).map_err(|e| ReadError::NotSvg(e.to_string()))?;
    let svg = document.root_element();
    if svg.tag_name().name() != "svg" {
        return Err(ReadError::NotSvg("it does not begin with <svg>".to_owned()));
    }
    let mut found = Found::default();
    // Not by recursion: a stranger's file decides how deep it is.
    let mut open = vec![(svg, root(svg), 0)];
    while let Some((node, around, depth)) = open.pop() {
        if depth > DEEPEST {
            return Err(ReadError::NotSvg("it is nested too deeply".to_owned()));
        }
        take(node, &around, &mut found)?;
        let children = node.children().rev().filter(Node::is_element);
        open.extend(children.map(|child| (child, inside(&around, child), depth + 1)));
    }
    Ok(found.out)
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

fn take(node: Node<'_, '_>, around: &Around, found: &mut Found) -> Result<(), ReadError> {
    if around.is_hidden {
        return Ok(());
    }
    let d = match node.tag_name().name() {
        "path" => node.attribute("d").map(str::to_owned),
        "polygon" => node.attribute("points").map(|p| format!("M{p} Z")),
        "polyline" => node.attribute("points").map(|p| format!("M{p}")),
        "use" => {
            found.note("a <use> is in the file and is not measured: unlink clones first".to_owned());
            None
        }
        _ => None,
    };
    let (Some(d), Some(line)) = (d, &around.line) else { return Ok(()) };
    found.paths.text(&d)?;
    let Ok(path) = BezPath::from_svg(&d) else {
        found.note(format!("a path of the {line} line cannot be read and is not measured"));
        return Ok(());
    };
    found.paths.segments(path.elements().len())?;
    let names = named(node, around.to_mm)?;
    if !names.is_empty() && found.out.scale.is_none() {
        found.out.scale = Some(around.to_mm.determinant().abs().sqrt());
    }
    for part in subpaths(&(around.to_mm * path)) {
        found.add(part, &names, line, around.piece.as_deref());
    }
    Ok(())
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
fn named(node: Node<'_, '_>, to_mm: Affine) -> Result<Vec<Named>, ReadError> {
    let Some(all) = node.attribute("data-edges") else { return Ok(Vec::new()) };
    limits::edges(all.split(';').count())?;
    let edge = |text: &str| {
        let mut parts = text.trim().rsplitn(3, ' ');
        let (y, x) = (parts.next()?.parse().ok()?, parts.next()?.parse().ok()?);
        Some(Named { name: parts.next()?.to_owned(), start: to_mm * Point::new(x, y), vertex: None })
    };
    Ok(all.split(';').map(edge).collect::<Option<_>>().unwrap_or_default())
}

impl Found {
    /// Each note once; of very many, the first ones.
    fn note(&mut self, text: String) {
        if self.out.notes.len() < limits::NOTES && !self.out.notes.contains(&text) {
            self.out.notes.push(text);
        }
    }

    fn add(&mut self, path: BezPath, names: &[Named], line: &str, piece: Option<&str>) {
        let is_closed = path.elements().contains(&kurbo::PathEl::ClosePath);
        let starts_with_move = matches!(path.elements().first(), Some(kurbo::PathEl::MoveTo(_)));
        if !starts_with_move {
            return;
        }
        let segments: Vec<_> = path.segments().collect();
        let Some(chain) = Chain::segments(&segments, is_closed) else { return };
        let edges = edges::edges(&chain, names);
        let lines = &mut self.out.lines;
        let piece = piece.map_or_else(|| format!("outline {}", lines.len() + 1), str::to_owned);
        let (line, is_closed, length) = (line.to_owned(), chain.is_closed(), chain.length());
        if !is_closed {
            // An open line drawn edge by edge is one line.
            let place = self.open.entry((piece.clone(), line.clone())).or_insert(lines.len());
            if let Some(known) = lines.get_mut(*place) {
                known.length += length;
                known.edges.extend(renumbered(edges, known.edges.len()));
                return;
            }
        }
        lines.push(ReadLine { piece, line, is_closed, edges, length });
    }
}

fn renumbered(found: Vec<EdgeLength>, before: usize) -> impl Iterator<Item = EdgeLength> {
    found.into_iter().enumerate().map(move |(i, e)| match e.found {
        edges::Found::TurnPoints => EdgeLength { name: format!("part {}", before + i + 1), ..e },
        _ => e,
    })
}
