//! The sheet that is open: its text, what that comes to, and how it stands to its file.

use super::Trouble;
use super::change::{Change, Home, all_changed, units_of};
use super::history::History;
use super::reading::{Good, Reading, drawer_of, text_of};
use super::unsaved::{self, Left};
use crate::own_file::{OwnError, OwnFile};
use crate::sheet::Drawer;
use engine::quantity::Units;
use std::fs;
use std::path::PathBuf;
use std::sync::Arc;

/// How a file stands to what was read of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum OnDisk {
    Same,
    Changed,
    Gone,
}

impl OnDisk {
    pub(super) const fn name(self) -> &'static str {
        match self {
            Self::Same => "same",
            Self::Changed => "changed",
            Self::Gone => "gone",
        }
    }
}

/// A sheet that is open.
pub(super) struct Open {
    pub(super) file: String,
    pub(super) path: PathBuf,
    /// As it was read from its file, or written to it.
    pub(super) saved: String,
    pub(super) text: String,
    pub(super) history: History,
    pub(super) now: Reading,
    /// The last garment that could be made, and what was made when it was saved.
    pub(super) good: Option<Arc<Good>>,
    pub(super) ghost: Option<Arc<Good>>,
    pub(super) left: Option<Left>,
    pub(super) on_disk: OnDisk,
}

impl Open {
    /// Opens a file.
    pub(super) fn file(file: &str, path: PathBuf) -> Result<Self, Trouble> {
        let text = text_of(&path)?;
        let now = Reading::of(&text, &path);
        let good = now.good().cloned();
        let left = unsaved::left(&path, &text);
        Ok(Self {
            file: file.to_owned(),
            path,
            saved: text.clone(),
            text,
            history: History::default(),
            ghost: good.clone(),
            good,
            now,
            left,
            on_disk: OnDisk::Same,
        })
    }

    /// Its text and where that lies, to be read by a command; none where it is no sheet.
    pub(super) fn readable(&self) -> Result<(&str, String), Trouble> {
        match &self.now {
            Reading::Unread(problems) => {
                let (_, _, text, next) = problems.told().next().unwrap_or_default();
                Err(Trouble::refused(text, next))
            }
            _ => Ok((&self.text, self.path.display().to_string())),
        }
    }

    pub(super) fn is_saved(&self) -> bool {
        self.text == self.saved
    }

    pub(super) fn is_read_only(&self) -> bool {
        fs::metadata(&self.path).is_ok_and(|there| there.permissions().readonly())
    }

    /// The unit that its lengths are in, as far as it says one.
    pub(super) fn units(&self) -> Units {
        self.now.sheet().map_or_else(|| units_of(&self.text), |sheet| sheet.units)
    }

    /// The text with some values otherwise.
    pub(super) fn with(&self, changes: &[Change]) -> Result<String, Trouble> {
        let home = Home { units: self.units(), hers: &|| self.elastics_of_drawer() };
        all_changed(self.text.clone(), changes, home)
    }

    /// Names of the elastics in the drawer that the sheet names.
    pub(super) fn elastics_of_drawer(&self) -> Vec<String> {
        let drawer = drawer_of(&self.text, &self.path).and_then(|(name, text)| Drawer::of(&text, &name).ok());
        drawer.iter().flat_map(Drawer::elastics).map(|(name, _)| name.to_owned()).collect()
    }

    /// Takes a new text, as a step that can be undone.
    pub(super) fn step(&mut self, label: &str, new: String) -> Result<(), Trouble> {
        if new.len() > crate::sheet::MAX_BYTES {
            return Err(Trouble::refused("the sheet would be larger than 1 MiB", "write less"));
        }
        self.history.step(label, &mut self.text, new);
        self.read_again();
        self.keep();
        Ok(())
    }

    pub(super) fn undo(&mut self) {
        if self.history.undo(&mut self.text) {
            self.read_again();
            self.keep();
        }
    }

    pub(super) fn redo(&mut self) {
        if self.history.redo(&mut self.text) {
            self.read_again();
            self.keep();
        }
    }

    fn read_again(&mut self) {
        self.now = Reading::of(&self.text, &self.path);
        if let Some(good) = self.now.good() {
            self.good = Some(Arc::clone(good));
        }
    }

    /// Keeps what is not saved beside the sheet. Where that cannot be, the page still says that it is not
    /// saved.
    fn keep(&mut self) {
        if let Some(left) = self.left.as_mut().filter(|left| !left.is_aside) {
            left.is_aside = true;
            unsaved::set_aside(&self.path);
        }
        if self.is_saved() {
            unsaved::forget(&self.path);
        } else {
            let _ = unsaved::keep(&self.path, &self.saved, &self.text);
        }
    }

    /// Takes what was left unsaved last time, or throws it away.
    pub(super) fn settle(&mut self, takes: bool) -> Result<(), Trouble> {
        let Some(Left { text, is_aside, .. }) = self.left.take() else {
            return Err(Trouble::not_now("nothing was left unsaved", "go on"));
        };
        if is_aside {
            unsaved::forget_aside(&self.path);
        }
        if takes {
            return self.step("what was not saved", text);
        }
        if self.is_saved() {
            unsaved::forget(&self.path);
        }
        Ok(())
    }

    /// Looks whether the file is another one meanwhile; says whether that is news.
    pub(super) fn look(&mut self) -> bool {
        let now = match fs::read(&self.path) {
            Ok(bytes) if bytes == self.saved.as_bytes() => OnDisk::Same,
            Ok(_) => OnDisk::Changed,
            Err(_) => OnDisk::Gone,
        };
        std::mem::replace(&mut self.on_disk, now) != now
    }

    /// The file's own text, as it is now.
    pub(super) fn theirs(&self) -> Result<String, Trouble> {
        text_of(&self.path)
    }

    /// Takes the file's own text, as a step that can be undone.
    pub(super) fn reload(&mut self) -> Result<(), Trouble> {
        let theirs = self.theirs()?;
        self.saved.clone_from(&theirs);
        self.step("the file as it is", theirs)?;
        self.ghost = self.now.good().cloned();
        self.on_disk = OnDisk::Same;
        Ok(())
    }

    /// Writes the text into its file. One that was changed meanwhile is only replaced by force, and then
    /// what it was is in the copy beside it.
    pub(super) fn save(&mut self, is_forced: bool) -> Result<(), Trouble> {
        let failed = |e: &OwnError| Trouble::not_now(e.to_string(), e.next());
        if !self.path.exists() {
            let folder = self.path.parent().unwrap_or(std::path::Path::new("."));
            let put = crate::output::put_beside(folder, ".quarterpin-new-", self.text.as_bytes());
            put.and_then(|file| file.persist_noclobber(&self.path).map_err(|e| e.error))
                .map_err(|e| Trouble::not_now(format!("{} cannot be written: {e}", self.file), "check its folder"))?;
        } else {
            let own = OwnFile::take(&self.path).map_err(|e| failed(&e))?;
            let disk = fs::read(&self.path).unwrap_or_default();
            if disk != self.saved.as_bytes() && !is_forced {
                self.on_disk = OnDisk::Changed;
                let next = "look at both, then take the file's or write this one over it";
                return Err(Trouble::not_now(format!("{} was changed meanwhile", self.file), next));
            }
            own.replace(&disk, self.text.as_bytes()).map_err(|e| failed(&e))?;
        }
        self.saved.clone_from(&self.text);
        self.ghost = self.now.good().cloned();
        self.on_disk = OnDisk::Same;
        unsaved::forget(&self.path);
        Ok(())
    }
}
