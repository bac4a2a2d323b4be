//! Files: what they are called, and how they come to lie in a folder all at once or not at all.

mod folder;
mod older;
mod seal;
mod set;

pub use crate::file_name::stem;
use export::mark::Mark;
use folder::Folder;
pub(crate) use older::begun;
pub use older::{Older, older};
use rayon::prelude::*;
use same_file::Handle;
use seal::Found;
use set::Set;
use std::fs::{self, File};
use std::io::{self, Write};
use std::panic::resume_unwind;
use std::path::{Path, PathBuf};
use std::thread;
use tempfile::NamedTempFile;

/// Which existing files may be replaced.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Replace {
    /// Only those that this program wrote from the same sheet, and nobody has changed.
    OwnOnly,
    /// The same, from whatever sheet: where each has a folder of its own.
    OwnOfAnySheet,
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
    /// A file of ours that somebody has changed lies in the place.
    #[error("{} was changed after quarterpin wrote it", .0.display())]
    Edited(PathBuf),
    /// A file of another sheet lies in the place.
    #[error("{} is of another sheet, whose name gives the same names of files", .0.display())]
    OtherSheet(PathBuf),
    /// Another run writes into the folder.
    #[error("another quarterpin is writing into {} just now", .0.display())]
    Busy(PathBuf),
    /// The folder is a link that leads nowhere.
    #[error("{} is a link to something that is not there", .0.display())]
    LinkToNothing(PathBuf),
    /// A folder, a pipe or a device lies in the place of a file.
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
            Self::Edited(_) => "keep it under another name, or replace it with --force",
            Self::OtherSheet(_) => {
                "give one of the sheets another name, choose another folder with -o, or replace it with --force"
            }
            Self::Busy(_) => "run the same command again when the other one has ended",
            Self::LinkToNothing(_) => "take the link away, or choose another folder with -o",
            Self::NotAFolder(_) => "choose a folder with -o; it is made if it is not there",
            Self::NotAFile(_) => "move it away, or choose another folder with -o",
            Self::Io { .. } => "check that the folder can be written to and has room, or choose another with -o",
        }
    }
}

fn at(path: &Path) -> impl FnOnce(io::Error) -> WriteError {
    let path = path.to_owned();
    move |cause| WriteError::Io { path, cause }
}

/// Writes all the files into a folder, made if need be, and says where they are.
///
/// They take their places together, and one run at a time does so: see [`set`]. On failure the folder is
/// as it was before.
///
/// # Errors
/// A place taken by something that is not ours as it was written (`--force` allows any file, but no
/// folder), another run at work in the folder, and whatever the file system says.
pub fn write_all(dir: &Path, files: &[Ready], replace: Replace) -> Result<Vec<PathBuf>, WriteError> {
    write(dir, None, files, replace)
}

/// The same with the files of a sheet of this name: those of another are not replaced.
///
/// # Errors
/// As [`write_all`], and where a place is taken by a file of another sheet.
pub fn write_of(sheet: &str, dir: &Path, files: &[Ready], replace: Replace) -> Result<Vec<PathBuf>, WriteError> {
    write(dir, Some(sheet), files, replace)
}

/// A file as it is written of a sheet of this name.
pub(crate) fn sealed(sheet: &str, mut file: Ready) -> Ready {
    seal::seal(&mut file.bytes, &seal::tag(Some(sheet)));
    file
}

fn write(dir: &Path, sheet: Option<&str>, files: &[Ready], replace: Replace) -> Result<Vec<PathBuf>, WriteError> {
    let folder = Folder::make(dir)?;
    let written = write_into(&folder.path, &seal::tag(sheet), files, replace);
    if written.is_err() {
        folder.take_away();
    }
    written
}

fn write_into(dir: &Path, tag: &str, files: &[Ready], replace: Replace) -> Result<Vec<PathBuf>, WriteError> {
    let mut set = Set::open(dir)?;
    // Every place is looked at before anything is written.
    let look = |file: &Ready| look(dir.join(&file.name), file.mark, tag, replace);
    let places: Vec<Result<Place, WriteError>> = files.par_iter().map(look).collect();
    // Of several that cannot be taken, the first is told.
    let places = places.into_iter().collect::<Result<Vec<_>, _>>()?;
    let beside = |(file, place): (&Ready, Place)| {
        let head = seal::head(&file.bytes, tag);
        let beside = set.put([&head, &file.bytes[head.len()..]])?;
        if let Some(permissions) = place.permissions {
            beside.as_file().set_permissions(permissions).map_err(at(&place.path))?;
        }
        Ok((beside, place.path))
    };
    let ready: Vec<Result<_, WriteError>> = files.par_iter().zip(places).map(beside).collect();
    let ready = ready.into_iter().collect::<Result<Vec<_>, _>>()?;
    sync(&ready)?;
    let written = ready.iter().map(|(_, place)| place.clone()).collect();
    set.settle(ready)?;
    Ok(written)
}

