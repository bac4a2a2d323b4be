//! A set of files that take their places together, by one run at a time.
//!
//! A folder that is written into holds a hidden file, locked while a run is at it. When every new file
//! lies complete beside its place, their names go into it; from then on the set counts as written. Where
//! a run is stopped before that, nothing has changed; where it is stopped after, the next run puts the
//! rest in place. Either way it clears what was left behind.

use super::seal::{self, Found};
use super::{WriteError, at, written_beside};
use export::mark::Mark;
use same_file::Handle;
use serde::{Deserialize, Serialize};
use std::fs::{self, File, OpenOptions, TryLockError};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::thread::sleep;
use std::time::{Duration, Instant};
use tempfile::NamedTempFile;

/// The hidden file: a lock, and a list of what is to take its place.
const LIST: &str = ".quarterpin-set";

/// What the names of files begin with that are not in their places yet, and of those that they replace.
const BESIDE: &str = ".quarterpin-set-";

/// Another run is waited for so long: it takes a few hundredths of a second.
const PATIENCE: Duration = Duration::from_secs(2);

/// One file of the set: where it lies, where it goes, and how one of ours is known there.
#[derive(Debug, Deserialize, Serialize)]
struct Move {
    beside: String,
    name: String,
}

/// A folder that nobody else writes into meanwhile.
pub(super) struct Set<'d> {
    folder: &'d Path,
    list: File,
}

impl<'d> Set<'d> {
    /// Takes hold of a folder, and clears up after a run that was stopped in it.
    pub(super) fn open(folder: &'d Path) -> Result<Self, WriteError> {
        let until = Instant::now() + PATIENCE;
        loop {
            match Self::try_open(folder).map_err(at(folder))? {
                Some(mut set) => {
                    set.clear_up().map_err(at(folder))?;
                    return Ok(set);
                }
                None if Instant::now() > until => return Err(WriteError::Busy(folder.to_owned())),
                None => sleep(Duration::from_millis(5)),
            }
        }
    }

    /// None where another run has it.
    fn try_open(folder: &'d Path) -> io::Result<Option<Self>> {
        let path = folder.join(LIST);
        let list = OpenOptions::new().create(true).truncate(false).read(true).write(true).open(&path)?;
        match list.try_lock() {
            Ok(()) => {}
            Err(TryLockError::WouldBlock) => return Ok(None),
            Err(TryLockError::Error(e)) => return Err(e),
        }
        // Between opening and locking, the run that had it may have taken it away.
        let own = Handle::from_file(list.try_clone()?)?;
        let is_there = Handle::from_path(&path).is_ok_and(|there| there == own);
        Ok(is_there.then_some(Self { folder, list }))
    }

    /// Puts in place what a stopped run had ready, where nobody else's file lies there by now.
    fn clear_up(&mut self) -> io::Result<()> {
        let text = fs::read_to_string(self.folder.join(LIST)).unwrap_or_default();
        // A list that was not written to its end is no JSON.
        for Move { beside, name } in serde_json::from_str::<Vec<Move>>(&text).unwrap_or_default() {
            let (beside, place) = (self.folder.join(beside), self.folder.join(name));
            if beside.is_file() && is_ours(&place) {
                fs::rename(beside, place)?;
            }
        }
        for entry in fs::read_dir(self.folder)?.flatten() {
            if entry.file_name().to_string_lossy().starts_with(BESIDE) {
                fs::remove_file(entry.path())?;
            }
        }
        self.list.set_len(0)
    }

    /// Writes a file beside its place, complete; it has to be on the disk before it is settled.
    pub(super) fn put(&self, parts: [&[u8]; 2]) -> Result<NamedTempFile, WriteError> {
        written_beside(self.folder, BESIDE, parts).map_err(at(self.folder))
    }

    /// Moves every file to its place, or, where one cannot go there, none.
    pub(super) fn settle(&mut self, files: Vec<(NamedTempFile, PathBuf)>) -> Result<(), WriteError> {
        self.write_list(&files).map_err(at(self.folder))?;
        let mut done = Vec::new();
        for (i, (file, place)) in files.into_iter().enumerate() {
            match self.replace(file, &place, i) {
                Ok(old) => done.push((place, old)),
                Err(e) => {
                    // A best effort on a file system that has just failed.
                    let _ = self.list.set_len(0);
                    done.iter().for_each(undo);
                    return Err(at(&place)(e));
                }
            }
        }
        for old in done.into_iter().filter_map(|(_, old)| old) {
            fs::remove_file(&old).map_err(at(&old))?;
        }
        sync(self.folder).map_err(at(self.folder))
    }

    pub(super) fn write_list(&mut self, files: &[(NamedTempFile, PathBuf)]) -> io::Result<()> {
        // Names alone: a folder may be somewhere else when the next run looks into it.
        let name = |path: &Path| path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        let moves: Vec<Move> =
            files.iter().map(|(file, place)| Move { beside: name(file.path()), name: name(place) }).collect();
        self.list.write_all(&serde_json::to_vec(&moves)?)?;
        self.list.sync_all()
    }

    /// Puts a file in its place, and what was there under another name, which is given back.
    fn replace(&self, file: NamedTempFile, place: &Path, number: usize) -> io::Result<Option<PathBuf>> {
        let old = self.folder.join(format!("{BESIDE}old-{number}"));
        let kept = match fs::hard_link(place, &old) {
            Ok(()) => Some(old),
            Err(e) if e.kind() == io::ErrorKind::NotFound => None,
            // Some file systems have no links.
            Err(_) => fs::rename(place, &old).map(|()| Some(old))?,
        };
        file.persist(place).map_err(|e| {
            kept.iter().for_each(|old| drop(fs::rename(old, place)));
            e.error
        })?;
        Ok(kept)
    }
}

impl Drop for Set<'_> {
    fn drop(&mut self) {
        // Still locked: whoever waits finds out that it has gone, and makes a new one.
        let _ = fs::remove_file(self.folder.join(LIST));
    }
}

fn undo((place, old): &(PathBuf, Option<PathBuf>)) {
    let _ = match old {
        Some(old) => fs::rename(old, place),
        None => fs::remove_file(place),
    };
}

/// Is the place free, or a file of ours in it as it was written?
fn is_ours(place: &Path) -> bool {
    fs::symlink_metadata(place).is_err()
        || Mark::SEALED.iter().any(|mark| matches!(seal::look(place, *mark), Ok(Found::AsWritten(_))))
}

/// What was renamed in a folder is on the disk then; elsewhere than on Unix a folder cannot be opened.
fn sync(folder: &Path) -> io::Result<()> {
    if cfg!(unix) { File::open(folder)?.sync_all() } else { Ok(()) }
}
