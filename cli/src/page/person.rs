//! One person of a class, as a sheet of her own: the base with her row written into it.

use super::Trouble;
use super::change::{Change, Home, all_changed, units_of};
use super::desk::{Answer, Desk};
use super::folder::ENDING;
use super::reading;
use super::tables::{self, Task, Wanted};
use crate::output::stem;
use crate::people::{People, Person};
use crate::sheet::{Base, Entry, with_unit, without_person};
use engine::finish::FinishKind;
use engine::keys::{Key, head};
use serde::Deserialize;
use serde_json::json;

/// Who.
#[derive(Debug, Deserialize)]
pub(super) struct One {
    #[serde(flatten)]
    table: Wanted,
    row: usize,
    /// What is wanted where a sheet of her name is there, and says something else than the row.
    #[serde(default)]
    where_there: Option<WhereThere>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
enum WhereThere {
    /// That one, as it is.
    Open,
    /// A new one beside it.
    Anew,
}

/// Opens her sheet, and writes it first where it is not there.
pub(super) fn open(desk: &mut Desk, One { table, row, where_there }: &One) -> Answer {
    let task = tables::take(desk, table.clone())?;
    let (base, people) = task.read()?;
    let person = people.persons.iter().find(|person| person.row == *row).ok_or_else(|| {
        Trouble::not_now(format!("{} has no row {row} any more", task.file), "look at the table again")
    })?;
    let text = sheet(&task, &base, &people, person)?;
    let folder = desk.folder_itself();
    let name = stem(&person.called);
    let own = format!("{name}{ENDING}");
    let there = desk.text_of(Some(&own)).ok().map(|(.., there)| there);
    let file = match (there, where_there) {
        (Some(there), None) if there != text => {
            let said = format!("{own} is there already, and says something else than row {row}");
            return Err(Trouble::not_now(said, "open it as it is, or make a new one from the row"));
        }
        (Some(_), None | Some(WhereThere::Open)) => own,
        (Some(_), Some(WhereThere::Anew)) | (None, _) => {
            let file = tables::free(folder, &name, ENDING);
            folder.put_new(&file, text.as_bytes())?;
            file
        }
    };
    desk.open(&file)?;
    Ok(json!({ "state": desk.state(), "file": file }))
}

/// The text of her sheet: read again, it is the very sheet that the class is made of.
fn sheet(task: &Task, base: &Base, people: &People, person: &Person) -> Result<String, Trouble> {
    let wanted = person.sheet(base, &people.columns).map_err(|reasons| {
        let text = reasons.first().map(|reason| reason.whole()).unwrap_or_default();
        Trouble::refused(format!("her row cannot be read: {text}"), "mend it first")
    })?;
    let by_hand = || {
        Trouble::refused(
            format!("the row of {} cannot be written into {} as it stands", person.shown(), task.base_file),
            "begin a sheet from the base, and fill in her values",
        )
    };
    let entries = person.entries();
    let text = without_person(&task.base_text).ok_or_else(by_hand)?;
    let name = Change::typed(&Key::from(head::NAME).to_string(), Some(base.called(&person.called)));
    let mut changes: Vec<Change> = entries.iter().map(written).collect();
    // A finish drops what it does not take: it comes after what goes with it.
    changes.sort_by_key(|change| FinishKind::named(change.value.as_deref().unwrap_or_default()).is_some());
    // What is named in her row lies in the drawer, where the sheet does not describe it.
    let home = Home { units: units_of(&text), hers: &|| wanted.elastics.keys().cloned().collect() };
    let text = all_changed(text, std::iter::once(&name).chain(&changes), home)?;
    let read = reading::sheet(&text, &task.base_path).map_err(|_| by_hand())?;
    if format!("{read:?}") == format!("{wanted:?}") { Ok(text) } else { Err(by_hand()) }
}

/// In the unit of the table, which may be another than that of the sheet.
fn written(entry: &Entry) -> Change {
    Change::typed(&entry.key.to_string(), Some(with_unit(entry.key.row(), &entry.cell, entry.units)))
}
