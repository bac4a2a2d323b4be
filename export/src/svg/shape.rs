//! Path data, arrows and text, in millimetres on the page.

use super::pen::Pen;
use crate::number::digits::push_short;
use engine::curve::{Path, elements};
use kurbo::{Line, PathEl, Point, Vec2};
use svg::node::element::{Path as Drawn, Text};

/// Length and half width of an arrowhead, mm.
const ARROWHEAD: (f64, f64) = (3.5, 1.2);

/// A ten-thousandth of a millimetre is far below any pen.
const DECIMALS: u32 = 4;

pub(super) fn number(value: f64) -> String {
    let mut out = Vec::new();
    push_short(&mut out, value, DECIMALS);
    text_of(out)
}

fn point(p: Point, shift: Vec2) -> String {
    let mut out = Vec::new();
    push_point(&mut out, p + shift, DECIMALS);
    text_of(out)
}

/// Files have thousands of them, so that they are put straight onto what is written.
fn push_point(out: &mut Vec<u8>, p: Point, decimals: u32) {
    push_short(out, p.x, decimals);
    out.push(b' ');
    push_short(out, p.y, decimals);
}

/// What was put together here is ASCII.
fn text_of(bytes: Vec<u8>) -> String {
    String::from_utf8(bytes).unwrap_or_default()
}

/// An open path, moved.
pub(super) fn open(path: &Path, shift: Vec2) -> String {
    data(path, shift, DECIMALS)
}

/// An open path as path data, moved, with so many decimals.
pub fn data(path: &Path, shift: Vec2, decimals: u32) -> String {
    let mut out = Vec::new();
    let mut put = |letter: u8, points: &[Point]| {
        if !out.is_empty() {
            out.push(b' ');
        }
        out.push(letter);
        for (i, p) in points.iter().enumerate() {
            if i > 0 {
                out.push(b' ');
            }
            push_point(&mut out, *p + shift, decimals);
        }
    };
    for element in elements(path) {
        match element {
            PathEl::MoveTo(p) => put(b'M', &[p]),
            PathEl::LineTo(p) => put(b'L', &[p]),
            PathEl::QuadTo(a, p) => put(b'Q', &[a, p]),
            PathEl::CurveTo(a, b, p) => put(b'C', &[a, b, p]),
            PathEl::ClosePath => put(b'Z', &[]),
        }
    }
    text_of(out)
}

/// A closed one.
pub(super) fn closed(path: &Path, shift: Vec2) -> String {
    format!("{} Z", open(path, shift))
}

/// A straight line, moved.
pub(super) fn line(l: Line, shift: Vec2) -> String {
    format!("M{} L{}", point(l.p0, shift), point(l.p1, shift))
}

/// A line with a filled head at its end.
pub(super) fn arrow(pen: Pen, l: Line, shift: Vec2) -> [Drawn; 2] {
    [pen.path(line(l, shift)), head(pen, l, shift)]
}

/// A line with a filled head at either end.
pub(super) fn double_arrow(pen: Pen, l: Line, shift: Vec2) -> [Drawn; 3] {
    let back = Line::new(l.p1, l.p0);
    [pen.path(line(l, shift)), head(pen, l, shift), head(pen, back, shift)]
}

fn head(pen: Pen, l: Line, shift: Vec2) -> Drawn {
    let along = l.p1 - l.p0;
    // A line of no length has no direction; its head points to the right.
    let unit = if along.hypot() > 0.0 { along.normalize() } else { Vec2::new(1.0, 0.0) };
    let length = ARROWHEAD.0.min(0.5 * along.hypot().max(1.0));
    let across = Vec2::new(-unit.y, unit.x) * ARROWHEAD.1;
    let foot = l.p1 - unit * length;
    let corners = [l.p1, foot + across, foot - across].map(|p| point(p, shift)).join(" L");
    Drawn::new().set("d", format!("M{corners} Z")).set("fill", pen.colour()).set("stroke", "none")
}

/// One line of text, its baseline starting at a place.
pub(super) fn text(value: &str, at: Point, size: f64) -> Text {
    Text::new(clean(value))
        .set("x", number(at.x))
        .set("y", number(at.y))
        .set("font-family", "sans-serif")
        .set("font-size", number(size))
        .set("fill", "#000000")
}

/// The same, centred on the place.
pub(super) fn centred(value: &str, at: Point, size: f64) -> Text {
    text(value, at, size).set("text-anchor", "middle")
}

/// The same, upwards instead of to the right.
pub(super) fn upwards(value: &str, at: Point, size: f64) -> Text {
    let turn = format!("rotate(-90 {} {})", number(at.x), number(at.y));
    centred(value, at, size).set("transform", turn)
}

/// A name and where its edge starts.
pub(super) fn started(name: &str, path: &Path, shift: Vec2) -> String {
    let at = path.start() + shift;
    format!("{} {} {}", clean(name).replace(';', ","), number(at.x), number(at.y))
}

/// What XML 1.0 can carry: no control characters, no non-characters.
pub(super) fn clean(text: &str) -> String {
    text.chars().map(|c| if c.is_control() || matches!(c, '\u{FFFE}' | '\u{FFFF}') { ' ' } else { c }).collect()
}
