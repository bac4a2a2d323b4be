//! Tables of people and of sizes: looked over on the code of the commands `class --check` and `sizes`, and
//! mended cell by cell.

use super::desk::{Answer, Desk};
use super::files::from_stop;
use super::folder::Folder;
use super::{Trouble, reading, show};
use crate::args::ClassRequest;
use crate::commands::class::entry::{Entry, Status};
use crate::commands::class::summary;
use crate::commands::sizes::lists::Lists;
use crate::commands::{class, sizes};
use crate::own_file::{OwnError, OwnFile};
use crate::people::{self, Column, Meaning, Mend, MendError, People, Reason, TableError};
use crate::sheet::Base;
use crate::terminal;
use engine::quantity::Units;
use export::pdf::SIZE_DASHES;
use kurbo::Rect;
use serde::Deserialize;
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::fs;
use std::path::PathBuf;

/// A table, and the sheet that it is laid over.
#[derive(Clone, Debug, Deserialize)]
pub(super) struct Wanted {
    file: String,
    /// A sheet of the folder; else the open one.
    base: Option<String>,
    /// Of lengths where the table does not say; else those of the base.
    units: Option<String>,
}

/// More rows than these are for the command.
const MOST: usize = 500;

/// A table and its base, read.
pub(super) struct Task {
    pub(super) file: String,
    pub(super) base_file: String,
    pub(super) base_text: String,
    pub(super) base_path: PathBuf,
    path: PathBuf,
    units: Option<Units>,
}

/// Takes what is needed from the desk.
pub(super) fn take(desk: &Desk, wanted: Wanted) -> Result<Task, Trouble> {
    let Wanted { file, base, units } = wanted;
    let path = desk.folder_itself().table(&file)?;
    let units = units.filter(|word| !word.is_empty()).map(|word| unit(&word)).transpose()?;
    let (base_file, base_path, base_text) = desk.text_of(base.as_deref())?;
    Ok(Task { file, base_file, base_text, base_path, path, units })
}

fn unit(word: &str) -> Result<Units, Trouble> {
    let known = Units::ALL.iter().find(|(name, _)| *name == word).map(|(_, units)| *units);
    known.ok_or_else(|| Trouble::asked_wrongly(format!("there is no unit “{word}”")))
}

impl Task {
    /// The base, and the people or sizes of the table.
    pub(super) fn read(&self) -> Result<(Base, People), Trouble> {
        let base = reading::base(&self.base_text, &self.base_path).map_err(|problems| {
            let (line, _, text, next) = problems.told().next().unwrap_or_default();
            Trouble::refused(format!("{}, line {line}: {text}", self.base_file), next)
        })?;
        let people = People::read(&self.path, self.units(&base)).map_err(|e| self.no_table(&e))?;
        if people.persons.len() > MOST {
            let next = "look at it by `quarterpin class --check`, or split it into several tables";
            return Err(Trouble::refused(format!("{} has more than {MOST} rows", self.file), next));
        }
        Ok((people.base(base), people))
    }

    fn units(&self, base: &Base) -> Units {
        self.units.unwrap_or(base.units())
    }

    /// Said without the way to the folder, which is nobody's business on a page.
    fn no_table(&self, error: &TableError) -> Trouble {
        let said = error.to_string().replace(&self.path.display().to_string(), &self.file);
        Trouble::refused(format!("{}: {said}", self.file), error.next())
    }

