//! The garment on the body.

use super::{bounds, path, point};
use engine::drawing::on_body::{Ink, OnBody, View};
use serde_json::{Value, json};

const fn ink(ink: Ink) -> &'static str {
    match ink {
        Ink::Skin => "skin",
        Ink::Cloth => "cloth",
        Ink::Contour => "contour",
        Ink::Crease => "crease",
        Ink::TopEdge => "top edge",
        Ink::LegEdge => "leg edge",
        Ink::Seam => "seam",
    }
}

fn view(view: &View) -> Value {
    let shape = |s: &engine::drawing::on_body::Shape| {
        let d = if s.ink.is_tone() { format!("{} Z", path(&s.path)) } else { path(&s.path) };
        json!({ "ink": ink(s.ink), "is_tone": s.ink.is_tone(), "d": d })
    };
    let label = |l: &engine::drawing::on_body::Label| json!({ "part": l.part.name(), "at": point(l.at) });
    json!({
        "name": view.seen.name(),
        "bounds": bounds(view.bounds()),
        "shapes": view.shapes.iter().map(shape).collect::<Vec<_>>(),
        "labels": view.labels.iter().map(label).collect::<Vec<_>>(),
    })
}

/// Every view.
pub(super) fn views(of: &OnBody) -> Value {
    of.views.iter().map(view).collect()
}

/// The garment's own edges alone, by view: a shadow of what it was.
pub(super) fn edges(of: &OnBody) -> Value {
    let is_edge = |ink: Ink| matches!(ink, Ink::TopEdge | Ink::LegEdge);
    let own = |view: &View| -> Value {
        view.shapes.iter().filter(|s| is_edge(s.ink)).map(|s| json!(path(&s.path))).collect()
    };
    Value::Object(of.views.iter().map(|v| (v.seen.name().to_owned(), own(v))).collect())
}
