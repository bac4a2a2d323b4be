//! Files: what they are called, and how they come to lie in a folder all at once or not at all.

mod older;

pub use crate::file_name::stem;
use export::mark::Mark;
pub use older::{Older, older};
use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use tempfile::NamedTempFile;

/// Which existing files may be replaced.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Replace {
    /// Only those that this program wrote.
    OwnOnly,
    /// Any file.
    Any,
}

/// One file to write.
#[derive(Clone, Debug)]
pub struct Ready {
    /// Its name in the folder.
    pub name: String,
    /// How to tell that a file in its place is our own.
    pub mark: Mark,
    /// What goes into it.
    pub bytes: Vec<u8>,
}

/// Why files could not be written.
#[derive(Debug, thiserror::Error)]
pub enum WriteError {
    /// A file of somebody else's lies in the place.
    #[error("{} is there already, and quarterpin did not write it", .0.display())]
    Foreign(PathBuf),
    /// A folder lies in the place of a file.
    #[error("{} is there already, and is not a file", .0.display())]
    NotAFile(PathBuf),
    /// A file lies in the place of the folder.
    #[error("{} is a file, and the pattern's files go into a folder", .0.display())]
    NotAFolder(PathBuf),
    /// The file system says no.
    #[error("{}: {cause}", path.display())]
    Io {
        /// To what.
        path: PathBuf,
        /// Its own words.
        cause: io::Error,
    },
}

impl WriteError {
    /// What to do about it.
    pub const fn next(&self) -> &'static str {
        match self {
            Self::Foreign(_) => "move it away, choose another folder with -o, or replace it with --force",
            Self::NotAFolder(_) => "choose a folder with -o; it is made if it is not there",
            Self::NotAFile(_) => "move it away, or choose another folder with -o",
            Self::Io { .. } => "check that the folder can be written to and has room, or choose another with -o",
        }
    }
}

/// What the name of a file begins with that is not in its place yet.
pub(crate) const TEMPORARY: &str = ".quarterpin-";

fn at(path: &Path) -> impl FnOnce(io::Error) -> WriteError {
    let path = path.to_owned();
    move |cause| WriteError::Io { path, cause }
}

/// Writes all the files into a folder, made if need be, and says where they are.
///
/// Each is written beside its place first; only when all of them are there do they take their
/// places. On failure the folder is as it was before.
///
/// # Errors
/// A place taken by something that is not ours (`--force` allows any file, but no folder), and
/// whatever the file system says.
pub fn write_all(dir: &Path, files: &[Ready], replace: Replace) -> Result<Vec<PathBuf>, WriteError> {
    if dir.is_file() {
        return Err(WriteError::NotAFolder(dir.to_owned()));
    }
    let is_new = !dir.exists();
    fs::create_dir_all(dir).map_err(at(dir))?;
    let written = before(dir, files, replace).and_then(|places| settle(dir, files, places));
    if written.is_err() && is_new {
        // Fails, rightly, where somebody else has put something there meanwhile.
        let _ = fs::remove_dir(dir);
    }
    written
}

/// A place, and what lay there before.
struct Place {
    path: PathBuf,
    before: Option<Vec<u8>>,
}

/// Looks at every place before anything is written.
fn before(dir: &Path, files: &[Ready], replace: Replace) -> Result<Vec<Place>, WriteError> {
    files.iter().map(|file| look(dir.join(&file.name), file.mark, replace)).collect()
}

fn look(path: PathBuf, mark: Mark, replace: Replace) -> Result<Place, WriteError> {
    let Ok(there) = fs::symlink_metadata(&path) else {
        return Ok(Place { path, before: None });
    };
    if there.is_dir() {
        return Err(WriteError::NotAFile(path));
    }
    let before = fs::read(&path).ok();
    let is_ours = before.as_deref().is_some_and(|bytes| mark.is_in(bytes));
    match (is_ours, replace) {
        (true, _) | (false, Replace::Any) => Ok(Place { path, before }),
        (false, Replace::OwnOnly) => Err(WriteError::Foreign(path)),
    }
}

fn settle(dir: &Path, files: &[Ready], places: Vec<Place>) -> Result<Vec<PathBuf>, WriteError> {
    // Dropping a temporary file removes it.
    let beside = |file: &Ready| put_beside(dir, &file.bytes).map_err(at(dir));
    let beside = files.iter().map(beside).collect::<Result<Vec<_>, _>>()?;
    for (i, (file, place)) in beside.into_iter().zip(&places).enumerate() {
        if let Err(e) = file.persist(&place.path) {
            restore(&places[..i]);
            return Err(at(&place.path)(e.error));
        }
    }
    Ok(places.into_iter().map(|p| p.path).collect())
}

/// A file that is whole and on the disk, to be put in its place.
pub(crate) fn put_beside(dir: &Path, bytes: &[u8]) -> io::Result<NamedTempFile> {
    let mut file = temporary(dir)?;
    file.write_all(bytes)?;
    file.as_file().sync_all()?;
    Ok(file)
}

/// A temporary file is private by default; a pattern is to be shared as the person's other files
/// are, so that the usual mask decides.
fn temporary(dir: &Path) -> io::Result<NamedTempFile> {
    let mut builder = tempfile::Builder::new();
    builder.prefix(TEMPORARY);
    #[cfg(unix)]
    builder.permissions(std::os::unix::fs::PermissionsExt::from_mode(0o666));
    builder.tempfile_in(dir)
}

/// Puts back what lay in these places; a best effort on a file system that has just failed.
fn restore(places: &[Place]) {
    for place in places {
        let _ = match &place.before {
            Some(bytes) => fs::write(&place.path, bytes),
            None => fs::remove_file(&place.path),
        };
    }
}

#[cfg(test)]
mod tests;
