//! How far a handle can be pulled, and measuring along an edge.

use super::desk::{Answer, Desk};
use super::{Trouble, show};
use engine::handle::Grip;
use engine::keys::Key;
use engine::reach::{End, reach};
use engine::words::Speech;
use serde::Deserialize;
use serde_json::{Value, json};

/// A key.
#[derive(Debug, Deserialize)]
pub(super) struct Of {
    key: String,
}

/// The range of a key round today's value in which the garment can be made.
pub(super) fn range(desk: &Desk, Of { key }: &Of) -> Answer {
    let grip = Key::named(key).and_then(|key| Grip::of(&key));
    let grip = grip.ok_or_else(|| Trouble::asked_wrongly(format!("nothing is pulled for “{key}”")))?;
    let sheet = desk.sheet()?.now.sheet().ok_or_else(unread)?;
    let say = Speech(sheet.units);
    let found = reach(sheet, grip)
        .map_err(|refused| Trouble::refused(refused.to_string(), "look at what stands against the garment first"))?
        .ok_or_else(unread)?;
    let why = |end: &End| -> Option<String> { end.stopped_by.first().map(|found| say.finding(found).text) };
    Ok(json!({
        "key": key,
        "low": show::value(grip, found.low.at, say),
        "high": show::value(grip, found.high.at, say),
        "now": show::value(grip, found.now, say),
        "why_low": why(&found.low),
        "why_high": why(&found.high),
    }))
}

fn unread() -> Trouble {
    Trouble::refused("the sheet cannot be read as it stands", "look at the fields that have a problem")
}

/// Two points near an edge of a piece.
#[derive(Debug, Deserialize)]
pub(super) struct Between {
    piece: String,
    role: String,
    edge: String,
    a: [f64; 2],
    b: [f64; 2],
}

/// How far the two are apart, along the edge and straight.
pub(super) fn measure(desk: &Desk, asked: &Between) -> Answer {
    let open = desk.sheet()?;
    let good = open.good.as_ref().ok_or_else(unread)?;
    let say = Speech(good.sheet.units);
    let found = show::edge(&good.made.drawing, (&asked.piece, &asked.role, &asked.edge))
        .ok_or_else(|| Trouble::asked_wrongly("there is no such edge"))?;
    let [a, b] = [asked.a, asked.b].map(|[x, y]| found.nearest((x, y).into()));
    let (along, straight) = ((found.along(b) - found.along(a)).abs(), found.point(a).distance(found.point(b)));
    let at = |place| -> Value { show::point(found.point(place)) };
    Ok(json!({
        "along": show::length(say, along),
        "straight": show::length(say, straight),
        "a": at(a),
        "b": at(b),
    }))
}
