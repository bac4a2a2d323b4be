//! Text with cells parted by commas, semicolons or tabs.

use super::error::TableError;
use super::grid::{Grid, Line, MAX_COLUMNS, MAX_ROWS};
use csv::{ReaderBuilder, StringRecord, Trim};
use std::path::Path;

/// What parts cells. A list with decimal commas is parted by semicolons.
const SIGNS: [u8; 3] = [b',', b';', b'\t'];

/// The table by each sign; the header tells which one is meant.
pub(super) fn grids(path: &Path, bytes: Vec<u8>) -> Result<Vec<Grid>, TableError> {
    let text = String::from_utf8(bytes).map_err(|bad| {
        let good = bad.utf8_error().valid_up_to();
        let line = bad.as_bytes().iter().take(good).filter(|b| **b == b'\n').count() + 1;
        TableError::NotUtf8 { path: path.to_owned(), line }
    })?;
    let text = text.strip_prefix('\u{feff}').unwrap_or(&text);
    SIGNS.iter().map(|sign| by(path, text, *sign)).collect()
}

fn by(path: &Path, text: &str, sign: u8) -> Result<Grid, TableError> {
    let mut reader = ReaderBuilder::new()
        .delimiter(sign)
        .has_headers(false)
        .flexible(true)
        .trim(Trim::All)
        .from_reader(text.as_bytes());
    let mut lines = Vec::new();
    for record in reader.records() {
        let record = record.map_err(|e| TableError::Spreadsheet { path: path.to_owned(), cause: e.to_string() })?;
        if lines.len() == MAX_ROWS || record.len() > MAX_COLUMNS {
            return Err(TableError::TooLarge(path.to_owned()));
        }
        lines.push(line(&record));
    }
    Ok(Grid { lines })
}

fn line(record: &StringRecord) -> Line {
    let number = record.position().and_then(|at| usize::try_from(at.line()).ok()).unwrap_or(0);
    Line { number, cells: record.iter().map(str::to_owned).collect() }
}
