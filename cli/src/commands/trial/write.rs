//! Puts the new text of a sheet in its place, once it has been read again and found to say what it
//! should.

use super::Stop;
use crate::own_file::OwnFile;
use crate::sheet::{Edit, edited, read_in};
use crate::terminal::plain;
use engine::sheet::Sheet;
use std::path::{Path, PathBuf};

/// Writes the sheet that was named so, and says where the copy lies.
pub(super) fn write(sheet: &Path, own: &OwnFile, source: &str, edit: Edit<'_>) -> Result<PathBuf, Stop> {
    let new = text(sheet.parent(), source, edit)?;
    own.replace(source.as_bytes(), new.as_bytes()).map_err(|e| Stop::plain(&plain(&e.to_string()), e.next()))
}

/// The new text of a sheet in a folder, read again.
pub(super) fn text(folder: Option<&Path>, source: &str, edit: Edit<'_>) -> Result<String, Stop> {
    let new = edited(source, edit).map_err(|e| cannot(&e.to_string()))?;
    let again = read_in(&new, "sheet", folder).map_err(|e| cannot(&e.to_string()))?;
    if alike(&again, edit.sheet) { Ok(new) } else { Err(cannot("it does not read as it was meant")) }
}

/// The same sheet, but for its variants, which lie over what is written.
fn alike(one: &Sheet, other: &Sheet) -> bool {
    let bare = |sheet: &Sheet| format!("{:?}", Sheet { variants: Vec::new(), ..sheet.clone() });
    bare(one) == bare(other)
}

fn cannot(why: &str) -> Stop {
    Stop::plain(
        &format!("this sheet is written in a way that cannot be changed safely ({}); nothing was written", plain(why)),
        "write the values into it by hand, as the answer without --apply tells them",
    )
}
