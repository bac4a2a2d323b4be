//! Files of earlier drafts that still lie in the folder.

use super::{heading, plain, wrapped};
use crate::output::Older;

/// Nothing at all where there are none.
pub fn render(older: &Older) -> String {
    let mut lines = Vec::new();
    if !older.not_written.is_empty() {
        let names = older.not_written.join(", ");
        lines.push(format!("of this name, from an earlier draft, and not written again: {names}"));
    }
    for (stem, files) in &older.renamed {
        lines.push(format!(
            "{stem}: {}, made from the same measurements under another name; delete them if the sheet was renamed",
            files.join(", ")
        ));
    }
    if lines.is_empty() {
        return String::new();
    }
    heading("Older files in the folder")
        + &lines.iter().map(|l| format!("  {}\n", wrapped(&plain(l), 2))).collect::<String>()
}
