//! The outlines in a DXF.
//!
//! Read from the tags themselves: a library may panic on a stranger's file, or leave out what it
//! does not know without a word.

use super::chain::Chain;
use super::edges::{self, Named};
use super::limits;
use super::outlines::{Outlines, ReadError, ReadLine};
use super::records::{Block, File, Record, number};
use super::spline;
use crate::dxf::named::APPLICATION;
use crate::dxf::tags;
use kurbo::{PathSeg, Point};
use std::collections::BTreeMap;

/// Splits a file, and looks at it; what stands in no section is left out.
///
/// # Errors
/// A binary file, one that is not pairs of code and value, one whose end is missing, and one with more
/// of something than any pattern has.
pub(crate) fn look<T>(bytes: &[u8], at: impl FnOnce(&File<'_>) -> Result<T, ReadError>) -> Result<T, ReadError> {
    if bytes.starts_with(b"AutoCAD Binary DXF") {
        return Err(ReadError::Binary);
    }
    if bytes.contains(&0) {
        return Err(ReadError::NotText);
    }
    limits::lines(bytes)?;
    // Old files are in an eight-bit code page; what is measured is ASCII in all of them.
    let text = String::from_utf8_lossy(bytes);
    let tags = tags::read(&text).map_err(ReadError::NotTags)?;
    let file = File { beyond_ascii: beyond_ascii(bytes), ..File::of(&tags)? };
    limits::file(&file)?;
    at(&file)
}

fn beyond_ascii(bytes: &[u8]) -> Option<usize> {
    let at = bytes.iter().position(|b| !b.is_ascii())?;
    Some(1 + bytes[..at].iter().filter(|b| **b == b'\n').count())
}

/// A line of the file with its layer and the names it carries.
pub(crate) struct Drawn {
    pub(crate) layer: String,
    pub(crate) chain: Chain,
    /// Its vertices' bulges, where it is a polyline.
    pub(crate) is_straight: bool,
    names: Names,
}

impl Drawn {
    /// How large it is drawn, of what it was written as; where the file says that.
    fn size(&self) -> Option<f64> {
        let written = self.names.length.filter(|length| *length > 0.0)?;
        Some(self.chain.length() / written).filter(|size| size.is_finite() && *size > 0.0)
    }
}

#[derive(Default)]
struct Names {
    piece: Option<String>,
    line: Option<String>,
    /// As it was written, mm.
    length: Option<f64>,
    edges: Vec<Named>,
}

/// Every polyline and spline of some records; heavy polylines come with their vertices after them.
pub(crate) fn drawn(records: &[Record<'_>], scale: f64) -> Vec<Drawn> {
    let mut out = Vec::new();
    let mut rest = records;
    while let Some((record, after)) = rest.split_first() {
        let is_heavy = record.kind() == "POLYLINE";
        let count = after.iter().take_while(|r| is_heavy && r.kind() == "VERTEX").count();
        let (vertices, after) = after.split_at(count);
        out.extend(drawn_by(record, vertices, scale));
        rest = after;
    }
    out
}

fn drawn_by(record: &Record<'_>, vertices: &[Record<'_>], scale: f64) -> Option<Drawn> {
    let chain = match record.kind() {
        "LWPOLYLINE" => Chain::polyline(&scaled(light(record), scale), record.flag(1)),
        "POLYLINE" => Chain::polyline(&scaled(vertices.iter().map(vertex).collect(), scale), record.flag(1)),
        "SPLINE" => spline_of(record, scale).and_then(|s| Chain::segments(&s, record.flag(1))),
        _ => None,
    };
    let is_round = |r: &Record<'_>| r.number(42).is_some_and(|bulge| bulge != 0.0);
    let is_straight = record.kind() != "SPLINE" && !is_round(record) && !vertices.iter().any(is_round);
    let (layer, names) = (record.layer().to_owned(), names(record, scale));
    chain.map(|chain| Drawn { layer, chain, is_straight, names })
}

fn vertex(r: &Record<'_>) -> (Point, f64) {
    (r.point(10), r.number(42).unwrap_or(0.0))
}

fn scaled(vertices: Vec<(Point, f64)>, scale: f64) -> Vec<(Point, f64)> {
    vertices.into_iter().map(|(p, b)| ((p.to_vec2() * scale).to_point(), b)).collect()
}

/// 10, 20 and perhaps 42, again and again.
fn light(record: &Record<'_>) -> Vec<(Point, f64)> {
    let mut out: Vec<(Point, f64)> = Vec::new();
    for tag in record.own() {
        let Some(v) = number(&tag.value) else { continue };
        match (tag.code, out.last_mut()) {
            (10, _) => out.push((Point::new(v, 0.0), 0.0)),
            (20, Some(last)) => last.0.y = v,
            (42, Some(last)) => last.1 = v,
            _ => {}
        }
    }
    out
}

fn spline_of(record: &Record<'_>, scale: f64) -> Option<Vec<PathSeg>> {
    let all = |code: i32| record.own().filter(move |t| t.code == code).filter_map(|t| number(&t.value));
    let knots: Vec<f64> = all(40).collect();
    let points: Vec<Point> = all(10).zip(all(20)).map(|(x, y)| Point::new(x * scale, y * scale)).collect();
    // Weights that are all the same weigh nothing.
    let mut weights = all(41);
    let first = weights.next();
    if weights.any(|w| Some(w) != first) {
        return None;
    }
    spline::segments(record.number(71)? as usize, &knots, &points)
}

/// Our own extended data: piece, line, and each edge with the place it starts at.
fn names(record: &Record<'_>, scale: f64) -> Names {
    let mut out = Names::default();
    let ours = record.tags.iter().skip_while(|t| !t.is(1001, APPLICATION)).skip(1).take_while(|t| t.code != 1001);
    for tag in ours {
        let coordinate = number(&tag.value).map(|v| v * scale);
        match (tag.code, out.edges.last_mut(), coordinate) {
            (1000, _, _) => match tag.value.split_once('=') {
                Some(("piece", name)) => out.piece = Some(unescaped(name)),
                Some(("line", name)) => out.line = Some(unescaped(name)),
                Some(("edge", name)) => {
                    out.edges.push(Named { name: unescaped(name), start: Point::ZERO, vertex: None })
                }
                _ => {}
            },
            (1040, None, Some(_)) => out.length = number(&tag.value),
            (1011, Some(edge), Some(x)) => edge.start.x = x,
            (1021, Some(edge), Some(y)) => edge.start.y = y,
            (1071, Some(edge), _) => edge.vertex = tag.value.trim().parse().ok(),
            _ => {}
        }
    }
    out
}

/// `\U+017C` is a letter.
fn unescaped(text: &str) -> String {
    let mut parts = text.split("\\U+");
    let mut out = parts.next().unwrap_or("").to_owned();
    for part in parts {
        let letter = part.get(..4).and_then(|hex| u32::from_str_radix(hex, 16).ok()).and_then(char::from_u32);
        match (letter, part.get(4..)) {
            (Some(c), Some(rest)) => {
                out.push(c);
                out.push_str(rest);
            }
            _ => out.push_str(part),
        }
    }
    out
}

/// Millimetres to a unit of the drawing (DXF reference, $INSUNITS).
fn unit(file: &File<'_>) -> Result<f64, String> {
    match file.variable("$INSUNITS") {
        None | Some("0" | "4") => Ok(1.0),
        Some("1") => Ok(25.4),
        Some("2") => Ok(304.8),
        Some("5") => Ok(10.0),
        Some("6") => Ok(1000.0),
        Some(other) => Err(format!("its units ($INSUNITS {other}) are not known here: read as millimetres")),
    }
}

/// The layers that are read: what each line is called.
fn line_of(layer: &str) -> Option<&'static str> {
    Some(match layer.to_ascii_uppercase().as_str() {
        "CUT" | "1" => "cut",
        "SEWING" | "14" => "sewing",
        "FINISHED" => "finished",
        "SECOND_ROW" => "second row",
        _ => return None,
    })
}

