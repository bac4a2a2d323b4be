//! What the page works on: a folder, and the sheet of it that is open. Everything that is asked is done
//! here, one after the other.

use super::change::Change;
use super::folder::Folder;
use super::open_sheet::Open;
use super::reading::text_of;
use super::{Trouble, show};
use crate::sheet::fields;
use engine::quantity::Units;
use serde_json::{Value, json};
use std::path::PathBuf;

/// A folder, and a sheet of it.
pub(crate) struct Desk {
    folder: Folder,
    open: Option<Open>,
    version: u64,
}

pub(super) type Answer = Result<Value, Trouble>;

impl Desk {
    /// With nothing on it yet.
    pub(crate) fn with(folder: Folder) -> Self {
        Self { folder, open: None, version: 1 }
    }

    /// Rises with everything that changes.
    pub(super) const fn version(&self) -> u64 {
        self.version
    }

    pub(super) const fn folder_itself(&self) -> &Folder {
        &self.folder
    }

    pub(super) fn sheet(&self) -> Result<&Open, Trouble> {
        self.open.as_ref().ok_or_else(none_open)
    }

    fn sheet_mut(&mut self) -> Result<&mut Open, Trouble> {
        self.open.as_mut().ok_or_else(none_open)
    }

    /// A sheet of the folder as it stands, its path and its text: the open one, where none is named.
    pub(super) fn text_of(&self, file: Option<&str>) -> Result<(String, PathBuf, String), Trouble> {
        let is_it = |open: &&Open| file.is_none_or(|file| open.file == file);
        match (self.open.as_ref().filter(is_it), file) {
            (Some(open), _) => Ok((open.file.clone(), open.path.clone(), open.text.clone())),
            (None, Some(file)) => {
                let path = self.folder.sheet(file)?;
                let text = text_of(&path)?;
                Ok((file.to_owned(), path, text))
            }
            (None, None) => Err(none_open()),
        }
    }

    /// The sheets of the folder.
    pub(super) fn folder(&self) -> Value {
        let open = self.open.as_ref().map(|open| open.file.as_str());
        let one = |listed: super::folder::Listed| {
            let path = self.folder.path().join(&listed.file);
            let trouble = listed.name.is_none().then_some("this file cannot be read as a sheet");
            json!({
                "file": listed.file,
                "name": listed.name,
                "is_open": open == Some(&listed.file),
                "has_unsaved": super::unsaved::place(&path).exists(),
                "trouble": trouble,
            })
        };
        let units: Vec<&str> = Units::ALL.iter().map(|(word, _)| *word).collect();
        let sheets: Vec<Value> = self.folder.sheets().into_iter().map(one).collect();
        json!({
            "folder": self.folder.name(),
            "sheets": sheets,
            "tables": self.folder.tables(),
            "units": units,
        })
    }

    /// Opens a sheet of the folder.
    pub(crate) fn open(&mut self, file: &str) -> Result<(), Trouble> {
        let path = self.folder.sheet(file)?;
        if self.open.as_ref().is_none_or(|open| open.file != file) {
            self.open = Some(Open::file(file, path)?);
            self.version += 1;
        }
        Ok(())
    }

    /// Writes a new sheet and opens it.
    pub(super) fn new_sheet(&mut self, file: &str, units: Units, name: Option<&str>) -> Answer {
        let file = self.folder.new_sheet(file, units, name)?;
        self.open(&file)?;
        Ok(self.state())
    }

    pub(super) fn state(&self) -> Value {
        match &self.open {
            None => json!({ "version": self.version, "sheet": null }),
            Some(open) => show::state(open, self.version),
        }
    }

    /// A new text of the open sheet, as a step that can be undone.
    pub(super) fn step(
        &mut self,
        label: Option<String>,
        new: impl FnOnce(&Open) -> Result<String, Trouble>,
    ) -> Result<(), Trouble> {
        let open = self.sheet_mut()?;
        let text = new(open)?;
        open.step(&label.unwrap_or_else(|| "a change".to_owned()), text)?;
        self.version += 1;
        Ok(())
    }

    /// Sets keys, to be kept.
    pub(super) fn set(&mut self, changes: &[Change], label: Option<String>) -> Answer {
        let label = label.or_else(|| changes.first().map(Change::label));
        self.step(label, |open| open.with(changes))?;
        Ok(self.state())
    }

    /// What would come of some changes; nothing is kept.
    pub(super) fn preview(&self, changes: &[Change], seq: u64) -> Answer {
        let open = self.sheet()?;
        let text = open.with(changes)?;
        let said = fields(&text).unwrap_or_default();
        let values: serde_json::Map<String, Value> =
            changes.iter().map(|change| (change.key.clone(), json!(said.get(&change.key)))).collect();
        let mut answer = match super::reading::sheet_that_says(&said, &text, &open.path) {
            Ok(sheet) => show::light(&sheet),
            Err(problems) => json!({ "garment": null, "is_stale": true, "refusals": [],
                                     "problems": show::problems(&problems) }),
        };
        answer["seq"] = json!(seq);
        answer["values"] = Value::Object(values);
        Ok(answer)
    }

    pub(super) fn undo(&mut self) -> Answer {
        self.sheet_mut()?.undo();
        self.changed()
    }

    pub(super) fn redo(&mut self) -> Answer {
        self.sheet_mut()?.redo();
        self.changed()
    }

    pub(super) fn save(&mut self, is_forced: bool) -> Answer {
        self.sheet_mut()?.save(is_forced)?;
        self.changed()
    }

    pub(super) fn reload(&mut self) -> Answer {
        self.sheet_mut()?.reload()?;
        self.changed()
    }

    pub(super) fn unsaved(&mut self, takes: bool) -> Answer {
        self.sheet_mut()?.settle(takes)?;
        self.changed()
    }

    fn changed(&mut self) -> Answer {
        self.version += 1;
        Ok(self.state())
    }

    /// Looks whether the file of the sheet was changed by somebody else.
    pub(super) fn look(&mut self) {
        if self.open.as_mut().is_some_and(Open::look) {
            self.version += 1;
        }
    }

    /// Both texts, and the fields in which they differ.
    pub(super) fn theirs(&self) -> Answer {
        let open = self.sheet()?;
        let theirs = open.theirs()?;
        let [own, other] = [&open.text, &theirs].map(|text| fields(text).unwrap_or_default());
        let keys: std::collections::BTreeSet<&String> = own.keys().chain(other.keys()).collect();
        let differs = keys.into_iter().filter(|key| own.get(*key) != other.get(*key));
        let differs: Vec<Value> =
            differs.map(|key| json!({ "key": key, "ours": own.get(key), "theirs": other.get(key) })).collect();
        Ok(json!({ "ours": open.text, "theirs": theirs, "differs": differs }))
    }
}

fn none_open() -> Trouble {
    Trouble::not_now("no sheet is open", "open one, or begin a new one")
}
