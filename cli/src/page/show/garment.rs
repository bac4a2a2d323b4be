//! The garment: all of it, or as much as is wanted while something is pulled.

use super::finding::Shown;
use super::{body, handles, length, number, opening, piece};
use crate::page::reading::Good;
use engine::Reached;
use engine::elastic::ElasticTotal;
use engine::finding::Level;
use engine::garment::{EdgeRef, Garment, SeamWalk, Step};
use engine::handle;
use engine::sheet::{Opening, Sheet};
use engine::sketch::Sketch;
use engine::stages;
use engine::words::{Speech, picture, work};
use serde_json::{Value, json};
use std::collections::BTreeMap;

/// All of it.
pub(in crate::page) fn whole(good: &Good, fields: &BTreeMap<String, String>) -> Value {
    let Good { sheet, made } = good;
    let (say, garment) = (Speech(sheet.units), &made.garment);
    let shown = Shown { say, pieces: &garment.pieces, garment: Some(garment), fields };
    let pieces = made.drawing.pieces.iter().map(|p| piece::whole(p, &picture::piece(p, say)));
    let openings = garment.openings.iter().map(|walk| opening::whole(walk, edges(walk.opening, fields), say));
    json!({
        "is_partial": false,
        "pieces": pieces.collect::<Vec<_>>(),
        "on_body": body::views(&made.drawing.on_body),
        "handles": handles_of(sheet, say),
        "openings": openings.collect::<Vec<_>>(),
        "elastics": garment.elastics.iter().map(|total| elastic(total, say)).collect::<Vec<_>>(),
        "seams": garment.seams.iter().map(|walk| seam(walk, say)).collect::<Vec<_>>(),
        "findings": shown.all(&garment.checks),
        "steps": (1..).zip(&garment.order_of_work).map(|(n, step)| one_step(n, step, say)).collect::<Vec<_>>(),
        "description": picture::garment(sheet, garment),
    })
}

fn handles_of(sheet: &Sheet, say: Speech) -> Value {
    let planned = stages::plan(sheet).ok().and_then(|plan| Some((stages::draft(&plan).ok()?, plan)));
    planned.map_or_else(|| json!([]), |(draft, plan)| handles::all(&handle::handles(sheet, &plan, &draft), &plan, say))
}

/// What the checks found of it.
pub(in crate::page) fn findings(good: &Good, fields: &BTreeMap<String, String>) -> Value {
    let garment = &good.made.garment;
    let say = Speech(good.sheet.units);
    Shown { say, pieces: &garment.pieces, garment: Some(garment), fields }.all(&garment.checks)
}

/// Of a refused one, what could be drawn.
pub(super) fn partial(reached: &Reached, say: Speech) -> Value {
    let lines = |p: &engine::garment::Piece| {
        let outline = |role: &str, of: &engine::garment::Outline| {
            let edges: Vec<Value> =
                of.edges.iter().map(|e| json!({ "name": e.id.name(), "d": super::path(&e.path) })).collect();
            json!({ "role": role, "edges": edges })
        };
        json!({
            "name": p.id.name(),
            "extent": if p.extent == engine::terms::Extent::HalfOnFold { "half" } else { "full" },
            "quantity": p.quantity,
            "material": p.material,
            "bounds": super::bounds(p.bounds()),
            "outlines": [outline("cut", &p.cut), outline("sewing", &p.sewing), outline("finished", &p.finished)],
            "lines": [],
            "notches": [],
            "numbers": [],
            "text": [],
            "description": "",
        })
    };
    let handles = match (&reached.plan, &reached.draft) {
        (Some(plan), Some(draft)) => handles::all(&handle::places(plan, draft), plan, say),
        _ => json!([]),
    };
    json!({
        "is_partial": true,
        "pieces": reached.pieces.iter().map(lines).collect::<Vec<_>>(),
        "on_body": [],
        "handles": handles,
        "openings": [],
        "elastics": [],
        "seams": [],
        "findings": [],
        "steps": [],
        "description": "",
    })
}

/// As much as is wanted while something is pulled: stage by stage, without the order of work.
pub(in crate::page) fn light(sheet: &Sheet) -> Value {
    let bare = Sheet { variants: Vec::new(), ..sheet.clone() };
    match pulled(&bare) {
        Some(garment) => json!({ "garment": garment, "refusals": [], "is_stale": false }),
        None => json!({ "garment": null, "refusals": refusals(&bare), "is_stale": true }),
    }
}

fn pulled(sheet: &Sheet) -> Option<Value> {
    let say = Speech(sheet.units);
    let plan = stages::plan(sheet).ok()?;
    let draft = stages::draft(&plan).ok()?;
    let cut = stages::cut(&plan, &draft).ok()?;
    let garment = stages::walk(sheet, &plan, &draft, &cut).ok()?;
    if stages::check(sheet, &plan, &draft, &garment).iter().any(|found| found.level == Level::Refusal) {
        return None;
    }
    let seen = Sketch::of(&plan, &draft, &garment);
    Some(json!({
        "pieces": seen.pieces.iter().map(piece::lines).collect::<Vec<_>>(),
        "on_body": body::views(&seen.on_body),
        "handles": handles::all(&seen.handles, &plan, say),
        "openings": garment.openings.iter().map(|walk| opening::brief(walk, say)).collect::<Vec<_>>(),
    }))
}

fn refusals(sheet: &Sheet) -> Value {
    let Err(refused) = engine::record(sheet) else { return json!([]) };
    let (pieces, fields) = (&refused.reached.pieces, &BTreeMap::new());
    Shown { say: Speech(sheet.units), pieces, garment: None, fields }.all(&refused.findings)
}

/// The section of the sheet that finishes an opening.
pub(in crate::page) fn edges(opening: Opening, fields: &BTreeMap<String, String>) -> &'static str {
    let (own, name) = match opening {
        Opening::Top => return "top",
        Opening::LeftLeg => ("finish.left_leg.", "left_leg"),
        Opening::RightLeg => ("finish.right_leg.", "right_leg"),
    };
    if fields.keys().any(|key| key.starts_with(own)) { name } else { "legs" }
}

fn elastic(total: &ElasticTotal, say: Speech) -> Value {
    json!({
        "name": total.name,
        "width": length(say, total.width),
        "cut_length": length(say, total.cut_length),
        "in_hand": length(say, total.in_hand),
    })
}

fn seam(walk: &SeamWalk, say: Speech) -> Value {
    let edge = |e: &EdgeRef| format!("{} {}", e.piece.name(), e.edge.name());
    json!({
        "name": walk.id.name(),
        "a": edge(&walk.a),
        "b": edge(&walk.b),
        "length_a": length(say, walk.length_a),
        "length_b": length(say, walk.length_b),
        "difference_mm": number(walk.difference),
        "fits": walk.difference.abs() < 0.01,
    })
}

fn one_step(n: usize, step: &Step, say: Speech) -> Value {
    json!({
        "step": n,
        "title": work::title(step),
        "does": work::does(step, say),
        "caution": step.caution.map(work::caution),
    })
}

/// The cut lines of every piece, by name: a shadow of what it was.
pub(in crate::page) fn outlines(garment: &Garment) -> Value {
    let cut =
        |p: &engine::garment::Piece| -> Value { p.cut.edges.iter().map(|e| json!(super::path(&e.path))).collect() };
    Value::Object(garment.pieces.iter().map(|p| (p.id.name().to_owned(), cut(p))).collect())
}
