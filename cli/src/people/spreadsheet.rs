//! Spreadsheets: .xlsx and .ods, by calamine.

use super::error::TableError;
use super::grid::{Grid, Line, MAX_COLUMNS, MAX_ROWS};
use calamine::{Data, DataType, Ods, Reader, Xlsx};
use std::collections::BTreeMap;
use std::fmt::Display;
use std::io::Cursor;
use std::path::Path;

type Bytes = Cursor<Vec<u8>>;

/// Every sheet of the file, in its order.
pub(super) fn grids(path: &Path, bytes: Vec<u8>) -> Result<Vec<Grid>, TableError> {
    let bad = |cause: &dyn Display| TableError::Spreadsheet { path: path.to_owned(), cause: cause.to_string() };
    // An open document says what it is in its first entry, uncompressed.
    let head = bytes.get(..bytes.len().min(200)).unwrap_or_default();
    let is_ods = head.windows(40).any(|w| w.starts_with(b"application/vnd.oasis.opendocument"));
    let cells = if is_ods {
        let mut book: Ods<Bytes> = Ods::new(Cursor::new(bytes)).map_err(|e| bad(&e))?;
        book.sheet_names().iter().map(|name| open_document(&mut book, name)).collect::<Result<Vec<_>, _>>()
    } else {
        let mut book: Xlsx<Bytes> = Xlsx::new(Cursor::new(bytes)).map_err(|e| bad(&e))?;
        book.sheet_names().iter().map(|name| workbook(&mut book, name)).collect()
    };
    let cells = cells.map_err(|cause| bad(&cause))?;
    cells.into_iter().map(|cells| grid(cells).ok_or_else(|| TableError::TooLarge(path.to_owned()))).collect()
}

/// What is written, by row and column, both from 0.
type Cells = BTreeMap<(usize, usize), String>;

/// Cell by cell: a range would fill the whole rectangle up to a stray cell far out.
fn workbook(book: &mut Xlsx<Bytes>, name: &str) -> Result<Cells, String> {
    let mut reader = book.worksheet_cells_reader(name).map_err(|e| e.to_string())?;
    let mut cells = Cells::new();
    while let Some(cell) = reader.next_cell().map_err(|e| e.to_string())? {
        let (row, column) = cell.get_position();
        put(&mut cells, (row as usize, column as usize), &Data::from(cell.get_value().clone()));
    }
    Ok(cells)
}

fn open_document(book: &mut Ods<Bytes>, name: &str) -> Result<Cells, String> {
    let range = book.worksheet_range(name).map_err(|e| e.to_string())?;
    let (top, left) = range.start().unwrap_or_default();
    let mut cells = Cells::new();
    for (row, column, data) in range.used_cells() {
        put(&mut cells, (top as usize + row, left as usize + column), data);
    }
    Ok(cells)
}

fn put(cells: &mut Cells, at: (usize, usize), data: &Data) {
    let text = written(data);
    if !text.is_empty() {
        cells.insert(at, text);
    }
}

/// A cell as a person would type it. Numbers are kept to the last digit.
fn written(data: &Data) -> String {
    match data {
        Data::DateTime(moment) => match moment.to_ymd_hms_milli() {
            (year, month, day, ..) if moment.is_datetime() => format!("{year:04}-{month:02}-{day:02}"),
            _ => moment.as_f64().to_string(),
        },
        Data::Error(error) => error.to_string(),
        Data::Bool(it) => if *it { "yes" } else { "no" }.to_owned(),
        other => other.as_string().unwrap_or_default().trim().to_owned(),
    }
}

/// Rows that have something in them; none where there are too many.
fn grid(cells: Cells) -> Option<Grid> {
    let mut lines: Vec<Line> = Vec::new();
    for ((row, column), text) in cells {
        if lines.last().is_none_or(|line| line.number != row + 1) {
            lines.push(Line { number: row + 1, cells: Vec::new() });
        }
        if column >= MAX_COLUMNS || lines.len() > MAX_ROWS {
            return None;
        }
        let line = lines.last_mut()?;
        line.cells.resize(column, String::new());
        line.cells.push(text);
    }
    Some(Grid { lines, sign: None })
}
