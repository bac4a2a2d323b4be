//! The same sheet with something changed: kept as a variant, or only looked at beside what is.

use super::change::Change;
use super::desk::{Answer, Desk};
use super::reading::{Good, Reading};
use super::{Trouble, show};
use crate::commands::compare;
use crate::sheet::fields;
use engine::sheet::Sheet;
use engine::words::Speech;
use serde::Deserialize;
use serde_json::{Value, json};

/// A variant to be added.
#[derive(Debug, Deserialize)]
pub(super) struct New {
    name: String,
    changes: Vec<Change>,
}

/// Adds it, as a step that can be undone.
pub(super) fn add(desk: &mut Desk, New { name, changes }: New) -> Answer {
    let said = fields(&desk.sheet()?.text).unwrap_or_default();
    let number = (1..).find(|n| !said.keys().any(|key| key.starts_with(&format!("variant.{n}.")))).unwrap_or(1);
    let own = Change::typed(&format!("variant.{number}.name"), Some(name.clone()));
    let inside = changes.into_iter().map(|change| Change { key: format!("variant.{number}.{}", change.key), ..change });
    let all: Vec<Change> = std::iter::once(own).chain(inside).collect();
    desk.set(&all, Some(format!("variant {name}")))
}

/// What is compared with the sheet as it is.
#[derive(Debug, Deserialize)]
pub(super) struct With {
    variant: Option<String>,
    #[serde(default)]
    changes: Vec<Change>,
}

/// Both, side by side; nothing is kept.
pub(super) fn compared(desk: &Desk, with: &With) -> Answer {
    let open = desk.sheet()?;
    let good = open.now.good().ok_or_else(|| {
        Trouble::refused("the sheet makes no garment as it stands", "look at what stands against it first")
    })?;
    let (name, sheet) = match &with.variant {
        Some(name) => (name.clone(), variant(&good.sheet, name)?),
        None => ("with the change".to_owned(), changed(desk, &with.changes)?),
    };
    let made =
        engine::make(&sheet).map_err(|refused| Trouble::refused(refused.to_string(), "choose another change"))?;
    let other = Good { sheet, made };
    let found = engine::compare::compare(&good.made, &other.made);
    let names = ["now".to_owned(), name];
    let comparison: Value =
        serde_json::from_str(&compare::json(&found, &names)).map_err(|e| Trouble::fault(e.to_string()))?;
    let said = fields(&open.text).unwrap_or_default();
    let of = |good: &Good| {
        let say = Speech(good.sheet.units);
        let openings = good.made.garment.openings.iter();
        openings.map(|walk| show::opening(walk, show::edges(walk.opening, &said), say)).collect::<Vec<_>>()
    };
    Ok(json!({
        "names": names,
        "comparison": comparison,
        "openings": [of(good), of(&other)],
        "outlines": [show::outlines(&good.made.garment), show::outlines(&other.made.garment)],
        "findings": [show::findings(good, &said), show::findings(&other, &said)],
    }))
}

fn variant(sheet: &Sheet, name: &str) -> Result<Sheet, Trouble> {
    let found = sheet.variants.iter().find(|variant| variant.name == name);
    found
        .map(|variant| sheet.taking(variant))
        .ok_or_else(|| Trouble::not_there(format!("the sheet has no variant “{name}”"), "choose one of the list"))
}

fn changed(desk: &Desk, changes: &[Change]) -> Result<Sheet, Trouble> {
    let open = desk.sheet()?;
    match Reading::of(&open.with(changes)?, &open.path) {
        Reading::Made(good) => Ok(Sheet { variants: Vec::new(), ..good.sheet.clone() }),
        Reading::Refused(sheet, refused) => {
            Err(Trouble::refused(Speech(sheet.units).refused(&refused.findings), "choose another change"))
        }
        Reading::Unread(problems) => {
            let (_, _, text, next) = problems.told().next().unwrap_or_default();
            Err(Trouble::refused(text, next))
        }
    }
}
