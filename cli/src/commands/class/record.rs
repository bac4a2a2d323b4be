//! `class.json`: what became of everybody, and what to buy, for programs.

use super::entry::{Entry, Files, Status};
use super::lay::Laid;
use super::total::Total;
use crate::commands::stop::{Stop, broken};
use crate::people::Reason;
use engine::lay::Placed;
use engine::quantity::Units;
use engine::words::Speech;
use export::mark::{BLANK, Mark, PROGRAM};
use export::number::millionth;
use export::record::shopping;
use serde::{Deserialize, Serialize};
use serde_json::{Value, json};
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

pub(super) const NAME: &str = "class.json";
pub(super) const MARK: Mark = Mark::JsonProgram;

/// The shape's version: it rises when a key changes its meaning or goes.
const VERSION: u32 = 1;

/// The whole record, with a newline at its end; lengths in mm with six decimals.
pub(super) fn json(
    entries: &[Entry],
    (gone, left_out): (&[String], &[String]),
    total: &Total,
    laid: &[Laid],
    units: Units,
) -> Result<String, Stop> {
    let mut buy = shopping(&total.shopping, Speech(units)).map_err(|e| broken(&e))?;
    let cloth = total.cloths.iter().map(|c| {
        json!({ "name": c.name, "width_mm": c.width.map(millionth), "length_mm": c.length.map(millionth), "pairs": c.pairs,
                "price": c.price, "cost": c.cost })
    });
    buy["cloth"] = cloth.collect();
    let record = json!({
        "version": VERSION,
        "program": PROGRAM,
        "mark": BLANK,
        "people": entries.iter().map(person).collect::<Vec<_>>(),
        "gone": gone,
        "left_out": left_out,
        "shopping": buy,
        "pages": total.pages,
        "lays": laid.iter().map(lay).collect::<Vec<_>>(),
    });
    let text = serde_json::to_string_pretty(&record).map_err(|e| broken(&e))?;
    Ok(text + "\n")
}

/// A lay as in the record of a garment, each piece with the folder of its person.
fn lay(laid: &Laid) -> Value {
    let lay = &laid.lay;
    let placed = |placed: &Placed| {
        let (folder, piece) = placed.piece.split_once(": ").unwrap_or(("", &placed.piece));
        let (x, y) = (millionth(placed.at.x), millionth(placed.at.y));
        json!({ "folder": folder, "piece": piece, "x": x, "y": y, "turn": placed.turn.degrees() })
    };
    json!({
        "cloth": lay.cloth.name,
        "width_mm": millionth(lay.cloth.width),
        "length_mm": millionth(lay.length),
        "use_percent": millionth(lay.use_percent),
        "pairs": lay.pairs,
        "gap_mm": millionth(lay.gap),
        "people": laid.people,
        "placed": lay.placed.iter().map(placed).collect::<Vec<_>>(),
    })
}

fn person(entry: &Entry) -> Value {
    let reason = |r: &Reason| json!({ "code": r.code, "key": r.key, "text": r.whole() });
    // What is not in her folder is no reason to leave it as it is the next time.
    let there = entry.pair.as_ref().filter(|pair| entry.status == Status::Done || pair.files == Files::Unchanged);
    json!({
        "row": entry.row,
        "name": entry.name,
        "folder": entry.folder,
        "status": entry.status.name(),
        "reasons": entry.reasons.iter().map(reason).collect::<Vec<_>>(),
        "pages": there.map(|pair| pair.pages),
        "digest": there.map(|pair| &pair.digest),
    })
}

/// What is known of somebody's files.
#[derive(Clone, Debug, Deserialize, PartialEq, Serialize)]
pub(super) struct Kept {
    pub(super) digest: String,
    pub(super) pages: usize,
}

/// The record of an earlier run; nothing where there is none of ours.
pub(super) fn earlier(into: &Path) -> Value {
    crate::commands::record::earlier(&into.join(NAME))
}

/// Every folder that a record tells of, of people who were in the table then or before.
pub(super) fn folders(record: &Value) -> BTreeSet<String> {
    let of_people = record["people"].as_array().into_iter().flatten().map(|person| &person["folder"]);
    let all = of_people.chain(record["gone"].as_array().into_iter().flatten());
    all.filter_map(|folder| folder.as_str().map(str::to_owned)).collect()
}

/// What it says of everybody's files, by folder.
pub(super) fn kept(record: &Value) -> BTreeMap<String, Kept> {
    let one = |person: &Value| {
        let digest = person["digest"].as_str()?.to_owned();
        let pages = usize::try_from(person["pages"].as_u64()?).ok()?;
        Some((person["folder"].as_str()?.to_owned(), Kept { digest, pages }))
    };
    record["people"].as_array().into_iter().flatten().filter_map(one).collect()
}
