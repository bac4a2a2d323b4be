//! One person of a class, as a sheet of her own: the base with her row written into it.

use super::Trouble;
use super::desk::{Answer, Desk};
use super::open_sheet::{Change, changed};
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
    /// A new sheet, where hers is there already?
    #[serde(default)]
    anew: bool,
}

/// Opens her sheet, and writes it first where it is not there.
pub(super) fn open(desk: &mut Desk, One { table, row, anew }: &One) -> Answer {
    let task = tables::take(desk, table.clone())?;
    let (base, people) = task.read()?;
    let person = people.persons.iter().find(|person| person.row == *row).ok_or_else(|| {
        Trouble::not_now(format!("{} has no row {row} any more", task.file), "look at the table again")
    })?;
    let text = sheet(&task, &base, &people, person)?;
    let name = stem(&person.name);
    let own = format!("{name}{}", super::folder::ENDING);
    let is_there = desk.folder_itself().sheet(&own).is_ok();
    let file = if is_there && !anew { own } else { tables::free(desk.folder_itself(), &name, super::folder::ENDING) };
    let was_there = is_there && !anew;
    if !was_there {
        desk.folder_itself().put_new(&file, text.as_bytes())?;
    }
    desk.open(&file)?;
    let is_as_row = desk.sheet()?.text == text;
    Ok(json!({ "state": desk.state(), "file": file, "was_there": was_there, "is_as_row": is_as_row }))
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
    let name = Change::typed(&Key::from(head::NAME).to_string(), Some(base.called(&person.name)));
    let mut changes: Vec<Change> = entries.iter().map(written).collect();
    // A finish drops what it does not take: it comes after what goes with it.
    changes.sort_by_key(|change| FinishKind::named(change.value.as_deref().unwrap_or_default()).is_some());
    let text = std::iter::once(&name).chain(&changes).try_fold(text, changed)?;
    let read = reading::sheet(&text, &task.base_path).map_err(|_| by_hand())?;
    if format!("{read:?}") == format!("{wanted:?}") { Ok(text) } else { Err(by_hand()) }
}

/// In the unit of the table, which may be another than that of the sheet.
fn written(entry: &Entry) -> Change {
    Change::typed(&entry.key.to_string(), Some(with_unit(entry.key.row(), &entry.cell, entry.units)))
}
