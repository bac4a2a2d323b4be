//! What the text of a sheet comes to: a garment, or the reasons why not.

use super::Trouble;
use super::folder;
use crate::sheet::{Base, Problems, ReadError, fields, read_file, read_in};
use engine::keys::{Key, head};
use engine::sheet::Sheet;
use engine::{Made, Refused};
use std::collections::BTreeMap;
use std::path::Path;
use std::sync::Arc;

/// A text, read.
#[derive(Clone, Debug)]
pub(super) enum Reading {
    /// It is no sheet.
    Unread(Problems),
    /// It is one, and makes no garment.
    Refused(Box<Sheet>, Box<Refused>),
    /// It makes one.
    Made(Arc<Good>),
}

/// A sheet that makes a garment.
#[derive(Clone, Debug)]
pub(super) struct Good {
    pub(super) sheet: Sheet,
    pub(super) made: Made,
}

/// The sheet of a text that lies, or is to lie, in this place; a drawer that it names is looked into only
/// where that lies in the same folder.
pub(super) fn sheet(text: &str, path: &Path) -> Result<Sheet, Problems> {
    sheet_that_says(&fields(text).unwrap_or_default(), text, path)
}

/// The same of a text whose fields are known.
pub(super) fn sheet_that_says(said: &Fields, text: &str, path: &Path) -> Result<Sheet, Problems> {
    read_in(text, &label(path), folder_of(said, path))
}

/// The same as a base for many.
pub(super) fn base(text: &str, path: &Path) -> Result<Base, Problems> {
    Base::of(text, &label(path), folder_of(&fields(text).unwrap_or_default(), path))
}

fn label(path: &Path) -> String {
    path.file_name().unwrap_or_default().to_string_lossy().into_owned()
}

/// The fields of a text.
type Fields = BTreeMap<String, String>;

/// The folder to look into for the drawer of a text; none where that would lead out of it.
fn folder_of<'p>(said: &Fields, path: &'p Path) -> Option<&'p Path> {
    path.parent().filter(|folder| drawer(said).is_none_or(|name| folder::holds(folder, name)))
}

/// The drawer that a text names.
fn drawer(said: &Fields) -> Option<&str> {
    said.get(&Key::from(head::DRAWER).to_string()).map(String::as_str)
}

/// The text of a file, whether it is a sheet or not.
pub(super) fn text_of(path: &Path) -> Result<String, Trouble> {
    match read_file(path) {
        Ok((text, _)) => Ok(text),
        Err(ReadError::Sheet { source_text, .. }) => Ok(source_text),
        Err(other) => {
            let said = other.to_string();
            let (text, next) = said.split_once("; ").unwrap_or((&said, "choose another one"));
            Err(Trouble::refused(text, next))
        }
    }
}

/// The text of that drawer, where it lies in the folder, and its name.
pub(super) fn drawer_of(text: &str, path: &Path) -> Option<(String, String)> {
    let said = fields(text)?;
    let (name, folder) = (drawer(&said)?, path.parent()?);
    let there = folder::holds(folder, name).then(|| text_of(&folder.join(name)).ok()).flatten()?;
    Some((name.to_owned(), there))
}

impl Reading {
    pub(super) fn of(text: &str, path: &Path) -> Self {
        match sheet(text, path) {
            Ok(sheet) => Self::of_sheet(sheet),
            Err(problems) => Self::Unread(problems),
        }
    }

    pub(super) fn of_sheet(sheet: Sheet) -> Self {
        match engine::make(&sheet) {
            Ok(made) => Self::Made(Arc::new(Good { sheet, made })),
            Err(refused) => Self::Refused(Box::new(sheet), Box::new(refused)),
        }
    }

    /// The sheet, where it is one.
    pub(super) fn sheet(&self) -> Option<&Sheet> {
        match self {
            Self::Unread(_) => None,
            Self::Refused(sheet, _) => Some(sheet),
            Self::Made(good) => Some(&good.sheet),
        }
    }

    /// The garment, where there is one.
    pub(super) const fn good(&self) -> Option<&Arc<Good>> {
        match self {
            Self::Made(good) => Some(good),
            _ => None,
        }
    }
}
