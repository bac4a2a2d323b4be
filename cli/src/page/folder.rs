//! The folder that the page may look into, and nothing outside of it.

use super::change::{Change, Home, changed};
use super::{Trouble, drawer};
use crate::output::put_beside;
use crate::sheet::{Place, Typed, fields, typed};
use crate::template::commented_sheet;
use engine::finish::FinishKind;
use engine::keys::{Edges, finish};
use engine::quantity::Units;
use std::collections::BTreeSet;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// A folder with sheets.
#[derive(Clone, Debug)]
pub(crate) struct Folder {
    path: PathBuf,
}

/// A sheet in it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Listed {
    pub(super) file: String,
    /// As the sheet says; none where it cannot be read.
    pub(super) name: Option<String>,
}

/// More than this, nobody looks through on a page.
const MOST: usize = 500;
pub(super) const ENDING: &str = ".toml";
/// Of tables of people and of sizes.
const TABLES: [&str; 5] = [".csv", ".tsv", ".txt", ".xlsx", ".ods"];
const OF_THE_LIST: &str = "choose one of the list";

impl Folder {
    /// # Errors
    /// Where it is not there.
    pub(crate) fn at(path: &Path) -> io::Result<Self> {
        Ok(Self { path: fs::canonicalize(path)? })
    }

    pub(super) fn path(&self) -> &Path {
        &self.path
    }

    /// Its own name.
    pub(super) fn name(&self) -> String {
        self.path.file_name().map_or_else(String::new, |name| name.to_string_lossy().into_owned())
    }

    /// The sheets in it, by name of the file.
    pub(super) fn sheets(&self) -> Vec<Listed> {
        let entries = fs::read_dir(&self.path).into_iter().flatten().flatten();
        let mut files: Vec<String> = entries.filter_map(|entry| entry.file_name().into_string().ok()).collect();
        files.retain(|file| file.ends_with(ENDING) && self.sheet(file).is_ok());
        files.sort();
        files.truncate(MOST);
        files.into_iter().map(|file| Listed { name: self.name_of(&file), file }).collect()
    }

    /// The tables in it, by name of the file.
    pub(super) fn tables(&self) -> Vec<String> {
        let entries = fs::read_dir(&self.path).into_iter().flatten().flatten();
        let mut files: Vec<String> = entries.filter_map(|entry| entry.file_name().into_string().ok()).collect();
        files.retain(|file| self.table(file).is_ok());
        files.sort();
        files.truncate(MOST);
        files
    }

    fn name_of(&self, file: &str) -> Option<String> {
        let path = self.sheet(file).ok()?;
        let is_small = fs::metadata(&path).ok()?.len() <= crate::sheet::MAX_BYTES as u64;
        let source = is_small.then(|| fs::read_to_string(&path).ok()).flatten()?;
        let fields = fields(&source)?;
        fields.get("sheet.name").cloned()
    }

    /// The path of a sheet that lies in the folder itself, not behind a link that leads out of it.
    pub(super) fn sheet(&self, file: &str) -> Result<PathBuf, Trouble> {
        self.inner(file)
            .ok_or_else(|| Trouble::not_there(format!("there is no sheet “{file}” in this folder"), OF_THE_LIST))
    }

    /// The same of a table.
    pub(super) fn table(&self, file: &str) -> Result<PathBuf, Trouble> {
        let is_one = TABLES.iter().any(|ending| file.to_lowercase().ends_with(ending));
        let path = if is_one { self.inner(file) } else { None };
        path.ok_or_else(|| Trouble::not_there(format!("there is no table “{file}” in this folder"), OF_THE_LIST))
    }

    fn inner(&self, file: &str) -> Option<PathBuf> {
        let path = is_plain(file).then(|| fs::canonicalize(self.path.join(file)).ok()).flatten()?;
        (path.parent() == Some(self.path.as_path()) && path.is_file()).then_some(path)
    }

    /// Writes a new sheet, never over something that is there, and says its file's name.
    pub(super) fn new_sheet(&self, file: &str, units: Units, name: Option<&str>) -> Result<String, Trouble> {
        let file = if file.ends_with(ENDING) { file.to_owned() } else { format!("{file}{ENDING}") };
        if !is_plain(&file) || file.len() > 120 {
            return Err(Trouble::refused(format!("“{file}” cannot be the name of a file"), "use letters and digits"));
        }
        self.put_new(&file, to_fill_in(units, name).as_bytes())?;
        Ok(file)
    }

    /// Writes a new file, never over one that is there.
    pub(super) fn put_new(&self, file: &str, bytes: &[u8]) -> Result<(), Trouble> {
        let written = put_beside(&self.path, ".quarterpin-new-", bytes)
            .and_then(|made| made.persist_noclobber(self.path.join(file)).map_err(|e| e.error));
        match written {
            Ok(_) => Ok(()),
            Err(e) if e.kind() == io::ErrorKind::AlreadyExists => Err(Trouble::not_now(
                format!("{file} is there already, and is never overwritten"),
                "choose another name",
            )),
            Err(e) => Err(Trouble::refused(
                format!("{file} cannot be written: {e}"),
                "check that the folder can be written to",
            )),
        }
    }

    /// A folder in it to write files into; it is made when they are written.
    pub(super) fn inside(&self, name: &str) -> Result<PathBuf, Trouble> {
        let refused = || Trouble::refused(format!("“{name}” cannot be the name of a folder"), "use letters and digits");
        if !is_plain(name) || name.len() > 120 {
            return Err(refused());
        }
        let path = self.path.join(name);
        match fs::symlink_metadata(&path) {
            Ok(there) if there.is_symlink() => Err(refused()),
            _ => Ok(path),
        }
    }
}

