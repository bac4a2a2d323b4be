//! How the pieces of some pairs lie on their cloth: a picture that follows the sheet.

use super::change::Change;
use super::desk::{Answer, Desk};
use super::files::choices;
use super::reading::{Good, Reading, drawer_of};
use super::{Trouble, show};
use crate::args::FileChoices;
use crate::commands::lays::{for_cutter, pairs};
use crate::sheet::{Drawer, Problems, fields};
use engine::keys::{Field, Key, Single, fabric};
use engine::lay::{self, Lay, Rules};
use engine::words::Speech;
use export::svg;
use serde::Deserialize;
use serde_json::{Value, json};
use std::sync::Arc;

/// What is to be laid.
#[derive(Debug, Deserialize)]
pub(super) struct Wanted {
    /// A cloth of the drawer, in place of the sheet's own.
    #[serde(default)]
    cloth: Option<String>,
    /// Laid over the sheet; nothing is kept.
    #[serde(default)]
    changes: Vec<Change>,
    /// Choices of `draft`: `pairs=4&gap=3`.
    #[serde(default)]
    query: String,
    /// Only a first look?
    #[serde(default)]
    is_quick: bool,
    /// Rises: an older one is dropped for a younger one.
    pub(super) seq: u64,
}

/// Steps of a first look: less than a tenth of a second.
const QUICK: u64 = 600;

/// All that is needed to lay it, away from the desk.
pub(super) struct Task {
    good: Arc<Good>,
    choices: FileChoices,
    query: String,
    changes: Vec<Change>,
    cloths: Vec<String>,
    is_quick: bool,
    seq: u64,
}

/// Takes what is needed from the desk.
pub(super) fn take(desk: &Desk, wanted: Wanted) -> Result<Task, Trouble> {
    let Wanted { cloth, changes, query, is_quick, seq } = wanted;
    let open = desk.sheet()?;
    let (choices, _) = choices(&query)?;
    let drawer = drawer_of(&open.text, &open.path).and_then(|(name, text)| Drawer::of(&text, &name).ok());
    let mut all = cloth.map(|name| of_cloth(&open.text, drawer.as_ref(), &name)).transpose()?.unwrap_or_default();
    all.extend(changes);
    let good = match Reading::of(&open.with(&all)?, &open.path) {
        Reading::Made(good) => good,
        Reading::Unread(problems) => return Err(first(&problems)),
        Reading::Refused(sheet, refused) => {
            let next = "look at what stands against it first";
            return Err(Trouble::refused(Speech(sheet.units).refused(&refused.findings), next));
        }
    };
    let cloths = drawer.iter().flat_map(Drawer::cloths).map(|(name, _)| name.to_owned()).collect();
    Ok(Task { good, choices, query, changes: all, cloths, is_quick, seq })
}

fn first(problems: &Problems) -> Trouble {
    let (_, _, text, next) = problems.told().next().unwrap_or_default();
    Trouble::refused(text, next)
}

/// What makes another cloth of the drawer the sheet's: its name, and nothing that the sheet says of its own.
fn of_cloth(text: &str, drawer: Option<&Drawer>, name: &str) -> Result<Vec<Change>, Trouble> {
    let is_there = drawer.is_some_and(|drawer| drawer.cloths().any(|(known, _)| known == name));
    if !is_there {
        let next = "choose one of the list";
        return Err(Trouble::not_there(format!("there is no cloth “{name}” in the drawer of the sheet"), next));
    }
    let own = Change::typed(&key(fabric::NAME), Some(name.to_owned()));
    let section = format!("{}.", Single::Fabric.path());
    let said = fields(text).unwrap_or_default();
    let others = said.into_keys().filter(|key| key.starts_with(&section) && *key != own.key);
    let others: Vec<Change> = others.map(|key| Change::typed(&key, None)).collect();
    Ok(others.into_iter().chain([own]).collect())
}

fn key(field: Field<Single>) -> String {
    Key::from(field).to_string()
}

/// Lays it.
pub(super) fn laid(task: &Task) -> Answer {
    let Task { good, choices, .. } = task;
    let Good { sheet, made } = &**good;
    let say = Speech(sheet.units);
    let steps = if task.is_quick { Some(QUICK) } else { choices.lay.steps };
    let rules = Rules { steps, ..choices.lay };
    let pairs = pairs(choices.cut.cutting.copies);
    let Some(width) = sheet.fabric.width else {
        let text = "the width of the cloth is not known, so that nothing can be laid on it";
        return Err(Trouble::refused(text, "write it, from selvedge to selvedge"));
    };
    // As the files that are asked for from here will lie.
    let (taken, rules) = for_cutter(&made.drawing, &choices.cut.cutting, rules)
        .map_err(|error| Trouble::refused(error.to_string(), "choose another kerf"))?;
    let lays = lay::of_pairs(&made.drawing, &taken, &sheet.fabric, pairs, rules, &mut |_| ()).map_err(|error| {
        let (text, next) = say.not_laid(&error);
        Trouble::refused(text, next)
    })?;
    let query = [format!("lay&cut-width={}", width.mm()), task.query.clone()];
    let query = query.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join("&");
    Ok(json!({
        "seq": task.seq,
        "is_quick": task.is_quick,
        "lays": lays.iter().map(|lay| one(lay, say)).collect::<Vec<_>>(),
        "picture": svg::lay(&made.drawing, &lays, sheet.units),
        "cloths": task.cloths,
        "changes": task.changes.iter().map(|c| json!({ "key": c.key, "value": c.value })).collect::<Vec<_>>(),
        "query": query,
    }))
}

fn one(lay: &Lay, say: Speech) -> Value {
    json!({
        "cloth": lay.cloth.name,
        "width": show::length(say, lay.cloth.width),
        "length": show::length(say, lay.length),
        "to_buy": say.cloth_to_buy(lay),
        "use_percent": lay.use_percent.round(),
        "pieces": lay.placed.len(),
        "text": say.lay(lay),
    })
}