    /// What is shown of any table.
    fn shown(&self, people: &People, base: &Base, entries: &[Entry]) -> Value {
        let of_all = of_all(entries);
        let rows = people.persons.iter().zip(entries).map(|(person, entry)| {
            let own = entry.reasons.iter().filter(|reason| !of_all.contains(&(&reason.code, &reason.text)));
            let reasons: Vec<Value> = own.map(|reason| told(reason, people)).collect();
            json!({
                "row": person.row,
                "name": person.name,
                "cells": person.cells,
                "status": entry.status.name(),
                "reasons": reasons,
            })
        });
        json!({
            "file": self.file,
            "base": self.base_file,
            "units": self.units(base).name(),
            "can_be_mended": people.is_text,
            "columns": people.columns.iter().map(column).collect::<Vec<_>>(),
            "unused": people.unused(),
            "of_all": of_all.iter().map(|(_, text)| text).collect::<Vec<_>>(),
            "rows": rows.collect::<Vec<_>>(),
        })
    }
}

/// What is odd of everybody who could be made, code and text: it marks nobody's row.
fn of_all(entries: &[Entry]) -> Vec<(&String, &String)> {
    let mut done = entries.iter().filter(|entry| entry.status == Status::Done).map(|entry| &entry.reasons);
    let Some(first) = done.next() else { return Vec::new() };
    let others: Vec<&Vec<Reason>> = done.collect();
    let is_of =
        |reason: &Reason, all: &[Reason]| all.iter().any(|r| (&r.code, &r.text) == (&reason.code, &reason.text));
    let common = first.iter().filter(|reason| others.iter().all(|all| is_of(reason, all)));
    common.map(|reason| (&reason.code, &reason.text)).collect()
}

fn column(column: &Column) -> Value {
    let (means, key) = match &column.meaning {
        Meaning::Name => ("name", None),
        Meaning::Units => ("units", None),
        Meaning::Key(key) => ("key", Some(key.to_string())),
        Meaning::Unused => ("nothing", None),
    };
    json!({ "index": column.index, "letters": column.letters(), "header": column.header, "means": means, "key": key })
}

fn told(reason: &Reason, people: &People) -> Value {
    let column = people.column_of(&reason.key).map(|column| column.index);
    json!({ "code": reason.code, "place": reason.place, "text": reason.text, "column": column })
}

/// Everybody of a table, as `class --check` tells it.
pub(super) fn people(task: &Task) -> Answer {
    let (base, people) = task.read()?;
    let request = ClassRequest::check(task.path.clone(), task.base_path.clone(), task.units);
    let looked = class::looked_at(&request, &base, &people);
    let unused = people.unused();
    let about = terminal::class::Shown {
        into: None,
        units: base.units(),
        whose: base.whose(),
        table_units: task.units(&base),
        paper: looked.paper,
        // There a unit is chosen beside the table.
        fractions: 0,
        unused: &unused,
        gone: &[],
        older: &[],
        left_out: &[],
    };
    let mut shown = task.shown(&people, &base, &looked.entries);
    shown["said"] = json!(terminal::class::head(&looked.entries, &looked.total, &about));
    shown["buy"] = json!(terminal::class::bought(&looked.total, base.units()));
    Ok(shown)
}

/// The sizes of a table, as `sizes` makes them, with their outlines.
pub(super) fn sizes(task: &Task) -> Answer {
    let (base, people) = task.read()?;
    let all = sizes::looked_at(&base, &people).map_err(from_stop)?;
    let done = sizes::done(&all);
    let growth = sizes::growth(&done);
    let list = Lists { name: base.name(), units: base.units(), sizes: &all, done: &done, growth: &growth };
    let entries: Vec<Entry> = all.iter().map(|size| size.entry.clone()).collect();
    let mut shown = task.shown(&people, &base, &entries);
    let table = |(title, _, table): (&str, _, export::list::Table)| {
        let heads = table.heads.into_iter().map(|(head, _)| head);
        json!({ "title": title, "heads": heads.collect::<Vec<_>>(), "rows": table.rows })
    };
    let mut bounds: BTreeMap<&str, Rect> = BTreeMap::new();
    for piece in done.iter().flat_map(|(_, made)| &made.made.garment.pieces) {
        let own = piece.bounds();
        bounds.entry(piece.id.name()).and_modify(|all| *all = all.union(own)).or_insert(own);
    }
    let bounds: serde_json::Map<String, Value> =
        bounds.into_iter().map(|(name, all)| (name.to_owned(), show::bounds(all))).collect();
    let size = |((size, made), dash): (&(&sizes::made::Size, &sizes::made::Made), &&[f64])| {
        json!({
            "row": size.entry.row,
            "name": size.entry.name,
            "dash": dash,
            "outlines": show::outlines(&made.made.garment),
        })
    };
    shown["estimated"] = json!(list.estimated());
    shown["sizes"] = done.iter().zip(&SIZE_DASHES).map(size).collect();
    shown["bounds"] = Value::Object(bounds);
    shown["lengths"] = list.lengths().map(table).collect();
    Ok(shown)
}

