//! What was made before, so that stopping half way loses nothing and nothing is done twice.
//!
//! A finished class tells it in its record. While one is at work, each person who is begun or done is
//! a line of a journal beside it; what a stopped run leaves behind is gone on with.

use super::record::{self, Kept};
use crate::commands::stop::Stop;
use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, BTreeSet};
use std::fs::{self, File, OpenOptions, TryLockError};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::sync::Mutex;

const NAME: &str = ".quarterpin-class";

/// One line: begun where nothing is kept yet.
#[derive(Deserialize, Serialize)]
struct Line {
    folder: String,
    kept: Option<Kept>,
}

/// What was made before, and is being made now.
pub(super) struct Journal {
    path: PathBuf,
    file: Mutex<File>,
    before: BTreeMap<String, Kept>,
    /// Of everybody of earlier runs.
    folders: BTreeSet<String>,
}

impl Journal {
    /// Opens the folder of a class, made if need be. One run at a time works in it.
    pub(super) fn open(into: &Path) -> Result<Self, Stop> {
        if into.is_file() {
            return Err(Stop::plain(
                &format!("{} is a file, and the class goes into a folder", into.display()),
                "choose a folder with -o; it is made if it is not there",
            ));
        }
        let path = into.join(NAME);
        let cannot = |e: &io::Error| {
            Stop::plain(
                &format!("{} cannot be written to: {e}", into.display()),
                "check that the folder can be written to and has room, or choose another with -o",
            )
        };
        fs::create_dir_all(into).map_err(|e| cannot(&e))?;
        let file = OpenOptions::new().create(true).append(true).open(&path).map_err(|e| cannot(&e))?;
        match file.try_lock() {
            Ok(()) => {}
            Err(TryLockError::WouldBlock) => {
                return Err(Stop::plain(
                    &format!("another run is making a class in {} just now", into.display()),
                    "wait for it, or choose another folder with -o",
                ));
            }
            Err(TryLockError::Error(e)) => return Err(cannot(&e)),
        }
        let earlier = record::earlier(into);
        let (mut before, mut folders) = (record::kept(&earlier), record::folders(&earlier));
        for line in fs::read_to_string(&path).unwrap_or_default().lines() {
            // A run that was stopped may have left half a line.
            let Ok(Line { folder, kept }) = serde_json::from_str(line) else { continue };
            folders.insert(folder.clone());
            match kept {
                Some(kept) => before.insert(folder, kept),
                None => before.remove(&folder),
            };
        }
        let journal = Self { path, file: Mutex::new(file), before, folders };
        // The half line ends here, whatever comes next.
        journal.write("\n").map_err(|e| cannot(&e))?;
        Ok(journal)
    }

    /// What was made of somebody before.
    pub(super) fn before(&self, folder: &str) -> Option<&Kept> {
        self.before.get(folder)
    }

    /// The folders of earlier runs that are there still, and nobody's of these.
    pub(super) fn gone(&self, into: &Path, folders: &[String]) -> Vec<String> {
        let is_gone = |folder: &&String| !folders.contains(folder) && into.join(folder).is_dir();
        self.folders.iter().filter(is_gone).cloned().collect()
    }

    /// From now on her files are neither the old nor the new ones.
    pub(super) fn begin(&self, folder: &str) -> io::Result<()> {
        self.line(&Line { folder: folder.to_owned(), kept: None })
    }

    /// All of her files are in their places.
    pub(super) fn end(&self, folder: &str, kept: &Kept) -> io::Result<()> {
        self.line(&Line { folder: folder.to_owned(), kept: Some(kept.clone()) })
    }

    /// The record says it all now.
    pub(super) fn done(self) {
        let _ = fs::remove_file(&self.path);
    }

    fn line(&self, line: &Line) -> io::Result<()> {
        self.write(&format!("{}\n", serde_json::to_string(line)?))
    }

    fn write(&self, text: &str) -> io::Result<()> {
        let mut file = self.file.lock().unwrap_or_else(std::sync::PoisonError::into_inner);
        file.write_all(text.as_bytes())
    }
}
