//! `sizes.json`: what became of every size, its lengths and how they grow, for programs.

use super::lists::Lists;
use super::made::Size;
use crate::commands::stop::{Stop, broken};
use crate::people::Reason;
use engine::growth::{Line, Step};
use export::mark::{BLANK, Mark, PROGRAM};
use export::number::millionth;
use serde_json::{Value, json};
use std::collections::BTreeSet;
use std::path::Path;

pub(super) const NAME: &str = "sizes.json";
pub(super) const MARK: Mark = Mark::JsonProgram;

/// The shape's version: it rises when a key changes its meaning or goes.
const VERSION: u32 = 1;

/// The whole record, with a newline at its end; lengths in mm with six decimals.
pub(super) fn json(list: &Lists<'_>, gone: &[String]) -> Result<String, Stop> {
    let record = json!({
        "version": VERSION,
        "program": PROGRAM,
        "mark": BLANK,
        "name": list.name,
        "units": "mm",
        "sizes": list.sizes.iter().map(size).collect::<Vec<_>>(),
        "gone": gone,
        "made": list.done.iter().map(|(size, _)| &size.entry.name).collect::<Vec<_>>(),
        "lengths": list.growth.lines.iter().map(|line| length(line, list)).collect::<Vec<_>>(),
    });
    let text = serde_json::to_string_pretty(&record).map_err(|e| broken(&e))?;
    Ok(text + "\n")
}

/// The folders of sizes of earlier runs that are there still, and of none of these.
pub(super) fn gone(into: &Path, folders: &[String]) -> Vec<String> {
    let earlier = crate::commands::record::earlier(&into.join(NAME));
    let of_sizes = earlier["sizes"].as_array().into_iter().flatten().map(|size| &size["folder"]);
    let all = of_sizes.chain(earlier["gone"].as_array().into_iter().flatten()).filter_map(Value::as_str);
    let is_gone = |folder: &&str| !folders.iter().any(|own| own == folder) && into.join(folder).is_dir();
    all.filter(is_gone).map(str::to_owned).collect::<BTreeSet<_>>().into_iter().collect()
}

fn size(size: &Size) -> Value {
    let reason = |r: &Reason| json!({ "code": r.code, "key": r.key, "text": r.whole() });
    let estimated = size.made.iter().flat_map(|made| &made.estimated).map(ToString::to_string);
    json!({
        "row": size.entry.row,
        "name": size.entry.name,
        "folder": size.entry.folder,
        "status": size.entry.status.name(),
        "reasons": size.entry.reasons.iter().map(reason).collect::<Vec<_>>(),
        "estimated": estimated.collect::<Vec<_>>(),
    })
}

/// One length: of every size that is made, and from each to the next.
fn length(line: &Line, list: &Lists<'_>) -> Value {
    let mm = |values: &[Option<f64>]| values.iter().map(|mm| json!(mm.map(millionth))).collect::<Value>();
    let steps = list.growth.steps(line);
    let words = steps.iter().map(|step| json!(step.map(|step| Step::word(step).unwrap_or("even"))));
    json!({
        "kind": line.what.kind(),
        "name": line.what.name(),
        "by_size": mm(&line.lengths),
        "growth": mm(&line.growth()),
        "grows": words.collect::<Value>(),
    })
}