/// The outlines of a file: those of the drawing itself, and those in blocks.
pub(super) fn outlines(file: &File<'_>) -> Outlines {
    let mut out = Outlines::default();
    let scale = unit(file).unwrap_or_else(|note| {
        out.notes.push(note);
        1.0
    });
    let mut sizes = Vec::new();
    for d in drawn(&file.entities, scale) {
        sizes.extend(d.size());
        out.lines.extend(line(d, None));
    }
    let inserted = inserted(file);
    for block in file.piece_blocks() {
        let name = piece_name(block).unwrap_or_else(|| block.name.to_owned());
        let inserted = inserted.get(block.name).copied().unwrap_or(1.0);
        for d in drawn(&block.records, scale) {
            sizes.extend(d.size().map(|size| size * inserted));
            out.lines.extend(line(d, Some(&name)));
        }
    }
    out.scale = common(sizes);
    number_nameless(&mut out.lines);
    out.notes.extend(left_out(file));
    out
}

/// The size at which each block is put into the drawing.
fn inserted<'t>(file: &File<'t>) -> BTreeMap<&'t str, f64> {
    let inserts = file.entities.iter().filter(|r| r.kind() == "INSERT");
    inserts.filter_map(|r| Some((r.text(2)?, r.number(41).map_or(1.0, f64::abs)))).collect()
}

