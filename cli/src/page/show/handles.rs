//! The points that can be pulled.

use super::{number, point, vector};
use engine::garment::Source;
use engine::handle::{Grip, Handle, On};
use engine::keys::Key;
use engine::plan::Plan;
use engine::words::Speech;
use engine::words::number::short;
use serde_json::{Value, json};

/// A value of a grip's key: a length in mm, else a share.
pub(in crate::page) fn value(grip: &Grip, value: f64, say: Speech) -> Value {
    if grip.is_length() {
        json!({ "mm": number(value), "text": say.tool(value) })
    } else {
        json!({ "number": number(value), "text": short(value, 2) })
    }
}

fn one(handle: &Handle, plan: &Plan, say: Speech) -> Value {
    let Handle { grip, on, at, pull } = handle;
    let (piece, view) = match on {
        On::Piece(piece) => (Some(piece.name()), None),
        On::View(seen) => (None, Some(seen.name())),
    };
    let now = grip.value(plan);
    let mut all = json!({
        "id": match view {
            Some(view) => format!("{}, {view} view", grip.name),
            None => format!("{}, {}", grip.name, piece.unwrap_or_default()),
        },
        "label": grip.label,
        "key": Key::from(grip.field).to_string(),
        "piece": piece,
        "view": view,
        "at": point(*at),
        "value": now.map(|(now, _)| value(grip, now, say)),
        "is_set": now.is_some_and(|(_, source)| source == Source::Given),
        "unit": if grip.is_length() { "mm" } else { "share" },
        "low": null,
        "high": null,
    });
    if let Some(pull) = pull {
        all["along"] = vector(pull.along);
        all["per_mm"] = json!((pull.per_mm * 1e6).round() / 1e6);
        all["step"] = if grip.is_length() { json!(1.0) } else { json!(0.01) };
    }
    all
}

/// Every one.
pub(super) fn all(handles: &[Handle], plan: &Plan, say: Speech) -> Value {
    handles.iter().map(|handle| one(handle, plan, say)).collect()
}
