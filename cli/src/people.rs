//! A table of people, as a teacher keeps it: a header row, then a row for each person.
//!
//! CSV with commas, semicolons or tabs, or a spreadsheet. The columns are told by their headers, in
//! any order: a name, measurements in a teacher's own words, and any key of the sheet by its dotted
//! name. What a row says is laid over a base by the readers of the sheet itself.

mod alike;
mod column;
mod csv_file;
mod error;
mod grid;
mod header;
mod mend;
mod person;
mod read;
mod spreadsheet;
mod synonyms;
#[cfg(test)]
mod tests;

pub use column::{Column, Meaning};
pub use error::{TableError, Unclear};
pub use mend::{Mend, MendError, cells, mended};
pub use person::{Person, Reason};

use crate::sheet::Base;
use engine::keys::{Key, head};
use engine::quantity::Units;
use grid::Grid;
use header::Header;
use std::path::Path;

/// Everybody of a table.
#[derive(Clone, Debug)]
pub struct People {
    /// Is the file text, whose cells can be written anew?
    pub is_text: bool,
    /// What is known of the columns, from the left.
    pub columns: Vec<Column>,
    /// In the order of the table.
    pub persons: Vec<Person>,
}

impl People {
    /// Reads a table. `units` is what lengths are in where neither row, column nor cell says.
    ///
    /// # Errors
    /// [`TableError`] where it is no table of people; what is wrong with single rows is said of them.
    pub fn read(path: &Path, units: Units) -> Result<Self, TableError> {
        Self::of(&read::read(path)?, units)
    }

    /// The same of bytes at hand, of a file that is called so.
    ///
    /// # Errors
    /// As [`People::read`].
    pub fn of_bytes(path: &Path, bytes: Vec<u8>, units: Units) -> Result<Self, TableError> {
        Self::of(&read::grids(path, bytes)?, units)
    }

    fn of(grids: &[Grid], units: Units) -> Result<Self, TableError> {
        let (grid, Header { line, columns }) = header::find(grids)?;
        let rows = grid.lines.iter().skip(line + 1).filter(|row| !row.is_empty());
        let mut persons: Vec<Person> = rows.map(|row| Person::of(row, &columns, units)).collect();
        alike::tell_apart(&mut persons);
        if persons.is_empty() {
            Err(TableError::Nobody)
        } else {
            Ok(Self { is_text: grid.sign.is_some(), columns, persons })
        }
    }

    /// The base that they are laid over, without the name of one of them.
    pub fn base(&self, base: Base) -> Base {
        base.for_people(self.persons.iter().map(|person| person.called.as_str()))
    }

    /// The column that says a key of the sheet, by its dotted name.
    pub fn column_of(&self, key: &str) -> Option<&Column> {
        self.columns.iter().find(|column| match &column.meaning {
            Meaning::Key(own) => own.to_string() == key,
            Meaning::Name => key == Key::from(head::NAME).to_string(),
            Meaning::Units => key == Key::from(head::UNITS).to_string(),
            Meaning::Unused => false,
        })
    }

    /// The headers of columns that mean nothing here.
    pub fn unused(&self) -> Vec<String> {
        self.columns.iter().filter(|c| c.meaning == Meaning::Unused).map(Column::shown).collect()
    }
}