/// A cell to be written into its table.
#[derive(Debug, Deserialize)]
pub(super) struct Cell {
    file: String,
    row: usize,
    column: usize,
    /// What it said when it was looked at.
    was: String,
    now: String,
}

/// Writes one cell; what the table was before lies in the copy beside it.
pub(super) fn mend(desk: &Desk, Cell { file, row, column, was, now }: &Cell) -> Answer {
    let path = desk.folder_itself().table(file)?;
    let failed = |e: &OwnError| Trouble::not_now(e.to_string().replace(&path.display().to_string(), file), e.next());
    let own = OwnFile::take(&path).map_err(|e| failed(&e))?;
    let before = fs::read(&path).map_err(|e| Trouble::not_now(format!("{file} cannot be read: {e}"), "look at it"))?;
    let mend = Mend { row: *row, column: *column, was: was.clone(), now: now.clone() };
    let after = people::mended(&path, &before, &mend).map_err(|e| match e {
        MendError::Changed(_) => Trouble::not_now(format!("{file}: {e}"), e.next()),
        _ => Trouble::refused(format!("{file}: {e}"), e.next()),
    })?;
    if after != before {
        own.replace(&before, &after).map_err(|e| failed(&e))?;
    }
    Ok(json!({ "file": file, "row": row, "column": column, "cell": now.trim() }))
}

/// A table to be copied.
#[derive(Debug, Deserialize)]
pub(super) struct Copied {
    file: String,
}

/// The cells of a spreadsheet as a table that can be mended here; never over a file.
pub(super) fn copy(desk: &Desk, Copied { file }: &Copied) -> Answer {
    let folder = desk.folder_itself();
    let path = folder.table(file)?;
    let rows = people::cells(&path).map_err(|e| Trouble::refused(format!("{file}: {e}"), e.next()))?;
    let bytes = as_csv(&rows).map_err(|e| Trouble::fault(e.to_string()))?;
    let stem = file.rsplit_once('.').map_or(file.as_str(), |(stem, _)| stem);
    let new = free(folder, stem, ".csv");
    folder.put_new(&new, &bytes)?;
    Ok(json!({ "file": new }))
}

fn as_csv(rows: &[Vec<String>]) -> csv::Result<Vec<u8>> {
    let mut writer = csv::Writer::from_writer(summary::BOM.as_bytes().to_vec());
    for row in rows {
        writer.write_record(row.iter().map(|cell| as_cell(cell)))?;
    }
    writer.into_inner().map_err(|e| e.into_error().into())
}

/// A number stays what it is; nothing else may begin a formula.
fn as_cell(cell: &str) -> String {
    if cell.parse::<f64>().is_ok() { cell.to_owned() } else { summary::text(cell) }
}

/// The first name that is free: itself, else with a number.
pub(super) fn free(folder: &Folder, stem: &str, ending: &str) -> String {
    let numbered = |n: usize| if n == 1 { format!("{stem}{ending}") } else { format!("{stem}-{n}{ending}") };
    let is_free = |name: &String| fs::symlink_metadata(folder.path().join(name)).is_err();
    (1..).map(numbered).find(is_free).unwrap_or_else(|| numbered(1))
}