/// Lines agree on their size when they are as near as this.
const AGREE: f64 = 5e-4;

/// The size that more than half of the lines have; one alone may have been edited.
fn common(mut sizes: Vec<f64>) -> Option<f64> {
    sizes.sort_by(f64::total_cmp);
    let middle = *sizes.get(sizes.len() / 2)?;
    let agree = sizes.iter().filter(|size| (*size / middle - 1.0).abs() <= AGREE).count();
    (agree > 1 && 2 * agree > sizes.len()).then_some(middle)
}

/// `Piece Name: front`
fn piece_name(block: &Block<'_>) -> Option<String> {
    let mut texts = block.records.iter().filter(|r| r.kind() == "TEXT").filter_map(|r| r.text(1));
    texts.find_map(|t| t.strip_prefix("Piece Name:")).map(|n| n.trim().to_owned())
}

fn line(d: Drawn, block: Option<&str>) -> Option<ReadLine> {
    let line = d.names.line.clone().or_else(|| line_of(&d.layer).map(str::to_owned))?;
    Some(ReadLine {
        piece: d.names.piece.or_else(|| block.map(str::to_owned)).unwrap_or_default(),
        line,
        is_closed: d.chain.is_closed(),
        edges: edges::edges(&d.chain, &d.names.edges),
        length: d.chain.length(),
    })
}

fn number_nameless(lines: &mut [ReadLine]) {
    for (i, line) in lines.iter_mut().enumerate().filter(|(_, l)| l.piece.is_empty()) {
        line.piece = format!("outline {}", i + 1);
    }
}

/// Loose lines where an outline should be, and what cannot be measured.
fn left_out(file: &File<'_>) -> Vec<String> {
    let all = || file.entities.iter().chain(file.piece_blocks().flat_map(|b| &b.records));
    let mut notes = Vec::new();
    let loose =
        |r: &&Record<'_>| matches!(r.kind(), "LINE" | "ARC") && matches!(line_of(r.layer()), Some("cut" | "sewing"));
    let count = all().filter(loose).count();
    if count > 0 {
        notes.push(format!(
            "{count} loose lines and arcs on the outlines' layers are not measured: join them to one polyline"
        ));
    }
    let mut unknown: Vec<&str> =
        all().map(Record::kind).filter(|k| matches!(*k, "HATCH" | "ELLIPSE" | "REGION" | "IMAGE")).collect();
    unknown.sort_unstable();
    unknown.dedup();
    notes.extend(unknown.iter().map(|k| format!("{k} is in the file and is not measured")));
    notes
}
