//! Text with cells parted by commas, semicolons or tabs.

use super::error::TableError;
use super::grid::{Grid, Line, MAX_COLUMNS, MAX_ROWS};
use csv::{Reader, ReaderBuilder, StringRecord, Trim, WriterBuilder};
use std::ops::Range;
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
    let mut reader = reader(text, sign, Trim::All);
    let mut lines = Vec::new();
    for record in reader.records() {
        let record = record.map_err(|e| TableError::Spreadsheet { path: path.to_owned(), cause: e.to_string() })?;
        if lines.len() == MAX_ROWS || record.len() > MAX_COLUMNS {
            return Err(TableError::TooLarge(path.to_owned()));
        }
        let (number, _) = start(text, &record);
        lines.push(Line { number, cells: record.iter().map(str::to_owned).collect() });
    }
    Ok(Grid { lines, sign: Some(sign) })
}

fn reader(text: &str, sign: u8, trim: Trim) -> Reader<&[u8]> {
    ReaderBuilder::new().delimiter(sign).has_headers(false).flexible(true).trim(trim).from_reader(text.as_bytes())
}

/// The line on which a row starts, and its first byte: behind the end of the line before and blank ones.
fn start(text: &str, record: &StringRecord) -> (usize, usize) {
    let of = |number: u64| usize::try_from(number).unwrap_or(0);
    let (line, byte) = record.position().map_or((0, 0), |at| (of(at.line()), of(at.byte())));
    let blank = text.as_bytes().get(byte..).unwrap_or_default().iter().take_while(|b| matches!(b, b'\r' | b'\n'));
    let (bytes, lines) = blank.fold((0, 0), |(bytes, lines), b| (bytes + 1, lines + usize::from(*b == b'\n')));
    (line + lines, byte + bytes)
}

/// A row as it is written: where it stands without the end of its line, and its cells.
pub(super) fn row(text: &str, sign: u8, number: usize) -> Option<(Range<usize>, Vec<String>)> {
    let mut reader = reader(text, sign, Trim::None);
    let mut record = StringRecord::new();
    while reader.read_record(&mut record).ok()? {
        let (line, from) = start(text, &record);
        if line == number {
            let end = usize::try_from(reader.position().byte()).ok()?;
            let written = text.get(from..end)?.trim_end_matches(['\r', '\n']);
            return Some((from..from + written.len(), record.iter().map(str::to_owned).collect()));
        }
    }
    None
}

/// Cells as one row of such a text.
pub(super) fn written(cells: &[String], sign: u8) -> Option<String> {
    let mut writer = WriterBuilder::new().delimiter(sign).from_writer(Vec::new());
    writer.write_record(cells).ok()?;
    let bytes = writer.into_inner().ok()?;
    Some(String::from_utf8(bytes).ok()?.trim_end_matches('\n').to_owned())
}