/// Files are handed out to so many threads, to be synced at the same time: a disk writes them together.
const SYNCING: usize = 4;

/// All of the files are on the disk then.
fn sync(files: &[(NamedTempFile, PathBuf)]) -> Result<(), WriteError> {
    let some = |first: usize| {
        let mut own = files.iter().skip(first).step_by(SYNCING);
        own.try_for_each(|(file, place)| file.as_file().sync_all().map_err(at(place)))
    };
    thread::scope(|scope| {
        let running: Vec<_> = (1..SYNCING.min(files.len())).map(|first| scope.spawn(move || some(first))).collect();
        let others = running.into_iter().map(|run| run.join().unwrap_or_else(|panic| resume_unwind(panic)));
        std::iter::once(some(0)).chain(others).collect()
    })
}

/// A place that may be taken, and what a person allowed of the file that lies there.
struct Place {
    path: PathBuf,
    permissions: Option<fs::Permissions>,
}

fn look(path: PathBuf, mark: Mark, tag: &str, replace: Replace) -> Result<Place, WriteError> {
    let there = match fs::symlink_metadata(&path) {
        Ok(there) => there,
        Err(e) if e.kind() == io::ErrorKind::NotFound => return Ok(Place { path, permissions: None }),
        Err(e) => return Err(at(&path)(e)),
    };
    let permissions = there.is_file().then(|| there.permissions());
    // A pipe would be waited for, a device read for ever. A link is somebody's own.
    let found = match there.file_type() {
        kind if kind.is_symlink() => Found::Foreign,
        kind if kind.is_file() => seal::look(&path, mark).unwrap_or(Found::Foreign),
        _ => return Err(WriteError::NotAFile(path)),
    };
    match (replace, found) {
        (Replace::Any, _) | (_, Found::AsWritten(None)) | (Replace::OwnOfAnySheet, Found::AsWritten(_)) => {}
        (Replace::OwnOnly, Found::AsWritten(Some(of))) if of == tag => {}
        (_, Found::AsWritten(_)) => return Err(WriteError::OtherSheet(path)),
        (_, Found::Edited) => return Err(WriteError::Edited(path)),
        (_, Found::Foreign) => return Err(WriteError::Foreign(path)),
    }
    Ok(Place { path, permissions })
}

/// A file that is whole and on the disk, to be put in its place; `prefix` begins its name. What stopped runs left
/// in the folder under that prefix is taken away.
pub(crate) fn put_beside(dir: &Path, prefix: &str, bytes: &[u8]) -> io::Result<NamedTempFile> {
    clear_left(dir, prefix);
    loop {
        let mut file = beside(dir, prefix)?;
        // Whoever clears up leaves it alone from here on; without locks nothing is ever cleared up.
        let _ = file.as_file().lock();
        let own = Handle::from_file(file.as_file().try_clone()?)?;
        if Handle::from_path(file.path()).is_ok_and(|there| there == own) {
            file.write_all(bytes)?;
            file.as_file().sync_all()?;
            return Ok(file);
        }
    }
}

/// Takes away what runs that were stopped had not put in its place yet: whatever nobody holds locked.
pub(crate) fn clear_left(dir: &Path, prefix: &str) {
    for entry in fs::read_dir(dir).into_iter().flatten().flatten() {
        let is_plain = entry.file_type().is_ok_and(|kind| kind.is_file());
        if is_plain
            && entry.file_name().to_string_lossy().starts_with(prefix)
            && let Ok(file) = File::options().write(true).open(entry.path())
            && file.try_lock().is_ok()
        {
            let _ = fs::remove_file(entry.path());
        }
    }
}

/// A file that is whole, but may not be on the disk yet.
fn written_beside(dir: &Path, prefix: &str, parts: [&[u8]; 2]) -> io::Result<NamedTempFile> {
    let mut file = beside(dir, prefix)?;
    parts.into_iter().try_for_each(|part| file.write_all(part))?;
    Ok(file)
}

fn beside(dir: &Path, prefix: &str) -> io::Result<NamedTempFile> {
    let mut builder = tempfile::Builder::new();
    builder.prefix(prefix);
    // A temporary file is private by default; a pattern is to be shared as the person's other files
    // are, so that the usual mask decides.
    #[cfg(unix)]
    builder.permissions(std::os::unix::fs::PermissionsExt::from_mode(0o666));
    builder.tempfile_in(dir)
}

#[cfg(test)]
mod tests;
