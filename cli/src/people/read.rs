//! From a file to its tables.

use super::error::TableError;
use super::grid::Grid;
use super::{csv_file, spreadsheet};
use std::fs::File;
use std::io::Read;
use std::path::Path;

/// No table of people is larger than this, in bytes.
pub(super) const MAX_BYTES: usize = 16 << 20;

/// Every table that a file may mean: of a spreadsheet each of its sheets, of a text one for each sign
/// that may part its cells.
pub(super) fn read(path: &Path) -> Result<Vec<Grid>, TableError> {
    grids(path, bytes_of(path)?)
}

/// The same of bytes that are at hand.
pub(super) fn grids(path: &Path, bytes: Vec<u8>) -> Result<Vec<Grid>, TableError> {
    if bytes.iter().all(u8::is_ascii_whitespace) {
        return Err(TableError::Empty(path.to_owned()));
    }
    // A spreadsheet of today is a zip archive.
    if bytes.starts_with(b"PK") { spreadsheet::grids(path, bytes) } else { csv_file::grids(path, bytes) }
}

fn bytes_of(path: &Path) -> Result<Vec<u8>, TableError> {
    if path.is_dir() {
        return Err(TableError::Folder(path.to_owned()));
    }
    let unreadable = |cause| TableError::Unreadable { path: path.to_owned(), cause };
    let mut bytes = Vec::new();
    let file = File::open(path).map_err(unreadable)?;
    file.take(MAX_BYTES as u64 + 1).read_to_end(&mut bytes).map_err(unreadable)?;
    if bytes.len() > MAX_BYTES { Err(TableError::TooLarge(path.to_owned())) } else { Ok(bytes) }
}
