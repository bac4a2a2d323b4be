//! Another text in a cell of a table: where that is text, every other row stays as it is, byte for byte.
//! Spreadsheets are not written; all of their cells can be had to be written as text.

use super::error::TableError;
use super::{csv_file, header, read};
use std::path::Path;

/// One cell that is to be otherwise.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mend {
    /// As the file counts it, from 1.
    pub row: usize,
    /// From 0.
    pub column: usize,
    /// What stands there.
    pub was: String,
    /// What is to stand there.
    pub now: String,
}

/// Why a cell cannot be written.
#[derive(Debug, thiserror::Error)]
pub enum MendError {
    /// The file is a spreadsheet.
    #[error("a spreadsheet is not written here")]
    Spreadsheet,
    /// It is another cell meanwhile.
    #[error("row {0} was changed meanwhile")]
    Changed(usize),
    /// The file is no table of people.
    #[error(transparent)]
    Table(#[from] TableError),
}

impl MendError {
    /// What to do about it.
    pub fn next(&self) -> String {
        match self {
            Self::Spreadsheet => "change it in the program that wrote it, or go on with a copy as CSV".to_owned(),
            Self::Changed(_) => "look at the table again".to_owned(),
            Self::Table(error) => error.next(),
        }
    }
}

/// The bytes of a table with one cell otherwise.
///
/// # Errors
/// [`MendError`] where it is not written here, or not the table that was looked at.
pub fn mended(path: &Path, bytes: &[u8], mend: &Mend) -> Result<Vec<u8>, MendError> {
    let grids = read::grids(path, bytes.to_vec())?;
    let (grid, _) = header::find(&grids)?;
    let sign = grid.sign.ok_or(MendError::Spreadsheet)?;
    let changed = || MendError::Changed(mend.row);
    let whole = std::str::from_utf8(bytes).map_err(|_| changed())?;
    let text = whole.strip_prefix('\u{feff}').unwrap_or(whole);
    let (range, mut cells) = csv_file::row(text, sign, mend.row).ok_or_else(changed)?;
    if cells.get(mend.column).map_or("", |cell| cell.trim()) != mend.was.trim() || mend.column >= header_width(grid) {
        return Err(changed());
    }
    cells.resize(cells.len().max(mend.column + 1), String::new());
    cells[mend.column] = mend.now.trim().to_owned();
    let row = csv_file::written(&cells, sign).ok_or_else(changed)?;
    let mark = &whole[..whole.len() - text.len()];
    Ok([mark, &text[..range.start], &row, &text[range.end..]].concat().into_bytes())
}

/// A row may be a little longer than the header, and no cell of it means anything.
fn header_width(grid: &super::Grid) -> usize {
    grid.lines.iter().map(|line| line.cells.len()).max().unwrap_or(0)
}

/// Every cell of a table, row by row from the first of the file: those that are empty as well.
///
/// # Errors
/// [`TableError`] where it is no table of people.
pub fn cells(path: &Path) -> Result<Vec<Vec<String>>, TableError> {
    let grids = read::read(path)?;
    let (grid, _) = header::find(&grids)?;
    let width = header_width(grid);
    let last = grid.lines.last().map_or(0, |line| line.number);
    let mut rows = vec![vec![String::new(); width]; last];
    for line in &grid.lines {
        if let Some(row) = line.number.checked_sub(1).and_then(|at| rows.get_mut(at)) {
            row.iter_mut().zip(&line.cells).for_each(|(cell, text)| cell.clone_from(text));
        }
    }
    Ok(rows)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mended_text(text: &str, row: usize, column: usize, was: &str, now: &str) -> Result<String, MendError> {
        let mend = Mend { row, column, was: was.to_owned(), now: now.to_owned() };
        mended(Path::new("people.csv"), text.as_bytes(), &mend).map(|bytes| String::from_utf8(bytes).unwrap())
    }

    #[test]
    fn only_the_cell_is_written_anew() {
        let text = "\u{feff}A class; \n\nName;Waist;\"Hips\";Note\r\n Anna ;74,93; 98 ;\"a;b \"\"c\"\"\"\r\n\r\nBea;70;95\r\n\"Cleo\";68;90;x";
        let new = mended_text(text, 4, 1, "74,93", "75").unwrap();
        assert_eq!(new, text.replace("74,93", "75"));
        assert_eq!(
            mended_text(text, 6, 3, "", "late; \"she\" said").unwrap(),
            text.replace("Bea;70;95", "Bea;70;95;\"late; \"\"she\"\" said\"")
        );
        assert_eq!(mended_text(text, 7, 1, "68", "69").unwrap(), text.replace("\"Cleo\";68", "Cleo;69"));
        // Back again.
        assert_eq!(mended_text(&new, 4, 1, "75", "74,93").unwrap(), text);
    }

    #[test]
    fn what_was_changed_meanwhile_is_left_alone() {
        let text = "name,waist\nAnna,74\nBea,70\n";
        for (row, column, was) in [(2, 1, "75"), (4, 1, ""), (1, 2, ""), (0, 0, "name"), (2, 9, "")] {
            assert!(matches!(mended_text(text, row, column, was, "x"), Err(MendError::Changed(_))), "{row} {column}");
        }
        let sheet = include_bytes!("../../../fixtures/class/people.xlsx");
        let mend = Mend { row: 4, column: 1, was: String::new(), now: "1".to_owned() };
        assert!(matches!(mended(Path::new("a.xlsx"), sheet, &mend), Err(MendError::Spreadsheet)));
    }

    /// A spreadsheet as text is the same class, row by row.
    #[test]
    fn a_spreadsheet_has_its_rows_in_their_places_as_text() {
        let path = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../fixtures/class/people.xlsx"));
        let rows = cells(path).unwrap();
        let lines: Vec<String> = rows.iter().map(|row| csv_file::written(row, b',').unwrap() + "\n").collect();
        let units = engine::quantity::Units::Cm;
        let people = |grids: &[super::super::Grid]| super::super::People::of(grids, units).unwrap();
        let sheet = people(&read::read(path).unwrap());
        let text = people(&csv_file::grids(path, lines.concat().into_bytes()).unwrap());
        let told = |people: &super::super::People| {
            people.persons.iter().map(|p| format!("{} {} {:?}", p.row, p.name, p.entries())).collect::<Vec<_>>()
        };
        assert_eq!(told(&sheet), told(&text));
        assert_eq!(sheet.persons.len(), 4);
    }
}
