//! The text of a file, with a friendly word for every way that reading it can fail.

use super::problem::Problems;
use crate::harmless::plain;
use std::fs::File;
use std::io::{self, Read};
use std::path::{Path, PathBuf};

/// No sheet is larger than this, in bytes.
pub const MAX_BYTES: usize = 1 << 20;
/// By so much of it one tells what a file is that is no text, bytes.
const BEGINNING: usize = 64;

/// Why a file could not be read as a sheet. All of these are wrong input (exit code 2).
#[derive(Debug, thiserror::Error)]
pub enum ReadError {
    /// There is no such file.
    #[error("there is no file {}; check the name, or write a new sheet with `quarterpin new`", .0.display())]
    NotThere(PathBuf),
    /// It is a folder.
    #[error("{} is a folder; name the sheet inside it", .0.display())]
    Folder(PathBuf),
    /// The system would not let it be read.
    #[error("{} cannot be read ({cause}); check that you may open it", .path.display())]
    Unreadable {
        /// The file.
        path: PathBuf,
        /// What the system said.
        cause: io::Error,
    },
    /// Nothing is in it.
    #[error("{} is empty; write a sheet to fill in with `quarterpin new`", .0.display())]
    Empty(PathBuf),
    /// Far larger than any sheet.
    #[error("{} is larger than 1 MiB, so it is no measurement sheet; check the name", .0.display())]
    TooBig(PathBuf),
    /// Not text as a sheet has it.
    #[error("line {line} of {} is not UTF-8 text; save the sheet as plain text in UTF-8", .path.display())]
    NotUtf8 {
        /// The file.
        path: PathBuf,
        /// The first line that cannot be read.
        line: usize,
        /// How it begins, as far as that is text.
        begins: String,
    },
    /// Text, but not a sheet that can be used.
    #[error("{problems}")]
    Sheet {
        /// What was read.
        source_text: String,
        /// What the file is called in messages.
        path_label: String,
        /// What is wrong with it.
        problems: Problems,
    },
}

impl ReadError {
    /// For people, with the offending text pointed at where there is some.
    pub fn render(&self, color: bool) -> String {
        match self {
            Self::Sheet { source_text, path_label, problems } => problems.render(source_text, path_label, color),
            other => format!("error: {}\n", plain(&other.to_string())),
        }
    }
}

/// The text of a file.
pub(super) fn read_text(path: &Path) -> Result<String, ReadError> {
    text_from(open(path)?, path)
}

fn open(path: &Path) -> Result<File, ReadError> {
    if path.is_dir() {
        return Err(ReadError::Folder(path.to_owned()));
    }
    File::open(path).map_err(|cause| match cause.kind() {
        io::ErrorKind::NotFound => ReadError::NotThere(path.to_owned()),
        _ => ReadError::Unreadable { path: path.to_owned(), cause },
    })
}

/// The text of anything that can be read, called by a name in messages.
pub(super) fn text_from(from: impl Read, name: &Path) -> Result<String, ReadError> {
    let bytes = bytes_of(from, name)?;
    if bytes.iter().all(u8::is_ascii_whitespace) {
        return Err(ReadError::Empty(name.to_owned()));
    }
    String::from_utf8(bytes).map_err(|bad| {
        let good = bad.utf8_error().valid_up_to();
        let line = bad.as_bytes().iter().take(good).filter(|b| **b == b'\n').count() + 1;
        let begins = String::from_utf8_lossy(&bad.as_bytes()[..good.min(BEGINNING)]).into_owned();
        ReadError::NotUtf8 { path: name.to_owned(), line, begins }
    })
}

fn bytes_of(from: impl Read, name: &Path) -> Result<Vec<u8>, ReadError> {
    let mut bytes = Vec::new();
    // One byte more than allowed tells "too big" apart, and a device that never ends stops here.
    let read = from.take(MAX_BYTES as u64 + 1).read_to_end(&mut bytes);
    read.map_err(|cause| ReadError::Unreadable { path: name.to_owned(), cause })?;
    if bytes.len() > MAX_BYTES {
        return Err(ReadError::TooBig(name.to_owned()));
    }
    Ok(bytes)
}
