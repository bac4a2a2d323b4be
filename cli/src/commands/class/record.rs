//! `class.json`: what became of everybody, and what to buy, for programs.

use super::entry::Entry;
use super::journal::Kept;
use super::total::Total;
use crate::commands::record::broken;
use crate::commands::stop::Stop;
use crate::people::Reason;
use engine::shopping::{ElasticBuy, NeedleBuy, ThreadBuy};
use engine::words::work;
use export::mark::{Mark, PROGRAM};
use export::number::millionth;
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

pub(super) const NAME: &str = "class.json";
pub(super) const MARK: Mark = Mark::JsonProgram;

/// The shape's version: it rises when a key changes its meaning or goes.
const VERSION: u32 = 1;

/// The whole record, with a newline at its end; lengths in mm with six decimals.
pub(super) fn json(entries: &[Entry], total: &Total) -> Result<String, Stop> {
    let shopping = &total.shopping;
    let cloth = total.cloths.iter().map(|c| {
        json!({ "name": c.name, "width_mm": c.width.map(millionth), "length_mm": c.length.map(millionth), "pairs": c.pairs })
    });
    let record = json!({
        "version": VERSION,
        "program": PROGRAM,
        "people": entries.iter().map(person).collect::<Vec<_>>(),
        "shopping": {
            "elastic": shopping.elastics.iter().map(elastic).collect::<Vec<_>>(),
            "cloth": cloth.collect::<Vec<_>>(),
            "thread": shopping.threads.iter().map(thread).collect::<Vec<_>>(),
            "needles": shopping.needles.iter().map(needle).collect::<Vec<_>>(),
        },
        "pages": total.pages,
    });
    let text = serde_json::to_string_pretty(&record).map_err(|e| broken(&e))?;
    Ok(text + "\n")
}

fn person(entry: &Entry) -> Value {
    let reason = |r: &Reason| json!({ "code": r.code, "key": r.key, "text": r.whole() });
    json!({
        "row": entry.row,
        "name": entry.name,
        "folder": entry.folder,
        "status": entry.status.name(),
        "reasons": entry.reasons.iter().map(reason).collect::<Vec<_>>(),
        "pages": entry.pair.as_ref().map(|pair| pair.pages),
        "digest": entry.pair.as_ref().map(|pair| &pair.digest),
    })
}

fn elastic(e: &ElasticBuy) -> Value {
    json!({
        "name": e.name,
        "width_mm": millionth(e.width),
        "pairs": e.pairs,
        "cut_mm": millionth(e.cut),
        "in_hand_mm": millionth(e.in_hand),
        "waste_mm": millionth(e.waste),
        "samples_mm": millionth(e.samples),
        "length_mm": millionth(e.length),
    })
}

fn thread(t: &ThreadBuy) -> Value {
    let ratio = t.stitch.thread();
    json!({
        "stitch": t.stitch.code(),
        "sewn_mm": millionth(t.sewn),
        "ratio": ratio.times,
        "ratio_is": ratio.sure.name(),
        "length_mm": millionth(t.length),
    })
}

fn needle(n: &NeedleBuy) -> Value {
    json!({ "needle": work::needle(n.needle), "pairs": n.pairs })
}

/// What an earlier record says of everybody's files, by folder.
pub(super) fn kept(into: &Path) -> BTreeMap<String, Kept> {
    let Ok(bytes) = fs::read(into.join(NAME)) else { return BTreeMap::new() };
    if !MARK.is_in(&bytes) {
        return BTreeMap::new();
    }
    let record: Value = serde_json::from_slice(&bytes).unwrap_or_default();
    let one = |person: &Value| {
        let digest = person["digest"].as_str()?.to_owned();
        let pages = usize::try_from(person["pages"].as_u64()?).ok()?;
        Some((person["folder"].as_str()?.to_owned(), Kept { digest, pages }))
    };
    record["people"].as_array().into_iter().flatten().filter_map(one).collect()
}
