//! A person's own file, changed: whole or not at all, one at a time, with one copy to go back to.

use crate::output::{clear_left, put_beside};
use same_file::Handle;
use sha2::{Digest, Sha256};
use std::ffi::OsString;
use std::fs::{self, File, TryLockError};
use std::io;
use std::path::{Path, PathBuf};

/// A file that nobody else of this program changes meanwhile. The lock goes with the program,
/// however it ends.
#[derive(Debug)]
pub struct OwnFile {
    path: PathBuf,
    _lock: File,
}

/// Why a file cannot be changed.
#[derive(Debug, thiserror::Error)]
pub enum OwnError {
    /// Another run is at it.
    #[error("another quarterpin is writing {} just now, and nothing was written here", .0.display())]
    Busy(PathBuf),
    /// The person has locked it.
    #[error("{} is read-only, and nothing was written", .0.display())]
    ReadOnly(PathBuf),
    /// The file system says no.
    #[error("{} cannot be written: {cause}", .path.display())]
    Io {
        /// Which file.
        path: PathBuf,
        /// Its own words.
        cause: io::Error,
    },
}

impl OwnError {
    /// What to do about it.
    pub const fn next(&self) -> &'static str {
        match self {
            Self::Busy(_) => "run the same command again when the other one has ended",
            Self::ReadOnly(_) => "allow writing to the sheet, or work on a copy",
            Self::Io { .. } => "check that the sheet and its folder can be written to and have room",
        }
    }
}

impl OwnFile {
    /// Takes hold of a file.
    ///
    /// # Errors
    /// [`OwnError`] where another run has it, or it cannot be written to.
    pub fn take(path: &Path) -> Result<Self, OwnError> {
        let io = |cause| OwnError::Io { path: path.to_owned(), cause };
        // A link stays a link: the file behind it is changed.
        let path = fs::canonicalize(path).map_err(io)?;
        loop {
            let file = File::options().read(true).write(true).open(&path).map_err(|e| denied(&path, e))?;
            if file.metadata().map_err(io)?.permissions().readonly() {
                return Err(OwnError::ReadOnly(path));
            }
            match file.try_lock() {
                Ok(()) => {}
                Err(TryLockError::WouldBlock) => return Err(OwnError::Busy(path)),
                Err(TryLockError::Error(cause)) => return Err(io(cause)),
            }
            // Between opening and locking, another run may have put a new file in its place.
            let own = Handle::from_file(file.try_clone().map_err(io)?).map_err(io)?;
            if Handle::from_path(&path).map_err(io)? == own {
                let own = Self { path, _lock: file };
                clear_left(own.folder(), &own.beside());
                return Ok(own);
            }
        }
    }

    /// Puts `new` in its place, and what was there into a copy beside it, whose path is given back.
    ///
    /// # Errors
    /// [`OwnError::Io`]; the file is then as it was.
    pub fn replace(&self, old: &[u8], new: &[u8]) -> Result<PathBuf, OwnError> {
        let copy = self.undo();
        self.put(&copy, old)?;
        self.put(&self.path, new)?;
        Ok(copy)
    }

    fn folder(&self) -> &Path {
        self.path.parent().unwrap_or(Path::new("."))
    }

    /// What the names of files begin with that are not in their places yet: this file's own.
    fn beside(&self) -> String {
        let name = self.path.file_name().unwrap_or_default().as_encoded_bytes();
        let digest: String = Sha256::digest(name).iter().take(6).map(|byte| format!("{byte:02x}")).collect();
        format!(".quarterpin-sheet-{digest}-")
    }

    /// Where the copy lies.
    fn undo(&self) -> PathBuf {
        with_undo(&self.path)
    }

    fn put(&self, place: &Path, bytes: &[u8]) -> Result<(), OwnError> {
        let io = |cause| OwnError::Io { path: place.to_owned(), cause };
        let file = put_beside(self.folder(), &self.beside(), bytes).map_err(io)?;
        let permissions = fs::metadata(&self.path).map_err(io)?.permissions();
        file.as_file().set_permissions(permissions).map_err(io)?;
        file.persist(place).map_err(|e| io(e.error))?;
        Ok(())
    }
}

/// Where the copy of a file as it was before lies; none where there is none.
pub fn undo_of(path: &Path) -> Option<PathBuf> {
    let copy = with_undo(&fs::canonicalize(path).ok()?);
    copy.is_file().then_some(copy)
}

fn with_undo(path: &Path) -> PathBuf {
    let mut name: OsString = path.to_owned().into();
    name.push(".undo");
    name.into()
}

fn denied(path: &Path, cause: io::Error) -> OwnError {
    match cause.kind() {
        io::ErrorKind::PermissionDenied => OwnError::ReadOnly(path.to_owned()),
        _ => OwnError::Io { path: path.to_owned(), cause },
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_is_changed_with_one_copy_to_go_back_to() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("sheet.toml");
        fs::write(&path, "one").unwrap();
        let own = OwnFile::take(&path).unwrap();
        let undo = own.replace(b"one", b"two").unwrap();
        assert_eq!((fs::read(&path).unwrap(), fs::read(&undo).unwrap()), (b"two".to_vec(), b"one".to_vec()));
        drop(own);
        OwnFile::take(&path).unwrap().replace(b"two", b"three").unwrap();
        assert_eq!(fs::read(&undo).unwrap(), b"two");
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 2, "nothing else is left behind");
    }

    #[test]
    fn of_two_at_once_one_is_told_so() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("sheet.toml");
        fs::write(&path, "one").unwrap();
        let first = OwnFile::take(&path).unwrap();
        let second = OwnFile::take(&path);
        assert!(matches!(second, Err(OwnError::Busy(_))), "{second:?}");
        drop(first);
        assert!(OwnFile::take(&path).is_ok());
    }
}
