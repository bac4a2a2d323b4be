//! Why a file is no table of people.

use std::io;
use std::path::PathBuf;

/// A header that is not clear.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unclear {
    /// Which.
    pub column: String,
    /// What to write.
    pub next: String,
}

fn unclear(columns: &[Unclear]) -> String {
    let names: Vec<&str> = columns.iter().map(|one| one.column.as_str()).collect();
    let (noun, verb) = if names.len() == 1 { ("column", "is") } else { ("columns", "are") };
    format!("{noun} {} {verb} not clear", names.join(", "))
}

/// Why a file cannot be read as a table of people. All of these are wrong input (exit code 2).
#[derive(Debug, thiserror::Error)]
pub enum TableError {
    /// It is a folder.
    #[error("{} is a folder, not a table of people", .0.display())]
    Folder(PathBuf),
    /// The system would not let it be read.
    #[error("{} cannot be read: {cause}", .path.display())]
    Unreadable {
        /// The file.
        path: PathBuf,
        /// What the system said.
        cause: io::Error,
    },
    /// Nothing is in it.
    #[error("{} is empty", .0.display())]
    Empty(PathBuf),
    /// Far larger than any class.
    #[error("{} is too large for a table of people", .0.display())]
    TooLarge(PathBuf),
    /// Text in another encoding.
    #[error("line {line} of {} is not UTF-8 text", .path.display())]
    NotUtf8 {
        /// The file.
        path: PathBuf,
        /// The first line that cannot be read.
        line: usize,
    },
    /// A spreadsheet that is damaged, or of a kind that is not read.
    #[error("{} is no spreadsheet that can be read ({cause})", .path.display())]
    Spreadsheet {
        /// The file.
        path: PathBuf,
        /// What is wrong with it.
        cause: String,
    },
    /// No row looks like a header.
    #[error("no header row was found: none of the first rows names a measurement")]
    NoHeader,
    /// No column says who it is.
    #[error("row {row}, the header, has no column for names")]
    NoName {
        /// The row of the header.
        row: usize,
    },
    /// Two columns mean the same.
    #[error("columns {first} and {second} both mean `{key}`")]
    Twice {
        /// One.
        first: String,
        /// The other.
        second: String,
        /// What they mean.
        key: String,
    },
    /// Headers that may mean several things, or hardly what they say.
    #[error("{}", unclear(.0))]
    Unclear(Vec<Unclear>),
    /// A header, and nothing under it.
    #[error("there is nobody in the table: no row under the header has anything in it")]
    Nobody,
}

impl TableError {
    /// What to do about it.
    pub fn next(&self) -> String {
        match self {
            Self::Folder(_) => "name the table inside it".to_owned(),
            Self::Unreadable { .. } => "check the name, and that you may open it".to_owned(),
            Self::Empty(_) | Self::Nobody => "write a row for each person under the header".to_owned(),
            Self::TooLarge(_) => "check the name, or split it into several tables".to_owned(),
            Self::NotUtf8 { .. } => "save the table as CSV in UTF-8, or as .xlsx or .ods".to_owned(),
            Self::Spreadsheet { .. } => "save it as .xlsx, .ods or CSV".to_owned(),
            Self::NoHeader => {
                "write a first row with a word for each column, such as: name, waist, hips, waist to hip, crotch length"
                    .to_owned()
            }
            Self::NoName { .. } => "call one column “name”".to_owned(),
            Self::Twice { .. } => "take one of the two out, or give it another header".to_owned(),
            Self::Unclear(columns) => match columns.as_slice() {
                [one] => one.next.clone(),
                all => {
                    let each: Vec<String> = all.iter().map(|one| format!("{}: {}", one.column, one.next)).collect();
                    each.join("; ")
                }
            },
        }
    }
}
