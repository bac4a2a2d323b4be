//! The state: the sheet as it stands, and what comes of it.

use super::fields::Fields;
use super::finding::Shown;
use super::{body, garment, opening};
use crate::page::open_sheet::Open;
use crate::page::reading::Reading;
use crate::sheet::{Problems, fields};
use engine::words::trial;
use serde_json::{Value, json};
use std::collections::BTreeMap;

/// All of it.
pub(in crate::page) fn state(open: &Open, version: u64) -> Value {
    let shown = Fields::of(open);
    let (problems, refusals) = match &open.now {
        Reading::Unread(found) => (problems(found), json!([])),
        Reading::Refused(_, refused) => {
            let pieces = &refused.reached.pieces;
            (Vec::new(), Shown { say: shown.say(), pieces, garment: None, fields: &shown.said }.all(&refused.findings))
        }
        Reading::Made(_) => (Vec::new(), json!([])),
    };
    let garment = match (&open.now, &open.good) {
        (_, Some(good)) => garment::whole(good, &shown.said),
        (Reading::Refused(_, refused), None) => garment::partial(&refused.reached, shown.say()),
        (_, None) => Value::Null,
    };
    let is_stale = open.now.good().is_none();
    let findings = if is_stale { &refusals } else { &garment["findings"] };
    let keys = shown.all(&problems, findings);
    json!({
        "version": version,
        "sheet": sheet(&shown, &problems),
        "keys": keys,
        "elastics": elastics(&shown),
        "variants": variants(&shown.said),
        "trials": trials(open),
        "is_stale": is_stale,
        "refusals": refusals,
        "garment": garment,
        "saved": saved(&shown),
    })
}

fn sheet(shown: &Fields<'_>, problems: &[Value]) -> Value {
    let open = shown.open();
    let name = shown.said.get("sheet.name");
    let (undo, redo) = open.history.labels();
    let (undone, redone) = open.history.counts();
    json!({
        "file": open.file,
        "name": name,
        "title": name.unwrap_or(&open.file),
        "units": open.units().name(),
        "is_saved": open.is_saved(),
        "on_disk": open.on_disk.name(),
        "is_read_only": open.is_read_only(),
        "is_broken": fields(&open.text).is_none(),
        "undo": undo,
        "redo": redo,
        "steps": { "undo": undone, "redo": redone },
        "unsaved": open.left.as_ref().map(|left| json!({ "is_of_this_file": left.is_of_this_file })),
        "problems": problems,
    })
}

/// What is wrong with a sheet, in the words that `check` uses.
pub(in crate::page) fn problems(found: &Problems) -> Vec<Value> {
    let one = |((line, key, text, next), problem): ((usize, &str, &str, &str), &crate::sheet::Problem)| json!({ "key": key, "line": line, "text": text, "label": problem.label, "next": next });
    found.told().zip(found.list()).map(one).collect()
}

fn elastics(shown: &Fields<'_>) -> Vec<Value> {
    let openings = shown.open().now.good().map(|good| good.made.garment.openings.as_slice()).unwrap_or_default();
    let used_on = |name: &str| {
        let is_it = |walk: &&engine::garment::OpeningWalk| walk.elastic.as_ref().is_some_and(|e| e.name == name);
        openings.iter().filter(is_it).map(|walk| walk.opening.name()).collect::<Vec<_>>()
    };
    let own = shown.elastics();
    let others = shown.open().elastics_of_drawer().into_iter().filter(|name| !own.contains(name));
    let others: Vec<String> = others.collect();
    let all = own.into_iter().map(|name| (name, false)).chain(others.into_iter().map(|name| (name, true)));
    all.map(|(name, is_of_drawer)| json!({ "name": name, "used_on": used_on(&name), "is_of_drawer": is_of_drawer }))
        .collect()
}

fn variants(said: &BTreeMap<String, String>) -> Vec<Value> {
    let of = |number: usize| {
        let home = format!("variant.{number}.");
        let own: BTreeMap<&str, &String> =
            said.iter().filter_map(|(key, value)| Some((key.strip_prefix(&home)?, value))).collect();
        let name = own.get("name").copied();
        let changes = own.iter().filter(|(key, _)| **key != "name");
        let changes: Vec<Value> = changes.map(|(key, value)| json!({ "key": key, "value": value })).collect();
        (!own.is_empty()).then(|| json!({ "name": name, "number": number, "changes": changes }))
    };
    (1..).map_while(of).collect()
}

fn trials(open: &Open) -> Vec<Value> {
    let all = open.now.sheet().map(|sheet| sheet.trials.as_slice()).unwrap_or_default();
    let one = |(number, row): (usize, &engine::sheet::Trial)| {
        json!({
            "number": number,
            "text": trial::tried(row),
            "date": row.date,
            "edge": row.edge.name(),
            "verdict": row.verdict.name(),
            "note": row.note,
        })
    };
    (1..).zip(all).map(one).collect()
}

/// What was saved, as a shadow behind what is.
fn saved(shown: &Fields<'_>) -> Value {
    let Some(good) = &shown.open().ghost else { return Value::Null };
    let made = &good.made;
    let openings = made.garment.openings.iter().map(|walk| opening::brief(walk, shown.say()));
    json!({
        "outlines": garment::outlines(&made.garment),
        "on_body": body::edges(&made.drawing.on_body),
        "openings": openings.collect::<Vec<_>>(),
    })
}
