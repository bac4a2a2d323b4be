//! The folder that files go into: made if need be, and taken away again where nothing came of it.

use super::{WriteError, at};
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// A folder, and those on the way to it that were not there.
pub(super) struct Folder {
    pub(super) path: PathBuf,
    made: Vec<PathBuf>,
}

impl Folder {
    /// Makes it, if need be.
    pub(super) fn make(dir: &Path) -> Result<Self, WriteError> {
        // `new/.` is `new`, which a system would look for before it is made.
        let path: PathBuf = dir.components().collect();
        let path = if path.as_os_str().is_empty() { PathBuf::from(".") } else { path };
        if let Ok(there) = fs::metadata(&path) {
            return if there.is_dir() {
                Ok(Self { path, made: Vec::new() })
            } else {
                Err(WriteError::NotAFolder(path))
            };
        }
        let way = path.ancestors().filter(|part| !part.as_os_str().is_empty());
        let missing: Vec<PathBuf> = way.take_while(|part| !part.exists()).map(Path::to_owned).collect();
        if let Some(link) = missing.iter().find(|part| part.is_symlink()) {
            return Err(WriteError::LinkToNothing(link.clone()));
        }
        let folder = Self { path, made: missing };
        match fs::create_dir_all(&folder.path) {
            Ok(()) => Ok(folder),
            Err(cause) => {
                folder.take_away();
                Err(at(&folder.path)(cause))
            }
        }
    }

    /// Takes away what was made, the innermost first. Fails, rightly, where somebody else has put
    /// something there meanwhile.
    pub(super) fn take_away(&self) {
        let gone = |folder: &PathBuf| {
            fs::remove_dir(folder).or_else(|e| if e.kind() == io::ErrorKind::NotFound { Ok(()) } else { Err(e) })
        };
        let _ = self.made.iter().try_for_each(gone);
    }
}
