//! What the page is shown, as JSON: words and numbers of the engine, put in order.

mod body;
mod fields;
mod finding;
mod garment;
mod handles;
mod keys;
mod opening;
mod piece;
mod state;

pub(super) use garment::{edges, findings, light, outlines};
pub(super) use handles::value;
pub(super) use keys::keys;
pub(super) use opening::whole as opening;
pub(super) use piece::edge;
pub(super) use state::{problems, state};

use engine::curve::Path;
use engine::words::Speech;
use export::svg::path_data;
use kurbo::{Line, Point, Rect, Vec2};
use serde_json::{Value, json};

/// A thousandth of a millimetre, or of a share, is far below what is seen.
fn number(value: f64) -> f64 {
    (value * 1e3).round() / 1e3 + 0.0
}

/// A length, with what it reads in the unit of the sheet.
pub(super) fn length(say: Speech, mm: f64) -> Value {
    json!({ "mm": number(mm), "text": say.tape(mm) })
}

pub(super) fn point(p: Point) -> Value {
    json!([number(p.x), number(p.y)])
}

fn vector(v: Vec2) -> Value {
    json!([number(v.x), number(v.y)])
}

pub(super) fn bounds(r: Rect) -> Value {
    json!([number(r.x0), number(r.y0), number(r.x1), number(r.y1)])
}

fn line(l: Line) -> Value {
    json!([number(l.p0.x), number(l.p0.y), number(l.p1.x), number(l.p1.y)])
}

/// To a hundredth of a millimetre.
fn path(path: &Path) -> String {
    path_data(path, Vec2::ZERO, 2)
}