/// The commented sheet, with the values of nobody put behind `#`: on a page they would look like hers, and a
/// reduction would stay when another finish is chosen.
fn to_fill_in(units: Units, name: Option<&str>) -> String {
    let text = commented_sheet(units);
    let is_hers = |key: &str| key.starts_with("body.") || key.starts_with("fabric.") || key.ends_with(".reduction");
    let is_nobodys = |key: &&String| is_hers(key) && !KEPT.contains(&key.as_str());
    let fields = fields(&text).unwrap_or_default();
    let gone = fields.keys().filter(is_nobodys).map(|key| (key.as_str(), None));
    let named = name.filter(|name| !name.trim().is_empty()).map(|name| ("sheet.name", Some(name.to_owned())));
    let text = named.into_iter().chain(gone).fold(text, |text, (key, cell)| {
        let new = Place::named(key).and_then(|place| typed(&text, &Typed { place, cell }, units));
        new.unwrap_or(text)
    });
    with_usual_elastics(text, units)
}

/// With the usual elastic of each finish in place of those that only show how a sheet is written: another
/// finish then brings its own.
fn with_usual_elastics(text: String, units: Units) -> String {
    let home = Home { units, hers: &Vec::new };
    let changed = |text: String, key: &str, cell: Option<String>| {
        changed(text.clone(), &Change::typed(key, cell), &home).unwrap_or(text)
    };
    let shown: BTreeSet<String> = elastics(&text);
    let said = fields(&text).unwrap_or_default();
    let text = [Edges::Top, Edges::Legs].into_iter().fold(text, |text, edges| {
        let kind =
            said.get(&format!("{}.{}", edges.path(), finish::KIND.name())).and_then(|word| FinishKind::named(word));
        match kind.and_then(drawer::usual) {
            Some(name) => changed(text, &format!("{}.{}", edges.path(), finish::ELASTIC.name()), Some(name)),
            None => text,
        }
    });
    let used = fields(&text).unwrap_or_default();
    let is_used = |home: &String| {
        let key = format!(".{}", finish::ELASTIC.name());
        let mut named = used.iter().filter(|(k, _)| k.starts_with("finish.") && k.ends_with(&key));
        named.any(|(_, name)| *home == format!("elastic.{}", toml_edit::Key::new(name)))
    };
    shown.iter().filter(|home| !is_used(home)).fold(text, |text, home| changed(text, home, None))
}

/// The sections of elastics in a text.
fn elastics(text: &str) -> BTreeSet<String> {
    let said = fields(text).unwrap_or_default();
    let home =
        |key: &String| key.starts_with("elastic.").then(|| key.rsplit_once('.').map(|(home, _)| home.to_owned()));
    said.keys().filter_map(|key| home(key).flatten()).collect()
}

/// Choices that most people make so.
const KEPT: [&str; 2] = ["body.waist_level", "fabric.kind"];

/// Is this the plain name of a file in the folder itself, or of none?
pub(super) fn holds(folder: &Path, name: &str) -> bool {
    let is_inside = |path: PathBuf| path.parent() == Some(folder);
    is_plain(name) && fs::canonicalize(folder.join(name)).map_or(true, is_inside)
}

/// One name, that leads nowhere else and hides from nobody.
fn is_plain(name: &str) -> bool {
    let is_odd = |c: char| c.is_control() || matches!(c, '/' | '\\' | ':' | '<' | '>' | '"' | '|' | '?' | '*');
    !name.is_empty() && !name.starts_with('.') && !name.contains(is_odd) && name.trim() == name
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_outside_is_reached() {
        let outer = tempfile::tempdir().unwrap();
        let inner = outer.path().join("in");
        fs::create_dir(&inner).unwrap();
        fs::write(outer.path().join("secret.toml"), "[sheet]\nname = \"s\"\n[body]\nhip_girth = 1\n").unwrap();
        let folder = Folder::at(&inner).unwrap();
        #[cfg(unix)]
        std::os::unix::fs::symlink(outer.path().join("secret.toml"), inner.join("link.toml")).unwrap();
        #[cfg(unix)]
        std::os::unix::fs::symlink(outer.path(), inner.join("way")).unwrap();
        for name in ["../secret.toml", "link.toml", "way/secret.toml", "/etc/passwd", "", ".", "..", "a\\b.toml", "C:x"]
        {
            assert!(folder.sheet(name).is_err(), "{name}");
        }
        for name in ["../secret.toml", "link.toml", "way/secret.toml", "/etc/passwd"] {
            assert!(!holds(folder.path(), name), "{name}");
        }
        assert!(folder.inside("way").is_err() && folder.inside("..").is_err() && folder.inside("out").is_ok());
        assert_eq!(folder.sheets(), []);
        assert_eq!(folder.new_sheet("mine", Units::In, Some("Ana's")).unwrap(), "mine.toml");
        assert!(folder.new_sheet("mine.toml", Units::In, None).is_err());
        assert_eq!(folder.sheets(), [Listed { file: "mine.toml".to_owned(), name: Some("Ana's".to_owned()) }]);
    }

    #[test]
    fn a_new_sheet_holds_nobodys_measures() {
        for (_, units) in Units::ALL {
            let text = to_fill_in(units, None);
            let measures: Vec<String> =
                fields(&text).unwrap().into_keys().filter(|key| key.starts_with("body.")).collect();
            assert_eq!(measures, ["body.waist_level"]);
            let problems = crate::sheet::read(&text, "new").unwrap_err();
            let missing: Vec<&str> = problems.told().map(|(_, key, ..)| key).collect();
            assert_eq!(missing.len(), 6, "{missing:?}");
            assert_eq!(
                elastics(&text),
                ["elastic.\"picot edging 8\"", "elastic.\"plush 12\""].map(str::to_owned).into()
            );
        }
    }
}
