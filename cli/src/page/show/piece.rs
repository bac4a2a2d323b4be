//! One piece.

use super::{bounds, line, path, point, vector};
use engine::curve::Path;
use engine::drawing::{Drawing, Loop, Piece, Role, TextStyle};
use engine::terms::Extent;
use serde_json::{Value, json};

const fn role(role: Role) -> &'static str {
    match role {
        Role::Cut => "cut",
        Role::Sewing => "sewing",
        Role::SecondRow => "second row",
        Role::Finished => "finished",
    }
}

const fn style(style: TextStyle) -> &'static str {
    match style {
        TextStyle::Title => "title",
        TextStyle::Pattern => "pattern",
        TextStyle::Cutting => "cutting",
        TextStyle::Body => "body",
    }
}

fn outline(of: &Loop) -> Value {
    let edges: Vec<Value> = of.edges.iter().map(|e| json!({ "name": e.name, "d": path(&e.path) })).collect();
    json!({ "role": role(of.role), "edges": edges })
}

/// Its lines alone.
pub(super) fn lines(piece: &Piece) -> Value {
    let open = piece.lines.iter().map(|o| json!({ "role": role(o.role), "edge": o.edge, "d": path(&o.path) }));
    let notches = piece
        .notches
        .iter()
        .map(|n| json!({ "id": n.id, "at": point(n.at), "inward": vector(n.inward), "depth": super::number(n.depth) }));
    json!({
        "name": piece.name,
        "extent": if piece.extent == Extent::HalfOnFold { "half" } else { "full" },
        "quantity": piece.quantity,
        "material": piece.material,
        "bounds": bounds(piece.bounds()),
        "outlines": piece.loops.iter().map(outline).collect::<Vec<_>>(),
        "lines": open.collect::<Vec<_>>(),
        "notches": notches.collect::<Vec<_>>(),
        "grain": line(piece.grain),
    })
}

/// An edge by the names that it is shown with.
pub(in crate::page) fn edge(drawing: &Drawing, (name, role_of, edge): (&str, &str, &str)) -> Option<Path> {
    let piece = drawing.pieces.iter().find(|p| p.name == name)?;
    let closed = piece.loops.iter().filter(|l| role(l.role) == role_of).flat_map(|l| &l.edges);
    let open = piece.lines.iter().filter(|o| role(o.role) == role_of);
    let closed = closed.filter(|e| e.name == edge).map(|e| &e.path);
    closed.chain(open.filter(|o| o.edge == edge).map(|o| &o.path)).next().cloned()
}

/// With what is written on it.
pub(super) fn whole(piece: &Piece, description: &str) -> Value {
    let numbers =
        piece.numbers.iter().map(|n| json!({ "at": point(n.at), "inward": vector(n.inward), "text": n.text }));
    let text = piece.text.iter().map(|t| json!({ "style": style(t.style), "text": t.text }));
    let mut all = lines(piece);
    all["stretch"] = line(piece.stretch);
    all["numbers"] = numbers.collect();
    all["text"] = text.collect();
    all["text_box"] = bounds(piece.text_box);
    all["description"] = json!(description);
    all
}
