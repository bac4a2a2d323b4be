//! What is read: a file, or what is piped in.

use std::fs::File;
use std::io::{self, Read};
use std::path::{Path, PathBuf};

/// Stands for standard input on the command line.
const PIPED: &str = "-";

/// Is it what is piped in?
pub(super) fn is_piped(file: &Path) -> bool {
    file == Path::new(PIPED)
}

/// What it is called in messages.
pub(super) fn name(file: &Path) -> PathBuf {
    if is_piped(file) { PathBuf::from("standard input") } else { file.to_owned() }
}

/// What is in it, as it comes.
pub(super) fn open(file: &Path) -> io::Result<Box<dyn Read>> {
    if is_piped(file) { Ok(Box::new(io::stdin())) } else { Ok(Box::new(File::open(file)?)) }
}
