//! Work that is not saved yet, kept beside its sheet after each step: whole, or not there.

use crate::output::put_beside;
use sha2::{Digest, Sha256};
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

const HEAD: &str = "# Not saved yet: kept by quarterpin, over the sheet with the SHA-256 ";

/// What was left unsaved.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Left {
    /// The sheet as it was meant to be.
    pub(super) text: String,
    /// Was it made over the file as it is now?
    pub(super) is_of_this_file: bool,
    /// Does it lie aside, because newer work is kept in its place?
    pub(super) is_aside: bool,
}

/// Where it lies.
pub(super) fn place(sheet: &Path) -> PathBuf {
    let mut name = sheet.as_os_str().to_owned();
    name.push(".unsaved");
    name.into()
}

/// Keeps a text that belongs over a saved one.
pub(super) fn keep(sheet: &Path, saved: &str, text: &str) -> io::Result<()> {
    let folder = sheet.parent().unwrap_or(Path::new("."));
    let all = format!("{HEAD}{}\n{text}", digest(saved));
    put_beside(folder, ".quarterpin-unsaved-", all.as_bytes())?.persist(place(sheet))?;
    Ok(())
}

/// What was left of a sheet, where it is not what the sheet says already.
pub(super) fn left(sheet: &Path, saved: &str) -> Option<Left> {
    let all = fs::read_to_string(place(sheet)).ok()?;
    let (digest_of, text) = all.strip_prefix(HEAD)?.split_once('\n')?;
    (text != saved).then(|| Left {
        text: text.to_owned(),
        is_of_this_file: digest_of == digest(saved),
        is_aside: false,
    })
}

/// Puts what was left out of the way of newer work; nothing of it is lost.
pub(super) fn set_aside(sheet: &Path) {
    let _ = fs::rename(place(sheet), aside(sheet));
}

fn aside(sheet: &Path) -> PathBuf {
    let mut old = place(sheet).into_os_string();
    old.push(".old");
    old.into()
}

/// Takes away what was set aside.
pub(super) fn forget_aside(sheet: &Path) {
    let _ = fs::remove_file(aside(sheet));
}

/// Takes it away, once it is saved or not wanted.
pub(super) fn forget(sheet: &Path) {
    // What is not there is gone already.
    let _ = fs::remove_file(place(sheet));
}

fn digest(text: &str) -> String {
    Sha256::digest(text.as_bytes()).iter().map(|byte| format!("{byte:02x}")).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_left_is_found_again() {
        let folder = tempfile::tempdir().unwrap();
        let sheet = folder.path().join("a.toml");
        assert_eq!(left(&sheet, "x"), None);
        keep(&sheet, "x", "y\nz").unwrap();
        let found = Left { text: "y\nz".to_owned(), is_of_this_file: true, is_aside: false };
        assert_eq!(left(&sheet, "x"), Some(found));
        assert_eq!(left(&sheet, "w").map(|left| left.is_of_this_file), Some(false));
        assert_eq!(left(&sheet, "y\nz"), None, "it is what the sheet says");
        set_aside(&sheet);
        assert_eq!(left(&sheet, "x"), None);
        forget(&sheet);
        forget_aside(&sheet);
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 0);
    }
}
